#include "engine/choose/search.hpp"

#include <algorithm>
#include <utility>

#include "engine/base/sort.hpp"
#include "engine/buy/buy.hpp"
#include "engine/choose/labour.hpp"
#include "engine/cut/board_search.hpp"

namespace pitchboard {
namespace {

class Searcher {
 public:
  Searcher(const Job& job, const Site& site) : job_(job), site_(site), stair_(job) {
    space_ = space_of(job, site);
    nearest_.resize(space_.families.size());
  }

  Search run() {
    const std::vector<std::pair<double, Choice>> flights = flights_by_promise();
    std::size_t rails = 0;
    do {
      for (const auto& [promise, flight] : flights) open(flight, rails);
    } while (out_.front.empty() && ++rails < space_.additions.rails.size());
    keep_rails(out_.front.empty() ? 0 : rails);
    sort_stably(out_.front, {}, [](const Option& o) { return std::pair(o.score, o.choice); });
    for (std::size_t i = 0; i < out_.front.size(); ++i) {
      if (worth(job_, out_.front[i].score) < worth(job_, out_.front[out_.pick].score)) out_.pick = i;
    }
    for (Nearest& nearest : nearest_) out_.families.push_back(std::move(nearest.fault));
    return std::move(out_);
  }

 private:
  void keep_rails(std::size_t rails) {
    space_.additions.rails = {space_.additions.rails[rails]};
    for (Option& option : out_.front) option.choice.rails = 0;
  }

  /// Every flight, with what comfort alone makes it worth: the least first.
  [[nodiscard]] std::vector<std::pair<double, Choice>> flights_by_promise() const {
    std::vector<std::pair<double, Choice>> out;
    for (Choice c; c.family < space_.families.size(); ++c.family) {
      for (c.flight = 0; c.flight < space_.families[c.family].flights.size(); ++c.flight)
        out.emplace_back(worth(job_, score_of(figures_of(flight_of(c)))), c);
    }
    sort_stably(out);
    return out;
  }

  [[nodiscard]] bool beaten(const Score& bound) const {
    return std::ranges::any_of(out_.front, [&](const Option& o) { return no_worse(o.score, bound); });
  }

  /// Looks at every stair on the flight that has those rails.
  void open(Choice c, std::size_t rails) {
    const Additions& add = space_.additions;
    bool plain_hanger = false;
    c.rails = rails;
    least_.clear();
    for (c.bearing = 0; c.bearing < add.bearing_shares.size(); ++c.bearing) {
      c.stringers = c.mid_supports = 0;
      choose(stair_, job_, space_, c);
      const bool hanger = head_bearing(stair_, site_, flight_of(c)).hanger_board;
      if (c.bearing == 0) plain_hanger = hanger;
      // Where there is a hanger board anyway, asking for more bearing changes nothing.
      if (c.bearing > 0 && hanger == plain_hanger) continue;
      // A fault that no addition mends is looked up once.
      constexpr Matters added = matters({Matter::stringers, Matter::mid_supports, Matter::at_foot});
      if (const Memory::Known known = out_.known.of(key_of(space_, c, hanger), added); known.fault) {
        nearest_[c.family].take(kFarthest, *known.fault);
        continue;
      }
      need_.reset();
      for (c.mid_supports = 0; c.mid_supports < add.mid_supports.size(); ++c.mid_supports) {
        for (c.stringers = 0; c.stringers < space_.stringer_steps(space_.families[c.family]); ++c.stringers)
          consider(c, hanger);
      }
    }
  }

  /// Checks the stair unless it has a fault that was seen, or shows one before its treads are on, or is beaten: first
  /// at the price of stairs on the same flight to which no more is added, since whatever is added costs and is work,
  /// then at its own.
  void consider(const Choice& c, bool hanger) {
    const Key key = key_of(space_, c, hanger);
    const Memory::Known known = out_.known.of(key);
    if (known.fault) {
      nearest_[c.family].take(kFarthest, *known.fault);
      return;
    }
    double ratio = known.ratio;
    if (beaten_with_less(c, ratio)) return;
    choose(stair_, job_, space_, c);
    Appraisal stair(stair_, site_, flight_of(c));
    const auto fails = [&](const Evaluation& part) {
      out_.known.remember(key, part);
      ratio = std::max(ratio, part.figures.ratio);
      if (!part.faults.empty()) nearest_[c.family].take(kFarthest, part.faults.front().kind);
      return !part.faults.empty();
    };
    if (fails(stair.check_guides())) return;
    const bool doomed = fails(stair.check_counted(out_.known.has(key, kTreadBoards), need_));
    if (!need_) need_ = stair.hold_down_need();
    if (doomed) return;
    least_.emplace_back(c, stair.least_figures(boards_));
    if (beaten(bound(least_.back().second, ratio))) return;
    // Where no board closes the risers, rules on them fail often.
    if (stair_.stair.riser_boards == Risers::open && !out_.known.has(key, kSteps) && fails(stair.check_steps())) return;
    const Figures raised = stair.raised_figures(boards_);
    if (beaten(bound(raised, ratio))) return;
    if (fails(stair.check_skeleton(out_.known.has(key, kRails))) || beaten(bound(raised, ratio))) return;
    if (posts_failed_) {
      // Where those of the stair before failed, they are asked first.
      posts_failed_ = fails(stair.check_posts());
      if (posts_failed_) return;
    }
    ++out_.priced;
    if (beaten(bound(stair.price(boards_), ratio))) return;
    ++out_.evaluated;
    const Evaluation now = stair.check([&](const Figures& figures) { return beaten(score_of(figures)); });
    out_.known.remember(key, now);
    posts_failed_ = std::ranges::any_of(now.faults, [](const Fault& fault) { return fault.kind.starts_with("post:"); });
    nearest_[c.family].take(now.faults.size(), now.faults.empty() ? "" : now.faults.front().kind);
    const Score score = score_of(now.figures);
    if (!now.faults.empty() || beaten(score)) return;
    std::erase_if(out_.front, [&](const Option& o) { return no_worse(score, o.score); });
    out_.front.push_back({c, score, now.figures, now.open});
  }
  /// RETURNS the least that a stair with these figures can come to, its weakest check at `ratio`.
  static Score bound(Figures figures, double ratio) {
    figures.ratio = ratio;
    return score_of(figures);
  }
  /// RETURNS whether one on the same flight to which no more is added is beaten, even at that ratio. A stringer more
  /// adds parts alone: where guides let them stand no two drop blocks fit between two. Of more supports at least as
  /// many are certain, and what is counted has the smallest piers.
  [[nodiscard]] bool beaten_with_less(const Choice& c, double ratio) const {
    return std::ranges::any_of(least_, [&](const auto& less) {
      const auto& [other, figures] = less;
      return other.bearing == c.bearing && other.stringers <= c.stringers && other.mid_supports <= c.mid_supports &&
             beaten(bound(figures, ratio));
    });
  }

  [[nodiscard]] const Flight& flight_of(const Choice& choice) const {
    return space_.families[choice.family].flights[choice.flight];
  }

  static constexpr std::size_t kFarthest = 1000;  ///< of a stair not all of whose faults are known
  /// The first fault of the stair of a family that comes nearest; of equals the last, to which most is added.
  struct Nearest {
    std::size_t faults = kFarthest + 1;
    std::string fault;
    void take(std::size_t count, const std::string& words) {
      if (count > faults) return;
      faults = count;
      fault = words;
    }
  };

  const Job& job_;
  const Site& site_;
  Search out_;
  Space& space_ = out_.space;
  Job stair_;  ///< the job with the choice that is looked at
  bool posts_failed_ = false;
  /// Of stairs on the flight that is open, whose heads hang alike: added stringers and supports have no part in it.
  std::optional<HoldDownNeed> need_;
  BoardMemory boards_;
  /// What stairs on the flight that is open, with the rails of this round, come to at the least.
  std::vector<std::pair<Choice, Figures>> least_;
  std::vector<Nearest> nearest_;  ///< one a family
};

}  // namespace

double worth(const Job& job, const Score& score) {
  const bool demo = in_demo_currency(job);
  const auto weight = [&](const std::optional<Money>& own, std::string_view key) {
    return own ? static_cast<double>(own->cents) : demo ? choosing_figure(key) * 100.0 : 0.0;
  };
  return static_cast<double>(score.cost) +
         static_cast<double>(score.work) / 4.0 * weight(job.choose.hour_worth, "hour-worth") +
         static_cast<double>(score.comfort) / 4.0 * weight(job.choose.comfort_worth, "comfort-worth");
}

Search search_stairs(const Job& job, const Site& site) { return Searcher(job, site).run(); }

}  // namespace pitchboard
