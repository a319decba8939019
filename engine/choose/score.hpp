#pragma once
// What one stair of the space is worth: the same full check and exact order that a plan gets.

#include <cstdint>
#include <initializer_list>
#include <string>
#include <vector>

#include "engine/choose/space.hpp"

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

/// What a fault is a matter of: two stairs alike in these have it both or neither.
enum class Matter { top, kind, board, treads, riser_boards, risers, going, stringers, hanger, mid_supports, rails };
constexpr std::size_t kMatters = 11;
using Matters = unsigned;  ///< a set of them
[[nodiscard]] constexpr Matters matters(std::initializer_list<Matter> list) {
  Matters out = 0;
  for (const Matter m : list) out |= 1u << static_cast<unsigned>(m);
  return out;
}
inline constexpr Matters kEveryMatter = (1u << kMatters) - 1;
struct Fault {
  std::string words;
  Matters matters = kEveryMatter;
  bool of_guard = false;  ///< of posts and rails, by strength
};

/// The exact figures, for people.
struct Figures {
  std::int64_t cents = 0;
  double minutes = 0;
  Length comfort, lift;  ///< how far 2R + G is off; the landing's lift, below 0 for digging
  double ratio = 0;
  std::string weakest;  ///< check that has it
};
struct Evaluation {
  Figures figures;
  std::vector<Fault> faults;  ///< what fails: rules, strength, clashes, boards; empty: it can be built
  int open = 0;               ///< rules too close to tell and checks without a value
};

[[nodiscard]] Score score_of(const Figures& figures);
/// RETURNS what the flight alone decides, whatever is added to it: comfort and lift; the rest is 0.
[[nodiscard]] Figures figures_of(const Flight& flight);
/// RETURNS the faults of treads, risers and nosings, from a frame without rails and supports, since those change none
/// of it.
[[nodiscard]] std::vector<Fault> steps_faults(const Job& job, const Site& site, const Flight& flight);
/// RETURNS the full check and the exact order of one stair. `job`: as `chosen` gives it.
[[nodiscard]] Evaluation evaluate(const Job& job, const Site& site, const Flight& flight);

}  // namespace pitchboard
