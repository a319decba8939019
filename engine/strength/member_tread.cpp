#include <fmt/format.h>

#include "engine/strength/member_parts.hpp"

namespace pitchboard {
namespace {

constexpr double kSquareInches = 144.0;

Check maker_check(const TreadBoard& tread) {
  HandSheet sheet(tread.board.service.written);
  sheet.given("L", "span of the board", tread.span, "in");
  sheet.given("L_max", "greatest span that the maker prints", tread.greatest_span, "in", tread.maker);
  return held(named(tread.board, "span against the maker's", "maker"), std::move(sheet), tread.span,
              tread.greatest_span, "in");
}

// The end beyond the outer stringer: P at its tip and the board's own weight along it. A cantilever's span counts twice
// against the limit.
void check_overhang(const TreadBoard& tread, double w_dead, double p, std::vector<Check>& checks) {
  const Timber& board = tread.board;
  const Rectangle section = section_of(board);
  const double a = tread.overhang;
  HandSheet sheet(board.service.written);
  write_section(sheet, section);
  sheet.given("a", "overhang beyond the outer stringer", a, "in");
  sheet.given("L", "span behind it", tread.span, "in");
  sheet.given("P", "load at the tip", p, "lb");
  HandSheet stiff = sheet;
  sheet.given("w_D", "own weight", w_dead, "lb/in");
  const double moment =
      sheet.worked("M", "moment over the stringer", p * a + w_dead * a * a / 2, "in-lb", "P a + w_D a^2 / 2");
  sheet.worked("R_up", "pull on the fasteners at the next stringer", -solve_overhang(p, a, tread.span, {}).far, "lb",
               "P a / L");
  checks.push_back(
      bending_check(board, section, std::move(sheet), moment, fmt::format("bending of the overhang under {:g} lb", p)));

  const Overhang bent = solve_overhang(p, a, tread.span, write_stiffness(stiff, board, section));
  stiff.worked("Delta_b", "of the tip by bending", bent.sag.bending, "in", "P a^2 (L + a) / (3 E' I)");
  stiff.worked("Delta_s", "of the tip by shear", bent.sag.shear, "in", "k P a (1 + a / L) / (G b d)");
  const double counted = stiff.worked("L", "span that counts for an end that overhangs", 2 * a, "in", "2 a",
                                      "from memory: IRC Table R301.7, note", true);
  const double allowed = write_allowed_sag(stiff, bent.sag, counted, "deflection.tread");
  checks.push_back(held(named(board, fmt::format("deflection of the overhang under {:g} lb", p), "NDS 2018 3.5"),
                        std::move(stiff), bent.sag.total(), allowed, "in"));
}

}  // namespace

// A simple span L, flat. People everywhere: w = (w_L + w_D) x width, M = w L^2/8. The single load P at midspan, on one
// board or shared: M = P L/4 + w_D L^2/8, Delta = P L^3/(48 E' I) + k P L/(4 G b d). P beside a stringer: V = P + w_D
// L/2.
std::vector<Check> check_tread(const TreadBoard& tread) {
  std::vector<Check> checks;
  TreadBoard flat = tread;
  flat.board.service.flat = true;
  const Timber& board = flat.board;
  if (tread.greatest_span > 0) checks.push_back(maker_check(flat));
  if (!board.values) {
    checks.push_back(without_values(board, "bending, shear and deflection"));
    return checks;
  }
  const Rectangle section = section_of(board);
  const double length = tread.span;
  const double w_live = tread.live * section.breadth / kSquareInches;
  const double w_dead = tread.dead * section.breadth / kSquareInches;
  const double p = tread.point / tread.shared_by;
  const std::string single = fmt::format("{:g} lb on 2 x 2 in", tread.point);

  HandSheet start(board.service.written);
  write_section(start, section);
  start.given("L", "span between two stringers", length, "in");
  start.given("w_D", "own weight on the board", w_dead, "lb/in");

  HandSheet with_point = start;
  with_point.given("P_t", "single load", tread.point, "lb");
  with_point.given("n", "boards that share it", tread.shared_by, "");
  with_point.worked("P", "on this board", p, "lb", "P_t / n");
  HandSheet bending = with_point;
  const double m_point = bending.worked("M", "moment, load at midspan", p * length / 4 + w_dead * length * length / 8,
                                        "in-lb", "P L / 4 + w_D L^2 / 8");
  checks.push_back(bending_check(board, section, std::move(bending), m_point, "bending under " + single));

  HandSheet uniform = start;
  uniform.given("w_L", "people on the board", w_live, "lb/in");
  const double m_uniform =
      uniform.worked("M", "moment", (w_live + w_dead) * length * length / 8, "in-lb", "(w_L + w_D) L^2 / 8");
  checks.push_back(
      bending_check(board, section, std::move(uniform), m_uniform, fmt::format("bending under {:g} psf", tread.live)));

  HandSheet shear = with_point;
  const double v = shear.worked("V", "shear, load beside a stringer", p + w_dead * length / 2, "lb", "P + w_D L / 2");
  checks.push_back(shear_check(board, section, std::move(shear), v, "shear under " + single));

  HandSheet sag = with_point;
  const Stiffness stiffness = write_stiffness(sag, board, section);
  const Sag bent{.bending = p * length * length * length / (48 * stiffness.ei),
                 .shear = p * length / (4 * stiffness.ga_per_k)};
  sag.worked("Delta_b", "by bending", bent.bending, "in", "P L^3 / (48 E' I)");
  sag.worked("Delta_s", "by shear", bent.shear, "in", "k P L / (4 G b d)");
  const double allowed = write_allowed_sag(sag, bent, length, "deflection.tread");
  checks.push_back(
      held(named(board, "deflection under " + single, "NDS 2018 3.5"), std::move(sag), bent.total(), allowed, "in"));

  if (tread.overhang > 0) check_overhang(flat, w_dead, p, checks);
  return checks;
}

}  // namespace pitchboard
