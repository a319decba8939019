// Flights against published worked examples.

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "tests/rules_table.hpp"
#include "tests/shape_fixture.hpp"

namespace pitchboard {
namespace {

TopMode top_of(const TableRow& row) {
  EXPECT_TRUE(row.at("top") == "deck edge" || row.at("top") == "full tread") << row.at("top");
  return row.at("top") == "full tread" ? TopMode::full_tread : TopMode::deck_edge;
}

TEST(Published, RisersTreadsAndRunsOfWorkedExamples) {
  for (const TableRow& row : table("shape_published.csv")) {
    Job job = level_job(number(row, "total"));
    job.stair.top = top_of(row);
    job.stair.risers = static_cast<int>(number(row, "risers"));
    job.stair.going = inches(number(row, "going"));
    const std::vector<Flight> flights = shaped(job).flights;
    ASSERT_EQ(flights.size(), 1u) << row.at("source");
    const Flight& flight = flights[0];
    EXPECT_EQ(flight.landing.lift, Length()) << row.at("source");
    EXPECT_NEAR(in_inches(flight.unit_rise), number(row, "unit_rise"), 0.01) << row.at("source");
    EXPECT_NEAR(in_inches(flight.total_rise), number(row, "total"), 1e-9) << row.at("source");
    if (!row.at("treads").empty()) {
      EXPECT_EQ(flight.treads(), number(row, "treads")) << row.at("source");
    }
    if (!row.at("run").empty()) {
      EXPECT_NEAR(in_inches(flight.run), number(row, "run"), 1e-9) << row.at("source");
    }
  }
}

TEST(Published, ReadyCutStringersOfThreeToFiveStepsMake21And28And35) {
  // SOURCE newspaper of 1995: stringers of 3, 4 and 5 steps, every rise 7 in, goings for two 5 1/2 in boards.
  Job job = level_job(28.0);
  job.stringers.kind = StringerKind::ready_cut;
  for (const int risers : {3, 4, 5}) {
    job.yard.ready_cut.push_back(
        {.name = "stock", .risers = risers, .unit_rise = inches(7), .unit_going = inches(10.5)});
  }
  job.pad.raise_at_most = job.pad.dig_at_most = inches(7);
  const std::vector<Flight> flights = shaped(job).flights;
  ASSERT_EQ(flights.size(), 3u);
  for (const Flight& flight : flights) {
    EXPECT_EQ(flight.landing.z, inches(-7.0 * flight.risers));
    EXPECT_EQ(flight.landing.lift, inches(28.0 - 7.0 * flight.risers));
    EXPECT_EQ(flight.run, inches(10.5 * (flight.risers - 1)));
  }
  EXPECT_EQ(flights[0].risers, 4) << "the one that needs no lift comes first";
}

TEST(Published, ComfortFigures) {
  for (const TableRow& row : table("shape_comfort.csv")) {
    Job job = level_job(number(row, "rise") * 6);
    job.stair.risers = 6;
    job.stair.going = inches(number(row, "going"));
    const std::vector<Flight> flights = shaped(job).flights;
    ASSERT_EQ(flights.size(), 1u);
    const Comfort& comfort = flights[0].comfort;
    EXPECT_NEAR(in_inches(comfort.twice_rise_plus_going), number(row, "twice_rise_plus_going"), 1e-9);
    EXPECT_NEAR(in_inches(comfort.rise_plus_going), number(row, "rise_plus_going"), 1e-9);
    EXPECT_NEAR(comfort.rise_times_going.raw(), number(row, "rise_times_going"), 0.051);
  }
}

TEST(Published, FewestRisersAtTheHighestRiser) {
  for (const TableRow& row : table("shape_fewest.csv")) {
    Job job = level_job(number(row, "total"));
    job.stair.top = top_of(row);
    job.pad.raise_at_most = job.pad.dig_at_most = Length();
    const ShapeLimits limits{.rise_max = inches(number(row, "rise_max"))};
    const std::vector<Flight> flights = shaped(job, limits).flights;
    ASSERT_FALSE(flights.empty()) << row.at("total");
    const Flight& fewest = *std::ranges::min_element(flights, {}, &Flight::risers);
    EXPECT_EQ(fewest.risers, number(row, "risers")) << row.at("total");
    EXPECT_NEAR(in_inches(fewest.unit_rise), number(row, "unit_rise"), 1e-3) << row.at("total");
  }
}

TEST(Published, AFlightTallerThan151NeedsALandingInIt) {
  // SOURCE IRC 2018 R311.7.3: 151 in from floor to floor or landing.
  Job job = level_job(151.01);
  job.pad.raise_at_most = job.pad.dig_at_most = Length();
  const Shapes shapes = shaped(job);
  EXPECT_TRUE(shapes.flights.empty());
  ASSERT_FALSE(shapes.why_not.empty());
  EXPECT_EQ(shapes.why_not[0].place, "ground");
  EXPECT_NE(shapes.why_not[0].remedy.find("landing"), std::string::npos);
}

TEST(Infeasible, TwoLimitsThatGiveALittleAreNamedBesideOneThatGivesALot) {
  // Worked by hand: level ground 37 3/4 in down, 78 in of room needed for 5 risers of 7 in (42 + 36), lift 2 3/4 in; 4
  // risers need 9 3/4 in of lift and 67 1/2 in of room.
  Job job = level_job(37.75);
  job.stringers.kind = StringerKind::ready_cut;
  for (const int risers : {4, 5}) {
    job.yard.ready_cut.push_back(
        {.name = "7 in", .risers = risers, .unit_rise = inches(7), .unit_going = inches(10.5)});
  }
  job.pad.raise_at_most = inches(2);
  job.room.run_at_most = inches(72);
  const Problems why = shaped(job).why_not;
  ASSERT_EQ(why.size(), 3u) << "the last one says what collides";
  EXPECT_EQ(why[0].place, "pad.raise_at_most");
  EXPECT_NE(why[0].remedy.find("7 3/4\" more lift"), std::string::npos) << why[0].remedy;
  EXPECT_EQ(why[1].place, "pad.raise_at_most, room.run_at_most");
  EXPECT_NE(why[1].remedy.find("3/4\" more lift and 6\" more room"), std::string::npos) << why[1].remedy;
  job.pad.raise_at_most += inches(0.75);
  job.room.run_at_most = inches(78);
  EXPECT_FALSE(shaped(job).flights.empty());
}

TEST(Published, TreadDepthsOfTheTradesMakeUps) {
  // SOURCE dressed sizes of PS 20: 2x6 is 1 1/2 x 5 1/2, 2x12 is 1 1/2 x 11 1/4; 5/4x6 decking is 1 x 5 1/2.
  const auto flight_of = [](TreadMake make) {
    Job job = level_job(35);
    job.stair.treads = make;
    job.stair.board_gap = inches(0.25);
    job.stair.risers = 5;
    return shaped(job).flights.at(0);
  };
  EXPECT_EQ(flight_of(TreadMake::two_2x6).tread_depth, inches(11.25));
  EXPECT_EQ(flight_of(TreadMake::one_2x12).tread_depth, inches(11.25));
  EXPECT_EQ(flight_of(TreadMake::two_5_4x6).tread_depth, inches(11.25));
  EXPECT_EQ(flight_of(TreadMake::two_2x6).tread_thickness, inches(1.5));
  EXPECT_EQ(flight_of(TreadMake::two_5_4x6).tread_thickness, inches(1.0));
  for (const TreadMake make : {TreadMake::two_2x6, TreadMake::two_5_4x6}) {
    const Flight flight = flight_of(make);
    EXPECT_EQ(flight.first_riser_cut, flight.unit_rise - flight.tread_thickness);
    EXPECT_EQ(flight.nosing, flight.tread_depth - flight.going);
  }
}

TEST(Published, ALaterFinishIsAddedToTheFirstRiserCut) {
  // SOURCE stair carpenter's worked example: treads of 1 1/8 and a floor of 3/4 laid later: 3/8 comes off the foot.
  Job job = level_job(35);
  job.stair.treads = TreadMake::custom;
  job.stair.tread_thickness = inches(1.125);
  job.stair.tread_board_width = inches(11.25);
  job.stair.tread_boards = 1;
  job.stair.risers = 5;
  job.pad.later_finish = inches(0.75);
  const Flight flight = shaped(job).flights.at(0);
  EXPECT_NEAR(in_inches(flight.unit_rise - flight.first_riser_cut), 0.375, 1e-12);
}

}  // namespace
}  // namespace pitchboard
