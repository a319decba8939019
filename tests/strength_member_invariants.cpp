// What must hold for any member.

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/strength_member_fixture.hpp"
#include "tests/strength_random.hpp"

using namespace pitchboard;
using namespace member_fixture;

// More load, a longer span or a thinner board never lessens a ratio.
TEST(Members, RatiosGrowWithLoadAndSpanAndShrinkWithDepth) {
  Random random;
  for (int round = 0; round < 200; ++round) {
    StringerBeam beam = stringer(random.between(5, 8), random.between(9, 12), random.between(40, 140),
                                 random.between(20, 120), random.between(5, 20), random.between(100, 400));
    beam.cut = random.one_of(2) == 1;
    TreadBoard tread{.board = pine(1.5, random.between(5, 11), "2x8"),
                     .span = random.between(10, 40),
                     .overhang = random.between(0.5, 4),
                     .live = random.between(20, 120),
                     .dead = 10,
                     .point = random.between(100, 400),
                     .shared_by = 1,
                     .greatest_span = 0,
                     .maker = ""};
    RailSpan rail{.carries = {{pine(1.5, 3.5, "2x4"), random.one_of(2) == 1}},
                  .span = random.between(30, 96),
                  .point = random.between(100, 300),
                  .along = 50,
                  .level = random.one_of(2) == 1};
    const auto ratios = [&] {
      std::vector<double> all;
      for (const Check& c : check_stringer(beam, worst_of(beam))) all.push_back(c.ratio);
      for (const Check& c : check_tread(tread)) all.push_back(c.ratio);
      for (const Check& c : check_rail(rail)) all.push_back(c.ratio);
      return all;
    };
    const std::vector<double> base = ratios();
    const auto expect_no_less = [&](const char* why) {
      const std::vector<double> now = ratios();
      ASSERT_EQ(now.size(), base.size());
      for (std::size_t i = 0; i < now.size(); ++i) ASSERT_GE(now[i], base[i] * (1 - 1e-12)) << why << " " << i;
    };
    const StringerBeam beam_before = beam;
    const TreadBoard tread_before = tread;
    const RailSpan rail_before = rail;
    beam.live *= 1.2;
    beam.point *= 1.2;
    tread.live *= 1.2;
    tread.point *= 1.2;
    rail.point *= 1.2;
    rail.along *= 1.2;
    expect_no_less("load");
    beam = beam_before;
    tread = tread_before;
    rail = rail_before;
    beam.spans[0] *= 1.1;
    tread.span *= 1.1;
    rail.span *= 1.1;
    beam.board.member.width -= 0.5;
    tread.board.member.thickness -= 0.25;
    rail.carries[0].board.member.thickness -= 0.25;
    rail.carries[0].board.member.width -= 0.25;
    const std::vector<double> now = ratios();
    for (std::size_t i = 0; i < now.size(); ++i) ASSERT_GE(now[i], base[i] * (1 - 1e-12)) << "span and depth " << i;
  }
}

// Each figure that claims to follow from others stands after them, and the last value named is the one weighed.
TEST(Members, CalculationEndsInWhatIsWeighed) {
  const StringerBeam beam = stringer(7.5, 10, 72, 60, 15, 300);
  const std::vector<Check> checks = check_stringer(beam, worst_of(beam));
  ASSERT_EQ(checks.size(), 9u);
  for (const Check& check : checks) {
    EXPECT_FALSE(check.figures.empty());
    EXPECT_FALSE(check.clause.empty() || check.note.empty());
    const auto holds = [&](double value) {
      return std::ranges::any_of(check.figures, [&](const Figure& f) { return f.value == value; });
    };
    EXPECT_TRUE(holds(check.demand)) << check.what;
    EXPECT_TRUE(check.unit.empty() || holds(check.capacity)) << check.what;
    EXPECT_EQ(check.verdict, check.demand <= check.capacity ? Verdict::pass : Verdict::fail);
  }
}

TEST(Members, WoodWithoutValuesIsNeverPassed) {
  Timber none = pine();
  none.values.reset();
  none.why_not = "no values for that grade";
  StringerBeam beam = stringer(7, 11, 72, 60, 15, 300);
  beam.board = none;
  std::vector<Check> checks = check_stringer(beam, worst_of(beam));
  const auto add = [&](std::vector<Check> more) { checks.insert(checks.end(), more.begin(), more.end()); };
  add(check_tread({.board = none,
                   .span = 16,
                   .overhang = 0,
                   .live = 40,
                   .dead = 10,
                   .point = 300,
                   .shared_by = 1,
                   .greatest_span = 0,
                   .maker = ""}));
  add({check_bearing({.part = "stringer",
                      .mark = "S1",
                      .what = "bearing",
                      .faces = {{pine(), 30}, {none, 90}},
                      .length = 3,
                      .width = 1.5,
                      .force = 300,
                      .force_words = "reaction"})});
  add({check_notched_end(
      {.board = none, .depth = 11.25, .left = 9, .tension_side = true, .past_support = 0, .shear = 300})});
  add({check_jointed_end({.board = none, .depth = 11.25, .effective = 9, .from_end = 3, .shear = 300})});
  add(check_guard_post(
      {.post = none, .load = 200, .height = 36, .cover = 1, .upper_down = 2, .bolt_spacing = 5, .hole = 0.5}));
  add({check_support_post({.post = none, .length = 36, .load = 900, .eccentricity = 0, .side_moment = 0})});
  add(check_rail({.carries = {{none, true}}, .span = 72, .point = 200, .along = 0, .level = true}));
  add(check_baluster({.wood = none, .metal = false, .span = 30, .spacing = 4, .infill = 50}));
  add(check_hanger_board({.board = none, .span = 16, .down = 300, .out = 0}));
  EXPECT_EQ(checks.size(), 10u);
  for (const Check& check : checks) {
    EXPECT_EQ(check.verdict, Verdict::not_checked) << check.what;
    EXPECT_EQ(check.note, none.why_not);
    EXPECT_EQ(check.capacity, 0);
  }
}
