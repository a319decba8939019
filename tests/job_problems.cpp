// What is wrong with a job: all of it at once, each with its place and what would be right.

#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string>

#include "engine/job/read_job.hpp"

namespace pitchboard {
namespace {

using nlohmann::json;

json good_job() {
  return json::parse(R"({
    "about": {"name": "Back porch"},
    "ground": {"middle": [{"out": "1 ft", "down": "26 1/2 in"}, {"out": "6 ft", "down": "28 in"}]}
  })");
}

Problems problems_of(const std::string& text) {
  const Result<Job> job = read_job_json(text);
  return job ? Problems{} : job.error();
}

/// The job with `patch` laid over it (RFC 7386).
Problems problems_with(const char* patch) {
  json job = good_job();
  job.merge_patch(json::parse(patch));
  return problems_of(job.dump());
}

std::string places(const Problems& problems) {
  std::string out;
  for (const Problem& problem : problems) out += problem.place + "\n";
  return out;
}

TEST(JobProblems, AJobWithANameAndOneReadingIsEnough) { EXPECT_EQ(places(problems_of(good_job().dump())), ""); }

TEST(JobProblems, AllAreReportedAtOnceEachInItsPlace) {
  const Problems problems = problems_of(R"({
    "about": {"units": "imperail"},
    "deck": {"rim_size": "2x11", "board_thicknes": "1 in", "overhang": "9 ft"},
    "ground": {"left": [{"out": "1 ft", "down": "26 in"}, {"out": "47", "down": 28}, {"out": "5 ft"}]},
    "stair": {"risers": 2.5, "width": -36},
    "place": {"latitude": 91, "amendments": ["us-pa", 3]},
    "yard": {"stock": [{"section": "2x6", "length": "8 ft", "price": "12"}], "ready_cut": {}},
    "roof": {}
  })");
  for (const char* place :
       {"about.name", "about.units", "deck.rim_size", "deck.board_thicknes", "deck.overhang", "ground.left[1].out",
        "ground.left[1].down", "ground.left[2].down", "stair.risers", "stair.width", "place.latitude",
        "place.longitude", "place.amendments[1]", "yard.stock[0].price", "yard.ready_cut", "roof"}) {
    EXPECT_EQ(std::ranges::count(problems, place, &Problem::place), 1) << place << " in\n" << places(problems);
  }
  EXPECT_EQ(problems.size(), 16u) << places(problems);
  for (const Problem& problem : problems) {
    EXPECT_FALSE(problem.wrong.empty()) << problem.place;
    EXPECT_FALSE(problem.remedy.empty()) << problem.place;
  }
}

TEST(JobProblems, AMistypedWordIsAnsweredWithTheOneThatWasMeant) {
  const auto remedy = [](const char* patch) {
    const Problems problems = problems_with(patch);
    return problems.size() == 1 ? problems[0].remedy : places(problems);
  };
  EXPECT_EQ(remedy(R"({"deck": {"bord_thickness": "1 in"}})"), "did you mean board_thickness?");
  EXPECT_EQ(remedy(R"({"grond": {}})"), "did you mean ground?");
  EXPECT_EQ(remedy(R"({"stair": {"top": "full tred"}})"), "did you mean \"full tread\"?");
  EXPECT_EQ(remedy(R"({"stringers": {"board": "2 x 12"}})"), "did you mean 2x12?");
  EXPECT_EQ(remedy(R"({"wood": {"species": "southern-pin"}})"), "did you mean southern-pine?");
  EXPECT_EQ(remedy(R"({"yard": {"prices": [{"item": "bolt-1/2-7", "price": 2}]}})"), "did you mean bolt-1/2x7?");
  EXPECT_EQ(remedy(R"({"yard": {"prices": [{"item": "geotextle", "price": 2}]}})"), "did you mean geotextile?");
  EXPECT_EQ(remedy(R"({"yard": {"prices": [{"item": "2x6", "price": 2}]}})"), "say how long the board is");
  EXPECT_EQ(remedy(R"({"wood": {"treatment": "copper-uc4"}})"), "did you mean copper-uc4a?");
  EXPECT_EQ(remedy(R"({"saw": {"blade": 10}})"), "the keys here are mitre_limit_degrees");
  EXPECT_EQ(remedy(R"({"pad": {"make": 7}})"), "choose one of \"pavers\", \"concrete\", \"gravel\"");
}

TEST(JobProblems, TextThatIsNotJsonIsPlacedByLineAndColumn) {
  const Problems problems = problems_of("{\n  \"about\": {,}\n}");
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].place, "line 2, column 13");
  for (const char* text : {"", " ", "{", "[", "{\"a\":1e999}", "{\"a\":\"\xFF\"}", "nul"}) {
    EXPECT_EQ(problems_of(text).size(), 1u) << text;
  }
}

TEST(JobProblems, JsonThatIsNoJobIsRefused) {
  for (const char* text : {"[]", "3", "null", "\"job\""}) EXPECT_FALSE(problems_of(text).empty()) << text;
}

TEST(JobProblems, AKeyGivenTwiceIsRefused) {
  const Problems problems = problems_of(
      R"({"about": {"name": "a", "name": "b"}, "ground": {"middle": [{"out": "1 ft", "out": "2 ft", "down": "2 ft"}]}})");
  EXPECT_EQ(places(problems), "about.name\nground.middle[0].out\n");
}

TEST(JobProblems, NestingWithoutEndIsRefusedAndDoesNoHarm) {
  for (const char* opening : {"[", "{\"a\":", "{\"a\":["}) {
    std::string text;
    for (int i = 0; i < 1000000; ++i) text += opening;
    EXPECT_EQ(problems_of(text).size(), 1u);
    EXPECT_EQ(problems_of("{\"about\":" + text).size(), 1u);
  }
}

TEST(JobProblems, NumbersBeyondEveryRangeAreRefused) {
  for (const char* patch : {R"({"stair": {"risers": 7e30}})", R"({"stair": {"risers": -9223372036854775808}})",
                            R"({"stair": {"risers": 18446744073709551615}})", R"({"pad": {"fall": 1e300}})",
                            R"({"yard": {"stock": [{"section": "2x6", "length": "8 ft", "price": 1e300}]}})",
                            R"({"yard": {"stock": [{"section": "2x6", "length": "8 ft", "price": 10.999}]}})",
                            R"({"yard": {"stock": [{"section": "2x6", "length": "8 ft", "price": -1}]}})"}) {
    EXPECT_EQ(problems_with(patch).size(), 1u) << patch;
  }
}

struct Conflict {
  const char* patch;
  const char* place;
};

TEST(JobProblems, ValuesThatContradictEachOtherAreRefused) {
  for (
      const Conflict& conflict : {
          Conflict{R"({"ground": {"middle": null}})", "ground"},
          {R"({"ground": {"left": []}})", "ground.left"},
          {R"({"ground": {"left": [{"out": "3 ft", "down": "26 in"}, {"out": "2 ft", "down": "26 in"}]}})",
           "ground.left[1].out"},
          {R"({"ground": {"left": [{"out": "3 ft", "down": "26 in"}, {"out": "36 in", "down": "27 in"}]}})",
           "ground.left[1].out"},
          {R"({"deck": {"fascia_below": "1 in"}})", "deck.fascia_below"},
          {R"({"pad": {"existing": true, "from": "2 ft"}})", "pad.down"},
          {R"({"pad": {"existing": true, "down": "26 in"}})", "pad.from"},
          {R"({"pad": {"from": "2 ft"}})", "pad.from"},
          {R"({"pad": {"down": "2 ft"}})", "pad.down"},
          {R"({"pad": {"cross_fall": 0.01}})", "pad.cross_fall"},
          {R"({"room": {"obstacles": [{"name": "well", "out_from": "3 ft", "out_to": "3 ft", "across_from": "0 in", "across_to": "1 ft"}]}})",
           "room.obstacles[0].out_to"},
          {R"({"room": {"obstacles": [{"name": "well", "out_from": "3 ft", "out_to": "4 ft", "across_from": "2 ft", "across_to": "1 ft"}]}})",
           "room.obstacles[0].across_to"},
          {R"({"room": {"overheads": [{"name": "eave", "out_from": "3 ft", "out_to": "1 ft", "above": "90 in"}]}})",
           "room.overheads[0].out_to"},
          {R"({"stair": {"tread_thickness": "1 in"}})", "stair.tread_thickness"},
          {R"({"stair": {"tread_board_width": "3 1/2 in"}})", "stair.tread_board_width"},
          {R"({"stair": {"tread_boards": 3}})", "stair.tread_boards"},
          {R"({"stringers": {"kind": "ready-cut"}})", "yard.ready_cut"},
          {R"({"stringers": {"count": 9}})", "stringers.count"},
          {R"({"stringers": {"kind": "solid", "count": 3}})", "stringers.count"},
          {R"({"stringers": {"kind": "solid"}, "rails": {"top_posts": "existing", "existing_post_out": "4 in"}})",
           "rails.top_posts"},
          {R"({"rails": {"top_posts": "existing"}})", "rails.existing_post_out"},
          {R"({"rails": {"existing_post_out": "3 1/2 in"}})", "rails.existing_post_out"},
          {R"({"place": {"latitude": 40}})", "place.longitude"},
          {R"({"place": {"longitude": 40}})", "place.latitude"},
          {R"({"about": {"date": "2026-13-01"}})", "about.date"},
          {R"({"about": {"date": "May 9"}})", "about.date"},
          {R"({"yard": {"currency": "$"}})", "yard.currency"},
          {R"({"yard": {"stock": [{"section": "2x6", "length": "8 ft", "price": 1}, {"section": "2x6", "length": "96 in", "price": 2}]}})",
           "yard.stock[1]"},
          {R"({"yard": {"end_trim": "6 in", "stock": [{"section": "2x6", "length": "1 ft", "price": 1}]}})",
           "yard.stock[0].length"},
          {R"({"yard": {"ready_cut": [{"name": "3", "risers": 3, "unit_rise": "3 in", "unit_going": "10 in", "dropped_by": "3 in", "price": 9}]}})",
           "yard.ready_cut[0].dropped_by"},
      }) {
    EXPECT_EQ(places(problems_with(conflict.patch)), std::string(conflict.place) + "\n") << conflict.patch;
  }
}

TEST(JobProblems, WhatHangsOnAnUnreadableValueIsNotReportedAgain) {
  EXPECT_EQ(
      places(problems_with(R"({"ground": {"middle": [{"out": "1", "down": "26 in"}, {"out": "2 ft", "down": "x"}]}})")),
      "ground.middle[0].out\nground.middle[1].down\n");
  EXPECT_EQ(places(problems_with(R"({"pad": {"existing": true, "from": "2", "down": "2 ft"}})")), "pad.from\n");
  EXPECT_EQ(places(problems_with(R"({"ground": 3})")), "ground\n");
}

TEST(JobProblems, AJobBuiltInCodeIsHeldToTheSameRecords) {
  Job job;
  EXPECT_EQ(places(check_job(job)), "ground\n");
  job.ground.lines = {{Line::middle, {{inches(24), inches(30)}}}};
  EXPECT_EQ(places(check_job(job)), "");
  job.stair.width = inches(1);
  job.stair.risers = 1;
  job.ground.lines.push_back({Line::middle, {{inches(24), inches(-1)}}});
  job.wood.species = "";
  EXPECT_EQ(places(check_job(job)), "ground.middle[0].down\nstair.width\nstair.risers\nwood.species\nground.middle\n");
}

TEST(JobProblems, OutOfRangeIsToldInTheUnitsOfTheJob) {
  EXPECT_EQ(problems_with(R"({"stair": {"width": "10 in"}})").at(0).remedy, "give 18\" to 144\"");
  EXPECT_EQ(problems_with(R"({"about": {"units": "metric"}, "stair": {"width": "250 mm"}})").at(0).remedy,
            "give 457 mm to 3658 mm");
}

}  // namespace
}  // namespace pitchboard
