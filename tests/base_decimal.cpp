// Decimal numbers as text against the compiler's own reading of the same digits.

#include <gtest/gtest.h>

#include <string>

#include "engine/base/decimal.hpp"

namespace pitchboard {
namespace {

TEST(Decimal, IsReadToTheNearestDouble) {
  EXPECT_EQ(decimal_in("0"), 0.0);
  EXPECT_EQ(decimal_in("30"), 30.0);
  EXPECT_EQ(decimal_in("7.75"), 7.75);
  EXPECT_EQ(decimal_in("-0.1"), -0.1);
  EXPECT_EQ(decimal_in("9007199254740993"), 9007199254740992.0) << "halfway: to even";
  EXPECT_EQ(decimal_in("0." + std::string(323, '0') + "5"), 5e-324) << "the smallest double";
}

TEST(Decimal, IsNothingElse) {
  for (const char* text : {"", "-", ".", "1e5", "0x10", "inf", "nan", "+3", " 3", "3 ", "1.2.3", "1,5", "3-"})
    EXPECT_FALSE(decimal_in(text)) << text;
  EXPECT_FALSE(decimal_in(std::string(400, '9'))) << "beyond the doubles";
  EXPECT_FALSE(decimal_in("0." + std::string(323, '0') + "2")) << "nearer to nothing than to a double";
  EXPECT_FALSE(decimal_in(std::string_view("3\0", 2)));
}

}  // namespace
}  // namespace pitchboard
