// Members against worked examples and figures worked out apart from this program (tests/tables/strength_members.csv).

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <map>

#include "engine/strength/limits.hpp"
#include "engine/strength/member_parts.hpp"
#include "tests/rules_table.hpp"
#include "tests/strength_member_fixture.hpp"

using namespace pitchboard;
using namespace member_fixture;

namespace {

struct Cells {
  double a, b, c, d, e, f;
};

Timber with(Timber timber, double fb) {
  timber.values->fb = fb;
  return timber;
}
GuardPost guard(const Cells& in) {
  return {.post = with(pine(3.5, 3.5, "4x4"), 1100),
          .load = in.a,
          .height = in.b,
          .cover = in.c,
          .upper_down = in.d,
          .bolt_spacing = in.e,
          .hole = 0};
}
double value(Timber timber, Value which, double duration, double wet) {
  timber.service.load_duration = duration;
  timber.service.wet = wet > 0;
  HandSheet unread(false);
  return adjusted(unread, *timber.values, timber.member, timber.service, which);
}
Timber fir_4x8(double fb) {
  Timber timber = with(pine(3.5, 7.25, "4x8"), fb);
  timber.member.species = "douglas-fir";
  timber.member.grade = "no1";
  timber.values->fv = 180;
  timber.values->e = 1.7e6;
  timber.values->size_factor = true;
  return timber;
}
Sag middle_of(double length, double point, double ei) {
  const std::vector<double> spans{length};
  const BeamLoads loads{.uniform = {}, .points = {{.span = 0, .from_left = length / 2, .force = point}}};
  return sag_at(spans, loads, solve_beam(spans, loads), 0, length / 2, {.ei = ei, .ga_per_k = 0});
}
const Check& stringer_check(const Cells& in, const std::string& kind, std::vector<Check>& checks) {
  const StringerBeam beam = stringer(in.a, in.b, in.c, in.d, in.e, in.f);
  checks = check_stringer(beam, worst_of(beam));
  return check_with(checks, kind + (in.f > 0 ? " under 300 lb on" : " under 60 lb/ft"));
}
std::vector<Check> solid(const Cells& in) {
  StringerBeam beam = stringer(in.a, in.b, in.c, in.d, in.e, 0);
  beam.cut = false;
  beam.board = dry(beam.board);
  return check_stringer(beam, worst_of(beam));
}
double span_limit(const Cells& in, bool incised) {
  StringerBeam beam = stringer(in.b, in.c, 72, in.d, 0, 0);
  beam.board = with(beam.board, in.a);
  beam.board.service.incised = incised;
  return 6 / std::sqrt(check_with(check_stringer(beam, worst_of(beam)), "bending under 75 lb/ft").ratio);
}
std::vector<Check> tread(const Cells& in, double fb) {
  const char* nominal = in.b > 11 ? "2x12" : in.b > 9 ? "2x10" : "2x6";
  return check_tread({.board = with(pine(in.a, in.b, nominal), fb),
                      .span = in.c,
                      .overhang = 0,
                      .live = 40,
                      .dead = 0,
                      .point = 300,
                      .shared_by = 1,
                      .greatest_span = 0,
                      .maker = ""});
}

const std::map<std::string, std::function<double(const Cells&)>>& computed() {
  static const std::map<std::string, std::function<double(const Cells&)>> functions{
      {"notch_depth", [](const Cells& in) { return notch_depth(in.a, in.b); }},
      {"throat", [](const Cells& in) { return throat_of(in.a, in.b, in.c, in.d); }},
      {"modulus", [](const Cells& in) { return Rectangle{in.a, in.b}.modulus(); }},
      {"inertia", [](const Cells& in) { return Rectangle{in.a, in.b}.inertia(); }},
      {"midspan_stress",
       [](const Cells& in) {
         return bending_check(fir_4x8(1000), {in.a, in.b}, {}, in.c * in.d / 4, "bending").demand;
       }},
      {"midspan_shear_stress",
       [](const Cells& in) {
         const std::vector<double> spans{in.d};
         const double v = solve_beam(spans, {.uniform = {}, .points = {{0, in.d / 2, in.c}}}).shear;
         return shear_check(fir_4x8(1000), {in.a, in.b}, {}, v, "shear").demand;
       }},
      {"midspan_sag",
       [](const Cells& in) { return middle_of(in.d, in.c, in.e * Rectangle{in.a, in.b}.inertia()).total(); }},
      {"bending_value", [](const Cells& in) { return value(fir_4x8(in.a), Value::bending, in.b, in.c); }},
      {"shear_value", [](const Cells& in) { return value(fir_4x8(1000), Value::shear, in.b, in.c); }},
      {"stiffness_value", [](const Cells& in) { return value(fir_4x8(1000), Value::stiffness, 1, in.c); }},
      {"guard_moment", [](const Cells& in) { return guard_post_forces(guard(in)).moment; }},
      {"guard_required_modulus", [](const Cells& in) { return guard_post_forces(guard(in)).moment / in.f; }},
      {"guard_tension", [](const Cells& in) { return guard_post_forces(guard(in)).upper_tension; }},
      {"guard_stress",
       [](const Cells& in) {
         GuardPost post = guard(in);
         post.hole = in.f;
         return check_with(check_guard_post(post), in.f > 0 ? "hole" : "bending at").demand;
       }},
      {"notched_end",
       [](const Cells& in) {
         return check_notched_end({.board = dry(pine()),
                                   .depth = in.a,
                                   .left = in.b,
                                   .tension_side = in.c > 0,
                                   .past_support = in.d,
                                   .shear = 100})
             .capacity;
       }},
      {"jointed_end",
       [](const Cells& in) {
         return check_jointed_end(
                    {.board = dry(pine()), .depth = in.a, .effective = in.b, .from_end = in.c, .shear = 100})
             .capacity;
       }},
      {"span_limit", [](const Cells& in) { return span_limit(in, false); }},
      {"span_limit_incised", [](const Cells& in) { return span_limit(in, true); }},
      {"stringer_moment",
       [](const Cells& in) {
         std::vector<Check> checks;
         return value_of(stringer_check(in, "bending", checks).figures, "M");
       }},
      {"stringer_stress",
       [](const Cells& in) {
         std::vector<Check> checks;
         return stringer_check(in, "bending", checks).demand;
       }},
      {"stringer_plumb_sag",
       [](const Cells& in) {
         std::vector<Check> checks;
         return value_of(stringer_check(in, "deflection", checks).figures, "Delta_b") * in.b / std::hypot(in.a, in.b);
       }},
      {"solid_stress", [](const Cells& in) { return check_with(solid(in), "bending under 60").demand; }},
      {"solid_sag",
       [](const Cells& in) { return value_of(check_with(solid(in), "deflection under 60").figures, "Delta_b"); }},
      {"tread_ratio", [](const Cells& in) { return check_with(tread(in, in.d), "bending under 300").ratio; }},
      {"tread_part",
       [](const Cells& in) {
         return in.c / value_of(check_with(tread(in, 1000), "deflection under 300").figures, "Delta_b");
       }},
  };
  return functions;
}

Cells cells(const TableRow& row) {
  return {number(row, "a"), number(row, "b"), number(row, "c"), number(row, "d"), number(row, "e"), number(row, "f")};
}

}  // namespace

TEST(Members, EveryRowOfTheTableOfWorkedExamplesIsReproduced) {
  std::map<std::string, int> met;
  for (const TableRow& row : table("strength_members.csv")) {
    ++met[row.at("what")];
    if (row.at("what") == "stringer_to_plate") continue;
    SCOPED_TRACE(row.at("what") + " " + row.at("a") + " " + row.at("b") + " " + row.at("source"));
    const auto found = computed().find(row.at("what"));
    ASSERT_NE(found, computed().end());
    EXPECT_NEAR(found->second(cells(row)), number(row, "expect"), number(row, "step"));
  }
  for (const auto& [what, unused] : computed()) EXPECT_GT(met[what], 0) << what;
}

// The plate is the better model, the beam of the throat the one used: it must bend more and be stressed more, but not
// be senseless.
TEST(Stringer, BeamOfTheThroatErrsToTheSafeSideOfThePlate) {
  int plates = 0;
  for (const TableRow& row : table("strength_members.csv")) {
    if (row.at("what") != "stringer_to_plate") continue;
    ++plates;
    const Cells in = cells(row);
    const double risers = in.a, rise = in.b, going = in.c, step = std::hypot(rise, going);
    const double level_cut = throat_of(in.d, rise, going, 0) * step / rise;
    StringerBeam beam = stringer(rise, going, risers * going - level_cut / 2, 40 * 16 / 12.0, 2.6, 0);
    beam.board = dry(pine(1.5, in.d));  // 2.6 lb/ft: no more than the plate of 32 lb/cu ft weighs
    const std::vector<Check> checks = check_stringer(beam, worst_of(beam));
    const double sag = value_of(check_with(checks, "deflection under 53").figures, "Delta") / in.e;
    const double stress = check_with(checks, "bending under 53").demand / in.f;
    EXPECT_GT(sag, number(row, "expect")) << row.at("a");
    EXPECT_LT(sag, number(row, "expect") + number(row, "step")) << row.at("a");
    EXPECT_GT(stress, number(row, "expect")) << row.at("a");
    EXPECT_LT(stress, number(row, "expect") + number(row, "step")) << row.at("a");
  }
  EXPECT_EQ(plates, 4);
}

// Derived: whole board 624 of 750 psi; the throat is never traded for the whole width.
TEST(Stringer, CutOneIsWeighedByItsThroatAndAnOverCutCostsMore) {
  StringerBeam beam = stringer(7.5, 10, 72, 60, 15, 300);
  const auto stress = [&] { return check_with(check_stringer(beam, worst_of(beam)), "bending under 300").demand; };
  const double cut = stress();
  EXPECT_NEAR(cut, 6210 / (1.5 * 5.25 * 5.25 / 6), 0.01);
  beam.over_cut = 0.5;
  EXPECT_NEAR(stress(), 6210 / (1.5 * 4.85 * 4.85 / 6), 0.01);
  beam.over_cut = 8;
  EXPECT_EQ(check_stringer(beam, worst_of(beam)).front().verdict, Verdict::fail);
  beam.cut = false;
  EXPECT_NEAR(stress(), 6210 / (1.5 * 11.25 * 11.25 / 6), 0.01);
}

// NDS 3.9 worked by hand for a 3-4-5 slope, dry: Q = 300 + 1.25 x 36 = 345; N = 207; M = 5400 + 810 = 6210; d = 5.25.
TEST(Stringer, ForceAlongTheSlopeIsAddedAsTheClauseSays) {
  StringerBeam beam = stringer(7.5, 10, 72, 0, 15, 300);
  beam.board = dry(beam.board);
  const std::vector<Check> checks = check_stringer(beam, worst_of(beam));
  const Check& both = check_with(checks, "along the slope under 300");
  const double f = 207 / (1.5 * 5.25), fb = 6210 / (1.5 * 5.25 * 5.25 / 6);
  const double fc_e = 0.822 * 510000 / std::pow(90 / 5.25, 2), r = fc_e / 1250;
  const double cp = (1 + r) / 1.6 - std::sqrt(std::pow((1 + r) / 1.6, 2) - r / 0.8);
  const double pressed = std::pow(f / (1250 * cp), 2) + fb / (750 * (1 - f / fc_e));
  const double stretched = f / 450 + fb / 750;
  EXPECT_NEAR(both.demand, std::max(pressed, stretched), 1e-9);
  EXPECT_GT(both.demand, check_with(checks, "bending under 300").ratio);
  EXPECT_NEAR(check_with(checks, "shear under 300").demand, 1.5 * 345 * 0.8 / (1.5 * 5.25), 1e-9);
}

// Worked by hand for a 3-4-5 slope: s = 90, cos = 0.8, d = 5.25; wet: E' 1.26e6, G 78750, Kcr 2 (from memory:
// NDS 3.5.2).
TEST(Stringer, DeflectionsHaveShearAndTheOwnWeightCreeps) {
  const StringerBeam beam = stringer(7.5, 10, 72, 60, 15, 100);
  const std::vector<Check> checks = check_stringer(beam, worst_of(beam));
  const double ei = 1.26e6 * 1.5 * std::pow(5.25, 3) / 12, ga_per_k = 78750 * 1.5 * 5.25 / 1.2;
  const auto by_uniform = [&](double w) {
    return 5 * w * 0.64 * std::pow(90, 4) / (384 * ei) + w * 0.64 * 90 * 90 / (8 * ga_per_k);
  };
  const Check& people = check_with(checks, "deflection under 60");
  EXPECT_NEAR(people.demand, by_uniform(5), 1e-9);
  EXPECT_NEAR(people.capacity, 90 / 360.0, 1e-12);
  EXPECT_NEAR(check_with(checks, "deflection under 100").demand,
              80 * std::pow(90, 3) / (48 * ei) + 80 * 90 / (4 * ga_per_k), 1e-9);
  const Check& total = check_with(checks, "deflection in all");
  EXPECT_NEAR(total.demand, by_uniform(5) + 2 * by_uniform(1.25), 1e-9);
  EXPECT_NEAR(total.capacity, 90 / 240.0, 1e-12);
}

// Derived: a middle support takes load off the spans; two equal spans carry w L^2/8 over it.
TEST(Stringer, MiddleSupportLessensTheStress) {
  StringerBeam beam = stringer(7, 11, 120, 60, 15, 300);
  const std::vector<Check> one = check_stringer(beam, worst_of(beam));
  beam.spans = {60, 60};
  const std::vector<Check> two = check_stringer(beam, worst_of(beam));
  for (const char* what : {"bending under 60", "bending under 300", "deflection under 60", "deflection in all"})
    EXPECT_LT(check_with(two, what).ratio, 0.6 * check_with(one, what).ratio) << what;
  EXPECT_NEAR(value_of(check_with(two, "bending under 60").figures, "M"), 75 / 12.0 * 60 * 60 / 8, 1e-6);
}

// Statics: level span of 72 in; people 75 x 6 / 2 = 225 lb, single load beside the support 300 + 15 x 6 / 2 = 345 lb.
TEST(Stringer, ReactionsAreTheWorseOfBothLoads) {
  StringerBeam beam = stringer(7, 11, 72, 60, 15, 300);
  EXPECT_NEAR(reactions_of(worst_of(beam)).greatest[0], 345, 1e-9);
  EXPECT_NEAR(reactions_of(worst_of(beam)).least[1], 45, 1e-9);
  beam.point = 0;
  EXPECT_NEAR(reactions_of(worst_of(beam)).greatest[1], 225, 1e-9);
  beam.spans = {100, 20};
  EXPECT_LT(reactions_of(worst_of(beam)).least[2], 0);
}

// State of Georgia, 2015 deck amendments: 6 ft for a cut 2x12 of 7 3/4 : 10, 13 ft 3 in for a whole one, southern pine;
// with two stringers under 36 in and the values of the tables.
TEST(Stringer, PrintedSpansOfSouthernPineHoldUnderPeople) {
  std::string why_not;
  StringerBeam beam = stringer(7.75, 10, 72, 60, 15, 300);
  beam.board.values = reference_values(Wood{}, beam.board.member, why_not);
  ASSERT_TRUE(beam.board.values) << why_not;
  EXPECT_EQ(check_with(check_stringer(beam, worst_of(beam)), "bending under 60").verdict, Verdict::pass);
  EXPECT_EQ(check_with(check_stringer(beam, worst_of(beam)), "bending under 300").verdict, Verdict::fail);
  beam.spans = {81};
  EXPECT_EQ(check_with(check_stringer(beam, worst_of(beam)), "bending under 60").verdict, Verdict::fail);
  beam.cut = false;
  beam.spans = {159};
  EXPECT_EQ(check_with(check_stringer(beam, worst_of(beam)), "bending under 60").verdict, Verdict::pass);
  EXPECT_EQ(check_with(check_stringer(beam, worst_of(beam)), "deflection under 60").verdict, Verdict::pass);
}

// NDS 3.10.3 worked by hand: 3-4-5 slope, wet pine: Fc* 1000, F'c_perp 378.55, sin^2 0.64.
TEST(Bearing, LevelSeatBearsAtAnAngleToTheGrain) {
  const double angle = seat_angle(7.5, 10);
  EXPECT_NEAR(angle, 53.1301, 1e-4);
  EXPECT_NEAR(angle + plumb_cut_angle(7.5, 10), 90, 1e-9);
  const Check seat = check_bearing({.part = "stringer",
                                    .mark = "S1 foot",
                                    .what = "bearing of the seat",
                                    .faces = {{pine(), angle}},
                                    .length = 3,
                                    .width = 1.5,
                                    .force = 500,
                                    .force_words = "reaction of the foot"});
  EXPECT_NEAR(seat.demand, 500 / 4.5, 1e-9);
  EXPECT_NEAR(seat.capacity, 1000 * 378.55 / (1000 * 0.64 + 378.55 * 0.36), 0.01);
}

TEST(Bearing, WeakerOfTwoFacesDecidesAndNoFaceFails) {
  Bearing bearing{.part = "stringer",
                  .mark = "S1 head",
                  .what = "bearing",
                  .faces = {{pine(), 20}, {pine(), 90}},
                  .length = 3,
                  .width = 1.5,
                  .force = 400,
                  .force_words = "push"};
  EXPECT_NEAR(check_bearing(bearing).capacity, 565 * 0.67, 1e-9);
  bearing.faces[1].board.service.bearing_length = 1.5;  // Cb = (1.5 + 0.375)/1.5, from memory: NDS 3.10.4
  EXPECT_NEAR(check_bearing(bearing).capacity, 565 * 0.67 * 1.25, 1e-9);
  bearing.length = 0;
  EXPECT_EQ(check_bearing(bearing).verdict, Verdict::fail);
}

// Arithmetic: (450 + 150) lb on 4 sq ft.
TEST(Bearing, GroundCarriesLoadAndFootingOverItsArea) {
  EXPECT_NEAR(check_ground("pier", 450, 150, 24, 24, 1500).demand, 150, 1e-9);
  EXPECT_EQ(check_ground("pier", 450, 150, 24, 24, 149).verdict, Verdict::fail);
}

// NDS 3.7.1: CP is the smaller root of c CP^2 - (1 + r) CP + r = 0.
TEST(Posts, ColumnStabilitySolvesItsEquation) {
  for (const double r : {0.05, 0.5, 1.0, 2.0, 40.0}) {
    const double cp = column_stability(1000, 1000 * r);
    EXPECT_NEAR(0.8 * cp * cp - (1 + r) * cp + r, 0, 1e-9);
    EXPECT_GT(cp, 0);
    EXPECT_LE(cp, 1);
  }
}

// NDS 3.9.2 and 15.4 (from memory) worked by hand with F'c, F'b and E'min as printed in the figures.
TEST(Posts, SupportPostAddsTheBendingOfAnEccentricLoad) {
  SupportPost post{.post = pine(3.5, 3.5, "4x4"), .length = 36, .load = 1500, .eccentricity = 0, .side_moment = 0};
  const Check straight = check_support_post(post);
  const double fc = 1500 / 12.25, allowed = value_of(straight.figures, "F'c");
  EXPECT_NEAR(straight.demand, std::pow(fc / allowed, 2), 1e-9);
  post.eccentricity = 1.5;
  const Check off = check_support_post(post);
  const double fc_e = 0.822 * 510000 * 0.9 / std::pow(36 / 3.5, 2);
  const double bent = fc * 6 * 1.5 / 3.5 * (1 + 0.234 * fc / fc_e) / (750 * (1 - fc / fc_e));
  EXPECT_NEAR(off.demand, std::pow(fc / allowed, 2) + bent, 1e-6);
  EXPECT_TRUE(off.from_memory());
  post.length = 200;
  EXPECT_EQ(check_support_post(post).verdict, Verdict::fail);
}

// Statics: T d = P (h + t + a + d), and T - P = C.
TEST(Posts, GuardPostIsInBalance) {
  const GuardPost post = guard({200, 36, 1, 2, 5, 0});
  const GuardPostForces forces = guard_post_forces(post);
  EXPECT_NEAR(forces.upper_tension - forces.lower_push, 200, 1e-9);
  EXPECT_NEAR(forces.upper_tension * 5, 200 * 44, 1e-9);
  EXPECT_NEAR(check_with(check_guard_post(post), "shear").demand, 1.5 * 1560 / 12.25, 1e-9);
}

// Statics: 200 lb x 72 in / 4 = 3600 in-lb; a 2x4 on edge pushed level bends about its thin side.
TEST(Rails, BoardBendsTheWayItStands) {
  RailSpan rail{.carries = {{pine(1.5, 3.5, "2x4"), true}}, .span = 72, .point = 200, .along = 0, .level = true};
  const double level = check_with(check_rail(rail), "bending").demand;
  EXPECT_NEAR(level, 3600 / (3.5 * 1.5 * 1.5 / 6), 1e-9);
  rail.level = false;
  EXPECT_NEAR(check_with(check_rail(rail), "bending").demand, 3600 / (1.5 * 3.5 * 3.5 / 6), 1e-9);
  rail.level = true;
  rail.carries[0].on_edge = false;
  EXPECT_NEAR(check_with(check_rail(rail), "bending").demand, 3600 / (1.5 * 3.5 * 3.5 / 6), 1e-9);
}

// Derived: equal E, so the 2x6 cap carries 1.5 x 5.5^3 of 1.5 x 5.5^3 + 3.5 x 1.5^3.
TEST(Rails, JoinedBoardsShareByStiffness) {
  const RailSpan rail{.carries = {{pine(1.5, 3.5, "2x4"), true}, {pine(1.5, 5.5, "2x6"), false}},
                      .span = 72,
                      .point = 200,
                      .along = 50,
                      .level = true};
  const std::vector<Check> checks = check_rail(rail);
  ASSERT_EQ(checks.size(), 8u);
  const double edge = 3.5 * std::pow(1.5, 3), cap = 1.5 * std::pow(5.5, 3);
  EXPECT_NEAR(value_of(checks[0].figures, "P"), 200 * edge / (edge + cap), 1e-9);
  EXPECT_NEAR(value_of(checks[4].figures, "P"), 200 * cap / (edge + cap), 1e-9);
  EXPECT_NEAR(value_of(checks[6].figures, "M"), 50 / 12.0 * cap / (edge + cap) * 72 * 72 / 8, 1e-6);
}

// Geometry: 12/4.5 rounds down to 2 balusters, 12/4 is 3, and one alone carries all.
TEST(Rails, BalusterTakesItsShareOfASquareFoot) {
  Baluster baluster{.wood = pine(1.5, 1.5, "2x2"), .metal = false, .span = 30, .spacing = 4.5, .infill = 50};
  const auto on_one = [&] { return value_of(check_baluster(baluster)[0].figures, "P"); };
  EXPECT_NEAR(on_one(), 25, 1e-9);
  baluster.spacing = 4;
  EXPECT_NEAR(on_one(), 50 / 3.0, 1e-9);
  baluster.spacing = 14;
  EXPECT_NEAR(on_one(), 50, 1e-9);
  baluster.metal = true;
  ASSERT_EQ(check_baluster(baluster).size(), 1u);
  EXPECT_EQ(check_baluster(baluster)[0].verdict, Verdict::not_checked);
  EXPECT_FALSE(check_baluster(baluster)[0].note.empty());
}

// Statics: H h = W x, as a ladder that leans on a smooth wall; at a slope of 45 degrees H = W/2.
TEST(Head, LeaningFlightPushesAsALadderDoes) {
  EXPECT_NEAR(thrust_of(450, 36, 72).push, 225, 1e-9);
  EXPECT_NEAR(thrust_of(450, 36, 72).figures.back().value, 225, 1e-9);
  const std::vector<Check> checks =
      check_hanger_board({.board = pine(1.5, 9.25, "2x10"), .span = 16, .down = 345, .out = 225});
  ASSERT_EQ(checks.size(), 4u);
  EXPECT_NEAR(checks[0].demand, 345 * 16 / 4.0 / (1.5 * 9.25 * 9.25 / 6), 1e-9);
  EXPECT_NEAR(checks[2].demand, 225 * 16 / 4.0 / (9.25 * 1.5 * 1.5 / 6), 1e-9);
}

// Statics of an end that overhangs: M = P a; the limit counts 2 a (from memory: IRC Table R301.7, note).
TEST(Tread, EndBeyondTheOuterStringerIsACantilever) {
  TreadBoard tread{.board = pine(1.5, 5.5, "2x6"),
                   .span = 16,
                   .overhang = 3,
                   .live = 40,
                   .dead = 0,
                   .point = 300,
                   .shared_by = 1,
                   .greatest_span = 0,
                   .maker = ""};
  const std::vector<Check> checks = check_tread(tread);
  const Check& bent = check_with(checks, "bending of the overhang");
  EXPECT_NEAR(bent.demand, 900 / (5.5 * 1.5 * 1.5 / 6), 1e-9);
  EXPECT_NEAR(value_of(bent.figures, "R_up"), 900 / 16.0, 1e-9);
  const Check& sag = check_with(checks, "deflection of the overhang");
  EXPECT_NEAR(sag.capacity, 6 / 288.0, 1e-12);
  EXPECT_NEAR(value_of(sag.figures, "Delta_b"), 300 * 9 * 19 / (3 * 1.26e6 * 5.5 * 3.375 / 12), 1e-9);
}

// Worked by hand, wet 2x6 flat, 24 in: w_D = 10 x 5.5/144; P beside a stringer; G = 1.26e6/16; two joined boards halve
// P.
TEST(Tread, ShearOwnWeightAndSharingAreCounted) {
  TreadBoard tread{.board = pine(1.5, 5.5, "2x6"),
                   .span = 24,
                   .overhang = 0,
                   .live = 40,
                   .dead = 10,
                   .point = 300,
                   .shared_by = 2,
                   .greatest_span = 0,
                   .maker = ""};
  const std::vector<Check> checks = check_tread(tread);
  ASSERT_EQ(checks.size(), 4u);
  const double dead = 10 * 5.5 / 144;
  EXPECT_NEAR(check_with(checks, "bending under 300").demand, (150 * 6 + dead * 72) / 2.0625, 1e-9);
  EXPECT_NEAR(check_with(checks, "bending under 40").demand, 5 * dead * 72 / 2.0625, 1e-9);
  EXPECT_NEAR(check_with(checks, "shear under 300").demand, 1.5 * (150 + dead * 12) / 8.25, 1e-9);
  const Check& sag = check_with(checks, "deflection");
  EXPECT_NEAR(value_of(sag.figures, "Delta_s"), 1.2 * 150 * 24 / (4 * 1.26e6 / 16 * 8.25), 1e-9);
  EXPECT_NEAR(sag.capacity, 24 / 288.0, 1e-12);
}

TEST(Tread, MakersSpanStandsWithoutValuesOfWood) {
  TreadBoard tread{.board = pine(1, 5.5, "5/4x6"),
                   .span = 16,
                   .overhang = 0,
                   .live = 40,
                   .dead = 0,
                   .point = 300,
                   .shared_by = 1,
                   .greatest_span = 12,
                   .maker = "maker's table"};
  tread.board.values.reset();
  tread.board.why_not = "composite: no values of wood";
  const std::vector<Check> checks = check_tread(tread);
  ASSERT_EQ(checks.size(), 2u);
  EXPECT_EQ(checks[0].verdict, Verdict::fail);
  EXPECT_NEAR(checks[0].ratio, 16 / 12.0, 1e-12);
  EXPECT_EQ(checks[1].verdict, Verdict::not_checked);
  EXPECT_EQ(checks[1].note, tread.board.why_not);
}

// IRC Table R301.5; IBC 1607; others stand in. Overrides win.
TEST(Loads, FollowThePackAndTheJob) {
  Job job;
  job.place.pack = "irc-2021";
  LoadSet set = loads_for(job);
  EXPECT_EQ(set.live, 40);
  EXPECT_EQ(set.dead, 10);
  EXPECT_EQ(set.tread, 300);
  EXPECT_EQ(set.rail, 200);
  EXPECT_EQ(set.rail_along, 0);
  EXPECT_EQ(set.infill, 50);
  EXPECT_EQ(set.soil, 1500);
  job.place.pack = "ibc-2021";
  set = loads_for(job);
  EXPECT_EQ(set.live, 100);
  EXPECT_EQ(set.rail_along, 50);
  job.place.pack = "uk-adk-2013";
  job.loads.live = 60;
  job.loads.soil = 2000;
  set = loads_for(job);
  EXPECT_EQ(set.live, 60);
  EXPECT_EQ(set.figures.front().source, "job: loads.live");
  EXPECT_FALSE(set.figures.front().from_memory);
  EXPECT_EQ(set.tread, 300);
  EXPECT_NE(set.figures[2].source.view().find("enter loads.tread"), std::string::npos);
  EXPECT_TRUE(set.figures[2].from_memory);
  EXPECT_EQ(value_of(set.figures, "q_s"), 2000);
}

TEST(Loads, EveryRowHasASymbolAndAMemoryFlagThatFitsItsSource) {
  ASSERT_FALSE(limits().empty());
  for (const LimitRow& row : limits()) {
    EXPECT_FALSE(row.symbol.empty() || row.words.empty()) << row.key;
    EXPECT_EQ(row.from_memory,
              row.source.starts_with("from memory") || row.source.find("stands in") != std::string::npos)
        << row.key << " " << row.pack;
  }
}
