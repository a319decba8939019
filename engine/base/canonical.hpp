#pragma once
// Numbers as canonical JSON holds them.

#include <cmath>

namespace pitchboard {

/// RETURNS the number to a millionth: finer than any tool, coarser than the last bits that platforms may differ in.
[[nodiscard]] inline double canonical(double value) {
  constexpr double kStepsPerUnit = 1e6;
  const double rounded = std::round(value * kStepsPerUnit) / kStepsPerUnit;
  return rounded == 0 ? 0.0 : rounded;  // no -0
}

}  // namespace pitchboard
