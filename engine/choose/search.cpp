#include "engine/choose/search.hpp"

#include <algorithm>
#include <array>
#include <limits>
#include <map>
#include <queue>
#include <set>

#include "engine/buy/materials.hpp"
#include "engine/choose/labour.hpp"
#include "engine/frame/frame.hpp"

namespace pitchboard {
namespace {

/// Stairs of one family: a range of each thing that can be added and of the goings, both ends included.
struct Box {
  Choice low, high;
  std::int64_t cents = 0;         ///< no stair in it costs less, without its landing
  double minutes = 0, ratio = 0;  ///< the same for work and the weakest check
  double worth = 0;               ///< of its bound
  std::size_t born = 0;           ///< order of birth, so that equals are taken in turn
};
struct Later {
  bool operator()(const Box& a, const Box& b) const { return a.worth != b.worth ? a.worth > b.worth : a.born > b.born; }
};

/// What is added, in the order in which a box is split.
constexpr std::array kRanges{&Choice::rails, &Choice::mid_supports, &Choice::bearing, &Choice::flight,
                             &Choice::stringers};

/// A choice as numbers, one a matter: equal numbers, equal choices.
using Key = std::array<std::uint16_t, kMatters>;

/// RETURNS the key with everything that is no matter of it set to 0.
Key about(Key key, Matters of) {
  for (std::size_t i = 0; i < kMatters; ++i) {
    if (!(of & (1u << i))) key[i] = 0;
  }
  return key;
}
std::uint16_t entry(const Key& key, Matter matter) { return key[static_cast<std::size_t>(matter)]; }

/// The faults that were seen, and which other stairs have them too.
class Faults {
 public:
  void remember(const Key& key, const Fault& fault) {
    same_[fault.matters].insert(about(key, fault.matters));
    if (fault.grows == Grows::not_so) return;
    const Matters others = fault.matters & ~(fault.grows == Grows::with_going ? matters({Matter::going}) : kGrowing);
    worse_[others][about(key, others)].push_back({entry(key, Matter::going), entry(key, Matter::stringers)});
  }
  /// True when each stair from `low` to `high`, which differ in `ranging`, has a fault that was seen in another.
  [[nodiscard]] bool in_all(const Key& low, const Key& high, Matters ranging) const {
    for (const auto& [of, keys] : same_) {
      if (!(of & ranging) && keys.contains(about(low, of))) return true;
    }
    for (const auto& [of, places] : worse_) {
      if (of & ranging) continue;
      const auto at = places.find(about(low, of));
      if (at == places.end()) continue;
      for (const auto& [going, stringers] : at->second) {
        if (entry(low, Matter::going) >= going && entry(high, Matter::stringers) <= stringers) return true;
      }
    }
    return false;
  }

 private:
  static constexpr Matters kGrowing = matters({Matter::going, Matter::stringers});
  std::map<Matters, std::set<Key>> same_;
  std::map<Matters, std::map<Key, std::vector<std::pair<std::uint16_t, std::uint16_t>>>> worse_;
};

class Searcher {
 public:
  Searcher(const Job& job, const Site& site) : job_(job), site_(site) { space_ = space_of(job, site); }

  Search run() {
    keep_rails_that_hold();
    open_families();
    while (!boxes_.empty()) {
      const Box box = boxes_.top();
      boxes_.pop();
      if (!beaten(bound_of(box))) open(box);
    }
    std::ranges::sort(out_.front, {}, [](const Option& o) { return std::pair(o.score, o.choice); });
    for (std::size_t i = 0; i < out_.front.size(); ++i) {
      if (worth(job_, out_.front[i].score) < worth(job_, out_.front[out_.pick].score)) out_.pick = i;
    }
    tell_families();
    out_.evaluated = known_.size();
    out_.stepped = steps_.size();
    return std::move(out_);
  }

 private:
  /// What holds the posts depends little on the rest of the stair: the first scheme under which guards and rails of the
  /// job's own stair hold is everybody's. Each stair is still checked with it.
  void keep_rails_that_hold() {
    std::vector<RailScheme>& rails = space_.additions.rails;
    if (rails.size() == 1 || space_.families.empty()) return;
    const auto own = std::ranges::find_if(space_.families, [&](const Family& f) {
      return f.top == job_.stair.top && f.stringers.kind == job_.stringers.kind &&
             f.stringers.board == job_.stringers.board && f.treads == job_.stair.treads &&
             f.riser_boards == job_.stair.riser_boards;
    });
    Choice choice{.family = own == space_.families.end() ? 0 : static_cast<std::size_t>(own - space_.families.begin())};
    std::size_t holding = 0;
    for (; choice.rails < rails.size(); ++choice.rails) {
      const std::vector<Fault> faults = evaluate(chosen(job_, space_, choice), site_, flight_of(choice)).faults;
      if (std::ranges::none_of(faults, [](const Fault& f) { return f.grows == Grows::with_going; })) {
        holding = choice.rails;
        break;
      }
    }
    rails = {rails[holding]};
  }

  void tell_families() {
    struct Nearest {
      std::size_t faults = 0;
      std::string first;
    };
    std::map<std::size_t, Nearest> nearest;
    const auto look = [&](std::size_t family, const std::vector<Fault>& faults) {
      const auto [at, fresh] = nearest.try_emplace(family);
      if (fresh || faults.size() < at->second.faults)
        at->second = {faults.size(), faults.empty() ? "" : faults.front().words};
    };
    for (const auto& [choice, evaluation] : known_) look(choice.family, evaluation.faults);
    std::set<std::size_t> checked;
    for (const auto& [family, fault] : nearest) checked.insert(family);
    for (const auto& [choice, steps] : steps_) {
      if (!checked.contains(choice.family) && !steps.empty()) look(choice.family, steps);
    }
    out_.families.resize(space_.families.size());
    for (const auto& [family, fault] : nearest) out_.families[family] = fault.first;
  }

  void open_families() {
    const Space& space = space_;
    for (std::size_t i = 0; i < space.families.size(); ++i) {
      const Family& family = space.families[i];
      push({.low = {.family = i},
            .high = {.family = i,
                     .flight = family.flights.size() - 1,
                     .stringers = space.stringer_steps(family) - 1,
                     .bearing = space.additions.bearing_shares.size() - 1,
                     .mid_supports = space.additions.mid_supports.size() - 1,
                     .rails = space.additions.rails.size() - 1}});
    }
  }

  void push(Box box) {
    box.worth = worth(job_, bound_of(box));
    box.born = born_++;
    boxes_.push(std::move(box));
  }

  /// RETURNS what no stair of the box is better than, in anything.
  Score bound_of(const Box& box) {
    Figures least = flight_figures(box.low);
    for (Choice at = box.low; at.flight <= box.high.flight; ++at.flight) {
      const Figures& here = flight_figures(at);
      least.landing_cents = std::min(least.landing_cents, here.landing_cents);
      least.landing_minutes = std::min(least.landing_minutes, here.landing_minutes);
      least.comfort = std::min(least.comfort, here.comfort);
      least.lift = std::min(abs(least.lift), abs(here.lift));
    }
    least.cents = box.cents + least.landing_cents;
    least.minutes = box.minutes + least.landing_minutes;
    least.ratio = box.ratio;
    return score_of(least);
  }

  [[nodiscard]] bool beaten(const Score& bound) const {
    return std::ranges::any_of(out_.front, [&](const Option& o) { return no_worse(o.score, bound); });
  }
  /// True when a box of that bound is beaten if only its stairs are weak enough.
  [[nodiscard]] bool beaten_if_weak(Score bound) const {
    bound.ratio = std::numeric_limits<std::int64_t>::max();
    return beaten(bound);
  }

  void open(Box box) {
    if (faults_.in_all(key_of(box.low), key_of(box.high), ranging(box))) return;
    // Steps that break a rule do so with anything added, but another bearing may change what closes the top one.
    while (box.low.bearing == box.high.bearing && !steps_kept(box.low)) {
      if (box.low.flight++ == box.high.flight) return;
    }
    if (!excluded(box.low)) {
      const Figures& least = known(box.low).figures;
      box.cents = std::max(box.cents, least.cents - least.landing_cents);
      box.minutes = std::max(box.minutes, least.minutes - least.landing_minutes);
    }
    if (box.low == box.high || beaten(bound_of(box))) return;
    Choice strongest = box.high;
    strongest.flight = box.low.flight;
    const bool one_make = box.low.rails == box.high.rails && box.low.mid_supports == box.high.mid_supports &&
                          box.low.bearing == box.high.bearing;
    if (one_make && (excluded(box.low) || !known(box.low).faults.empty() || beaten_if_weak(bound_of(box))) &&
        !excluded(strongest)) {
      box.ratio = std::max(box.ratio, known(strongest).figures.ratio);
      if (box.ratio > 1.0 + 1e-9 || beaten(bound_of(box))) return;
    }
    split(box);
  }

  /// True when the higher share of bearing changes nothing in any stair of the box.
  bool all_hung(const Box& box) {
    for (Choice at = box.low; at.flight <= box.high.flight; ++at.flight) {
      Choice high = at;
      high.bearing = box.high.bearing;
      if (hanger(at) != hanger(high)) return false;
    }
    return true;
  }

  /// Halves the first range that is one.
  void split(const Box& box) {
    for (const auto range : kRanges) {
      if (box.low.*range == box.high.*range) continue;
      Box lower = box, upper = box;
      lower.high.*range = (box.low.*range + box.high.*range) / 2;
      upper.low.*range = lower.high.*range + 1;
      push(std::move(lower));
      if (range != &Choice::bearing || !all_hung(box)) push(std::move(upper));
      return;
    }
  }

  /// RETURNS the matters in which the stairs of the box differ.
  Matters ranging(const Box& box) {
    const Key low = key_of(box.low), high = key_of(box.high);
    Matters out = 0;
    for (std::size_t i = 0; i < kMatters; ++i) out |= low[i] != high[i] ? 1u << i : 0u;
    // Whether there is a hanger board changes with the going too.
    return box.low.flight != box.high.flight && space_.additions.bearing_shares.size() > 1
               ? out | matters({Matter::hanger})
               : out;
  }
  [[nodiscard]] bool excluded(const Choice& choice) { return faults_.in_all(key_of(choice), key_of(choice), 0); }
  Key key_of(const Choice& choice) {
    const Family& family = space_.families[choice.family];
    const StringerMake& make = family.stringers;
    const auto same_board = [&](const Family& f) { return f.stringers.board == make.board; };
    const auto number = [](auto value) { return static_cast<std::uint16_t>(value); };
    return {number(family.top),
            number(static_cast<std::size_t>(make.kind) + 3 * make.ready_cut.value_or(0)),
            number(std::ranges::find_if(space_.families, same_board) - space_.families.begin()),
            number(family.treads),
            number(family.riser_boards),
            number(family.risers),
            number(flight_of(choice).going / inches(1.0 / 1024.0)),
            number(choice.stringers),
            number(hanger(choice)),
            number(choice.mid_supports),
            number(choice.rails)};
  }
  bool hanger(Choice choice) {
    choice.stringers = choice.mid_supports = choice.rails = 0;
    const auto [at, fresh] = hangers_.try_emplace(choice);
    if (fresh) at->second = head_bearing(chosen(job_, space_, choice), site_, flight_of(choice)).hanger_board;
    return at->second;
  }

  const Evaluation& known(const Choice& choice) {
    const auto [at, fresh] = known_.try_emplace(choice);
    if (!fresh) return at->second;
    at->second = evaluate(chosen(job_, space_, choice), site_, flight_of(choice));
    const Evaluation& now = at->second;
    for (const Fault& fault : now.faults) faults_.remember(key_of(choice), fault);
    const Score score = score_of(now.figures);
    if (now.faults.empty() && !beaten(score)) {
      std::erase_if(out_.front, [&](const Option& o) { return no_worse(score, o.score); });
      out_.front.push_back({choice, score, now.figures, now.open});
    }
    return now;
  }
  bool steps_kept(Choice choice) {
    choice.stringers = choice.mid_supports = choice.rails = 0;
    const auto [at, fresh] = steps_.try_emplace(choice);
    if (fresh && !excluded(choice)) {
      at->second = steps_faults(chosen(job_, space_, choice), site_, flight_of(choice));
      for (const Fault& fault : at->second) faults_.remember(key_of(choice), fault);
    }
    return at->second.empty();
  }
  const Figures& flight_figures(const Choice& choice) {
    const auto [at, fresh] = flights_.try_emplace({choice.family, choice.flight});
    if (fresh) at->second = figures_of(chosen(job_, space_, choice), site_, flight_of(choice));
    return at->second;
  }
  [[nodiscard]] const Flight& flight_of(const Choice& choice) const {
    return space_.families[choice.family].flights[choice.flight];
  }

  const Job& job_;
  const Site& site_;
  Search out_;
  Space& space_ = out_.space;
  std::map<Choice, Evaluation> known_;
  std::map<Choice, std::vector<Fault>> steps_;
  std::map<std::pair<std::size_t, std::size_t>, Figures> flights_;  ///< by family and flight
  std::map<Choice, bool> hangers_;
  Faults faults_;
  std::priority_queue<Box, std::vector<Box>, Later> boxes_;
  std::size_t born_ = 0;
};

}  // namespace

double worth(const Job& job, const Score& score) {
  const bool demo = job.yard.currency == buying_figure("demo-currency").words;
  const auto weight = [&](const std::optional<Money>& own, std::string_view key) {
    return own ? static_cast<double>(own->cents) : demo ? choosing_figure(key) * 100.0 : 0.0;
  };
  return static_cast<double>(score.cost) +
         static_cast<double>(score.work) / 4.0 * weight(job.choose.hour_worth, "hour-worth") +
         static_cast<double>(score.comfort) / 4.0 * weight(job.choose.comfort_worth, "comfort-worth");
}

Search search_stairs(const Job& job, const Site& site) { return Searcher(job, site).run(); }

}  // namespace pitchboard
