#pragma once
// Plane and space geometry of the tests' own, on bare doubles: nothing here is taken from the engine but the shapes.

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "engine/frame/frame.hpp"

namespace own {

struct Spot {
  double x = 0, y = 0, z = 0;
};
inline Spot operator+(Spot p, Spot q) { return {p.x + q.x, p.y + q.y, p.z + q.z}; }
inline Spot operator-(Spot p, Spot q) { return {p.x - q.x, p.y - q.y, p.z - q.z}; }
inline Spot operator*(double k, Spot p) { return {k * p.x, k * p.y, k * p.z}; }
inline double length(Spot p) { return std::sqrt(p.x * p.x + p.y * p.y + p.z * p.z); }
inline Spot spot(pitchboard::Point3 p) { return {p.x.raw(), p.y.raw(), p.z.raw()}; }

struct Flat {
  double a = 0, b = 0;
};

/// A part's solid as bare numbers.
struct Solid {
  int normal = 1;  ///< 0 x, 1 y, 2 z
  double from = 0, to = 0;
  std::vector<Flat> outline;
  std::array<double, 3> low{}, high{};

  explicit Solid(const pitchboard::Prism& prism)
      : normal(prism.normal == pitchboard::Axis::x   ? 0
               : prism.normal == pitchboard::Axis::y ? 1
                                                     : 2),
        from(prism.span.from.raw()),
        to(prism.span.to.raw()) {
    double a0 = 1e9, a1 = -1e9, b0 = 1e9, b1 = -1e9;
    for (const pitchboard::Point& p : prism.outline) {
      outline.push_back({p.a.raw(), p.b.raw()});
      a0 = std::min(a0, p.a.raw());
      a1 = std::max(a1, p.a.raw());
      b0 = std::min(b0, p.b.raw());
      b1 = std::max(b1, p.b.raw());
    }
    const std::array<double, 2> a{a0, a1}, b{b0, b1}, n{from, to};
    const auto set = [&](std::size_t axis, std::array<double, 2> v) {
      low[axis] = v[0];
      high[axis] = v[1];
    };
    set(0, normal == 0 ? n : a);
    set(1, normal == 1 ? n : normal == 0 ? a : b);
    set(2, normal == 2 ? n : b);
  }

  [[nodiscard]] Flat flat(Spot p) const {
    return normal == 0 ? Flat{p.y, p.z} : normal == 1 ? Flat{p.x, p.z} : Flat{p.x, p.y};
  }
  [[nodiscard]] double across(Spot p) const { return normal == 0 ? p.x : normal == 1 ? p.y : p.z; }

  [[nodiscard]] bool in_box(Spot p) const {
    return p.x >= low[0] && p.x <= high[0] && p.y >= low[1] && p.y <= high[1] && p.z >= low[2] && p.z <= high[2];
  }
  /// Even-odd rule: a ray to the right crosses the outline an odd number of times.
  [[nodiscard]] bool has(Spot p) const {
    if (!in_box(p)) return false;
    const Flat f = flat(p);
    bool odd = false;
    for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
      const Flat u = outline[i], v = outline[j];
      if ((u.b > f.b) != (v.b > f.b) && f.a < u.a + (v.a - u.a) * (f.b - u.b) / (v.b - u.b)) odd = !odd;
    }
    return odd;
  }
  [[nodiscard]] double to_outline(Flat f) const {
    double least = 1e9;
    for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
      const Flat u = outline[j], v = outline[i];
      const double da = v.a - u.a, db = v.b - u.b, square = da * da + db * db;
      const double t = square > 0 ? std::clamp(((f.a - u.a) * da + (f.b - u.b) * db) / square, 0.0, 1.0) : 0.0;
      least = std::min(least, std::hypot(f.a - u.a - t * da, f.b - u.b - t * db));
    }
    return least;
  }
  /// How deep a point inside lies under the nearest face.
  [[nodiscard]] double depth(Spot p) const { return std::min({to_outline(flat(p)), across(p) - from, to - across(p)}); }
  /// Highest z of the solid at that x; far below everything where there is none.
  [[nodiscard]] double top_at(double x) const {
    if (x < low[0] || x > high[0]) return -1e9;
    if (normal != 1) return high[2];
    double top = -1e9;
    for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
      const Flat u = outline[j], v = outline[i];
      if (std::min(u.a, v.a) > x || std::max(u.a, v.a) < x) continue;
      top =
          std::max(top, std::abs(u.a - v.a) < 1e-9 ? std::max(u.b, v.b) : u.b + (v.b - u.b) * (x - u.a) / (v.a - u.a));
    }
    return top;
  }
  /// Reach of the outline along a direction in its plane.
  [[nodiscard]] double reach(double da, double db) const {
    double least = 1e9, most = -1e9;
    for (const Flat f : outline) {
      least = std::min(least, f.a * da + f.b * db);
      most = std::max(most, f.a * da + f.b * db);
    }
    return most - least;
  }
};

/// Shortest way from a point to a segment.
inline double to_segment(Spot p, Spot a, Spot b) {
  const Spot d = b - a;
  const double square = d.x * d.x + d.y * d.y + d.z * d.z;
  const double along = (p.x - a.x) * d.x + (p.y - a.y) * d.y + (p.z - a.z) * d.z;
  return length(p - (a + std::clamp(square > 0 ? along / square : 0.0, 0.0, 1.0) * d));
}

/// Shortest way between two segments: the way from a point that walks along the first is convex, so halving thirds
/// finds it.
inline double between_segments(Spot a, Spot b, Spot c, Spot d) {
  double low = 0, high = 1;
  for (int i = 0; i < 60; ++i) {
    const double p = low + (high - low) / 3, q = high - (high - low) / 3;
    if (to_segment(a + p * (b - a), c, d) < to_segment(a + q * (b - a), c, d)) {
      high = q;
    } else {
      low = p;
    }
  }
  return to_segment(a + ((low + high) / 2) * (b - a), c, d);
}

}  // namespace own
