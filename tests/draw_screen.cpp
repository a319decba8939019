// The side view for a screen: what is touched on it is what the job holds, and it is to scale.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "engine/base/tape.hpp"
#include "tests/draw_fixture.hpp"

namespace pitchboard {
namespace {

const DrawnPlan& low_plan() {
  static const Job job = low_step();
  static const DrawnPlan plan(job, shape_flights(job, Site(job), shape_limits(job.place)).front());
  return plan;
}

class ScreenSide : public testing::TestWithParam<std::pair<double, double>> {
 protected:
  [[nodiscard]] Sheet sheet(const DrawInput& input, bool readings) const {
    return draw_screen_side(input,
                            {GetParam().first, GetParam().second, readings, low_plan().job.ground.lines[0].line});
  }
};

TEST_P(ScreenSide, EveryReadingOfTheLineIsThereOnceByItsKeyAndFigure) {
  const Sheet drawn = sheet(low_plan().input(), true);
  const ReadingLine& line = low_plan().job.ground.lines[0];
  for (std::size_t i = 0; i < line.readings.size(); ++i) {
    for (const auto& [key, length] : {std::pair{"out", line.readings[i].out}, {"down", line.readings[i].down}}) {
      const std::string end = fmt::format("[{}].{}", i, key);
      const auto is_it = [&](const SheetText& text) { return text.input.ends_with(end); };
      ASSERT_EQ(std::ranges::count_if(drawn.texts, is_it), 1) << end;
      EXPECT_EQ(std::ranges::find_if(drawn.texts, is_it)->text, tape_plain(length, UnitSystem::imperial));
    }
  }
}

TEST_P(ScreenSide, EveryPartOfAStepIsKnownByItsMarkAndStep) {
  const DrawnPlan& plan = low_plan();
  const Sheet drawn = sheet(plan.input(), false);
  for (const Part& part : plan.frame.parts) {
    if (part.step == 0) continue;
    const auto path = std::ranges::find(drawn.paths, part.mark, &SheetPath::part);
    ASSERT_NE(path, drawn.paths.end()) << part.mark;
    EXPECT_EQ(path->step, part.step) << part.mark;
  }
}

TEST_P(ScreenSide, TheRiseOfTheTreadsAndTheirGoingAreInOneScale) {
  const DrawnPlan& plan = low_plan();
  const Sheet drawn = sheet(plan.input(), false);
  const auto corner = [&](int step) {
    SheetPoint out{-1, 1e9};
    for (const SheetPath& path : drawn.paths) {
      const auto part = std::ranges::find(plan.frame.parts, path.part, &Part::mark);
      if (part == plan.frame.parts.end() || part->kind != PartKind::tread || path.step != step) continue;
      for (const SheetPoint p : path.points) out = {std::max(out.x, p.x), std::min(out.y, p.y)};
    }
    return out;
  };
  const SheetPoint lower = corner(1), upper = corner(2);
  EXPECT_NEAR((lower.y - upper.y) / (lower.x - upper.x), plan.flight.unit_rise / plan.flight.going, 1e-9);
}

TEST_P(ScreenSide, EveryGoingHasItsFigureOrAllShareOne) {
  const DrawnPlan& plan = low_plan();
  const std::string going = tape_plain(plan.flight.going, UnitSystem::imperial);
  const auto times = static_cast<std::ptrdiff_t>(plan.flight.nosings.size());
  std::ptrdiff_t each = 0, shared = 0;
  for (const SheetText& text : sheet(plan.input(), false).texts) {
    each += text.text == going ? 1 : 0;
    shared += text.text.ends_with(" x " + going) ? std::stoi(text.text) : 0;
  }
  EXPECT_EQ(each == 0, shared > 0);
  EXPECT_EQ(each + shared, plan.flight.nosings.back().a > kTouch ? times : times - 1);
}

TEST_P(ScreenSide, ItStaysOnTheScreen) {
  for (const bool readings : {false, true}) {
    for (const SheetPath& path : sheet(low_plan().input(), readings).paths) {
      for (const SheetPoint p : path.points) {
        EXPECT_TRUE(p.x >= -1 && p.x <= GetParam().first + 1 && p.y >= -1 && p.y <= GetParam().second + 1)
            << p.x << ", " << p.y;
      }
    }
  }
}

TEST_P(ScreenSide, WithoutAFlightHouseAndReadingsAreThere) {
  const DrawnPlan& plan = low_plan();
  const Flight none;
  const Frame house = house_side(plan.job);
  const Sheet drawn =
      sheet({plan.job, plan.site, none, house, {}, plan.strength, plan.cuts, plan.marks, plan.order}, true);
  std::set<std::string> parts, inputs;
  for (const SheetPath& path : drawn.paths) parts.insert(path.part);
  for (const SheetText& text : drawn.texts) inputs.insert(text.input);
  EXPECT_TRUE(parts.contains("rim") && parts.contains("deck"));
  EXPECT_TRUE(inputs.contains("stair.width") && inputs.contains("deck.rim_size"));
  EXPECT_GE(inputs.size(), 4 + 2 * plan.job.ground.lines[0].readings.size());
}

INSTANTIATE_TEST_SUITE_P(Sizes, ScreenSide,
                         testing::Values(std::pair{190.0, 200.0}, std::pair{240.0, 260.0}, std::pair{560.0, 480.0}));

}  // namespace
}  // namespace pitchboard
