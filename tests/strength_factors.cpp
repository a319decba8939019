// What surrounds a fastener: moisture, distances, toe-nails, washers.

#include <gtest/gtest.h>

#include "engine/strength/joint_factors.hpp"

namespace pitchboard {
namespace {

// SOURCE NDS 2018 Tables 12.5.1A to 12.5.1D; the four factors are a published hand check of them.
TEST(JointFactors, DistancesTakeTheirShare) {
  const double d = 0.5;
  EXPECT_NEAR(geometry_factor(3.0 * d, spacing_in_row(d, 0)), 0.75, 1e-12);
  EXPECT_NEAR(geometry_factor(3.5 * d, end_distance(d, 0, true)), 0.5, 1e-12);
  EXPECT_NEAR(geometry_factor(5.25 * d, end_distance(d, 0, true)), 0.75, 1e-12);
  EXPECT_EQ(geometry_factor(3.4 * d, end_distance(d, 0, true)), 0.0);
  EXPECT_NEAR(geometry_factor(2.0 * d, end_distance(d, 0, false)), 0.5, 1e-12);
  EXPECT_NEAR(geometry_factor(2.0 * d, end_distance(d, 90, true)), 0.5, 1e-12);
  EXPECT_NEAR(end_distance(d, 45, true).full, 5.5 * d, 1e-12);  // half way from 7 D to 4 D
  EXPECT_NEAR(row_spacing(d, 90, 3.0).least, 1.5625, 1e-12);    // 1/2 in bolt, l/D = 3
  EXPECT_NEAR(row_spacing(d, 90, 1.5).least, 2.5 * d, 1e-12);
  EXPECT_NEAR(row_spacing(d, 90, 7.0).least, 5.0 * d, 1e-12);
  EXPECT_NEAR(row_spacing(d, 90, 2.0 + 1e-9).least, 2.5 * d, 1e-6);  // no step where the formulas meet
  EXPECT_NEAR(row_spacing(d, 90, 6.0 - 1e-9).least, 5.0 * d, 1e-6);
  EXPECT_NEAR(row_spacing(d, 0, 3.0).least, 1.5 * d, 1e-12);
  EXPECT_NEAR(edge_distance(d, 90, true, 3, 0).least, 4.0 * d, 1e-12);
  EXPECT_NEAR(edge_distance(d, 90, false, 3, 0).least, 1.5 * d, 1e-12);
  EXPECT_NEAR(edge_distance(d, 0, true, 3, 4).least, 1.5 * d, 1e-12);
  EXPECT_NEAR(edge_distance(d, 0, true, 7, 4).least, 2.0, 1e-12);  // half of the row spacing
  EXPECT_NEAR(pulled_lag(d, PulledLag::end).least, 4.0 * d, 1e-12);
}

// SOURCE NDS 2018 Table 11.3.3.
TEST(JointFactors, MoistureGoesByHowTheWoodDries) {
  EXPECT_EQ(wet_lateral({false, false}, 0.5, true).value, 1.0);
  EXPECT_EQ(wet_lateral({true, true}, 0.5, false).value, 0.7);
  EXPECT_EQ(wet_lateral({false, true}, 0.19, false).value, 0.7);
  EXPECT_EQ(wet_lateral({true, false}, 0.5, true).value, 0.4);
  EXPECT_EQ(wet_lateral({true, false}, 0.5, false).value, 1.0);
  EXPECT_EQ(wet_lateral({true, false}, 0.19, true).value, 0.7);
  EXPECT_EQ(wet_withdrawal({true, true}, DowelKind::lag).value, 0.7);
  EXPECT_EQ(wet_withdrawal({true, false}, DowelKind::wood_screw).value, 1.0);
  EXPECT_EQ(wet_withdrawal({true, true}, DowelKind::nail).value, 1.0);
  EXPECT_EQ(wet_withdrawal({true, false}, DowelKind::nail).value, 0.25);
}

// SOURCE NDS 2018 12.5.2; screws and nails 12.2.2, 12.2.3.
TEST(JointFactors, EndGrainHoldsNoScrewThatIsPulled) {
  EXPECT_EQ(end_grain_lateral(true).value, 0.67);
  EXPECT_EQ(end_grain_lateral(false).value, 1.0);
  EXPECT_EQ(end_grain_withdrawal(true, DowelKind::lag).value, 0.75);
  EXPECT_EQ(end_grain_withdrawal(true, DowelKind::wood_screw).value, 0.0);
  EXPECT_EQ(end_grain_withdrawal(true, DowelKind::nail).value, 0.0);
}

// SOURCE NDS 2018 12.5.4; lengths: a published hand check.
TEST(JointFactors, ToeNailsEnterAtThirtyDegrees) {
  const ToeNail thick = toe_nail(dowel_of(DowelKind::nail, 0.162, 3.5), 1.5, 1.5);
  EXPECT_NEAR(thick.ls, 1.16667, 5e-6);
  EXPECT_NEAR(thick.lm, 1.5, 1e-9);
  EXPECT_NEAR(thick.pt, 1.73205, 5e-6);
  const ToeNail thin = toe_nail(dowel_of(DowelKind::nail, 0.131, 2.5), 1.5, 3.5);
  EXPECT_NEAR(thin.lm, 1.33173, 5e-6);
  EXPECT_NEAR(thin.pt, 1.53775, 5e-6);
  EXPECT_EQ(thin.lateral.value, 0.83);
  EXPECT_EQ(thin.withdrawal.value, 0.67);
}

// SOURCE from memory: cut washers; Fc_perp 565 psi of southern pine, wet 0.67 (NDS Supplement Table 4B).
TEST(JointFactors, AWasherBearsOnItsRing) {
  EXPECT_NEAR(washer_bearing(0.5, 0.375, 565 * 0.67), 240, 1);
  EXPECT_NEAR(washer_bearing(1.375 / 2, 0.5, 565 * 0.67), 468, 1);
  EXPECT_NEAR(washer_bearing(1.75 / 2, 0.625, 565 * 0.67), 770, 1);
}

// SOURCE from memory: AISC 360-16 Table J3.2.
TEST(JointFactors, SteelPullsOnItsOwnArea) {
  HandSheet sheet;
  EXPECT_NEAR(steel_tension(sheet, dowel_of(DowelKind::bolt, 0.5, 6)), 22500 * 0.19635, 1);
  EXPECT_NEAR(steel_tension(sheet, dowel_of(DowelKind::lag, 0.5, 6)), 20000 * 0.10810, 1);
  EXPECT_TRUE(sheet.figures().front().from_memory);
}

}  // namespace
}  // namespace pitchboard
