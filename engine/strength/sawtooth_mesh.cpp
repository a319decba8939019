// The mesh of a stringer, refined until every triangle is small and well shaped.
//
// 1. The outline, with the ends of loads and supports on it, is cut into triangles.
// 2. Its edges are divided as finely as the size asked for there.
// 3. The worst triangle gets a new point in the middle of its circle, or nearer (an off-centre), until none is bad;
// what
//    would crowd the outline splits the outline instead.
// SOURCE  J. Ruppert, J. Algorithms 18, 1995; A. Ungor, Off-centers: a new type of Steiner points, LATIN 2004.

#include <algorithm>
#include <cmath>
#include <limits>
#include <queue>
#include <utility>

#include "engine/base/triangulation.hpp"
#include "engine/strength/sawtooth.hpp"

namespace pitchboard {
namespace {

using Triangle = Triangulation::Triangle;
using Side = Triangulation::Side;

/// Elements grow by this much for each inch away from a re-entrant corner. Chosen by trial: see
/// docs/strength-sawtooth.md.
constexpr double kGrowth = 0.8;
/// Longest edge by the width of the wood across from a re-entrant corner.
constexpr double kAcross = 0.3;
/// Longest edge by the length of a seat, at an end of it within an edge: stress along the edge changes fast there.
constexpr double kSeat = 0.25;
/// A corner turning in by less than this, as a sine, is as good as straight: 3 degrees.
constexpr double kTurnsIn = 0.05;
/// Least angle asked for, as a sine: 28 degrees. The method is sure to end up to 20.7, and in practice up to 33.
constexpr double kLeastSine = 0.4695;
/// Height over its base of a triangle whose top angle is 28 degrees, with the other two 76: 1 / (2 tan 14), a little
/// less so that it passes.
constexpr double kOffCentre = 1.9;
/// Sides are not halved below this part of the smallest size asked for: sharp corners of an outline would be halved for
/// ever.
constexpr double kSmallestPart = 1.0 / 64.0;
/// Wood stretched by more would give too thin triangles.
constexpr double kMostStretch = 3.0;
constexpr std::size_t kMostPoints = 100000;

Spot spot(Point p) { return {p.a.raw(), p.b.raw()}; }

Spot nearest_on_segment(Spot p, Spot from, Spot to) {
  const Spot along = to - from;
  const double t = std::clamp(dot(p - from, along) / square(along), 0.0, 1.0);
  return {from.x + along.x * t, from.y + along.y * t};
}

double distance_to_segment(Spot p, Spot from, Spot to) {
  return std::sqrt(square(p - nearest_on_segment(p, from, to)));
}

bool cross_over(Spot p, Spot q, Spot r, Spot s) {
  return (turn(p, q, r) > 0) != (turn(p, q, s) > 0) && (turn(r, s, p) > 0) != (turn(r, s, q) > 0);
}

/// No edge touches another one but at their common corner.
bool is_simple(const std::vector<Spot>& polygon) {
  const std::size_t n = polygon.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Spot p = polygon[i], q = polygon[(i + 1) % n];
    for (std::size_t j = 0; j < n; ++j) {
      if (j != i && j != (i + 1) % n && distance_to_segment(polygon[j], p, q) < kTouch.raw()) return false;
      if (j == i || (j + 1) % n == i || (i + 1) % n == j) continue;
      if (cross_over(p, q, polygon[j], polygon[(j + 1) % n])) return false;
    }
  }
  return true;
}

/// The outline anticlockwise, with a corner wherever a load or support begins or ends; empty if it is no polygon.
std::vector<Spot> corners(const SawtoothModel& model) {
  std::vector<Spot> out;
  for (const Point corner : model.outline) {
    const Spot p = spot(corner);
    if (!std::isfinite(p.x) || !std::isfinite(p.y)) return {};
    out.push_back(p);
  }
  if (!runs_anticlockwise(model.outline)) std::ranges::reverse(out);
  if (out.size() < 3 || !is_simple(out)) return {};
  const auto add = [&](Point point) {
    const Spot p = spot(point);
    for (const Spot corner : out) {
      if (square(p - corner) < kTouch.raw() * kTouch.raw()) return;
    }
    for (std::size_t i = 0; i < out.size(); ++i) {
      if (distance_to_segment(p, out[i], out[(i + 1) % out.size()]) > kTouch.raw()) continue;
      out.insert(out.begin() + static_cast<std::ptrdiff_t>(i) + 1, p);
      return;
    }
  };
  for (const EdgeLoad& load : model.loads) {
    add(load.from);
    add(load.to);
  }
  for (const EdgeSupport& support : model.supports) {
    add(support.from);
    add(support.to);
  }
  return out;
}

/// The plane stretched across the grain by (E_L / E_T)^(1/4), where wood strains about alike in every direction: its
/// stresses change faster across the grain, so triangles that are even there are longer along it. Lengths grow, so an
/// edge that is short enough there is short enough here. SOURCE S. G. Lekhnitskii, Anisotropic Plates.
class Metric {
 public:
  explicit Metric(const PlaneWood& wood) {
    const double size = std::sqrt(wood.grain_a * wood.grain_a + wood.grain_b * wood.grain_b);
    along_ = {wood.grain_a / size, wood.grain_b / size};
    stretch_ = std::clamp(std::sqrt(std::sqrt(wood.e_l / wood.e_t)), 1.0, kMostStretch);
  }
  [[nodiscard]] Spot there(Spot p) const { return {dot(p, along_), cross(along_, p) * stretch_}; }
  [[nodiscard]] Point back(Spot p) const {
    const double across = p.y / stretch_;
    return {inches(p.x * along_.x - across * along_.y), inches(p.x * along_.y + across * along_.x)};
  }

 private:
  Spot along_;
  double stretch_ = 1;
};

/// How long an edge may be, by where it is: little at re-entrant corners, and no more than a share of the wood's width
/// across from them, where stress is greatest.
class Sizes {
 public:
  Sizes(const std::vector<Spot>& polygon, const SawtoothModel& model, const Metric& metric)
      : largest_(model.element), at_corner_(std::min(model.at_corner, model.element)) {
    const std::size_t n = polygon.size();
    for (std::size_t i = 0; i < n; ++i) {
      const Spot here = polygon[i], in = here - polygon[(i + n - 1) % n], out = polygon[(i + 1) % n] - here;
      if (cross(in, out) >= -kTurnsIn * std::sqrt(square(in) * square(out))) continue;
      corners_.push_back(here);
      fine_.push_back({here, at_corner_});
      Spot across = here;
      double width = std::numeric_limits<double>::infinity();
      for (std::size_t j = (i + 1) % n; j != (i + n - 1) % n; j = (j + 1) % n) {
        const Spot nearest = nearest_on_segment(here, polygon[j], polygon[(j + 1) % n]);
        if (square(here - nearest) >= width * width) continue;
        across = nearest;
        width = std::sqrt(square(here - nearest));
      }
      fine_.push_back({across, width * kAcross});
    }
    for (const EdgeSupport& support : model.supports) {
      for (const Point end : {support.from, support.to}) {
        if (std::ranges::find(model.outline, end) != model.outline.end()) continue;
        fine_.push_back({metric.there(spot(end)), distance(support.from, support.to).raw() * kSeat});
      }
    }
  }
  [[nodiscard]] double at(Spot p) const {
    double size = largest_;
    for (const Fine& fine : fine_) {
      const double spare = size - fine.size, apart = square(p - fine.place);
      if (spare > 0 && apart * kGrowth * kGrowth < spare * spare) size = fine.size + kGrowth * std::sqrt(apart);
    }
    return size;
  }
  [[nodiscard]] bool is_corner(Spot p) const {
    return std::ranges::any_of(corners_, [&](Spot c) { return c.x == p.x && c.y == p.y; });
  }
  [[nodiscard]] double smallest() const { return at_corner_; }

 private:
  struct Fine {
    Spot place;
    double size;
  };
  double largest_, at_corner_;
  std::vector<Spot> corners_;
  std::vector<Fine> fine_;
};

/// Places that divide the edge so that every piece is as long as its size asks, by the same share.
std::vector<Spot> division(Spot from, Spot to, const Sizes& sizes) {
  constexpr int kSteps = 256;
  const double length = std::sqrt(square(to - from));
  const auto place = [&](double t) { return Spot{from.x + (to.x - from.x) * t, from.y + (to.y - from.y) * t}; };
  // Steps are closer where an edge has its corner, at either end: t = 3u² - 2u³.
  const auto spread = [](double u) { return u * u * (3.0 - 2.0 * u); };
  std::vector<double> pieces(kSteps + 1, 0.0);
  for (int i = 0; i < kSteps; ++i) {
    const double t = spread(static_cast<double>(i) / kSteps), u = spread(static_cast<double>(i + 1) / kSteps);
    const std::size_t at = static_cast<std::size_t>(i);
    pieces[at + 1] = pieces[at] + (u - t) * length / sizes.at(place((t + u) / 2.0));
  }
  const int count = static_cast<int>(std::ceil(pieces.back()));
  std::vector<Spot> out;
  std::size_t step = 0;
  for (int i = 1; i < count; ++i) {
    const double wanted = pieces.back() * i / count;
    while (pieces[step + 1] < wanted) ++step;
    const double share = (wanted - pieces[step]) / (pieces[step + 1] - pieces[step]);
    const double t = spread(static_cast<double>(step) / kSteps), u = spread(static_cast<double>(step + 1) / kSteps);
    out.push_back(place(t + (u - t) * share));
  }
  return out;
}

class Refinement {
 public:
  Refinement(Triangulation& mesh, const Sizes& sizes)
      : mesh_(mesh), sizes_(sizes), smallest_(sizes.smallest() * kSmallestPart) {}

  void divide_outline(std::size_t corners) {
    for (std::size_t i = 0; i < corners; ++i) {
      const int to = static_cast<int>((i + 1) % corners);
      int from = static_cast<int>(i);
      for (const Spot p : division(mesh_.at(from), mesh_.at(to), sizes_)) {
        from = mesh_.split(mesh_.outline_side(from, to), p);
      }
    }
  }
  void refine() {
    for (int t = 0; t < static_cast<int>(mesh_.triangles().size()); ++t) weigh(t);
    while (!bad_.empty() && mesh_.points().size() < kMostPoints) {
      const Bad worst = bad_.top();
      bad_.pop();
      if (mesh_.triangle(worst.triangle).corner != worst.corner || !improve(worst)) continue;
      for (const int t : mesh_.changed()) weigh(t);
      if (mesh_.triangle(worst.triangle).corner == worst.corner) weigh(worst.triangle);
    }
  }

 private:
  struct Bad {
    double by = 0;  ///< how many times too large or too thin
    int triangle = 0;
    std::array<int, 3> corner{};
    bool thin = false;
    friend bool operator<(const Bad& p, const Bad& q) { return p.by != q.by ? p.by < q.by : p.triangle < q.triangle; }
  };

  void weigh(int t) {
    const Triangle& triangle = mesh_.triangle(t);
    std::array<Spot, 3> p{};
    std::array<double, 3> length{};
    for (std::size_t i = 0; i < 3; ++i) p[i] = mesh_.at(triangle.corner[i]);
    for (std::size_t i = 0; i < 3; ++i) length[i] = std::sqrt(square(p[(i + 1) % 3] - p[i]));
    const Spot centroid{(p[0].x + p[1].x + p[2].x) / 3.0, (p[0].y + p[1].y + p[2].y) / 3.0};
    const double large = std::ranges::max(length) / sizes_.at(centroid);
    // The least angle lies opposite to the shortest side; between two sides of the outline it is what it is.
    const std::size_t shortest = static_cast<std::size_t>(std::ranges::min_element(length) - length.begin());
    const std::size_t left = (shortest + 1) % 3, right = (shortest + 2) % 3;
    const bool given =
        triangle.beside[left] == Triangulation::kOutline && triangle.beside[right] == Triangulation::kOutline;
    const double sine = turn(p[0], p[1], p[2]) / (length[left] * length[right]);
    const double thin = given || length[shortest] < smallest_ ? 0 : kLeastSine / sine;
    if (large > 1.0) {
      bad_.push({large, t, triangle.corner, false});
    } else if (thin > 1.0) {
      bad_.push({thin, t, triangle.corner, true});
    }
  }

  bool improve(const Bad& bad) {
    const Triangulation::Way way = mesh_.way_to(bad.triangle, bad.thin ? off_centre(bad) : centre(bad));
    if (way.blocked) {
      const Triangle& triangle = mesh_.triangle(way.blocked->triangle);
      const auto side = static_cast<std::size_t>(way.blocked->side);
      const Spot p = mesh_.at(triangle.corner[side]), q = mesh_.at(triangle.corner[(side + 1) % 3]);
      if (square(q - p) < 4.0 * smallest_ * smallest_) return false;
      mesh_.split(*way.blocked, middle(p, q));
      return true;
    }
    if (!way.triangle) return false;
    mesh_.insert(*way.triangle, bad.thin ? off_centre(bad) : centre(bad));
    return true;
  }

  [[nodiscard]] Spot centre(const Bad& bad) const {
    const Spot a = mesh_.at(bad.corner[0]), b = mesh_.at(bad.corner[1]) - a, c = mesh_.at(bad.corner[2]) - a;
    const double scale = 0.5 / cross(b, c), bb = square(b), cc = square(c);
    return {a.x + (c.y * bb - b.y * cc) * scale, a.y + (b.x * cc - c.x * bb) * scale};
  }
  /// On the way from the shortest side to the centre, where the new triangle over that side is just good enough.
  [[nodiscard]] Spot off_centre(const Bad& bad) const {
    std::size_t shortest = 0;
    const auto length = [&](std::size_t i) {
      return square(mesh_.at(bad.corner[(i + 1) % 3]) - mesh_.at(bad.corner[i]));
    };
    for (std::size_t i = 1; i < 3; ++i) {
      if (length(i) < length(shortest)) shortest = i;
    }
    const Spot m = middle(mesh_.at(bad.corner[shortest]), mesh_.at(bad.corner[(shortest + 1) % 3])), c = centre(bad);
    const double share = kOffCentre * std::sqrt(length(shortest) / square(c - m));
    return share < 1.0 ? Spot{m.x + (c.x - m.x) * share, m.y + (c.y - m.y) * share} : c;
  }

  Triangulation& mesh_;
  const Sizes& sizes_;
  double smallest_;
  std::priority_queue<Bad> bad_;
};

/// RETURNS the middle of an edge; a quarter of the way from a re-entrant corner, which makes the strain along the edge
/// grow with 1 / sqrt(r), close to what the corner does. SOURCE R. S. Barsoum, 1976; R. D. Henshell, K. G. Shaw, 1975.
Spot middle_node(Spot from, Spot to, const Sizes& sizes) {
  const Spot m = middle(from, to);
  if (sizes.is_corner(from) == sizes.is_corner(to)) return m;
  return middle(m, sizes.is_corner(from) ? from : to);
}

SawtoothMesh with_middles(const Triangulation& mesh, const Sizes& sizes, const Metric& metric) {
  SawtoothMesh out;
  for (const Spot p : mesh.points()) out.nodes.push_back(metric.back(p));
  for (int t = 0; t < static_cast<int>(mesh.triangles().size()); ++t) {
    const Triangle& triangle = mesh.triangle(t);
    std::array<int, 6> element{triangle.corner[0], triangle.corner[1], triangle.corner[2], 0, 0, 0};
    for (std::size_t i = 0; i < 3; ++i) {
      const int from = triangle.corner[i], to = triangle.corner[(i + 1) % 3], beside = triangle.beside[i];
      if (beside != Triangulation::kOutline && beside < t) {
        const Triangle& other = mesh.triangle(beside);
        std::size_t j = 0;
        while (other.corner[j] != to) ++j;
        element[3 + i] = out.elements[static_cast<std::size_t>(beside)][3 + j];
        continue;
      }
      element[3 + i] = static_cast<int>(out.nodes.size());
      out.nodes.push_back(metric.back(middle_node(mesh.at(from), mesh.at(to), sizes)));
    }
    out.elements.push_back(element);
  }
  return out;
}

}  // namespace

SawtoothMesh mesh_sawtooth(const SawtoothModel& model) {
  const PlaneWood& wood = model.wood;
  if (!(model.element > 0 && model.at_corner > 0 && wood.e_l > 0 && wood.e_t > 0)) return {};
  std::vector<Spot> outline = corners(model);
  if (outline.empty()) return {};
  const Metric metric(wood);
  for (Spot& p : outline) p = metric.there(p);
  Triangulation mesh(outline);
  if (mesh.triangles().empty()) return {};
  const Sizes sizes(outline, model, metric);
  Refinement refinement(mesh, sizes);
  refinement.divide_outline(outline.size());
  refinement.refine();
  return with_middles(mesh, sizes, metric);
}

}  // namespace pitchboard
