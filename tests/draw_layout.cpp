// Text metrics, places for labels and figures, hatches: the ground that every sheet stands on.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

#include "engine/base/geometry.hpp"
#include "engine/draw/dimension.hpp"
#include "engine/draw/ink.hpp"
#include "engine/draw/sheet_words.hpp"
#include "engine/draw/text_metrics.hpp"

namespace pitchboard {
namespace {

std::string without_spaces(std::string text) {
  std::erase(text, ' ');
  return text;
}

TEST(TextMetrics, FiguresAreTabular) {
  for (const bool bold : {false, true}) {
    for (const char figure : std::string("123456789"))
      EXPECT_EQ(text_width(std::string(1, figure), 10, bold), text_width("0", 10, bold));
  }
}

TEST(TextMetrics, WidthsAddUpAndGrowWithTheSize) {
  EXPECT_DOUBLE_EQ(text_width("47 3/8\"", 8) * 2, text_width("47 3/8\"", 16));
  EXPECT_NEAR(text_width("riser", 9) + text_width("tread", 9), text_width("risertread", 9), 1e-9);
  EXPECT_DOUBLE_EQ(text_width("iiii", 10, false, true), text_width("WWWW", 10, false, true));
}

TEST(TextMetrics, ACharacterIsOneHoweverManyBytesItTakes) {
  EXPECT_DOUBLE_EQ(text_width("é", 10), text_width("e", 10));  // an accent does not widen the letter in B612
  EXPECT_DOUBLE_EQ(text_width("\u6728", 10), 10.0);            // not in the font: one em
}

TEST(TextMetrics, BrokenTextFitsAndLosesNothing) {
  std::mt19937 random(7);
  for (int round = 0; round < 500; ++round) {
    std::string text;
    for (unsigned long words = random() % 12; words-- > 0;) {
      for (unsigned long letters = 1 + random() % 14; letters-- > 0;) text += static_cast<char>('a' + random() % 26);
      text += ' ';
    }
    const double width = 20 + static_cast<double>(random() % 200);
    std::string joined;
    for (const std::string& line : wrapped(text, width, 8)) {
      EXPECT_LE(text_width(line, 8), width);
      joined += line;
    }
    EXPECT_EQ(without_spaces(joined), without_spaces(text));
  }
}

TEST(TextMetrics, AFractionStaysWithItsInches) {
  for (double width = 30; width < 120; width += 1) {
    for (const std::string& line : wrapped("a going of 10 1/4 and more", width, 8)) {
      EXPECT_FALSE(line.starts_with("1/4")) << width;
    }
  }
}

TEST(TextMetrics, BoxesOverlapOnlyWhenTheyShareMoreThanATouch) {
  const SheetText first{.at = {100, 100}, .text = "07", .size = 10};
  SheetText second = first;
  second.at.x += text_width(first);
  EXPECT_FALSE(boxes_overlap(text_box(first), text_box(second)));
  second.at.x -= 0.5;
  EXPECT_TRUE(boxes_overlap(text_box(first), text_box(second)));
  second = first;
  second.at.y += 10;  // capitals and tails together take the whole size
  EXPECT_FALSE(boxes_overlap(text_box(first), text_box(second)));
}

TEST(TextMetrics, UpwardTextRunsUpThePaper) {
  const auto box = text_box({.at = {50, 200}, .text = "86\"", .size = 8, .upwards = true});
  for (const SheetPoint p : box) EXPECT_LE(p.y, 200.0);
  EXPECT_NEAR(std::min(box[1].y, box[2].y), 200 - text_width("86\"", 8), 1e-9);
}

TEST(Spread, NeighboursStandApartInOrderAndInside) {
  std::mt19937 random(11);
  for (int round = 0; round < 300; ++round) {
    std::vector<double> places;
    for (unsigned long n = 1 + random() % 20; n-- > 0;) places.push_back(static_cast<double>(random() % 4000) / 10);
    std::ranges::sort(places);
    const std::vector<double> out = spread(places, 9, 0, 400);
    ASSERT_EQ(out.size(), places.size());
    for (std::size_t i = 0; i < out.size(); ++i) {
      EXPECT_GE(out[i], -1e-9);
      EXPECT_LE(out[i], 400 + 1e-9);
      EXPECT_TRUE(i == 0 || out[i] - out[i - 1] >= 9 - 1e-9);
    }
  }
}

TEST(Spread, LeavesAloneWhatStandsApartAlready) {
  const std::vector<double> places{10, 30, 55};
  EXPECT_EQ(spread(places, 9, 0, 100), places);
}

TEST(Scale, IsTheLargestStandardOneThatFits) {
  // SOURCE  architect's scales: 1/2" = 1'-0" puts 24 in of the model on one inch of paper.
  EXPECT_EQ(scale_to_fit(inches(24 * 10), inches(24), 720, 500, UnitSystem::imperial).words, "1/2\" = 1'-0\"");
  EXPECT_EQ(scale_to_fit(inches(24 * 10.01), inches(24), 720, 500, UnitSystem::imperial).words, "3/8\" = 1'-0\"");
  EXPECT_EQ(scale_to_fit(millimetres(2000), millimetres(100), 100 / 25.4 * 72, 500, UnitSystem::metric).words, "1:20");
}

TEST(Dimensions, EveryFigureIsWrittenOnceAndNoneOnAnother) {
  std::mt19937 random(3);
  for (const Along along : {Along::x, Along::y}) {
    for (int round = 0; round < 60; ++round) {
      Canvas canvas("", "", Paper::letter, true);
      Chain chain{.along = along, .line = along == Along::x ? 300.0 : 200.0, .at = {120}, .feature = {100}};
      std::multiset<std::string> wanted;
      for (unsigned long n = 1 + random() % 10; n-- > 0;) {
        chain.at.push_back(chain.at.back() + 9 + static_cast<double>(random() % 40));
        chain.feature.push_back(100);
        chain.figures.push_back(tape_plain(inches(static_cast<double>(random() % 300) / 16)));
        wanted.insert(chain.figures.back());
      }
      if (chain.at.back() > 480) continue;
      draw_chain(canvas, chain);
      std::multiset<std::string> written;
      const auto& texts = canvas.sheet().texts;
      for (std::size_t i = 0; i < texts.size(); ++i) {
        written.insert(texts[i].text);
        for (std::size_t j = 0; j < i; ++j) EXPECT_FALSE(boxes_overlap(text_box(texts[i]), text_box(texts[j])));
      }
      EXPECT_EQ(written, wanted);
    }
  }
}

TEST(Dimensions, ExtensionLinesLeaveAGapAndOvershoot) {
  Canvas canvas("", "", Paper::letter, true);
  draw_dimension(canvas, Along::x, 300, 100, 200, 250, 250, "8\"");
  const auto reaches = [&](double x) {
    return std::ranges::any_of(canvas.sheet().paths, [&](const SheetPath& p) {
      return p.points.size() == 2 && p.points[0].x == x && p.points[1].x == x && p.points[0].y > 250 &&
             p.points[1].y > 300;
    });
  };
  EXPECT_TRUE(reaches(100));
  EXPECT_TRUE(reaches(200));
}

TEST(Labels, CrowdedOnesMoveAwayWithLeadersThatDoNotCross) {
  Canvas canvas("", "", Paper::letter, true);
  std::vector<SheetPoint> targets;
  for (int i = 0; i < 14; ++i) targets.push_back({300.0 + 3 * (i % 4), 250.0 + 1.5 * i});
  for (std::size_t i = 0; i < targets.size(); ++i) canvas.label(targets[i], "M" + std::to_string(i), 8);
  const auto& sheet = canvas.sheet();
  ASSERT_EQ(sheet.texts.size(), targets.size());
  std::vector<SheetPath> leaders;
  for (const SheetPath& path : sheet.paths) {
    if (path.points.size() == 2) leaders.push_back(path);
  }
  EXPECT_FALSE(leaders.empty());
  const auto side = [](SheetPoint p, SheetPoint q, SheetPoint r) {
    return (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  };
  for (const SheetPath& p : leaders) {
    for (const SheetPath& q : leaders) {
      const bool crossing =
          side(p.points[0], p.points[1], q.points[0]) * side(p.points[0], p.points[1], q.points[1]) < -1e-9 &&
          side(q.points[0], q.points[1], p.points[0]) * side(q.points[0], q.points[1], p.points[1]) < -1e-9;
      EXPECT_FALSE(crossing);
    }
  }
}

TEST(Hatch, StaysInsideItsShape) {
  // A stepped shape: hatches have to mind the notch.
  const std::vector<SheetPoint> shape{{20, 20}, {120, 20}, {120, 60}, {70, 60}, {70, 110}, {20, 110}};
  Polygon outline;
  for (const SheetPoint p : shape) outline.push_back({inches(p.x), inches(p.y)});
  for (const Hatch hatch : {Hatch::wood_end, Hatch::earth, Hatch::gravel, Hatch::sand, Hatch::concrete}) {
    const auto strokes = hatch_strokes({.points = shape, .closed = true, .hatch = hatch});
    EXPECT_GT(strokes.size(), 20U);
    for (const auto& stroke : strokes) {
      for (const SheetPoint p : stroke) {
        const Point at{inches(p.x), inches(p.y)};
        EXPECT_TRUE(contains(outline, at) || distance_to_outline(outline, at) < inches(1e-6));
      }
      const Point middle{inches((stroke.front().x + stroke.back().x) / 2),
                         inches((stroke.front().y + stroke.back().y) / 2)};
      EXPECT_TRUE(contains(outline, middle) || distance_to_outline(outline, middle) < inches(1e-6));
    }
  }
}

TEST(SheetWords, DrillsAreNamedToTheSixtyFourth) {
  // SOURCE  fractional inch drill sizes: 11/64 = 0.171875, 17/32 = 0.53125, 7/64 = 0.109375.
  EXPECT_EQ(drill_words(inches(0.171875), UnitSystem::imperial), "11/64\"");
  EXPECT_EQ(drill_words(inches(0.53125), UnitSystem::imperial), "17/32\"");
  EXPECT_EQ(drill_words(inches(0.109375), UnitSystem::imperial), "7/64\"");
  EXPECT_EQ(drill_words(inches(1.5), UnitSystem::imperial), "1 1/2\"");
  EXPECT_EQ(drill_words(inches(0.5), UnitSystem::metric), "12.7 mm");
}

TEST(SheetWords, RunsOfMarksAreJoined) {
  EXPECT_EQ(mark_ranges({"bL1", "bL2", "bL3", "bR1", "S1", "S2", "rim"}), "bL1–bL3, bR1, S1, S2, rim");
  EXPECT_EQ(mark_ranges({"T9a", "T9b", "99999999999", ""}), "T9a, T9b, 99999999999, ");
}

}  // namespace
}  // namespace pitchboard
