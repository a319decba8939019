// What is true of every flight, and of every answer that there is none.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/shape_fixture.hpp"

namespace pitchboard {
namespace {

constexpr double kExact = 1e-9;

bool in_sixteenths(Length length) {
  const double steps = length / kSixteenth;
  return std::abs(steps - std::round(steps)) < 1e-6;
}

TEST(Flight, RisersAddUpToTheTotalAndNosingsAreEvenlySpaced) {
  RandomJobs jobs;
  int seen = 0;
  for (int i = 0; i < 1000; ++i) {
    for (const Flight& flight : shaped(jobs.next())) {
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
    for (const Flight& flight : shape_flights(job, site, {})) {
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
    for (const Flight& flight : shaped(job, limits)) {
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
    const std::vector<Flight> flights = shaped(job);
    for (int n = 2; n < 40; ++n) {
      const bool wanted = total / n <= 7.75 + 1e-6 && total / n >= 5.5 - 1e-6;
      EXPECT_EQ(std::ranges::count(flights, n, &Flight::risers), wanted ? 1 : 0) << n << " risers of " << total;
    }
  }
}

TEST(Flight, ALiftIsTheLeastThatMakesTheRiseLegal) {
  Job job = level_job(32);
  job.stair.risers = 4;
  const Flight lifted = shaped(job).at(0);
  EXPECT_EQ(lifted.landing.lift, inches(1.0));
  EXPECT_EQ(lifted.unit_rise, inches(7.75));
  job = level_job(26);
  job.stair.risers = 5;
  const Flight dug = shaped(job).at(0);
  EXPECT_EQ(dug.landing.lift, inches(-1.5));
  EXPECT_EQ(dug.unit_rise, inches(5.5));
  job = level_job(30);
  job.stair.risers = 4;
  EXPECT_EQ(shaped(job).at(0).landing.lift, Length());
}

TEST(Flight, ComfortableOnesComeFirst) {
  // SOURCE US Army EN5156 and Architectural Graphic Standards: 2R + G of 24 to 25 in.
  for (const double total : {35.0, 43.5, 57.0, 64.0, 86.0, 107.0}) {
    Job job = level_job(total);
    job.pad.raise_at_most = job.pad.dig_at_most = Length();
    const Flight best = shaped(job).at(0);
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
  const Flight flight = shaped(job).at(0);
  // 41 in out is 21 in past its near edge, and the middle is 20 in from its left: 35 + 21 x 0.02 + 20 x 0.01.
  EXPECT_NEAR(in_inches(flight.total_rise), 35.62, kExact);
  EXPECT_EQ(flight.landing.lift, Length());
  EXPECT_NEAR(in_inches(flight.landing.z_at(inches(51), inches(20))), -35.82, kExact);
  EXPECT_NEAR(in_inches(flight.landing.z_at(inches(41), inches(40))), -35.82, kExact) << "the right side is lower";
  job.pad.down = inches(40);
  const Flight relaid = shaped(job).at(0);
  EXPECT_GT(relaid.landing.lift, Length());
  EXPECT_EQ(relaid.landing.cross_fall, 0.0) << "a relaid landing is laid level across";
}

TEST(Flight, TheLandingReachesFromUnderTheFeetToItsClearLength) {
  RandomJobs jobs;
  for (int i = 0; i < 300; ++i) {
    const Job job = jobs.next();
    for (const Flight& flight : shaped(job)) {
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
    const std::vector<Flight> p = shaped(job), q = shaped(metric);
    ASSERT_EQ(p.size(), q.size());
    for (std::size_t k = 0; k < p.size(); ++k) {
      ASSERT_EQ(p[k].risers, q[k].risers);
      ASSERT_NEAR(in_inches(p[k].unit_rise), in_inches(q[k].unit_rise), kExact);
      ASSERT_NEAR(in_inches(p[k].landing.lift), in_inches(q[k].landing.lift), kExact);
    }
  }
}

TEST(Flight, AnyLimitMayLiftTheLandingWhereNoFlightDoesWithout) {
  // Worked by hand: 4 risers of 7 3/4 with goings of 10 1/4 make 2R + G 25 3/4. A band up to 25 in wants R of 7 3/8, so
  // 1 1/2 in of lift from 31 in; a pitch of 35 degrees wants R of 7.177 in, so 2.29 in, which is 37 sixteenths.
  Job job = level_job(31);
  job.stair.risers = 4;
  job.stair.going = inches(10.25);
  EXPECT_EQ(shaped(job).at(0).landing.lift, Length());
  const ShapeLimits band{.twice_rise_plus_going = Interval{inches(22), inches(25)}}, pitch{.pitch_max = degrees(35)};
  EXPECT_EQ(shaped(job, band).at(0).landing.lift, inches(1.5));
  EXPECT_EQ(shaped(job, pitch).at(0).landing.lift, inches(37.0 / 16.0));
  job.pad.raise_at_most = inches(1.25);
  EXPECT_TRUE(shaped(job, band).empty());
  // Where another count fits as it is, no earth is moved for comfort.
  job = level_job(31);
  job.stair.going = inches(10.25);
  for (const Flight& flight : shaped(job, band)) EXPECT_EQ(flight.landing.lift, Length());
  EXPECT_GT(lifted_flights(job, Site(job), band).size(), shaped(job, band).size());
}

}  // namespace
}  // namespace pitchboard
