// Which flights fit.
//
// The landing point depends on the run, the run on the riser count, the count on the ground at the landing point.
// Instead of going round that circle, every riser count is tried: with N and the going given, the run is known, so the
// ground there is known, and with it the rise. A count is buildable when the landing can be brought to a level that
// makes all risers equal and legal.
//
//   run   = (N - 1) G  (deck edge is the top step)  or  N G  (full tread level with the deck)
//   H0    = -(natural level at the run)
//   cut   : lift 0 when H0 / N is legal (riser, 2R + G, pitch), else the least lift that makes it
//           legal: H = H0 - lift = N R
//   ready : R is fixed, so lift = H0 - N R

#include "engine/shape/flight.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

#include "engine/base/catalog.hpp"
#include "engine/shape/collision.hpp"
#include "engine/shape/treads.hpp"

namespace pitchboard {
namespace {

/// More risers than any pack allows in one flight; only bounds the search.
constexpr int kMostRisers = 40;
/// Rises below this are not offered: the foot of a stringer has no room left for what holds it. SOURCE own judgement.
constexpr Length kLowestRise = inches(5.5);
/// Comfort that flights are ranked by: 2R + G. SOURCE US Army EN5156, Architectural Graphic Standards: 24 to 25 in.
constexpr Length kComfort = inches(24.5);
/// What an inch of lifted landing is worth against an inch of lost comfort when ranking. SOURCE own judgement.
constexpr double kLiftWeight = 0.5;
/// Paving beyond the stringers' outer faces on each side: carries the posts. SOURCE practice: 40 to 44 in of pad for a
/// 36 in stair.
constexpr Length kPadBeyond = inches(4.0);
/// Paving behind the heel of the stringers. SOURCE common practice, no source.
constexpr Length kPadBehindHeel = inches(2.0);

struct Candidate {
  int risers = 0;
  Length going;
  std::optional<std::size_t> ready_cut;
};

/// By how much a candidate breaks each limit of the job; zero: kept.
struct Excess {
  Length rise;  ///< no lift makes the rise legal (ready-cut: its unit rise is not legal)
  Length lift;  ///< lift wanted beyond what the landing may be raised or dug
  Length room;
  Length flight;  ///< taller than one flight may be
  bool obstacle = false;
  bool comfort = false;  ///< 2R + G band or pitch of the pack
  [[nodiscard]] int count() const {
    return (rise > kTouch) + (lift > kTouch) + (room > kTouch) + (flight > kTouch) + obstacle + comfort;
  }
};

Level natural_level(const Job& job, const Site& site, Length out) {
  Level level = site.ground(out);
  if (job.pad.existing && job.pad.from && job.pad.down) {
    level.z = -*job.pad.down - (out - *job.pad.from) * job.pad.fall - job.stair.width / 2.0 * job.pad.cross_fall;
    level.beyond = false;
  }
  return level;
}

std::vector<Candidate> candidates(const Job& job, const ShapeLimits& limits) {
  std::vector<Candidate> out;
  if (job.stringers.kind == StringerKind::ready_cut) {
    for (std::size_t i = 0; i < job.yard.ready_cut.size(); ++i) {
      const ReadyCut& stock = job.yard.ready_cut[i];
      out.push_back({stock.risers, stock.unit_going, i});
    }
    return out;
  }
  const Length depth = tread_depth(job.stair);
  std::vector<Length> goings;
  if (job.stair.going) {
    goings.push_back(*job.stair.going);
  } else {
    // The wanted nosing first, then the two ends of what the trade takes for one.
    for (const Length nosing : {job.stair.nosing, inches(0.75), inches(1.25)}) {
      const Length going = depth - nosing;
      if (going + kTouch >= limits.going_min && going <= limits.going_max + kTouch &&
          std::ranges::none_of(goings, [&](Length g) { return abs(g - going) < inches(0.1); })) {
        goings.push_back(going);
      }
    }
    if (goings.empty()) goings.push_back(std::clamp(depth - job.stair.nosing, limits.going_min, limits.going_max));
  }
  const int fewest = job.stair.top == TopMode::deck_edge ? 2 : 1;
  for (int n = fewest; n <= kMostRisers; ++n) {
    for (const Length going : goings) out.push_back({n, going, std::nullopt});
  }
  return out;
}

/// Round a lift away from zero to the next 1/16 in, the finest a landing is set to.
Length lift_step(Length lift) {
  const double steps = lift / kSixteenth;
  return kSixteenth * (steps > 0 ? std::ceil(steps - 1e-6) : std::floor(steps + 1e-6));
}

Length beyond_band(Length value, Interval band) { return std::max({value - band.to, band.from - value, Length()}); }

/// RETURNS the unit rises that keep every limit of the pack with that going; those of the riser alone where none does.
/// A flight that is too tall is told as such: to lift the landing by so much is no stair of one flight.
Interval legal_rises(const ShapeLimits& limits, const Candidate& candidate) {
  Interval out{limits.rise_min, limits.rise_max};
  if (const auto& band = limits.twice_rise_plus_going) {
    out.from = std::max(out.from, (band->from - candidate.going) / 2.0);
    out.to = std::min(out.to, (band->to - candidate.going) / 2.0);
  }
  if (limits.pitch_max) out.to = std::min(out.to, candidate.going * std::tan(limits.pitch_max->raw()));
  return out.from <= out.to ? out : Interval{limits.rise_min, limits.rise_max};
}

Flight shaped(const Job& job, const Site& site, const ShapeLimits& limits, const Candidate& candidate, Excess& excess) {
  Flight flight;
  flight.risers = candidate.risers;
  flight.going = candidate.going;
  flight.top = job.stair.top;
  flight.kind = job.stringers.kind;
  flight.ready_cut = candidate.ready_cut;
  flight.tread_thickness = tread_thickness(job.stair);
  flight.tread_depth = tread_depth(job.stair);
  flight.nosing = flight.tread_depth - flight.going;
  const double n = candidate.risers;
  flight.run = flight.going * flight.treads();

  Landing& landing = flight.landing;
  landing.nosing_x = flight.run;
  landing.middle_y = job.stair.width / 2.0;
  landing.natural = natural_level(job, site, flight.run);
  const Length natural_rise = -landing.natural.z;
  if (candidate.ready_cut) {
    flight.unit_rise = job.yard.ready_cut[*candidate.ready_cut].unit_rise;
    landing.lift = round_to(natural_rise - flight.unit_rise * n, kSixteenth);
    excess.rise = beyond_band(flight.unit_rise, {limits.rise_min, limits.rise_max});
    landing.z = -(flight.unit_rise * n);
  } else {
    const Interval legal = legal_rises(limits, candidate);
    const Length wanted = std::clamp(natural_rise / n, legal.from, legal.to);
    landing.lift = lift_step(natural_rise - wanted * n);
    if (natural_rise / n >= legal.from - kTouch && natural_rise / n <= legal.to + kTouch) landing.lift = Length();
    landing.z = landing.natural.z + landing.lift;
    flight.unit_rise = -landing.z / n;
  }
  flight.total_rise = -landing.z;
  excess.lift = std::max({landing.lift - job.pad.raise_at_most, -landing.lift - job.pad.dig_at_most, Length()});
  excess.flight = std::max(flight.total_rise - limits.flight_rise_max, Length());
  // A landing that is relaid is laid level across; an untouched one keeps its slopes.
  landing.fall = job.pad.fall;
  landing.cross_fall = job.pad.existing && landing.lift == Length() ? job.pad.cross_fall : 0.0;
  const Length far_end = flight.run + job.pad.length;
  if (job.room.run_at_most) excess.room = std::max(far_end - *job.room.run_at_most, Length());
  const Interval across{-kPadBeyond, job.stair.width + kPadBeyond};
  for (const Obstacle& obstacle : job.room.obstacles) {
    excess.obstacle |= overlap(obstacle.out, {Length(), far_end}) > kTouch && overlap(obstacle.across, across) > kTouch;
  }

  const Length step = hypotenuse(flight.unit_rise, flight.going);
  flight.slope = Angle::from_raw(std::atan2(flight.unit_rise.raw(), flight.going.raw()));
  flight.first_riser_cut = flight.unit_rise - flight.tread_thickness + job.pad.later_finish;
  const SectionRow* board = find_section(job.stringers.board);
  const Length depth = inches(board ? board->width : 11.25);
  // The foot runs from the lowest riser cut back to the lower edge: (depth / cos - first cut) / tan.
  const Length foot = (depth * (step / flight.going) - flight.first_riser_cut) * (flight.going / flight.unit_rise);
  landing.out = {std::max(flight.run - flight.nosing - foot - kPadBehindHeel, Length()), far_end};
  landing.across = across;
  for (int k = 1; k <= flight.risers; ++k) {
    const int steps_from_top = flight.risers - k + (flight.top == TopMode::full_tread ? 1 : 0);
    flight.nosings.push_back({flight.going * steps_from_top, -flight.total_rise + flight.unit_rise * k});
  }
  flight.nosings.back().b = Length();
  flight.comfort = {flight.unit_rise * 2.0 + flight.going, flight.unit_rise + flight.going,
                    flight.unit_rise * flight.going};
  const bool banded = limits.twice_rise_plus_going.has_value();
  excess.comfort =
      (banded && beyond_band(flight.comfort.twice_rise_plus_going, *limits.twice_rise_plus_going) > kTouch) ||
      (limits.pitch_max && in_degrees(flight.slope) > in_degrees(*limits.pitch_max) + 1e-6);
  return flight;
}

/// The limits, with no riser so low that it is not offered.
ShapeLimits offered(ShapeLimits limits) {
  limits.rise_min = std::max(limits.rise_min, std::min(kLowestRise, limits.rise_max));
  return limits;
}

void for_each_tried(const Job& job, const Site& site, const ShapeLimits& limits, const auto& visit) {
  for (const Candidate& candidate : candidates(job, limits)) {
    if (job.stair.risers && candidate.risers != *job.stair.risers) continue;
    Excess excess;
    Flight flight = shaped(job, site, limits, candidate, excess);
    if (flight.total_rise > Length()) visit(std::move(flight), excess);
  }
}

double badness(const Flight& flight, Length wanted_nosing) {
  return abs(flight.comfort.twice_rise_plus_going - kComfort).raw() + kLiftWeight * abs(flight.landing.lift).raw() +
         abs(flight.nosing - wanted_nosing).raw();
}

/// What one kind of excess is called, and the smallest change that takes it away.
struct Tightest {
  Length amount = inches(1e9);
  Flight flight;
};

std::string words_of(const Flight& flight, UnitSystem units) {
  return std::to_string(flight.risers) + " risers of " + tape_plain(flight.unit_rise, units) + " with goings of " +
         tape_plain(flight.going, units);
}

Problems explain(const Job& job, const ShapeLimits& limits, const std::vector<std::pair<Flight, Excess>>& tried) {
  const UnitSystem units = job.about.units;
  const auto text = [&](Length v) { return tape_plain(v, units); };
  // What is asked for is rounded up to the next line of the tape: whoever gives just that has given enough.
  const auto asked = [&](Length v) {
    const Length line = units == UnitSystem::metric ? millimetres(1.0) : kSixteenth;
    return text(line * std::ceil((v - kTouch) / line));
  };
  const auto total = [](const Excess& e) {
    return e.rise + e.lift + e.room + e.flight + inches(100.0 * (e.obstacle + e.comfort));
  };
  // Fewest limits broken first, then by the least total change.
  std::vector<std::size_t> order(tried.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
    const Excess &p = tried[a].second, &q = tried[b].second;
    return p.count() != q.count() ? p.count() < q.count() : total(p) < total(q);
  });
  Problems out;
  if (tried.empty()) {
    out.push_back(
        {"yard.ready_cut", "there is no stringer to choose from", "name the ready-cut stringers that the yard has"});
    return out;
  }
  // The nearest miss of each kind, so that every limit that could give way is named once.
  std::array<bool, 6> named{};
  const int fewest = tried[order[0]].second.count();
  for (const std::size_t i : order) {
    const auto& [flight, excess] = tried[i];
    if (excess.count() > fewest) break;
    const std::array<bool, 6> broken{excess.rise > kTouch,   excess.lift > kTouch, excess.room > kTouch,
                                     excess.flight > kTouch, excess.obstacle,      excess.comfort};
    if (std::ranges::equal(broken, named, [](bool b, bool n) { return !b || n; })) continue;
    for (std::size_t j = 0; j < broken.size(); ++j) named[j] = named[j] || broken[j];
    const std::string which = words_of(flight, units) + " would fit";
    if (excess.rise > kTouch) {
      out.push_back({"yard.ready_cut",
                     "the unit rise " + text(flight.unit_rise) + " is outside " + text(limits.rise_min) + " to " +
                         text(limits.rise_max),
                     "choose a ready-cut stringer with a unit rise inside that"});
    }
    if (excess.lift > kTouch) {
      const bool up = flight.landing.lift > Length();
      out.push_back({up ? "pad.raise_at_most" : "pad.dig_at_most",
                     "equal legal risers need the landing " + std::string(up ? "lifted " : "dug down ") +
                         text(abs(flight.landing.lift)) + ", the job allows " +
                         text(up ? job.pad.raise_at_most : job.pad.dig_at_most),
                     which + " with " + asked(excess.lift) + " more " + (up ? "lift" : "digging")});
    }
    if (excess.room > kTouch) {
      out.push_back({"room.run_at_most",
                     "the stair and its landing take " + text(flight.run + job.pad.length) + ", the room is " +
                         text(*job.room.run_at_most),
                     which + " with " + asked(excess.room) + " more room"});
    }
    if (excess.flight > kTouch) {
      out.push_back({"ground",
                     "a rise of " + text(flight.total_rise) + " is more than one flight may have, " +
                         text(limits.flight_rise_max),
                     "break the stair with a landing: " + asked(excess.flight) + " is too much"});
    }
    if (excess.obstacle) {
      out.push_back(
          {"room.obstacles", "the stair or its landing would stand on an obstacle", which + " once it is moved"});
    }
    if (excess.comfort) {
      out.push_back({"place.pack",
                     "twice the rise plus the going is " + text(flight.comfort.twice_rise_plus_going) + ", pitch " +
                         std::to_string(static_cast<int>(std::lround(in_degrees(flight.slope)))) +
                         " degrees: outside what the pack allows",
                     "choose deeper treads, or a landing lifted nearer to the deck"});
    }
  }
  // Several limits that each give way a little may be less work than one that gives way a lot.
  const auto least = std::ranges::min_element(
      tried, [&](const auto& a, const auto& b) { return total(a.second) < total(b.second) - kTouch; });
  if (least->second.count() > fewest) {
    const auto& [flight, excess] = *least;
    std::vector<std::pair<std::string, std::string>> asks;  // place, what it has to give
    const bool up = flight.landing.lift > Length();
    if (excess.lift > kTouch) {
      asks.emplace_back(up ? "pad.raise_at_most" : "pad.dig_at_most",
                        asked(excess.lift) + " more " + (up ? "lift" : "digging"));
    }
    if (excess.room > kTouch) asks.emplace_back("room.run_at_most", asked(excess.room) + " more room");
    if (excess.obstacle) asks.emplace_back("room.obstacles", "the obstacle moved");
    if (static_cast<int>(asks.size()) == excess.count()) {
      std::string places, gives;
      for (const auto& [place, give] : asks) {
        places += (places.empty() ? "" : ", ") + place;
        gives += (gives.empty() ? "" : " and ") + give;
      }
      out.push_back({places, "no one of these limits can give way alone for this flight",
                     words_of(flight, units) + " would fit with " + gives});
    }
  }
  return out;
}

/// What collides, as one problem: its places, and whatever frees the job by itself.
Problems collision_words(const std::vector<CollidingLimit>& limits) {
  if (limits.size() < 2) return {};
  const auto joined = [&](std::string CollidingLimit::* of, std::string_view between) {
    std::string out;
    for (const CollidingLimit& limit : limits) {
      if ((limit.*of).empty() || out.find(limit.*of) != std::string::npos) continue;
      out.append(out.empty() ? "" : between).append(limit.*of);
    }
    return out;
  };
  const std::string freed_by = joined(&CollidingLimit::freed_by, ", or ");
  return {{joined(&CollidingLimit::place, ", "),
           "no stair can have all of these: " + joined(&CollidingLimit::words, "; "),
           freed_by.empty() ? "no one of them is enough to change: look at two together"
                            : "one of these alone would do: " + freed_by}};
}

}  // namespace

Length Landing::z_at(Length out_from_deck, Length across_stair) const {
  return z - (out_from_deck - nosing_x) * fall - (across_stair - middle_y) * cross_fall;
}

std::vector<Flight> fitting_flights(const Job& job, const Site& site, const ShapeLimits& limits) {
  std::vector<Flight> out;
  for_each_tried(job, site, offered(limits), [&](Flight flight, const Excess& excess) {
    if (excess.count() == 0) out.push_back(std::move(flight));
  });
  std::ranges::stable_sort(out, [&](const Flight& a, const Flight& b) {
    return badness(a, job.stair.nosing) < badness(b, job.stair.nosing) - 1e-9;
  });
  return out;
}

Shapes shape_flights(const Job& job, const Site& site, const ShapeLimits& limits) {
  Shapes shapes{fitting_flights(job, site, limits), {}};
  if (!shapes.flights.empty()) return shapes;
  std::vector<std::pair<Flight, Excess>> tried;
  for_each_tried(job, site, offered(limits),
                 [&](Flight flight, const Excess& excess) { tried.emplace_back(std::move(flight), excess); });
  shapes.why_not = explain(job, offered(limits), tried);
  std::ranges::move(collision_words(collision_of(job, site, limits)), std::back_inserter(shapes.why_not));
  return shapes;
}

}  // namespace pitchboard
