#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/strength/member_parts.hpp"

namespace pitchboard {
namespace {

constexpr double kInchesPerFoot = 12.0;

/// Simple span, load at midspan for bending and beside the support for shear.
void weigh_single(std::vector<Check>& checks, const Timber& board, HandSheet sheet, double point, double length,
                  const std::string& load) {
  const Rectangle section = section_of(board);
  HandSheet shear = sheet;
  const double moment = sheet.worked("M", "moment, load at midspan", point * length / 4, "in-lb", "P L / 4");
  checks.push_back(bending_check(board, section, std::move(sheet), moment, "bending " + load));
  shear.worked("V", "shear, load beside a support", point, "lb", "P");
  checks.push_back(shear_check(board, section, std::move(shear), point, "shear " + load));
}

void weigh_along(std::vector<Check>& checks, const Timber& board, HandSheet sheet, double w, double length,
                 const std::string& load) {
  const Rectangle section = section_of(board);
  HandSheet shear = sheet;
  const double moment = sheet.worked("M", "moment", w * length * length / 8, "in-lb", "w L^2 / 8");
  checks.push_back(bending_check(board, section, std::move(sheet), moment, "bending " + load));
  const double v = shear.worked("V", "shear", w * length / 2, "lb", "w L / 2");
  checks.push_back(shear_check(board, section, std::move(shear), v, "shear " + load));
}

}  // namespace

// A simple span between posts: conservative where the rail carries on. Boards that are joined bend alike, so each takes
// the part E I / sum of E I.
std::vector<Check> check_rail(const RailSpan& rail) {
  std::vector<Check> checks;
  std::vector<Timber> boards;
  for (const RailBoard& part : rail.carries) {
    boards.push_back(part.board);
    boards.back().service.flat = part.on_edge == rail.level;
    if (!part.board.values) return {without_values(part.board, "bending and shear")};
  }
  double sum = 0;
  HandSheet unread(false);
  for (const Timber& board : boards)
    sum += adjusted(unread, *board.values, board.member, board.service, Value::stiffness) * section_of(board).inertia();
  const char* way = rail.level ? "pushed level" : "pressed down";
  const std::string under_single = fmt::format("under {:g} lb, {}", rail.point, way);
  const std::string under_along = rail.along > 0 ? fmt::format("under {:g} lb/ft, {}", rail.along, way) : "";
  for (const Timber& board : boards) {
    HandSheet sheet(board.service.written);
    write_section(sheet, section_of(board));
    sheet.given("L", "span between supports, along the rail", rail.span, "in");
    double share = 1;
    if (boards.size() > 1) {
      const double e = adjusted(sheet, *board.values, board.member, board.service, Value::stiffness);
      share = sheet.worked("share", "part of the load by stiffness", e * section_of(board).inertia() / sum, "",
                           "E' I / sum of E' I");
    }
    HandSheet single = sheet;
    single.given("P_g", "single load", rail.point, "lb");
    const double p =
        single.worked("P", "on this board", rail.point * share, "lb", boards.size() > 1 ? "share P_g" : "P_g");
    weigh_single(checks, board, std::move(single), p, rail.span, under_single);
    if (rail.along <= 0) continue;
    sheet.given("w_g", "load along the rail", rail.along, "lb/ft");
    const double w = sheet.worked("w", "on this board", rail.along * share / kInchesPerFoot, "lb/in",
                                  boards.size() > 1 ? "share w_g / 12" : "w_g / 12");
    weigh_along(checks, board, std::move(sheet), w, rail.span, under_along);
  }
  return checks;
}

// A square foot pressed against the guard meets at least n = floor(12/spacing) balusters, and never less than one: each
// carries P_i/n, taken at midspan.
std::vector<Check> check_baluster(const Baluster& baluster) {
  const std::string load = fmt::format("under {:g} lb on 1 sq ft", baluster.infill);
  if (baluster.metal) {
    Check check = named(baluster.wood, "bending " + load, "guard infill");
    check.note =
        "A metal baluster: steel or aluminum is not computed here. Go by the maker's test of the guard as a whole.";
    return {check};
  }
  if (!baluster.wood.values) return {without_values(baluster.wood, "bending and shear " + load)};
  HandSheet sheet(baluster.wood.service.written);
  write_section(sheet, section_of(baluster.wood));
  sheet.given("L", "between its fixings", baluster.span, "in");
  sheet.given("s", "center to center", baluster.spacing, "in");
  sheet.given("P_i", "load on one square foot", baluster.infill, "lb");
  const double met = baluster.spacing > 0 ? std::floor(kInchesPerFoot / baluster.spacing + 1e-9) : 1.0;
  const double n = sheet.worked("n", "balusters that a square foot meets at least", std::max(1.0, met), "",
                                "12 / s rounded down, at least 1", "geometry");
  const double p = sheet.worked("P", "on one baluster", baluster.infill / n, "lb", "P_i / n");
  std::vector<Check> checks;
  weigh_single(checks, baluster.wood, std::move(sheet), p, baluster.span, load);
  return checks;
}

std::vector<Check> check_hanger_board(const HangerBoard& hanger) {
  if (!hanger.board.values) return {without_values(hanger.board, "bending and shear")};
  std::vector<Check> checks;
  const auto push = [&](bool flat, double force, const char* words, const std::string& what) {
    if (force <= 0) return;
    Timber board = hanger.board;
    board.service.flat = flat;
    HandSheet sheet(board.service.written);
    write_section(sheet, section_of(board));
    sheet.given("L", "between the bolts or blocks that hold it", hanger.span, "in");
    sheet.given("P", words, force, "lb");
    weigh_single(checks, board, std::move(sheet), force, hanger.span, what);
  };
  push(false, hanger.down, "what one stringer hangs on it", "under a stringer");
  push(true, hanger.out, "push of one stringer", "pushed by a stringer");
  return checks;
}

Thrust thrust_of(double load, double from_foot, double rise) {
  HandSheet sheet;
  sheet.given("W", "load on the stringer", load, "lb");
  sheet.given("x", "its middle from the foot, level", from_foot, "in");
  sheet.given("R_t", "rise from foot to head", rise, "in");
  const double push = rise > 0 ? load * from_foot / rise : 0.0;
  sheet.worked("H", "level push at head and foot", push, "lb", "W x / R_t",
               "statics: the head leans and is not held up");
  return {.push = push, .figures = std::move(sheet).take()};
}

}  // namespace pitchboard
