// What has to be true of every plan, on random jobs: heights, marks, boards, rules, bytes. Space and verdicts have
// files of their own.

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "engine/base/catalog.hpp"
#include "tests/plan_own_geometry.hpp"
#include "tests/plan_shards.hpp"
#include "tests/plan_walked.hpp"

using namespace pitchboard;
using own::Solid;

namespace {

/// Ground below the deck at a place, straight between readings and lines; both ends carry on at their last slope.
double own_down(const Job& job, double out, double across) {
  const auto on_line = [&](const ReadingLine& line) {
    const std::vector<Reading>& r = line.readings;
    if (r.size() == 1) return r[0].down.raw();
    std::size_t i = 1;
    while (i + 1 < r.size() && r[i].out.raw() < out) ++i;
    const double slope = (r[i].down - r[i - 1].down).raw() / (r[i].out - r[i - 1].out).raw();
    return r[i].down.raw() + slope * (out - r[i].out.raw());
  };
  std::map<double, double> lines;  // by place across
  for (const ReadingLine& line : job.ground.lines) {
    const double place = line.line == Line::left ? 0.0 : line.line == Line::right ? 1.0 : 0.5;
    lines[place * job.stair.width.raw()] = on_line(line);
  }
  if (lines.size() == 1) return lines.begin()->second;
  auto right = std::next(lines.begin());
  while (std::next(right) != lines.end() && right->first < across) ++right;
  const auto left = std::prev(right);
  return left->second + (right->second - left->second) * (across - left->first) / (right->first - left->first);
}

void heights_add_up(const Plan& plan) {
  const Walked walked(plan);
  const double count = static_cast<double>(walked.rises.size());
  ASSERT_EQ(walked.rises.size(), static_cast<std::size_t>(plan.flight.risers));
  double sum = 0;
  for (const double rise : walked.rises) {
    sum += rise;
    EXPECT_NEAR(rise, -walked.landing / count, 2e-5) << "every riser is an equal share of the total rise";
  }
  EXPECT_NEAR(sum, -walked.landing, 1e-9);
  // The landing lies where the tape found the ground, lifted as planned.
  const Job& job = plan.job;
  const double out = walked.nosings.front();
  double natural = -own_down(job, out, job.stair.width.raw() / 2);
  if (job.pad.existing) {
    natural = -job.pad.down->raw() - (out - job.pad.from->raw()) * job.pad.fall -
              job.stair.width.raw() / 2 * job.pad.cross_fall;
  }
  const double lift = walked.landing - natural, planned = plan.flight.landing.lift.raw();
  const bool ready = job.stringers.kind == StringerKind::ready_cut;
  EXPECT_NEAR(lift, planned, ready ? 1.0 / 32.0 + 1e-6 : 1e-6);
  EXPECT_NEAR(planned * 16, std::round(planned * 16), 1e-9) << "a landing is set to a sixteenth";
  EXPECT_LE(planned, job.pad.raise_at_most.raw() + 1e-4);
  EXPECT_LE(-planned, job.pad.dig_at_most.raw() + 1e-4);
  if (job.room.run_at_most) {
    EXPECT_LE(out + job.pad.length.raw(), job.room.run_at_most->raw() + 1e-4);
  }
}

/// Points of the outline furthest from the lower edge, measured along the line through them.
std::vector<double> tooth_tips(const Solid& stringer, double rise, double going) {
  const double step = std::hypot(rise, going);
  const auto off = [&](own::Flat p) { return (p.a * rise + p.b * going) / step; };
  double most = -1e9;
  for (const own::Flat p : stringer.outline) most = std::max(most, off(p));
  std::vector<double> out;
  for (const own::Flat p : stringer.outline) {
    if (off(p) > most - 1e-3) out.push_back((p.b * rise - p.a * going) / step);
  }
  std::ranges::sort(out);
  return out;
}

void marks_are_cumulative(const Plan& plan) {
  const Walked walked(plan);
  const double rise = -walked.landing / static_cast<double>(walked.rises.size());
  const double going = plan.flight.going.raw(), step = std::sqrt(rise * rise + going * going);
  std::set<std::string> carded;
  for (const StringerCard& card : plan.marks.stringers) {
    carded.insert(card.same.begin(), card.same.end());
    ASSERT_EQ(card.marks.size(), walked.treads.size());
    for (std::size_t k = 0; k < card.marks.size(); ++k) {
      EXPECT_NEAR(card.marks[k].raw(), static_cast<double>(k) * step, 1e-4) << "mark " << k + 1;
    }
    EXPECT_EQ(card.overall, card.marks.empty() ? Length() : card.marks.back());
    if (plan.flight.kind == StringerKind::solid) continue;
    for (const std::string& mark : card.same) {
      const Part& part = *std::ranges::find(plan.frame.parts, mark, &Part::mark);
      const std::vector<double> tips = tooth_tips(Solid(part.solid), rise, going);
      ASSERT_EQ(tips.size(), card.marks.size()) << mark;
      for (std::size_t k = 0; k < tips.size(); ++k) EXPECT_NEAR(tips[k] - tips[0], card.marks[k].raw(), 1e-3) << mark;
    }
  }
  for (const Part& part : plan.frame.parts) {
    EXPECT_TRUE(part.kind != PartKind::stringer || carded.contains(part.mark)) << part.mark;
  }
}

bool is_board(const Plan& plan, const Part& part) {
  const bool bought = part.kind == PartKind::connector || part.kind == PartKind::pad_layer ||
                      part.kind == PartKind::existing || part.kind == PartKind::footing ||
                      (part.kind == PartKind::stringer && plan.job.stringers.kind == StringerKind::ready_cut);
  return !bought;
}

double own_length(const Part& part) {
  const Solid solid(part.solid);
  return part.across_outline ? solid.to - solid.from : solid.reach(part.grain_a, part.grain_b);
}

constexpr double kTick = 1.0 / 64.0;   ///< the cut plan rounds every piece up to it
constexpr double kRead = 1.0 / 512.0;  ///< but lays pieces out by their own length

/// Of a new board, what a part that people stand on or hold on to, or that holds one up, has to leave free.
double bad_end_for(const Job& job, const Board& board, const Part& part) {
  const bool may_lie_there = part.kind == PartKind::block || part.kind == PartKind::riser ||
                             part.kind == PartKind::kicker || part.kind == PartKind::baluster ||
                             part.kind == PartKind::cap;
  return board.offcut || may_lie_there || part.species.empty() ? 0.0 : job.yard.bad_end.raw();
}

void every_part_is_cut_once(const Plan& plan) {
  std::map<std::string, int> cut;
  const double kerf = plan.job.yard.kerf.raw();
  for (const Board& board : plan.cuts.boards) {
    EXPECT_FALSE(board.pieces.empty());
    double reached = -kerf, trim = 0;
    for (const PlacedPiece& piece : board.pieces) {
      ++cut[piece.mark];
      const auto part = std::ranges::find(plan.frame.parts, piece.mark, &Part::mark);
      ASSERT_NE(part, plan.frame.parts.end()) << piece.mark;
      EXPECT_TRUE(board.section.starts_with(part->section.nominal)) << piece.mark << " on " << board.section;
      if (reached < 0) {
        trim = board.offcut || part->species.empty() ? 0.0 : plan.job.yard.end_trim.raw();
        reached = trim - kerf;
      }
      EXPECT_GE(piece.from.raw(), reached + kerf - kRead) << piece.mark;
      EXPECT_NEAR((piece.to - piece.from).raw(), own_length(*part), kRead) << piece.mark;
      EXPECT_LE(piece.to.raw(), board.length.raw() - trim - bad_end_for(plan.job, board, *part) + kRead) << piece.mark;
      reached = piece.to.raw();
    }
    const double usable = board.length.raw() - trim;
    EXPECT_LE(reached, usable + kRead);
    EXPECT_NEAR(board.left_over.raw(), std::max(usable - reached - kerf, 0.0), kerf + 4 * kRead);
  }
  std::string impossible = " ";  // "S1, S2: 251 in of 2x12 is longer than ..."
  for (const Problem& p : plan.cuts.impossible) impossible += p.wrong.substr(0, p.wrong.find(':')) + ", ";
  for (const Part& part : plan.frame.parts) {
    const bool said = impossible.find(" " + part.mark + ",") != std::string::npos;
    EXPECT_EQ(cut[part.mark], is_board(plan, part) && !said ? 1 : 0) << part.mark;
  }
}

double ticks_up(double inches) { return std::ceil((inches - 1e-9) / kTick) * kTick; }
double ticks_down(double inches) { return std::floor((inches + 1e-9) / kTick) * kTick; }

/// Boards that first-fit takes, longest piece first, all from one length: a price that nobody clever has to beat.
/// Counted in ticks as docs/cutting.md says: what is cut rounded up, what it is cut from rounded down.
double first_fit_price(std::vector<double> pieces, double usable, double kerf, double price) {
  std::ranges::sort(pieces, std::greater{});
  for (double& piece : pieces) piece = ticks_up(piece);
  kerf = ticks_up(kerf);
  std::vector<double> left;
  for (const double piece : pieces) {
    if (piece > usable + 1e-9) return 1e18;
    const auto board = std::ranges::find_if(left, [&](double room) { return room + 1e-9 >= piece + kerf; });
    if (board != left.end()) {
      *board -= piece + kerf;
    } else {
      left.push_back(usable - piece);
    }
  }
  return static_cast<double>(left.size()) * price;
}

/// The section that an order line begins with.
std::string section_words(const std::string& item) {
  std::string words;
  for (const SectionRow& row : sections()) {
    if (item.starts_with(std::string(row.words) + " x ") && row.words.size() > words.size()) words = row.words;
  }
  return words;
}

void order_covers_the_cuts(const Plan& plan) {
  std::map<std::string, std::int64_t> cost;
  std::map<std::string, std::vector<double>> pieces;
  std::map<std::string, bool> metal;
  std::map<std::pair<std::string, std::int64_t>, int> boards, ordered;  // by words of the section and price
  std::map<std::pair<std::string, double>, int> offcuts;
  for (const Board& board : plan.cuts.boards) {
    const Part& part = *std::ranges::find(plan.frame.parts, board.pieces.front().mark, &Part::mark);
    metal[board.section] = part.species.empty();
    for (const PlacedPiece& piece : board.pieces) pieces[board.section].push_back((piece.to - piece.from).raw());
    cost[board.section] += board.price.cents;
    if (board.offcut) {
      ++offcuts[{part.section.nominal, board.length.raw()}];
    } else {
      // The demo stock has no price in another currency.
      const bool own_price = std::ranges::any_of(
          plan.job.yard.stock, [&](const StockLength& s) { return s.section == part.section.nominal; });
      const bool priced = own_price || plan.job.yard.currency == Yard().currency;
      ++boards[{std::string(find_section(part.section.nominal)->words), priced ? board.price.cents : 0}];
    }
  }
  for (const auto& [key, count] : offcuts) {
    int on_hand = 0;
    for (const Offcut& o : plan.job.yard.offcuts) {
      if (o.section == key.first && std::abs(o.length.raw() - key.second) < 1e-9) on_hand += o.count;
    }
    EXPECT_LE(count, on_hand) << key.first;
  }
  std::int64_t total = 0;
  for (const OrderLine& line : plan.order.lines) {
    total += line.price.cents;
    EXPECT_GE(line.quantity, 1) << line.item;
    EXPECT_EQ(line.price.cents, line.unit_price.cents * line.quantity) << line.item;
    if (line.group == "lumber") {
      ordered[{section_words(line.item), line.unit_price.cents}] += line.quantity;
    }
  }
  EXPECT_EQ(plan.order.total.cents, total);
  EXPECT_EQ(ordered, boards);
  for (const SectionProof& proof : plan.cuts.proofs) {
    EXPECT_EQ(proof.cost.cents, cost[proof.section]) << proof.section;
    EXPECT_LE(proof.bound.cents, proof.cost.cents) << proof.section;
    EXPECT_EQ(proof.optimal, proof.bound == proof.cost) << proof.section;
    // Whole boards of one length, filled without thought.
    const std::string nominal = proof.section.substr(0, proof.section.find(' '));
    bool own_stock = false;
    for (const StockLength& s : plan.job.yard.stock) own_stock = own_stock || s.section == nominal;
    const bool ends_true = metal[proof.section];
    const double trim = ends_true ? 0.0 : 2 * plan.job.yard.end_trim.raw();
    const double bad_end = ends_true ? 0.0 : ticks_up(plan.job.yard.bad_end.raw());
    const auto beaten = [&](double length, std::int64_t price) {
      EXPECT_LE(static_cast<double>(proof.cost.cents),
                first_fit_price(pieces[proof.section], ticks_down(length - trim) - bad_end, plan.job.yard.kerf.raw(),
                                static_cast<double>(price)))
          << proof.section << " from " << length;
    };
    for (const StockLength& s : plan.job.yard.stock) {
      if (s.section == nominal) beaten(s.length.raw(), s.price.cents);
    }
    for (const StockRow& s : demo_stock()) {
      if (!own_stock && s.section == nominal) beaten(s.length_feet * 12, s.price_cents);
    }
  }
}

using Ruled = std::tuple<std::string, std::string, std::string, std::string>;

/// Rows of the pack's edition; an amendment's rows take the place of those of the same quantity and comparison.
std::multiset<Ruled> own_rules_in_force(const Place& place) {
  const auto info = [](const std::string& key) { return *std::ranges::find(packs(), key, &PackInfo::key); };
  const PackInfo pack = info(place.pack);
  std::vector<RuleRow> rows;
  const std::vector<RuleRow> all = all_rules();
  for (const RuleRow& row : all) {
    const std::string editions = " " + std::string(row.editions) + " ";
    const bool holds =
        row.editions.empty() || editions.find(" " + std::string(pack.edition) + " ") != std::string::npos;
    if (row.pack == pack.family && holds) rows.push_back(row);
  }
  for (const std::string& amendment : place.amendments) {
    for (const RuleRow& row : all) {
      if (row.pack != amendment) continue;
      std::erase_if(rows, [&](const RuleRow& old) {
        return old.pack != amendment && old.quantity == row.quantity && old.compare == row.compare;
      });
      rows.push_back(row);
    }
  }
  std::multiset<Ruled> out;
  for (const RuleRow& row : rows) {
    out.insert({std::string(row.quantity), std::string(row.compare), std::string(row.sentence), std::string(row.unit)});
  }
  return out;
}

void every_rule_has_its_finding(const Plan& plan) {
  std::multiset<Ruled> found;
  for (const Finding& f : plan.findings)
    found.insert({std::string(f.quantity), std::string(f.compare), std::string(f.sentence), std::string(f.unit)});
  EXPECT_EQ(found, own_rules_in_force(plan.job.place));
  for (std::size_t i = 1; i < plan.findings.size(); ++i) {
    EXPECT_LE(plan.findings[i - 1].verdict, plan.findings[i].verdict) << "worst first";
  }
}

class Truths : public Shard {};
INSTANTIATE_TEST_SUITE_P(RandomJobs, Truths, ::testing::Range(0u, kShards));

}  // namespace

TEST_P(Truths, RandomJobsAreRealisticJobs) {
  for (std::uint32_t i = 0; i < kJobsInShard; ++i) {
    const Job job = random_job(GetParam() * kJobsInShard + i);
    for (const Problem& p : check_job(job)) ADD_FAILURE() << "job " << i << " " << p.place << ": " << p.wrong;
    for (const Problem& p : check_place(job.place)) ADD_FAILURE() << "job " << i << " " << p.place << ": " << p.wrong;
  }
}

TEST_P(Truths, RisersAddUpToTheRiseThatTheTapeFound) {
  plan_shard(GetParam(), [](std::uint32_t, const Plan& plan) { heights_add_up(plan); });
}

TEST_P(Truths, StringerMarksAreCumulativeAndLieOnTheTeeth) {
  plan_shard(GetParam(), [](std::uint32_t, const Plan& plan) { marks_are_cumulative(plan); });
}

TEST_P(Truths, CutListHoldsEveryBoardPartOnceAndOrderCoversIt) {
  plan_shard(GetParam(), [](std::uint32_t, const Plan& plan) {
    every_part_is_cut_once(plan);
    order_covers_the_cuts(plan);
  });
}

TEST_P(Truths, EveryRuleInForceHasExactlyOneFinding) {
  plan_shard(GetParam(), [](std::uint32_t, const Plan& plan) { every_rule_has_its_finding(plan); });
}

TEST_P(Truths, EqualJobsGiveEqualBytesAlsoThroughAFile) {
  plan_shard(
      GetParam(),
      [](std::uint32_t, const Plan& plan) {
        const std::string once = plan_json(plan);
        EXPECT_EQ(plan_json(*make_plan(plan.job, Depth::quick)), once);
        const std::string file = job_json(plan.job);
        const Result<Job> again = read_job_json(file);
        ASSERT_TRUE(again) << again.error().front().place << again.error().front().wrong;
        EXPECT_EQ(job_json(*again), file);
        EXPECT_EQ(plan_json(*make_plan(*again, Depth::quick)), once);
      },
      kJobsInShard / 5);
}

TEST_P(Truths, JobsThatDoNotFitSayWhatIsWrongAndWhatWouldBeRight) {
  for (std::uint32_t i = 0; i < kJobsInShard; ++i) {
    const Result<Plan> plan = make_plan(random_job(GetParam() * kJobsInShard + i), Depth::quick);
    if (plan) continue;
    EXPECT_FALSE(plan.error().empty());
    for (const Problem& p : plan.error()) {
      EXPECT_FALSE(p.place.empty());
      EXPECT_FALSE(p.wrong.empty());
      EXPECT_FALSE(p.remedy.empty());
    }
  }
}
