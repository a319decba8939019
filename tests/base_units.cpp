// Lengths, angles and money as types. That mixtures are refused is proven by the compiler: tests/must_not_compile.

#include <gtest/gtest.h>

#include <limits>
#include <random>
#include <type_traits>

#include "engine/base/units.hpp"

namespace pitchboard {
namespace {

TEST(Units, AnInchIs25Point4MillimetresExactly) {
  // SOURCE international yard and pound agreement, 1959: 1 yd = 0.9144 m.
  static_assert(in_millimetres(inches(1.0)) == 25.4);
  static_assert(in_millimetres(inches(36.0)) == 914.4);
  static_assert(in_inches(millimetres(25.4)) == 1.0);
  static_assert(in_inches(millimetres(254.0)) == 10.0);
  static_assert(in_inches(feet(8.0)) == 96.0);
}

TEST(Units, MillimetresThereAndBackStayWithinOneBit) {
  std::mt19937_64 random(1);
  std::uniform_real_distribution<double> any(0.0, 10000.0);
  for (int i = 0; i < 10000; ++i) {
    const double mm = any(random);
    EXPECT_NEAR(in_millimetres(millimetres(mm)), mm, mm * std::numeric_limits<double>::epsilon());
  }
}

TEST(Units, SumsProductsAndRatiosCarryTheirDimension) {
  static_assert(std::is_same_v<decltype(inches(2.0) * inches(3.0)), Area>);
  static_assert(std::is_same_v<decltype(inches(2.0) * inches(3.0) * inches(4.0)), Volume>);
  static_assert(std::is_same_v<decltype(inches(2.0) / inches(3.0)), double>);
  static_assert(std::is_same_v<decltype(Area() / inches(3.0)), Length>);
  static_assert(in_inches(inches(7.25) + inches(0.5) - inches(0.75)) == 7.0);
  static_assert(in_inches(-inches(3.0) * 2.0 / 4.0) == -1.5);
  static_assert((inches(2.0) * inches(3.0)).raw() == 6.0);
  static_assert(in_cubic_feet(feet(1.0) * feet(2.0) * feet(3.0)) == 6.0);
  static_assert(in_inches(abs(inches(-4.5))) == 4.5 && in_inches(abs(inches(4.5))) == 4.5);
  Length sum;
  for (int i = 0; i < 16; ++i) sum += kSixteenth;
  EXPECT_EQ(sum, inches(1.0));
  sum -= inches(0.25);
  EXPECT_EQ(sum, inches(0.75));
}

TEST(Units, AQuantityIsAsSmallAsItsNumber) {
  static_assert(sizeof(Length) == sizeof(double) && std::is_trivially_copyable_v<Length>);
  EXPECT_EQ(Length().raw(), 0.0);
}

TEST(Units, TheHypotenuseOfWholeTrianglesIsWhole) {
  // Pythagorean triples; 3-4-5 in feet is how the trade squares a landing.
  EXPECT_EQ(hypotenuse(feet(3.0), feet(4.0)), feet(5.0));
  EXPECT_EQ(hypotenuse(inches(7.5), inches(10.0)), inches(12.5));
  EXPECT_EQ(hypotenuse(inches(-5.0), inches(12.0)), inches(13.0));
}

TEST(Units, RoundingGoesToTheNearestStepAndHalvesGoAwayFromZero) {
  EXPECT_EQ(round_to(inches(7.26), kSixteenth), inches(7.25));
  EXPECT_EQ(round_to(inches(7.0 + 1.0 / 32.0), kSixteenth), inches(7.0625));
  EXPECT_EQ(round_to(inches(-7.0 - 1.0 / 32.0), kSixteenth), inches(-7.0625));
  EXPECT_EQ(round_to(inches(0.03), kSixteenth), Length());
  EXPECT_EQ(round_to(inches(10.3), inches(0.5)), inches(10.5));
}

TEST(Units, DegreesAreAHundredAndEightiethOfAHalfTurn) {
  EXPECT_DOUBLE_EQ(degrees(180.0).raw(), kPi);
  EXPECT_DOUBLE_EQ(in_degrees(degrees(34.6)), 34.6);
  EXPECT_LT(degrees(34.0), degrees(35.0));
}

TEST(Units, MoneyAddsInWholeCents) {
  Money sum;
  for (int i = 0; i < 1000; ++i) sum += Money{10};
  EXPECT_EQ(sum, Money{10000});
  EXPECT_EQ(Money{1999} * 3 + Money{3}, Money{6000});
  EXPECT_LT(Money{1999}, Money{2000});
}

}  // namespace
}  // namespace pitchboard
