#pragma once
// A search in words: what each stair is, why it is on the front, what a change of one choice would do.

#include <string>
#include <vector>

#include "engine/choose/search.hpp"

namespace pitchboard {

/// RETURNS the stair in a line: "5 risers of 7 1/4", going 10", 3 cut 2x12 stringers, two 2x6, closed risers".
[[nodiscard]] std::string stair_words(const Job& job, const Space& space, const Choice& choice);
/// RETURNS the family alone: "5 risers, cut 2x12 stringers, two 2x6, closed risers".
[[nodiscard]] std::string family_words(const Job& job, const Family& family);

/// RETURNS why no stair of the front takes the place of that one: what it is best at, or what every cheaper one lacks.
/// REQUIRES an index in `search.front`.
[[nodiscard]] std::string why_on_front(const Search& search, std::size_t option);

/// One choice made otherwise, all others as they are.
struct WhatIf {
  std::string change;  ///< "one riser more"
  Choice choice;
  Evaluation result;
  Length run;  ///< how much further out it ends
};
/// RETURNS what changing one choice of that option would do, wherever the space holds that stair. Each is checked
/// whole.
[[nodiscard]] std::vector<WhatIf> what_ifs(const Job& job, const Site& site, const Search& search, std::size_t option);

/// Kinds of stairs of which none can be built, for one and the same reason.
struct Rejected {
  std::string fault;
  std::vector<std::size_t> families;  ///< indices in Space::families
};
/// RETURNS the families of which every stair that was looked at has a fault, by the first fault of the one that comes
/// nearest, the most common first.
[[nodiscard]] std::vector<Rejected> rejected(const Search& search);

}  // namespace pitchboard
