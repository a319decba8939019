#pragma once
// A cut stringer as a plate in plane stress, by finite elements: the check beside the throat beam.
//
// UNITS   inches, pounds, psi.  AXES  x out, y up, as the stringer's outline (x, z) in the frame.
// LIMITS  Stresses at re-entrant corners are singular: they grow without end as the mesh gets finer, so none is
// reported.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/geometry.hpp"

namespace pitchboard {

/// Orthotropic wood in the plane of the board. `grain_a`, `grain_b`: unit vector along L in the outline's plane.
struct PlaneWood {
  double e_l = 0, e_t = 0, g_lt = 0, nu_lt = 0.37;
  double grain_a = 1, grain_b = 0;
};
/// RETURNS E_T = E_L/20, G_LT = E_L/16, nu 0.37 unless the species has rows of its own. SOURCE Wood Handbook ratios, of
/// the order of those softwoods.
[[nodiscard]] PlaneWood plane_wood(double e_l, double grain_a, double grain_b);

/// A load spread evenly over a straight edge of the outline, downwards, lb in all.
struct EdgeLoad {
  Point from, to;  ///< ends of the edge, on the outline
  double down = 0;
};
/// An edge that bears: its mean displacement along (nx, ny) is held at zero.
struct EdgeSupport {
  Point from, to;
  double nx = 0, ny = 1;
};
struct SawtoothModel {
  Polygon outline;
  double thickness = 0;
  PlaneWood wood;
  double weight_per_cubic_inch = 0;  ///< self weight, lb
  std::vector<EdgeLoad> loads;
  std::vector<EdgeSupport> supports;  ///< together they must stop every rigid motion
  double element = 2.0;               ///< longest edge, inches
  double at_corner = 0.1;             ///< longest edge at re-entrant corners
};
struct SawtoothResult {
  double mid_down = 0;        ///< vertical deflection of the lower edge half way between the supports
  double mid_normal = 0;      ///< the same square to the lower edge
  double bottom_stress = 0;   ///< greatest stress along the lower edge, away from its ends
  double reactions_down = 0;  ///< sum of the supports' vertical reactions: equals the loads
  int nodes = 0, elements = 0;
};

struct SawtoothMesh {
  std::vector<Point> nodes;                  ///< corners first, then the middles of edges
  std::vector<std::array<int, 6>> elements;  ///< six-node triangles: corners anticlockwise, then middles 12, 23, 31
};
/// RETURNS a mesh of the outline, fine at re-entrant corners. Deterministic.
[[nodiscard]] SawtoothMesh mesh_sawtooth(const SawtoothModel& model);
/// RETURNS nothing when the model is held too little or its outline is not a simple polygon.
[[nodiscard]] std::optional<SawtoothResult> solve_sawtooth(const SawtoothModel& model, const SawtoothMesh& mesh);

}  // namespace pitchboard
