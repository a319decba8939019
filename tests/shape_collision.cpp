// What is said when no flight fits, against another shaper: one that tries every rise on a grid of sixteenths and knows
// nothing of how lifts are found.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

#include "engine/shape/collision.hpp"
#include "tests/shape_fixture.hpp"

namespace pitchboard {
namespace {

constexpr double kOpen = 1e5;

/// All that a flight on flat-sided ground depends on, in inches.
struct Plain {
  std::vector<double> goings;
  double raise = 0, dig = 0, room = kOpen, pad = 0;
  double rise_max = 0, rise_min = 0, flight = 0, step_least = 0, step_most = kOpen, pitch = 90;
  int risers = 0;  ///< 0: any
  bool edge = true, obstacle = false;
  double obstacle_from = 0;
  double down = 0, slope = 0;
};

/// RETURNS whether some count, going and lift of whole sixteenths keep every limit.
bool plain_fits(const Plain& p) {
  constexpr double kSlack = 1e-5;
  for (int n = p.edge ? 2 : 1; n <= 40; ++n) {
    if (p.risers > 0 && n != p.risers) continue;
    for (const double going : p.goings) {
      const double run = going * (p.edge ? n - 1 : n), ground = p.down + p.slope * run;
      if (run + p.pad > p.room + kSlack) continue;
      if (p.obstacle && p.obstacle_from < run + p.pad - kSlack) continue;
      for (double sixteenths = -std::floor(std::min(p.dig, 400.0) * 16 + 1e-3);
           sixteenths <= std::min(p.raise, 400.0) * 16 + 1e-3; ++sixteenths) {
        const double total = ground - sixteenths / 16, rise = total / n;
        if (rise < p.rise_min - kSlack || rise > p.rise_max + kSlack || total > p.flight + kSlack || total <= 0)
          continue;
        const double step = 2 * rise + going;
        if (step < p.step_least - kSlack || step > p.step_most + kSlack) continue;
        if (std::atan(rise / going) * 180 / 3.14159265358979 > p.pitch + 1e-5) continue;
        return true;
      }
    }
  }
  return false;
}

/// A site that few flights fit, and the same in plain figures.
struct Tight {
  Job job;
  ShapeLimits limits;
  Plain plain;
};
Tight tight(RandomJobs& jobs) {
  Tight out;
  const auto sixteenths = [&](double low, double high) { return std::round(jobs.between(low, high) * 16) / 16; };
  Plain& p = out.plain;
  p.down = sixteenths(20, 170);
  p.slope = sixteenths(-8, 24) / 400;
  Job& job = out.job = level_job(p.down);
  job.ground.lines[0].readings[1].down = inches(p.down + p.slope * 400);
  p.edge = jobs.one_in(2);
  job.stair.top = p.edge ? TopMode::deck_edge : TopMode::full_tread;
  job.stair.board_gap = inches(0.25);
  const double going = sixteenths(10, 11);
  job.stair.going = inches(going);
  p.goings = {going};
  job.pad.raise_at_most = inches(p.raise = jobs.one_in(2) ? 0 : sixteenths(0, 2));
  job.pad.dig_at_most = inches(p.dig = jobs.one_in(2) ? 0 : sixteenths(0, 1));
  job.pad.length = inches(p.pad = 36);
  if (jobs.one_in(2)) job.room.run_at_most = inches(p.room = sixteenths(60, 200));
  if (jobs.one_in(3)) job.stair.risers = p.risers = static_cast<int>(p.down / jobs.between(5.0, 9.0)) + 1;
  if (jobs.one_in(3)) {
    p.obstacle = true;
    p.obstacle_from = sixteenths(40, 200);
    job.room.obstacles = {{"stump", {inches(p.obstacle_from), inches(900)}, {inches(10), inches(14)}}};
  }
  out.limits.rise_max = inches(p.rise_max = 7.75);
  p.rise_min = 5.5;
  out.limits.flight_rise_max = inches(p.flight = jobs.one_in(2) ? 151 : 100);
  if (jobs.one_in(3)) {
    p.step_least = 24;
    p.step_most = 25;
    out.limits.twice_rise_plus_going = Interval{inches(24), inches(25)};
  }
  if (jobs.one_in(3)) out.limits.pitch_max = degrees(p.pitch = sixteenths(28, 36));
  // The limits of goings are the whole of what a going may be instead.
  out.limits.going_min = inches(10);
  out.limits.going_max = inches(11);
  return out;
}

/// Every going of whole sixteenths from the given one, within the pack.
std::vector<double> all_goings(double given) {
  std::vector<double> out;
  for (double g = given; g >= 10 - 1e-9; g -= 1.0 / 16) out.push_back(g);
  for (double g = given; g <= 11 + 1e-9; g += 1.0 / 16) out.push_back(g);
  return out;
}

void drop(Plain& p, LimitKind kind) {
  if (kind == LimitKind::raise) p.raise = kOpen;
  if (kind == LimitKind::dig) p.dig = kOpen;
  if (kind == LimitKind::room) p.room = kOpen;
  if (kind == LimitKind::obstacle) p.obstacle = false;
  if (kind == LimitKind::riser_count) p.risers = 0;
  if (kind == LimitKind::going) p.goings = all_goings(p.goings.front());
  if (kind == LimitKind::highest_riser) p.rise_max = 9;
  if (kind == LimitKind::lowest_riser) p.rise_min = 3;
  if (kind == LimitKind::flight_rise) p.flight = kOpen;
  if (kind == LimitKind::step_least) p.step_least = 0;
  if (kind == LimitKind::step_most) p.step_most = kOpen;
  if (kind == LimitKind::pitch) p.pitch = 45;
}
constexpr LimitKind kAll[] = {LimitKind::raise,         LimitKind::dig,          LimitKind::room,
                              LimitKind::obstacle,      LimitKind::riser_count,  LimitKind::going,
                              LimitKind::highest_riser, LimitKind::lowest_riser, LimitKind::flight_rise,
                              LimitKind::step_least,    LimitKind::step_most,    LimitKind::pitch};

/// RETURNS the figures with only those limits kept, but for `without`.
Plain only(const Plain& plain, const std::vector<Limit>& kept, const Limit* without = nullptr) {
  Plain out = plain;
  for (const LimitKind kind : kAll) {
    const bool keep = std::ranges::find(kept, kind, &Limit::kind) != kept.end() && (!without || without->kind != kind);
    if (!keep) drop(out, kind);
  }
  return out;
}

/// Sets the limit to `to`, drawn back by `back` steps of a sixteenth, a tenth of a degree or a riser.
void set(Plain& p, const LimitChange& change, int back) {
  const LimitKind kind = change.limit.kind;
  if (const Angle* angle = std::get_if<Angle>(&change.to)) p.pitch = in_degrees(*angle) - 0.1 * back;
  if (const int* risers = std::get_if<int>(&change.to)) p.risers = *risers;
  if (kind == LimitKind::obstacle) p.obstacle = false;
  const Length* length = std::get_if<Length>(&change.to);
  if (!length) return;
  const double to = in_inches(*length), less = to - back / 16.0, more = to + back / 16.0;
  if (kind == LimitKind::raise) p.raise = less;
  if (kind == LimitKind::dig) p.dig = less;
  if (kind == LimitKind::room) p.room = less;
  if (kind == LimitKind::going) p.goings = {to};
  if (kind == LimitKind::highest_riser) p.rise_max = less;
  if (kind == LimitKind::lowest_riser) p.rise_min = more;
  if (kind == LimitKind::flight_rise) p.flight = less;
  if (kind == LimitKind::step_least) p.step_least = more;
  if (kind == LimitKind::step_most) p.step_most = less;
}

class Collided : public ::testing::Test {
 protected:
  /// Hands `count` sites that nothing fits to `look`.
  template <class Look>
  void sites(int count, Look look) {
    RandomJobs jobs;
    for (int seen = 0; seen < count;) {
      const Tight site = tight(jobs);
      ASSERT_EQ(shaped(site.job, site.limits).empty(), !plain_fits(site.plain));
      if (!shaped(site.job, site.limits).empty()) continue;
      ++seen;
      look(site, collide(site.job, Site(site.job), site.limits));
      if (HasFailure()) return;
    }
  }
};

TEST_F(Collided, TheLimitsCollideAndEveryOneOfThemIsNeeded) {
  std::size_t most = 0;
  sites(300, [&](const Tight& site, const Collision& found) {
    ASSERT_FALSE(found.limits.empty());
    ASSERT_FALSE(plain_fits(only(site.plain, found.limits)));
    for (const Limit& limit : found.limits) {
      ASSERT_TRUE(plain_fits(only(site.plain, found.limits, &limit)))
          << "not needed: " << limit_words(site.job, site.limits, limit);
    }
    most = std::max(most, found.limits.size());
  });
  EXPECT_GE(most, 3u);
}

TEST_F(Collided, EveryLimitThatFreesItAloneIsAWayAndIsLeast) {
  std::map<LimitKind, int> kinds;
  sites(300, [&](const Tight& site, const Collision& found) {
    ASSERT_FALSE(found.ways.empty());
    for (const LimitKind kind : kAll) {
      const auto way = std::ranges::find_if(
          found.ways, [&](const Way& w) { return w.changes.size() == 1 && w.changes.front().limit.kind == kind; });
      Plain open = site.plain;
      drop(open, kind);
      ASSERT_EQ(way != found.ways.end(), plain_fits(open)) << static_cast<int>(kind);
      if (way == found.ways.end()) continue;
      ++kinds[kind];
      const LimitChange& change = way->changes.front();
      Plain enough = site.plain;
      set(enough, change, 0);
      ASSERT_TRUE(plain_fits(enough)) << change_words(site.job, change);
      if (std::holds_alternative<std::monostate>(change.to)) continue;
      if (kind == LimitKind::going || kind == LimitKind::riser_count) {
        // Nothing nearer does.
        Plain nearer = site.plain;
        const int risers = site.plain.risers, to = kind == LimitKind::riser_count ? *std::get_if<int>(&change.to) : 0;
        for (int n = 1; kind == LimitKind::riser_count && n < 60; ++n) {
          nearer.risers = n;
          if (std::abs(n - risers) >= std::abs(to - risers)) continue;
          ASSERT_FALSE(plain_fits(nearer));
        }
        if (kind == LimitKind::riser_count) continue;
        const double given = site.plain.goings.front(),
                     off = std::abs(in_inches(*std::get_if<Length>(&change.to)) - given);
        std::erase_if(nearer.goings = all_goings(given),
                      [&](double g) { return std::abs(g - given) > off - 1.0 / 32; });
        ASSERT_FALSE(plain_fits(nearer));
        continue;
      }
      Plain short_of = site.plain;
      set(short_of, change, 1);
      ASSERT_FALSE(plain_fits(short_of)) << "a step less would do: " << change_words(site.job, change);
    }
  });
  for (const LimitKind kind : kAll) {
    EXPECT_GT(kinds[kind], 0) << "never seen: " << static_cast<int>(kind);
  }
}

TEST_F(Collided, SeveralChangesTogetherFreeItAndNoneOfThemCanBeLess) {
  int seen = 0;
  sites(300, [&](const Tight& site, const Collision& found) {
    for (const Way& way : found.ways) {
      if (way.changes.size() < 2) continue;
      ++seen;
      for (std::size_t less = 0; less <= way.changes.size(); ++less) {
        Plain p = site.plain;
        for (std::size_t i = 0; i < way.changes.size(); ++i) {
          const bool discrete = !std::get_if<Length>(&way.changes[i].to) && !std::get_if<Angle>(&way.changes[i].to);
          const bool going = way.changes[i].limit.kind == LimitKind::going;
          if (i == less && (discrete || going)) continue;  // as it was
          set(p, way.changes[i], i == less ? 1 : 0);
        }
        ASSERT_EQ(plain_fits(p), less == way.changes.size()) << way_words(site.job, way);
      }
    }
  });
  EXPECT_GT(seen, 10);
}

TEST_F(Collided, TheFlightOfAWayIsShapedByTheChangedJob) {
  sites(100, [&](const Tight& site, const Collision& found) {
    for (const Way& way : found.ways) {
      ASSERT_GT(way.flight.risers, 0);
      const double run = in_inches(way.flight.run);
      ASSERT_NEAR(in_inches(way.flight.total_rise + way.flight.landing.lift), site.plain.down + site.plain.slope * run,
                  1e-6);
    }
  });
}

Collision of(const Job& job, const ShapeLimits& limits = {}) { return collide(job, Site(job), limits); }
const LimitChange* change_of(const Collision& found, LimitKind kind) {
  for (const Way& way : found.ways) {
    if (way.changes.size() == 1 && way.changes.front().limit.kind == kind) return &way.changes.front();
  }
  return nullptr;
}

TEST(NoFlight, TwoLimitsThatGiveALittleAreNamedBesideOneThatGivesALot) {
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
  const Collision found = of(job);
  ASSERT_TRUE(change_of(found, LimitKind::raise));
  EXPECT_EQ(change_words(job, *change_of(found, LimitKind::raise)), "7 3/4\" more lift");
  ASSERT_EQ(found.ways.back().changes.size(), 2u);
  EXPECT_EQ(way_words(job, found.ways.back()),
            "5 risers of 7\" with goings of 10 1/2\" would fit with 3/4\" more lift and 6\" more room");
  job.pad.raise_at_most += inches(0.75);
  job.room.run_at_most = inches(78);
  EXPECT_FALSE(shaped(job).empty());
}

TEST(NoFlight, WhatCouldGiveWayIsNamedOnceEach) {
  // 33 in on level ground: 4 risers want 2 in of lift, 5 risers want more room than there is; 8 1/4 in risers need
  // none.
  Job job = level_job(33);
  job.pad.raise_at_most = inches(1);
  job.stair.going = inches(10.25);
  job.room.run_at_most = inches(70);
  const Collision found = of(job);
  EXPECT_EQ(change_words(job, *change_of(found, LimitKind::raise)), "1\" more lift");
  EXPECT_EQ(change_words(job, *change_of(found, LimitKind::room)), "7\" more room");
  EXPECT_EQ(change_words(job, *change_of(found, LimitKind::highest_riser)), "a riser limit of 8\"");
  EXPECT_EQ(found.limits.size(), 3u);
  const Problems said = problems_of(job, {}, found);
  EXPECT_EQ(said.size(), 1 + found.ways.size());
  for (const Problem& problem : said)
    EXPECT_FALSE(problem.place.empty() || problem.wrong.empty() || problem.remedy.empty());
}

TEST(NoFlight, AnObstacleIsNamedUntilItIsMoved) {
  Job job = level_job(35);
  job.room.obstacles = {{"downspout", {inches(60), inches(64)}, {inches(10), inches(14)}}};
  const Collision found = of(job);
  ASSERT_TRUE(change_of(found, LimitKind::obstacle));
  EXPECT_EQ(change_words(job, *change_of(found, LimitKind::obstacle)), "the downspout moved");
  job.room.obstacles[0].across = {inches(50), inches(54)};
  EXPECT_FALSE(shaped(job).empty()) << "beside the stair";
  job.room.obstacles[0] = {"tree", {inches(150), inches(170)}, {inches(0), inches(36)}};
  EXPECT_FALSE(shaped(job).empty()) << "beyond the landing";
}

TEST(NoFlight, AYardWithoutAStringerThatFitsIsNamed) {
  Job job = level_job(35);
  job.stringers.kind = StringerKind::ready_cut;
  EXPECT_EQ(of(job).limits, std::vector<Limit>{{LimitKind::ready_cut}});
  job.yard.ready_cut = {{.name = "stock", .risers = 4, .unit_rise = inches(8.5), .unit_going = inches(10)}};
  const Collision found = of(job);
  EXPECT_TRUE(change_of(found, LimitKind::ready_cut));
  EXPECT_TRUE(change_of(found, LimitKind::highest_riser));
}

TEST(NoFlight, APacksGoingIsALimitWhereTheTreadsCouldDoOther) {
  // Treads 11 1/4 in deep make goings from 10 to 10 1/2 in; a pack that asks for 11 in leaves no room for 3 of them.
  Job job = level_job(28);
  job.room.run_at_most = inches(36 + 32);
  const ShapeLimits limits{.rise_max = inches(7), .going_min = inches(11)};
  EXPECT_FALSE(shaped(job).empty());
  const Collision found = of(job, limits);
  ASSERT_TRUE(change_of(found, LimitKind::going));
  EXPECT_EQ(change_words(job, *change_of(found, LimitKind::going)), "a going of 10 5/8\"");
  EXPECT_EQ(change_words(job, *change_of(found, LimitKind::room)), "1\" more room");
}

TEST(NoFlight, MetricChangesAreWholeMillimetres) {
  Job job = level_job(33);
  job.about.units = UnitSystem::metric;
  job.stair.going = inches(10.25);
  job.pad.raise_at_most = job.pad.dig_at_most = Length();
  job.room.run_at_most = millimetres(1750);
  // 5 risers end 4 x 260.35 + 914.4 = 1955.8 mm out.
  EXPECT_EQ(change_words(job, *change_of(of(job), LimitKind::room)), "206 mm more room");
}

TEST(NoFlight, SaysSomethingWheneverThereIsNone) {
  RandomJobs jobs;
  int none = 0;
  for (int i = 0; i < 1000; ++i) {
    const Job job = jobs.next();
    if (!shaped(job).empty()) continue;
    ++none;
    const Collision found = of(job);
    ASSERT_FALSE(found.limits.empty() || found.ways.empty());
    for (const Way& way : found.ways) ASSERT_GT(way.flight.risers, 0);
  }
  EXPECT_GT(none, 50);
}

}  // namespace
}  // namespace pitchboard
