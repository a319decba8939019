#pragma once
// Findings and clashes in words: the same on paper, on the screen and in checks.txt.

#include <string>
#include <string_view>
#include <vector>

#include "engine/base/tape.hpp"
#include "engine/frame/frame.hpp"
#include "engine/rules/rules.hpp"

namespace pitchboard {

/// RETURNS the verdict in a word or two; "not asked" where the rule's condition is not met.
[[nodiscard]] std::string verdict_words(const Finding& finding);

/// How many findings have one verdict, worst verdict first. Rules that are not asked are not counted.
struct VerdictCount {
  Verdict verdict = Verdict::pass;
  std::string words;  ///< "3 from memory, 1 of them would fail"
};
[[nodiscard]] std::vector<VerdictCount> verdict_counts(const std::vector<Finding>& findings);
/// RETURNS the findings in their own order, those that are not asked last.
[[nodiscard]] std::vector<const Finding*> asked_first(const std::vector<Finding>& findings);

/// RETURNS a figure to the tape, or as a decimal where the tape would show nothing.
[[nodiscard]] std::string fine_figure_words(std::optional<double> value, std::string_view unit, UnitSystem units);
/// RETURNS what was measured, with its uncertainty; "yes" or "no" for what is either there or not.
[[nodiscard]] std::string measured_words(const Finding& finding, UnitSystem units);
/// RETURNS "at most 7 3/4"", "required", "advice".
[[nodiscard]] std::string limit_words(const Finding& finding, UnitSystem units);
/// RETURNS what would change the verdict, or why the rule is not asked.
[[nodiscard]] std::string change_words(const Finding& finding);
/// RETURNS a rule's condition as people say it: "the treads stand on cut stringers and the fall is over 30 in".
[[nodiscard]] std::string condition_words(const std::string& when);

/// RETURNS clashes in lines, one for each kind and pair of uses, with marks only where they are few.
[[nodiscard]] std::vector<std::string> clash_lines(const Frame& frame);

}  // namespace pitchboard
