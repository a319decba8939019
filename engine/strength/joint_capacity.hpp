#pragma once
// What one standing fastener carries in the direction of a force. Internal to the stage.
//
// UNITS  inches, pounds.

#include <span>
#include <string>
#include <vector>

#include "engine/strength/joint_reading.hpp"

namespace pitchboard {

/// F as one fastener of the joint meets it.
struct Split {
  Vector across;       ///< what it puts on the loaded part's fastener, square to the axis
  double lateral = 0;  ///< its size
  double pull = 0;     ///< along the axis, apart; negative: pressed together
};

/// What all fasteners that stand alike have in common.
struct Factors {
  double duration = 1;
  Moisture moisture;
  Figure cg;
  GeometryRead geometry;
  bool across_grain = false;  ///< more than one row, so that shrinking wood is held
};

/// What one fastener carries in the direction of F.
struct Capacity {
  double pounds = 0;
  std::vector<Figure> figures;
  std::string fails;    ///< why it carries nothing
  std::string unknown;  ///< which value is missing
};

/// RETURNS F along and across the fastener's axis, seen from the loaded part.
[[nodiscard]] Split split(const StandingDowel& d, std::size_t loaded, Vector force);
/// RETURNS the capacity of one fastener in the direction of `force`, pull and shear together. REQUIRES some of it is
/// not pressing.
[[nodiscard]] Capacity carries(const Job& job, const Frame& frame, const StandingDowel& d, const Split& force,
                               const Factors& factors, const Text& duration_words);

}  // namespace pitchboard
