#include "engine/least_change.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "engine/base/catalog.hpp"
#include "engine/choose/front.hpp"

namespace pitchboard {
namespace {

/// Changes tried together. More than four is another stair, not a change.
constexpr std::size_t kMostChanges = 4;

/// One thing that a carpenter can do about a weak stair.
struct Move {
  Change change;
  std::function<void(Job&)> apply;
};

/// RETURNS the moves that this job leaves open, each a single step.
std::vector<Move> open_moves(const Plan& plan) {
  const Job& job = plan.job;
  std::vector<Move> out;
  const auto offer = [&](std::string key, std::string value, std::string why, std::function<void(Job&)> apply) {
    out.push_back({{std::move(key), std::move(value), std::move(why)}, std::move(apply)});
  };
  const int stringers = static_cast<int>(std::ranges::count(plan.frame.parts, PartKind::stringer, &Part::kind));
  const bool solid = job.stringers.kind == StringerKind::solid;
  for (const int more : {1, 2}) {
    if (solid) break;
    offer("stringers.count", std::to_string(stringers + more), "more stringers share the load",
          [=](Job& j) { j.stringers.count = stringers + more; });
  }
  const int beams = static_cast<int>(std::ranges::count(plan.frame.parts, PartKind::support_beam, &Part::kind));
  if (beams < 3) {
    offer("stringers.mid_supports", std::to_string(beams + 1), "posts and a beam halve the span",
          [=](Job& j) { j.stringers.mid_supports = beams + 1; });
  }
  if (job.stringers.kind == StringerKind::cut) {
    offer("stringers.kind", "\"solid\"", "uncut stringers keep their whole depth", [](Job& j) {
      j.stringers.kind = StringerKind::solid;
      j.stringers.count.reset();
    });
    if (find_section("2x14") && job.stringers.board == "2x12") {
      offer("stringers.board", "\"2x14\"", "deeper stringers leave more wood under the notches",
            [](Job& j) { j.stringers.board = "2x14"; });
    }
  }
  if (job.stringers.bearing_share < 1.0 && !plan.frame.head.hanger_board) {
    offer("stringers.bearing_share", "1.0", "a hanger board, so that the whole plumb cut bears",
          [](Job& j) { j.stringers.bearing_share = 1.0; });
  }
  for (const char* treads : {"two 2x6", "one 2x12"}) {
    const TreadMake make = treads[0] == 't' ? TreadMake::two_2x6 : TreadMake::one_2x12;
    if (job.stair.treads == make || job.stair.treads == TreadMake::custom) continue;
    offer("stair.treads", fmt::format("\"{}\"", treads), "stiffer treads", [=](Job& j) { j.stair.treads = make; });
  }
  for (const char* grade : {"no1", "ss"}) {
    if (job.wood.grade == grade || (job.wood.grade == "ss" && grade[0] == 'n')) continue;
    offer("wood.grade", fmt::format("\"{}\"", grade), "a better grade", [=](Job& j) { j.wood.grade = grade; });
  }
  if (job.rails.left == SideRail::none && job.rails.right == SideRail::none) return out;
  for (const char* post : {"4x6", "6x6"}) {
    const SectionRow* now = find_section(job.rails.post);
    const SectionRow* row = find_section(post);
    if (!now || !row || row->thickness * row->width <= now->thickness * now->width) continue;
    offer("rails.post", fmt::format("\"{}\"", post), "larger posts", [=](Job& j) { j.rails.post = post; });
  }
  if (job.rails.post_bolt == BoltSize::half_inch) {
    offer("rails.post_bolt", "\"5/8 in\"", "thicker bolts", [](Job& j) { j.rails.post_bolt = BoltSize::five_eighths; });
  }
  if (!job.rails.hold_downs) {
    offer("rails.hold_downs", "true", "the pull of the upper bolt is taken back into the frame",
          [](Job& j) { j.rails.hold_downs = true; });
  }
  if (job.rails.foot_posts == FootPosts::bolted) {
    offer("rails.foot_posts", "\"footing\"", "the ground, not the stringer, holds the lowest posts",
          [](Job& j) { j.rails.foot_posts = FootPosts::footing; });
  }
  for (const double apart : {48.0, 36.0}) {
    if (job.rails.post_spacing_at_most <= inches(apart)) continue;
    offer("rails.post_spacing_at_most", fmt::format("\"{} in\"", apart), "posts closer together",
          [=](Job& j) { j.rails.post_spacing_at_most = inches(apart); });
  }
  return out;
}

/// How far a plan is from passing: fewer failing checks first, then by how much they fail.
struct Distance {
  std::size_t failing = 0;
  double excess = 0;
  friend auto operator<=>(const Distance&, const Distance&) = default;
};

/// What a joint that carries nothing, a broken rule or a clash counts.
constexpr double kNothing = 10.0;

double excess_of(const Check& check) { return check.capacity > 0 ? std::min(check.ratio - 1.0, kNothing) : kNothing; }

std::size_t broken_rules(const Plan& plan) {
  return static_cast<std::size_t>(std::ranges::count(plan.findings, Verdict::fail, &Finding::verdict)) +
         plan.frame.clashes.size() + plan.cuts.impossible.size();
}

/// Rules, clashes and cuts that get worse count as failing checks: a change must not move the trouble elsewhere.
Distance distance_of(const Plan& plan, std::size_t broken_before) {
  Distance out;
  for (const Check& check : plan.strength.checks) {
    if (check.verdict != Verdict::fail) continue;
    ++out.failing;
    out.excess += excess_of(check);
  }
  const std::size_t broken = broken_rules(plan);
  if (broken > broken_before) {
    out.failing += broken - broken_before;
    out.excess += kNothing * static_cast<double>(broken - broken_before);
  }
  return out;
}

std::string name_of(const Check& check) { return check.where + ", " + check.what; }

/// RETURNS by how much the worst failing check of that kind fails; -1 where none does.
double worst_excess(const Plan& plan, const Check& kind) {
  double worst = -1;
  for (const Check& check : plan.strength.checks) {
    if (check.member == kind.member && check.what == kind.what && check.verdict == Verdict::fail)
      worst = std::max(worst, excess_of(check));
  }
  return worst;
}

/// True when the other plan makes some failing check of this one less bad, or is rid of it.
bool helps(const Plan& before, const Plan& after) {
  return std::ranges::any_of(before.strength.checks, [&](const Check& check) {
    return check.verdict == Verdict::fail && worst_excess(after, check) < worst_excess(before, check) - 1e-9;
  });
}

struct Trial {
  std::vector<std::size_t> moves;
  Plan plan;
  Distance distance;
  Money cost;
};

class MoveSearch {
 public:
  explicit MoveSearch(const Plan& plan)
      : plan_(plan),
        moves_(open_moves(plan)),
        broken_before_(broken_rules(plan)),
        now_(distance_of(plan, broken_before_)) {}

  /// Sets of moves that help, smallest sets first; a set that passes is not grown.
  std::optional<Trial> run() {
    if (now_.failing == 0) return std::nullopt;
    std::vector<std::size_t> useful;
    std::vector<std::vector<std::size_t>> front;  // sets that do not pass yet
    for (std::size_t m = 0; m < moves_.size(); ++m) {
      std::optional<Trial> trial = tried({m});
      if (!trial || !helps(plan_, trial->plan)) continue;
      useful.push_back(m);
      keep(*trial);
      if (trial->distance.failing > 0) front.push_back(std::move(trial->moves));
    }
    for (std::size_t size = 2; size <= kMostChanges && !front.empty(); ++size) {
      std::vector<std::vector<std::size_t>> next;
      for (const std::vector<std::size_t>& base : front) {
        for (const std::size_t m : useful) {
          if (m <= base.back() || same_key(base, m)) continue;
          std::vector<std::size_t> moves = base;
          moves.push_back(m);
          std::optional<Trial> trial = tried(moves);
          if (!trial) continue;
          keep(*trial);
          if (trial->distance.failing > 0) next.push_back(std::move(trial->moves));
        }
      }
      front = std::move(next);
    }
    return std::move(best_);
  }
  [[nodiscard]] const Change& change(std::size_t move) const { return moves_[move].change; }

 private:
  [[nodiscard]] bool same_key(const std::vector<std::size_t>& moves, std::size_t m) const {
    return std::ranges::any_of(moves, [&](std::size_t i) { return moves_[i].change.key == moves_[m].change.key; });
  }
  [[nodiscard]] std::optional<Trial> tried(const std::vector<std::size_t>& moves) const {
    Job job = plan_.job;
    for (const std::size_t m : moves) moves_[m].apply(job);
    Result<Plan> plan = make_plan(job, Depth::quick);
    if (!plan) return std::nullopt;
    const Distance distance = distance_of(*plan, broken_before_);
    const Money cost = plan->order.total;
    return Trial{moves, std::move(*plan), distance, cost};
  }
  void keep(const Trial& trial) {
    // Short of passing, a change that mends one thing by spoiling another is none.
    if (trial.distance.failing > now_.failing || trial.distance.excess >= now_.excess) return;
    const auto rank = [](const Trial& t) { return std::tuple(t.distance, t.cost.cents, t.moves.size()); };
    if (!best_ || rank(trial) < rank(*best_)) best_ = trial;
  }

  const Plan& plan_;
  std::vector<Move> moves_;
  std::size_t broken_before_;
  Distance now_;
  std::optional<Trial> best_;
};

}  // namespace

Remedy least_change(const Plan& plan) {
  Remedy remedy;
  remedy.job = plan.job;
  const Plan* after = &plan;
  MoveSearch search(plan);
  const std::optional<Trial> best = search.run();
  if (best) {
    for (const std::size_t move : best->moves) remedy.changes.push_back(search.change(move));
    remedy.job = best->plan.job;
    remedy.dearer = {best->cost.cents - plan.order.total.cents};
    after = &best->plan;
  }
  for (const Check& check : after->strength.checks) {
    if (check.verdict == Verdict::fail)
      remedy.left.push_back(fmt::format("{}: ratio {:.2f}", name_of(check), check.ratio));
    if (check.verdict == Verdict::not_checked) {
      remedy.ask.push_back(name_of(check) +
                           (check.demand > 0 ? fmt::format(": {:.0f} {}", check.demand, check.unit) : "") +
                           (check.note.empty() ? "" : ". " + check.note));
    }
  }
  return remedy;
}

std::optional<Freed> least_change(const Job& job, const Conflict& conflict) {
  if (conflict.kinds.empty()) return std::nullopt;
  std::vector<Choice> stairs{conflict.nearest.choice};
  for (const InTheWay& kind : conflict.kinds) {
    if (std::ranges::find(stairs, kind.witness.choice) == stairs.end()) stairs.push_back(kind.witness.choice);
  }
  for (const Choice& choice : stairs) {
    const Result<Plan> plan = make_plan(job_of(job, conflict.space, choice), Depth::quick);
    // Only strength is changed here: what a rule, a clash or a board forbids stays.
    if (!plan || broken_rules(*plan) > 0) continue;
    Remedy remedy = least_change(*plan);
    if (remedy.left.empty() && !remedy.changes.empty()) return Freed{choice, std::move(remedy)};
  }
  return std::nullopt;
}

}  // namespace pitchboard
