#include "engine/choose/conflict.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>

#include "engine/base/sort.hpp"
#include "engine/choose/explain.hpp"

namespace pitchboard {
namespace {

using Kinds = std::set<std::string>;

struct Stair {
  Choice choice;
  Key key{};
  Kinds kinds;                ///< known faults
  bool whole = false;         ///< no others
  std::vector<Fault> faults;  ///< once checked whole
};

/// RETURNS the kinds of `of` among those.
Kinds shared(const Kinds& of, const Kinds& among) {
  Kinds out;
  std::ranges::set_intersection(of, among, std::inserter(out, out.end()));
  return out;
}

class Finder {
 public:
  Finder(const Job& job, const Site& site, Memory known) : job_(job), site_(site), known_(std::move(known)) {
    out_.space = space_of(job, site);
  }

  Conflict run() {
    if (!look_at_all()) return std::move(out_);
    come_near();
    Kinds kinds = filtered();
    for (const std::string& kind : Kinds(kinds)) {
      if (const Stair* witness = witness_of(kind, kinds)) {
        out_.kinds.push_back({kind, {witness->choice, witness->faults}});
      } else {
        kinds.erase(kind);
      }
    }
    // A witness of before has none of those left out since.
    const auto lacks = [](const Stair& stair) { return stair.whole ? stair.kinds.size() : SIZE_MAX; };
    const Stair& nearest = *std::ranges::min_element(stairs_, {}, lacks);
    out_.nearest = {nearest.choice, nearest.faults};
    return std::move(out_);
  }

 private:
  /// RETURNS whether there are stairs and all have a fault.
  bool look_at_all() {
    const Additions& add = out_.space.additions;
    Choice c;
    for (c.family = 0; c.family < out_.space.families.size(); ++c.family) {
      const Family& family = out_.space.families[c.family];
      for (c.flight = 0; c.flight < family.flights.size(); ++c.flight) {
        std::vector<bool> hangers;
        for (c.bearing = 0; c.bearing < add.bearing_shares.size(); ++c.bearing)
          hangers.push_back(head_bearing(chosen(job_, out_.space, c), site_, family.flights[c.flight]).hanger_board);
        for (c.stringers = 0; c.stringers < out_.space.stringer_steps(family); ++c.stringers)
          for (c.bearing = 0; c.bearing < add.bearing_shares.size(); ++c.bearing)
            for (c.mid_supports = 0; c.mid_supports < add.mid_supports.size(); ++c.mid_supports)
              for (c.rails = 0; c.rails < add.rails.size(); ++c.rails)
                if (!look_at(c, hangers[c.bearing])) return false;
        c.stringers = c.mid_supports = c.rails = 0;
      }
    }
    return !stairs_.empty();
  }
  bool look_at(const Choice& choice, bool hanger) {
    Stair stair{.choice = choice, .key = key_of(out_.space, choice, hanger)};
    stair.kinds = known_.kinds_of(stair.key);
    if (stair.kinds.empty()) check_whole(stair);
    stairs_.push_back(std::move(stair));
    return !stairs_.back().kinds.empty();
  }

  [[nodiscard]] const Flight& flight_of(const Stair& stair) const {
    return out_.space.families[stair.choice.family].flights[stair.choice.flight];
  }
  void take_in(Stair& stair, const Evaluation& found) {
    known_.remember(stair.key, found);
    for (const Fault& fault : found.faults) stair.kinds.insert(fault.kind);
  }
  void check_whole(Stair& stair) {
    Evaluation found = evaluate(chosen(job_, out_.space, stair.choice), site_, flight_of(stair));
    ++out_.evaluated;
    take_in(stair, found);
    stair.faults = std::move(found.faults);
    stair.whole = true;
  }
  /// Checks whole the plainest stair of every family, then what differs from the best of them in one thing, as long as
  /// that mends anything.
  void come_near() {
    const Space& space = out_.space;
    Stair* best = nullptr;
    const auto ask = [&](const Choice& choice) {
      Stair& stair = *std::ranges::lower_bound(stairs_, choice, {}, &Stair::choice);
      if (!stair.whole) check_whole(stair);
      if (!best || stair.kinds.size() < best->kinds.size()) best = &stair;
    };
    for (Choice plain; plain.family < space.families.size(); ++plain.family) ask(plain);
    for (std::size_t before = SIZE_MAX; best->kinds.size() < before;) {
      before = best->kinds.size();
      const auto vary = [&](std::size_t Choice::* what, std::size_t values) {
        Choice choice = best->choice;
        for (choice.*what = 0; choice.*what < values; ++(choice.*what)) ask(choice);
      };
      const Family& family = space.families[best->choice.family];
      vary(&Choice::flight, family.flights.size());
      vary(&Choice::stringers, space.stringer_steps(family));
      vary(&Choice::bearing, space.additions.bearing_shares.size());
      vary(&Choice::mid_supports, space.additions.mid_supports.size());
      vary(&Choice::rails, space.additions.rails.size());
    }
  }

  /// RETURNS kinds that hit every stair by what is known, none of which can be left out.
  [[nodiscard]] Kinds filtered() const {
    std::set<Kinds> hits;
    std::map<std::string, std::size_t> counts;
    for (const Stair& stair : stairs_) {
      hits.insert(stair.kinds);
      for (const std::string& kind : stair.kinds) ++counts[kind];
    }
    std::vector<std::pair<std::size_t, std::string>> rarest_first;
    Kinds out;
    for (const auto& [kind, count] : counts) {
      rarest_first.emplace_back(count, kind);
      out.insert(kind);
    }
    sort_stably(rarest_first);
    for (const auto& [count, kind] : rarest_first) {
      out.erase(kind);
      if (std::ranges::any_of(hits, [&](const Kinds& hit) { return shared(hit, out).empty(); })) out.insert(kind);
    }
    return out;
  }

  /// RETURNS a stair, checked whole, that of these kinds has this one alone; nullptr when every stair has another too.
  Stair* witness_of(const std::string& kind, const Kinds& kinds) {
    const auto alone = [&](const Stair& stair) { return shared(stair.kinds, kinds) == Kinds{kind}; };
    for (Stair& stair : stairs_) {
      if (stair.whole && alone(stair)) return &stair;
    }
    for (Stair& stair : stairs_) {
      if (stair.whole || !alone(stair)) continue;
      stair.kinds.merge(known_.kinds_of(stair.key));
      if (!alone(stair)) continue;
      const Job job = chosen(job_, out_.space, stair.choice);
      Appraisal look(job, site_, flight_of(stair), shared_);
      take_in(stair, look.check_guides());
      if (alone(stair)) take_in(stair, look.check_counted_posts());
      if (alone(stair)) take_in(stair, look.check_counted_treads());
      if (alone(stair)) take_in(stair, look.check_skeleton());
      if (!alone(stair)) continue;
      check_whole(stair);
      if (alone(stair)) return &stair;
    }
    return nullptr;
  }

  const Job& job_;
  const Site& site_;
  Conflict out_;
  std::vector<Stair> stairs_;
  Memory known_;
  Shared shared_;
};

}  // namespace

Conflict conflict_of(const Job& job, const Site& site, Memory known) {
  return Finder(job, site, std::move(known)).run();
}

Problems problems_of(const Job& job, const Conflict& conflict) {
  if (conflict.kinds.empty()) return {};
  Problems out;
  const auto stair = [&](const FaultyStair& s) { return stair_words(job, conflict.space, s.choice); };
  for (const InTheWay& in_the_way : conflict.kinds) {
    out.push_back(
        {"in the way", in_the_way.kind, "of all that is in the way, this alone stops: " + stair(in_the_way.witness)});
  }
  std::string lacks;
  for (const Fault& fault : conflict.nearest.faults) lacks += (lacks.empty() ? "" : "; ") + fault.words;
  out.push_back({"comes nearest", stair(conflict.nearest), lacks});
  return out;
}

}  // namespace pitchboard
