// Readings -> Site: the ground between and beyond the readings, its falls, and how sure it is.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "engine/measure/methods.hpp"
#include "engine/measure/site.hpp"

namespace pitchboard {
namespace {

ReadingLine line(Line where, std::initializer_list<std::pair<double, double>> readings) {
  ReadingLine out{where, {}};
  for (const auto& [away, down] : readings) out.readings.push_back({inches(away), inches(down)});
  return out;
}

Job job_with(std::vector<ReadingLine> lines) {
  Job job;
  job.stair.width = inches(40);
  job.ground.lines = std::move(lines);
  return job;
}

Job random_job(std::mt19937_64& random) {
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  Job job;
  job.stair.width = inches(between(30, 60));
  const int which = std::uniform_int_distribution<int>(1, 7)(random);
  for (const Line where : {Line::left, Line::middle, Line::right}) {
    if ((which >> static_cast<int>(where) & 1) == 0) continue;
    ReadingLine added{where, {}};
    double away = between(0, 20);
    const int count = std::uniform_int_distribution<int>(1, 5)(random);
    for (int i = 0; i < count; ++i, away += between(5, 40))
      added.readings.push_back({inches(away), inches(between(20, 60))});
    job.ground.lines.push_back(added);
  }
  return job;
}

TEST(Site, TheGroundIsStraightBetweenTwoReadings) {
  const Site site(job_with({line(Line::middle, {{0, 30}, {40, 32}, {60, 38}})}));
  EXPECT_DOUBLE_EQ(in_inches(site.ground(inches(0)).z), -30);
  EXPECT_DOUBLE_EQ(in_inches(site.ground(inches(10)).z), -30.5);
  EXPECT_DOUBLE_EQ(in_inches(site.ground(inches(40)).z), -32);
  EXPECT_DOUBLE_EQ(in_inches(site.ground(inches(50)).z), -35);
  EXPECT_DOUBLE_EQ(in_inches(site.ground(inches(60)).z), -38);
  EXPECT_FALSE(site.ground(inches(50)).beyond);
}

TEST(Site, BeyondTheReadingsTheLastSlopeGoesOnAndIsSaid) {
  const Site site(job_with({line(Line::middle, {{10, 30}, {40, 33}, {60, 39}})}));
  EXPECT_DOUBLE_EQ(in_inches(site.ground(inches(70)).z), -42);
  EXPECT_DOUBLE_EQ(in_inches(site.ground(inches(0)).z), -29);
  EXPECT_TRUE(site.ground(inches(70)).beyond);
  EXPECT_TRUE(site.ground(inches(0)).beyond);
  EXPECT_FALSE(site.ground(inches(10)).beyond);
  EXPECT_FALSE(site.ground(inches(60)).beyond);
  EXPECT_EQ(site.furthest_reading(), inches(60));
}

TEST(Site, ReadingsMayComeInAnyOrder) {
  const Site sorted(job_with({line(Line::middle, {{0, 30}, {40, 32}, {60, 38}})}));
  const Site mixed(job_with({line(Line::middle, {{60, 38}, {0, 30}, {40, 32}})}));
  for (double away = -5; away < 80; away += 2.5) EXPECT_EQ(mixed.ground(inches(away)).z, sorted.ground(inches(away)).z);
}

TEST(Site, OneLineMeansLevelAcrossAndIsToldAsAnAssumption) {
  for (const Line where : {Line::left, Line::middle, Line::right}) {
    const Site site(job_with({line(where, {{0, 30}, {60, 36}})}));
    for (const double across : {-10.0, 0.0, 20.0, 40.0, 55.0}) {
      EXPECT_EQ(site.ground(inches(30), inches(across)).z, inches(-33));
    }
    EXPECT_EQ(site.cross_fall(inches(30)), 0.0);
    ASSERT_EQ(site.assumptions().size(), 1u);
    EXPECT_NE(site.assumptions()[0].find("level across"), std::string::npos);
  }
}

TEST(Site, OneReadingMeansLevelAlongAndIsToldAsAnAssumption) {
  const Site site(job_with({line(Line::left, {{24, 30}}), line(Line::right, {{0, 31}, {60, 31}})}));
  EXPECT_EQ(site.ground(inches(0), Length()).z, inches(-30));
  EXPECT_EQ(site.ground(inches(90), Length()).z, inches(-30));
  EXPECT_TRUE(site.ground(inches(90), Length()).beyond);
  EXPECT_FALSE(site.ground(inches(24), Length()).beyond);
  ASSERT_EQ(site.assumptions().size(), 1u);
  EXPECT_NE(site.assumptions()[0].find("level"), std::string::npos);
}

TEST(Site, TwoLinesAreJoinedStraightAcrossAndNothingIsAssumed) {
  const Site site(job_with({line(Line::right, {{0, 32}, {60, 38}}), line(Line::left, {{0, 30}, {60, 34}})}));
  EXPECT_DOUBLE_EQ(in_inches(site.ground(inches(60), inches(0)).z), -34);
  EXPECT_DOUBLE_EQ(in_inches(site.ground(inches(60), inches(10)).z), -35);
  EXPECT_DOUBLE_EQ(in_inches(site.ground(inches(60)).z), -36) << "the middle of the width, when no place is named";
  EXPECT_DOUBLE_EQ(in_inches(site.ground(inches(60), inches(40)).z), -38);
  EXPECT_TRUE(site.assumptions().empty());
}

TEST(Site, ThreeLinesBendInTheMiddle) {
  const Site site(job_with({line(Line::left, {{0, 30}, {60, 30}}), line(Line::middle, {{0, 31}, {60, 31}}),
                            line(Line::right, {{0, 35}, {60, 35}})}));
  EXPECT_DOUBLE_EQ(in_inches(site.ground(inches(30), inches(10)).z), -30.5);
  EXPECT_DOUBLE_EQ(in_inches(site.ground(inches(30), inches(20)).z), -31);
  EXPECT_DOUBLE_EQ(in_inches(site.ground(inches(30), inches(30)).z), -33);
  EXPECT_EQ(site.lines().size(), 3u);
}

TEST(Site, BeyondIsSaidWhenEitherNeighbouringLineEnds) {
  const Site site(job_with({line(Line::left, {{0, 30}, {60, 34}}), line(Line::right, {{0, 30}, {40, 34}})}));
  EXPECT_TRUE(site.ground(inches(50)).beyond);
  EXPECT_FALSE(site.ground(inches(50), Length()).beyond);
}

TEST(Site, FallsArePositiveWhenTheGroundDropsAwayAndToTheRight) {
  const Site site(job_with({line(Line::left, {{0, 30}, {60, 33}}), line(Line::right, {{0, 30}, {60, 35}})}));
  EXPECT_DOUBLE_EQ(site.fall(inches(60)), 4.0 / 60.0);
  EXPECT_DOUBLE_EQ(site.cross_fall(inches(60)), 2.0 / 40.0);
  EXPECT_EQ(site.cross_fall(inches(0)), 0.0);
  EXPECT_EQ(site.fall(Length()), 0.0) << "no distance, no fall";
  const Site rising(job_with({line(Line::left, {{0, 30}, {60, 28}}), line(Line::right, {{0, 29}, {60, 27}})}));
  EXPECT_LT(rising.fall(inches(60)), 0.0);
  EXPECT_LT(rising.cross_fall(inches(60)), 0.0);
}

TEST(Site, EachMethodIsAsSureAsItsRowInTheDataSays) {
  // Read afresh from the data file, in the order of the methods.
  std::ifstream file(SOURCE_DIR "/data/methods.toml");
  std::vector<double> fixed, per_inch;
  for (std::string text; std::getline(file, text);) {
    std::istringstream words(text);
    std::string key, equals;
    double value = 0;
    if (!(words >> key >> equals >> value)) continue;
    if (key == "fixed") fixed.push_back(value);
    if (key == "per_inch") per_inch.push_back(value);
  }
  const std::vector<Method> methods{Method::line_level, Method::water_level, Method::laser, Method::long_level};
  ASSERT_EQ(fixed.size(), methods.size());
  ASSERT_EQ(per_inch.size(), methods.size());
  for (std::size_t i = 0; i < methods.size(); ++i) {
    Job job = job_with({line(Line::middle, {{0, 30}, {120, 34}})});
    job.ground.method = methods[i];
    const Site site(job);
    for (const double away : {0.0, 48.0, 120.0}) {
      EXPECT_DOUBLE_EQ(in_inches(site.reading_uncertainty(inches(away))), fixed[i] + per_inch[i] * away);
      EXPECT_EQ(site.ground(inches(away)).uncertainty, site.reading_uncertainty(inches(away)));
    }
    EXPECT_FALSE(method_row(methods[i]).source.empty());
  }
}

TEST(Site, WhatTheTradeSaysOfALevelHoldsForItsRow) {
  // SOURCE common practice, no source: a level out by 1/16 in over 4 ft is out by 3/16 in over 12 ft; a string with a
  // line level is good to 1/4 in in 8 to 10 ft; water and laser to 1/16 to 1/8 in.
  const auto at = [](Method method, double away) {
    Job job = job_with({line(Line::middle, {{0, 30}, {120, 34}})});
    job.ground.method = method;
    return in_inches(Site(job).reading_uncertainty(inches(away)));
  };
  EXPECT_NEAR(at(Method::long_level, 144) - at(Method::long_level, 0), 3.0 / 16.0, 0.01);
  EXPECT_NEAR(at(Method::line_level, 96), 0.25, 0.01);
  EXPECT_LE(at(Method::line_level, 120), 0.32);
  EXPECT_LE(at(Method::water_level, 240), 0.125);
  EXPECT_NEAR(at(Method::laser, 120), 0.125, 0.001);
}

TEST(Site, AToleranceOfOnesOwnReplacesTheMethods) {
  Job job = job_with({line(Line::middle, {{0, 30}, {120, 34}})});
  job.ground.tolerance = inches(0.03125);
  for (const Method method : {Method::line_level, Method::water_level, Method::laser, Method::long_level}) {
    job.ground.method = method;
    EXPECT_EQ(Site(job).reading_uncertainty(inches(100)), inches(0.03125));
  }
}

TEST(Site, AMirroredJobGivesTheMirroredSite) {
  std::mt19937_64 random(3);
  for (int i = 0; i < 300; ++i) {
    const Job job = random_job(random);
    Job mirrored = job;
    for (ReadingLine& each : mirrored.ground.lines) {
      if (each.line != Line::middle) each.line = each.line == Line::left ? Line::right : Line::left;
    }
    const Site site(job), other(mirrored);
    for (double away = -10; away < 200; away += 17) {
      for (const double share : {-0.2, 0.0, 0.3, 0.5, 0.9, 1.0, 1.2}) {
        const Length across = job.stair.width * share;
        const Level p = site.ground(inches(away), across), q = other.ground(inches(away), job.stair.width - across);
        ASSERT_NEAR(in_inches(p.z), in_inches(q.z), 1e-9);
        ASSERT_EQ(p.uncertainty, q.uncertainty);
      }
      ASSERT_NEAR(site.cross_fall(inches(away)), -other.cross_fall(inches(away)), 1e-12);
      ASSERT_NEAR(site.fall(inches(away)), other.fall(inches(away)), 1e-12);
    }
  }
}

TEST(Site, ShiftingAllReadingsDownShiftsTheGroundAndChangesNoFall) {
  std::mt19937_64 random(4);
  for (int i = 0; i < 300; ++i) {
    const Job job = random_job(random);
    Job lower = job;
    for (ReadingLine& each : lower.ground.lines) {
      for (Reading& reading : each.readings) reading.down += inches(7.25);
    }
    const Site site(job), other(lower);
    for (double away = 0; away < 200; away += 13) {
      for (const double share : {0.0, 0.3, 1.0}) {
        const Length across = job.stair.width * share;
        const Level p = site.ground(inches(away), across), q = other.ground(inches(away), across);
        ASSERT_NEAR(in_inches(p.z - q.z), 7.25, 1e-9);
        ASSERT_EQ(p.beyond, q.beyond);
      }
      ASSERT_NEAR(site.fall(inches(away)), other.fall(inches(away)), 1e-12);
    }
  }
}

TEST(Site, TheGroundNeverLeavesItsReadingsInsideThem) {
  std::mt19937_64 random(5);
  for (int i = 0; i < 300; ++i) {
    const Job job = random_job(random);
    const Site site(job);
    Length high = inches(-1e9), low = inches(1e9);
    for (const ReadingLine& each : job.ground.lines) {
      for (const Reading& reading : each.readings) {
        high = std::max(high, -reading.down);
        low = std::min(low, -reading.down);
      }
    }
    for (double away = 0; away < 150; away += 3.1) {
      for (const double share : {0.0, 0.25, 0.5, 1.0}) {
        const Level level = site.ground(inches(away), job.stair.width * share);
        if (level.beyond) continue;
        ASSERT_LE(level.z, high + inches(1e-9));
        ASSERT_GE(level.z, low - inches(1e-9));
      }
    }
  }
}

}  // namespace
}  // namespace pitchboard
