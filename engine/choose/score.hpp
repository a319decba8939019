#pragma once
// What one stair of the space is worth: the same full check and exact order that a plan gets.

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/choose/matter.hpp"
#include "engine/choose/space.hpp"
#include "engine/cut/cut.hpp"

namespace pitchboard {

/// What stairs are compared by; less is better in each. Whole steps, rounded up, each as fine as somebody can tell: a
/// difference that nobody feels decides nothing.
struct Score {
  std::int64_t cost = 0;     ///< cents, of the exact order
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

/// A stair that has no treads and no hold-downs yet.
struct Begun {
  Job job;
  Skeleton skeleton;
};
/// RETURNS the stair as far as that. `job`: as `chosen` gives it.
[[nodiscard]] Begun begin(Job job, const Site& site, const Flight& flight);
/// RETURNS what that much of it comes to, as part of the full check.
[[nodiscard]] Evaluation check_skeleton(const Begun& begun, const Flight& flight);
/// A stair that is built, not yet priced or checked.
struct Built {
  Job job;
  Frame frame;
};
/// RETURNS the whole stair.
[[nodiscard]] Built build(Begun begun, const Site& site, const Flight& flight);
/// A stair with its order, not yet checked.
struct Priced {
  Built stair;
  CutPlan cuts;     ///< for the cost alone
  Figures figures;  ///< `ratio` and `weakest` are still to come
};
/// RETURNS the stair with what its exact order comes to. `memory`: of the stairs priced so far.
[[nodiscard]] Priced price(Built stair, const Flight& flight, BoardMemory& memory);
/// RETURNS what its rails, posts and their ties alone come to, as part of the full check.
[[nodiscard]] Evaluation check_rails(const Built& stair, const Flight& flight);
/// RETURNS the check of that stair: the full one, or strength alone if that holds and its figures are `beaten`.
[[nodiscard]] Evaluation check(Priced priced, const Site& site, const Flight& flight,
                               const std::function<bool(const Figures&)>& beaten);
/// RETURNS the exact order and the full check.
[[nodiscard]] Evaluation evaluate(const Job& job, const Site& site, const Flight& flight);

}  // namespace pitchboard
