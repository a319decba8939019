#include "engine/choose/search.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "engine/buy/buy.hpp"
#include "engine/choose/labour.hpp"
#include "engine/frame/frame.hpp"

namespace pitchboard {
namespace {

/// A choice as numbers, one a matter: equal numbers, equal choices.
using Key = std::array<std::uint16_t, kMatters>;

/// RETURNS the key with everything that is no matter of it set to 0.
Key about(Key key, Matters of) {
  for (std::size_t i = 0; i < kMatters; ++i) {
    if (!(of & (1u << i))) key[i] = 0;
  }
  return key;
}

/// The faults that were seen, and which other stairs have them too.
class Faults {
 public:
  void remember(const Key& key, const Fault& fault) { same_[fault.matters].insert(about(key, fault.matters)); }
  /// True when the stair has a fault that was seen in another.
  [[nodiscard]] bool in(const Key& key) const {
    return std::ranges::any_of(same_, [&](const auto& of) { return of.second.contains(about(key, of.first)); });
  }

 private:
  std::map<Matters, std::set<Key>> same_;
};

class Searcher {
 public:
  Searcher(const Job& job, const Site& site) : job_(job), site_(site) { space_ = space_of(job, site); }

  Search run() {
    keep_rails_that_hold();
    for (const auto& [promise, least] : flights_by_promise()) open(least);
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
    const auto holds = [&](std::size_t scheme) {
      choice.rails = scheme;
      return std::ranges::none_of(evaluate(chosen(job_, space_, choice), site_, flight_of(choice)).faults,
                                  &Fault::of_guard);
    };
    std::size_t first = 0;
    while (first < rails.size() && !holds(first)) ++first;
    rails = {rails[first < rails.size() ? first : 0]};
  }

  void tell_families() {
    std::vector<const std::vector<Fault>*> checked(space_.families.size()), stepped = checked;
    const auto look = [](const std::vector<Fault>*& nearest, const std::vector<Fault>& faults) {
      if (!nearest || faults.size() < nearest->size()) nearest = &faults;
    };
    for (const auto& [choice, evaluation] : known_) look(checked[choice.family], evaluation.faults);
    for (const auto& [choice, faults] : steps_) {
      if (!faults.empty()) look(stepped[choice.family], faults);
    }
    for (std::size_t i = 0; i < checked.size(); ++i) {
      const std::vector<Fault>* nearest = checked[i] ? checked[i] : stepped[i];
      out_.families.push_back(nearest && !nearest->empty() ? nearest->front().words : "");
    }
  }

  /// The stair of each flight to which nothing is added, with what comfort alone makes it worth: the least first.
  [[nodiscard]] std::vector<std::pair<double, Choice>> flights_by_promise() const {
    std::vector<std::pair<double, Choice>> out;
    for (Choice c; c.family < space_.families.size(); ++c.family) {
      for (c.flight = 0; c.flight < space_.families[c.family].flights.size(); ++c.flight)
        out.emplace_back(worth(job_, score_of(figures_of(flight_of(c)))), c);
    }
    std::ranges::sort(out);
    return out;
  }

  [[nodiscard]] bool beaten(const Score& bound) const {
    return std::ranges::any_of(out_.front, [&](const Option& o) { return no_worse(o.score, bound); });
  }
  /// Looks at every stair on the flight unless the least one is beaten even if others were as strong as can be:
  /// whatever is added costs and is work.
  void open(const Choice& least) {
    if (steps_kept(least) && !excluded(least)) {
      Figures bound = known(least).figures;
      bound.ratio = 0;
      if (beaten(score_of(bound))) return;
    }
    const Additions& add = space_.additions;
    Choice c = least;
    for (c.bearing = 0; c.bearing < add.bearing_shares.size(); ++c.bearing) {
      // Where there is a hanger board anyway, asking for more bearing changes nothing.
      if (c.bearing > 0 && hanger(c) == hanger(least)) continue;
      if (!steps_kept(c)) continue;
      for (c.rails = 0; c.rails < add.rails.size(); ++c.rails) {
        for (c.mid_supports = 0; c.mid_supports < add.mid_supports.size(); ++c.mid_supports) {
          for (c.stringers = 0; c.stringers < space_.stringer_steps(space_.families[c.family]); ++c.stringers) {
            if (!excluded(c)) known(c);
          }
        }
      }
    }
  }

  void remember(const Choice& choice, const std::vector<Fault>& faults) {
    const Key key = key_of(choice);
    for (const Fault& fault : faults) faults_.remember(key, fault);
  }
  [[nodiscard]] bool excluded(const Choice& choice) { return faults_.in(key_of(choice)); }
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
    remember(choice, now.faults);
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
      remember(choice, at->second);
    }
    return at->second.empty();
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
  std::map<Choice, bool> hangers_;
  Faults faults_;
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
