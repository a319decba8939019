// METHOD  Best-first search of a quadtree. The distance from a point to the nearest wall changes by at most one for
// each unit the point
//         moves, so no point of a cell can be further from the walls than its middle is plus half the cell's diagonal;
//         cells that cannot beat the best middle so far are dropped.

#include "engine/rules/ball.hpp"

#include <algorithm>
#include <queue>

namespace pitchboard {
namespace {

/// The radius is found to this. Far finer than a ball or a board is made to.
constexpr Length kPrecision = inches(1e-4);

struct Cell {
  Point middle, half;  ///< half: half its sides
  Length clear;        ///< from the middle to the nearest wall, negative inside one
  Length bound;        ///< no point of the cell is clearer than this
  /// The most promising on top; equal ones in a fixed order.
  friend bool operator<(const Cell& p, const Cell& q) {
    if (p.bound != q.bound) return p.bound < q.bound;
    return p.middle.a != q.middle.a ? p.middle.a < q.middle.a : p.middle.b < q.middle.b;
  }
};

Length clearance(const std::vector<Polygon>& walls, Point p) {
  Length best = inches(1e9);
  for (const Polygon& wall : walls) {
    const Length distance = distance_to_outline(wall, p);
    best = std::min(best, contains(wall, p) ? -distance : distance);
  }
  return best;
}

}  // namespace

Length largest_ball(const std::vector<Polygon>& walls, Interval a, Interval b) {
  if (walls.empty() || a.size() <= Length() || b.size() <= Length()) return {};
  std::priority_queue<Cell> open;
  const auto add = [&](Point middle, Point half) {
    const Length clear = clearance(walls, middle);
    open.push({middle, half, clear, clear + hypotenuse(half.a, half.b)});
  };
  add({a.middle(), b.middle()}, {a.size() / 2.0, b.size() / 2.0});
  Length best;
  while (!open.empty() && open.top().bound - best > kPrecision) {
    const Cell cell = open.top();
    open.pop();
    best = std::max(best, cell.clear);
    const Point quarter{cell.half.a / 2.0, cell.half.b / 2.0};
    for (const double da : {-1.0, 1.0}) {
      for (const double db : {-1.0, 1.0}) add(cell.middle + Point{quarter.a * da, quarter.b * db}, quarter);
    }
  }
  return best > Length() ? (best + kPrecision) * 2.0 : Length();
}

}  // namespace pitchboard
