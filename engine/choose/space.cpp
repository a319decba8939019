#include "engine/choose/space.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/catalog.hpp"
#include "engine/base/sort.hpp"
#include "engine/cut/cut.hpp"
#include "engine/frame/frame.hpp"
#include "engine/rules/rules.hpp"
#include "engine/shape/treads.hpp"

namespace pitchboard {
namespace {

/// Goings are tried in steps that a framing square shows. SOURCE common practice, no source.
constexpr Length kGoingStep = inches(0.125);
/// Widest nosing that is tried with closed risers; the rules judge the rest. SOURCE IRC R311.7.5.3: 3/4 in to 1 1/4 in.
constexpr Length kWidestNosing = inches(1.25);
/// Supports closer together than this are not offered. SOURCE own judgement.
constexpr Length kLeastBay = inches(36.0);

bool kept(const Job& job, std::string_view choice) {
  return std::ranges::find(job.choose.keep, choice) != job.choose.keep.end();
}

bool stocked(const Job& job, std::string_view section) {
  return has_own_stock(job, section) ||
         std::ranges::find(demo_stock(), section, &StockRow::section) != demo_stock().end();
}

std::vector<StringerMake> stringer_makes(const Job& job) {
  std::vector<StringerMake> out;
  const auto add_ready_cut = [&] {
    for (std::size_t i = 0; i < job.yard.ready_cut.size(); ++i)
      out.push_back({StringerKind::ready_cut, job.stringers.board, i});
  };
  if (kept(job, "stringers")) {
    if (job.stringers.kind == StringerKind::ready_cut) {
      add_ready_cut();
    } else {
      out.push_back({job.stringers.kind, job.stringers.board, {}});
    }
    return out;
  }
  add_ready_cut();
  for (const StringerKind kind : {StringerKind::cut, StringerKind::solid}) {
    for (const char* board : {"2x10", "2x12", "2x14"}) {
      if (board == job.stringers.board || (find_section(board) && stocked(job, board)))
        out.push_back({kind, board, {}});
    }
  }
  return out;
}

template <class Value>
std::vector<Value> open_values(bool keep, Value own, std::initializer_list<Value> all) {
  return keep ? std::vector<Value>{own} : std::vector<Value>(all);
}

std::vector<RailScheme> rail_schemes(const Job& job) {
  const RailScheme own{job.rails.foot_posts, job.rails.hold_downs, job.rails.post_bolt};
  if (kept(job, "rails") || (job.rails.left == SideRail::none && job.rails.right == SideRail::none)) return {own};
  std::vector<RailScheme> out{own};
  for (const FootPosts foot : {FootPosts::bolted, FootPosts::footing}) {
    for (const bool hold_downs : {false, true}) {
      for (const BoltSize bolt : {BoltSize::half_inch, BoltSize::five_eighths}) {
        if (const RailScheme scheme{foot, hold_downs, bolt}; scheme != own) out.push_back(scheme);
      }
    }
  }
  return out;
}

std::vector<std::optional<int>> mid_supports(const Job& job, Length longest_run) {
  if (job.stringers.mid_supports) return {job.stringers.mid_supports};
  if (kept(job, "mid supports")) return {std::nullopt};
  std::vector<std::optional<int>> out{0};
  for (int n = 1; n <= kMostSupports && longest_run / (n + 1.0) > kLeastBay; ++n) out.emplace_back(n);
  return out;
}

std::vector<Length> goings(const Job& job, const ShapeLimits& limits) {
  const Stair& stair = job.stair;
  if (stair.going) return {*stair.going};
  const Length depth = tread_depth(stair);
  const Length least = std::max(limits.going_min, depth - kWidestNosing), most = std::min(depth, limits.going_max);
  std::vector<Length> out;
  for (Length going = kGoingStep * std::ceil((least - kTouch) / kGoingStep); going <= most + kTouch;
       going += kGoingStep)
    out.push_back(going);
  // The nosing that the job wants is not always on a line of the square.
  const Length wanted = depth - stair.nosing;
  if (wanted > least && wanted < most) {
    const auto at = std::ranges::lower_bound(out, wanted - kTouch);
    if (at == out.end() || *at > wanted + kTouch) out.insert(at, wanted);
  }
  return out;
}

/// RETURNS the families of that make, riser boards left as they are, the fewest risers first. `trial`: top and treads
/// are set.
std::vector<Family> families_of(Job trial, const Site& site, const ShapeLimits& limits, const StringerMake& make) {
  trial.stringers.kind = make.kind;
  trial.stringers.board = make.board;
  std::vector<Family> out;
  const auto take_all = [&] {
    for (const Flight& flight : shape_flights(trial, site, limits)) {
      if (flight.ready_cut != make.ready_cut) continue;
      auto at = std::ranges::find(out, flight.risers, &Family::risers);
      if (at == out.end()) {
        out.push_back({trial.stair.top, make, 0, trial.stair.treads, {}, flight.risers, {}});
        at = std::prev(out.end());
      }
      at->flights.push_back(flight);
    }
  };
  if (make.ready_cut) {
    take_all();  // its going is what it is
  } else {
    for (const Length going : goings(trial, limits)) {
      trial.stair.going = going;
      take_all();
    }
  }
  sort_stably(out, {}, &Family::risers);
  return out;
}

}  // namespace

std::size_t Space::size() const {
  std::size_t stairs = 0;
  for (const Family& family : families) stairs += family.flights.size() * stringer_steps(family);
  return stairs * additions.bearing_shares.size() * additions.mid_supports.size() * additions.rails.size();
}

void choose(Job& stair, const Job& job, const Space& space, const Choice& choice) {
  const Family& family = space.families[choice.family];
  const Flight& flight = family.flights[choice.flight];
  const RailScheme& rails = space.additions.rails[choice.rails];
  stair.stair.top = family.top;
  stair.stair.treads = family.treads;
  stair.stair.riser_boards = family.riser_boards;
  stair.stair.risers = flight.risers;
  stair.stair.going = flight.going;
  stair.stringers.kind = family.stringers.kind;
  stair.stringers.board = family.stringers.board;
  stair.stringers.bearing_share = space.additions.bearing_shares[choice.bearing];
  stair.stringers.mid_supports = space.additions.mid_supports[choice.mid_supports];
  stair.stringers.count = job.stringers.count;
  if (const int more = space.additions.stringers[choice.stringers]; more > 0) {
    stair.stringers.count = stringer_count(stair) + more;
  }
  stair.rails.foot_posts = rails.foot_posts;
  stair.rails.hold_downs = rails.hold_downs;
  stair.rails.post_bolt = rails.bolt;
}

Job chosen(const Job& job, const Space& space, const Choice& choice) {
  Job out = job;
  choose(out, job, space, choice);
  return out;
}

Space space_of(const Job& job, const Site& site) {
  Space space;
  const ShapeLimits limits = shape_limits(job.place);
  const bool keep_treads = kept(job, "treads") || job.stair.treads == TreadMake::custom;
  Job trial = job;
  for (const TreadMake treads :
       open_values(keep_treads, job.stair.treads, {TreadMake::two_5_4x6, TreadMake::two_2x6, TreadMake::one_2x12})) {
    trial.stair.treads = treads;
    for (const TopMode top : open_values(kept(job, "top"), job.stair.top, {TopMode::deck_edge, TopMode::full_tread})) {
      trial.stair.top = top;
      for (const StringerMake& make : stringer_makes(job)) {
        const std::vector<Family> families = families_of(trial, site, limits, make);
        for (const Risers boards :
             open_values(kept(job, "riser boards"), job.stair.riser_boards, {Risers::open, Risers::closed})) {
          for (Family family : families) {
            family.riser_boards = boards;
            space.families.push_back(std::move(family));
          }
        }
      }
    }
  }
  Length longest_run;
  for (Family& family : space.families) {
    const auto same_board = [&](const Family& f) { return f.stringers.board == family.stringers.board; };
    family.board = static_cast<std::size_t>(std::ranges::find_if(space.families, same_board) - space.families.begin());
    for (const Flight& flight : family.flights) longest_run = std::max(longest_run, flight.run);
  }
  Additions& add = space.additions;
  add.stringers = job.stringers.count || kept(job, "spacing") ? std::vector<int>{0} : std::vector<int>{0, 1, 2};
  add.bearing_shares = {job.stringers.bearing_share};
  if (!kept(job, "head") && job.stringers.bearing_share < 1.0) add.bearing_shares.push_back(1.0);
  add.mid_supports = mid_supports(job, longest_run);
  add.rails = rail_schemes(job);
  return space;
}

}  // namespace pitchboard
