// Stringers on props by finite elements: statics, continuous beams, and what a prop's absence leaves.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/sawtooth_solved.hpp"

namespace pitchboard {
namespace {

/// A straight board on its side, held at both ends' whole depth and upright under its middle.
struct TwoSpans {
  double span = 200, depth = 4, e = 1.4e6, e_ratio = 20, g_ratio = 16, per_inch = 10;
  double seat = 1.0;
  [[nodiscard]] SawtoothModel model() const {
    SawtoothModel out;
    out.outline = rectangle({inches(0), inches(2 * span)}, {inches(0), inches(depth)});
    out.thickness = 1.5;
    out.wood = {e, e / e_ratio, e / g_ratio, 0.3, 1, 0};
    out.loads = {{at(0, depth), at(span, depth), per_inch * span},
                 {at(span, depth), at(2 * span, depth), per_inch * span}};
    out.supports = {{at(0, 0), at(0, depth), 0, 1},
                    {at(0, 0), at(0, depth), 1, 0},
                    {at(2 * span, 0), at(2 * span, depth), 0, 1},
                    {at(span - seat / 2, 0), at(span + seat / 2, 0), 0, 1}};
    return out;
  }
  [[nodiscard]] double ei() const { return e * 1.5 * std::pow(depth, 3) / 12.0; }
  [[nodiscard]] double ga_per_k() const { return e / g_ratio * 1.5 * depth / 1.2; }
  /// SOURCE Timoshenko, Strength of Materials: the prop's force puts back what both spans as one sag under it, by
  /// bending and by shear: 5 w L^4 / 384 E I + k w L^2 / 8 G A over L^3 / 48 E I + k L / 4 G A, L both spans.
  [[nodiscard]] double reaction() const {
    const double l = 2 * span;
    return (5 * per_inch * std::pow(l, 4) / (384 * ei()) + per_inch * l * l / (8 * ga_per_k())) /
           (std::pow(l, 3) / (48 * ei()) + l / (4 * ga_per_k()));
  }
  /// End reaction times half the span less what lies on it; sag of a span on its own less what its end moment takes.
  [[nodiscard]] double end() const { return per_inch * span - reaction() / 2; }
  [[nodiscard]] double hogging() const { return per_inch * span * span / 2 - end() * span; }
  [[nodiscard]] double mid_down() const {
    return 5 * per_inch * std::pow(span, 4) / (384 * ei()) + per_inch * span * span / (8 * ga_per_k()) -
           hogging() * span * span / (16 * ei());
  }
  [[nodiscard]] double modulus() const { return 1.5 * depth * depth / 6; }
};

TEST(SawtoothProps, ABeamOverTwoSpansBendsAndShearsAsTimoshenkoSays) {
  for (const TwoSpans& beam : {TwoSpans{}, TwoSpans{.e_ratio = 1, .g_ratio = 2.6}, TwoSpans{.span = 240, .depth = 6}}) {
    const SawtoothResult r = solved(beam.model());
    ASSERT_EQ(r.bays.size(), 2u);
    ASSERT_EQ(r.props.size(), 1u);
    EXPECT_NEAR(r.props[0].reaction / beam.reaction(), 1.0, 0.001);
    // A slender beam of bending alone: 5/4 of a span's load.
    EXPECT_NEAR(beam.reaction() / (1.25 * beam.per_inch * beam.span), 1.0, 0.03);
    EXPECT_NEAR(r.reactions_down / (2 * beam.per_inch * beam.span), 1.0, 1e-9);
    for (const SawtoothBay& bay : r.bays) {
      EXPECT_NEAR(bay.mid_down / beam.mid_down(), 1.0, 0.005);
      EXPECT_DOUBLE_EQ(bay.mid_down, bay.mid_normal);
      const double most = beam.end() * beam.end() / (2 * beam.per_inch) / beam.modulus();
      EXPECT_NEAR(bay.bottom_stress / most, 1.0, 0.01);
    }
    // Both spans are alike; their meshes nearly.
    EXPECT_NEAR(r.bays[0].mid_down / r.bays[1].mid_down, 1.0, 1e-4);
    EXPECT_NEAR(r.bays[0].bottom_stress / r.bays[1].bottom_stress, 1.0, 1e-2);
    EXPECT_LT(r.props[0].bottom_stress, 0);
  }
}

Stringer propped() { return {.steps = 12, .prop = 62}; }

double middle(const EdgeSupport& s) { return in_inches(s.from.a + s.to.a) / 2.0; }

TEST(SawtoothProps, WithoutThePropItIsTheStringerWithoutOne) {
  SawtoothModel model = model_of(propped());
  model.supports.pop_back();
  EXPECT_EQ(solved(model), solved(model_of({.steps = 12})));
}

TEST(SawtoothProps, APropIsTheForceThatKeepsItsSeatWhereItIs) {
  // On the mesh of the propped one: the prop's force as an upward load in its place moves nothing else.
  const SawtoothModel model = model_of(propped());
  const SawtoothMesh mesh = mesh_sawtooth(model);
  const auto held = solve_sawtooth(model, mesh);
  ASSERT_TRUE(held);
  const SawtoothProp prop = held->props.at(0);
  const EdgeSupport seat = model.supports.back();
  SawtoothModel pushed = model;
  pushed.supports.pop_back();
  pushed.loads.push_back({seat.from, seat.to, -prop.reaction});
  const auto free = solve_sawtooth(pushed, mesh);
  ASSERT_TRUE(free);
  EXPECT_EQ(free->bays.size(), 1u);
  EXPECT_NEAR(free->reactions_down, held->reactions_down - prop.reaction, 1e-6);
  // Then a prop there carries nothing, and all else is as it was.
  SawtoothModel idle = pushed;
  idle.supports.push_back(seat);
  const auto nothing = solve_sawtooth(idle, mesh);
  ASSERT_TRUE(nothing);
  EXPECT_NEAR(nothing->props.at(0).reaction, 0, 1e-6 * prop.reaction);
  for (const std::size_t i : {0u, 1u}) {
    EXPECT_NEAR(nothing->bays.at(i).mid_normal / held->bays[i].mid_normal, 1.0, 1e-6);
    EXPECT_NEAR(nothing->bays[i].bottom_stress / held->bays[i].bottom_stress, 1.0, 1e-6);
  }
}

TEST(SawtoothProps, NoLoadNoForce) {
  SawtoothModel model = model_of(propped());
  model.weight_per_cubic_inch = 0;
  for (EdgeLoad& load : model.loads) load.down = 0;
  const SawtoothResult r = solved(model);
  EXPECT_EQ(r.props.at(0).reaction, 0);
  EXPECT_EQ(r.props[0].throat_stress, 0);
  EXPECT_EQ(r.bays.at(0).mid_down, 0);
}

TEST(SawtoothProps, TwoLoadsDoWhatEachDoesAlone) {
  const SawtoothModel model = model_of(propped());
  const SawtoothMesh mesh = mesh_sawtooth(model);
  const auto half = static_cast<std::ptrdiff_t>(model.loads.size() / 2);
  const std::vector<std::vector<EdgeLoad>> cases{model.loads,
                                                 {model.loads.begin(), model.loads.begin() + half},
                                                 {model.loads.begin() + half, model.loads.end()},
                                                 {}};
  const std::vector<SawtoothResult> r = solve_sawtooth(model, mesh, cases);
  ASSERT_EQ(r.size(), 4u);
  EXPECT_EQ(r[0], *solve_sawtooth(model, mesh));
  const auto expect_sum = [&](const auto& figure) {  // the own weight is in all of them
    EXPECT_NEAR((figure(r[1]) + figure(r[2]) - figure(r[3])) / figure(r[0]), 1.0, 1e-9);
  };
  expect_sum([](const SawtoothResult& v) { return v.bays[0].mid_down; });
  expect_sum([](const SawtoothResult& v) { return v.bays[1].mid_normal; });
  expect_sum([](const SawtoothResult& v) { return v.props[0].reaction; });
  expect_sum([](const SawtoothResult& v) { return v.reactions_down; });
  EXPECT_GT(r[1].bays[0].mid_down, r[0].bays[0].mid_down) << "the other bay's load lifts this one";
}

/// Force at the head by moments of all about the foot's middle, nothing pushing level; then of what is above each
/// corner: the way that the engine does not go.
double greatest_throat_stress(const SawtoothModel& model, const SawtoothResult& r) {
  const EdgeSupport &foot = model.supports[0], &head = model.supports[2];
  const double x_foot = middle(foot), slope = model.wood.grain_b / model.wood.grain_a;
  double about_foot = -r.props[0].reaction * (r.props[0].at - x_foot);
  for (const EdgeLoad& load : model.loads)
    about_foot += load.down * (in_inches(load.from.a + load.to.a) / 2.0 - x_foot);
  const double at_head = about_foot / (middle(head) - x_foot);
  const Point heel = model.outline.back();
  double most = 0;
  for (std::size_t i = 0; i + 1 < model.loads.size(); ++i) {
    const Point corner = model.loads[i].to;
    if (in_inches(corner.a) < (r.bays[0].from + r.bays[0].to) / 2 ||
        in_inches(corner.a) > (r.bays[1].from + r.bays[1].to) / 2)
      continue;
    const double c = model.wood.grain_a, s = model.wood.grain_b;
    const double d = in_inches(corner.b - heel.b) * c - in_inches(corner.a - heel.a) * s;
    const double x = in_inches(corner.a) + d / 2 * s;  // the section's middle lies below and out of the corner
    double up = at_head, moment = at_head * (middle(head) - x);
    for (std::size_t k = i + 1; k < model.loads.size(); ++k) {
      up -= model.loads[k].down;
      moment -= model.loads[k].down * (in_inches(model.loads[k].from.a + model.loads[k].to.a) / 2.0 - x);
    }
    // The seat, as far as it lies above the section's line, which meets the lower edge d beyond the corner.
    const double line = in_inches(corner.a) + d * s, seat = 1.5, from = r.props[0].at - seat / 2;
    const double above = std::clamp((from + seat - line) / seat, 0.0, 1.0);
    up += r.props[0].reaction * above;
    moment += r.props[0].reaction * above * (from + seat - seat * above / 2 - x);
    // Sagging presses the upper end; a force up on what is above pulls it along the slope.
    const double tension = -6 * moment / (model.thickness * d * d) + up * s / (model.thickness * d);
    EXPECT_GT(slope, 0);
    most = std::max(most, tension);
  }
  return most;
}

TEST(SawtoothProps, ThroatsCarryWhatStaticsSays) {
  for (const double prop : {47.5, 55.0, 62.0, 66.0}) {
    SawtoothModel model = model_of({.steps = 12, .prop = prop});
    model.weight_per_cubic_inch = 0;
    const SawtoothResult r = solved(model);
    const double by_hand = greatest_throat_stress(model, r);
    EXPECT_GT(by_hand, 20);
    EXPECT_NEAR(r.props.at(0).throat_stress / by_hand, 1.0, 1e-9) << prop;
  }
}

TEST(SawtoothProps, OwnWeightCountsInThroatsAsTheSameLoadOnSteps) {
  // Weight is spread over the wood, not over the steps: nearly the same forces.
  SawtoothModel weighed = model_of(propped()), loaded = weighed;
  loaded.weight_per_cubic_inch = 0;
  weighed.weight_per_cubic_inch = 0.2;
  const double weight = area(weighed.outline).raw() * weighed.thickness * weighed.weight_per_cubic_inch;
  for (EdgeLoad& load : weighed.loads) load.down = 0;
  for (EdgeLoad& load : loaded.loads) load.down = weight / static_cast<double>(loaded.loads.size());
  const SawtoothResult one = solved(weighed), other = solved(loaded);
  EXPECT_NEAR(one.props.at(0).throat_stress / other.props.at(0).throat_stress, 1.0, 0.05);
}

TEST(SawtoothProps, FinerMeshesConvergeBesideAProp) {
  SawtoothModel model = model_of(propped());
  const SawtoothResult usual = solved(model);
  model.element = 0.8;
  model.at_corner = 0.03;
  const SawtoothResult fine = solved(model);
  EXPECT_NEAR(usual.props.at(0).reaction / fine.props.at(0).reaction, 1.0, 0.002);
  EXPECT_NEAR(usual.props[0].throat_stress / fine.props[0].throat_stress, 1.0, 0.01);
  EXPECT_NEAR(usual.props[0].bottom_stress / fine.props[0].bottom_stress, 1.0, 0.03);
  for (const std::size_t i : {0u, 1u}) {
    EXPECT_NEAR(usual.bays.at(i).mid_normal / fine.bays.at(i).mid_normal, 1.0, 0.01);
    EXPECT_NEAR(usual.bays[i].bottom_stress / fine.bays[i].bottom_stress, 1.0, 0.015);
  }
}

}  // namespace
}  // namespace pitchboard
