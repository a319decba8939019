#include "engine/choose/score.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/buy/buy.hpp"
#include "engine/choose/labour.hpp"
#include "engine/rules/rules.hpp"
#include "engine/strength/strength.hpp"

namespace pitchboard {
namespace {

/// Quantities that rails, more stringers and supports have no part in. The board on the rim, which a hanger board takes
/// the place of, is a part of the steps.
constexpr std::string_view kOfTheSteps[] = {"riser_height",
                                            "riser_variation",
                                            "riser_neighbour_variation",
                                            "riser_slope",
                                            "risers",
                                            "closed_risers",
                                            "open_riser_gap",
                                            "going",
                                            "going_variation",
                                            "going_neighbour_variation",
                                            "twice_rise_plus_going",
                                            "rise_plus_going",
                                            "going_minus_rise",
                                            "pitch",
                                            "nosing",
                                            "nosing_variation",
                                            "tread_overlap",
                                            "tread_slope",
                                            "flight_rise",
                                            "headroom"};
constexpr std::string_view kOfTheWidth[] = {"clear_width", "clear_width_above_rail"};
constexpr std::string_view kRailsAskedFor[] = {"handrail_sides", "guard"};
constexpr std::string_view kOfTheGuard[] = {"post", "rail", "cap", "baluster", "handrail"};

bool among(const auto& words, std::string_view word) { return std::ranges::find(words, word) != std::end(words); }

constexpr Matters kSteps = matters(
    {Matter::top, Matter::kind, Matter::treads, Matter::riser_boards, Matter::risers, Matter::going, Matter::hanger});

Fault fault_of(const Finding& finding) {
  const std::string_view what = finding.quantity;
  const Matters of = among(kOfTheSteps, what)      ? kSteps
                     : among(kOfTheWidth, what)    ? matters({Matter::kind, Matter::rails})
                     : among(kRailsAskedFor, what) ? matters({Matter::risers, Matter::rails})
                     : what.starts_with("guard") || what.starts_with("handrail") ? kSteps | matters({Matter::rails})
                                                                                 : kEveryMatter;
  return {fmt::format("{}: {}", finding.clause, finding.sentence), of};
}

Fault fault_of(const Check& check) {
  const bool of_guard = among(kOfTheGuard, check.member);
  return {fmt::format("{}, {}: {} ({}), {:.2f} times what it carries", check.where, check.member, check.what,
                      check.clause, check.ratio),
          of_guard ? kSteps | matters({Matter::board, Matter::stringers, Matter::rails}) : kEveryMatter, of_guard};
}

std::int64_t steps_up(double value, double step) { return static_cast<std::int64_t>(std::ceil(value / step - 1e-6)); }

}  // namespace

bool no_worse(const Score& a, const Score& b) {
  return a.cost <= b.cost && a.work <= b.work && a.comfort <= b.comfort && a.ratio <= b.ratio && a.earth <= b.earth;
}

Score score_of(const Figures& figures) {
  return {figures.cents, steps_up(figures.minutes, 15.0), steps_up(in_inches(figures.comfort), 0.25),
          steps_up(figures.ratio, 0.05), steps_up(in_inches(abs(figures.lift)), 0.5)};
}

Figures figures_of(const Flight& flight) {
  const Length from = inches(choosing_figure("comfort-from")), to = inches(choosing_figure("comfort-to"));
  const Length step = flight.comfort.twice_rise_plus_going;
  return {.comfort = std::max({Length(), from - step, step - to}), .lift = flight.landing.lift};
}

std::vector<Fault> steps_faults(const Job& job, const Site& site, const Flight& flight) {
  Job bare = job;
  bare.rails.left = bare.rails.right = SideRail::none;
  bare.rails.handrail = HandrailWish::no;
  bare.stringers.mid_supports = 0;
  std::vector<Fault> out;
  for (const Finding& finding : judge(bare, site, flight, build_frame(bare, site, flight, false))) {
    if (finding.verdict == Verdict::fail && among(kOfTheSteps, finding.quantity)) out.push_back(fault_of(finding));
  }
  return out;
}

Evaluation evaluate(const Job& job, const Site& site, const Flight& flight) {
  Evaluation out{figures_of(flight), {}, 0};
  const Frame frame = build_frame(job, site, flight, handrail_needed(job.place, flight.risers));
  for (const Finding& finding : judge(job, site, flight, frame)) {
    if (finding.verdict == Verdict::fail) out.faults.push_back(fault_of(finding));
    out.open += finding.verdict == Verdict::too_close || finding.verdict == Verdict::not_checked;
  }
  for (const Check& check : check_strength(job, flight, frame, Depth::quick).checks) {
    if (check.verdict == Verdict::not_checked) ++out.open;
    if (check.verdict == Verdict::fail) out.faults.push_back(fault_of(check));
    if (weakness(check) > out.figures.ratio) {
      out.figures.ratio = weakness(check);
      out.figures.weakest = fmt::format("{}, {}", check.where, check.what);
    }
  }
  for (const Clash& clash : frame.clashes) {
    out.faults.push_back({fmt::format("{} and {} clash: {}", clash.first, clash.second, clash.note)});
  }
  const CutPlan cuts = plan_cuts(job, frame);
  for (const Problem& problem : cuts.impossible) out.faults.push_back({problem.wrong});
  out.figures.cents = make_order(job, flight, frame, cuts).total.cents;
  out.figures.minutes = landing_minutes(job, flight.landing) + frame_minutes(flight, frame);
  return out;
}

}  // namespace pitchboard
