// Tape text: what people write is read, what could mislead is refused, and what is written reads back.

#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <cstdlib>
#include <random>
#include <string>
#include <vector>

#include "engine/base/tape.hpp"
#include "tests/table_text.hpp"

namespace pitchboard {
namespace {

struct Row {
  std::string text, inches;
};

/// The table's fields hold no commas, so that inch marks need no quoting.
std::vector<Row> table() {
  std::istringstream file = table_text("tape_text.csv");
  std::vector<Row> rows;
  std::string line;
  std::getline(file, line);
  EXPECT_EQ(line, "text,inches,source");
  while (std::getline(file, line)) {
    const std::size_t first = line.find(','), second = line.find(',', first + 1);
    if (second == std::string::npos || line.find(',', second + 1) != std::string::npos || second + 1 == line.size()) {
      ADD_FAILURE() << "not text, inches and a source: " << line;
      continue;
    }
    rows.push_back({line.substr(0, first), line.substr(first + 1, second - first - 1)});
  }
  return rows;
}

std::uint64_t bits(Length length) { return std::bit_cast<std::uint64_t>(in_inches(length)); }

std::string refusal(std::string_view text) {
  const Result<Length> length = read_length(text);
  return length ? "accepted" : length.error().at(0).wrong + " / " + length.error().at(0).remedy;
}

TEST(TapeText, ReadsEveryFormThatPeopleWriteAndRefusesTheRest) {
  const std::vector<Row> rows = table();
  ASSERT_GE(rows.size(), 80u);
  int read = 0, refused = 0;
  for (const Row& row : rows) {
    const Result<Length> length = read_length(row.text);
    if (row.inches.empty()) {
      EXPECT_FALSE(length) << row.text << " was read as " << in_inches(length.value_or(Length()));
      ++refused;
      continue;
    }
    ASSERT_TRUE(length) << row.text << ": " << refusal(row.text);
    EXPECT_NEAR(in_inches(*length), std::strtod(row.inches.c_str(), nullptr), 1e-12) << row.text;
    ++read;
  }
  EXPECT_GT(read, 40);
  EXPECT_GT(refused, 40);
}

TEST(TapeText, EveryRefusalSaysWhatToWriteInstead) {
  for (const Row& row : table()) {
    if (!row.inches.empty()) continue;
    const Result<Length> length = read_length(row.text);
    ASSERT_FALSE(length) << row.text;
    ASSERT_EQ(length.error().size(), 1u);
    EXPECT_TRUE(length.error()[0].place.empty());
    EXPECT_FALSE(length.error()[0].wrong.empty());
    EXPECT_FALSE(length.error()[0].remedy.empty());
  }
}

TEST(TapeText, ARefusalNamesTheVeryFault) {
  EXPECT_EQ(refusal("47"), "'47' has no unit / write 47 in or 47 mm");
  EXPECT_EQ(refusal("47-3/8"), "'47-3/8' has no unit / write 47 3/8 in");
  EXPECT_EQ(refusal("47 5/64"), "'47 5/64' has no unit / write 47 5/64 in");
  EXPECT_EQ(refusal("3' 14 1/2\""),
            "'3' 14 1/2\"' has 12 inches or more after the feet / write 4'-2 1/2\" if that is what you mean");
  EXPECT_EQ(refusal("3-11"), "'3-11' could be feet and inches or a range / write 3' 11\" if you mean feet and inches");
  EXPECT_NE(refusal("3/0 in").find("over zero"), std::string::npos);
  EXPECT_NE(refusal("5/4 in").find("one or more"), std::string::npos);
  EXPECT_NE(refusal("1,2 m").find("comma"), std::string::npos);
  EXPECT_NE(refusal("1,203 mm").find("comma"), std::string::npos);
  EXPECT_NE(refusal("-3 in").find("negative"), std::string::npos);
  EXPECT_NE(refusal("").find("no length"), std::string::npos);
  EXPECT_NE(refusal("   ").find("no length"), std::string::npos);
}

TEST(TapeText, WhatARefusalTellsPeopleToWriteIsReadAsTheyMeantIt) {
  EXPECT_EQ(read_length("47 3/8 in"), inches(47.375));
  EXPECT_EQ(read_length("4'-2 1/2\""), inches(50.5));
  EXPECT_EQ(read_length("3' 11\""), inches(47.0));
}

TEST(TapeText, LongOrBrokenTextIsRefusedAndQuotedShort) {
  const std::string nines(5000, '9');
  for (const std::string& text :
       {nines, nines + " in", nines + "/8 in", "1/" + nines + " in", "0." + std::string(5000, '0') + "1",
        std::string(5000, '-'), std::string("\xE2\x80", 2), std::string(5000, '\xC2')}) {
    const Result<Length> length = read_length(text);
    ASSERT_FALSE(length);
    EXPECT_LT(length.error()[0].wrong.size(), 120u);
  }
}

TEST(TapeText, ExactTextReadsBackToTheSameBits) {
  std::mt19937_64 random(20260509);
  std::uniform_real_distribution<double> magnitude(-60.0, 19.9);
  for (int i = 0; i < 20000; ++i) {
    const Length length = inches(std::exp2(magnitude(random)));
    const Result<Length> back = read_length(exact_text(length));
    ASSERT_TRUE(back) << exact_text(length);
    ASSERT_EQ(bits(*back), bits(length)) << exact_text(length);
  }
  for (const double v : {0.0, 5e-324, 1e-300, 0.1, 1.0 / 3.0, 1e6, 47.375})
    EXPECT_EQ(bits(read_length(exact_text(inches(v))).value()), bits(inches(v)));
}

TEST(TapeText, ExactTextIsTheShortestDecimal) {
  EXPECT_EQ(exact_text(inches(47.375)), "47.375 in");
  EXPECT_EQ(exact_text(inches(0.1)), "0.1 in");
  EXPECT_EQ(exact_text(Length()), "0 in");
  EXPECT_EQ(exact_text(inches(100000)), "100000 in");
}

TEST(TapeText, EverySixteenthUpToFiftyFeetReadsBackExactlyFromEveryTapeText) {
  for (int i = 0; i <= 600 * 16; ++i) {
    const Length length = kSixteenth * i;
    EXPECT_EQ(read_length(tape_plain(length)), length) << tape_plain(length);
    EXPECT_EQ(read_length(tape(length)), length) << tape(length);
    EXPECT_EQ(read_length(tape_feet(length)), length) << tape_feet(length);
  }
}

TEST(TapeText, EveryMillimetreReadsBackToTheSameMillimetre) {
  for (int i = 0; i <= 15000; ++i) {
    const std::string text = std::to_string(i) + " mm";
    EXPECT_EQ(tape_plain(read_length(text).value(), UnitSystem::metric), text);
  }
}

TEST(TapeText, StrongAndShyTellWhichSideOfTheMarkALengthLies) {
  EXPECT_EQ(tape(inches(7.1875)), "7 3/16\"");
  EXPECT_EQ(tape(inches(7.1875 + 1.0 / 64)), "7 3/16\"");
  EXPECT_EQ(tape(inches(7.1875 + 1.1 / 64)), "7 3/16\" strong");
  EXPECT_EQ(tape(inches(7.1875 - 1.1 / 64)), "7 3/16\" shy");
  EXPECT_EQ(tape(inches(-7.1875 - 1.1 / 64)), "-7 3/16\" strong");
  EXPECT_EQ(tape(inches(7.999)), "8\"");
  EXPECT_EQ(tape(inches(7.98)), "8\" shy");
  EXPECT_EQ(tape_plain(inches(7.98)), "8\"");
}

TEST(TapeText, FractionsAreInLowestTermsAndZeroHasNoSign) {
  EXPECT_EQ(tape_plain(inches(0.5)), "1/2\"");
  EXPECT_EQ(tape_plain(inches(2.25)), "2 1/4\"");
  EXPECT_EQ(tape_plain(inches(-0.375)), "-3/8\"");
  EXPECT_EQ(tape_plain(inches(-0.001)), "0\"");
  EXPECT_EQ(tape_plain(millimetres(-0.3), UnitSystem::metric), "0 mm");
  EXPECT_EQ(tape(millimetres(1203.4), UnitSystem::metric), "1203 mm");
}

TEST(TapeText, LongLengthsAreFeetAndInchesOrMetres) {
  EXPECT_EQ(tape_feet(inches(87.5)), "7'-3 1/2\"");
  EXPECT_EQ(tape_feet(inches(36)), "3'-0\"");
  EXPECT_EQ(tape_feet(inches(11.999)), "1'-0\"");
  EXPECT_EQ(tape_feet(inches(3.5)), "3 1/2\"");
  EXPECT_EQ(tape_feet(inches(-87.5)), "-7'-3 1/2\"");
  EXPECT_EQ(tape_feet(millimetres(1203), UnitSystem::metric), "1.203 m");
  EXPECT_EQ(tape_feet(millimetres(2050), UnitSystem::metric), "2.050 m");
}

TEST(TapeText, MoneyHasAlwaysTwoDecimals) {
  EXPECT_EQ(money_text({123450}), "1234.50");
  EXPECT_EQ(money_text({5}), "0.05");
  EXPECT_EQ(money_text({-50}), "-0.50");
  EXPECT_EQ(money_text({0}), "0.00");
}

}  // namespace
}  // namespace pitchboard
