// The front against brute force: every stair of the space planned whole, and the front found another way.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>
#include <random>
#include <set>

#include "cli/job_file.hpp"
#include "engine/choose/explain.hpp"
#include "engine/choose/labour.hpp"
#include "engine/cut/board_search.hpp"
#include "engine/plan.hpp"
#include "tests/plan_shards.hpp"

namespace pitchboard {
namespace {

constexpr std::uint32_t kFrontShards = 5, kFrontJobs = kSanitized ? 2 : 80;
/// Larger spaces are left out: each of their stairs is planned here.
constexpr std::size_t kLargest = 150;

/// An example's stair at another height, width and yard, with a few choices open.
Job small_job(std::uint32_t seed) {
  std::mt19937 random(seed);
  const auto one_in = [&](std::uint32_t n) { return random() % n == 0; };
  const bool with_rails = one_in(4);
  const char* example = seed % 10 == 9 ? "lake-cabin" : with_rails ? "schoolhouse-side-door" : "low-farmhouse-step";
  Job job = *read_job_file(fmt::format("{}/examples/{}.toml", SOURCE_DIR, example));
  const Length lower = inches(static_cast<double>(random() % 96) / 16.0);
  for (ReadingLine& line : job.ground.lines) {
    for (Reading& reading : line.readings) reading.down += lower;
  }
  if (one_in(2)) job.stair.width = inches(36.0 + static_cast<double>(random() % 13));
  if (one_in(3)) job.deck.rim_size = "2x12";
  if (one_in(3)) job.deck.behind = BehindRim::solid_blocking;
  if (one_in(3)) job.wood.grade = "no1";
  if (one_in(4)) job.wood.species = "hem-fir";
  if (one_in(3)) job.stringers.bearing_share = 0.4;
  if (one_in(3)) job.yard.offcuts = {{"2x12", inches(40.0 + static_cast<double>(random() % 90)), 2}};
  job.stringers.kind = StringerKind::cut;
  for (const std::string_view choice : kSearchedChoices) {
    if (!one_in(3)) job.choose.keep.emplace_back(choice);
  }
  for (Offcut& offcut : job.yard.offcuts) offcut.scrap_value = Money{static_cast<std::int64_t>(random() % 3) * 700};
  return job;
}

/// Every choice of the space.
template <class Visit>
void for_each_choice(const Space& space, Visit visit) {
  const Additions& add = space.additions;
  for (Choice c; c.family < space.families.size(); ++c.family) {
    const Family& family = space.families[c.family];
    for (c.flight = 0; c.flight < family.flights.size(); ++c.flight)
      for (c.stringers = 0; c.stringers < space.stringer_steps(family); ++c.stringers)
        for (c.bearing = 0; c.bearing < add.bearing_shares.size(); ++c.bearing)
          for (c.mid_supports = 0; c.mid_supports < add.mid_supports.size(); ++c.mid_supports)
            for (c.rails = 0; c.rails < add.rails.size(); ++c.rails) visit(c);
  }
}

bool can_be_built(const Plan& plan) {
  return plan.frame.clashes.empty() && plan.cuts.impossible.empty() &&
         std::ranges::count(plan.findings, Verdict::fail, &Finding::verdict) == 0 &&
         std::ranges::count(plan.strength.checks, Verdict::fail, &Check::verdict) == 0;
}

Score score_of(const Plan& plan) {
  Money cost = plan.order.total;
  for (const Board& board : plan.cuts.boards) cost += board.offcut ? board.price : Money();
  Figures figures{.cents = cost.cents,
                  .minutes = frame_minutes(plan.flight, plan.frame) + landing_minutes(plan.job, plan.flight.landing),
                  .lift = plan.flight.landing.lift};
  const Length step = plan.flight.unit_rise * 2.0 + plan.flight.going;
  figures.comfort = step < inches(24) ? inches(24) - step : step > inches(25) ? step - inches(25) : Length();
  for (const Check& check : plan.strength.checks) figures.ratio = std::max(figures.ratio, weakness(check));
  return pitchboard::score_of(figures);
}

/// In lexicographic order a stair can only be beaten by one before it.
std::set<Score> front_of(const std::set<Score>& scores) {
  std::set<Score> front;
  for (const Score& s : scores) {
    const bool beaten = std::ranges::any_of(front, [&](const Score& f) {
      return f.cost <= s.cost && f.work <= s.work && f.comfort <= s.comfort && f.ratio <= s.ratio && f.earth <= s.earth;
    });
    if (!beaten) front.insert(s);
  }
  return front;
}

class Front : public ::testing::TestWithParam<std::uint32_t> {};

TEST_P(Front, IsThatOfBruteForce) {
  int compared = 0, with_front = 0;
  for (std::uint32_t i = 0; i < kFrontJobs; ++i) {
    const std::uint32_t seed = 7000 + GetParam() * kFrontJobs + i;
    const Job job = small_job(seed);
    if (!check_job(job).empty()) continue;
    const Site site(job);
    if (space_of(job, site).size() > kLargest * 8) continue;
    const Search search = search_stairs(job, site);
    if (search.space.size() > kLargest) continue;
    SCOPED_TRACE("random job " + std::to_string(seed));
    std::set<Score> scores;
    std::map<Score, std::string> stairs;
    for_each_choice(search.space, [&](const Choice& c) {
      const Result<Plan> plan = make_plan(chosen(job, search.space, c), Depth::quick);
      ASSERT_TRUE(plan) << stair_words(job, search.space, c);
      const Flight& flight = search.space.families[c.family].flights[c.flight];
      ASSERT_EQ(plan->flight.risers, flight.risers);
      ASSERT_EQ(plan->flight.going, flight.going);
      if (!can_be_built(*plan)) return;
      scores.insert(score_of(*plan));
      stairs[score_of(*plan)] = stair_words(job, search.space, c);
    });
    std::set<Score> found;
    for (const Option& o : search.front) found.insert(o.score);
    const std::set<Score> front = front_of(scores);
    for (const Score& s : front) EXPECT_TRUE(found.contains(s)) << "missed: " << stairs[s];
    for (const Score& s : found) EXPECT_TRUE(front.contains(s)) << "beaten or not to be built, cents " << s.cost;
    EXPECT_EQ(found.size(), search.front.size()) << "of equal stairs one is enough";
    ++compared;
    with_front += !search.front.empty();
    if (HasFailure()) return;
  }
  RecordProperty("compared", compared);
  RecordProperty("with_front", with_front);
  if (!kSanitized) {
    EXPECT_GT(with_front, 5) << "of " << compared;
  }
}
/// RETURNS how many faults a stair shows before it is whole; each has to be one of the whole check's, by that much or
/// more.
std::size_t expect_part_of(const Evaluation& whole, const Evaluation& early) {
  for (const Fault& fault : early.faults)
    EXPECT_TRUE(std::ranges::any_of(whole.faults, [&](const Fault& f) { return f.kind == fault.kind; })) << fault.words;
  for (const Worst& worst : early.worst) {
    const auto same = std::ranges::find(whole.worst, worst.of, &Worst::of);
    const bool there = same != whole.worst.end();
    EXPECT_TRUE(there && worst.ratio <= same->ratio + 1e-12) << worst.of;
  }
  return early.faults.size();
}

/// What is bought for a stair, and the work of it.
struct Outlay {
  Choice choice;
  std::int64_t cents = 0;
  double minutes = 0;
};
Outlay outlay_of(const Choice& choice, const Figures& figures) { return {choice, figures.cents, figures.minutes}; }
bool adds_no_more(const Choice& p, const Choice& q) {
  return p.stringers <= q.stringers && p.bearing == q.bearing && p.mid_supports <= q.mid_supports && p.rails == q.rails;
}
/// What is known of each stair of one flight before it is built, and of those that pass.
struct OnFlight {
  std::vector<Outlay> least, passing;
  void expect_bounds() const {
    for (const Outlay& pass : passing) {
      for (const Outlay& low : least) {
        if (!adds_no_more(low.choice, pass.choice)) continue;
        EXPECT_LE(low.cents, pass.cents) << low.choice.stringers << " " << pass.choice.stringers;
        EXPECT_LE(low.minutes, pass.minutes + 1e-9);
      }
    }
  }
};

/// What the search takes over from one stair to another, and from what is counted of one to the whole of it.
TEST_P(Front, StairsAlikeInWhatItIsAMatterOfHaveTheSameVerdictAndRatio) {
  int spaces = 0;
  std::size_t shared = 0, early_faults = 0, exact = 0;
  for (std::uint32_t seed = 9000 + GetParam() * kFrontJobs; seed < 9000 + (GetParam() + 1) * kFrontJobs; ++seed) {
    const Job job = small_job(seed);
    if (!check_job(job).empty()) continue;
    const Site site(job);
    const Space space = space_of(job, site);
    if (space.size() < 20 || space.size() > kLargest || ++spaces > 12) continue;
    SCOPED_TRACE("random job " + std::to_string(seed));
    std::map<std::pair<Matters, Key>, std::pair<double, bool>> seen;
    std::map<std::pair<std::size_t, std::size_t>, OnFlight> flights;
    std::map<Key, int> standing_of;
    Shared once;
    for_each_choice(space, [&](const Choice& c) {
      const Flight& flight = space.families[c.family].flights[c.flight];
      const Job stair = chosen(job, space, c);
      const Key key = key_of(space, c, head_bearing(stair, site, flight).hanger_board);
      const Evaluation whole = evaluate(stair, site, flight);
      Appraisal look(stair, site, flight, once);
      const std::size_t counted = expect_part_of(whole, look.check_guides()) +
                                  expect_part_of(whole, look.check_counted_posts()) +
                                  expect_part_of(whole, look.check_counted_treads());
      const Figures least = look.least_figures();
      // What waited is counted again.
      look.let_go();
      const int standing = look.standing();
      const Figures later = look.raised_figures(standing);
      EXPECT_EQ(standing_of.try_emplace(about(key, kStringers), standing).first->second, standing);
      early_faults += counted + expect_part_of(whole, look.check_rules()) + expect_part_of(whole, look.check_steps());
      early_faults += expect_part_of(whole, look.check_skeleton());
      OnFlight& on_flight = flights[{c.family, c.flight}];
      on_flight.least.push_back(outlay_of(c, least));
      if (whole.faults.empty()) {
        on_flight.passing.push_back(outlay_of(c, whole.figures));
        EXPECT_LE(later.cents, whole.figures.cents);
        EXPECT_LE(later.minutes, whole.figures.minutes + 1e-9);
      }
      if (!stair.rails.hold_downs && stair.stringers.mid_supports == 0) {
        EXPECT_EQ(least.minutes, whole.figures.minutes);
        exact += least.cents == whole.figures.cents;
      }
      for (const Worst& worst : whole.worst) {
        const std::pair now(worst.ratio, worst.fault.has_value());
        const auto [at, fresh] = seen.try_emplace({worst.of, about(key, worst.of)}, now);
        shared += !fresh;
        EXPECT_NEAR(at->second.first, now.first, 1e-9 * now.first) << stair_words(job, space, c) << ", " << worst.of;
        EXPECT_EQ(at->second.second, now.second) << stair_words(job, space, c) << ", " << worst.of;
      }
    });
    for (const auto& [flight, stairs] : flights) stairs.expect_bounds();
    if (HasFailure()) return;
  }
  if (!kSanitized) {
    EXPECT_GT(exact, 100u);
    EXPECT_GT(shared, 100u);
    EXPECT_GT(early_faults, 10u);
  }
}
INSTANTIATE_TEST_SUITE_P(RandomJobs, Front, ::testing::Range(0u, kFrontShards));

}  // namespace
}  // namespace pitchboard
