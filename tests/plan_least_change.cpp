// `check --fix`: what it proposes passes when planned afresh, and nothing smaller or cheaper does.

#include <gtest/gtest.h>

#include <algorithm>

#include "engine/choose/search.hpp"
#include "engine/least_change.hpp"
#include "tests/frame_fixture.hpp"

using namespace pitchboard;

namespace {

Plan planned(Job job) {
  job.about.name = "test";
  Result<Plan> plan = make_plan(job, Depth::quick);
  EXPECT_TRUE(plan);
  return *plan;
}

std::size_t failing(const Plan& plan) {
  return static_cast<std::size_t>(std::ranges::count(plan.strength.checks, Verdict::fail, &Check::verdict));
}

/// A stair without rails, its treads too limp for its few stringers.
Job limp() {
  Job job = steps(5, 7.25);
  job.rails.left = job.rails.right = SideRail::none;
  job.stair.treads = TreadMake::two_5_4x6;
  job.stringers.spacing_at_most = inches(16);
  job.wood.species = "western-cedar";
  job.stair.width = inches(48);
  return job;
}

}  // namespace

TEST(LeastChange, WhatItProposesPassesWhenPlannedAfresh) {
  const Plan before = planned(limp());
  ASSERT_GT(failing(before), 0u);
  const Remedy remedy = least_change(before);
  ASSERT_FALSE(remedy.changes.empty());
  ASSERT_TRUE(remedy.left.empty()) << remedy.left.front();
  const Plan after = planned(remedy.job);
  EXPECT_EQ(failing(after), 0u);
  EXPECT_TRUE(after.frame.clashes.empty());
  EXPECT_EQ(after.order.total.cents - before.order.total.cents, remedy.dearer.cents);
}

TEST(LeastChange, AStairThatPassesIsLeftAsItIs) {
  Job job = least_change(planned(limp())).job;
  const Remedy again = least_change(planned(job));
  EXPECT_TRUE(again.changes.empty());
  EXPECT_TRUE(again.left.empty());
}

TEST(LeastChange, NothingCheaperThanWhatItProposesPasses) {
  const Plan before = planned(limp());
  const Remedy remedy = least_change(before);
  ASSERT_TRUE(remedy.left.empty());
  for (const Change& change : remedy.changes) {
    EXPECT_FALSE(change.key.empty());
    EXPECT_FALSE(change.value.empty());
    EXPECT_FALSE(change.why.empty());
  }
  // What a carpenter would try first, each by itself: none of them passes for less.
  std::vector<Job> tries(4, limp());
  tries[0].stair.treads = TreadMake::one_2x12;
  tries[1].stringers.count = 4;
  tries[2].stringers.count = 5;
  tries[3].wood.grade = "ss";
  for (const Job& job : tries) {
    const Plan other = planned(job);
    if (failing(other) > 0 || !other.frame.clashes.empty()) continue;
    EXPECT_GE(other.order.total.cents - before.order.total.cents, remedy.dearer.cents);
  }
}

TEST(LeastChange, WhatItCannotMendIsNamed) {
  Job job = limp();
  job.loads.live = 1000;  // a warehouse
  job.loads.tread = 5000;
  const Remedy remedy = least_change(planned(job));
  EXPECT_FALSE(remedy.left.empty());
}

TEST(LeastChange, FreesASearchThatNoStairPasses) {
  Job job = limp();
  job.stair.risers = 3;  // low enough to need neither guard nor handrail
  job.ground.lines = {{Line::middle, {{inches(0), inches(21)}, {inches(400), inches(21)}}}};
  for (const std::string_view choice : kSearchedChoices) job.choose.keep.emplace_back(choice);
  const Search search = search_stairs(job, Site(job));
  ASSERT_TRUE(search.front.empty());
  const Conflict conflict = conflict_of(job, Site(job), search.known);
  ASSERT_FALSE(conflict.kinds.empty());
  const std::optional<Freed> freed = least_change(job, conflict);
  ASSERT_TRUE(freed);
  const Plan after = planned(freed->remedy.job);
  EXPECT_EQ(failing(after), 0u);
  EXPECT_EQ(std::ranges::count(after.findings, Verdict::fail, &Finding::verdict), 0);
}
