// The plot of a front: every option where its cost and comfort put it, by the figures that stand at the axes.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>

#include "engine/base/tape.hpp"
#include "engine/choose/front.hpp"
#include "tests/draw_fixture.hpp"

namespace pitchboard {
namespace {

/// A front of several stairs, found in a space that is small enough for a test.
struct Found {
  Job job;
  Search search;
};
Found found_in(UnitSystem units) {
  static const Found found = [] {
    Found out{low_step(), {}};
    out.job.choose.keep = {"riser boards", "mid supports", "head", "rails"};
    out.search = search_stairs(out.job, Site(out.job));
    return out;
  }();
  Found out = found;
  out.job.about.units = units;
  return out;
}

std::optional<double> number(const std::string& text) {
  double value = 0;
  const char* end = text.data() + text.size();
  const auto [rest, error] = std::from_chars(text.data(), end, value);
  return error == std::errc() && rest == end ? std::optional(value) : std::nullopt;
}

/// Middles of the circles of that radius.
std::vector<SheetPoint> circles(const Sheet& sheet, double least, double most) {
  std::vector<SheetPoint> out;
  for (const SheetPath& path : sheet.paths) {
    if (!path.closed || path.points.size() != 24) continue;
    const auto [left, right] = std::ranges::minmax(path.points, {}, &SheetPoint::x);
    const auto [top, foot] = std::ranges::minmax(path.points, {}, &SheetPoint::y);
    if (const double radius = (right.x - left.x) / 2; radius < least || radius > most) continue;
    out.push_back({(left.x + right.x) / 2, (top.y + foot.y) / 2});
  }
  return out;
}

/// True for the figures of the axis on the left.
bool is_cost(const SheetText& text) { return text.anchor == Anchor::end && text.at.x < 110; }

/// A straight axis through two of its figures.
struct PaperAxis {
  double at0 = 0, value0 = 0, at1 = 0, value1 = 0;
  [[nodiscard]] double at(double value) const { return at0 + (value - value0) / (value1 - value0) * (at1 - at0); }
};

class OptionsSheet : public testing::TestWithParam<std::tuple<UnitSystem, Paper>> {
 protected:
  void SetUp() override {
    ASSERT_GT(found_.search.front.size(), 3U);
    sheet_ = draw_options(found_.job, found_.search, std::get<1>(GetParam()));
  }
  /// From the lowest to the highest figure on the left.
  [[nodiscard]] PaperAxis cost_axis() const {
    PaperAxis out;
    for (const SheetText& text : sheet_.texts) {
      const auto value = is_cost(text) ? number(text.text) : std::nullopt;
      if (!value) continue;
      if (out.at0 == 0) {
        out.at0 = text.at.y - 3, out.value0 = *value;
      } else {
        out.at1 = text.at.y - 3, out.value1 = *value;
      }
    }
    return out;
  }
  const Found found_ = found_in(std::get<0>(GetParam()));
  Sheet sheet_;
};

TEST_P(OptionsSheet, IsLegible) { expect_legible(sheet_); }

TEST_P(OptionsSheet, EveryOptionStandsAtItsCost) {
  const PaperAxis axis = cost_axis();
  ASSERT_NE(axis.value0, axis.value1);
  const std::vector<SheetPoint> dots = circles(sheet_, 2, 4);
  for (const Option& option : found_.search.front) {
    const double y = axis.at(static_cast<double>(option.figures.cents) / 100.0);
    EXPECT_TRUE(std::ranges::any_of(dots, [&](SheetPoint p) { return std::abs(p.y - y) < 0.1; }))
        << option.figures.cents;
  }
}

TEST_P(OptionsSheet, MoreComfortableStandsFurtherLeft) {
  // Marks are drawn in the order of the front, before the pick's ring and the key.
  const std::vector<SheetPoint> dots = circles(sheet_, 2, 4);
  const std::vector<Option>& front = found_.search.front;
  ASSERT_GE(dots.size(), front.size());
  bool compared = false;
  for (std::size_t i = 0; i < front.size(); ++i) {
    for (std::size_t j = 0; j < front.size(); ++j) {
      if (front[i].figures.comfort < front[j].figures.comfort - kTouch) {
        EXPECT_LT(dots[i].x, dots[j].x);
        compared = true;
      }
    }
  }
  EXPECT_TRUE(compared) << "a front of one comfort tells nothing";
}

TEST_P(OptionsSheet, EveryOptionIsToldByItsNumberOnce) {
  const double key = sheet_.width - kHalfInch - 265;
  std::vector<int> told(found_.search.front.size());
  for (const SheetText& text : sheet_.texts) {
    // Not the figures at the axes.
    if (text.at.x > key || is_cost(text) || text.text.ends_with('"') || text.text.ends_with(" mm")) continue;
    for (std::size_t at = 0; at != std::string::npos; at = text.text.find("; ", at + 1)) {
      const std::size_t from = at == 0 ? 0 : at + 2, end = text.text.find_first_of(" ;", from);
      const auto value = number(text.text.substr(from, end - from));
      if (value && *value >= 1 && *value <= static_cast<double>(told.size()))
        ++told[static_cast<std::size_t>(*value) - 1];
    }
  }
  for (const int times : told) EXPECT_EQ(times, 1);
}

TEST_P(OptionsSheet, TheRingIsRoundThePick) {
  const Option& pick = found_.search.front[found_.search.pick];
  const double y = cost_axis().at(static_cast<double>(pick.figures.cents) / 100.0);
  const std::vector<SheetPoint> rings = circles(sheet_, 6, 7);
  ASSERT_EQ(rings.size(), 2U) << "one in the plot, one in the key";
  EXPECT_NEAR(rings[0].y, y, 0.1);
}

INSTANTIATE_TEST_SUITE_P(UnitsAndPapers, OptionsSheet,
                         testing::Combine(testing::Values(UnitSystem::imperial, UnitSystem::metric),
                                          testing::Values(Paper::letter, Paper::a4)));

TEST(FrontMarks, GoToTheLeastOfEachFigure) {
  const Found found = found_in(UnitSystem::imperial);
  const std::vector<Option>& front = found.search.front;
  const auto marked = [&](std::string_view mark) {
    for (std::size_t i = 0; i < front.size(); ++i) {
      const std::vector<std::string_view> marks = marks_of(found.search, i);
      if (std::ranges::find(marks, mark) != marks.end()) return i;
    }
    return front.size();
  };
  ASSERT_LT(marked("pick"), front.size());
  EXPECT_EQ(marked("pick"), found.search.pick);
  EXPECT_EQ(marked("cheapest"), 0U) << "the front is sorted by cost";
  ASSERT_LT(marked("strongest"), front.size());
  ASSERT_LT(marked("least work"), front.size());
  for (const Option& option : front) {
    EXPECT_LE(front[marked("strongest")].figures.ratio, option.figures.ratio);
    EXPECT_LE(front[marked("least work")].figures.minutes, option.figures.minutes);
  }
}

}  // namespace
}  // namespace pitchboard
