#pragma once
// The strength calculation in words: the same on paper, on the screen and in checks.txt.

#include <string>
#include <vector>

#include "engine/draw/finding_words.hpp"
#include "engine/strength/strength.hpp"

namespace pitchboard {

/// RETURNS a figure's number: whole above 1,000, four digits below, and no zeros that say nothing.
[[nodiscard]] std::string number_words(double value);
/// RETURNS "1,234 psi"; "not known" for a check without a value.
[[nodiscard]] std::string demand_words(const Check& check);
[[nodiscard]] std::string capacity_words(const Check& check);
/// RETURNS "0.87", or an empty text where nothing was checked.
[[nodiscard]] std::string ratio_words(const Check& check);
/// RETURNS where the figures of a check are only from memory: "from memory: CF, Ci"; empty where none is.
[[nodiscard]] std::string memory_words(const Check& check);
/// Checks that come out alike, as those of the left and the right side do.
struct AlikeChecks {
  const Check* check = nullptr;
  std::string where;  ///< all of them: "PL1, PR1"
};
/// RETURNS the checks from the highest ratio down, those without a value last.
[[nodiscard]] std::vector<AlikeChecks> weakest_first(const std::vector<Check>& checks);
/// RETURNS how many checks have each verdict, worst first.
[[nodiscard]] std::vector<VerdictCount> strength_counts(const Strength& strength);
/// RETURNS the way member by member with the highest ratio of each: "tread 0.61 > stringer 0.49 > head 0.71 (2 not
/// checked)".
[[nodiscard]] std::string links_words(const Strength& strength, const LoadPath& path);
/// RETURNS what the path's weakest link is, in a few words.
[[nodiscard]] std::string weakest_words(const Strength& strength, const LoadPath& path);

}  // namespace pitchboard
