#include "engine/strength/joint_factors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "data/distances.hpp"
#include "data/joint_values.hpp"
#include "engine/base/units.hpp"

namespace pitchboard {
namespace {

/// A load this near to along or across the grain counts as such. UNITS degrees. SOURCE own judgement: far below what a
/// joint's angle is built to.
constexpr double kSameAngle = 1e-6;
/// A distance short by less than this is kept. UNITS inches: one step of the tape in 64 parts.
constexpr double kShortBy = 1.0 / 1024.0;
/// A washer's hole is this much wider than its bolt. SOURCE from memory: cut washers.
constexpr double kWasherHole = 1.0 / 16.0;
/// Slenderness between which the row spacing across the grain runs from short to long. SOURCE NDS 2018 Table 12.5.1D.
constexpr double kStocky = 2.0, kSlender = 6.0;

Figure one(Text symbol, Text words, Text source) {
  return {std::move(symbol), std::move(words), 1.0, "", "", std::move(source)};
}

const DistanceRow& distance_row(std::string_view key) { return *std::ranges::find(kDistances, key, &DistanceRow::key); }

DistanceAsked in_diameters(std::string_view key, double diameter, Text words) {
  const DistanceRow& row = distance_row(key);
  return {row.least * diameter, row.full * diameter, std::move(words), Text::lasting(row.source)};
}

}  // namespace

Figure joint_value(std::string_view key, Text symbol) {
  const JointValueRow& row = *std::ranges::find(kJointValues, key, &JointValueRow::key);
  return {std::move(symbol), Text::lasting(row.words), row.value, "", "", Text::lasting(row.source), row.from_memory};
}

Figure wet_lateral(const Moisture& moisture, double diameter, bool across_grain) {
  if (moisture.wet_in_service) return joint_value("lateral-wet-in-service", "CM");
  if (!moisture.wet_when_made) return one("CM", "dry when made and in service", "NDS 2018 Table 11.3.3");
  if (diameter < 0.25) return joint_value("lateral-drying-thin", "CM");
  if (across_grain) return joint_value("lateral-drying-rows", "CM");
  return one("CM", "made wet, dry in service: one fastener, or one row along the grain", "NDS 2018 Table 11.3.3");
}

Figure wet_withdrawal(const Moisture& moisture, DowelKind kind) {
  if (kind == DowelKind::nail && moisture.wet_when_made != moisture.wet_in_service)
    return joint_value("withdrawal-nail-mixed", "CM");
  if (kind != DowelKind::nail && kind != DowelKind::bolt && moisture.wet_in_service)
    return joint_value("withdrawal-wet-in-service", "CM");
  return one("CM", "moisture takes nothing from the withdrawal", "NDS 2018 Table 11.3.3");
}

Figure end_grain_lateral(bool end_grain) {
  return end_grain ? joint_value("end-grain-lateral", "Ceg") : one("Ceg", "in side grain", "NDS 2018 12.5.2");
}

Figure end_grain_withdrawal(bool end_grain, DowelKind kind) {
  if (!end_grain) return one("Ceg", "in side grain", "NDS 2018 12.5.2");
  if (kind == DowelKind::lag) return joint_value("end-grain-lag-withdrawal", "Ceg");
  return {"Ceg", "screws and nails in end grain are given no withdrawal", 0.0, "", "", "NDS 2018 12.2.2, 12.2.3"};
}

ToeNail toe_nail(const Dowel& nail, double side, double main) {
  const double cosine = std::sqrt(3.0) / 2.0;  // of 30 degrees
  const double from_end = nail.length / 3.0;
  ToeNail out;
  out.ls = std::min(side, from_end);
  out.pt = std::min(main / cosine, nail.length - from_end / cosine);
  out.lm = out.pt * cosine;
  out.lateral = joint_value("toe-nail-lateral", "Ctn");
  out.withdrawal = joint_value("toe-nail-withdrawal", "Ctn");
  return out;
}

DistanceAsked end_distance(double diameter, double degrees, bool towards_end) {
  const DistanceRow& along = distance_row(towards_end ? "end-towards" : "end-away");
  const DistanceRow& across = distance_row("end-across");
  const double t = std::clamp(degrees / 90.0, 0.0, 1.0);
  return {(along.least + (across.least - along.least) * t) * diameter,
          (along.full + (across.full - along.full) * t) * diameter,
          towards_end ? "end distance, load towards the end" : "end distance, load away from the end",
          Text::lasting(along.source)};
}

DistanceAsked spacing_in_row(double diameter, double degrees) {
  const bool across = degrees > 90.0 - kSameAngle;
  return in_diameters(across ? "spacing-across" : "spacing-along", diameter, "spacing in the row");
}

DistanceAsked edge_distance(double diameter, double degrees, bool loaded_edge, double slenderness, double rows_apart) {
  if (degrees > kSameAngle && loaded_edge) return in_diameters("edge-loaded", diameter, "distance to the loaded edge");
  DistanceAsked out = in_diameters("edge", diameter, "edge distance");
  if (degrees <= kSameAngle && slenderness > kSlender) {
    out.least = std::max(out.least, rows_apart / 2.0);
    out.full = out.least;
  }
  return out;
}

DistanceAsked row_spacing(double diameter, double degrees, double slenderness) {
  const Text words = "distance between rows";
  if (degrees <= kSameAngle) return in_diameters("row-along", diameter, words);
  if (slenderness <= kStocky) return in_diameters("row-across-short", diameter, words);
  if (slenderness >= kSlender) return in_diameters("row-across-long", diameter, words);
  const double asked = (5.0 * slenderness + 10.0) / 8.0 * diameter;  // (5 l + 10 D) / 8
  return {asked, asked, words, "NDS 2018 Table 12.5.1D: l/D between 2 and 6"};
}

DistanceAsked pulled_lag(double diameter, PulledLag which) {
  switch (which) {
    case PulledLag::edge:
      return in_diameters("lag-pulled-edge", diameter, "edge distance of a lag screw that is pulled");
    case PulledLag::end:
      return in_diameters("lag-pulled-end", diameter, "end distance of a lag screw that is pulled");
    case PulledLag::spacing:
      break;
  }
  return in_diameters("lag-pulled-spacing", diameter, "spacing of lag screws that are pulled");
}

double geometry_factor(double there, const DistanceAsked& asked) {
  if (there < asked.least - kShortBy) return 0;
  return asked.full > 0 ? std::min(1.0, there / asked.full) : 1.0;
}

double washer_bearing(double radius, double bolt_diameter, double fc_perp) {
  const double hole = (bolt_diameter + kWasherHole) / 2.0;
  return kPi * std::max(0.0, radius * radius - hole * hole) * fc_perp;
}

double steel_tension(HandSheet& sheet, const Dowel& dowel) {
  const bool bolt = dowel.kind == DowelKind::bolt;
  Figure out = joint_value(bolt ? "bolt-tension" : "screw-steel-tension", "Tsteel");
  out.from = sheet.said([&] {
    return bolt ? fmt::format("{:.0f} psi x pi Dn^2 / 4", out.value)
                : fmt::format("{:.0f} psi x pi Dr^2 / 4, Dr = {:.4g} in", out.value, dowel.root);
  });
  const double diameter = bolt ? dowel.diameter : dowel.root;
  out.words = bolt ? "tension that the bolt's steel carries" : "tension that the screw's steel carries at the root";
  out.value *= kPi * diameter * diameter / 4.0;
  out.unit = "lb";
  return sheet.put(std::move(out));
}

}  // namespace pitchboard
