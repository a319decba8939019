// What the frame does not do, computed beside it: two lags into the head's end grain, a published connector, a full
// seat, and the flight whose head only leans. None of these is a check of the stair.

#include <fmt/format.h>

#include <cmath>

#include "engine/strength/calculator.hpp"
#include "engine/strength/dowel.hpp"
#include "engine/strength/joint_factors.hpp"

namespace pitchboard {
namespace {

/// Two lags through a 2x rim into the plumb cut. Their axis is level, the stringer's grain slopes: the whole of the end
/// grain's loss is taken.
Check lags_into_head(Calculator& c, std::size_t stringer, double reaction) {
  constexpr double kLag = 0.5, kLength = 6.0;
  constexpr int kCount = 2;
  const std::optional<std::size_t> rim = part_named(c.frame, "rim");
  const Timber wood = c.timber(stringer, "head", "duration.live");
  Check check;
  check.member = "head";
  check.where = wood.mark + " head";
  check.what = "two 1/2 x 6 in lags through the rim into the plumb cut";
  check.clause = "NDS 2018 12.3, 11.3.9, 12.5.2";
  check.demand = reaction;
  check.unit = "lb";
  if (!wood.values || !rim) {
    check.note = wood.why_not;
    return check;
  }
  const double side = in_inches(c.frame.parts[*rim].solid.span.size());
  const Dowel lag = dowel_of(DowelKind::lag, kLag, kLength);
  const Penetration depth = penetration(lag, side, kLength);
  const Leg main{.gravity = wood.values->gravity, .bearing_length = depth.lm, .load_to_grain = 90, .end_grain = true};
  const Leg rim_leg{.gravity = wood.values->gravity, .bearing_length = side, .load_to_grain = 90};
  const Yield yield = yield_modes(lag, main, rim_leg, false);
  const Figure wet = wet_lateral({wood.service.wet, wood.service.wet}, kLag, false), end = end_grain_lateral(true);
  check.figures = yield.figures;
  check.figures.push_back({"CD", wood.service.duration_words, wood.service.load_duration, "", "",
                           "NDS 2018 Table 2.3.2", wood.service.duration_from_memory});
  check.figures.push_back(wet);
  check.figures.push_back(end);
  check.capacity = kCount * yield.z * wood.service.load_duration * wet.value * end.value;
  check.figures.push_back(
      {"R", "what two lags carry", check.capacity, "lb", "2 Z CD CM Ceg", "NDS 2018 Table 11.3.1", false});
  check.note = "Only where the plumb cut is deep enough for both, each 4 diameters from the edges.";
  return weighed(std::move(check));
}

Check published_connector(const Calculator& c, const std::string& where, double reaction) {
  Check check;
  check.member = "head";
  check.where = where;
  check.what = "a sloped connector by its maker's report";
  check.clause = "maker's report";
  check.demand = reaction;
  check.unit = "lb";
  if (!c.job.stringers.connector_value) {
    check.note = "Not known here: write the allowable download into stringers.connector_value.";
    return check;
  }
  check.capacity = *c.job.stringers.connector_value;
  return weighed(std::move(check));
}

/// A ledger strip under the head: wood on wood, the force square to the seat's grain or at the stringer's angle.
Check full_seat(Calculator& c, std::size_t stringer, double reaction) {
  constexpr double kLedger = 1.5;
  Bearing seat;
  seat.part = "head";
  seat.mark = c.frame.parts[stringer].mark + " head";
  seat.what = "a level seat on a 1 1/2 in ledger under the head";
  seat.faces = {{c.timber(stringer, "head", "duration.live"),
                 seat_angle(in_inches(c.flight.unit_rise), in_inches(c.flight.going))}};
  seat.length = kLedger;
  seat.width = in_inches(c.frame.parts[stringer].solid.span.size());
  seat.force = reaction;
  seat.force_words = "reaction of the head";
  return check_bearing(seat);
}

/// The head presses level against rim or hanger board, and the foot has to be kept from sliding out.
Check leaning(const Calculator& c, std::size_t stringer, const Thrust& thrust) {
  Check check;
  check.member = "foot";
  check.where = c.frame.parts[stringer].mark + " foot";
  check.what = "sliding out, if nothing held the head up and it only leaned";
  check.clause = "statics";
  check.demand = thrust.push;
  check.unit = "lb";
  check.figures = thrust.figures;
  check.note =
      "This is why the head hangs in a connector and the kicker is pinned: pins in the landing have no published "
      "value here.";
  return check;
}

}  // namespace

void other_ways(Calculator& c, std::size_t stringer, double reaction, const Thrust& thrust) {
  const std::string where = c.frame.parts[stringer].mark + " head";
  c.out.other_ways = {lags_into_head(c, stringer, reaction), published_connector(c, where, reaction),
                      full_seat(c, stringer, reaction), leaning(c, stringer, thrust)};
}

}  // namespace pitchboard
