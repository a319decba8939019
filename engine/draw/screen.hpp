#pragma once
// What is asked of a drawing for a screen.

#include "engine/job/job.hpp"

namespace pitchboard {

/// What a screen shows of the side view.
struct ScreenView {
  double width = 360, height = 240;  ///< points
  bool readings = false;             ///< the dimensions are the readings', each with its input, not the stair's
  Line line = Line::middle;          ///< whose readings
};

}  // namespace pitchboard
