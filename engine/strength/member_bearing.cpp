#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/strength/member_parts.hpp"

namespace pitchboard {
namespace {

double degrees(double opposite, double adjacent) { return std::atan2(opposite, adjacent) * 180.0 / std::numbers::pi; }

/// Writes the value of one face. RETURNS F'theta.
double write_face(HandSheet& sheet, const BearingFace& face, const std::string& index) {
  const Timber& wood = face.board;
  const double across = adjusted(sheet, *wood.values, wood.member, wood.service, Value::compression_across);
  if (face.degrees_from_grain >= 90)
    return sheet.worked("F" + index, wood.part + ": across the grain", across, "psi", "F'c_perp", "NDS 2018 3.10.2");
  Service short_column = wood.service;
  short_column.column_length = 0;
  const double along = adjusted(sheet, *wood.values, wood.member, short_column, Value::compression);
  const double theta =
      sheet.given("theta" + index, wood.part + ": between force and grain", face.degrees_from_grain, "deg");
  return sheet.worked("F" + index, wood.part + ": at that angle", bearing_at_angle(along, across, theta), "psi",
                      "Fc* F'c_perp / (Fc* sin^2 theta + F'c_perp cos^2 theta)", "NDS 2018 3.10.3", true);
}

}  // namespace

double seat_angle(double rise, double going) { return degrees(going, rise); }
double plumb_cut_angle(double rise, double going) { return degrees(rise, going); }

Check check_bearing(const Bearing& bearing) {
  Check check;
  check.member = bearing.part;
  check.where = bearing.mark;
  check.what = bearing.what;
  check.clause = "NDS 2018 3.10";
  for (const BearingFace& face : bearing.faces) {
    if (face.board.values) continue;
    check.note = face.board.why_not;
    return check;
  }
  HandSheet sheet(
      std::ranges::all_of(bearing.faces, [](const BearingFace& face) { return face.board.service.written; }));
  const double force = sheet.given("R", bearing.force_words, bearing.force, "lb");
  sheet.given("l", "length of the bearing", bearing.length, "in");
  sheet.given("b", "width of the bearing", bearing.width, "in");
  const double area = bearing.length * bearing.width;
  const double pressure = area > 0 ? force / area : 0.0;
  sheet.worked("fc_perp", "pressure", pressure, "psi", "R / (l b)");
  double weaker = 0;
  for (std::size_t i = 0; i < bearing.faces.size(); ++i) {
    const double value = write_face(sheet, bearing.faces[i], bearing.faces.size() == 1 ? "_b" : i == 0 ? "_1" : "_2");
    weaker = i == 0 ? value : std::min(weaker, value);
  }
  if (area <= 0) {
    check.note = "Nothing bears: the faces do not meet.";
    return held(std::move(check), std::move(sheet), force, 0.0, "lb");
  }
  return held(std::move(check), std::move(sheet), pressure, weaker, "psi");
}

Check check_ground(const std::string& mark, double force, double weight, double length, double width, double soil) {
  constexpr double kSquareInches = 144.0;
  Check check;
  check.member = "ground";
  check.where = mark;
  check.what = "pressure on the soil";
  check.clause = "IRC R401.4.1";
  check.note = "The load spreads evenly over the footing; frost and settling are not part of this.";
  HandSheet sheet;
  sheet.given("R", "load on the footing", force, "lb");
  sheet.given("W", "its own weight", weight, "lb");
  sheet.given("l", "length", length, "in");
  sheet.given("b", "width", width, "in");
  const double area = length * width / kSquareInches;
  const double pressure = area > 0 ? (force + weight) / area : 0.0;
  sheet.worked("q", "pressure", pressure, "psf", "144 (R + W) / (l b)");
  sheet.given("q_s", "pressure that the ground bears", soil, "psf", "job: loads.soil");
  return held(std::move(check), std::move(sheet), area > 0 ? pressure : force, area > 0 ? soil : 0.0,
              area > 0 ? "psf" : "lb");
}

// Stretched face: V' = 2/3 F'v b d_n (d_n/d)^2. Compressed face: V' = 2/3 F'v b [d - (d - d_n) e/d_n] while e <= d_n,
// otherwise d_n is all there is.
Check check_notched_end(const NotchedEnd& end) {
  const Timber& board = end.board;
  const std::string what = end.tension_side ? "shear at the notched end" : "shear at the end notched on top";
  if (!board.values) return without_values(board, what);
  HandSheet sheet(board.service.written);
  const double b = sheet.given("b", "thickness", board.member.thickness, "in");
  const double d = sheet.given("d", "whole depth", end.depth, "in");
  const double dn = sheet.given("d_n", "depth left over the notch", end.left, "in");
  const double v = sheet.given("V", "shear square to the board", end.shear, "lb");
  const double fv = adjusted(sheet, *board.values, board.member, board.service, Value::shear);
  const std::string clause = "NDS 2018 3.4.3.2";
  double capacity = 0;
  if (end.tension_side) {
    capacity = sheet.worked("V'", "adjusted shear at the notch", 2.0 / 3 * fv * b * dn * (dn / d) * (dn / d), "lb",
                            "2/3 F'v b d_n (d_n / d)^2", clause, true);
  } else {
    const double e = sheet.given("e", "from the support's inner edge to the end of the notch", end.past_support, "in");
    const bool close = e <= dn;
    capacity =
        sheet.worked("V'", "adjusted shear at the notch", 2.0 / 3 * fv * b * (close ? d - (d - dn) / dn * e : dn), "lb",
                     close ? "2/3 F'v b (d - e (d - d_n) / d_n)" : "2/3 F'v b d_n", clause, true);
  }
  return held(named(board, what, clause), std::move(sheet), v, capacity, "lb");
}

// Fasteners nearer the end than 5 d split the board as a notch does: V' = 2/3 F'v b d_e (d_e/d)^2; farther away
// V' = 2/3 F'v b d_e.
Check check_jointed_end(const JointedEnd& end) {
  constexpr double kNearEnd = 5.0;
  const Timber& board = end.board;
  const std::string what = "shear at the fasteners";
  if (!board.values) return without_values(board, what);
  HandSheet sheet(board.service.written);
  const double b = sheet.given("b", "thickness", board.member.thickness, "in");
  const double d = sheet.given("d", "depth", end.depth, "in");
  const double de = sheet.given("d_e", "depth less the unloaded edge to the nearest fastener", end.effective, "in");
  const double v = sheet.given("V", "shear square to the board", end.shear, "lb");
  sheet.given("l_e", "from the end to the fasteners", end.from_end, "in");
  const double fv = adjusted(sheet, *board.values, board.member, board.service, Value::shear);
  const bool near = end.from_end < kNearEnd * d;
  const double reduced = near ? (de / d) * (de / d) : 1.0;
  const std::string clause = "NDS 2018 3.4.3.3";
  const double capacity = sheet.worked("V'", near ? "adjusted shear, nearer the end than 5 d" : "adjusted shear",
                                       2.0 / 3 * fv * b * de * reduced, "lb",
                                       near ? "2/3 F'v b d_e (d_e / d)^2" : "2/3 F'v b d_e", clause, true);
  return held(named(board, what, clause), std::move(sheet), v, capacity, "lb");
}

}  // namespace pitchboard
