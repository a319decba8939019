#pragma once
// 5,000 random jobs in shards, so that several cores share them.

#include <gtest/gtest.h>

#include "engine/job/read_job.hpp"
#include "engine/plan.hpp"
#include "tests/plan_random_job.hpp"

namespace pitchboard {

#if defined(__SANITIZE_ADDRESS__)
constexpr bool kSanitized = true;
#elif defined(__has_feature)
constexpr bool kSanitized = __has_feature(address_sanitizer);
#else
constexpr bool kSanitized = false;
#endif

constexpr std::uint32_t kShards = 10;
/// The sanitizers look at every memory access: they get a twentieth of the jobs.
constexpr std::uint32_t kJobsInShard = kSanitized ? 25 : 500;

/// Plans every job of a shard and hands those that fit to `check(seed, plan)`.
template <class Check>
void plan_shard(std::uint32_t shard, Check check, std::uint32_t jobs = kJobsInShard) {
  std::uint32_t planned = 0;
  for (std::uint32_t i = 0; i < jobs; ++i) {
    const std::uint32_t seed = shard * kJobsInShard + i;
    const Result<Plan> plan = make_plan(random_job(seed), Depth::quick);
    if (!plan) continue;
    ++planned;
    SCOPED_TRACE("random job " + std::to_string(seed));
    check(seed, *plan);
    if (::testing::Test::HasFailure()) return;  // one job is enough to look at
  }
  EXPECT_GT(planned, jobs / 4) << "most random jobs should fit";
}

class Shard : public ::testing::TestWithParam<std::uint32_t> {};

}  // namespace pitchboard
