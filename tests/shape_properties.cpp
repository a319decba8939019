// What is true of every flight, and of every answer that there is none.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "tests/shape_fixture.hpp"

namespace pitchboard {
namespace {

constexpr double kExact = 1e-9;

bool in_sixteenths(Length length) {
  const double steps = length / kSixteenth;
  return std::abs(steps - std::round(steps)) < 1e-6;
}

/// RETURNS the problem at that place; the test fails when there is none.
Problem problem_at(const Problems& problems, const std::string& place) {
  const auto found = std::ranges::find(problems, place, &Problem::place);
  if (found != problems.end()) return *found;
  ADD_FAILURE() << "nothing said of " << place;
  return {};
}

/// RETURNS the length in a remedy of the form "... would fit with <length> more ...".
Length more(const Problem& problem) {
  const std::size_t with = problem.remedy.rfind("with "), end = problem.remedy.rfind(" more");
  if (with == std::string::npos || end == std::string::npos) {
    ADD_FAILURE() << problem.remedy;
    return {};
  }
  const Result<Length> read = read_length(problem.remedy.substr(with + 5, end - with - 5));
  EXPECT_TRUE(read) << problem.remedy;
  return read.value_or(Length());
}

TEST(Flight, RisersAddUpToTheTotalAndNosingsAreEvenlySpaced) {
  RandomJobs jobs;
  int seen = 0;
  for (int i = 0; i < 1000; ++i) {
    for (const Flight& flight : shaped(jobs.next()).flights) {
      ++seen;
      const int n = flight.risers;
      ASSERT_EQ(flight.nosings.size(), static_cast<std::size_t>(n));
      ASSERT_EQ(flight.nosings.back().b, Length()) << "the top step is the deck";
      ASSERT_NEAR(in_inches(flight.unit_rise) * n, in_inches(flight.total_rise), kExact);
      ASSERT_NEAR(in_inches(flight.landing.z), -in_inches(flight.total_rise), kExact);
      Length below = flight.landing.z;
      for (const Point nosing : flight.nosings) {
        ASSERT_NEAR(in_inches(nosing.b - below), in_inches(flight.unit_rise), kExact);
        below = nosing.b;
      }
      for (std::size_t k = 1; k < flight.nosings.size(); ++k) {
        ASSERT_NEAR(in_inches(flight.nosings[k - 1].a - flight.nosings[k].a), in_inches(flight.going), kExact);
      }
      ASSERT_EQ(flight.nosings.front().a, flight.run);
      ASSERT_EQ(flight.nosings.back().a, flight.top == TopMode::deck_edge ? Length() : flight.going);
      ASSERT_EQ(flight.treads(), flight.top == TopMode::deck_edge ? n - 1 : n);
    }
  }
  EXPECT_GT(seen, 1000);
}

TEST(Flight, TheGroundAtItsOwnFootAndTheLiftMakeItsLanding) {
  RandomJobs jobs;
  for (int i = 0; i < 1000; ++i) {
    const Job job = jobs.next();
    const Site site(job);
    for (const Flight& flight : shape_flights(job, site, {}).flights) {
      // A ready-cut stringer's landing is exact, its lift is told to the nearest sixteenth.
      const double allowed = flight.ready_cut ? 1.0 / 32.0 + kExact : kExact;
      ASSERT_NEAR(in_inches(site.ground(flight.run).z + flight.landing.lift), in_inches(flight.landing.z), allowed);
      ASSERT_NEAR(in_inches(flight.landing.z_at(flight.run, job.stair.width / 2.0)), in_inches(flight.landing.z),
                  kExact);
      ASSERT_TRUE(in_sixteenths(flight.landing.lift)) << in_inches(flight.landing.lift);
      if (flight.ready_cut) {
        const ReadyCut& stock = job.yard.ready_cut[*flight.ready_cut];
        ASSERT_EQ(flight.landing.z, -(stock.unit_rise * stock.risers));
        ASSERT_EQ(flight.unit_rise, stock.unit_rise);
        ASSERT_EQ(flight.going, stock.unit_going);
      }
    }
  }
}

TEST(Flight, EveryOneKeepsEveryLimit) {
  RandomJobs jobs;
  const ShapeLimits limits{.twice_rise_plus_going = Interval{inches(24), inches(26)}, .pitch_max = degrees(36)};
  int seen = 0;
  for (int i = 0; i < 1000; ++i) {
    const Job job = jobs.next();
    for (const Flight& flight : shaped(job, limits).flights) {
      ++seen;
      ASSERT_GE(flight.unit_rise, limits.rise_min - kTouch);
      ASSERT_LE(flight.unit_rise, limits.rise_max + kTouch);
      ASSERT_LE(flight.total_rise, limits.flight_rise_max + kTouch);
      ASSERT_LE(flight.landing.lift, job.pad.raise_at_most + kTouch);
      ASSERT_LE(-flight.landing.lift, job.pad.dig_at_most + kTouch);
      if (job.room.run_at_most) {
        ASSERT_LE(flight.run + job.pad.length, *job.room.run_at_most + kTouch);
      }
      ASSERT_GE(flight.unit_rise * 2.0 + flight.going, inches(24) - kTouch);
      ASSERT_LE(flight.unit_rise * 2.0 + flight.going, inches(26) + kTouch);
      ASSERT_LE(in_degrees(flight.slope), 36 + 1e-6);
      ASSERT_NEAR(std::tan(flight.slope.raw()), flight.unit_rise / flight.going, 1e-12);
      if (!job.stair.going && !flight.ready_cut) {
        ASSERT_GE(flight.going, limits.going_min - kTouch);
        ASSERT_LE(flight.going, limits.going_max + kTouch);
      }
    }
  }
  EXPECT_GT(seen, 500);
}

TEST(Flight, EveryCountThatNeedsNoLiftIsListed) {
  // Independent search: on level ground a count fits when the total divided by it is a legal rise.
  for (double total = 16; total < 150; total += 3.7) {
    Job job = level_job(total);
    job.pad.raise_at_most = job.pad.dig_at_most = Length();
    job.stair.going = inches(10.25);
    const std::vector<Flight> flights = shaped(job).flights;
    for (int n = 2; n < 40; ++n) {
      const bool wanted = total / n <= 7.75 + 1e-6 && total / n >= 5.5 - 1e-6;
      EXPECT_EQ(std::ranges::count(flights, n, &Flight::risers), wanted ? 1 : 0) << n << " risers of " << total;
    }
  }
}

TEST(Flight, ALiftIsTheLeastThatMakesTheRiseLegal) {
  Job job = level_job(32);
  job.stair.risers = 4;
  const Flight lifted = shaped(job).flights.at(0);
  EXPECT_EQ(lifted.landing.lift, inches(1.0));
  EXPECT_EQ(lifted.unit_rise, inches(7.75));
  job = level_job(26);
  job.stair.risers = 5;
  const Flight dug = shaped(job).flights.at(0);
  EXPECT_EQ(dug.landing.lift, inches(-1.5));
  EXPECT_EQ(dug.unit_rise, inches(5.5));
  job = level_job(30);
  job.stair.risers = 4;
  EXPECT_EQ(shaped(job).flights.at(0).landing.lift, Length());
}

TEST(Flight, ComfortableOnesComeFirst) {
  // SOURCE US Army EN5156 and Architectural Graphic Standards: 2R + G of 24 to 25 in.
  for (const double total : {35.0, 43.5, 57.0, 64.0, 86.0, 107.0}) {
    Job job = level_job(total);
    job.pad.raise_at_most = job.pad.dig_at_most = Length();
    const Flight best = shaped(job).flights.at(0);
    EXPECT_GE(best.comfort.twice_rise_plus_going, inches(23.75)) << total;
    EXPECT_LE(best.comfort.twice_rise_plus_going, inches(25.25)) << total;
  }
}

TEST(Flight, AnExistingPadSetsTheLandingAndKeepsItsSlopesOnlyUntouched) {
  Job job = level_job(80);  // the ground is elsewhere: the pad decides
  job.stair.width = inches(40);
  job.stair.risers = 5;
  job.stair.going = inches(10.25);
  job.pad.existing = true;
  job.pad.from = inches(20);
  job.pad.down = inches(35);
  job.pad.fall = 0.02;
  job.pad.cross_fall = 0.01;
  const Flight flight = shaped(job).flights.at(0);
  // 41 in out is 21 in past its near edge, and the middle is 20 in from its left: 35 + 21 x 0.02 + 20 x 0.01.
  EXPECT_NEAR(in_inches(flight.total_rise), 35.62, kExact);
  EXPECT_EQ(flight.landing.lift, Length());
  EXPECT_NEAR(in_inches(flight.landing.z_at(inches(51), inches(20))), -35.82, kExact);
  EXPECT_NEAR(in_inches(flight.landing.z_at(inches(41), inches(40))), -35.82, kExact) << "the right side is lower";
  job.pad.down = inches(40);
  const Flight relaid = shaped(job).flights.at(0);
  EXPECT_GT(relaid.landing.lift, Length());
  EXPECT_EQ(relaid.landing.cross_fall, 0.0) << "a relaid landing is laid level across";
}

TEST(Flight, TheLandingReachesFromUnderTheFeetToItsClearLength) {
  RandomJobs jobs;
  for (int i = 0; i < 300; ++i) {
    const Job job = jobs.next();
    for (const Flight& flight : shaped(job).flights) {
      ASSERT_EQ(flight.landing.out.to, flight.run + job.pad.length);
      ASSERT_LT(flight.landing.out.from, flight.run - flight.nosing);
      ASSERT_LE(flight.landing.across.from, Length());
      ASSERT_GE(flight.landing.across.to, job.stair.width);
    }
  }
}

TEST(Flight, UnitsOfThePapersChangeNoFlight) {
  RandomJobs jobs;
  for (int i = 0; i < 200; ++i) {
    const Job job = jobs.next();
    Job metric = job;
    metric.about.units = UnitSystem::metric;
    for (ReadingLine& line : metric.ground.lines) {
      for (Reading& reading : line.readings) {
        reading = {millimetres(in_millimetres(reading.out)), millimetres(in_millimetres(reading.down))};
      }
    }
    const std::vector<Flight> p = shaped(job).flights, q = shaped(metric).flights;
    ASSERT_EQ(p.size(), q.size());
    for (std::size_t k = 0; k < p.size(); ++k) {
      ASSERT_EQ(p[k].risers, q[k].risers);
      ASSERT_NEAR(in_inches(p[k].unit_rise), in_inches(q[k].unit_rise), kExact);
      ASSERT_NEAR(in_inches(p[k].landing.lift), in_inches(q[k].landing.lift), kExact);
    }
  }
}

TEST(NoFlight, WithExactlyTheRoomItAsksForThereIsOne) {
  RandomJobs jobs;
  for (int i = 0; i < 400; ++i) {
    Job job = level_job(jobs.between(20, 100));
    job.about.units = i % 2 == 0 ? UnitSystem::imperial : UnitSystem::metric;
    job.pad.length = inches(jobs.between(36, 48));
    job.pad.raise_at_most = job.pad.dig_at_most = Length();
    job.room.run_at_most = inches(jobs.between(30, 45));
    const Shapes none = shaped(job);
    ASSERT_TRUE(none.flights.empty());
    const Problem said = problem_at(none.why_not, "room.run_at_most");
    const Length room = more(said);
    job.room.run_at_most = *job.room.run_at_most + room;
    ASSERT_FALSE(shaped(job).flights.empty()) << said.wrong << "; " << said.remedy;
    job.room.run_at_most = *job.room.run_at_most - inches(0.125);
    ASSERT_TRUE(shaped(job).flights.empty()) << "it asked for more than it needs: " << said.remedy;
  }
}

TEST(NoFlight, WithExactlyTheLiftOrDiggingItAsksForThereIsOne) {
  RandomJobs jobs;
  for (int i = 0; i < 400; ++i) {
    const bool up = i % 4 < 2;
    Job job = level_job(up ? jobs.between(36, 60) : jobs.between(18, 24));
    job.about.units = i % 2 == 0 ? UnitSystem::imperial : UnitSystem::metric;
    job.stair.risers = up ? 4 : 5;
    job.pad.raise_at_most = inches(jobs.between(0, 4));
    job.pad.dig_at_most = inches(jobs.between(0, 3));
    const Shapes none = shaped(job);
    ASSERT_TRUE(none.flights.empty());
    const Problem said = problem_at(none.why_not, up ? "pad.raise_at_most" : "pad.dig_at_most");
    Length& limit = up ? job.pad.raise_at_most : job.pad.dig_at_most;
    limit += more(said);
    ASSERT_FALSE(shaped(job).flights.empty()) << said.wrong << "; " << said.remedy;
    limit -= inches(0.125);
    ASSERT_TRUE(shaped(job).flights.empty()) << "it asked for more than it needs: " << said.remedy;
  }
}

TEST(NoFlight, AnObstacleIsNamedUntilItIsMoved) {
  Job job = level_job(35);
  job.room.obstacles = {{"downspout", {inches(60), inches(64)}, {inches(10), inches(14)}}};
  const Shapes none = shaped(job);
  ASSERT_TRUE(none.flights.empty());
  problem_at(none.why_not, "room.obstacles");
  job.room.obstacles[0].across = {inches(50), inches(54)};
  EXPECT_FALSE(shaped(job).flights.empty()) << "beside the stair";
  job.room.obstacles[0] = {"tree", {inches(150), inches(170)}, {inches(0), inches(36)}};
  EXPECT_FALSE(shaped(job).flights.empty()) << "beyond the landing";
}

TEST(NoFlight, ThePacksBandAndPitchAreNamed) {
  const Job job = level_job(43.5);
  for (const ShapeLimits& limits : {ShapeLimits{.twice_rise_plus_going = Interval{inches(18), inches(20)}},
                                    ShapeLimits{.pitch_max = degrees(20)}}) {
    const Shapes none = shaped(job, limits);
    ASSERT_TRUE(none.flights.empty());
    problem_at(none.why_not, "place.pack");
  }
}

TEST(NoFlight, AYardWithoutAStringerThatFitsIsNamed) {
  Job job = level_job(35);
  job.stringers.kind = StringerKind::ready_cut;
  problem_at(shaped(job).why_not, "yard.ready_cut");
  job.yard.ready_cut = {{.name = "stock", .risers = 4, .unit_rise = inches(8.5), .unit_going = inches(10)}};
  job.pad.raise_at_most = inches(4);
  const Problem said = problem_at(shaped(job).why_not, "yard.ready_cut");
  EXPECT_NE(said.wrong.find("8 1/2"), std::string::npos) << said.wrong;
}

TEST(NoFlight, WhatCouldGiveWayIsNamedOnceEach) {
  // 33 in on level ground: 4 risers want 2 in of lift, 5 risers want more room than there is.
  Job job = level_job(33);
  job.pad.raise_at_most = inches(1);
  job.stair.going = inches(10.25);
  job.room.run_at_most = inches(70);
  const Shapes none = shaped(job);
  ASSERT_TRUE(none.flights.empty());
  EXPECT_EQ(more(problem_at(none.why_not, "pad.raise_at_most")), inches(1));
  EXPECT_EQ(more(problem_at(none.why_not, "room.run_at_most")), inches(7));
  EXPECT_EQ(none.why_not.size(), 3u) << "the last one says what collides";
}

TEST(NoFlight, SaysSomethingWheneverThereIsNone) {
  RandomJobs jobs;
  for (int i = 0; i < 1000; ++i) {
    const Shapes shapes = shaped(jobs.next());
    ASSERT_NE(shapes.flights.empty(), shapes.why_not.empty());
    for (const Problem& problem : shapes.why_not) {
      ASSERT_FALSE(problem.place.empty() || problem.wrong.empty() || problem.remedy.empty());
    }
  }
}

}  // namespace
}  // namespace pitchboard
