#include "engine/choose/search.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <queue>
#include <set>

#include "engine/buy/materials.hpp"
#include "engine/choose/labour.hpp"

namespace pitchboard {
namespace {

/// Stairs of one family with one bearing at the head and so many supports: ranges, both ends included.
struct Box {
  Choice low;                                        ///< the least of everything
  std::size_t flight = 0, stringers = 0, rails = 0;  ///< the most
  std::int64_t cents = 0;                            ///< no stair in it costs less, without its landing
  double minutes = 0, ratio = 0;                     ///< the same for work and the weakest check
  double worth = 0;                                  ///< of its bound
  std::size_t born = 0;                              ///< order of birth, so that equals are taken in turn
  [[nodiscard]] bool single() const { return flight == low.flight && stringers == low.stringers && rails == low.rails; }
};
struct Later {
  bool operator()(const Box& a, const Box& b) const { return a.worth != b.worth ? a.worth > b.worth : a.born > b.born; }
};

/// RETURNS the choice with everything that is no matter of it set to 0.
Choice about(Choice choice, unsigned matter) {
  if (!(matter & of_family)) choice.family = 0;
  if (!(matter & of_going)) choice.flight = 0;
  if (!(matter & of_stringers)) choice.stringers = 0;
  if (!(matter & of_bearing)) choice.bearing = 0;
  if (!(matter & of_mid_supports)) choice.mid_supports = 0;
  if (!(matter & of_rails)) choice.rails = 0;
  return choice;
}

class Searcher {
 public:
  Searcher(const Job& job, const Site& site) : job_(job), site_(site) { out_.space = space_of(job, site); }

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
    std::vector<RailScheme>& rails = out_.space.additions.rails;
    if (rails.size() == 1 || out_.space.families.empty()) return;
    const auto own = std::ranges::find_if(out_.space.families, [&](const Family& f) {
      return f.top == job_.stair.top && f.stringers.kind == job_.stringers.kind &&
             f.stringers.board == job_.stringers.board && f.treads == job_.stair.treads &&
             f.riser_boards == job_.stair.riser_boards;
    });
    Choice choice{
        .family = own == out_.space.families.end() ? 0 : static_cast<std::size_t>(own - out_.space.families.begin())};
    std::size_t holding = 0;
    for (; choice.rails < rails.size(); ++choice.rails) {
      const std::vector<Fault> faults = evaluate(chosen(job_, out_.space, choice), site_, flight_of(choice)).faults;
      if (std::ranges::none_of(faults, &Fault::of_guard)) {
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
      if (!checked.contains(choice.family) && !steps.faults.empty()) look(choice.family, steps.faults);
    }
    out_.families.resize(out_.space.families.size());
    for (const auto& [family, fault] : nearest) out_.families[family] = fault.first;
  }

  void open_families() {
    const Space& space = out_.space;
    for (Choice low; low.family < space.families.size(); ++low.family) {
      const Family& family = space.families[low.family];
      for (low.bearing = 0; low.bearing < space.additions.bearing_shares.size(); ++low.bearing) {
        for (low.mid_supports = 0; low.mid_supports < space.additions.mid_supports.size(); ++low.mid_supports) {
          push({.low = low,
                .flight = family.flights.size() - 1,
                .stringers = space.stringer_steps(family) - 1,
                .rails = space.additions.rails.size() - 1});
        }
      }
    }
  }

  /// Leaves out flights at either end whose steps break a rule.
  void push(Box box) {
    Choice high = box.low;
    high.flight = box.flight;
    while (!steps(box.low).faults.empty()) {
      if (box.low.flight++ == box.flight) return;
    }
    while (!steps(high).faults.empty()) --high.flight;
    box.flight = high.flight;
    box.worth = worth(job_, bound_of(box));
    box.born = born_++;
    boxes_.push(std::move(box));
  }

  /// RETURNS what no stair of the box is better than, in anything.
  Score bound_of(const Box& box) {
    Figures least;
    Choice at = box.low;
    for (; at.flight <= box.flight; ++at.flight) {
      const Steps& here = steps(at);
      if (!here.faults.empty()) continue;
      const bool first = at.flight == box.low.flight;
      const auto keep = [&](auto Figures::* figure) {
        least.*figure = first ? here.figures.*figure : std::min(least.*figure, here.figures.*figure);
      };
      keep(&Figures::landing_cents);
      keep(&Figures::landing_minutes);
      keep(&Figures::comfort);
      least.lift = first ? abs(here.figures.lift) : std::min(least.lift, abs(here.figures.lift));
    }
    least.cents = box.cents + least.landing_cents;
    least.minutes = box.minutes + least.landing_minutes;
    least.ratio = box.ratio;
    return score_of(least);
  }

  [[nodiscard]] bool beaten(const Score& bound) const {
    return std::ranges::any_of(out_.front, [&](const Option& o) { return no_worse(o.score, bound); });
  }

  void open(Box box) {
    if (!excluded(box.low)) {
      const Figures& least = known(box.low).figures;
      box.cents = std::max(box.cents, least.cents - least.landing_cents);
      box.minutes = std::max(box.minutes, least.minutes - least.landing_minutes);
    }
    if (box.single() || beaten(bound_of(box))) return;
    if (box.rails == box.low.rails) {
      Choice strongest = box.low;
      strongest.stringers = box.stringers;
      if (!excluded(strongest)) box.ratio = std::max(box.ratio, known(strongest).figures.ratio);
      if (box.ratio > 1.0 + 1e-9 || beaten(bound_of(box))) return;
    }
    split(box);
  }

  void split(const Box& box) {
    const auto halves = [&](std::size_t Choice::* low, std::size_t Box::* high) {
      const std::size_t middle = (box.low.*low + box.*high) / 2;
      Box lower = box, upper = box;
      lower.*high = middle;
      upper.low.*low = middle + 1;
      push(std::move(lower));
      push(std::move(upper));
    };
    if (box.rails > box.low.rails) {
      halves(&Choice::rails, &Box::rails);
    } else if (box.flight > box.low.flight) {
      halves(&Choice::flight, &Box::flight);
    } else {
      halves(&Choice::stringers, &Box::stringers);
    }
  }

  /// True when a fault that was seen in another stair is in this one as well.
  [[nodiscard]] bool excluded(const Choice& choice) const {
    return std::ranges::any_of(faults_, [&](const auto& of) { return of.second.contains(about(choice, of.first)); });
  }

  const Evaluation& known(const Choice& choice) {
    const auto [at, fresh] = known_.try_emplace(choice);
    if (!fresh) return at->second;
    at->second = evaluate(chosen(job_, out_.space, choice), site_, flight_of(choice));
    const Evaluation& now = at->second;
    for (const Fault& fault : now.faults) faults_[fault.matter].insert(about(choice, fault.matter));
    const Score score = score_of(now.figures);
    if (now.faults.empty() && !beaten(score)) {
      std::erase_if(out_.front, [&](const Option& o) { return no_worse(score, o.score); });
      out_.front.push_back({choice, score, now.figures, now.open});
    }
    return now;
  }
  const Steps& steps(Choice choice) {
    choice = about(choice, of_family | of_going | of_bearing);
    const auto [at, fresh] = steps_.try_emplace(choice);
    if (fresh) at->second = steps_of(chosen(job_, out_.space, choice), site_, flight_of(choice));
    return at->second;
  }
  [[nodiscard]] const Flight& flight_of(const Choice& choice) const {
    return out_.space.families[choice.family].flights[choice.flight];
  }

  const Job& job_;
  const Site& site_;
  Search out_;
  std::map<Choice, Evaluation> known_;
  std::map<Choice, Steps> steps_;
  std::map<unsigned, std::set<Choice>> faults_;  ///< by what they are a matter of
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
