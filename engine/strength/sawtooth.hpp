#pragma once
// A cut stringer as a plate in plane stress, by finite elements: the check beside the throat beam.
//
// UNITS   inches, pounds, psi.  AXES  x out, y up, as the stringer's outline (x, z) in the frame.
// LIMITS  Stresses at re-entrant corners are singular: they grow without end as the mesh gets finer, so none is
//         reported.
// MODEL   Six-node triangles, three points of integration. The reference stringer is held at the foot's level cut
//         both ways and at the head's plumb cut upright, each by its mean displacement, so neither takes a moment:
//         that is what gives the reference of tests/tables/strength_sawtooth_reference.csv. A prop is such a support
//         on part of the lower edge.
//
// 1. Equal models give equal bits. 2. Reactions sum to the loads. 3. Uniform stress comes out exactly.
// 4. Results are sums: of two loads together, the displacements and reactions of each.

#include <array>
#include <optional>
#include <span>
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
/// From one support to the next.
struct SawtoothBay {
  double from = 0, to = 0;  ///< the supports' middles, by x
  double mid_down = 0;      ///< vertical deflection of the lower edge half way between them
  double mid_normal = 0;    ///< the same square to the lower edge
  /// Greatest tension along the lower edge but for an eighth of it at either end, and for every prop's seat with as
  /// much again on both sides: the strain along the edge at its elements' two Gauss points, where it is more exact than
  /// elsewhere (Barlow 1976), times the modulus along it, since a free edge carries no other stress. 0: none.
  double bottom_stress = 0;
  friend bool operator==(const SawtoothBay&, const SawtoothBay&) = default;
};
/// A support on part of the lower edge, and the stringer from the middle of one bay beside it to that of the other.
struct SawtoothProp {
  double at = 0;             ///< its middle, by x
  double reaction = 0;       ///< along its direction, on the stringer
  double bottom_stress = 0;  ///< greatest pressure along the lower edge, negative; read as in a bay
  /// Greatest tension at the upper end of a throat, square to the lower edge from a re-entrant corner: what the force
  /// and the moment across it make if stress runs straight. Both follow from loads and reactions, so no mesh shows.
  double throat_stress = 0;
  friend bool operator==(const SawtoothProp&, const SawtoothProp&) = default;
};
struct SawtoothResult {
  std::vector<SawtoothBay> bays;    ///< by x
  std::vector<SawtoothProp> props;  ///< between the bays
  double reactions_down = 0;        ///< sum of the supports' vertical reactions: equals the loads
  int nodes = 0, elements = 0;
  friend bool operator==(const SawtoothResult&, const SawtoothResult&) = default;
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
/// The lower edge is the longest one with wood above it that no support covers.
/// RETURNS nothing when the model is held too little or twice alike, a load or support lies off the outline, there is
/// no lower edge, or the mesh is empty.
[[nodiscard]] std::optional<SawtoothResult> solve_sawtooth(const SawtoothModel& model, const SawtoothMesh& mesh);
/// The same plate under each set of loads in place of the model's own, factored once. REQUIRES their ends are corners
/// of the mesh: ends of the model's own loads. RETURNS one result a set, none where the above is nothing.
[[nodiscard]] std::vector<SawtoothResult> solve_sawtooth(const SawtoothModel& model, const SawtoothMesh& mesh,
                                                         std::span<const std::vector<EdgeLoad>> cases);

}  // namespace pitchboard
