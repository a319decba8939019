// Options of a front as jobs and as JSON: what is told of them is what their plans say.

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "cli/job_file.hpp"
#include "engine/choose/front.hpp"
#include "engine/plan.hpp"

namespace pitchboard {
namespace {

using nlohmann::json;

/// The smallest example, a few of its choices open.
Job farmhouse() {
  Job job = *read_job_file(SOURCE_DIR "/examples/low-farmhouse-step.toml");
  job.choose.keep = {"top", "riser boards", "mid supports", "head", "rails"};
  return job;
}

void expect_plans_are_the_options(const Job& job, const Search& search) {
  ASSERT_FALSE(search.front.empty());
  for (std::size_t i = 0; i < search.front.size(); ++i) {
    SCOPED_TRACE("option " + std::to_string(i + 1));
    const Option& option = search.front[i];
    const Flight& flight = search.space.families[option.choice.family].flights[option.choice.flight];
    const Result<Plan> plan = make_plan(job_of(job, search, i), Depth::quick);
    ASSERT_TRUE(plan);
    EXPECT_EQ(plan->flight.risers, flight.risers);
    EXPECT_EQ(plan->flight.going, flight.going);
    EXPECT_EQ(plan->flight.run, flight.run);
    EXPECT_EQ(plan->order.total.cents, option.figures.cents);
    const auto is_open = [](const auto& f) {
      return f.verdict == Verdict::too_close || f.verdict == Verdict::not_checked;
    };
    EXPECT_EQ(std::ranges::count_if(plan->findings, is_open) + std::ranges::count_if(plan->strength.checks, is_open),
              option.open);
  }
}

TEST(Options, AreWhatTheirJobsPlan) {
  const Job job = farmhouse();
  expect_plans_are_the_options(job, search_stairs(job, Site(job)));
}

TEST(Options, OfReadyCutStringersPlanTheLineThatWasChosen) {
  // Two lines alike in shape: only the yard's list tells them apart.
  Job job = farmhouse();
  job.stringers.kind = StringerKind::ready_cut;
  job.choose.keep.insert(job.choose.keep.end(), {"stringers", "spacing"});
  ReadyCut line{"dear", 3, inches(7.25), inches(10.5), true, inches(1.5), {9000}};
  job.yard.ready_cut = {line};
  line.name = "cheap";
  line.price = {4000};
  job.yard.ready_cut.push_back(line);
  const Search search = search_stairs(job, Site(job));
  expect_plans_are_the_options(job, search);
  EXPECT_EQ(job_of(job, search, 0).yard.ready_cut.front().name, "cheap");
}

TEST(Options, AsJsonAreCanonicalAndSayTheSame) {
  const Job job = farmhouse();
  const Search search = search_stairs(job, Site(job));
  const std::string text = search_json(job, search);
  EXPECT_EQ(text, search_json(job, search_stairs(job, Site(job))));
  const json out = json::parse(text);
  EXPECT_EQ(text, out.dump(1) + "\n");
  ASSERT_EQ(out["options"].size(), search.front.size());
  // The rule as docs/choose.md states it, over the scores that are printed.
  std::size_t best = 0;
  const auto weighed = [&](const json& option) {
    const json& score = option["score"];
    return score["cost"].get<double>() + score["work"].get<double>() / 4 * out["rule"]["hour_worth"].get<double>() +
           score["comfort"].get<double>() / 4 * out["rule"]["comfort_worth"].get<double>();
  };
  for (std::size_t i = 0; i < out["options"].size(); ++i) {
    const json& option = out["options"][i];
    EXPECT_EQ(option["number"], i + 1);
    EXPECT_NEAR(option["worth"].get<double>(), weighed(option), 1e-6);
    EXPECT_LE(option["hours"].get<double>() * 4, option["score"]["work"].get<double>() + 1e-6);
    EXPECT_GT(option["hours"].get<double>() * 4, option["score"]["work"].get<double>() - 1);
    if (weighed(option) < weighed(out["options"][best])) best = i;
  }
  EXPECT_EQ(out["pick"], best + 1);
}

TEST(PickRule, IsTheJobsOwnWhereItHasOne) {
  Job job = farmhouse();
  EXPECT_EQ(pick_rule(job).hour.cents, 4500) << "data/choosing.toml";
  job.choose.hour_worth = Money{10000};
  job.choose.comfort_worth = Money{0};
  EXPECT_EQ(pick_rule(job).hour.cents, 10000);
  EXPECT_EQ(pick_rule(job).comfort.cents, 0);
  EXPECT_NE(rule_words(job).find("USD 100.00 an hour"), std::string::npos);
  const Search search = search_stairs(job, Site(job));
  const auto& pick = search.front[search.pick].score;
  for (const Option& option : search.front)
    EXPECT_LE(pick.cost + 2500 * pick.work, option.score.cost + 2500 * option.score.work);
}

}  // namespace
}  // namespace pitchboard
