#pragma once
// What every side view shows, on paper or on a screen: the measured ground, the parts in their places, what is in the
// way. Seen from the left. Internal to drawing.

#include <string>
#include <vector>

#include "engine/draw/parts.hpp"

namespace pitchboard {

/// Room that the dimensions of mid supports take.
constexpr double kSupportRoom = 22;

/// What of the model is shown.
struct Extent {
  Interval x, z;
};
/// RETURNS room for house, stair, landing, the readings near it and what hangs over it; for house and `every_reading`
/// too where asked, or where the frame has no stair.
[[nodiscard]] Extent extent_of(const DrawInput& input, bool every_reading = false);
/// RETURNS today's ground on that line, from under the deck to past the landing.
[[nodiscard]] Polygon ground_track(const DrawInput& input, Interval x, Length across);
/// RETURNS what is drawn of a pier: what goes on below would only shrink the stair.
[[nodiscard]] Interval shown_pier(const Part& pier);
/// RETURNS the middles of the support beams, the nearest to the house first.
[[nodiscard]] std::vector<Length> support_places(const DrawInput& input);
[[nodiscard]] std::string length_words(const DrawInput& input, Length length);

void draw_ground(Canvas& canvas, const DrawInput& input, const View& view, const Extent& extent);
void draw_parts(Canvas& canvas, const DrawInput& input, const View& view, const Extent& extent);
/// What the job says is in the way, and what is over the stair: outlined and named.
void draw_room(Canvas& canvas, const DrawInput& input, const View& view, const Extent& extent);
/// Goings, supports, run and landing in chains under the stair. On a `small` drawing equal goings without room share a
/// figure. REQUIRES a flight.
void draw_level_dimensions(Canvas& canvas, const DrawInput& input, const View& view, double first_line, double feature,
                           bool small);

}  // namespace pitchboard
