#pragma once
// Words and figures that several sheets share. Internal to drawing.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/tape.hpp"
#include "engine/frame/frame.hpp"
#include "engine/rules/rules.hpp"

namespace pitchboard {

/// RETURNS a drill's size: to 1/64 in, or to 0.1 mm.
[[nodiscard]] std::string drill_words(Length diameter, UnitSystem units);
/// RETURNS the marks in the order given, runs of one letter and following numbers joined: "B1-B3, S1".
[[nodiscard]] std::string mark_ranges(const std::vector<std::string>& marks);
/// RETURNS the marks sorted by letters, then by number.
[[nodiscard]] std::vector<std::string> sorted_marks(std::vector<std::string> marks);
/// RETURNS what is notched out of a tread: "notch 3 3/4" × 1/2", 4 1/4" from the front edge, left and right".
[[nodiscard]] std::string notch_words(const Part& part, UnitSystem units);
/// RETURNS a section as people ask for it at the yard; what the catalog does not know keeps its name.
[[nodiscard]] std::string section_words(const std::string& nominal);
/// RETURNS a rule's number in words: lengths as tape text, angles in degrees, slopes as percent.
[[nodiscard]] std::string figure_words(std::optional<double> value, std::string_view unit, UnitSystem units);
[[nodiscard]] std::string verdict_words(Verdict verdict);

}  // namespace pitchboard
