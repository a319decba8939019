#include "engine/choose/score.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/buy/buy.hpp"
#include "engine/choose/labour.hpp"
#include "engine/cut/board_search.hpp"
#include "engine/rules/rules.hpp"
#include "engine/strength/strength.hpp"

namespace pitchboard {
namespace {

Fault fault_of(const Finding& finding) {
  std::string kind = fmt::format("{}: {}", finding.clause, finding.sentence);
  return {kind, finding.change.empty() ? kind : fmt::format("{} {}", kind, finding.change)};
}
Fault fault_of(const Check& check) {
  std::string kind = fmt::format("{}: {} ({})", check.member, check.what, check.clause);
  std::string words = check.capacity > 0
                          ? fmt::format("{}, {}, {:.2f} times what it carries", check.where, kind, check.ratio)
                          : fmt::format("{}, {}, carries nothing there", check.where, kind);
  return {std::move(kind), std::move(words)};
}

/// Adds what is found to the evaluation.
class Tally {
 public:
  explicit Tally(Evaluation& out) : out_(out) {}
  void add(const Finding& finding) { take(finding, of(matters_of(finding))); }
  void add(const Check& check) {
    Worst& worst = of(matters_of(check));
    take(check, worst);
    worst.ratio = std::max(worst.ratio, weakness(check));
    if (weakness(check) <= out_.figures.ratio) return;
    out_.figures.ratio = weakness(check);
    out_.figures.weakest = fmt::format("{}, {}", check.where, check.what);
  }
  void add(Fault fault) { put(std::move(fault), of(kEveryMatter)); }

 private:
  void take(const auto& found, Worst& worst) {
    out_.open += found.verdict == Verdict::too_close || found.verdict == Verdict::not_checked;
    if (found.verdict == Verdict::fail) put(fault_of(found), worst);
  }
  void put(Fault fault, Worst& worst) {
    worst.fault = worst.fault.value_or(out_.faults.size());
    out_.faults.push_back(std::move(fault));
  }
  Worst& of(Matters matters) {
    const auto at = std::ranges::find(out_.worst, matters, &Worst::of);
    return at != out_.worst.end() ? *at : out_.worst.emplace_back(Worst{.of = matters});
  }
  Evaluation& out_;
};

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
  const auto [from, to] = comfortable_step();
  const Length step = flight.comfort.twice_rise_plus_going;
  return {.comfort = std::max({Length(), from - step, step - to}), .lift = flight.landing.lift};
}

Begun begin(Job job, const Site& site, const Flight& flight) {
  Skeleton skeleton = skeleton_of(job, site, flight, handrail_needed(job.place, flight.risers));
  return {std::move(job), std::move(skeleton)};
}

Evaluation check_skeleton(const Begun& begun, const Flight& flight) {
  Evaluation out;
  Tally tally(out);
  for (const Check& check : pitchboard::check_skeleton(begun.job, flight, begun.skeleton.frame)) tally.add(check);
  return out;
}

Built build(Begun begun, const Site& site, const Flight& flight) {
  Frame frame = finished(begun.job, site, flight, std::move(begun.skeleton));
  return {std::move(begun.job), std::move(frame)};
}

Priced price(Built stair, const Flight& flight, BoardMemory& memory) {
  const auto& [job, frame] = stair;
  CutPlan cuts = plan_cuts(job, frame, &memory);
  Figures figures = figures_of(flight);
  figures.cents = order_total(job, flight, frame, cuts).cents;
  figures.minutes = landing_minutes(job, flight.landing) + frame_minutes(flight, frame);
  return {std::move(stair), std::move(cuts), std::move(figures)};
}

Evaluation check_rails(const Built& stair, const Flight& flight) {
  Evaluation out;
  Tally tally(out);
  for (const Check& check : check_guards(stair.job, flight, stair.frame)) tally.add(check);
  return out;
}

Evaluation check(Priced priced, const Site& site, const Flight& flight,
                 const std::function<bool(const Figures&)>& beaten) {
  auto& [job, frame] = priced.stair;
  Evaluation out{.figures = std::move(priced.figures)};
  Tally tally(out);
  for (const Check& check : check_strength(job, flight, frame, Depth::verdicts).checks) tally.add(check);
  if (out.faults.empty() && beaten(out.figures)) return out;
  frame.clashes = find_clashes(frame);
  for (const Finding& finding : judge(job, site, flight, frame, false)) tally.add(finding);
  for (const Clash& clash : frame.clashes)
    tally.add(Fault{fmt::format("parts in each other's way: {}", clash.kind),
                    fmt::format("{} and {} clash: {}", clash.first, clash.second, clash.note)});
  for (const Problem& problem : priced.cuts.impossible)
    tally.add(Fault{"a piece that no board is long enough for", problem.wrong});
  return out;
}

Evaluation evaluate(const Job& job, const Site& site, const Flight& flight) {
  BoardMemory memory;
  return check(price(build(begin(job, site, flight), site, flight), flight, memory), site, flight,
               [](const Figures&) { return false; });
}

}  // namespace pitchboard
