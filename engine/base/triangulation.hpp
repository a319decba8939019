#pragma once
// A simple polygon cut into triangles that stay constrained Delaunay while points are put in.
//
// SOURCE  C. L. Lawson, Software for C1 surface interpolation, 1977 (flips); J. Ruppert, A Delaunay refinement
// algorithm
//         for quality 2-dimensional mesh generation, J. Algorithms 18, 1995 (what stands in a new point's way).

#include <array>
#include <optional>
#include <vector>

namespace pitchboard {

struct Spot {
  double x = 0, y = 0;
};
[[nodiscard]] constexpr Spot operator-(Spot p, Spot q) { return {p.x - q.x, p.y - q.y}; }
[[nodiscard]] constexpr double dot(Spot p, Spot q) { return p.x * q.x + p.y * q.y; }
[[nodiscard]] constexpr double cross(Spot p, Spot q) { return p.x * q.y - p.y * q.x; }
[[nodiscard]] constexpr double square(Spot p) { return dot(p, p); }
/// RETURNS twice the area of the triangle, positive when its corners run anticlockwise.
[[nodiscard]] constexpr double turn(Spot p, Spot q, Spot r) { return cross(q - p, r - p); }
[[nodiscard]] constexpr Spot middle(Spot p, Spot q) { return {(p.x + q.x) / 2.0, (p.y + q.y) / 2.0}; }

class Triangulation {
 public:
  static constexpr int kOutline = -1;
  /// Side i runs from corner i to corner i + 1; `beside[i]` is the triangle across it, or kOutline.
  struct Triangle {
    std::array<int, 3> corner{}, beside{};
  };
  struct Side {
    int triangle = 0, side = 0;
  };

  /// No triangles when the polygon cannot be cut. REQUIRES a simple polygon, anticlockwise.
  explicit Triangulation(std::vector<Spot> polygon);

  [[nodiscard]] const std::vector<Spot>& points() const { return points_; }
  [[nodiscard]] const std::vector<Triangle>& triangles() const { return triangles_; }
  [[nodiscard]] Spot at(int point) const { return points_[static_cast<std::size_t>(point)]; }
  [[nodiscard]] const Triangle& triangle(int t) const { return triangles_[static_cast<std::size_t>(t)]; }
  /// RETURNS the side of the outline between two points. REQUIRES there is one.
  [[nodiscard]] Side outline_side(int from, int to) const;

  /// What a new point meets on the straight way from a triangle to it: the side of the outline that it lies behind or
  /// in whose circle it falls, or else the triangle that holds it. Neither where rounding leads astray.
  struct Way {
    std::optional<int> triangle;
    std::optional<Side> blocked;
  };
  [[nodiscard]] Way way_to(int from, Spot p);

  /// Both RETURN the new point. REQUIRES p inside the triangle; `p` on that side of the outline.
  int insert(int triangle, Spot p);
  int split(Side side, Spot p);
  /// Triangles that the last insert or split made or changed; some may be named twice.
  [[nodiscard]] const std::vector<int>& changed() const { return changed_; }

 private:
  [[nodiscard]] Triangle& mutable_triangle(int t) { return triangles_[static_cast<std::size_t>(t)]; }
  [[nodiscard]] bool in_circle(const Triangle& triangle, Spot p) const;
  void relink(int t, int was, int now);
  /// Flips the side opposite to corner 0 if that makes it Delaunay.
  bool flip(int t);
  void settle();
  bool clip_ears();

  std::vector<Spot> points_;
  std::vector<Triangle> triangles_;
  std::vector<int> changed_, pending_;
  std::vector<int> seen_;  ///< per triangle, the last search that came by
  int search_ = 0;
};

}  // namespace pitchboard
