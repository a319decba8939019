#pragma once
// What a connection's surroundings do to its value: moisture, end grain, toe-nails, distances, and what bears on wood
// or pulls in steel.
//
// UNITS   inches, pounds, psi, degrees.
// SOURCE  NDS 2018 11.3 and 12.5; the rows of data/strength/joint_values.toml and distances.toml.

#include <string>
#include <string_view>

#include "engine/strength/dowel.hpp"
#include "engine/strength/hand_sheet.hpp"

namespace pitchboard {

/// RETURNS the row of data/strength/joint_values as a figure. REQUIRES there is such a row.
[[nodiscard]] Figure joint_value(std::string_view key, Text symbol);

/// How wet the wood is, above 19 % or not, when the joint is made and while it serves.
struct Moisture {
  bool wet_when_made = true, wet_in_service = true;
};
/// RETURNS CM for lateral values. `across_grain`: fasteners in more than one row along the grain, so that shrinking
/// wood splits between them.
[[nodiscard]] Figure wet_lateral(const Moisture& moisture, double diameter, bool across_grain);
/// RETURNS CM for withdrawal.
[[nodiscard]] Figure wet_withdrawal(const Moisture& moisture, DowelKind kind);
/// RETURNS Ceg; in withdrawal 0 for wood screws and nails, which have no value there.
[[nodiscard]] Figure end_grain_lateral(bool end_grain);
[[nodiscard]] Figure end_grain_withdrawal(bool end_grain, DowelKind kind);

/// A nail driven at 30 degrees to the side member, a third of its length from that member's end.
struct ToeNail {
  double ls = 0, lm = 0;       ///< for the yield equations
  double pt = 0;               ///< along the nail in the main member
  Figure lateral, withdrawal;  ///< Ctn
};
[[nodiscard]] ToeNail toe_nail(const Dowel& nail, double side, double main);

/// A distance asked for: under `least` the joint is not allowed, from `full` on CDelta is 1.
struct DistanceAsked {
  double least = 0, full = 0;
  Text words, source;
};
/// RETURNS the end distance for a load at `degrees` to the grain: between along and across by straight line.
[[nodiscard]] DistanceAsked end_distance(double diameter, double degrees, bool towards_end);
/// RETURNS the spacing along a row; `degrees` between load and grain.
[[nodiscard]] DistanceAsked spacing_in_row(double diameter, double degrees);
/// RETURNS the edge distance. `slenderness`: l/D; `row_spacing` 0: one row.
[[nodiscard]] DistanceAsked edge_distance(double diameter, double degrees, bool loaded_edge, double slenderness,
                                          double row_spacing);
/// RETURNS the distance between rows.
[[nodiscard]] DistanceAsked row_spacing(double diameter, double degrees, double slenderness);
enum class PulledLag { edge, end, spacing };
/// RETURNS the distances of a lag screw that is only pulled.
[[nodiscard]] DistanceAsked pulled_lag(double diameter, PulledLag which);
/// RETURNS CDelta of one distance: 0 below the least.
[[nodiscard]] double geometry_factor(double there, const DistanceAsked& asked);

/// RETURNS what a round washer carries on wood. `fc_perp` adjusted. SOURCE NDS 2018 11.2.3, 3.10.
[[nodiscard]] double washer_bearing(double radius, double bolt_diameter, double fc_perp);
/// Writes the tension that the steel of the fastener carries. RETURNS it; 0: no value.
double steel_tension(HandSheet& sheet, const Dowel& dowel);

}  // namespace pitchboard
