// METHOD  Best-first search of a quadtree. The distance from a point to the nearest wall changes by at most one for
// each unit the point
//         moves, so no point of a cell can be further from the walls than its middle is plus half the cell's diagonal;
//         cells that cannot beat the best middle so far are dropped. For the same reason a wall that is further from
//         the middle than the nearest one by more than the cell's diagonal is no point's nearest wall in that cell: its
//         quarters look only at the others.

#include "engine/rules/ball.hpp"

#include <algorithm>
#include <numeric>
#include <queue>

namespace pitchboard {
namespace {

/// The radius is found to this. Far finer than a ball or a board is made to.
constexpr Length kPrecision = inches(1e-4);

struct Cell {
  Point middle, half;                ///< half: half its sides
  Length clear;                      ///< from the middle to the nearest wall, negative inside one
  Length bound;                      ///< no point of the cell is clearer than this
  std::size_t first_wall, end_wall;  ///< of the list of walls that can be nearest
  /// The most promising on top; equal ones in a fixed order.
  friend bool operator<(const Cell& p, const Cell& q) {
    if (p.bound != q.bound) return p.bound < q.bound;
    return p.middle.a != q.middle.a ? p.middle.a < q.middle.a : p.middle.b < q.middle.b;
  }
};

/// Far above the rounding of distances.
constexpr Length kRounding = inches(1e-9);

Length clearance(const Polygon& wall, Point p) {
  const Length distance = distance_to_outline(wall, p);
  return contains(wall, p) ? -distance : distance;
}

}  // namespace

Length largest_ball(const std::vector<Polygon>& walls, Interval a, Interval b) {
  if (walls.empty() || a.size() <= Length() || b.size() <= Length()) return {};
  std::priority_queue<Cell> open;
  std::vector<std::size_t> near(walls.size());
  std::iota(near.begin(), near.end(), std::size_t{0});
  std::vector<Length> clear_of(walls.size());
  const auto add = [&](Point middle, Point half, std::size_t first, std::size_t end) {
    Length clear = inches(1e9);
    for (std::size_t i = first; i < end; ++i) {
      clear_of[i - first] = clearance(walls[near[i]], middle);
      clear = std::min(clear, clear_of[i - first]);
    }
    const Length reach = hypotenuse(half.a, half.b);
    const std::size_t kept = near.size();
    for (std::size_t i = first; i < end; ++i) {
      if (clear_of[i - first] <= clear + reach * 2.0 + kRounding) near.push_back(near[i]);
    }
    open.push({middle, half, clear, clear + reach, kept, near.size()});
  };
  add({a.middle(), b.middle()}, {a.size() / 2.0, b.size() / 2.0}, 0, walls.size());
  Length best;
  while (!open.empty() && open.top().bound - best > kPrecision) {
    const Cell cell = open.top();
    open.pop();
    best = std::max(best, cell.clear);
    const Point quarter{cell.half.a / 2.0, cell.half.b / 2.0};
    for (const double da : {-1.0, 1.0}) {
      for (const double db : {-1.0, 1.0})
        add(cell.middle + Point{quarter.a * da, quarter.b * db}, quarter, cell.first_wall, cell.end_wall);
    }
  }
  return best > Length() ? (best + kPrecision) * 2.0 : Length();
}

}  // namespace pitchboard
