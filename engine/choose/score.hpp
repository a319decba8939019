#pragma once
// What one stair of the space is worth: the same full check and exact order that a plan gets.

#include <cstdint>
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

/// The choices of which each fault is a matter: two stairs alike in these have it both or neither.
enum Matter : unsigned {
  of_family = 1u << 0,
  of_going = 1u << 1,
  of_stringers = 1u << 2,  ///< how many are added
  of_bearing = 1u << 3,
  of_mid_supports = 1u << 4,
  of_rails = 1u << 5,
  of_everything = 63u,
};
struct Fault {
  std::string words;
  unsigned matter = of_everything;
  bool of_guard = false;  ///< of posts and rails, by strength
};

/// The exact figures, for people.
struct Figures {
  std::int64_t cents = 0, landing_cents = 0;  ///< `landing`: what of it the landing takes
  double minutes = 0, landing_minutes = 0;
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
/// What the flight alone decides, whatever is added to it.
struct Steps {
  Figures figures;            ///< comfort, lift, and what the landing takes
  std::vector<Fault> faults;  ///< of treads, risers and nosings
};
/// RETURNS that, from a frame without rails and supports, since those change none of it.
[[nodiscard]] Steps steps_of(const Job& job, const Site& site, const Flight& flight);
/// RETURNS the full check and the exact order of one stair. `job`: as `chosen` gives it.
[[nodiscard]] Evaluation evaluate(const Job& job, const Site& site, const Flight& flight);

}  // namespace pitchboard
