// Which flights fit.
//
// The landing point depends on the run, the run on the riser count, the count on the ground at the landing point.
// Instead of going round that circle, every riser count is tried: with N and the going given, the run is known, so the
// ground there is known, and with it the rise. A count is buildable when the landing can be brought to a level that
// makes all risers equal and legal.
//
//   run   = (N - 1) G  (deck edge is the top step)  or  N G  (full tread level with the deck)
//   H0    = -(natural level at the run)
//   cut   : lift 0 when H0 / N is legal, else the least lift that makes it legal: H = H0 - lift = N R
//   ready : R is fixed, so lift = H0 - N R
//
// With N and G given, every limit is one on R: the height of a flight is N R, 2R + G has its band, the pitch is R / G.
// So the legal rises are an interval, and the least lift is the way to its nearer end. Moving earth for more than equal
// risers is offered only where no flight does without.

#include "engine/shape/flight.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "data/choosing.hpp"
#include "engine/base/catalog.hpp"
#include "engine/base/sort.hpp"
#include "engine/shape/treads.hpp"

namespace pitchboard {
namespace {

/// More risers than any pack allows in one flight; only bounds the search.
constexpr int kMostRisers = 40;
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

/// Where a candidate lands.
struct Footing {
  Length run;
  Level natural;
  Length lift, z, unit_rise;
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

/// Which limits the landing is lifted or dug for.
enum class LiftedFor { risers, every_limit };

/// RETURNS the rises that keep the limits at that going, each by no more than `touch` missed; `from` is above `to`
/// where there are none.
Interval legal_rises(const ShapeLimits& limits, const Candidate& candidate, LiftedFor what, Length touch) {
  Interval out{limits.rise_min - touch, limits.rise_max + touch};
  if (what == LiftedFor::risers) return out;
  out.to = std::min(out.to, (limits.flight_rise_max + touch) / candidate.risers);
  if (const auto& band = limits.twice_rise_plus_going) {
    out.from = std::max(out.from, (band->from - touch - candidate.going) / 2.0);
    out.to = std::min(out.to, (band->to + touch - candidate.going) / 2.0);
  }
  if (limits.pitch_max) out.to = std::min(out.to, candidate.going * std::tan(limits.pitch_max->raw()) + touch);
  return out;
}

int treads_of(TopMode top, int risers) { return top == TopMode::deck_edge ? risers - 1 : risers; }

/// RETURNS where the candidate lands once its rise is brought within those limits.
Footing footing_of(const Job& job, const Site& site, const ShapeLimits& limits, const Candidate& candidate,
                   LiftedFor what) {
  Footing out;
  const double n = candidate.risers;
  out.run = candidate.going * treads_of(job.stair.top, candidate.risers);
  out.natural = natural_level(job, site, out.run);
  const Length natural_rise = -out.natural.z;
  if (candidate.ready_cut) {
    out.unit_rise = job.yard.ready_cut[*candidate.ready_cut].unit_rise;
    out.lift = round_to(natural_rise - out.unit_rise * n, kSixteenth);
    out.z = -(out.unit_rise * n);
    return out;
  }
  if (!legal_rises(limits, candidate, what, kTouch).contains(natural_rise / n)) {
    const Interval aim = legal_rises(limits, candidate, what, Length());
    const Length wanted = std::clamp(natural_rise / n, aim.from, std::max(aim.from, aim.to));
    out.lift = lift_step(natural_rise - wanted * n);
  }
  out.z = out.natural.z + out.lift;
  out.unit_rise = -out.z / n;
  return out;
}

Interval across_of(const Job& job) { return {-kPadBeyond, job.stair.width + kPadBeyond}; }

bool fits(const Job& job, const Footing& footing, Interval rises) {
  const Length far_end = footing.run + job.pad.length;
  return footing.z < Length() && rises.contains(footing.unit_rise) &&
         Interval{-job.pad.dig_at_most - kTouch, job.pad.raise_at_most + kTouch}.contains(footing.lift) &&
         (!job.room.run_at_most || far_end <= *job.room.run_at_most + kTouch) &&
         std::ranges::none_of(
             job.room.obstacles,
             [&](const Obstacle& obstacle) {
               return overlap(obstacle.out, {Length(), far_end}) > kTouch &&
                      overlap(obstacle.across, across_of(job)) > kTouch;
             });
}

Flight shaped(const Job& job, const Candidate& candidate, const Footing& footing) {
  Flight flight;
  flight.risers = candidate.risers;
  flight.going = candidate.going;
  flight.top = job.stair.top;
  flight.kind = job.stringers.kind;
  flight.ready_cut = candidate.ready_cut;
  flight.tread_thickness = tread_thickness(job.stair);
  flight.tread_depth = tread_depth(job.stair);
  flight.nosing = flight.tread_depth - flight.going;
  flight.run = footing.run;
  flight.unit_rise = footing.unit_rise;
  flight.total_rise = -footing.z;
  const Length far_end = flight.run + job.pad.length;
  const Length step = hypotenuse(flight.unit_rise, flight.going);
  flight.slope = Angle::from_raw(std::atan2(flight.unit_rise.raw(), flight.going.raw()));
  flight.first_riser_cut = flight.unit_rise - flight.tread_thickness + job.pad.later_finish;
  const SectionRow* board = find_section(job.stringers.board);
  const Length depth = inches(board ? board->width : 11.25);
  // The foot runs from the lowest riser cut back to the lower edge: (depth / cos - first cut) / tan.
  const Length foot = (depth * (step / flight.going) - flight.first_riser_cut) * (flight.going / flight.unit_rise);
  Landing& landing = flight.landing;
  landing.nosing_x = flight.run;
  landing.middle_y = job.stair.width / 2.0;
  landing.natural = footing.natural;
  landing.z = footing.z;
  landing.lift = footing.lift;
  // A landing that is relaid is laid level across; an untouched one keeps its slopes.
  landing.fall = job.pad.fall;
  landing.cross_fall = job.pad.existing && landing.lift == Length() ? job.pad.cross_fall : 0.0;
  landing.out = {std::max(flight.run - flight.nosing - foot - kPadBehindHeel, Length()), far_end};
  landing.across = across_of(job);
  for (int k = 1; k <= flight.risers; ++k) {
    const int steps_from_top = flight.risers - k + (flight.top == TopMode::full_tread ? 1 : 0);
    flight.nosings.push_back({flight.going * steps_from_top, -flight.total_rise + flight.unit_rise * k});
  }
  flight.nosings.back().b = Length();
  flight.comfort = {flight.unit_rise * 2.0 + flight.going, flight.unit_rise + flight.going,
                    flight.unit_rise * flight.going};
  return flight;
}

/// RETURNS the flights that fit, best first.
std::vector<Flight> flights(const Job& job, const Site& site, ShapeLimits limits, LiftedFor what) {
  limits.rise_min = std::max(limits.rise_min, std::min(limits.rise_offered_from, limits.rise_max));
  std::vector<Flight> out;
  for (const Candidate& candidate : candidates(job, limits)) {
    if (job.stair.risers && candidate.risers != *job.stair.risers) continue;
    const Footing footing = footing_of(job, site, limits, candidate, what);
    if (fits(job, footing, legal_rises(limits, candidate, LiftedFor::every_limit, kTouch)))
      out.push_back(shaped(job, candidate, footing));
  }
  const Length comfortable = comfortable_step().middle();
  const auto badness = [&](const Flight& flight) {
    return abs(flight.comfort.twice_rise_plus_going - comfortable).raw() +
           kLiftWeight * abs(flight.landing.lift).raw() + abs(flight.nosing - job.stair.nosing).raw();
  };
  sort_stably(out, [&](const Flight& a, const Flight& b) { return badness(a) < badness(b) - 1e-9; });
  return out;
}

}  // namespace

Length Landing::z_at(Length out_from_deck, Length across_stair) const {
  return z - (out_from_deck - nosing_x) * fall - (across_stair - middle_y) * cross_fall;
}

int Flight::treads() const { return treads_of(top, risers); }

Interval comfortable_step() {
  const auto figure = [](std::string_view key) {
    const FigureRow* row = find_figure(kChoosingFigures, key);
    return inches(row ? row->value : 0.0);
  };
  return {figure("comfort-from"), figure("comfort-to")};
}

std::vector<Flight> shape_flights(const Job& job, const Site& site, const ShapeLimits& limits) {
  std::vector<Flight> out = flights(job, site, limits, LiftedFor::risers);
  return out.empty() ? lifted_flights(job, site, limits) : out;
}

std::vector<Flight> lifted_flights(const Job& job, const Site& site, const ShapeLimits& limits) {
  return flights(job, site, limits, LiftedFor::every_limit);
}

}  // namespace pitchboard
