#pragma once
// Solids and surfaces as flat triangles. Internal to drawing.

#include <array>
#include <cstdint>
#include <vector>

#include "engine/base/geometry.hpp"

namespace pitchboard {

/// Faces share no corners, so that each is flat to the light.
struct Mesh {
  std::vector<Point3> corners;
  std::vector<Direction> normals;        ///< one a corner, outwards
  std::vector<std::uint32_t> triangles;  ///< three corners each, anticlockwise seen from outside
};

/// Adds a flat face. REQUIRES corners and triangles anticlockwise seen from outside, the corners not on one line.
void add_face(Mesh& mesh, const std::vector<Point3>& corners, const std::vector<std::array<int, 3>>& triangles);
/// Adds all faces of the prism: a closed surface around its volume. REQUIRES a simple outline.
void add_prism(Mesh& mesh, const Prism& prism);

}  // namespace pitchboard
