#include "engine/base/geometry.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace pitchboard {
namespace {

// Products of coordinates are plain square inches here: every public result is a typed quantity again.
double cross(Point o, Point p, Point q) {
  return (p.a - o.a).raw() * (q.b - o.b).raw() - (p.b - o.b).raw() * (q.a - o.a).raw();
}

double signed_twice_area(const Polygon& polygon) {
  double sum = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point p = polygon[i], q = polygon[(i + 1) % polygon.size()];
    sum += p.a.raw() * q.b.raw() - q.a.raw() * p.b.raw();
  }
  return sum;
}

Point swapped_point(Point p) { return {p.b, p.a}; }
Polygon swapped(const Polygon& polygon) {
  Polygon out;
  out.reserve(polygon.size());
  for (const Point p : polygon) out.push_back(swapped_point(p));
  return out;
}

/// Sutherland-Hodgman against one half plane: keeps what has sign * (p.*axis - limit) >= 0.
Polygon clip_half(Polygon polygon, Length Point::* axis, Length limit, double sign) {
  const auto depth = [&](Point p) { return sign * (p.*axis - limit).raw(); };
  if (std::ranges::all_of(polygon, [&](Point p) { return depth(p) >= 0; })) return polygon;
  Polygon out;
  out.reserve(polygon.size() + 1);
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point p = polygon[i], q = polygon[i + 1 < polygon.size() ? i + 1 : 0];
    const double dp = depth(p), dq = depth(q);
    if (dp >= 0) out.push_back(p);
    if ((dp > 0 && dq < 0) || (dp < 0 && dq > 0)) {
      const double share = dp / (dp - dq);
      Point cut{p.a + (q.a - p.a) * share, p.b + (q.b - p.b) * share};
      cut.*axis = limit;
      out.push_back(cut);
    }
  }
  return out;
}

Polygon clipped(Polygon polygon, Length Point::* axis, Interval band) {
  return clip_half(clip_half(std::move(polygon), axis, band.from, 1.0), axis, band.to, -1.0);
}

/// RETURNS the square of the distance, so that the nearest of many takes one root.
double square_to_segment(Point p, Point q0, Point q1) {
  const double dx = (q1.a - q0.a).raw(), dy = (q1.b - q0.b).raw();
  const double square = dx * dx + dy * dy;
  double t = 0;
  if (square > 0) t = std::clamp(((p.a - q0.a).raw() * dx + (p.b - q0.b).raw() * dy) / square, 0.0, 1.0);
  const double a = (p.a - (q0.a + inches(dx * t))).raw(), b = (p.b - (q0.b + inches(dy * t))).raw();
  return a * a + b * b;
}

struct Extents {
  Interval a, b;
};
Extents extents(const Polygon& polygon) {
  if (polygon.empty()) return {};
  const Point first = polygon.front();
  Extents out{{first.a, first.a}, {first.b, first.b}};
  for (const Point p : polygon) {
    out.a = {std::min(out.a.from, p.a), std::max(out.a.to, p.a)};
    out.b = {std::min(out.b.from, p.b), std::max(out.b.to, p.b)};
  }
  return out;
}

Interval shrunk(Interval v, Length by) { return {v.from + by, v.to - by}; }

/// RETURNS the abscissas of all corners and crossings of both polygons, in order, as far as both reach.
std::vector<Length> abscissas(const Polygon& p, const Polygon& q) {
  const Interval of_p = extent_a(p), of_q = extent_a(q);
  const Interval common{std::max(of_p.from, of_q.from), std::min(of_p.to, of_q.to)};
  std::vector<Length> out;
  out.reserve(p.size() + q.size());
  for (const Polygon* polygon : {&p, &q}) {
    for (const Point v : *polygon) {
      if (common.contains(v.a)) out.push_back(v.a);
    }
  }
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Point p0 = p[i], p1 = p[(i + 1) % p.size()];
    if (std::max(p0.a, p1.a) < common.from || std::min(p0.a, p1.a) > common.to) continue;
    for (std::size_t j = 0; j < q.size(); ++j) {
      const Point q0 = q[j], q1 = q[(j + 1) % q.size()];
      const double s = cross(p0, p1, q0), t = cross(p0, p1, q1);
      const double u = cross(q0, q1, p0), v = cross(q0, q1, p1);
      if ((s > 0) != (t > 0) && (u > 0) != (v > 0)) out.push_back(q0.a + (q1.a - q0.a) * (s / (s - t)));
    }
  }
  std::ranges::sort(out);
  return out;
}

constexpr auto kAsItIs = [](Point p) { return p; };

/// Writes to `out` the stretches of the line a = `at` inside the polygon whose corners are those of `polygon` as
/// `seen`.
void slice_into(std::vector<Interval>& out, const Polygon& polygon, Length at, const auto& seen) {
  out.clear();
  if (polygon.empty()) return;
  // The outline comes back to where it began, so its crossings are even in number; each is put in its place in order.
  std::size_t count = 0;
  const auto crossing = [&](std::size_t i) -> Length& { return i % 2 == 0 ? out[i / 2].from : out[i / 2].to; };
  // Few edges cross the line: of most corners no more is looked at than on which side of it they lie.
  bool beyond = seen(polygon.front()).a > at;
  for (std::size_t i = 1; i <= polygon.size(); ++i) {
    const Point& corner = polygon[i < polygon.size() ? i : 0];
    if ((seen(corner).a > at) != beyond) {
      beyond = !beyond;
      const Point p = seen(polygon[i - 1]), q = seen(corner);
      const Length here = p.b + (q.b - p.b) * ((at - p.a) / (q.a - p.a));
      if (count % 2 == 0) out.emplace_back();
      std::size_t place = count++;
      for (; place > 0 && here < crossing(place - 1); --place) crossing(place) = crossing(place - 1);
      crossing(place) = here;
    }
  }
}

std::vector<Interval> slice(const Polygon& polygon, Length at, const auto& seen) {
  std::vector<Interval> out;
  slice_into(out, polygon, at, seen);
  return out;
}

/// Half of 1 / sqrt(3): how far Gauss's two points lie from the middle of a stretch of length one.
constexpr double kGauss = 0.28867513459481288;

Length shared_length(const std::vector<Interval>& p, const std::vector<Interval>& q) {
  Length sum;
  for (const Interval& i : p) {
    for (const Interval& j : q) sum += std::max(overlap(i, j), Length());
  }
  return sum;
}

}  // namespace

Polygon rectangle(Interval a, Interval b) { return {{a.from, b.from}, {a.to, b.from}, {a.to, b.to}, {a.from, b.to}}; }

Area area(const Polygon& polygon) { return Area::from_raw(std::abs(signed_twice_area(polygon)) / 2.0); }
bool runs_anticlockwise(const Polygon& polygon) { return signed_twice_area(polygon) > 0; }
Interval extent_a(const Polygon& polygon) { return extents(polygon).a; }
Interval extent_b(const Polygon& polygon) { return extents(polygon).b; }

bool contains(const Polygon& polygon, Point p) {
  bool in = false;
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
    const Point u = polygon[i], v = polygon[j];
    if ((u.b > p.b) != (v.b > p.b) && p.a < u.a + (v.a - u.a) * ((p.b - u.b) / (v.b - u.b))) in = !in;
  }
  return in;
}

Length distance_to_outline(const Polygon& polygon, Point p) {
  double best = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++)
    best = std::min(best, square_to_segment(p, polygon[j], polygon[i]));
  return Length::from_raw(std::sqrt(best));
}

Polygon clip_a(const Polygon& polygon, Interval band) { return clipped(polygon, &Point::a, band); }
Polygon clip_b(const Polygon& polygon, Interval band) { return clipped(polygon, &Point::b, band); }

std::vector<Interval> slice_at_a(const Polygon& polygon, Length at) { return slice(polygon, at, kAsItIs); }
std::vector<Interval> slice_at_b(const Polygon& polygon, Length at) { return slice(polygon, at, swapped_point); }

Area shared_area(const Polygon& p, const Polygon& q) {
  // Between neighbouring abscissas the shared length is linear, so the middle height times the width is exact.
  const std::vector<Length> at = abscissas(p, q);
  std::vector<Interval> of_p, of_q;
  Area sum;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    const Length width = at[i + 1] - at[i];
    if (width <= Length()) continue;
    const Length middle = at[i] + width / 2.0;
    slice_into(of_p, p, middle, kAsItIs);
    slice_into(of_q, q, middle, kAsItIs);
    sum += shared_length(of_p, of_q) * width;
  }
  return sum;
}

Polygon turned(const Polygon& polygon, double ua, double ub) {
  Polygon out;
  out.reserve(polygon.size());
  for (const Point p : polygon) out.push_back(turned(p, ua, ub));
  return out;
}

Point in_plane_of(const Prism& prism, Point3 p) {
  switch (prism.normal) {
    case Axis::x:
      return {p.y, p.z};
    case Axis::y:
      return {p.x, p.z};
    case Axis::z:
      break;
  }
  return {p.x, p.y};
}

bool contains(const Prism& prism, Point3 p) {
  return prism.span.contains(p.along(prism.normal)) && contains(prism.outline, in_plane_of(prism, p));
}

Volume volume(const Prism& prism) { return area(prism.outline) * prism.span.size(); }

std::array<Interval, 3> box(const Prism& prism) {
  const auto [a, b] = extents(prism.outline);
  switch (prism.normal) {
    case Axis::x:
      return {prism.span, a, b};
    case Axis::y:
      return {a, prism.span, b};
    case Axis::z:
      break;
  }
  return {a, b, prism.span};
}

Volume shared_volume(const Prism& p, const Prism& q, Length skin) {
  const auto box_p = box(p), box_q = box(q);
  for (std::size_t i = 0; i < 3; ++i) {
    if (overlap(box_p[i], box_q[i]) <= skin) return {};
  }
  if (p.normal == q.normal) {
    const Area shared = shared_area(p.outline, q.outline);
    const Length depth = overlap(p.span, q.span);
    // A sliver thinner than the skin along a whole side is contact, not overlap.
    const Length longest =
        overlap(extent_a(p.outline), extent_a(q.outline)) + overlap(extent_b(p.outline), extent_b(q.outline));
    return shared > longest * skin ? shared * depth : Volume();
  }
  // Different normals: the outlines share one axis. At each place along it the solid's cross-sections are a stretch of
  // one outline times a stretch of the other, so the shared volume is the integral of the two clipped stretches'
  // product.
  const Axis shared_axis = p.normal != Axis::x && q.normal != Axis::x   ? Axis::x
                           : p.normal != Axis::y && q.normal != Axis::y ? Axis::y
                                                                        : Axis::z;
  // The outline's first coordinate is the shared axis, or it is swapped so that it becomes it.
  const auto along_shared = [&](const Prism& prism) {
    const bool first =
        (prism.normal == Axis::x && shared_axis == Axis::y) || (prism.normal != Axis::x && shared_axis == Axis::x);
    return first ? prism.outline : swapped(prism.outline);
  };
  const Polygon a = clipped(along_shared(p), &Point::b, shrunk(q.span, skin));
  const Polygon b = clipped(along_shared(q), &Point::b, shrunk(p.span, skin));
  if (a.size() < 3 || b.size() < 3) return {};
  const std::vector<Length> at = abscissas(a, b);
  std::vector<Interval> slice_a, slice_b;
  Volume sum;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    const Length width = at[i + 1] - at[i];
    if (width <= skin) continue;
    // Both stretches are linear here, so their product is a square: the two points of Gauss give its integral exactly.
    for (const double share : {0.5 - kGauss, 0.5 + kGauss}) {
      Length run_a, run_b;
      slice_into(slice_a, a, at[i] + width * share, kAsItIs);
      slice_into(slice_b, b, at[i] + width * share, kAsItIs);
      for (const Interval& v : slice_a) run_a += v.size();
      for (const Interval& v : slice_b) run_b += v.size();
      if (run_a > skin && run_b > skin) sum += run_a * run_b * (width / 2.0);
    }
  }
  return sum;
}

std::vector<Interval> inside(const Prism& prism, Point3 tail, Direction direction, Length length) {
  const double along = prism.normal == Axis::x ? direction.x : prism.normal == Axis::y ? direction.y : direction.z;
  Interval reach{Length(), length};
  const Length start = tail.along(prism.normal);
  if (std::abs(along) < 1e-12) {
    if (!prism.span.contains(start)) return {};
  } else {
    const Length t0 = (prism.span.from - start) / along, t1 = (prism.span.to - start) / along;
    reach = {std::max(reach.from, std::min(t0, t1)), std::min(reach.to, std::max(t0, t1))};
    if (reach.size() <= Length()) return {};
  }
  const Point p0 = in_plane_of(prism, tail), p1 = in_plane_of(prism, moved(tail, direction, inches(1.0)));
  const Point step = p1 - p0;
  const double da = step.a.raw(), db = step.b.raw();
  if (da * da + db * db < 1e-18) {
    return contains(prism.outline, p0) ? std::vector<Interval>{reach} : std::vector<Interval>{};
  }
  // Turn the outline so that the axis runs along the first coordinate, then slice it there.
  const double scale = std::sqrt(da * da + db * db);
  const auto flat = [&](Point p) { return turned(p, da / scale, db / scale); };
  const Point origin = flat(p0);
  std::vector<Interval> out = slice(prism.outline, origin.b, [&](Point p) { return swapped_point(flat(p)); });
  for (Interval& v : out) {
    v = {std::max((v.from - origin.a) / scale, reach.from), std::min((v.to - origin.a) / scale, reach.to)};
  }
  std::erase_if(out, [](const Interval& v) { return v.size() <= Length(); });
  return out;
}

Length distance(Point3 p0, Point3 p1, Point3 q0, Point3 q1) {
  // Closest points of two segments by clamped parameters (C. Ericson, Real-Time Collision Detection, 5.1.9: the
  // method).
  struct Vector {
    double x, y, z;
  };
  const auto vec = [](Point3 from, Point3 to) {
    return Vector{(to.x - from.x).raw(), (to.y - from.y).raw(), (to.z - from.z).raw()};
  };
  const auto dot = [](Vector u, Vector v) { return u.x * v.x + u.y * v.y + u.z * v.z; };
  const Vector d1 = vec(p0, p1), d2 = vec(q0, q1), r = vec(q0, p0);
  const double a = dot(d1, d1), e = dot(d2, d2), f = dot(d2, r), c = dot(d1, r), b = dot(d1, d2);
  const double denominator = a * e - b * b;
  double s = denominator > 1e-12 ? std::clamp((b * f - c * e) / denominator, 0.0, 1.0) : 0.0;
  double t = e > 0 ? (b * s + f) / e : 0.0;
  if (t < 0 || t > 1 || e == 0) {  // a second segment that is a point
    t = std::clamp(t, 0.0, 1.0);
    s = a > 0 ? std::clamp((b * t - c) / a, 0.0, 1.0) : 0.0;
  }
  const Vector gap{r.x + d1.x * s - d2.x * t, r.y + d1.y * s - d2.y * t, r.z + d1.z * s - d2.z * t};
  return inches(std::sqrt(dot(gap, gap)));
}

}  // namespace pitchboard
