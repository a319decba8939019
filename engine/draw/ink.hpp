#pragma once
// What pens, dashes and hatches look like: the one place that every renderer of a sheet asks.
//
// UNITS  points. SOURCE  pens: ISO 128-20 line widths; hatches: drafting custom, common practice, no source.

#include <span>
#include <string_view>
#include <vector>

#include "engine/draw/sheet.hpp"

namespace pitchboard {

constexpr double kPointsPerMillimetre = 72.0 / 25.4;
constexpr std::string_view kInk = "#20282D";
constexpr std::string_view kFontFamily = "B612";
constexpr std::string_view kMonoFamily = "B612 Mono";

[[nodiscard]] constexpr double pen_width(Pen pen) {
  return (pen == Pen::thin ? 0.18 : pen == Pen::medium ? 0.35 : 0.7) * kPointsPerMillimetre;
}
/// RETURNS the colour that fills the path, kept by the path: its tint, or white under a hatch; empty: not filled.
[[nodiscard]] std::string_view fill_of(const SheetPath& path);
/// RETURNS lengths of strokes and gaps by turns; empty: an unbroken line.
[[nodiscard]] std::span<const double> dashes(const SheetPath& path);
/// RETURNS the thin strokes that fill the path with its hatch, clipped to it. Two points at one place are a dot.
[[nodiscard]] std::vector<std::vector<SheetPoint>> hatch_strokes(const SheetPath& path);

}  // namespace pitchboard
