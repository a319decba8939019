// Statics of beams: formulas of the usual beam tables, and what must hold for any beam.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include "engine/strength/statics.hpp"
#include "tests/strength_random.hpp"

using namespace pitchboard;

namespace {

struct Beam {
  std::vector<double> spans;
  BeamLoads loads;
};
Beam random_beam(Random& random) {
  Beam beam;
  const std::size_t count = 1 + random.one_of(4);
  for (std::size_t i = 0; i < count; ++i) {
    beam.spans.push_back(random.between(20, 120));
    beam.loads.uniform.push_back(random.between(0, 10));
    beam.loads.points.push_back(
        {.span = i, .from_left = random.between(0, 1) * beam.spans[i], .force = random.between(0, 400)});
  }
  return beam;
}
double start_of(const Beam& beam, std::size_t span) {
  return std::accumulate(beam.spans.begin(), beam.spans.begin() + static_cast<std::ptrdiff_t>(span), 0.0);
}

}  // namespace

// Usual beam tables, from memory: reactions and moments in w L and w L^2.
TEST(Statics, TwoAndThreeEqualSpansAreAsTheBeamTablesSay) {
  const std::vector<double> two{80, 80}, three{80, 80, 80};
  const double w = 5, wl = w * 80, wll = wl * 80;
  const BeamResult both = solve_beam(two, {.uniform = {w, w}, .points = {}});
  EXPECT_NEAR(both.hogging, wll / 8, 1e-6);
  EXPECT_NEAR(both.sagging, wll * 9 / 128, 1e-6);
  EXPECT_NEAR(both.reactions[0], wl * 3 / 8, 1e-9);
  EXPECT_NEAR(both.reactions[1], wl * 10 / 8, 1e-9);
  EXPECT_NEAR(both.shear, wl * 5 / 8, 1e-9);
  const BeamResult one = solve_beam(two, {.uniform = {w, 0}, .points = {}});
  EXPECT_NEAR(one.hogging, wll / 16, 1e-6);
  EXPECT_NEAR(one.sagging, wll * 49 / 512, 1e-6);
  EXPECT_NEAR(one.reactions[2], -wl / 16, 1e-9);
  const BeamResult point = solve_beam(two, {.uniform = {}, .points = {{0, 40, 300}}});
  EXPECT_NEAR(point.hogging, 300 * 80 * 3 / 32.0, 1e-6);
  EXPECT_NEAR(point.sagging, 300 * 80 * 13 / 64.0, 1e-6);
  EXPECT_NEAR(point.reactions[1], 300 * 11 / 16.0, 1e-9);
  const BeamResult all = solve_beam(three, {.uniform = {w, w, w}, .points = {}});
  EXPECT_NEAR(all.hogging, wll / 10, 1e-6);
  EXPECT_NEAR(all.sagging, wll * 0.08, 1e-6);
  EXPECT_NEAR(all.reactions[1], wl * 1.1, 1e-9);
}

// Usual beam tables: 5 w L^4/384, P L^3/48, and w L^4/185 near 0.42 L of two equal spans.
TEST(Statics, DeflectionsAreAsTheBeamTablesSay) {
  const std::vector<double> one{96}, two{96, 96};
  const Stiffness stiffness{.ei = 2e7, .ga_per_k = 5e5};
  const BeamLoads even{.uniform = {5}, .points = {}}, single{.uniform = {}, .points = {{0, 48, 300}}};
  const Sag by_even = sag_at(one, even, solve_beam(one, even), 0, 48, stiffness);
  EXPECT_NEAR(by_even.bending, 5 * 5 * std::pow(96, 4) / (384 * 2e7), 1e-9);
  EXPECT_NEAR(by_even.shear, 5 * 96 * 96 / (8 * 5e5), 1e-12);
  const Sag by_single = sag_at(one, single, solve_beam(one, single), 0, 48, stiffness);
  EXPECT_NEAR(by_single.bending, 300 * std::pow(96, 3) / (48 * 2e7), 1e-9);
  EXPECT_NEAR(by_single.shear, 300 * 96 / (4 * 5e5), 1e-12);
  const BeamLoads both{.uniform = {5, 5}, .points = {}};
  const Sag shared = sag_at(two, both, solve_beam(two, both), 0, 0.4215 * 96, {.ei = 2e7, .ga_per_k = 0});
  EXPECT_NEAR(shared.total(), 5 * std::pow(96, 4) / (184.6 * 2e7), 1e-4);
  const Overhang end = solve_overhang(300, 3, 16, stiffness);
  EXPECT_NEAR(end.near + end.far, 300, 1e-9);
  EXPECT_NEAR(end.moment + end.far * 16, 0, 1e-9);
}

TEST(Statics, ForcesAndMomentsOfAnyBeamAreInBalance) {
  Random random;
  for (int round = 0; round < 2000; ++round) {
    const Beam beam = random_beam(random);
    const BeamResult result = solve_beam(beam.spans, beam.loads);
    double force = 0, moment = 0, scale = 1;
    for (std::size_t i = 0; i < beam.spans.size(); ++i) {
      const double uniform = beam.loads.uniform[i] * beam.spans[i], start = start_of(beam, i);
      const PointLoad& p = beam.loads.points[i];
      force += uniform + p.force;
      moment += uniform * (start + beam.spans[i] / 2) + p.force * (start + p.from_left);
    }
    scale += force + moment;
    for (std::size_t j = 0; j < result.reactions.size(); ++j) {
      force -= result.reactions[j];
      moment -= result.reactions[j] * start_of(beam, j);
    }
    ASSERT_NEAR(force, 0, 1e-12 * scale);
    ASSERT_NEAR(moment, 0, 1e-12 * scale);
  }
}

// What the three-moment equation says: the beam does not kink over a support, and rests on all of them.
TEST(Statics, BeamDoesNotKinkOverASupport) {
  Random random;
  const Stiffness stiffness{.ei = 1e7, .ga_per_k = 0};
  for (int round = 0; round < 500; ++round) {
    const Beam beam = random_beam(random);
    const BeamResult result = solve_beam(beam.spans, beam.loads);
    for (std::size_t i = 0; i + 1 < beam.spans.size(); ++i) {
      const double step = 1e-4;
      const double before = -sag_at(beam.spans, beam.loads, result, i, beam.spans[i] - step, stiffness).total() / step;
      const double after = sag_at(beam.spans, beam.loads, result, i + 1, step, stiffness).total() / step;
      ASSERT_NEAR(before, after, 1e-6 + 1e-4 * std::abs(after));
      ASSERT_NEAR(sag_at(beam.spans, beam.loads, result, i, beam.spans[i], stiffness).total(), 0, 1e-9);
    }
  }
}

// Maxwell: a load here lowers that place as much as the load there lowers this one.
TEST(Statics, DeflectionsAreReciprocal) {
  Random random;
  const Stiffness stiffness{.ei = 1e7, .ga_per_k = 4e5};
  for (int round = 0; round < 500; ++round) {
    const std::vector<double> spans{random.between(20, 90), random.between(20, 90), random.between(20, 90)};
    const std::size_t i = random.one_of(3), j = random.one_of(3);
    const double x = random.between(0, spans[i]), y = random.between(0, spans[j]);
    const BeamLoads here{.uniform = {}, .points = {{i, x, 100}}}, there{.uniform = {}, .points = {{j, y, 100}}};
    ASSERT_NEAR(sag_at(spans, here, solve_beam(spans, here), j, y, stiffness).total(),
                sag_at(spans, there, solve_beam(spans, there), i, x, stiffness).total(), 1e-10);
  }
}

// Every place is looked at under a load at every place.
TEST(Statics, ALoadSagsItsSpanMostUnderItself) {
  Random random;
  constexpr int kPlaces = 48;
  const Stiffness stiffness{.ei = 1e7, .ga_per_k = 4e5};
  for (int round = 0; round < 50; ++round) {
    std::vector<double> spans{random.between(20, 90), random.between(20, 90)};
    if (round % 2) spans.push_back(random.between(20, 90));
    double most = 0;
    for (std::size_t i = 0; i < spans.size(); ++i) {
      for (int at = 0; at <= kPlaces; ++at) {
        const BeamLoads load{.uniform = {}, .points = {{i, spans[i] * at / kPlaces, 100}}};
        const BeamResult result = solve_beam(spans, load);
        for (int k = 0; k <= kPlaces; ++k)
          most = std::max(most, sag_at(spans, load, result, i, spans[i] * k / kPlaces, stiffness).total() / spans[i]);
      }
    }
    const WorstSag worst = worst_sag_of_point(spans, 100, stiffness);
    ASSERT_EQ(worst.sag.total() / worst.span, most);
  }
}

// Every span is looked at with every other one loaded or not.
TEST(Statics, ASpanSagsMostWithEverySecondOneLoaded) {
  Random random;
  constexpr int kPlaces = 48;
  const Stiffness stiffness{.ei = 1e7, .ga_per_k = 4e5};
  for (std::size_t count = 2; count <= 6; ++count) {
    for (int round = 0; round < 20; ++round) {
      std::vector<double> spans;
      for (std::size_t i = 0; i < count; ++i) spans.push_back(random.between(20, 90));
      const double live = random.between(1, 10), dead = round % 2 ? random.between(0, 3) : 0.0;
      double most = 0;
      for (std::size_t pattern = 0; pattern < std::size_t{1} << count; ++pattern) {
        BeamLoads loads;
        for (std::size_t i = 0; i < count; ++i) loads.uniform.push_back(dead + ((pattern >> i) % 2 ? live : 0.0));
        const BeamResult result = solve_beam(spans, loads);
        for (std::size_t i = 0; i < count; ++i) {
          for (int k = 1; k < kPlaces; ++k)
            most =
                std::max(most, sag_at(spans, loads, result, i, spans[i] * k / kPlaces, stiffness).total() / spans[i]);
        }
      }
      const WorstSag worst = worst_sag_of_uniform(spans, live, dead, stiffness);
      ASSERT_EQ(worst.sag.total() / worst.span, most);
    }
  }
}

TEST(Statics, MirroredBeamHasMirroredReactions) {
  Random random;
  for (int round = 0; round < 500; ++round) {
    const Beam beam = random_beam(random);
    const std::size_t n = beam.spans.size();
    Beam mirror;
    for (std::size_t i = n; i-- > 0;) {
      mirror.spans.push_back(beam.spans[i]);
      mirror.loads.uniform.push_back(beam.loads.uniform[i]);
      const PointLoad& p = beam.loads.points[i];
      mirror.loads.points.push_back({.span = n - 1 - i, .from_left = beam.spans[i] - p.from_left, .force = p.force});
    }
    const BeamResult one = solve_beam(beam.spans, beam.loads), other = solve_beam(mirror.spans, mirror.loads);
    for (std::size_t j = 0; j <= n; ++j) ASSERT_NEAR(one.reactions[j], other.reactions[n - j], 1e-8);
    ASSERT_NEAR(one.sagging, other.sagging, 1e-6);
    ASSERT_NEAR(one.hogging, other.hogging, 1e-6);
    ASSERT_NEAR(one.shear, other.shear, 1e-8);
  }
}

// Found by trying every place: no moment inside a span is above the greatest one named.
TEST(Statics, NoPlaceHasMoreMomentThanTheGreatest) {
  Random random;
  for (int round = 0; round < 300; ++round) {
    const Beam beam = random_beam(random);
    const BeamResult result = solve_beam(beam.spans, beam.loads);
    double sagging = 0, hogging = 0;
    for (std::size_t i = 0; i < beam.spans.size(); ++i) {
      for (int k = 0; k <= 400; ++k) {
        const double m = moment_at(beam.spans, beam.loads, result, i, beam.spans[i] * k / 400);
        sagging = std::max(sagging, m);
        hogging = std::max(hogging, -m);
      }
    }
    ASSERT_LE(sagging, result.sagging + 1e-6);
    ASSERT_GE(sagging, result.sagging * 0.98 - 1e-6);
    ASSERT_NEAR(hogging, result.hogging, 1e-6);
  }
}

// Two equal spans: the worst sagging moment is with one loaded, 49/512 w L^2; a load moving along gives 0.2074 P L
// (both from the usual beam tables, from memory).
TEST(Statics, WorstCaseLoadsEverySpanByItselfToo) {
  const std::vector<double> two{80, 80};
  const BeamWorst live = worst_of_uniform(two, 5, 0);
  EXPECT_NEAR(live.sagging, 5 * 80 * 80 * 49 / 512.0, 1e-6);
  EXPECT_NEAR(live.hogging, 5 * 80 * 80 / 8.0, 1e-6);
  EXPECT_NEAR(live.reactions[0], 5 * 80 * 7 / 16.0, 1e-9);
  EXPECT_NEAR(live.reactions[1], 5 * 80 * 10 / 8.0, 1e-9);
  // 0.00915 w L^4/EI: the tables print 0.0092.
  EXPECT_NEAR(worst_sag_of_uniform(two, 5, 0, {.ei = 1e7, .ga_per_k = 0}).sag.total() * 1e7 / (5 * std::pow(80, 4)),
              0.00915, 0.00001);
  EXPECT_NEAR(live.least[2], -5 * 80 / 16.0, 1e-9);
  const BeamWorst moving = worst_of_point(two, 300, 0);
  EXPECT_NEAR(moving.sagging, 0.2074 * 300 * 80, 5);
  EXPECT_NEAR(moving.hogging, 0.0962 * 300 * 80, 5);
  EXPECT_NEAR(moving.shear, 300, 1e-9);
  EXPECT_NEAR(moving.reactions[1], 300, 1e-9);
}
