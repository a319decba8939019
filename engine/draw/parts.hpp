#pragma once
// How parts of the frame look on paper. Internal to drawing.

#include <string>
#include <vector>

#include "engine/draw/canvas.hpp"
#include "engine/draw/sheets.hpp"

namespace pitchboard {

/// RETURNS the part seen along `view`, in that plane's axes: its outline where they match, else the box around it.
[[nodiscard]] Polygon seen_along(const Part& part, Axis view);
/// RETURNS pen, hatch and tint for the part seen along `view`.
[[nodiscard]] SheetPath look_of(const Part& part, Axis view);
[[nodiscard]] bool is_ground(const Part& part);
/// RETURNS indices of the parts, the furthest from someone on the stair's left first.
[[nodiscard]] std::vector<std::size_t> right_to_left(const Frame& frame);
/// RETURNS the extent of all parts but those in the ground and what is there already.
[[nodiscard]] Polygon whole_extent(const Frame& frame, Axis view);
[[nodiscard]] const Part* find_part(const Frame& frame, std::string_view mark);
[[nodiscard]] std::string side_words(Line side);

// The sheets, each drawn by its own file.
[[nodiscard]] std::vector<Canvas> draw_summary(const DrawInput& input, Paper paper);
[[nodiscard]] Canvas draw_elevation(const DrawInput& input, Paper paper);
[[nodiscard]] Canvas draw_plan_view(const DrawInput& input, Paper paper);
[[nodiscard]] std::vector<Canvas> draw_stringers(const DrawInput& input, Paper paper);
[[nodiscard]] Canvas draw_heads(const DrawInput& input, Paper paper);
[[nodiscard]] std::vector<Canvas> draw_rails(const DrawInput& input, Paper paper);
[[nodiscard]] std::vector<Canvas> draw_boards(const DrawInput& input, Paper paper);
[[nodiscard]] std::vector<Canvas> draw_lists(const DrawInput& input, Paper paper);
[[nodiscard]] std::vector<Canvas> draw_strength(const DrawInput& input, Paper paper);
[[nodiscard]] std::vector<Canvas> draw_calculation(const DrawInput& input, Paper paper);
[[nodiscard]] Canvas draw_front(const Job& job, const Search& search, Paper paper);
[[nodiscard]] std::vector<Canvas> draw_story_pole(const DrawInput& input, Paper paper);

}  // namespace pitchboard
