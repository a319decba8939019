#include "engine/choose/score.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/catalog.hpp"
#include "engine/buy/buy.hpp"
#include "engine/choose/labour.hpp"
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
  Tally(Evaluation& out, const Job& job) : out_(out), hold_downs_(job.rails.hold_downs) {}
  void add(const Finding& finding) { take(finding, of(matters_of(finding))); }
  void add(const Check& check) {
    Worst& worst = of(matters_of(check, hold_downs_));
    take(check, worst);
    worst.ratio = std::max(worst.ratio, weakness(check));
    if (weakness(check) <= out_.figures.ratio) return;
    out_.figures.ratio = weakness(check);
    weakest_ = &check;
  }
  void add(Fault fault) { put(std::move(fault), of(kEveryMatter)); }
  /// RETURNS the check of those added that has the greatest ratio, or nullptr.
  [[nodiscard]] const Check* weakest() const { return weakest_; }

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
  bool hold_downs_;
  const Check* weakest_ = nullptr;
};

/// RETURNS what the order comes to and what the offcuts in it would be worth as scrap: boards are the cheapest by both,
/// so that of two ways to cut the same pieces both cost that.
std::int64_t cents_of(Money total, const CutPlan& cuts) {
  for (const Board& board : cuts.boards) {
    if (board.offcut) total += board.price;
  }
  return total.cents;
}

/// Pieces are taken shorter by less than this for a bound. SOURCE own judgement: boards come in steps of 24 in.
constexpr Length kBoundStep = inches(2.0);

/// RETURNS the least that a stair costs that has all these parts and more: more pieces never make the cheapest boards
/// cheaper. Of boards without prices in the order's currency any may be taken.
std::int64_t least_cents(const Job& job, const Flight& flight, const Frame& frame, BoardMemory& memory) {
  Money total = order_total(job, flight, frame, {});
  for (const auto& [nominal, money] : least_costs(job, frame, kBoundStep, memory)) {
    if (in_demo_currency(job) || has_own_stock(job, nominal)) total += money;
  }
  return total.cents;
}

/// RETURNS the item of the two that costs no more.
std::string_view cheaper(const Job& job, std::string_view item, std::string_view other) {
  const auto price = [&](std::string_view key) {
    const ItemPrice* own = own_price(job, key);
    const HardwareRow* row = find_hardware(key);
    return own ? own->price.cents : in_demo_currency(job) && row ? row->price_cents : 0;
  };
  return price(other) < price(item) ? other : item;
}

/// What fails by more than this fails however sums are rounded.
constexpr double kSurely = 1.001;

int supports_of(const Frame& frame) {
  return static_cast<int>(std::ranges::count(frame.parts, PartKind::support_beam, &Part::kind));
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
  const auto [from, to] = comfortable_step();
  const Length step = flight.comfort.twice_rise_plus_going;
  return {.comfort = std::max({Length(), from - step, step - to}), .lift = flight.landing.lift};
}

template <class Found>
Evaluation Appraisal::tallied(const std::vector<Found>& found) const {
  Evaluation out;
  Tally tally(out, job_);
  for (const Found& one : found) tally.add(one);
  return out;
}

Figures Appraisal::figures_with(const Frame& frame, std::int64_t cents) const {
  Figures out = figures_of(flight_);
  out.cents = cents;
  out.minutes = landing_minutes(job_, flight_.landing) + frame_minutes(flight_, frame);
  return out;
}

Evaluation Appraisal::check_guides() {
  counted_ = counted_stringers(job_, site_, flight_);
  return tallied(pitchboard::check_guides(job_, flight_, counted_.frame));
}

bool Appraisal::handrail_needed() {
  const auto risers = static_cast<std::size_t>(flight_.risers);
  if (shared_.handrail_needed.size() <= risers) shared_.handrail_needed.resize(risers + 1);
  std::optional<bool>& needed = shared_.handrail_needed[risers];
  if (!needed) needed = pitchboard::handrail_needed(job_.place, flight_.risers);
  return *needed;
}

/// RETURNS whether those that it cannot do without have room.
bool Appraisal::count_hold_downs() {
  HoldDownItems items{cheaper(job_, "hold-down", "hold-down-low"), cheaper(job_, "angle-2", "angle-4-1/2")};
  if (!need_->posts.empty()) {
    const SectionRow* board = find_section(job_.stringers.board);
    if (const double thickness = board ? board->thickness : 0; thickness != shared_.tied) {
      shared_.tied = thickness;
      shared_.short_tie = short_tie_capacity(job_, flight_);
    }
    const double plumb = need_->moment / in_inches(counted_.frame.stringer_spacing);
    items.long_angles = shared_.short_tie && plumb > *shared_.short_tie * kSurely;
  }
  return pitchboard::count_hold_downs(counted_, need_->posts, items);
}

Evaluation Appraisal::check_counted_posts(std::shared_ptr<const HoldDownNeed> known) {
  count_posts(counted_);
  need_ = std::move(known);
  std::vector<Check> checks;
  if (!need_) {
    CountedPosts found = pitchboard::check_counted_posts(job_, flight_, counted_.frame);
    if (found.need) need_ = std::make_shared<const HoldDownNeed>(*std::move(found.need));
    checks = std::move(found.checks);
  }
  if (job_.rails.hold_downs && need_ && !count_hold_downs()) checks.push_back(need_->without);
  return tallied(checks);
}

void Appraisal::count_treads() {
  pitchboard::count_treads(counted_, handrail_needed());
  parts_without_ = counted_.frame.parts.size();
  items_without_ = counted_.frame.items;
}

Evaluation Appraisal::check_counted_treads(bool known) {
  count_treads();
  return known ? Evaluation() : tallied(pitchboard::check_counted_treads(job_, flight_, counted_.frame));
}

const Frame& Appraisal::counted() {
  if (counted_.frame.parts.empty()) {
    counted_ = counted_stringers(job_, site_, flight_);
    count_posts(counted_);
    if (job_.rails.hold_downs && need_) static_cast<void>(count_hold_downs());
    count_treads();
  }
  return counted_.frame;
}

/// Instead of those counted before.
void Appraisal::count_supports(std::optional<int> standing) {
  counted_.frame.parts.resize(parts_without_);
  counted_.frame.items = items_without_;
  pitchboard::count_supports(counted_, standing);
  certain_ = supports_of(counted_.frame);
}

Evaluation Appraisal::check_rules() {
  std::vector<Finding> found = judge(job_, site_, flight_, counted(), false);
  std::erase_if(found, [](const Finding& finding) {
    return matters_of(finding) == kEveryMatter || finding.quantity.starts_with("guard");  // not all balusters are there
  });
  return tallied(found);
}

Evaluation Appraisal::check_steps() { return tallied(judge_steps(job_, site_, flight_, counted())); }

Figures Appraisal::counted_figures() {
  least_ = figures_with(counted_.frame, least_cents(job_, flight_, counted_.frame, shared_.boards));
  return least_;
}

Figures Appraisal::least_figures() {
  count_supports(std::nullopt);
  return counted_figures();
}

int Appraisal::standing() { return supports_of(skeleton().frame); }

Figures Appraisal::raised_figures(int standing) {
  if (standing <= certain_) return least_;
  static_cast<void>(counted());
  count_supports(standing);
  return counted_figures();
}

const Skeleton& Appraisal::skeleton() {
  if (!skeleton_) skeleton_ = skeleton_of(job_, site_, flight_, handrail_needed());
  return *skeleton_;
}

Evaluation Appraisal::check_skeleton(bool rails_known) {
  return tallied(pitchboard::check_skeleton(job_, flight_, skeleton().frame, !rails_known));
}

const Frame& Appraisal::frame() {
  if (!frame_) {
    static_cast<void>(skeleton());
    frame_ = finished(*std::move(skeleton_));
  }
  return *frame_;
}

Evaluation Appraisal::check_posts() { return tallied(pitchboard::check_posts(job_, flight_, frame())); }

const Figures& Appraisal::price() {
  cuts_ = plan_cuts(job_, frame(), &shared_.boards);
  figures_ = figures_with(*frame_, cents_of(order_total(job_, flight_, *frame_, cuts_), cuts_));
  return figures_;
}

Evaluation Appraisal::check(const std::function<bool(const Figures&)>& beaten) {
  Evaluation out{.figures = figures_};
  Tally tally(out, job_);
  const Strength strength = check_strength(job_, flight_, frame(), Depth::verdicts);
  for (const Check& check : strength.checks) tally.add(check);
  if (const Check* weakest = tally.weakest())
    out.figures.weakest = fmt::format("{}, {}", weakest->where, weakest->what);
  if (out.faults.empty() && beaten(out.figures)) return out;
  frame_->clashes = find_clashes(*frame_);
  for (const Finding& finding : judge(job_, site_, flight_, *frame_, false)) tally.add(finding);
  for (const Clash& clash : frame_->clashes)
    tally.add(Fault{fmt::format("parts in each other's way: {}", clash.kind),
                    fmt::format("{} and {} clash: {}", clash.first, clash.second, clash.note)});
  for (const Problem& problem : cuts_.impossible)
    tally.add(Fault{"a piece that no board is long enough for", problem.wrong});
  return out;
}

Evaluation evaluate(const Job& job, const Site& site, const Flight& flight) {
  Shared shared;
  Appraisal stair(job, site, flight, shared);
  static_cast<void>(stair.price());
  return stair.check([](const Figures&) { return false; });
}

}  // namespace pitchboard
