// The five examples against answers worked out by hand.

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "cli/job_file.hpp"
#include "engine/plan.hpp"
#include "tests/plan_walked.hpp"
#include "tests/rules_table.hpp"

using namespace pitchboard;

namespace {

constexpr double kSixtyFourth = 1.0 / 64.0;

struct Example {
  TableRow row;
  Plan plan;
};

const std::vector<Example>& examples() {
  static const std::vector<Example> all = [] {
    std::vector<Example> out;
    for (const TableRow& row : table("plan_examples.csv")) {
      const Result<Job> job = read_job_file(std::string(SOURCE_DIR) + "/examples/" + row.at("example") + ".toml");
      EXPECT_TRUE(job) << row.at("example");
      if (!job) continue;
      Result<Plan> plan = make_plan(*job);
      EXPECT_TRUE(plan) << row.at("example");
      if (plan) out.push_back({row, std::move(*plan)});
    }
    return out;
  }();
  return all;
}

int count_of(const Plan& plan, PartKind kind) {
  return static_cast<int>(std::ranges::count(plan.frame.parts, kind, &Part::kind));
}

/// Top of the side's rail or cap over the lowest nosing that it passes.
double height_over_nosings(const Plan& plan, PartKind kind) {
  const Walked walked(plan);
  for (const Part& part : plan.frame.parts) {
    if (part.kind != kind) continue;
    const own::Solid s(part.solid);
    for (std::size_t i = 0; i < walked.nosings.size(); ++i) {
      const double x = walked.nosings[i];
      if (x > s.low[0] && x < s.high[0]) return s.top_at(x) - walked.nosing_tops[i];
    }
  }
  return 0;
}

const std::set<std::string_view> kMain{"riser_height", "riser_variation", "going",         "going_variation",
                                       "nosing",       "guard_height",    "guard_opening", "handrail_height",
                                       "clear_width",  "landing_depth",   "flight_rise",   "clear_width_above_rail"};

}  // namespace

TEST(Examples, EveryExampleHasItsAnswers) { EXPECT_EQ(examples().size(), 5u); }

TEST(Examples, RisersGoingsAndLandingAreThoseWorkedByHand) {
  for (const auto& [row, plan] : examples()) {
    SCOPED_TRACE(row.at("example"));
    const Walked walked(plan);
    ASSERT_EQ(static_cast<double>(walked.rises.size()), number(row, "risers"));
    for (const double rise : walked.rises) EXPECT_NEAR(rise, number(row, "unit_rise"), kSixtyFourth);
    for (std::size_t i = 0; i + 1 < walked.nosings.size(); ++i) {
      EXPECT_NEAR(walked.nosings[i] - walked.nosings[i + 1], number(row, "going"), kSixtyFourth);
    }
    EXPECT_NEAR(walked.nosings.front(), number(row, "run"), kSixtyFourth);
    EXPECT_NEAR(plan.flight.landing.lift.raw(), number(row, "lift"), kSixtyFourth);
    EXPECT_NEAR(walked.landing, number(row, "landing"), kSixtyFourth);
  }
}

TEST(Examples, StringersAndTheirHeadsAreThoseWorkedByHand) {
  for (const auto& [row, plan] : examples()) {
    SCOPED_TRACE(row.at("example"));
    EXPECT_NEAR(plan.frame.throat.raw(), number(row, "throat"), kSixtyFourth);
    EXPECT_EQ(count_of(plan, PartKind::hanger_board) > 0, row.at("hanger_board") == "no rim left");
    EXPECT_EQ(count_of(plan, PartKind::stringer), number(row, "stringers"));
    EXPECT_NEAR(plan.frame.stringer_spacing.raw(), number(row, "spacing"), kSixtyFourth);
    EXPECT_EQ(count_of(plan, PartKind::support_beam), number(row, "supports"));
    for (const Part& part : plan.frame.parts) {
      if (part.kind != PartKind::support_beam) continue;
      const own::Solid beam(part.solid);
      EXPECT_NEAR((beam.low[0] + beam.high[0]) / 2, number(row, "beam_out"), kSixtyFourth);
    }
  }
}

TEST(Examples, GuardsAndHandrailsStandWhereAndAsHighAsAsked) {
  for (const auto& [row, plan] : examples()) {
    SCOPED_TRACE(row.at("example"));
    EXPECT_EQ(plan.frame.guard_left + plan.frame.guard_right, number(row, "guards"));
    EXPECT_EQ(plan.frame.handrail_left + plan.frame.handrail_right, number(row, "handrails"));
    EXPECT_NEAR(height_over_nosings(plan, PartKind::cap), number(row, "guard_height"), kSixtyFourth);
    EXPECT_NEAR(height_over_nosings(plan, PartKind::handrail), number(row, "handrail_height"), kSixtyFourth);
  }
}

TEST(Examples, MainRulesAreKeptAndNoneFails) {
  for (const auto& [row, plan] : examples()) {
    SCOPED_TRACE(row.at("example"));
    int passes = 0, warns = 0;
    for (const Finding& f : plan.findings) {
      EXPECT_NE(f.verdict, Verdict::fail) << f.clause << " " << f.change;
      EXPECT_NE(f.verdict, Verdict::too_close) << f.clause << " " << f.change;
      if (!f.applies || !kMain.contains(f.quantity)) continue;
      passes += f.verdict == Verdict::pass;
      warns += f.verdict == Verdict::warn;
    }
    EXPECT_EQ(passes, number(row, "main_passes"));
    EXPECT_EQ(warns, number(row, "main_warns"));
  }
}

TEST(Examples, NothingClashesAndEverySectionIsProvenCheapest) {
  for (const auto& [row, plan] : examples()) {
    SCOPED_TRACE(row.at("example"));
    EXPECT_TRUE(plan.frame.clashes.empty());
    EXPECT_TRUE(plan.cuts.impossible.empty());
    EXPECT_FALSE(plan.cuts.proofs.empty());
    for (const SectionProof& proof : plan.cuts.proofs) {
      EXPECT_TRUE(proof.optimal) << proof.section;
      EXPECT_EQ(proof.cost, proof.bound) << proof.section;
    }
  }
}
