// Which limits collide: none can be spared, and what is said to free a job does, on the line of the tape and not
// before.

#include <gtest/gtest.h>

#include <algorithm>

#include "engine/base/tape.hpp"
#include "engine/shape/collision.hpp"
#include "tests/shape_fixture.hpp"

namespace pitchboard {
namespace {

/// A job and its limits, of which some are lifted here, by code of the test's own.
struct Loosened {
  Job job;
  ShapeLimits limits;
  void lift(const CollidingLimit& limit) {
    const std::string& place = limit.place;
    const auto says = [&](const char* words) { return limit.words.find(words) != std::string::npos; };
    if (place == "pad.raise_at_most") job.pad.raise_at_most = feet(90);
    if (place == "pad.dig_at_most") job.pad.dig_at_most = feet(90);
    if (place == "room.run_at_most") job.room.run_at_most.reset();
    if (place == "room.obstacles") job.room.obstacles.clear();
    if (place == "stair.risers") job.stair.risers.reset();
    if (place == "stair.going") job.stair.going.reset();
    if (place == "stringers.kind") job.stringers.kind = StringerKind::cut;
    if (says("a riser of at most")) limits.rise_max = feet(90);
    if (says("a riser of at least")) limits.rise_min = kSixteenth;
    if (says("going (run) of at least")) limits.going_min = kSixteenth;
    if (says("going (run) of at most")) limits.going_max = feet(90);
    if (says("in one flight")) limits.flight_rise_max = feet(90);
    if (says("plus the going of at most")) limits.twice_rise_plus_going->to = feet(90);
    if (says("plus the going of at least")) limits.twice_rise_plus_going->from = -feet(90);
    if (says("pitch")) limits.pitch_max.reset();
  }
  [[nodiscard]] bool fits() const { return !fitting_flights(job, Site(job), limits).empty(); }
};

std::vector<CollidingLimit> every_limit() {
  std::vector<CollidingLimit> out;
  for (const char* place : {"pad.raise_at_most", "pad.dig_at_most", "room.run_at_most", "room.obstacles",
                            "stair.risers", "stair.going", "stringers.kind"})
    out.push_back({place, place, ""});
  for (const char* words : {"a riser of at most", "a riser of at least", "going (run) of at least",
                            "going (run) of at most", "in one flight", "pitch"})
    out.push_back({"place.pack", words, ""});
  return out;
}

bool same(const CollidingLimit& a, const CollidingLimit& b) {
  return a.place == b.place && (a.place != "place.pack" || a.words.find(b.words) != std::string::npos ||
                                b.words.find(a.words) != std::string::npos);
}

TEST(Collision, NoLimitOfItCanBeSparedAndTogetherTheyLeaveNoFlight) {
  RandomJobs random;
  int collided = 0, of_several = 0;
  for (int i = 0; i < 400; ++i) {
    const Job job = random.next();
    const ShapeLimits limits{.pitch_max = i % 4 == 0 ? std::optional(degrees(36.0)) : std::nullopt};
    const std::vector<CollidingLimit> collision = collision_of(job, Site(job), limits);
    EXPECT_EQ(collision.empty(), (Loosened{job, limits}.fits())) << i;
    if (collision.empty()) continue;
    ++collided;
    of_several += collision.size() > 1;
    Loosened alone{job, limits};
    for (const CollidingLimit& limit : every_limit()) {
      const bool in = std::ranges::any_of(collision, [&](const CollidingLimit& c) { return same(c, limit); });
      if (!in) alone.lift(limit);
    }
    EXPECT_FALSE(alone.fits()) << i;
    for (const CollidingLimit& limit : collision) {
      Loosened without = alone;
      without.lift(limit);
      EXPECT_TRUE(without.fits()) << i << " " << limit.words;
    }
  }
  EXPECT_GT(collided, 40);
  EXPECT_GT(of_several, 20);
}

TEST(Collision, WhatFreesTheJobDoesSoOnTheTapesLineAndNotOneBefore) {
  RandomJobs random;
  int freed = 0;
  for (int i = 0; i < 400; ++i) {
    const Job job = random.next();
    for (const CollidingLimit& limit : collision_of(job, Site(job), {})) {
      Length Pad::* pad = limit.place == "pad.raise_at_most" ? &Pad::raise_at_most
                          : limit.place == "pad.dig_at_most" ? &Pad::dig_at_most
                                                             : nullptr;
      if (!pad || limit.freed_by.empty()) continue;
      // Counted up from what the job has, one line at a time.
      Job more = job;
      int lines = 0;
      while (fitting_flights(more, Site(more), {}).empty() && lines < 4096)
        more.pad.*pad = job.pad.*pad + kSixteenth * ++lines;
      ASSERT_LT(lines, 4096) << i;
      EXPECT_NE(limit.freed_by.find(tape_plain(more.pad.*pad)), std::string::npos) << i << " " << limit.freed_by;
      ++freed;
    }
  }
  EXPECT_GT(freed, 20);
}

TEST(Collision, IsToldWithTheRest) {
  // Worked by hand: 40 in down on level ground with goings of 10 in take 6 risers of 6 2/3 in, 50 in and 36 in of
  // landing; in 60 in of room only 2 risers and 1 going fit beside the landing, each 20 in high.
  Job job = level_job(40);
  job.stair.going = inches(10);
  job.pad.raise_at_most = job.pad.dig_at_most = Length();
  job.pad.length = inches(36);
  job.room.run_at_most = inches(60);
  const Problem last = shaped(job).why_not.back();
  EXPECT_NE(last.place.find("room.run_at_most"), std::string::npos) << last.place;
  EXPECT_NE(last.wrong.find("room of 60\""), std::string::npos) << last.wrong;
  EXPECT_NE(last.wrong.find("riser of at most 7 3/4\""), std::string::npos) << last.wrong;
  EXPECT_NE(last.remedy.find("room of 86\""), std::string::npos) << last.remedy;
}

}  // namespace
}  // namespace pitchboard
