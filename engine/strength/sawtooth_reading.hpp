#pragma once
// What is read off a solved plate: deflections and stresses of its lower edge, and what its throats carry. Internal to
// the strength stage.

#include <optional>
#include <span>
#include <vector>

#include "engine/base/triangulation.hpp"
#include "engine/strength/sawtooth.hpp"

namespace pitchboard {

/// One element's edge on the outline: its ends and its middle, the wood to the left.
struct OutlineEdge {
  int from = 0, to = 0, middle = 0;
};
struct PlateSolution {
  std::vector<Spot> moved;     ///< of each node
  std::vector<double> forces;  ///< of each support on the plate, along its direction
};
/// From its end with the lesser x to the other, the wood to the left.
struct LowerEdge {
  Point from, to;
};

/// RETURNS the longest edge of the outline with wood above it that no support covers.
[[nodiscard]] std::optional<LowerEdge> lower_edge(const SawtoothModel& model);
/// `loads`: what the solution is of; `edges`: those of the lower edge.
[[nodiscard]] SawtoothResult read_plate(const SawtoothModel& model, std::span<const EdgeLoad> loads,
                                        const SawtoothMesh& mesh, const std::vector<OutlineEdge>& edges,
                                        const LowerEdge& line, const PlateSolution& solution);

}  // namespace pitchboard
