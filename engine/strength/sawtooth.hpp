#pragma once
// A cut stringer as a plate in plane stress, by finite elements: the check beside the throat beam.
//
// UNITS   inches, pounds, psi.  AXES  x out, y up, as the stringer's outline (x, z) in the frame.
// LIMITS  Stresses at re-entrant corners are singular: they grow without end as the mesh gets finer, so none is
//         reported.
// MODEL   Six-node triangles, three points of integration. The reference stringer is held at the foot's level cut
//         both ways and at the head's plumb cut upright, each by its mean displacement, so neither takes a moment:
//         that is what gives the reference of tests/tables/strength_sawtooth_reference.csv.
//
// 1. Equal models give equal bits. 2. Reactions sum to the loads. 3. Uniform stress comes out exactly.

#include <array>
#include <optional>
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
  double element = 3.0;               ///< longest edge, inches; across the grain less, by (E_L / E_T)^(1/4)
  double at_corner = 0.4;             ///< longest edge at re-entrant corners
};
struct SawtoothResult {
  double mid_down = 0;    ///< vertical deflection of the lower edge half way between the outermost supports' middles
  double mid_normal = 0;  ///< the same square to the lower edge
  /// Greatest stress along the lower edge but for an eighth of it at either end, tension positive: the strain along the
  /// edge at its elements' two Gauss points, where it is more exact than elsewhere (Barlow 1976), times the modulus
  /// along it, since a free edge carries no other stress.
  double bottom_stress = 0;
  double reactions_down = 0;  ///< sum of the supports' vertical reactions: equals the loads
  int nodes = 0, elements = 0;
};

struct SawtoothMesh {
  /// Corners first, then the middles of edges, which stand at a quarter next to re-entrant corners: strain grows
  /// without end there, and so it does in such an element.
  std::vector<Point> nodes;
  std::vector<std::array<int, 6>> elements;  ///< six-node triangles: corners anticlockwise, then middles 12, 23, 31
};
/// RETURNS a mesh of the outline, fine at re-entrant corners, no angle below 28 degrees once stretched across the grain
/// but where the outline itself has one; empty when the outline is not a simple polygon or a size or modulus not
/// positive.
[[nodiscard]] SawtoothMesh mesh_sawtooth(const SawtoothModel& model);
/// The lower edge is the longest one with wood above it that no support lies on.
/// RETURNS nothing when the model is held too little or twice alike, a load or support lies off the outline, there is
/// no lower edge, or the mesh is empty.
[[nodiscard]] std::optional<SawtoothResult> solve_sawtooth(const SawtoothModel& model, const SawtoothMesh& mesh);

}  // namespace pitchboard
