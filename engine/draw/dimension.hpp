#pragma once
// Dimensions by drafting custom: extension lines with a gap and an overshoot, slant ticks, the figure over its line.
//
// SOURCE  ISO 129-1 and architects' practice, from memory.

#include <string>
#include <vector>

#include "engine/draw/canvas.hpp"

namespace pitchboard {

enum class Along { x, y };

/// A row of dimensions end to end. `at` are places along the chain; `feature` where each extension line begins, across
/// it.
struct Chain {
  Along along = Along::x;
  double line = 0;                   ///< where the dimension line lies, across the chain
  std::vector<double> at;            ///< any order; figures stand between neighbours
  std::vector<double> feature;       ///< one for each place
  std::vector<std::string> figures;  ///< one fewer than places
};
/// Draws the chain. A figure that finds no room over its line steps out beyond it, further and further, with a leader.
void draw_chain(Canvas& canvas, const Chain& chain);
/// One dimension.
void draw_dimension(Canvas& canvas, Along along, double line, double from, double to, double feature_from,
                    double feature_to, const std::string& figure);

/// Running dimensions: every figure counts from one origin and stands square to the axis at its own place.
struct Running {
  Along along = Along::x;
  double line = 0;               ///< where the lines end and the figures begin, across the axis
  bool outward_positive = true;  ///< figures stand on the side of growing x or y
  std::vector<double> at;        ///< ascending or descending
  std::vector<double> feature;
  std::vector<std::string> figures;  ///< one for each place
};
void draw_running(Canvas& canvas, const Running& running);

/// Figures in numbered cells, row after row: marks to be set out. RETURNS the y under the last row.
double draw_mark_grid(Canvas& canvas, SheetPoint corner, double width, const std::vector<std::string>& figures);
[[nodiscard]] double mark_grid_height(double width, std::size_t count);

}  // namespace pitchboard
