#pragma once
// The largest ball that fits between walls.

#include <vector>

#include "engine/base/geometry.hpp"

namespace pitchboard {

/// RETURNS the diameter of the largest circle that lies outside every wall and has its centre inside the box; zero when
/// none does. At most 0.0002 in too large, never too small.
[[nodiscard]] Length largest_ball(const std::vector<Polygon>& walls, Interval a, Interval b);

}  // namespace pitchboard
