#pragma once
// The search over every stair that a job allows.
//
// METHOD  Branch and bound over boxes of stairs (A. Land and A. Doig, 1960) for several aims at once: a box is left out
//         when a stair that was found is nowhere worse than the best that the box could hold. The bounds rest on what
//         adding does: more stringers, a hanger board, supports or rail ties never make a stair cheaper or quicker to
//         build, a longer going neither, and of one flight the shorter goings with the most stringers are the
//         strongest. docs/choose.md says where that is checked.
//
// 1. The front is exact: no stair of the space that can be built is nowhere worse and somewhere better than one on it.
// 2. Equal jobs give equal results, bit for bit.

#include <string>
#include <vector>

#include "engine/choose/score.hpp"

namespace pitchboard {

/// One stair on the front.
struct Option {
  Choice choice;
  Score score;
  Figures figures;
  int open = 0;  ///< what is too close to tell or has no value
};
struct Search {
  Space space;
  std::vector<Option> front;  ///< cheapest first
  std::size_t pick = 0;       ///< index in `front` of the default pick; see `worth`
  /// For each family of the space the first fault of the stair in it that comes nearest; empty where one can be built,
  /// or where all are beaten before one was looked at.
  std::vector<std::string> families;
  std::size_t evaluated = 0, stepped = 0;  ///< stairs that were checked whole, and those whose steps were
};

/// RETURNS what a stair costs once work and comfort are weighed in, cents: the least is the default pick.
[[nodiscard]] double worth(const Job& job, const Score& score);

/// RETURNS the front. Empty when no stair of the space can be built: `families` says why.
[[nodiscard]] Search search_stairs(const Job& job, const Site& site);

}  // namespace pitchboard
