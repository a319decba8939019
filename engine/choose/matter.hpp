#pragma once
// What the verdicts and ratios of a stair are a matter of: two stairs alike in these have the same.

#include <array>
#include <cstdint>
#include <initializer_list>

#include "engine/choose/space.hpp"
#include "engine/rules/rules.hpp"
#include "engine/strength/strength.hpp"

namespace pitchboard {

enum class Matter {
  top,
  kind,
  board,
  treads,
  riser_boards,
  risers,
  going,
  stringers,
  hanger,
  mid_supports,
  rails,
  rise,
  nosing,
  thickness,
  lone_tread,
  at_foot  ///< that come of the others: the riser's height, how far a tread projects and how thick it is; where there
           ///< is one tread alone, what its stringers' heads are cut to; and what of the rails shapes the stringers and
           ///< keeps mid supports from their places
};
constexpr std::size_t kMatters = 16;
using Matters = unsigned;  ///< a set of them
[[nodiscard]] constexpr Matters matters(std::initializer_list<Matter> list) {
  Matters out = 0;
  for (const Matter m : list) out |= 1u << static_cast<unsigned>(m);
  return out;
}
inline constexpr Matters kEveryMatter = (1u << kMatters) - 1;

/// A choice as numbers, one a matter: equal numbers, equal choices.
using Key = std::array<std::uint16_t, kMatters>;
/// RETURNS the key of that choice, whose head has a hanger board or not.
[[nodiscard]] Key key_of(const Space& space, const Choice& choice, bool hanger);
/// RETURNS the key with everything that is no matter of it set to 0.
[[nodiscard]] Key about(Key key, Matters of);

/// What the checks of tread boards, and of rails, caps, balusters and handrails, are a matter of; nothing else is a
/// matter of just these.
extern const Matters kTreadBoards, kRails;
/// What stringers, heads, feet and mid supports are a matter of, and posts but for what ties them.
extern const Matters kStringers, kPosts;
/// The same of rules on risers and goings, on the clear width, and on how many handrails there are.
extern const Matters kSteps, kWidth, kHandrails;
/// RETURNS what the finding is a matter of. SOURCE how each quantity is measured; tests/plan_choose_front.cpp.
[[nodiscard]] Matters matters_of(const Finding& finding);
/// RETURNS what the check is a matter of. SOURCE what each calculation reads of the frame; tests/plan_choose_front.cpp.
/// `hold_downs`: whether the stair's posts may have them.
[[nodiscard]] Matters matters_of(const Check& check, bool hold_downs);

}  // namespace pitchboard
