// Fasteners against printed tables, published hand checks, and each other.

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/strength/dowel.hpp"
#include "tests/rules_table.hpp"

namespace pitchboard {
namespace {

DowelKind kind_of(const std::string& word) {
  if (word == "bolt") return DowelKind::bolt;
  if (word == "lag") return DowelKind::lag;
  if (word == "nail") return DowelKind::nail;
  EXPECT_EQ(word, "wood_screw");
  return DowelKind::wood_screw;
}

bool given(const TableRow& row, const std::string& column) { return row.at(column) != "-"; }
double number_or(const TableRow& row, const std::string& column, double otherwise) {
  return given(row, column) ? number(row, column) : otherwise;
}

/// Printed cells are rounded half up to their last place.
double printed(double value, double step) { return std::floor(value / step + 0.5) * step; }

Leg leg_of(const TableRow& row, const std::string& which, double length) {
  Leg leg;
  leg.bearing_length = length;
  leg.load_to_grain = number(row, "angle_" + which);
  leg.end_grain = row.at("end_grain") == which;
  if (given(row, "fe_" + which)) {
    leg.steel_bearing = number(row, "fe_" + which);
  } else {
    leg.gravity = number_or(row, "g_" + which, 0.0);
  }
  return leg;
}

/// The value that a row of the table asks for. A row's `lm` says how deep the fastener stands: "main": the main
/// member's thickness; "real": by its length; "table": as deep as the tables assume (lags 8 D and the tip, screws 10
/// D).
struct Computed {
  double value = 0;
  std::string mode;
};
Computed compute(const TableRow& row) {
  const DowelKind kind = kind_of(row.at("kind"));
  const double diameter = number(row, "diameter"), side = number_or(row, "side", 0.0),
               main = number_or(row, "main", 99.0);
  const bool table = row.at("lm") == "table";
  Dowel dowel = dowel_of(kind, diameter, number_or(row, "length", 12.0));
  if (table) dowel.length = side + (kind == DowelKind::lag ? 8.0 * diameter + dowel.tip : 10.0 * diameter);
  const Penetration depth = penetration(dowel, side, main);
  const double gravity = number_or(row, "g_main", 0.0);
  const std::string& what = row.at("what");
  if (what == "W") return {withdrawal_per_inch(dowel, gravity), "-"};
  if (what == "pt") return {depth.threads, "-"};
  if (what == "W pt") return {withdrawal_per_inch(dowel, gravity) * depth.threads, "-"};
  if (what == "WH") return {head_pull_through(dowel, number(row, "g_side"), side), "-"};
  const Leg main_leg = leg_of(row, "main", row.at("lm") == "main" ? main : depth.lm);
  const Yield yield = yield_modes(dowel, main_leg, leg_of(row, "side", side), row.at("shear") == "double");
  return {value_of(yield.figures, what), std::string(yield.mode)};
}

TEST(Dowels, GiveThePrintedValues) {
  int checked = 0;
  for (const TableRow& row : table("strength_dowel.csv")) {
    const Computed is = compute(row);
    const double step = number(row, "step");
    EXPECT_NEAR(printed(is.value, step), number(row, "expect"), step * 1e-6)
        << row.at("id") << " (" << row.at("source") << "): " << is.value;
    if (given(row, "mode")) {
      EXPECT_EQ(is.mode, row.at("mode")) << row.at("id");
    }
    ++checked;
  }
  EXPECT_GE(checked, 500);
}

TEST(Dowels, InARowShareTheForceAsPrinted) {
  for (const TableRow& row : table("strength_group_action.csv")) {
    const double is = group_action(number(row, "diameter"), static_cast<int>(number(row, "n")), number(row, "spacing"),
                                   number(row, "e_main"), number(row, "area_main"), number(row, "e_side"),
                                   number(row, "area_side"), row.at("metal") == "yes");
    EXPECT_NEAR(printed(is, number(row, "step")), number(row, "expect"), 1e-9) << row.at("id") << ": " << is;
  }
}

struct Joint {
  Dowel dowel;
  Leg main, side;
};
Joint random_joint(std::mt19937& random) {
  const auto pick = [&](double from, double to) { return std::uniform_real_distribution<double>(from, to)(random); };
  const auto choose = [&](std::initializer_list<double> of) {
    return *(of.begin() +
             std::uniform_int_distribution<std::ptrdiff_t>(0, static_cast<std::ptrdiff_t>(of.size()) - 1)(random));
  };
  Joint joint;
  switch (std::uniform_int_distribution<int>(0, 3)(random)) {
    case 0:
      joint.dowel = dowel_of(DowelKind::bolt, choose({0.25, 0.375, 0.5, 0.625, 0.75, 1.0}), 8);
      break;
    case 1:
      joint.dowel = dowel_of(DowelKind::lag, choose({0.25, 0.3125, 0.375, 0.5, 0.75}), 6);
      break;
    case 2:
      joint.dowel = dowel_of(DowelKind::wood_screw, choose({0.138, 0.164, 0.19, 0.242, 0.268}), 3);
      break;
    default:
      joint.dowel = dowel_of(DowelKind::nail, choose({0.113, 0.131, 0.148, 0.162, 0.192}), 3.5);
  }
  joint.main = {.gravity = pick(0.31, 0.73), .bearing_length = pick(0.25, 6.0), .load_to_grain = pick(0, 90)};
  joint.side = {.gravity = pick(0.31, 0.73), .bearing_length = pick(0.25, 4.0), .load_to_grain = pick(0, 90)};
  if (std::uniform_int_distribution<int>(0, 4)(random) == 0)
    joint.side = {.bearing_length = pick(0.03, 0.25), .steel_bearing = 61850};
  return joint;
}

// SOURCE AWC TR12: the quadratic form and the modes of NDS 2018 Table 12.3.1A are the same without a gap.
TEST(Dowels, BendTheSameInBothFormsOfTheTheory) {
  std::mt19937 random(12);
  for (int i = 0; i < 5000; ++i) {
    const Joint j = random_joint(random);
    const double z = yield_modes(j.dowel, j.main, j.side, false).z;
    ASSERT_GT(z, 0.0);
    EXPECT_NEAR(yield_by_tr12(j.dowel, j.main, j.side, 0.0) / z, 1.0, 1e-9) << i;
    EXPECT_LE(yield_by_tr12(j.dowel, j.main, j.side, 0.5), z * (1.0 + 1e-9)) << i;
  }
}

// SOURCE mechanics: denser wood and longer bearing never weaken a joint; two shear planes carry no less than one.
TEST(Dowels, CarryNoLessInDenserOrThickerWood) {
  std::mt19937 random(34);
  for (int i = 0; i < 2000; ++i) {
    const Joint j = random_joint(random);
    const double z = yield_modes(j.dowel, j.main, j.side, false).z;
    Joint more = j;
    more.main.gravity = std::min(0.73, j.main.gravity + 0.05);
    EXPECT_GE(yield_modes(more.dowel, more.main, more.side, false).z, z * (1.0 - 1e-12)) << i;
    more = j;
    more.main.bearing_length += 0.5;
    more.side.bearing_length += 0.5;
    EXPECT_GE(yield_modes(more.dowel, more.main, more.side, false).z, z * (1.0 - 1e-12)) << i;
    EXPECT_GE(yield_modes(j.dowel, j.main, j.side, true).z, z * (1.0 - 1e-12)) << i;
  }
}

// SOURCE NDS 2018 Tables 12A and 12L: values grow down each column.
TEST(Dowels, OfOneKindCarryMoreTheThickerTheyAre) {
  for (const double gravity : {0.36, 0.42, 0.5, 0.55}) {
    double last = 0;
    for (const double d : {0.5, 0.625, 0.75, 0.875, 1.0}) {
      const Leg leg{.gravity = gravity, .bearing_length = 1.5};
      const double z = yield_modes(dowel_of(DowelKind::bolt, d, 8), leg, leg, false).z;
      EXPECT_GT(z, last) << d;
      last = z;
    }
    last = 0;
    for (const double d : {0.138, 0.151, 0.164, 0.19, 0.216, 0.242}) {
      const Leg side{.gravity = gravity, .bearing_length = 1.5}, main{.gravity = gravity, .bearing_length = 9.0 * d};
      const double z = yield_modes(dowel_of(DowelKind::wood_screw, d, 3), main, side, false).z;
      EXPECT_GT(z, last) << d;
      last = z;
    }
  }
}

// SOURCE NDS 2018 12.3.7.1: thin reduction KD by the root diameter; Table 12.3.1B: 2.2 up to 0.17, then 10 D + 0.5.
TEST(Dowels, ThinOnesAreReducedByTheirRoot) {
  const auto reduction = [](double diameter) {
    const Leg leg{.gravity = 0.5, .bearing_length = 1.5};
    return value_of(yield_modes(dowel_of(DowelKind::nail, diameter, 3), leg, leg, false).figures, "Rd II");
  };
  EXPECT_NEAR(reduction(0.17), 2.2, 1e-12);
  EXPECT_NEAR(reduction(0.1701), 2.201, 1e-12);
  EXPECT_NEAR(reduction(0.2499), 2.999, 1e-12);
  const Leg leg{.gravity = 0.5, .bearing_length = 1.5};
  const Yield screw = yield_modes(dowel_of(DowelKind::wood_screw, 0.19, 3), leg, leg, false);
  EXPECT_NEAR(value_of(screw.figures, "D"), 0.152, 1e-12);
  EXPECT_NEAR(value_of(screw.figures, "Rd I"), 2.2, 1e-12);  // 2.4 by the nominal diameter
}

// SOURCE NDS 2018 Table 12.3.1B: Ktheta = 1 + 0.25 theta / 90 with the largest angle of any member, in every mode.
TEST(Dowels, TheWorstMembersAngleRulesEveryMode) {
  const Dowel bolt = dowel_of(DowelKind::bolt, 0.5, 6);
  const Leg along{.gravity = 0.5, .bearing_length = 1.5};
  const Leg turned{.gravity = 0.5, .bearing_length = 1.5, .load_to_grain = 45};
  for (const Yield& yield : {yield_modes(bolt, along, turned, false), yield_modes(bolt, turned, along, false)}) {
    EXPECT_NEAR(value_of(yield.figures, "Rd I"), 4.5, 1e-12);
    EXPECT_NEAR(value_of(yield.figures, "Rd II"), 4.05, 1e-12);
    EXPECT_NEAR(value_of(yield.figures, "Rd III"), 3.6, 1e-12);
  }
  // Hankinson at 45 degrees: 2 F F' / (F + F').
  EXPECT_NEAR(dowel_bearing(bolt, turned), 2.0 * 5600 * 3150 / (5600.0 + 3150.0), 1e-9);
}

// SOURCE NDS 2018 12.1.4.6: four diameters without the tip.
TEST(Dowels, AHalfInchLagNeverStandsDeepEnoughInARim) {
  for (double length = 2.5; length <= 12.0; length += 0.5) {
    EXPECT_FALSE(penetration(dowel_of(DowelKind::lag, 0.5, length), 1.5, 1.5).enough) << length;
  }
  EXPECT_TRUE(penetration(dowel_of(DowelKind::lag, 0.375, 3.5), 1.5, 1.5).enough);
  EXPECT_FALSE(penetration(dowel_of(DowelKind::lag, 0.375, 3.0), 1.5, 1.5).enough);  // its tip has not come through
}

// SOURCE NDS 2018 12.3.5.3: half of a lag's tip counts; of screws and nails, whose tip is 2 D, all but one diameter.
TEST(Dowels, HalfOfTheTipBears) {
  EXPECT_NEAR(penetration(dowel_of(DowelKind::lag, 0.5, 4), 1.5, 12).lm, 2.5 - 5.0 / 32, 1e-12);
  EXPECT_NEAR(penetration(dowel_of(DowelKind::lag, 0.375, 4), 1.5, 1.5).lm, 1.5, 1e-12);  // the tip stands out behind
  EXPECT_NEAR(penetration(dowel_of(DowelKind::wood_screw, 0.19, 3), 1.5, 12).lm, 1.31, 1e-12);
  EXPECT_NEAR(penetration(dowel_of(DowelKind::nail, 0.148, 3), 0.75, 12).lm, 2.25 - 0.148, 1e-12);
}

// SOURCE NDS 2018 12.1.5.6: six diameters with the tip.
TEST(Dowels, AScrewHasToEnterSixDiameters) {
  EXPECT_TRUE(penetration(dowel_of(DowelKind::wood_screw, 0.19, 2.5), 1.36, 1.5).enough);
  EXPECT_FALSE(penetration(dowel_of(DowelKind::wood_screw, 0.19, 2.5), 1.37, 1.5).enough);
}

// SOURCE NDS 2018 12.4.1, 12.4.2.
TEST(Dowels, CarryBothWaysAtOnceAsTheEquationsSay) {
  EXPECT_NEAR(combined(DowelKind::wood_screw, 100, 100, 45), 100, 1e-9);
  EXPECT_NEAR(combined(DowelKind::lag, 100, 100, 45), 100, 1e-9);
  EXPECT_NEAR(combined(DowelKind::nail, 100, 100, 45), 70.71, 0.005);
  for (const DowelKind kind : {DowelKind::bolt, DowelKind::lag, DowelKind::wood_screw, DowelKind::nail}) {
    EXPECT_NEAR(combined(kind, 300, 120, 0), 120, 1e-9);
    EXPECT_NEAR(combined(kind, 300, 120, 90), 300, 1e-9);
  }
  EXPECT_NEAR(combined(DowelKind::bolt, 300, 120, 30), 120 / (std::sqrt(3.0) / 2.0), 1e-9);
}

TEST(Dowels, SizesThatNoTableHoldsHaveNoValue) {
  const Leg leg{.gravity = 0.5, .bearing_length = 1.5};
  EXPECT_EQ(dowel_of(DowelKind::lag, 0.4, 4).root, 0.0);
  EXPECT_EQ(yield_modes(dowel_of(DowelKind::lag, 0.4, 4), leg, leg, false).z, 0.0);
  EXPECT_EQ(yield_modes(dowel_of(DowelKind::nail, 0.08, 2), leg, leg, false).z, 0.0);
}

}  // namespace
}  // namespace pitchboard
