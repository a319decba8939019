// The finite elements against another solver, against beam theory, and against what must hold for any plate.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>

#include "tests/frame_fixture.hpp"
#include "tests/rules_table.hpp"
#include "tests/sawtooth_solved.hpp"

namespace pitchboard {
namespace {

/// The one bay of a plate without props.
SawtoothBay bay_of(const SawtoothModel& model) {
  const SawtoothResult result = solved(model);
  EXPECT_EQ(result.bays.size(), 1u);
  EXPECT_TRUE(result.props.empty());
  return result.bays.empty() ? SawtoothBay{} : result.bays.front();
}

Stringer stringer_of(const TableRow& row) {
  return {static_cast<int>(number(row, "steps")),
          number(row, "rise"),
          number(row, "going"),
          number(row, "depth"),
          row.contains("kicker") && number(row, "kicker") != 0,
          row.contains("prop") ? number(row, "prop") : 0};
}

void expect_share(double value, double truth, double share, const std::string& what) {
  EXPECT_NEAR(value / truth, 1.0, share) << what << ": " << value << " for " << truth;
}

double total_load(const SawtoothModel& model) {
  double sum = area(model.outline).raw() * model.thickness * model.weight_per_cubic_inch;
  for (const EdgeLoad& load : model.loads) sum += load.down;
  return sum;
}

TEST(Sawtooth, ComesWithinHalfAPercentOfTheReferenceDeflectionAndOneOfItsStress) {
  for (const TableRow& row : table("strength_sawtooth_reference.csv")) {
    const SawtoothBay r = bay_of(model_of(stringer_of(row)));
    const std::string what = row.at("steps") + " steps";
    if (!row.at("mid_down").empty()) expect_share(r.mid_down, number(row, "mid_down"), 0.005, what + ", down");
    expect_share(r.mid_normal, number(row, "mid_normal"), 0.005, what + ", square to the edge");
    expect_share(r.bottom_stress, number(row, "bottom_stress"), 0.01, what + ", stress");
  }
}

// The other solver integrates loads, own weight and supports by itself; its stress is averaged at nodes. Made by
// script/sawtooth_reference.py build/release/bench/sawtooth_dump > tests/tables/strength_sawtooth.csv
TEST(Sawtooth, AgreesWithAnotherSolverOnTheSameMesh) {
  int propped = 0;
  for (const TableRow& row : table("strength_sawtooth.csv")) {
    const SawtoothResult r = solved(model_of(stringer_of(row)));
    const std::string what = row.at("steps") + " steps";
    EXPECT_EQ(r.nodes, static_cast<int>(number(row, "nodes"))) << "the table is of another mesh: make it again";
    const auto expect_bay = [&](const SawtoothBay& bay, const std::string& which) {
      expect_share(bay.mid_down, number(row, which + "mid_down"), 1e-4, what + ", down");
      expect_share(bay.mid_normal, number(row, which + "mid_normal"), 1e-4, what + ", square to the edge");
      expect_share(bay.bottom_stress, number(row, which + "bottom_stress"), 0.01, what + ", stress");
    };
    ASSERT_FALSE(r.bays.empty());
    expect_bay(r.bays.front(), "");
    ASSERT_EQ(r.props.size(), number(row, "prop") > 0 ? 1u : 0u);
    if (r.props.empty()) continue;
    ++propped;
    expect_bay(r.bays.back(), "upper_");
    expect_share(r.props[0].reaction, number(row, "prop_reaction"), 1e-4, what + ", reaction of the prop");
    // It falls steeply from the place where reading begins, and nodes and Gauss points begin apart.
    expect_share(r.props[0].bottom_stress, number(row, "prop_bottom_stress"), 0.03, what + ", beside the prop");
  }
  EXPECT_EQ(propped, 2);
}

TEST(Sawtooth, ReferenceModelWeighsWhatTheReferenceDoes) {
  // SOURCE the reference's own total, 330.24 lb.
  EXPECT_NEAR(total_load(model_of({})), 330.24, 0.005);
}

/// A plate hung by its upper edge in two halves, pulled evenly at its lower edge.
SawtoothModel hung(double grain_a, double grain_b) {
  SawtoothModel model;
  model.outline = rectangle({inches(0), inches(7)}, {inches(0), inches(5)});
  model.thickness = 1.5;
  model.wood = plane_wood(1.4e6, grain_a, grain_b);
  model.loads = {{at(0, 0), at(7, 0), 2100}};
  model.supports = {{at(0, 5), at(3.5, 5), 0, 1}, {at(3.5, 5), at(7, 5), 0, 1}, {at(0, 5), at(7, 5), 1, 0}};
  return model;
}

TEST(Sawtooth, UniformStressComesOutExactlyWhateverTheGrain) {
  for (const auto& [c, s] : {std::pair{1.0, 0.0}, {0.0, 1.0}, {0.8, 0.6}, {-0.6, 0.8}, {5.0 / 13.0, -12.0 / 13.0}}) {
    const SawtoothModel model = hung(c, s);
    const PlaneWood& w = model.wood;
    // SOURCE Lekhnitskii, Anisotropic Plates: E at an angle to the grain; upright stress, so the sine takes the
    // cosine's place.
    const double e =
        1.0 / (s * s * s * s / w.e_l + c * c * c * c / w.e_t + s * s * c * c * (1.0 / w.g_lt - 2.0 * w.nu_lt / w.e_l));
    const SawtoothResult r = solved(model);
    EXPECT_NEAR(r.bays.at(0).mid_down / (2100.0 / (7.0 * 1.5) * 5.0 / e), 1.0, 1e-9);
    EXPECT_GT(r.elements, 4);
  }
}

TEST(Sawtooth, ABeamBendsAndShearsAsTimoshenkoSays) {
  struct Case {
    double span, depth, e_ratio, g_ratio;
  };
  for (const Case& beam : {Case{60, 4, 1, 2.6}, Case{60, 4, 20, 16}, Case{96, 5, 20, 16}}) {
    SawtoothModel model;
    model.outline = rectangle({inches(0), inches(beam.span)}, {inches(0), inches(beam.depth)});
    model.thickness = 1.5;
    model.wood = {1.4e6, 1.4e6 / beam.e_ratio, 1.4e6 / beam.g_ratio, 0.3, 1, 0};
    const double load = 10.0 * beam.span;
    model.loads = {{at(0, beam.depth), at(beam.span, beam.depth), load}};
    model.supports = {{at(0, 0), at(0, beam.depth), 0, 1},
                      {at(0, 0), at(0, beam.depth), 1, 0},
                      {at(beam.span, 0), at(beam.span, beam.depth), 0, 1}};
    const double inertia = 1.5 * std::pow(beam.depth, 3) / 12.0, section = 1.5 * beam.depth;
    // SOURCE Timoshenko, Strength of Materials: 5 W L³ / 384 E I + 1.2 W L / 8 G A, and M = W L / 8.
    const double down = 5.0 * load * std::pow(beam.span, 3) / (384.0 * model.wood.e_l * inertia) +
                        1.2 * load * beam.span / (8.0 * model.wood.g_lt * section);
    const SawtoothBay r = bay_of(model);
    expect_share(r.mid_down, down, 0.005, "deflection");
    EXPECT_DOUBLE_EQ(r.mid_down, r.mid_normal);
    expect_share(r.bottom_stress, load * beam.span / 8.0 / (1.5 * beam.depth * beam.depth / 6.0), 0.01, "stress");
  }
}

TEST(Sawtooth, DeflectionGoesWithOneOverEAndStressDoesNot) {
  SawtoothModel model = model_of({});
  const SawtoothBay one = bay_of(model);
  model.wood = plane_wood(2.8e6, model.wood.grain_a, model.wood.grain_b);
  const SawtoothBay two = bay_of(model);
  EXPECT_NEAR(two.mid_down * 2.0 / one.mid_down, 1.0, 1e-9);
  EXPECT_NEAR(two.bottom_stress / one.bottom_stress, 1.0, 1e-9);
}

Stringer propped() { return {.steps = 12, .prop = 62}; }

Point mirrored(Point p) { return {-p.a, p.b}; }

TEST(Sawtooth, AMirroredStringerGivesTheSame) {
  const SawtoothModel model = model_of(propped());
  SawtoothModel other = model;
  for (Point& p : other.outline) p = mirrored(p);
  for (EdgeLoad& load : other.loads) load = {mirrored(load.from), mirrored(load.to), load.down};
  for (EdgeSupport& s : other.supports) s = {mirrored(s.from), mirrored(s.to), s.nx, s.ny};
  other.wood.grain_a = -other.wood.grain_a;
  SawtoothMesh mesh = mesh_sawtooth(model);
  const auto one = solve_sawtooth(model, mesh);
  ASSERT_TRUE(one);
  for (Point& p : mesh.nodes) p = mirrored(p);
  for (auto& e : mesh.elements) e = {e[0], e[2], e[1], e[5], e[4], e[3]};
  const auto two = solve_sawtooth(other, mesh);
  ASSERT_TRUE(two);
  for (const std::size_t i : {0u, 1u}) {
    const SawtoothBay &here = one->bays.at(i), &there = two->bays.at(1 - i);
    EXPECT_NEAR(there.from + here.to, 0.0, 1e-9);
    EXPECT_NEAR(there.mid_down / here.mid_down, 1.0, 1e-9);
    EXPECT_NEAR(there.mid_normal / here.mid_normal, 1.0, 1e-9);
    EXPECT_NEAR(there.bottom_stress / here.bottom_stress, 1.0, 1e-9);
  }
  EXPECT_NEAR(two->props.at(0).reaction / one->props.at(0).reaction, 1.0, 1e-9);
  EXPECT_NEAR(two->props[0].bottom_stress / one->props[0].bottom_stress, 1.0, 1e-9);
  EXPECT_NEAR(two->props[0].throat_stress / one->props[0].throat_stress, 1.0, 1e-6);
  const SawtoothResult anew = solved(other);
  expect_share(anew.bays.at(1).mid_normal, one->bays[0].mid_normal, 0.003, "meshed anew");
  expect_share(anew.props.at(0).reaction, one->props[0].reaction, 0.0005, "the prop's force, meshed anew");
}

TEST(Sawtooth, ReactionsSumToTheLoads) {
  for (const int steps : {2, 3, 7, 12}) {
    const SawtoothModel model = model_of({steps});
    EXPECT_NEAR(solved(model).reactions_down / total_load(model), 1.0, 1e-9);
  }
  EXPECT_NEAR(solved(model_of(propped())).reactions_down / total_load(model_of(propped())), 1.0, 1e-9);
}

TEST(Sawtooth, FinerMeshesConverge) {
  SawtoothModel model = model_of({4});
  model.element = 0.8;
  model.at_corner = 0.03;
  const double fine = bay_of(model).mid_normal;
  double last = std::numeric_limits<double>::infinity();
  for (const auto& [element, at_corner] : {std::pair{6.0, 3.0}, {3.0, 0.8}, {1.6, 0.1}}) {
    model.element = element;
    model.at_corner = at_corner;
    const double error = 1.0 - bay_of(model).mid_normal / fine;
    EXPECT_GT(error, 0) << "a coarse mesh is too stiff";
    EXPECT_LT(error, last * 0.6);
    last = error;
  }
  EXPECT_LT(last, 0.001);
}

TEST(Sawtooth, EqualModelsGiveEqualBits) {
  const SawtoothModel model = model_of(propped());
  const SawtoothMesh one = mesh_sawtooth(model), two = mesh_sawtooth(model);
  ASSERT_EQ(one.nodes.size(), two.nodes.size());
  EXPECT_EQ(std::memcmp(one.nodes.data(), two.nodes.data(), one.nodes.size() * sizeof(Point)), 0);
  EXPECT_EQ(one.elements, two.elements);
  EXPECT_EQ(*solve_sawtooth(model, one), *solve_sawtooth(model, two));
}

TEST(Sawtooth, WhatCannotStandGivesNothing) {
  const SawtoothModel good = model_of({3});
  const SawtoothMesh mesh = mesh_sawtooth(good);
  ASSERT_TRUE(solve_sawtooth(good, mesh));
  const auto fails = [&](const char* why, const auto& spoil) {
    SawtoothModel bad = good;
    spoil(bad);
    EXPECT_FALSE(solve_sawtooth(bad, mesh_sawtooth(bad))) << why;
  };
  fails("held at the head only",
        [](SawtoothModel& m) { m.supports.erase(m.supports.begin(), m.supports.begin() + 2); });
  fails("may slide", [](SawtoothModel& m) { m.supports.erase(m.supports.begin() + 1); });
  fails("held twice alike", [](SawtoothModel& m) { m.supports.push_back(m.supports.back()); });
  fails("propped twice alike", [](SawtoothModel& m) {
    m = model_of(propped());
    m.supports.push_back(m.supports.back());
  });
  fails("propped off the edge", [](SawtoothModel& m) {
    m = model_of(propped());
    m.supports.back().from.b += inches(0.5);
  });
  fails("held where no edge is", [](SawtoothModel& m) { m.supports[2].from.a += inches(1); });
  fails("loaded where no edge is", [](SawtoothModel& m) { m.loads[1].to.b += inches(0.5); });
  fails("no thickness", [](SawtoothModel& m) { m.thickness = 0; });
  fails("no stiffness", [](SawtoothModel& m) { m.wood.e_t = 0; });
  fails("no size", [](SawtoothModel& m) { m.at_corner = 0; });
  fails("two corners", [](SawtoothModel& m) { m.outline.resize(2); });
  fails("a corner twice", [](SawtoothModel& m) { m.outline.insert(m.outline.begin(), m.outline.front()); });
  fails("edges that cross", [](SawtoothModel& m) { std::swap(m.outline[2], m.outline[3]); });
  fails("not a number", [](SawtoothModel& m) { m.outline[1].a = inches(std::numeric_limits<double>::quiet_NaN()); });
  fails("no lower edge free", [](SawtoothModel& m) {
    const Point heel = m.outline.back(), head = m.outline[m.outline.size() - 2];
    m.supports.push_back({head, heel, 1, 0});
  });
  EXPECT_TRUE(mesh_sawtooth(SawtoothModel{}).elements.empty());
}

// ---- the mesh alone ----

double turned_by(Point p, Point q, Point r) {
  return (q.a - p.a).raw() * (r.b - p.b).raw() - (q.b - p.b).raw() * (r.a - p.a).raw();
}

/// Least angle of a triangle, in degrees, in the plane stretched across the grain.
double least_angle(const SawtoothModel& model, std::array<Point, 3> p) {
  const double stretch = std::sqrt(std::sqrt(model.wood.e_l / model.wood.e_t));
  const double c = model.wood.grain_a, s = model.wood.grain_b;
  for (Point& q : p) q = {q.a * c + q.b * s, (q.b * c - q.a * s) * stretch};
  double least = 180;
  for (std::size_t i = 0; i < 3; ++i) {
    const Point u = p[(i + 1) % 3] - p[i], v = p[(i + 2) % 3] - p[i];
    const double dot = u.a.raw() * v.a.raw() + u.b.raw() * v.b.raw();
    least = std::min(least, std::atan2(turned_by(p[i], p[(i + 1) % 3], p[(i + 2) % 3]), dot) * 180.0 / kPi);
  }
  return least;
}

/// `sharp`: the outline has corners below 28 degrees, and triangles may then be as thin there.
void expect_sound(const SawtoothModel& model, const std::string& what, bool sharp = false) {
  const SawtoothMesh mesh = mesh_sawtooth(model);
  ASSERT_FALSE(mesh.elements.empty()) << what;
  std::vector<int> uses(mesh.nodes.size(), 0);
  double sum = 0, least = 180, longest = 0;
  for (const auto& e : mesh.elements) {
    std::array<Point, 3> p{};
    for (std::size_t i = 0; i < 3; ++i) p[i] = mesh.nodes[static_cast<std::size_t>(e[i])];
    const double twice = turned_by(p[0], p[1], p[2]);
    ASSERT_GT(twice, 0) << what;
    sum += twice / 2.0;
    least = std::min(least, least_angle(model, p));
    for (std::size_t i = 0; i < 3; ++i) {
      const Point q = p[(i + 1) % 3], m = mesh.nodes[static_cast<std::size_t>(e[3 + i])];
      longest = std::max(longest, distance(p[i], q).raw());
      ++uses[static_cast<std::size_t>(e[3 + i])];
      // On the edge, at its middle or at a quarter: then the element is not turned inside out.
      EXPECT_NEAR((distance(p[i], m) + distance(m, q) - distance(p[i], q)).raw(), 0, 1e-9) << what;
      EXPECT_GT(distance(p[i], m) / distance(p[i], q), 0.2499) << what;
      EXPECT_LT(distance(p[i], m) / distance(p[i], q), 0.7501) << what;
    }
  }
  EXPECT_NEAR(sum / area(model.outline).raw(), 1.0, 1e-9) << what;
  EXPECT_LE(longest, model.element * (1.0 + 1e-9)) << what;
  if (!sharp) {
    EXPECT_GT(least, 27.9) << what;
  }
  double around = 0;
  for (const auto& e : mesh.elements) {
    for (std::size_t i = 0; i < 3; ++i) {
      const auto middle = static_cast<std::size_t>(e[3 + i]);
      EXPECT_LE(uses[middle], 2) << what;
      if (uses[middle] != 1) continue;
      const Point p = mesh.nodes[static_cast<std::size_t>(e[i])],
                  q = mesh.nodes[static_cast<std::size_t>(e[(i + 1) % 3])];
      around += distance(p, q).raw();
      for (const Point r : {p, mesh.nodes[middle], q}) {
        EXPECT_LT(distance_to_outline(model.outline, r).raw(), 1e-9) << what;
      }
    }
  }
  double perimeter = 0;
  for (std::size_t i = 0; i < model.outline.size(); ++i) {
    perimeter += distance(model.outline[i], model.outline[(i + 1) % model.outline.size()]).raw();
  }
  EXPECT_NEAR(around / perimeter, 1.0, 1e-9) << what;
}

TEST(SawtoothMesh, IsSoundForReferenceStringers) {
  for (const int steps : {1, 2, 3, 7, 16}) {
    for (const bool kicker : {false, true}) expect_sound(model_of({steps, 7.25, 10, 11.25, kicker}), "reference");
  }
  SawtoothModel coarse = model_of({});
  coarse.element = coarse.at_corner = 40;
  expect_sound(coarse, "coarse");
}

TEST(SawtoothMesh, IsSoundForEveryStringerThatTheProgramMakes) {
  int outlines = 0;
  for (const int risers : {2, 3, 5, 9, 14}) {
    for (const double rise : {5.75, 7.0, 7.75}) {
      for (const TopMode top : {TopMode::deck_edge, TopMode::full_tread}) {
        for (const StringerKind kind : {StringerKind::cut, StringerKind::solid}) {
          Job job = steps(risers, rise, 9.5 + risers % 3);
          job.stair.top = top;
          job.stringers.kind = kind;
          const Standing stair = stand(job);
          for (const Part& part : stair.all(PartKind::stringer)) {
            SawtoothModel model;
            model.outline = part.solid.outline;
            model.wood = plane_wood(1.4e6, part.grain_a, part.grain_b);
            expect_sound(model, std::to_string(risers) + " risers of " + std::to_string(rise) + ", " + part.mark);
            ++outlines;
          }
        }
      }
    }
  }
  EXPECT_GT(outlines, 100);
}

TEST(SawtoothMesh, EndsAtSharpAndCloseCorners) {
  SawtoothModel model;
  model.wood = plane_wood(1.4e6, 1, 0);
  model.outline = {at(0, 0), at(40, 0), at(40, 1)};
  expect_sound(model, "a wedge of a degree and a half", true);
  model.outline = {at(0, 0), at(40, 0), at(40, 11), at(20.001, 11), at(20.001, 1), at(20, 1), at(20, 11), at(0, 11)};
  expect_sound(model, "a kerf of a thousandth", true);
  model.outline = {at(0, 0), at(10, 0), at(10, 10), at(5, 0.05), at(0, 10)};
  expect_sound(model, "a neck of a twentieth", true);
}

}  // namespace
}  // namespace pitchboard
