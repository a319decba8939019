#include "engine/choose/search.hpp"

#include <algorithm>
#include <array>
#include <functional>
#include <optional>
#include <queue>
#include <set>
#include <span>
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
    const std::vector<std::pair<std::int64_t, Choice>> flights = flights_by_promise();
    std::size_t rails = 0;
    do {
      for (auto from = flights.begin(); from != flights.end();) {
        const auto to =
            std::ranges::find_if(from, flights.end(), [&](const auto& f) { return f.first != from->first; });
        search({from, to}, rails);
        from = to;
      }
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
  /// A stair that shows no fault before it is built, and was not beaten when it was counted.
  struct Waiting {
    Choice choice;
    Key key;
    double ratio = 0;  ///< known of it: no less
    Appraisal stair;
  };
  /// The stairs on a flight that have the rails of this round.
  struct Opened {
    /// With whether there is a hanger board; the ones to which less is added first.
    std::vector<std::pair<Choice, bool>> stairs;
    std::size_t next = 0;
    /// Without and with a hanger board: no other addition has a part in it.
    std::array<std::optional<HoldDownNeed>, 2> need;
    /// What those that were counted come to at the least.
    std::vector<std::pair<Choice, Figures>> least;
    std::optional<Waiting> waiting;
  };

  void keep_rails(std::size_t rails) {
    space_.additions.rails = {space_.additions.rails[rails]};
    for (Option& option : out_.front) option.choice.rails = 0;
  }

  /// Every flight, with how far it is from comfortable: the least first.
  [[nodiscard]] std::vector<std::pair<std::int64_t, Choice>> flights_by_promise() const {
    std::vector<std::pair<std::int64_t, Choice>> out;
    for (Choice c; c.family < space_.families.size(); ++c.family) {
      for (c.flight = 0; c.flight < space_.families[c.family].flights.size(); ++c.flight)
        out.emplace_back(score_of(figures_of(flight_of(c))).comfort, c);
    }
    sort_stably(out);
    return out;
  }

  [[nodiscard]] bool beaten(const Score& bound) const {
    return std::ranges::any_of(out_.front, [&](const Option& o) { return no_worse(o.score, bound); });
  }

  /// Looks at every stair on these flights that has those rails. Of each flight one waits; of those that wait the one
  /// that may be worth most is built first.
  void search(std::span<const std::pair<std::int64_t, Choice>> flights, std::size_t rails) {
    std::vector<Opened> opened;
    std::priority_queue<std::pair<double, std::size_t>, std::vector<std::pair<double, std::size_t>>, std::greater<>>
        queue;
    const auto count_on = [&](std::size_t i) {
      if (count(opened[i])) queue.emplace(worth(job_, score_of(opened[i].least.back().second)), i);
    };
    for (const auto& [promise, flight] : flights) {
      opened.push_back(open(flight, rails));
      count_on(opened.size() - 1);
    }
    while (!queue.empty()) {
      const std::size_t i = queue.top().second;
      queue.pop();
      build(*opened[i].waiting);
      count_on(i);
    }
  }

  [[nodiscard]] Opened open(Choice c, std::size_t rails) {
    const Additions& add = space_.additions;
    Opened out;
    bool plain_hanger = false;
    c.rails = rails;
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
      const std::size_t most = add.mid_supports.size() - 1;
      const int fewest = most > 0 ? fewest_supports(stair_, site_, flight_of(c)) : 0;
      for (c.mid_supports = 0; c.mid_supports <= most; ++c.mid_supports) {
        // Where all are too few the most are looked at, which then say so.
        if (c.mid_supports < most && add.mid_supports[c.mid_supports] < fewest) continue;
        for (c.stringers = 0; c.stringers < space_.stringer_steps(space_.families[c.family]); ++c.stringers)
          out.stairs.emplace_back(c, hanger);
      }
    }
    return out;
  }

  /// RETURNS whether it has a fault that was seen.
  bool known_to_fail(const Choice& c, const Key& key, double& ratio) {
    const Memory::Known known = out_.known.of(key);
    if (known.fault) nearest_[c.family].take(kFarthest, *known.fault);
    ratio = std::max(ratio, known.ratio);
    return known.fault != nullptr;
  }
  bool fails(const Choice& c, const Key& key, const Evaluation& part, double& ratio) {
    out_.known.remember(key, part);
    ratio = std::max(ratio, part.figures.ratio);
    if (!part.faults.empty()) nearest_[c.family].take(kFarthest, part.faults.front().kind);
    return !part.faults.empty();
  }

  /// Counts stairs on the flight until one waits. RETURNS whether one does: it has no fault that was seen or shows
  /// before it is built, and is not beaten, neither at the price of stairs to which no more is added, since whatever is
  /// added costs and is work, nor at its own.
  bool count(Opened& flight) {
    flight.waiting.reset();
    while (flight.next < flight.stairs.size()) {
      const auto& [c, hanger] = flight.stairs[flight.next++];
      const Key key = key_of(space_, c, hanger);
      double ratio = 0;
      if (known_to_fail(c, key, ratio) || beaten_with_less(flight, c, ratio)) continue;
      choose(stair_, job_, space_, c);
      Appraisal stair(stair_, site_, flight_of(c));
      if (fails(c, key, stair.check_guides(), ratio)) continue;
      std::optional<HoldDownNeed>& need = flight.need[hanger];
      const bool counted_fails = fails(c, key, stair.check_counted(out_.known.has(key, kTreadBoards), need), ratio);
      if (!need) need = stair.hold_down_need();
      if (counted_fails) continue;
      // What rules say on width and handrails is soon known of all stairs.
      if (ruled_.insert(about(key, kWidth | kHandrails)).second && fails(c, key, stair.check_rules(), ratio)) continue;
      flight.least.emplace_back(c, stair.least_figures(boards_));
      if (beaten(bound(flight.least.back().second, ratio))) continue;
      flight.waiting.emplace(c, key, ratio, std::move(stair));
      return true;
    }
    return false;
  }

  /// Checks the stair unless it has a fault that was seen by now, or shows one before its treads are on, or is beaten.
  void build(Waiting& waiting) {
    auto& [c, key, ratio, stair] = waiting;
    if (known_to_fail(c, key, ratio) || beaten(bound(stair.least(), ratio))) return;
    choose(stair_, job_, space_, c);
    const auto shows = [&, &c = c, &key = key, &ratio = ratio](const Evaluation& part) {
      return fails(c, key, part, ratio);
    };
    // Where no board closes the risers, rules on them fail often.
    if (stair_.stair.riser_boards == Risers::open && !out_.known.has(key, kSteps) && shows(stair.check_steps())) return;
    const Figures raised = stair.raised_figures(boards_);
    if (beaten(bound(raised, ratio))) return;
    if (shows(stair.check_skeleton(out_.known.has(key, kRails))) || beaten(bound(raised, ratio))) return;
    if (posts_failed_) {
      // Where those of the stair before failed, they are asked first.
      posts_failed_ = shows(stair.check_posts());
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
  [[nodiscard]] bool beaten_with_less(const Opened& flight, const Choice& c, double ratio) const {
    return std::ranges::any_of(flight.least, [&](const auto& less) {
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
  std::set<Key> ruled_;  ///< of stairs whose width and handrails were looked at
  BoardMemory boards_;
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
