#pragma once
// What one stair of the space is worth: the same full check and exact order that a plan gets.

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/choose/matter.hpp"
#include "engine/choose/space.hpp"
#include "engine/cut/board_search.hpp"
#include "engine/cut/cut.hpp"
#include "engine/strength/strength.hpp"

namespace pitchboard {

/// What stairs are compared by; less is better in each. Whole steps, rounded up, each as fine as somebody can tell: a
/// difference that nobody feels decides nothing.
struct Score {
  std::int64_t cost = 0;     ///< cents, of the exact order and, as scrap, of the offcuts used
  std::int64_t work = 0;     ///< quarter hours of one person
  std::int64_t comfort = 0;  ///< quarter inches that 2R + G is off 24 to 25 in
  std::int64_t ratio = 0;    ///< twentieths: the weakest check's demand over capacity
  std::int64_t earth = 0;    ///< half inches that the landing is lifted or dug
  friend auto operator<=>(const Score&, const Score&) = default;
};
/// True when `a` is nowhere worse than `b`.
[[nodiscard]] bool no_worse(const Score& a, const Score& b);

struct Fault {
  std::string kind;   ///< without figures: equal for all stairs that have it
  std::string words;  ///< of this stair
};

/// The exact figures, for people.
struct Figures {
  std::int64_t cents = 0;
  double minutes = 0;
  Length comfort, lift;  ///< how far 2R + G is off; the landing's lift, below 0 for digging
  double ratio = 0;
  std::string weakest;  ///< check that has it
};
/// The worst of the checks and findings that are a matter of the same choices.
struct Worst {
  Matters of = kEveryMatter;
  double ratio = 0;
  std::optional<std::size_t> fault;  ///< index in Evaluation::faults
};
struct Evaluation {
  Figures figures;
  std::vector<Fault> faults;  ///< what fails: rules, strength, clashes, boards; empty: it can be built
  std::vector<Worst> worst;   ///< one for each set of matters
  int open = 0;               ///< rules too close to tell and checks without a value
};

[[nodiscard]] Score score_of(const Figures& figures);
/// RETURNS what the flight alone decides, whatever is added to it: comfort and lift; the rest is 0.
[[nodiscard]] Figures figures_of(const Flight& flight);

/// What is worked out once for all stairs of a job's space.
struct Shared {
  BoardMemory boards;                                ///< lists of pieces that were asked so far
  std::vector<std::optional<bool>> handrail_needed;  ///< by riser count
  double tied = -1;                                  ///< thickness of the stringers that the next is of, inches
  std::optional<double> short_tie;                   ///< see short_tie_capacity
};

/// One stair, looked at step by step: each step costs more than the one before and tells more.
class Appraisal {
 public:
  /// `job`: as `chosen` gives it. All have to last as long as the stair.
  Appraisal(const Job& job, const Site& site, const Flight& flight, Shared& shared)
      : job_(job), site_(site), flight_(flight), shared_(shared) {}

  // What it has at the least, of which nothing stands yet: see counted_stringers. In this order.
  /// RETURNS what guides say of its stringers, as part of the full check.
  [[nodiscard]] Evaluation check_guides();
  /// RETURNS what its posts tell, and whether hold-downs that they cannot do without have room. `known`: which those
  /// are, where the posts are known to pass but for them.
  [[nodiscard]] Evaluation check_counted_posts(std::shared_ptr<const HoldDownNeed> known = {});
  /// RETURNS what its tread boards tell, if they are not `known`.
  [[nodiscard]] Evaluation check_counted_treads(bool known = false);
  /// RETURNS which of its posts cannot do without hold-downs, if they pass but for those; or null.
  [[nodiscard]] const std::shared_ptr<const HoldDownNeed>& hold_down_need() const { return need_; }
  /// RETURNS what the rules say that are a matter of some choices alone but for those on guards, as part of the full
  /// check.
  [[nodiscard]] Evaluation check_rules();
  /// RETURNS what those on risers, goings and nosings say.
  [[nodiscard]] Evaluation check_steps();
  /// RETURNS the least that its figures can be if it passes; `ratio` is left at 0.
  [[nodiscard]] Figures least_figures();

  /// RETURNS what that or `raised_figures` gave last.
  [[nodiscard]] const Figures& least() const { return least_; }
  /// Lets go of what is counted: many stairs may wait. It is counted again where it is asked for.
  void let_go() { counted_ = {}; }

  // What stands without treads and hold-downs. In this order.
  /// RETURNS how many mid supports stand.
  [[nodiscard]] int standing();
  /// RETURNS the least figures where so many mid supports stand. REQUIRES least_figures.
  [[nodiscard]] Figures raised_figures(int standing);
  /// RETURNS what it comes to so far, as part of the full check; what is counted, and rails where those are known, are
  /// left out.
  [[nodiscard]] Evaluation check_skeleton(bool rails_known = false);

  // The whole stair.
  /// RETURNS what its posts and their ties alone come to, as part of the full check.
  [[nodiscard]] Evaluation check_posts();
  /// RETURNS what its exact order and the work come to; `ratio` and `weakest` are still to come.
  [[nodiscard]] const Figures& price();
  /// RETURNS the full check, or strength alone if that holds and its figures are `beaten`. REQUIRES its price.
  [[nodiscard]] Evaluation check(const std::function<bool(const Figures&)>& beaten);

 private:
  [[nodiscard]] const Skeleton& skeleton();
  [[nodiscard]] const Frame& frame();
  [[nodiscard]] bool handrail_needed();
  [[nodiscard]] bool count_hold_downs();
  void count_treads();
  [[nodiscard]] const Frame& counted();
  void count_supports(std::optional<int> standing);
  [[nodiscard]] Figures counted_figures();
  template <class Found>
  [[nodiscard]] Evaluation tallied(const std::vector<Found>& found) const;
  [[nodiscard]] Figures figures_with(const Frame& frame, std::int64_t cents) const;

  const Job& job_;
  const Site& site_;
  const Flight& flight_;
  Shared& shared_;
  Skeleton counted_;  ///< its stringers alone, or all that is certain
  std::shared_ptr<const HoldDownNeed> need_;
  int certain_ = 0;  ///< mid supports in `counted_`
  std::size_t parts_without_ = 0;
  std::vector<ItemCount> items_without_;  ///< of `counted_` before those
  Figures least_;
  std::optional<Skeleton> skeleton_;
  std::optional<Frame> frame_;
  CutPlan cuts_;  ///< for the cost alone
  Figures figures_;
};
/// RETURNS the exact order and the full check.
[[nodiscard]] Evaluation evaluate(const Job& job, const Site& site, const Flight& flight);

}  // namespace pitchboard
