// Jobs that differ in nothing that matters give plans that differ in nothing that matters.

#include <gtest/gtest.h>

#include <map>

#include "tests/plan_shards.hpp"

using namespace pitchboard;

namespace {

constexpr std::uint32_t kKin = kJobsInShard / 5;

bool same_geometry(const Frame& p, const Frame& q) {
  return std::ranges::equal(p.parts, q.parts,
                            [](const Part& a, const Part& b) {
                              return a.mark == b.mark && a.kind == b.kind && a.solid.normal == b.solid.normal &&
                                     a.solid.span.from == b.solid.span.from && a.solid.span.to == b.solid.span.to &&
                                     a.solid.outline == b.solid.outline;
                            }) &&
         std::ranges::equal(p.fasteners, q.fasteners, [](const Fastener& a, const Fastener& b) {
           return a.item == b.item && a.head.x == b.head.x && a.head.y == b.head.y && a.head.z == b.head.z &&
                  a.joins == b.joins;
         });
}

/// What the verdicts say, without the sides that they name.
std::multimap<std::string, std::pair<Verdict, double>> verdicts(const Plan& plan) {
  std::multimap<std::string, std::pair<Verdict, double>> out;
  for (const Finding& f : plan.findings) {
    // Advice names no worst place, so which of several it speaks of may change with the sides.
    const double measured = f.compare == "advice" ? 0 : f.measured.value_or(0);
    std::string rule;
    for (const std::string_view part : {f.pack, f.clause, f.quantity, f.compare}) rule += part;
    out.emplace(rule, std::pair{f.verdict, measured});
  }
  return out;
}

void expect_same_verdicts(const Plan& p, const Plan& q) {
  const auto a = verdicts(p), b = verdicts(q);
  ASSERT_EQ(a.size(), b.size());
  for (auto i = a.begin(), j = b.begin(); i != a.end(); ++i, ++j) {
    EXPECT_EQ(i->first, j->first);
    EXPECT_EQ(i->second.first, j->second.first) << i->first;
    EXPECT_NEAR(i->second.second, j->second.second, 1e-4) << i->first;
  }
}

Job mirrored(Job job) {
  for (ReadingLine& line : job.ground.lines) {
    if (line.line != Line::middle) line.line = line.line == Line::left ? Line::right : Line::left;
  }
  std::swap(job.rails.left, job.rails.right);
  for (Obstacle& o : job.room.obstacles) o.across = {job.stair.width - o.across.to, job.stair.width - o.across.from};
  if (job.pad.existing) {  // its level is given on the left
    job.pad.down = *job.pad.down + job.stair.width * job.pad.cross_fall;
    job.pad.cross_fall = -job.pad.cross_fall;
  }
  return job;
}

class Kin : public Shard {};
INSTANTIATE_TEST_SUITE_P(RandomJobs, Kin, ::testing::Range(0u, kShards));

}  // namespace

TEST_P(Kin, AMirroredJobGetsTheSameVerdicts) {
  plan_shard(
      GetParam(),
      [](std::uint32_t, const Plan& plan) {
        const Result<Plan> other = make_plan(mirrored(plan.job), Depth::quick);
        ASSERT_TRUE(other);
        EXPECT_EQ(other->flight.risers, plan.flight.risers);
        EXPECT_NEAR(other->flight.unit_rise.raw(), plan.flight.unit_rise.raw(), 1e-6);
        EXPECT_TRUE(other->frame.clashes.empty());
        expect_same_verdicts(plan, *other);
      },
      kKin);
}

TEST_P(Kin, UnitsOfThePapersDoNotMoveAPart) {
  plan_shard(
      GetParam(),
      [](std::uint32_t, const Plan& plan) {
        Job job = plan.job;
        job.about.units = job.about.units == UnitSystem::metric ? UnitSystem::imperial : UnitSystem::metric;
        const Plan other = *make_plan(job, Depth::quick);
        EXPECT_TRUE(same_geometry(plan.frame, other.frame));
        for (std::size_t i = 0; i < plan.cuts.proofs.size(); ++i) {
          EXPECT_EQ(plan.cuts.proofs[i].cost, other.cuts.proofs[i].cost) << plan.cuts.proofs[i].section;
        }
        expect_same_verdicts(plan, other);
      },
      kKin);
}

TEST_P(Kin, AReadingOnTheStraightBetweenTwoTellsNothingNew) {
  plan_shard(
      GetParam(),
      [](std::uint32_t, const Plan& plan) {
        Job job = plan.job;
        for (ReadingLine& line : job.ground.lines) {
          if (line.readings.size() < 2) continue;
          const Reading p = line.readings[0], q = line.readings[1];
          line.readings.insert(line.readings.begin() + 1, {(p.out + q.out) / 2.0, (p.down + q.down) / 2.0});
        }
        const Result<Plan> other = make_plan(job, Depth::quick);
        ASSERT_TRUE(other);
        EXPECT_EQ(other->flight.risers, plan.flight.risers);
        EXPECT_NEAR(other->flight.unit_rise.raw(), plan.flight.unit_rise.raw(), 1e-9);
        EXPECT_EQ(other->frame.parts.size(), plan.frame.parts.size());
      },
      kKin);
}

TEST_P(Kin, DearerBoardsEveryOneByTheSamePartCostThatPartMore) {
  plan_shard(
      GetParam(),
      [](std::uint32_t, const Plan& plan) {
        if (plan.job.yard.stock.empty()) return;
        Job job = plan.job;
        for (StockLength& s : job.yard.stock) s.price = s.price * 2;
        for (Offcut& o : job.yard.offcuts) o.scrap_value = o.scrap_value * 2;
        const Plan dear = *make_plan(job, Depth::quick);
        for (std::size_t i = 0; i < plan.cuts.proofs.size(); ++i) {
          const SectionProof &p = plan.cuts.proofs[i], &q = dear.cuts.proofs[i];
          const bool own =
              std::ranges::any_of(job.yard.stock, [&](const StockLength& s) { return s.section == p.section; });
          if (!own || !p.optimal || !q.optimal) continue;
          EXPECT_EQ(q.cost.cents, 2 * p.cost.cents) << p.section;
        }
      },
      kKin);
}
