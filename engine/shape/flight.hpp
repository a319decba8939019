#pragma once
// Flight: the rise and going of every step, and the landing that makes them equal.
//
// SYMBOLS  N risers, R unit rise, G going, H total rise (deck surface down to landing surface at the lowest nosing).
//          Nosing k (k = 1 lowest) lies at x = (N - k) G in deck-edge mode and (N - k + 1) G in full-tread mode, z = -H
//          + k R.

#include <optional>
#include <string>
#include <vector>

#include "engine/base/geometry.hpp"
#include "engine/base/problem.hpp"
#include "engine/job/job.hpp"
#include "engine/measure/site.hpp"

namespace pitchboard {

/// How the landing surface gets to its planned level.
struct Landing {
  Length z;           ///< surface at the lowest nosing, mid-width
  Length lift;        ///< planned surface above (+) or below (-) the ground or today's pad there
  Level natural;      ///< ground, or today's pad, at the lowest nosing
  double fall = 0.0;  ///< slope away from the house
  double cross_fall = 0.0;
  Interval out;  ///< under the stringer feet to the far end
  Interval across;
  /// Landing surface at a place.
  [[nodiscard]] Length z_at(Length out_from_deck, Length across_stair) const;
  Length nosing_x;  ///< where `z` holds
  Length middle_y;
};

struct Comfort {
  Length twice_rise_plus_going;  ///< 2R + G, wanted 24 to 25 in
  Length rise_plus_going;        ///< R + G, wanted 17 to 17.5 in
  Area rise_times_going;         ///< R x G, wanted 70 to 75 sq in
};

struct Flight {
  int risers = 0;
  Length unit_rise, going, total_rise;
  Length run;  ///< deck edge to the lowest nosing
  TopMode top = TopMode::deck_edge;
  StringerKind kind = StringerKind::cut;
  std::optional<std::size_t> ready_cut;  ///< index in yard.ready_cut
  Length tread_thickness, tread_depth,
      nosing;              ///< tread_depth: boards plus gaps; nosing: projection past the riser below
  Length first_riser_cut;  ///< plumb height of the stringer's lowest riser cut: R - tread thickness + later finish
  Angle slope;
  std::vector<Point> nosings;  ///< (x, z), lowest first; the deck edge (deck-edge mode) is the last
  Landing landing;
  Comfort comfort;
  [[nodiscard]] int treads() const { return top == TopMode::deck_edge ? risers - 1 : risers; }
};

/// A limit that a flight has to keep, taken from the code pack before any flight is shaped.
struct ShapeLimits {
  Length rise_min = inches(4.0), rise_max = inches(7.75);
  Length going_min = inches(10.0);
  Length going_max = inches(14.0);
  Length flight_rise_max = inches(151.0);
  std::optional<Interval> twice_rise_plus_going;  ///< 2R + G band, where the pack has one
  std::optional<Angle> pitch_max;
};

struct Shapes {
  std::vector<Flight> flights;  ///< every flight that fits, best first
  Problems why_not;             ///< when there is none: the limits that collide and the smallest changes that free it
};

/// RETURNS the flights that fit, best first, without a word about those that do not.
[[nodiscard]] std::vector<Flight> fitting_flights(const Job& job, const Site& site, const ShapeLimits& limits);
/// RETURNS every buildable flight: for each riser count and going (or ready-cut stringer) the landing that fits it.
[[nodiscard]] Shapes shape_flights(const Job& job, const Site& site, const ShapeLimits& limits);

}  // namespace pitchboard
