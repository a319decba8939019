#include "engine/choose/search.hpp"

#include <algorithm>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <utility>

#include "engine/base/sort.hpp"
#include "engine/buy/buy.hpp"
#include "engine/choose/labour.hpp"

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
  /// A stair that is looked at.
  struct Look {
    Choice choice;
    Key key;
    double ratio = 0;  ///< known of it: no less
  };
  /// One that shows no fault before it is built, and was not beaten when it was counted.
  struct Waiting {
    Look at;
    Appraisal stair;
    Waiting(const Look& look, const Job& job, const Site& site, const Flight& flight, Shared& shared)
        : at(look), stair(job, site, flight, shared) {}
  };
  /// The stairs on a flight that have the rails of this round.
  struct Opened {
    /// With whether there is a hanger board; the ones to which less is added first.
    std::vector<std::pair<Choice, bool>> stairs;
    std::size_t next = 0;
    /// What those that were counted come to at the least.
    std::vector<std::pair<Choice, Figures>> least;
    std::unique_ptr<Waiting> waiting;
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
    std::vector<Opened> opened(flights.size());
    std::vector<std::pair<double, std::size_t>> waiting;  // by what the stair on that flight may be worth
    const auto count_on = [&](std::size_t i) {
      if (count(opened[i])) waiting.emplace_back(worth(job_, score_of(opened[i].least.back().second)), i);
    };
    for (std::size_t i = 0; i < flights.size(); ++i) {
      open(opened[i], flights[i].second, rails);
      count_on(i);
    }
    while (!waiting.empty()) {
      std::swap(*std::ranges::min_element(waiting), waiting.back());
      const std::size_t i = waiting.back().second;
      waiting.pop_back();
      build(*opened[i].waiting);
      count_on(i);
    }
  }

  void open(Opened& out, Choice c, std::size_t rails) {
    const Additions& add = space_.additions;
    HeadBearing head;  // with the least share, which comes first
    c.rails = rails;
    for (c.bearing = 0; c.bearing < add.bearing_shares.size(); ++c.bearing) {
      // Asking for more bearing changes nothing where there is a hanger board anyway, or still none.
      if (c.bearing > 0 && (head.hanger_board || !head.wants_board(add.bearing_shares[c.bearing]))) continue;
      c.stringers = c.mid_supports = 0;
      choose(stair_, job_, space_, c);
      if (c.bearing == 0) head = head_bearing(stair_, site_, flight_of(c));
      const bool hanger = c.bearing > 0 || head.hanger_board;
      // A fault that no addition mends is looked up once.
      constexpr Matters kAdded = matters({Matter::stringers, Matter::mid_supports, Matter::at_foot});
      if (Look at{c, key_of(space_, c, hanger)}; known_to_fail(at, kAdded)) continue;
      const std::size_t most = add.mid_supports.size() - 1;
      const int fewest = most > 0 ? fewest_supports(stair_, site_, flight_of(c)) : 0;
      for (c.mid_supports = 0; c.mid_supports <= most; ++c.mid_supports) {
        // Where all are too few the most are looked at, which then say so.
        if (c.mid_supports < most && add.mid_supports[c.mid_supports] < fewest) continue;
        for (c.stringers = 0; c.stringers < space_.stringer_steps(space_.families[c.family]); ++c.stringers)
          out.stairs.emplace_back(c, hanger);
      }
    }
  }

  /// RETURNS whether it has a fault that was seen; `whatever`: see Memory::of.
  bool known_to_fail(Look& at, Matters whatever = 0) {
    const Memory::Known known = out_.known.of(at.key, whatever);
    if (known.fault) nearest_[at.choice.family].take(kFarthest, *known.fault);
    at.ratio = std::max(at.ratio, known.ratio);
    return known.fault != nullptr;
  }
  /// RETURNS whether that part of its check shows a fault.
  bool fails(Look& at, const Evaluation& part) {
    out_.known.remember(at.key, part);
    at.ratio = std::max(at.ratio, part.figures.ratio);
    if (!part.faults.empty()) nearest_[at.choice.family].take(kFarthest, part.faults.front().kind);
    return !part.faults.empty();
  }

  /// Counts stairs on the flight until one waits. RETURNS whether one does: it has no fault that was seen or shows
  /// before it is built, and is not beaten, neither at the price of stairs to which no more is added, since whatever is
  /// added costs and is work, nor at its own.
  bool count(Opened& flight) {
    while (flight.next < flight.stairs.size()) {
      const auto& [c, hanger] = flight.stairs[flight.next++];
      Look at{c, key_of(space_, c, hanger)};
      if (known_to_fail(at) || beaten_with_less(flight, at)) continue;
      choose(stair_, job_, space_, c);
      flight.waiting = std::make_unique<Waiting>(at, stair_, site_, flight_of(c), shared_);
      Appraisal& stair = flight.waiting->stair;
      if (fails(at, stair.check_guides())) continue;
      std::shared_ptr<const HoldDownNeed>& need = need_[about(at.key, kPosts)];
      const Evaluation posts = stair.check_counted_posts(need);
      need = stair.hold_down_need();
      if (fails(at, posts)) continue;
      if (fails(at, stair.check_counted_treads(out_.known.has(at.key, kTreadBoards)))) continue;
      // What rules say on width and handrails is soon known of all stairs.
      if (const Key of = about(at.key, kWidth | kHandrails); std::ranges::find(ruled_, of) == ruled_.end()) {
        ruled_.push_back(of);
        if (fails(at, stair.check_rules())) continue;
      }
      flight.least.emplace_back(c, stair.least_figures());
      if (beaten(bound(stair.least(), at.ratio))) continue;
      flight.waiting->at = at;
      stair.let_go();
      return true;
    }
    flight.waiting.reset();
    return false;
  }

  /// Checks the stair unless it has a fault that was seen by now, or shows one before its treads are on, or is beaten.
  void build(Waiting& waiting) {
    Look& at = waiting.at;
    Appraisal& stair = waiting.stair;
    const Choice& c = at.choice;
    const auto known = [&](Matters of) { return out_.known.has(at.key, of); };
    if (known_to_fail(at) || beaten(bound(stair.least(), at.ratio))) return;
    choose(stair_, job_, space_, c);
    // Where no board closes the risers, rules on them fail often.
    if (stair_.stair.riser_boards == Risers::open && !known(kSteps) && fails(at, stair.check_steps())) return;
    std::optional<int>& standing = standing_[about(at.key, kStringers)];
    if (!standing) standing = stair.standing();
    const Figures raised = stair.raised_figures(*standing);
    if (beaten(bound(raised, at.ratio))) return;
    const bool all_known = known(kStringers) && known(kRails);
    if (!all_known && (fails(at, stair.check_skeleton(known(kRails))) || beaten(bound(raised, at.ratio)))) return;
    if (posts_failed_) {
      // Where those of the stair before failed, they are asked first.
      posts_failed_ = fails(at, stair.check_posts());
      if (posts_failed_) return;
    }
    ++out_.priced;
    if (beaten(bound(stair.price(), at.ratio))) return;
    ++out_.evaluated;
    const Evaluation now = stair.check([&](const Figures& figures) { return beaten(score_of(figures)); });
    out_.known.remember(at.key, now);
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
  [[nodiscard]] bool beaten_with_less(const Opened& flight, const Look& at) const {
    return std::ranges::any_of(flight.least, [&](const auto& less) {
      const auto& [other, figures] = less;
      const Choice& c = at.choice;
      return other.bearing == c.bearing && other.stringers <= c.stringers && other.mid_supports <= c.mid_supports &&
             beaten(bound(figures, at.ratio));
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
  // By what they are a matter of:
  std::map<Key, std::shared_ptr<const HoldDownNeed>> need_;  ///< hold-downs that posts cannot do without
  std::map<Key, std::optional<int>> standing_;               ///< mid supports
  std::vector<Key> ruled_;                                   ///< of stairs whose width and handrails were looked at
  Shared shared_;
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
