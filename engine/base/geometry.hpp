#pragma once
// Small exact-enough plane geometry: points, simple polygons, and the prisms that every part of a stair is.
//
// AXES  x runs out from the deck edge, away from the house; z runs up from the deck surface (so the ground is
// negative);
//       y runs from the left edge of the stair to its right edge, left and right as seen from the ground, facing the
//       house.

#include <array>
#include <optional>
#include <vector>

#include "engine/base/units.hpp"

namespace pitchboard {

struct Point {
  Length a, b;
  friend constexpr Point operator+(Point p, Point q) { return {p.a + q.a, p.b + q.b}; }
  friend constexpr Point operator-(Point p, Point q) { return {p.a - q.a, p.b - q.b}; }
  friend constexpr bool operator==(Point p, Point q) = default;
};
[[nodiscard]] inline Length distance(Point p, Point q) { return hypotenuse(p.a - q.a, p.b - q.b); }

struct Interval {
  Length from, to;
  [[nodiscard]] constexpr Length size() const { return to - from; }
  [[nodiscard]] constexpr Length middle() const { return (from + to) / 2.0; }
  [[nodiscard]] constexpr bool contains(Length v) const { return from <= v && v <= to; }
};
/// RETURNS how far two intervals overlap; negative is the gap between them.
[[nodiscard]] constexpr Length overlap(Interval p, Interval q) {
  return (p.to < q.to ? p.to : q.to) - (p.from > q.from ? p.from : q.from);
}

/// A simple polygon, corners in order (either way round), not closed by repeating the first.
using Polygon = std::vector<Point>;

[[nodiscard]] Polygon rectangle(Interval a, Interval b);
/// RETURNS the enclosed area, always positive.
[[nodiscard]] Area area(const Polygon& polygon);
/// True when the corners run from the first axis towards the second.
[[nodiscard]] bool runs_anticlockwise(const Polygon& polygon);
[[nodiscard]] Interval extent_a(const Polygon& polygon);
[[nodiscard]] Interval extent_b(const Polygon& polygon);
[[nodiscard]] bool contains(const Polygon& polygon, Point p);
/// RETURNS the shortest distance from p to the outline itself, inside or outside.
[[nodiscard]] Length distance_to_outline(const Polygon& polygon, Point p);
/// RETURNS the part of `polygon` with its first (a) or second (b) coordinate inside `band`. A concave polygon may give
/// pieces joined by zero-width bridges: right for areas and extents, not for counting pieces.
[[nodiscard]] Polygon clip_a(const Polygon& polygon, Interval band);
[[nodiscard]] Polygon clip_b(const Polygon& polygon, Interval band);
/// RETURNS the area that two simple polygons share.
[[nodiscard]] Area shared_area(const Polygon& p, const Polygon& q);
/// RETURNS the point, or the polygon, turned so that the direction (ua, ub) becomes the first axis. REQUIRES ua² + ub²
/// = 1.
[[nodiscard]] constexpr Point turned(Point p, double ua, double ub) {
  return {p.a * ua + p.b * ub, p.b * ua - p.a * ub};
}
[[nodiscard]] Polygon turned(const Polygon& polygon, double ua, double ub);
/// RETURNS the stretches of the line a = `at` that lie inside the polygon, in order (b = `at` for the second form).
[[nodiscard]] std::vector<Interval> slice_at_a(const Polygon& polygon, Length at);
[[nodiscard]] std::vector<Interval> slice_at_b(const Polygon& polygon, Length at);

enum class Axis { x, y, z };

struct Point3 {
  Length x, y, z;
  friend constexpr Point3 operator+(Point3 p, Point3 q) { return {p.x + q.x, p.y + q.y, p.z + q.z}; }
  friend constexpr Point3 operator-(Point3 p, Point3 q) { return {p.x - q.x, p.y - q.y, p.z - q.z}; }
  [[nodiscard]] constexpr Length along(Axis axis) const { return axis == Axis::x ? x : axis == Axis::y ? y : z; }
};
/// A direction of length one.
struct Direction {
  double x = 0, y = 0, z = 0;
};
[[nodiscard]] constexpr Point3 moved(Point3 p, Direction d, Length by) {
  return {p.x + by * d.x, p.y + by * d.y, p.z + by * d.z};
}

/// A solid with two flat parallel faces: an outline in the plane square to `normal`, carried through `span` along it.
/// The outline's (a, b) are (y, z) for normal x, (x, z) for normal y and (x, y) for normal z.
struct Prism {
  Axis normal = Axis::y;
  Interval span;
  Polygon outline;
};
[[nodiscard]] Point in_plane_of(const Prism& prism, Point3 p);
[[nodiscard]] bool contains(const Prism& prism, Point3 p);
[[nodiscard]] Volume volume(const Prism& prism);
/// RETURNS the box that holds the prism: x, y and z extents.
[[nodiscard]] std::array<Interval, 3> box(const Prism& prism);
/// RETURNS how much volume two prisms share beyond a skin of `skin` on every face; zero when they only touch.
[[nodiscard]] Volume shared_volume(const Prism& p, const Prism& q, Length skin);
/// RETURNS the stretches of the segment from `tail` along `direction` for `length` that run inside the prism, measured
/// from `tail`, in order.
[[nodiscard]] std::vector<Interval> inside(const Prism& prism, Point3 tail, Direction direction, Length length);
/// RETURNS the shortest distance between two segments.
[[nodiscard]] Length distance(Point3 p0, Point3 p1, Point3 q0, Point3 q1);

}  // namespace pitchboard
