// What is in the way of every stair, against brute force: the faults of each stair of the space found by other code.

#include <gtest/gtest.h>

#include "engine/choose/conflict.hpp"
#include "tests/choose_fixture.hpp"

namespace pitchboard {
namespace {

using Kinds = std::set<std::string>;

/// A space of which mostly no stair can be built, for one or several of these reasons.
Job spoilt(std::uint32_t seed) {
  Job job = small_space(seed);
  std::mt19937 random(seed ^ 0x5eedu);
  const auto one_in = [&](std::uint32_t n) { return random() % n == 0; };
  if (one_in(2)) job.loads.live = 100.0 + static_cast<double>(random() % 600);
  if (one_in(2)) job.loads.tread = 500.0 + static_cast<double>(random() % 2500);
  if (one_in(8)) job.stair.width = inches(34);
  if (one_in(8)) job.room.overheads = {{"beam", {inches(0), inches(60)}, inches(60)}};
  if (one_in(3)) job.wood.species = "western-cedar";
  if (one_in(3)) job.loads.rail = 300.0 + static_cast<double>(random() % 500);
  return job;
}

bool hit_by(const Kinds& stair, const Kinds& some) {
  return std::ranges::any_of(some, [&](const std::string& kind) { return stair.contains(kind); });
}

TEST(Conflict, HitsEveryStairAndEveryKindOfItIsNeeded) {
  int compared = 0, of_several = 0;
  for (std::uint32_t seed = 1; seed < 900 && compared < 80; ++seed) {
    const Job job = spoilt(seed);
    const Site site(job);
    const Space space = space_of(job, site);
    if (space.size() == 0 || space.size() > 48) continue;
    SCOPED_TRACE(seed);
    const Conflict found = conflict_of(job, site, search_stairs(job, site).known);
    const auto own_faults = [&](const Choice& c) {
      return faults_of(chosen(job, space, c), space.families[c.family].flights[c.flight]);
    };
    std::vector<Kinds> faults;
    std::size_t fewest = 1000;
    for_each_stair(space, [&](const Choice& c, const Flight&) {
      faults.push_back(own_faults(c));
      fewest = std::min(fewest, faults.back().size());
    });
    if (fewest == 0) {
      ASSERT_TRUE(found.kinds.empty()) << "a stair can be built";
      continue;
    }
    ASSERT_FALSE(found.kinds.empty());
    ++compared;
    of_several += found.kinds.size() > 1;
    Kinds kinds;
    for (const InTheWay& k : found.kinds) kinds.insert(k.kind);
    ASSERT_EQ(kinds.size(), found.kinds.size());
    for (const Kinds& stair : faults) ASSERT_TRUE(hit_by(stair, kinds)) << "a stair that none of them hits";
    for (const InTheWay& k : found.kinds) {
      Kinds rest = kinds;
      rest.erase(k.kind);
      ASSERT_TRUE(std::ranges::any_of(faults, [&](const Kinds& stair) { return !hit_by(stair, rest); })) << k.kind;
      const Kinds own = own_faults(k.witness.choice);
      EXPECT_TRUE(own.contains(k.kind));
      EXPECT_FALSE(hit_by(own, rest)) << "its witness has another";
    }
    Kinds told;
    for (const Fault& fault : found.nearest.faults) told.insert(fault.kind);
    EXPECT_EQ(told, own_faults(found.nearest.choice));
    EXPECT_EQ(problems_of(job, found).size(), found.kinds.size() + 1);
  }
  EXPECT_GE(compared, 80);
  EXPECT_GE(of_several, 2);
}

TEST(Conflict, IsThereWhereverTheSearchFindsNothing) {
  int empty = 0;
  for (std::uint32_t seed = 500; seed < 540; ++seed) {
    const Job job = spoilt(seed);
    const Site site(job);
    const Space space = space_of(job, site);
    if (space.size() == 0 || space.size() > 60) continue;
    const Search search = search_stairs(job, site);
    const Conflict found = conflict_of(job, site, search.known);
    EXPECT_EQ(found.kinds.empty(), !search.front.empty()) << seed;
    EXPECT_LE(found.evaluated, space.size());
    empty += search.front.empty();
  }
  EXPECT_GT(empty, 3);
}

TEST(Conflict, AHeadroomThatNoStairKeepsStandsAlone) {
  Job job = steps(3, 7.0);
  job.rails.left = job.rails.right = SideRail::none;
  for (const std::string_view choice : kSearchedChoices) job.choose.keep.emplace_back(choice);
  ASSERT_FALSE(search_stairs(job, Site(job)).front.empty());
  job.room.overheads = {{"beam", {inches(0), inches(60)}, inches(60)}};
  const Conflict found = conflict_of(job, Site(job), search_stairs(job, Site(job)).known);
  ASSERT_EQ(found.kinds.size(), 1u);
  EXPECT_NE(found.kinds[0].kind.find("80 in are free above the line of nosings"), std::string::npos)
      << found.kinds[0].kind;
  EXPECT_EQ(found.nearest.faults.size(), 1u);
}

}  // namespace
}  // namespace pitchboard
