#pragma once
// A joint of the frame under a force: every distance and angle is read from the parts and fasteners themselves.

#include <span>
#include <string>
#include <vector>

#include "engine/strength/calculation.hpp"
#include "engine/strength/joint_reading.hpp"

namespace pitchboard {

/// A force in pounds along the frame's axes (x out, y right, z up).
struct ForceVector {
  double x = 0, y = 0, z = 0;
};

struct JointDuty {
  std::vector<std::size_t> fasteners;  ///< indices in Frame::fasteners: they share the force alike
  std::size_t loaded = 0;              ///< part that the force acts on; it is passed to the other part(s) joined
  std::vector<ForceVector> forces;     ///< on `loaded`, all fasteners together: one after the other
  double load_duration = 1.0;          ///< CD, at most 1.6
  Text duration_words;
  bool written = true;  ///< figures and notes are kept
};

/// RETURNS the check of the whole joint under the worst of the forces: demand |force|, capacity in the same direction,
/// every factor as a figure (Z or W of the worst fastener, CD CM Ct Cg CDelta Ceg, combined, head or washer, least
/// distances). The caller says which member and what it is about.
/// 1. Edge, end and spacing distances are measured from the outlines; below the least allowed the joint fails and the
///    note says which distance is short, by how much.
/// 2. No value from the tables (proprietary, no wood): not_checked, and the note says what to enter.
[[nodiscard]] Check check_joint(JointedFrame& jointed, const JointDuty& duty);

}  // namespace pitchboard
