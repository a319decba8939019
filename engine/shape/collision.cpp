// METHOD  A limit is dropped by setting it where nothing reaches it. A set of limits collides when no flight fits with
//         all others dropped.
//   colliding  deletion filter: every limit is dropped in turn, and stays dropped where still nothing fits.
//   one change a limit that frees the job when it is dropped is taken back step by step: by halving, since the more a
//              length gives, the more flights fit.
//   several    of all flights with the limits of the site dropped, the one that asks least in inches. Where that does
//              not free it: all limits are dropped and put back one by one while some flight fits; what cannot be put
//              back has to change, each as little as the others let it.
// SOURCE  Chinneck and Dravnieks 1991, "Locating minimal infeasible constraint sets in linear programs": the filter.

#include "engine/shape/collision.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/base/sort.hpp"
#include "engine/base/tape.hpp"
#include "engine/shape/treads.hpp"

namespace pitchboard {
namespace {

/// Where a dropped limit is set. Nobody lifts, digs or builds a tenth of it.
constexpr Length kOutOfReach = feet(1000.0);
/// Risers and pitch of a dropped limit: beyond them it is a ladder, whatever a code says. SOURCE own judgement.
constexpr Length kLadderRiser = inches(9.0), kLeastRiser = inches(3.0);
constexpr Angle kLadderPitch = degrees(45.0);
constexpr Angle kPitchStep = degrees(0.1);
/// Nosings of the trade: the goings that treads of one depth make. SOURCE IRC R311.7.5.3.
constexpr Length kNarrowNosing = inches(0.75), kWideNosing = inches(1.25);
/// What moving an obstacle counts against an inch of lift or room. SOURCE own judgement.
constexpr double kObstacleInches = 100.0;

/// A job and limits, some of them changed.
struct Case {
  Job job;
  ShapeLimits limits;
  bool any_going = false;
};

Length step_of(const Job& job) { return job.about.units == UnitSystem::metric ? millimetres(1.0) : kSixteenth; }

Length lowest_riser(const ShapeLimits& limits) {
  return std::max(limits.rise_min, std::min(limits.rise_offered_from, limits.rise_max));
}

/// Goings that are tried as it is, and all there would be if it were no limit.
struct Goings {
  Interval now, open;
};
Goings goings_of(const Job& job, const ShapeLimits& limits) {
  const Interval allowed{limits.going_min, limits.going_max};
  if (const auto own = job.stair.going)
    return {{*own, *own}, {std::min(*own, allowed.from), std::max(*own, allowed.to)}};
  const Length depth = tread_depth(job.stair);
  const Interval trade{depth - kWideNosing, depth - kNarrowNosing};
  const auto clamped = [&](Length going) {
    return std::clamp(going, allowed.from, std::max(allowed.from, allowed.to));
  };
  const Interval now{clamped(trade.from), clamped(trade.to)};
  return {now, {std::min(now.from, trade.from), std::max(now.to, trade.to)}};
}
/// RETURNS the goings that no limit of today allows, the nearest first.
std::vector<Length> other_goings(const Case& c) {
  const auto [now, open] = goings_of(c.job, c.limits);
  std::vector<Length> out;
  for (Length off = step_of(c.job); off <= std::max(now.from - open.from, open.to - now.to) + kTouch;
       off += step_of(c.job)) {
    if (now.from - off >= open.from - kTouch) out.push_back(now.from - off);
    if (now.to + off <= open.to + kTouch) out.push_back(now.to + off);
  }
  return out;
}

std::optional<Flight> flight_of(const Case& c, const Site& site) {
  std::vector<Flight> flights = shape_flights(c.job, site, c.limits);
  if (!flights.empty()) return std::move(flights.front());
  if (!c.any_going) return std::nullopt;
  Case given = c;
  given.any_going = false;
  for (const Length going : other_goings(c)) {
    given.job.stair.going = going;
    if (auto flight = flight_of(given, site)) return flight;
  }
  return std::nullopt;
}

/// Every limit that is set, those that say most to a carpenter last: the filter drops the first ones first.
std::vector<Limit> limits_of(const Case& c) {
  using enum LimitKind;
  std::vector<Limit> out;
  const auto add = [&](LimitKind kind, bool set) {
    if (set) out.push_back({kind});
  };
  add(pitch, c.limits.pitch_max.has_value());
  add(step_most, c.limits.twice_rise_plus_going.has_value());
  add(step_least, c.limits.twice_rise_plus_going.has_value());
  add(lowest_riser, true);
  add(flight_rise, true);
  add(highest_riser, true);
  const bool ready_made = c.job.stringers.kind == StringerKind::ready_cut;
  add(going, !ready_made && !other_goings(c).empty());
  add(riser_count, c.job.stair.risers.has_value());
  add(ready_cut, ready_made);
  for (std::size_t i = 0; i < c.job.room.obstacles.size(); ++i) out.push_back({obstacle, i});
  add(dig, true);
  add(raise, true);
  add(room, c.job.room.run_at_most.has_value());
  return out;
}

LimitValue value_of(const Case& c, const Limit& limit) {
  switch (limit.kind) {
    case LimitKind::raise:
      return c.job.pad.raise_at_most;
    case LimitKind::dig:
      return c.job.pad.dig_at_most;
    case LimitKind::room:
      return c.job.room.run_at_most.value_or(kOutOfReach);
    case LimitKind::riser_count:
      return c.job.stair.risers.value_or(0);
    case LimitKind::going:
      return goings_of(c.job, c.limits).now.from;
    case LimitKind::highest_riser:
      return c.limits.rise_max;
    case LimitKind::lowest_riser:
      return lowest_riser(c.limits);
    case LimitKind::flight_rise:
      return c.limits.flight_rise_max;
    case LimitKind::step_least:
      return c.limits.twice_rise_plus_going.value_or(Interval{}).from;
    case LimitKind::step_most:
      return c.limits.twice_rise_plus_going.value_or(Interval{}).to;
    case LimitKind::pitch:
      return c.limits.pitch_max.value_or(Angle());
    case LimitKind::obstacle:
    case LimitKind::ready_cut:
      return {};
  }
  return {};
}

void set(Case& c, const Limit& limit, const LimitValue& value) {
  const auto length = [&] { return *std::get_if<Length>(&value); };
  switch (limit.kind) {
    case LimitKind::raise:
      c.job.pad.raise_at_most = length();
      break;
    case LimitKind::dig:
      c.job.pad.dig_at_most = length();
      break;
    case LimitKind::room:
      c.job.room.run_at_most = length();
      break;
    case LimitKind::obstacle:  // out of the way of every stair
      c.job.room.obstacles[limit.obstacle].out = {kOutOfReach, kOutOfReach};
      break;
    case LimitKind::riser_count:
      c.job.stair.risers = *std::get_if<int>(&value);
      break;
    case LimitKind::going:
      c.job.stair.going = length();
      break;
    case LimitKind::ready_cut:
      c.job.stringers.kind = StringerKind::cut;
      break;
    case LimitKind::highest_riser:
      c.limits.rise_max = length();
      break;
    case LimitKind::lowest_riser:
      c.limits.rise_min = c.limits.rise_offered_from = length();
      break;
    case LimitKind::flight_rise:
      c.limits.flight_rise_max = length();
      break;
    case LimitKind::step_least:
      c.limits.twice_rise_plus_going->from = length();
      break;
    case LimitKind::step_most:
      c.limits.twice_rise_plus_going->to = length();
      break;
    case LimitKind::pitch:
      c.limits.pitch_max = *std::get_if<Angle>(&value);
      break;
  }
}

/// A limit that gives way downwards.
bool is_floor(LimitKind kind) { return kind == LimitKind::lowest_riser || kind == LimitKind::step_least; }

/// Takes the limit away.
void drop(Case& c, const Limit& limit) {
  switch (limit.kind) {
    case LimitKind::riser_count:
      c.job.stair.risers.reset();
      break;
    case LimitKind::going:
      c.any_going = true;
      break;
    case LimitKind::pitch:
      c.limits.pitch_max = std::max(*c.limits.pitch_max, kLadderPitch);
      break;
    case LimitKind::highest_riser:
      c.limits.rise_max = std::max(c.limits.rise_max, kLadderRiser);
      break;
    case LimitKind::lowest_riser:
      c.limits.rise_min = c.limits.rise_offered_from = std::min(lowest_riser(c.limits), kLeastRiser);
      break;
    default:
      set(c, limit, limit.kind == LimitKind::step_least ? Length() : kOutOfReach);
  }
}

/// RETURNS the limit `steps` steps more generous.
LimitValue eased(const LimitValue& value, const Limit& limit, int steps, Length step) {
  if (const Angle* angle = std::get_if<Angle>(&value)) return *angle + kPitchStep * steps;
  return *std::get_if<Length>(&value) + step * (is_floor(limit.kind) ? -steps : steps);
}

class Collider {
 public:
  Collider(const Job& job, const Site& site, const ShapeLimits& limits) : site_(site), as_is_{job, limits} {
    // A pack's highest riser below what is offered stays the lowest one when it is raised.
    as_is_.limits.rise_offered_from = std::min(limits.rise_offered_from, limits.rise_max);
    limits_ = limits_of(as_is_);
  }

  Collision run() {
    Collision out{.limits = colliding(), .ways = {}};
    // What the site can give first.
    std::vector<Limit> order = limits_;
    sort_stably(order, {}, &Limit::kind);
    for (const Limit& limit : order) {
      if (fits(dropped({limit}))) out.ways.push_back(way({least(as_is_, limit)}));
    }
    if (std::optional<Way> together = site_together(out.ways)) out.ways.push_back(std::move(*together));
    if (out.ways.empty()) out.ways.push_back(way(changes_together()));
    return out;
  }

 private:
  [[nodiscard]] bool fits(const Case& c) const { return flight_of(c, site_).has_value(); }
  [[nodiscard]] Case dropped(const std::vector<Limit>& limits) const {
    Case out = as_is_;
    for (const Limit& limit : limits) drop(out, limit);
    return out;
  }
  [[nodiscard]] Way way(std::vector<LimitChange> changes) const {
    Case c = as_is_;
    for (const LimitChange& change : changes) set(c, change.limit, change.to);
    return {std::move(changes), flight_of(c, site_).value_or(Flight{})};
  }

  [[nodiscard]] std::vector<Limit> colliding() const {
    std::vector<Limit> out, gone;
    for (const Limit& limit : limits_) {
      gone.push_back(limit);
      if (!fits(dropped(gone))) continue;
      gone.pop_back();
      out.push_back(limit);
    }
    return out;
  }

  /// RETURNS the least change of that limit after which some flight fits. REQUIRES that one does when it is dropped.
  [[nodiscard]] LimitChange least(const Case& c, const Limit& limit) const {
    const LimitValue now = value_of(c, limit);
    Case trial = c;
    const auto fits_at = [&](const LimitValue& value) {
      set(trial, limit, value);
      return fits(trial);
    };
    if (std::holds_alternative<std::monostate>(now)) return {limit, now, now};
    if (const int* risers = std::get_if<int>(&now)) {
      for (int off = 1;; ++off) {
        if (fits_at(*risers + off)) return {limit, now, *risers + off};
        if (*risers > off && fits_at(*risers - off)) return {limit, now, *risers - off};
      }
    }
    if (limit.kind == LimitKind::going) {
      const Goings goings = goings_of(c.job, c.limits);
      for (const Length going : other_goings(c)) {
        if (fits_at(going)) return {limit, going < goings.now.from ? goings.now.from : goings.now.to, going};
      }
    }
    const Length step = step_of(c.job);
    int enough = 1, short_of = 0;
    while (!fits_at(eased(now, limit, enough, step))) {
      short_of = enough;
      enough *= 2;
    }
    while (enough - short_of > 1) {
      const int middle = short_of + (enough - short_of) / 2;
      (fits_at(eased(now, limit, middle, step)) ? enough : short_of) = middle;
    }
    return {limit, now, eased(now, limit, enough, step)};
  }

  /// RETURNS what the site has to give for the flight that asks least of it, when that is more than one thing and less
  /// than any of the ways that change the site.
  [[nodiscard]] std::optional<Way> site_together(const std::vector<Way>& ways) const {
    std::vector<Limit> of_site;
    std::ranges::copy_if(limits_, std::back_inserter(of_site),
                         [](const Limit& l) { return l.kind <= LimitKind::obstacle; });
    const Case open = dropped(of_site);
    std::optional<std::vector<LimitChange>> best;
    for (const Flight& flight : lifted_flights(open.job, site_, open.limits)) {
      std::vector<LimitChange> asked = asked_of_site(flight);
      if (!best || work(asked) < work(*best)) best = std::move(asked);
    }
    if (!best || best->size() < 2) return std::nullopt;
    const bool less = std::ranges::none_of(ways, [&](const Way& w) {
      return w.changes.front().limit.kind <= LimitKind::obstacle && work(w.changes) <= work(*best);
    });
    return less ? std::optional(way(std::move(*best))) : std::nullopt;
  }

  [[nodiscard]] std::vector<LimitChange> asked_of_site(const Flight& flight) const {
    std::vector<LimitChange> out;
    const Job& job = as_is_.job;
    const Length step = step_of(job);
    const auto ask = [&](LimitKind kind, Length limit, Length wanted) {
      if (wanted > limit + kTouch)
        out.push_back({{kind}, limit, limit + step * std::ceil((wanted - limit - kTouch) / step)});
    };
    ask(LimitKind::raise, job.pad.raise_at_most, flight.landing.lift);
    ask(LimitKind::dig, job.pad.dig_at_most, -flight.landing.lift);
    if (job.room.run_at_most) ask(LimitKind::room, *job.room.run_at_most, flight.run + job.pad.length);
    for (std::size_t i = 0; i < job.room.obstacles.size(); ++i) {
      const Obstacle& o = job.room.obstacles[i];
      if (overlap(o.out, {Length(), flight.run + job.pad.length}) > kTouch &&
          overlap(o.across, flight.landing.across) > kTouch)
        out.push_back({{LimitKind::obstacle, i}, {}, {}});
    }
    return out;
  }
  [[nodiscard]] static double work(const std::vector<LimitChange>& changes) {
    double out = 0;
    for (const LimitChange& change : changes) {
      const Length* to = std::get_if<Length>(&change.to);
      out += to ? in_inches(*to - *std::get_if<Length>(&change.from)) : kObstacleInches;
    }
    return out;
  }

  [[nodiscard]] std::vector<LimitChange> changes_together() const {
    std::vector<Limit> gone = limits_;
    for (const Limit& limit : limits_) {
      std::vector<Limit> fewer = gone;
      std::erase(fewer, limit);
      if (fits(dropped(fewer))) gone = std::move(fewer);
    }
    std::vector<LimitChange> out;
    for (std::size_t i = 0; i < gone.size(); ++i) {
      Case c = dropped({gone.begin() + static_cast<std::ptrdiff_t>(i) + 1, gone.end()});
      for (const LimitChange& change : out) set(c, change.limit, change.to);
      out.push_back(least(c, gone[i]));
    }
    return out;
  }

  const Site& site_;
  Case as_is_;
  std::vector<Limit> limits_;
};

template <class Part, class Words>
std::string joined(const std::vector<Part>& parts, std::string_view between, Words words) {
  std::string out;
  for (const Part& part : parts) out += (out.empty() ? "" : std::string(between)) + words(part);
  return out;
}

}  // namespace

Collision collide(const Job& job, const Site& site, const ShapeLimits& limits) {
  return Collider(job, site, limits).run();
}

std::string limit_key(const Job& job, const ShapeLimits& limits, const Limit& limit) {
  switch (limit.kind) {
    case LimitKind::raise:
      return "pad.raise_at_most";
    case LimitKind::dig:
      return "pad.dig_at_most";
    case LimitKind::room:
      return "room.run_at_most";
    case LimitKind::obstacle:
      return fmt::format("room.obstacles[{}]", limit.obstacle);
    case LimitKind::riser_count:
      return "stair.risers";
    case LimitKind::going:
      return job.stair.going ? "stair.going" : "place.pack";
    case LimitKind::ready_cut:
      return "yard.ready_cut";
    case LimitKind::lowest_riser:
      return limits.rise_min < lowest_riser(limits) ? "stair" : "place.pack";
    default:
      return "place.pack";
  }
}

std::string limit_words(const Job& job, const ShapeLimits& limits, const Limit& limit) {
  const UnitSystem units = job.about.units;
  const Case c{job, limits};
  const LimitValue value = value_of(c, limit);
  const Length* length = std::get_if<Length>(&value);
  const std::string at = length ? tape_plain(*length, units) : "";
  switch (limit.kind) {
    case LimitKind::raise:
      return fmt::format("the landing lifted {} at most", at);
    case LimitKind::dig:
      return fmt::format("the landing dug down {} at most", at);
    case LimitKind::room:
      return fmt::format("{} of room, {} of it for the landing", at, tape_plain(job.pad.length, units));
    case LimitKind::obstacle:
      return fmt::format("the {} kept clear", job.room.obstacles[limit.obstacle].name);
    case LimitKind::riser_count:
      return fmt::format("{} risers", *std::get_if<int>(&value));
    case LimitKind::going: {
      const Interval now = goings_of(job, limits).now;
      if (job.stair.going) return fmt::format("a going of {}", at);
      return fmt::format("a going of {} to {}", at, tape_plain(now.to, units));
    }
    case LimitKind::ready_cut:
      return job.yard.ready_cut.empty() ? "ready-cut stringers, of which the yard has none"
                                        : "ready-cut stringers as the yard has them";
    case LimitKind::highest_riser:
      return fmt::format("risers of {} at most", at);
    case LimitKind::lowest_riser:
      return fmt::format("risers of {} at least", at);
    case LimitKind::flight_rise:
      return fmt::format("{} in height at most for one flight", at);
    case LimitKind::step_least:
      return fmt::format("twice the rise plus the going {} at least", at);
    case LimitKind::step_most:
      return fmt::format("twice the rise plus the going {} at most", at);
    case LimitKind::pitch:
      return fmt::format("a pitch of {:.1f} degrees at most", in_degrees(*std::get_if<Angle>(&value)));
  }
  return {};
}

std::string change_words(const Job& job, const LimitChange& change) {
  const UnitSystem units = job.about.units;
  const Length* to = std::get_if<Length>(&change.to);
  const Length* from = std::get_if<Length>(&change.from);
  const std::string at = to ? tape_plain(*to, units) : "", more = to && from ? tape_plain(abs(*to - *from), units) : "";
  switch (change.limit.kind) {
    case LimitKind::raise:
      return more + " more lift";
    case LimitKind::dig:
      return more + " more digging";
    case LimitKind::room:
      return more + " more room";
    case LimitKind::obstacle:
      return fmt::format("the {} moved", job.room.obstacles[change.limit.obstacle].name);
    case LimitKind::riser_count: {
      const int* risers = std::get_if<int>(&change.to);
      return fmt::format("{} riser{}", risers ? *risers : 0, risers && *risers == 1 ? "" : "s");
    }
    case LimitKind::going:
      return fmt::format("a going of {}", at);
    case LimitKind::ready_cut:
      return "stringers cut on site";
    case LimitKind::highest_riser:
      return fmt::format("a riser limit of {}", at);
    case LimitKind::lowest_riser:
      return fmt::format("risers down to {}", at);
    case LimitKind::flight_rise:
      return fmt::format("a flight limit of {}, or the stair broken by a landing half-way", at);
    case LimitKind::step_least:
      return fmt::format("twice the rise plus the going down to {}", at);
    case LimitKind::step_most:
      return fmt::format("twice the rise plus the going up to {}", at);
    case LimitKind::pitch: {
      const Angle* pitch = std::get_if<Angle>(&change.to);
      return fmt::format("a pitch limit of {:.1f} degrees", pitch ? in_degrees(*pitch) : 0.0);
    }
  }
  return {};
}

std::string way_words(const Job& job, const Way& way) {
  const UnitSystem units = job.about.units;
  return fmt::format("{} riser{} of {} with goings of {} would fit with {}", way.flight.risers,
                     way.flight.risers == 1 ? "" : "s", tape_plain(way.flight.unit_rise, units),
                     tape_plain(way.flight.going, units),
                     joined(way.changes, " and ", [&](const LimitChange& c) { return change_words(job, c); }));
}

Problems problems_of(const Job& job, const ShapeLimits& limits, const Collision& collision) {
  const auto key = [&](const Limit& l) { return limit_key(job, limits, l); };
  const auto words = [&](const Limit& l) { return limit_words(job, limits, l); };
  Problems out;
  const bool one = collision.limits.size() == 1;
  out.push_back(
      {joined(collision.limits, ", ", key),
       fmt::format("no flight keeps {}: {}", one ? "this" : "all of these", joined(collision.limits, "; ", words)),
       collision.ways.size() == 1 ? "this would do" : "any one of these would do"});
  for (const Way& way : collision.ways) {
    out.push_back({joined(way.changes, ", ", [&](const LimitChange& c) { return key(c.limit); }),
                   joined(way.changes, "; ", [&](const LimitChange& c) { return words(c.limit); }),
                   way_words(job, way)});
  }
  return out;
}

}  // namespace pitchboard
