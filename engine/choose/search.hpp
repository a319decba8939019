#pragma once
// The search over every stair that a job allows.
//
// METHOD  Of flights as comfortable one stair each is counted, and of those the one that may be worth most is built
//         first. A stair is left out when what it is alike in with one that was checked (`Matters`) decided on a fault
//         there; when a stair that was found is nowhere worse than the least ratio known of it with the order of one on
//         its flight to which less is added; when it has a fault on what is counted of it or before its treads are on
//         (`check_counted_posts`, `check_counted_treads`, `check_skeleton`), which also says what its ratio is at
//         least; or when a stair that was found is nowhere worse than what is counted. What is left is priced, and
//         checked whole if that is not beaten.
// LIMITS  The posts are the job's own, or else the first that any stair can be built with. That nothing added makes a
//         flight cheaper or less work, and what verdicts are a matter of, is not proven: tests/plan_choose_front.cpp
//         holds both against brute force.
//         The queue holds what is counted of all flights as comfortable: for a thousand of them some 50 MB.
// TRIED   Boxes of goings and of numbers of stringers with a bound from their corners. They left out stairs of the
//         front: neither cost nor strength only grows with going or stringers (screws come in boxes, a hold-down's
//         block fits or not). Steps judged on a frame without rails before the whole one: four times as many frames.
//
// 1. No stair of the space that can be built is nowhere worse and somewhere better than one on the front.
// 2. Equal jobs give equal results, bit for bit.

#include <string>
#include <vector>

#include "engine/choose/memory.hpp"

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
  /// For each family of the space the kind of the first fault of the stair in it that comes nearest; empty where one
  /// can be built, or where all are beaten before one was looked at. Where none was checked whole: a fault of the last
  /// that was looked at.
  std::vector<std::string> families;
  Memory known;                           ///< what was found; its keys count the rails of `space_of`
  std::size_t evaluated = 0, priced = 0;  ///< stairs that were checked whole, and those whose whole order was made
};

/// RETURNS what a stair costs once work and comfort are weighed in, cents: the least is the default pick.
[[nodiscard]] double worth(const Job& job, const Score& score);

/// RETURNS the front. Empty when no stair of the space can be built: `families` says why.
[[nodiscard]] Search search_stairs(const Job& job, const Site& site);

}  // namespace pitchboard
