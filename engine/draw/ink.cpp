#include "engine/draw/ink.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "engine/base/sort.hpp"

namespace pitchboard {
namespace {

using Stroke = std::vector<SheetPoint>;
using Strokes = std::vector<Stroke>;

constexpr double kHidden[] = {3.0, 2.0};
constexpr double kDashed[] = {7.0, 3.0};
/// Distance between the lines of a hatch, and the sides of the cells that hold one grain each.
constexpr double kWoodSpacing = 2.6, kEarthCell = 11.0, kGravelCell = 6.0, kSandCell = 3.2, kConcreteCell = 5.0;

struct Bounds {
  double x0, y0, x1, y1;
};
Bounds bounds_of(const Stroke& points) {
  Bounds b{points[0].x, points[0].y, points[0].x, points[0].y};
  for (const SheetPoint p : points) {
    b.x0 = std::min(b.x0, p.x), b.x1 = std::max(b.x1, p.x);
    b.y0 = std::min(b.y0, p.y), b.y1 = std::max(b.y1, p.y);
  }
  return b;
}

bool inside(const Stroke& polygon, SheetPoint p) {
  bool in = false;
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
    const SheetPoint a = polygon[i], b = polygon[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)) in = !in;
  }
  return in;
}

/// Adds the stretches of the segment p-q inside the polygon.
void add_clipped(const Stroke& polygon, SheetPoint p, SheetPoint q, Strokes& out) {
  const double dx = q.x - p.x, dy = q.y - p.y;
  std::vector<double> cuts;
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
    const SheetPoint a = polygon[j], b = polygon[i];
    const double side_a = dx * (a.y - p.y) - dy * (a.x - p.x), side_b = dx * (b.y - p.y) - dy * (b.x - p.x);
    if ((side_a > 0) == (side_b > 0)) continue;
    const double t = side_a / (side_a - side_b);
    const SheetPoint hit{a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
    cuts.push_back(((hit.x - p.x) * dx + (hit.y - p.y) * dy) / (dx * dx + dy * dy));
  }
  sort_stably(cuts);
  for (std::size_t i = 0; i + 1 < cuts.size(); i += 2) {
    const double from = std::max(cuts[i], 0.0), to = std::min(cuts[i + 1], 1.0);
    if (to > from) out.push_back({{p.x + from * dx, p.y + from * dy}, {p.x + to * dx, p.y + to * dy}});
  }
}

/// A fixed scatter: the same cell always holds the same grain, so equal sheets are equal bytes. RETURNS -0.5 to 0.5.
double scatter(int column, int row, std::uint32_t salt) {
  std::uint32_t h =
      static_cast<std::uint32_t>(column) * 0x9E3779B1U ^ static_cast<std::uint32_t>(row) * 0x85EBCA77U ^ salt;
  h ^= h >> 15, h *= 0x2C1B3C6DU, h ^= h >> 12, h *= 0x297A2D39U, h ^= h >> 15;
  return (h & 0xFFFFU) / 65535.0 - 0.5;
}

template <class Visit>
void each_cell(const Stroke& polygon, double cell, Visit visit) {
  const Bounds b = bounds_of(polygon);
  const int last_column = static_cast<int>(std::floor(b.x1 / cell)),
            last_row = static_cast<int>(std::floor(b.y1 / cell));
  for (int row = static_cast<int>(std::floor(b.y0 / cell)); row <= last_row; ++row) {
    for (int column = static_cast<int>(std::floor(b.x0 / cell)); column <= last_column; ++column) visit(column, row);
  }
}

Strokes wood_end(const Stroke& polygon) {
  Strokes out;
  const Bounds b = bounds_of(polygon);
  const double low = b.x0 + b.y0, high = b.x1 + b.y1;
  // Lines x + y = c, on a grid of the whole sheet so that neighbours match.
  for (double c = std::ceil(low / kWoodSpacing) * kWoodSpacing; c < high; c += kWoodSpacing) {
    add_clipped(polygon, {c - b.y0 + 1, b.y0 - 1}, {c - b.y1 - 1, b.y1 + 1}, out);
  }
  return out;
}

Strokes earth(const Stroke& polygon) {
  Strokes out;
  each_cell(polygon, kEarthCell, [&](int column, int row) {
    const double x = column * kEarthCell, y = row * kEarthCell, reach = kEarthCell * 0.62;
    const double lean = (column + row) % 2 == 0 ? reach : -reach;
    for (int i = 0; i < 3; ++i) {
      const SheetPoint middle{x + kEarthCell * (0.25 + 0.25 * i), y + kEarthCell * 0.5};
      add_clipped(polygon, {middle.x - lean / 2, middle.y - reach / 2}, {middle.x + lean / 2, middle.y + reach / 2},
                  out);
    }
  });
  return out;
}

/// Little closed shapes of `corners` corners, one a cell, left out where they would cross the outline.
Strokes grains(const Stroke& polygon, double cell, int corners, double size, int every) {
  // Corners of a unit pentagon and triangle; fixed numbers keep the bytes equal on every platform.
  static constexpr double kX[2][5] = {{1.0, 0.309, -0.809, -0.809, 0.309}, {1.0, -0.5, -0.5}};
  static constexpr double kY[2][5] = {{0.0, 0.951, 0.588, -0.588, -0.951}, {0.0, 0.866, -0.866}};
  const int shape = corners == 5 ? 0 : 1;
  Strokes out;
  each_cell(polygon, cell, [&](int column, int row) {
    if ((column + 2 * row) % every != 0) return;
    const double x = (column + 0.5 + 0.3 * scatter(column, row, 1)) * cell,
                 y = (row + 0.5 + 0.3 * scatter(column, row, 2)) * cell;
    Stroke grain;
    for (int i = 0; i < corners; ++i) {
      const double r = size * (1 + 0.5 * scatter(column, row, static_cast<std::uint32_t>(10 + i)));
      grain.push_back({x + r * kX[shape][i], y + r * kY[shape][i]});
    }
    grain.push_back(grain.front());
    if (std::ranges::all_of(grain, [&](SheetPoint p) { return inside(polygon, p); })) out.push_back(std::move(grain));
  });
  return out;
}

Strokes dots(const Stroke& polygon, double cell) {
  Strokes out;
  each_cell(polygon, cell, [&](int column, int row) {
    const SheetPoint p{(column + 0.5 + 0.9 * scatter(column, row, 3)) * cell,
                       (row + 0.5 + 0.9 * scatter(column, row, 4)) * cell};
    if (inside(polygon, p)) out.push_back({p, p});
  });
  return out;
}

}  // namespace

std::string_view fill_of(const SheetPath& path) {
  if (path.points.size() < 3) return {};
  if (!path.tint.empty()) return path.tint;
  return path.hatch == Hatch::none ? std::string_view() : "#FFFFFF";
}

std::span<const double> dashes(const SheetPath& path) {
  if (path.hidden_line) return kHidden;
  if (path.dashed) return kDashed;
  return {};
}

std::vector<std::vector<SheetPoint>> hatch_strokes(const SheetPath& path) {
  if (path.points.size() < 3) return {};
  switch (path.hatch) {
    case Hatch::none:
    case Hatch::solid_paper:
      return {};
    case Hatch::wood_end:
      return wood_end(path.points);
    case Hatch::earth:
      return earth(path.points);
    case Hatch::gravel:
      return grains(path.points, kGravelCell, 5, 1.7, 1);
    case Hatch::sand:
      return dots(path.points, kSandCell);
    case Hatch::concrete:
      break;
  }
  Strokes out = dots(path.points, kConcreteCell);
  for (Stroke& triangle : grains(path.points, kConcreteCell * 2, 3, 1.6, 3)) out.push_back(std::move(triangle));
  return out;
}

}  // namespace pitchboard
