#pragma once
// Why no stair of the space can be built: the kinds of fault that collide, and the stairs that come nearest.
//
// METHOD  Every stair is given the faults that the search found of stairs alike in their matters. One of every kind of
//         stair is checked whole, and what is near the best of them. Of the kinds of fault that hit all stairs
//         together, each is left out in turn, the rarest first, and stays out where the rest still hit them all. What
//         is left is proven stair by stair: for each kind one has to be found, checked whole, that only this kind of
//         them hits.
//
// 1. Every stair of the space has a fault of one of `kinds`.
// 2. Without any one of them that is not so: its witness has none of the others.

#include <string>
#include <vector>

#include "engine/choose/memory.hpp"

namespace pitchboard {

/// A stair with what is wrong with it.
struct FaultyStair {
  Choice choice;
  std::vector<Fault> faults;  ///< all of them
};
/// One kind of fault that is in the way.
struct InTheWay {
  std::string kind;     ///< see Fault
  FaultyStair witness;  ///< of the kinds in the way it has this one alone
};
struct Conflict {
  Space space;                  ///< with every way to hold the posts that the job allows
  std::vector<InTheWay> kinds;  ///< empty: some stair can be built, or no flight fits
  FaultyStair nearest;          ///< the stair with the fewest kinds of faults, of those checked whole
  std::size_t evaluated = 0;    ///< stairs that were checked whole
};

/// RETURNS what collides. For a job whose search has an empty front; `known`: what that search found.
[[nodiscard]] Conflict conflict_of(const Job& job, const Site& site, Memory known);

/// RETURNS it in words: the kinds, and what the stair that comes nearest still lacks.
[[nodiscard]] Problems problems_of(const Job& job, const Conflict& conflict);

}  // namespace pitchboard
