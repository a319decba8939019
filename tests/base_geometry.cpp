// Plane geometry and prisms against other ways of finding the same: signed triangles, counting points, sampling.

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <vector>

#include "engine/base/geometry.hpp"

namespace pitchboard {
namespace {

Polygon points(std::initializer_list<std::pair<double, double>> list) {
  Polygon out;
  for (const auto& [a, b] : list) out.push_back({inches(a), inches(b)});
  return out;
}

/// Shapes like those of stringers, stars and boards, all simple; many of them concave.
class Shapes {
 public:
  double between(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }
  int count(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }

  Polygon star() {
    const int n = count(3, 12);
    const double a = between(-6, 6), b = between(-6, 6);
    Polygon out;
    for (int i = 0; i < n; ++i) {
      const double angle = 2.0 * kPi * (i + between(0.05, 0.95)) / n, radius = between(1, 10);
      out.push_back({inches(a + radius * std::cos(angle)), inches(b + radius * std::sin(angle))});
    }
    return out;
  }
  Polygon sawtooth() {
    const int n = count(1, 6);
    const double going = between(2, 4), rise = between(1, 3), a = between(-8, 0), b = between(-8, 0);
    Polygon out;
    for (int k = 0; k < n; ++k) {
      out.push_back({inches(a + k * going), inches(b - k * rise)});
      out.push_back({inches(a + (k + 1) * going), inches(b - k * rise)});
    }
    const double below = rise + between(0.2, 3);
    out.push_back({inches(a + n * going), inches(b - n * rise - below)});
    out.push_back({inches(a), inches(b - below)});
    return out;
  }
  Polygon any() {
    Polygon out = count(0, 1) == 0 ? star() : sawtooth();
    if (count(0, 1) == 0) std::ranges::reverse(out);
    return out;
  }
  Interval span() {
    const double from = between(-8, 6);
    return {inches(from), inches(from + between(0.5, 8))};
  }
  Prism prism() { return {static_cast<Axis>(count(0, 2)), span(), any()}; }
  Point3 place() { return {inches(between(-9, 9)), inches(between(-9, 9)), inches(between(-9, 9))}; }
  Direction direction() {
    const double x = between(-1, 1), y = between(-1, 1), z = between(-1, 1);
    const double long_ = std::sqrt(x * x + y * y + z * z);
    return {x / long_, y / long_, z / long_};
  }

 private:
  std::mt19937_64 random_{20260714};
};

// Independent method: a polygon is the signed sum of the triangles from one point to its sides, so the area shared by
// two polygons is the signed sum of the areas that their triangles share, and two triangles are convex.
using Plain = std::vector<std::array<double, 2>>;

double signed_area(const Plain& p) {
  double sum = 0;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const auto &u = p[i], &v = p[(i + 1) % p.size()];
    sum += (u[0] * v[1] - u[1] * v[0]) / 2.0;
  }
  return sum;
}

double shared_by_triangles(Plain p, Plain q) {
  const double sign_p = signed_area(p), sign_q = signed_area(q);
  if (sign_p == 0 || sign_q == 0) return 0;
  if (sign_p < 0) std::ranges::reverse(p);
  if (sign_q < 0) std::ranges::reverse(q);
  for (std::size_t i = 0; i < 3; ++i) {
    const auto u = q[i], v = q[(i + 1) % 3];
    const auto left = [&](const std::array<double, 2>& w) {
      return (v[0] - u[0]) * (w[1] - u[1]) - (v[1] - u[1]) * (w[0] - u[0]);
    };
    Plain kept;
    for (std::size_t j = 0; j < p.size(); ++j) {
      const auto s = p[j], t = p[(j + 1) % p.size()];
      const double ds = left(s), dt = left(t);
      if (ds >= 0) kept.push_back(s);
      if ((ds < 0) != (dt < 0)) {
        const double share = ds / (ds - dt);
        kept.push_back({s[0] + (t[0] - s[0]) * share, s[1] + (t[1] - s[1]) * share});
      }
    }
    p = kept;
  }
  return std::abs(signed_area(p)) * (sign_p > 0 ? 1 : -1) * (sign_q > 0 ? 1 : -1);
}

double shared_by_fans(const Polygon& p, const Polygon& q) {
  const auto at = [](const Polygon& polygon, std::size_t i) {
    return std::array<double, 2>{in_inches(polygon[i % polygon.size()].a), in_inches(polygon[i % polygon.size()].b)};
  };
  double sum = 0;
  for (std::size_t i = 1; i + 1 < p.size(); ++i) {
    for (std::size_t j = 1; j + 1 < q.size(); ++j) {
      sum += shared_by_triangles({at(p, 0), at(p, i), at(p, i + 1)}, {at(q, 0), at(q, j), at(q, j + 1)});
    }
  }
  return std::abs(sum);
}

TEST(Geometry, AreasOfKnownShapesEitherWayRound) {
  EXPECT_EQ(area(rectangle({inches(1), inches(4)}, {inches(-2), inches(3)})).raw(), 15.0);
  EXPECT_EQ(area(points({{0, 0}, {12, 0}, {0, 7}})).raw(), 42.0);
  // A stringer with two steps of 10 x 7: three pitch boards over a strip.
  const Polygon saw = points({{0, 0}, {10, 0}, {10, -7}, {20, -7}, {20, -14}, {20, -19}, {0, -5}});
  Polygon back = saw;
  std::ranges::reverse(back);
  EXPECT_EQ(area(saw).raw(), 2 * 35.0 + 20 * 5.0);
  EXPECT_EQ(area(back), area(saw));
}

TEST(Geometry, SharedAreaOfRandomConcavePolygonsIsThatOfTheirSignedTriangles) {
  Shapes shapes;
  int met = 0;
  for (int i = 0; i < 3000; ++i) {
    const Polygon p = shapes.any(), q = shapes.any();
    const double wanted = shared_by_fans(p, q);
    met += wanted > 0.01;
    ASSERT_NEAR(shared_area(p, q).raw(), wanted, 1e-8) << i;
    ASSERT_NEAR(shared_area(q, p).raw(), wanted, 1e-8) << i;
    ASSERT_NEAR(shared_area(p, p).raw(), area(p).raw(), 1e-8) << i;
  }
  EXPECT_GT(met, 1000);
}

TEST(Geometry, SidesThatOnlyTouchShareNothing) {
  const Polygon saw = points({{0, 0}, {10, 0}, {10, -7}, {20, -7}, {20, -19}, {0, -5}});
  EXPECT_EQ(shared_area(saw, rectangle({inches(0), inches(10)}, {inches(0), inches(1.5)})).raw(), 0.0);
  EXPECT_EQ(shared_area(saw, rectangle({inches(10), inches(10.75)}, {inches(-7), inches(0)})).raw(), 0.0);
  EXPECT_EQ(shared_area(saw, rectangle({inches(10), inches(20)}, {inches(-7), inches(-5.5)})).raw(), 0.0);
}

TEST(Geometry, ClippingKeepsWhatABandOfTheSamePolygonShares) {
  Shapes shapes;
  for (int i = 0; i < 500; ++i) {
    const Polygon p = shapes.any();
    const Interval band = shapes.span();
    const Interval far{inches(-100), inches(100)};
    ASSERT_NEAR(area(clip_a(p, band)).raw(), shared_by_fans(p, rectangle(band, far)), 1e-8);
    ASSERT_NEAR(area(clip_b(p, band)).raw(), shared_by_fans(p, rectangle(far, band)), 1e-8);
    const Polygon kept = clip_a(p, band);
    if (kept.empty()) continue;
    ASSERT_GE(extent_a(kept).from, band.from);
    ASSERT_LE(extent_a(kept).to, band.to);
  }
}

TEST(Geometry, APointIsInsideWhenTheOutlineWindsRoundIt) {
  Shapes shapes;
  for (int i = 0; i < 200; ++i) {
    const Polygon p = shapes.any();
    for (int j = 0; j < 50; ++j) {
      const Point at{inches(shapes.between(-12, 12)), inches(shapes.between(-12, 12))};
      if (distance_to_outline(p, at) < inches(1e-6)) continue;
      double turn = 0;
      for (std::size_t k = 0; k < p.size(); ++k) {
        const Point u = p[k] - at, v = p[(k + 1) % p.size()] - at;
        turn += std::atan2((u.a * v.b - u.b * v.a).raw(), (u.a * v.a + u.b * v.b).raw());
      }
      ASSERT_EQ(contains(p, at), std::abs(turn) > kPi) << i;
    }
  }
}

TEST(Geometry, SlicesHoldExactlyThePointsOfTheirLineThatAreInside) {
  Shapes shapes;
  for (int i = 0; i < 200; ++i) {
    const Polygon p = shapes.any();
    const Length at = inches(shapes.between(-8, 8));
    const auto in_a = slice_at_a(p, at), in_b = slice_at_b(p, at);
    for (int j = 0; j < 50; ++j) {
      const Length other = inches(shapes.between(-12, 12));
      const auto holds = [&](const std::vector<Interval>& slices) {
        return std::ranges::any_of(slices, [&](const Interval& v) { return v.contains(other); });
      };
      ASSERT_EQ(holds(in_a), contains(p, {at, other}));
      ASSERT_EQ(holds(in_b), contains(p, {other, at}));
    }
    ASSERT_TRUE(std::ranges::is_sorted(in_a, {}, &Interval::from));
  }
}

TEST(Geometry, DistanceToAnOutlineIsThatOfItsNearestSample) {
  Shapes shapes;
  for (int i = 0; i < 100; ++i) {
    const Polygon p = shapes.any();
    const Point at{inches(shapes.between(-12, 12)), inches(shapes.between(-12, 12))};
    Length nearest = inches(1e9), widest;
    constexpr int kSamples = 2000;
    for (std::size_t k = 0; k < p.size(); ++k) {
      const Point u = p[k], v = p[(k + 1) % p.size()];
      widest = std::max(widest, distance(u, v) / kSamples);
      for (int s = 0; s <= kSamples; ++s) {
        const double share = static_cast<double>(s) / kSamples;
        nearest = std::min(nearest, distance(at, {u.a + (v.a - u.a) * share, u.b + (v.b - u.b) * share}));
      }
    }
    const Length found = distance_to_outline(p, at);
    ASSERT_LE(found, nearest + inches(1e-9));
    ASSERT_GE(found, nearest - widest);
  }
}

TEST(Geometry, TurningKeepsLengthsAreasAndTurnsBack) {
  Shapes shapes;
  for (int i = 0; i < 200; ++i) {
    const Polygon p = shapes.any();
    const double angle = shapes.between(-kPi, kPi), ua = std::cos(angle), ub = std::sin(angle);
    const Polygon there = turned(p, ua, ub), back = turned(there, ua, -ub);
    ASSERT_NEAR(area(there).raw(), area(p).raw(), 1e-9);
    for (std::size_t k = 0; k < p.size(); ++k) ASSERT_LT(distance(back[k], p[k]), inches(1e-9));
  }
  const Polygon along =
      turned(points({{0, 0}, {10.5, -7.25}}), 10.5 / std::hypot(10.5, 7.25), -7.25 / std::hypot(10.5, 7.25));
  EXPECT_NEAR(in_inches(along[1].a), std::hypot(10.5, 7.25), 1e-12) << "the direction becomes the first axis";
  EXPECT_NEAR(in_inches(along[1].b), 0.0, 1e-12);
}

/// Shared volume by counting the middles of a fine grid of cubes.
double counted(const Prism& p, const Prism& q, int cells) {
  const auto box_p = box(p), box_q = box(q);
  std::array<double, 3> from{}, size{};
  for (std::size_t i = 0; i < 3; ++i) {
    from[i] = in_inches(std::max(box_p[i].from, box_q[i].from));
    size[i] = in_inches(overlap(box_p[i], box_q[i]));
    if (size[i] <= 0) return 0;
  }
  const auto at = [&](std::size_t i, int k) { return inches(from[i] + size[i] * (k + 0.5) / cells); };
  int in = 0;
  for (int i = 0; i < cells; ++i) {
    for (int j = 0; j < cells; ++j) {
      for (int k = 0; k < cells; ++k) {
        const Point3 place{at(0, i), at(1, j), at(2, k)};
        in += contains(p, place) && contains(q, place);
      }
    }
  }
  return in * size[0] * size[1] * size[2] / cells / cells / cells;
}

TEST(Geometry, SharedVolumeOfPrismsInAnyTwoDirectionsIsWhatAGridCounts) {
  Shapes shapes;
  int met = 0, crossed = 0;
  for (int i = 0; i < 120; ++i) {
    const Prism p = shapes.prism(), q = shapes.prism();
    constexpr int kCells = 48;
    const double wanted = counted(p, q, kCells);
    const double found = shared_volume(p, q, Length()).raw();
    double most = 1;
    for (std::size_t k = 0; k < 3; ++k) most *= std::max(in_inches(overlap(box(p)[k], box(q)[k])), 0.0);
    ASSERT_NEAR(found, wanted, most * 0.01) << i;
    ASSERT_NEAR(shared_volume(q, p, Length()).raw(), found, 1e-6) << i;
    met += wanted > 1;
    crossed += wanted > 1 && p.normal != q.normal;
  }
  EXPECT_GT(met, 20);
  EXPECT_GT(crossed, 12);
}

TEST(Geometry, TwoCrossedWedgesShareThePyramidBetweenThem) {
  // Wedges under z = 1 - x and under z = 1 - y over the unit square, both as prisms: the pieces x + z < 1 and
  // y + z < 1 of the cube share the integral of (1 - z)² = 1/3.
  const Prism p{Axis::y, {Length(), inches(1)}, points({{0, 0}, {1, 0}, {0, 1}})};
  const Prism q{Axis::x, {Length(), inches(1)}, points({{0, 0}, {1, 0}, {0, 1}})};
  EXPECT_NEAR(shared_volume(p, q, Length()).raw(), 1.0 / 3.0, 1e-12);
}

TEST(Geometry, AnOverlapThinnerThanTheSkinIsContact) {
  const Prism tread{Axis::z, {inches(-1.5), Length()}, rectangle({inches(0), inches(5.5)}, {inches(0), inches(36)})};
  const auto stringer = [](double top) {
    return Prism{Axis::y, {Length(), inches(1.5)}, rectangle({inches(0), inches(10)}, {inches(-9), inches(top)})};
  };
  const auto riser = [](double face) {
    return Prism{
        Axis::x, {inches(face), inches(face + 0.75)}, rectangle({inches(0), inches(36)}, {inches(-9), inches(0)})};
  };
  EXPECT_EQ(shared_volume(tread, stringer(-1.5), kSixteenth).raw(), 0.0);
  EXPECT_EQ(shared_volume(tread, stringer(-1.46), kSixteenth).raw(), 0.0);
  EXPECT_GT(shared_volume(tread, stringer(-1.0), kSixteenth).raw(), 0.0);
  EXPECT_EQ(shared_volume(tread, riser(5.5), kSixteenth).raw(), 0.0);
  EXPECT_GT(shared_volume(tread, riser(5.25), kSixteenth).raw(), 0.0);
  EXPECT_GT(shared_volume(tread, tread, kSixteenth).raw(), 0.0);
}

TEST(Geometry, AnAxisIsInsideAPrismExactlyWhereItsPointsAre) {
  Shapes shapes;
  int hit = 0;
  for (int i = 0; i < 2000; ++i) {
    const Prism p = shapes.prism();
    Direction d = shapes.direction();
    if (i % 4 == 0) d = {0, 0, -1};
    if (i % 4 == 1) d = {0, 1, 0};
    const Point3 tail = shapes.place();
    const Length length = inches(shapes.between(1, 20));
    const std::vector<Interval> ways = inside(p, tail, d, length);
    hit += !ways.empty();
    ASSERT_TRUE(std::ranges::is_sorted(ways, {}, &Interval::from));
    for (const Interval& way : ways) {
      ASSERT_GE(way.from, -inches(1e-9));
      ASSERT_LE(way.to, length + inches(1e-9));
    }
    for (int s = 0; s < 40; ++s) {
      const Length at = length * ((s + 0.5) / 40.0);
      const bool in = std::ranges::any_of(ways, [&](const Interval& way) { return way.contains(at); });
      ASSERT_EQ(in, contains(p, moved(tail, d, at))) << i << " at " << in_inches(at);
    }
  }
  EXPECT_GT(hit, 100);
}

TEST(Geometry, DistanceOfSegmentsIsThatOfTheirNearestSamples) {
  Shapes shapes;
  constexpr int kSamples = 200;
  for (int i = 0; i < 300; ++i) {
    const Point3 p0 = shapes.place(), q0 = shapes.place();
    const Direction d = shapes.direction();
    // Every third pair parallel, every tenth segment a single point.
    const Direction e = i % 3 == 0 ? d : shapes.direction();
    const Length long_p = i % 10 == 1 ? Length() : inches(shapes.between(1, 12));
    const Length long_q = i % 10 == 2 ? Length() : inches(shapes.between(1, 12));
    double nearest = 1e9;
    for (int s = 0; s <= kSamples; ++s) {
      const Point3 p = moved(p0, d, long_p * (static_cast<double>(s) / kSamples));
      for (int t = 0; t <= kSamples; ++t) {
        const Point3 gap = moved(q0, e, long_q * (static_cast<double>(t) / kSamples)) - p;
        nearest = std::min(nearest, std::hypot(in_inches(gap.x), in_inches(gap.y), in_inches(gap.z)));
      }
    }
    const double found = in_inches(distance(p0, moved(p0, d, long_p), q0, moved(q0, e, long_q)));
    ASSERT_LE(found, nearest + 1e-9) << i;
    ASSERT_GE(found, nearest - in_inches(long_p + long_q) / kSamples) << i;
  }
}

TEST(Geometry, OverlapOfIntervalsIsNegativeByTheirGap) {
  EXPECT_EQ(overlap({inches(0), inches(4)}, {inches(3), inches(9)}), inches(1));
  EXPECT_EQ(overlap({inches(0), inches(4)}, {inches(6), inches(9)}), inches(-2));
  EXPECT_EQ(overlap({inches(0), inches(9)}, {inches(3), inches(4)}), inches(1));
}

}  // namespace
}  // namespace pitchboard
