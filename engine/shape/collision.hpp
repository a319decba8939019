#pragma once
// Why no flight fits a site: the limits that collide, and the least changes that free it.
//
// 1. No flight keeps all of `limits`; without any one of them, and with nothing else asked, some flight fits.
// 2. Every way frees the job when it is shaped again with just those changes, and none of its lengths, angles or counts
//    can be a step smaller: 1/16 in (metric jobs: 1 mm), 0.1 degree, one riser.

#include <string>
#include <variant>
#include <vector>

#include "engine/base/problem.hpp"
#include "engine/shape/flight.hpp"

namespace pitchboard {

enum class LimitKind {
  raise,
  dig,
  room,
  obstacle,
  riser_count,
  going,
  ready_cut,  ///< the job's
  highest_riser,
  lowest_riser,
  flight_rise,
  step_least,
  step_most,
  pitch,  ///< the code pack's; step: 2R + G
};
struct Limit {
  LimitKind kind = LimitKind::raise;
  std::size_t obstacle = 0;  ///< index in room.obstacles
  friend bool operator==(const Limit&, const Limit&) = default;
};
/// What a limit is set to; nothing for an obstacle and for the yard's stringers.
using LimitValue = std::variant<std::monostate, int, Length, Angle>;

/// One limit set otherwise. An obstacle is moved away, ready-cut stringers give way to some that are cut on site.
struct LimitChange {
  Limit limit;
  LimitValue from, to;
};
struct Way {
  std::vector<LimitChange> changes;  ///< all of them together
  Flight flight;                     ///< the best that fits then
};
struct Collision {
  std::vector<Limit> limits;
  /// Those with one change first. Last one with several: where they are less work than any change of the site alone, or
  /// nothing alone helps.
  std::vector<Way> ways;
};

/// RETURNS what collides. REQUIRES a job that no flight fits.
[[nodiscard]] Collision collide(const Job& job, const Site& site, const ShapeLimits& limits);

/// RETURNS the input that the limit comes from: "room.run_at_most"; the pack's: "place.pack".
[[nodiscard]] std::string limit_key(const Job& job, const ShapeLimits& limits, const Limit& limit);
/// RETURNS the limit as it is: "the landing lifted 1" at most".
[[nodiscard]] std::string limit_words(const Job& job, const ShapeLimits& limits, const Limit& limit);
/// RETURNS the change: "1" more lift".
[[nodiscard]] std::string change_words(const Job& job, const LimitChange& change);
/// RETURNS the way: "4 risers of 7 3/4" with goings of 10 1/4" would fit with 1" more lift".
[[nodiscard]] std::string way_words(const Job& job, const Way& way);
/// RETURNS the whole of it: first what collides, then each way.
[[nodiscard]] Problems problems_of(const Job& job, const ShapeLimits& limits, const Collision& collision);

}  // namespace pitchboard
