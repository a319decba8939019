#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/strength/limits.hpp"
#include "engine/strength/member_parts.hpp"

namespace pitchboard {

double notch_depth(double rise, double going) { return rise * going / std::hypot(rise, going); }

// A saw that runs c past the corner along the plumb cut goes c cos(slope) deeper square to the edge, along the level
// cut c sin(slope).
double throat_of(double width, double rise, double going, double over_cut) {
  return width - notch_depth(rise, going) - over_cut * std::max(rise, going) / std::hypot(rise, going);
}

namespace {

constexpr double kInchesPerFoot = 12.0;

// An inclined beam of level span L and slope theta under plumb loads w per level inch and P, hinged at the foot; every
// other support holds it up and lets it slide level, so that all reactions are plumb. A section then carries a plumb
// force Q, which is the shear of the level beam under the same loads:
//   M = M_level,  V = Q cos(theta) square to the board,  N = Q sin(theta) along it (pressed below, stretched above).
// Square to the board, on its own length s = L/cos(theta), it carries w cos^2(theta) and P cos(theta); so bends
//   Delta_b = 5 w cos^2 s^4/(384 E' I), P cos s^3/(48 E' I);  Delta_s = k w cos^2 s^2/(8 G b d), k P cos s/(4 G b d).
// A cut board counts as a straight one of its throat: the teeth carry nothing.
class Inclined {
 public:
  Inclined(const StringerBeam& beam, const StringerWorst& worst)
      : beam_(beam), worst_(worst), board_(beam.board), start_(beam.board.service.written) {
    step_ = std::hypot(beam.rise, beam.going);
    if (beam.cut) board_.member.width = throat_of(board_.member.width, beam.rise, beam.going, beam.over_cut);
    section_ = section_of(board_);
    live_ = beam.live / kInchesPerFoot;
    dead_ = beam.dead / kInchesPerFoot;
    write_start();
  }

  std::vector<Check> checks() {
    if (!board_.values) return {without_values(board_, "bending, shear and deflection")};
    if (section_.depth <= 0)
      return {
          held(named(board_, "cut through", "plane geometry"), start_, beam_.board.member.width, section_.depth, "in")};
    std::vector<Check> checks;
    checks.reserve(9);
    Case people = people_case(), single = single_case();
    forces(checks, worst_.people, people);
    forces(checks, worst_.single, single);
    deflections(checks, std::move(people), std::move(single));
    if (!start_.written()) return checks;
    for (Check& check : checks) check.note = note();
    return checks;
  }

 private:
  [[nodiscard]] double cosine() const { return beam_.going / step_; }
  [[nodiscard]] double sine() const { return beam_.rise / step_; }
  [[nodiscard]] bool simple() const { return beam_.spans.size() == 1; }
  [[nodiscard]] std::string note() const {
    std::string words = beam_.cut ? "A beam as deep as the throat; no laboratory tests of cut stringers were found. "
                                  : "The whole board. ";
    words += "All reactions are taken as plumb.";
    if (!simple()) words += " The stringer carries on over its middle supports, which do not give.";
    return words;
  }

  void write_start() {
    const Member& whole = beam_.board.member;
    start_.given("b", "thickness", section_.breadth, "in");
    start_.given("R", "rise of a step", beam_.rise, "in");
    start_.given("T", "going of a step", beam_.going, "in");
    if (beam_.cut) {
      start_.given("d_0", "width of the board", whole.width, "in");
      start_.worked("h", "cut off square to the edge", notch_depth(beam_.rise, beam_.going), "in",
                    "R T / sqrt(R^2 + T^2)", "plane geometry");
      start_.given("c", "saw past the corner", beam_.over_cut, "in");
      start_.worked("d", "throat", section_.depth, "in", "d_0 - h - c max(R, T) / sqrt(R^2 + T^2)", "plane geometry");
    } else {
      start_.given("d", "depth of the board", section_.depth, "in");
    }
    for (std::size_t i = 0; i < beam_.spans.size(); ++i)
      start_.given(simple() ? "L" : fmt::format("L{}", i + 1), "level span", beam_.spans[i], "in");
    start_.given("w_D", "own weight", dead_, "lb/in");
  }

  /// One of the two loads, which do not act together.
  struct Case {
    std::string words;
    HandSheet sheet;
    const char *moment, *plumb, *bent, *sheared;  // formulas on one span
  };
  [[nodiscard]] Case people_case() const {
    Case load{.words = fmt::format("under {:g} lb/ft", beam_.live),
              .sheet = start_,
              .moment = "(w_L + w_D) L^2 / 8",
              .plumb = "(w_L + w_D) L / 2",
              .bent = "5 w_L (T/step)^2 s^4 / (384 E' I)",
              .sheared = "k w_L (T/step)^2 s^2 / (8 G b d)"};
    load.sheet.given("w_L", "people", live_, "lb/in");
    return load;
  }
  [[nodiscard]] Case single_case() const {
    Case load{.words = fmt::format("under {:g} lb on one stringer", beam_.point),
              .sheet = start_,
              .moment = "P L / 4 + w_D L^2 / 8",
              .plumb = "P + w_D L / 2",
              .bent = "P (T/step) s^3 / (48 E' I)",
              .sheared = "k P (T/step) s / (4 G b d)"};
    load.sheet.given("P", "single load", beam_.point, "lb");
    return load;
  }
  [[nodiscard]] const char* or_continuous(const char* formula) const {
    return simple() ? formula : "three-moment equation, worst place";
  }

  void forces(std::vector<Check>& checks, const BeamWorst& worst, const Case& load) {
    HandSheet bending = load.sheet;
    bending.worked("M", worst.hogging > worst.sagging ? "moment over a middle support" : "moment", worst.moment(),
                   "in-lb", or_continuous(load.moment));
    checks.push_back(bending_check(board_, section_, std::move(bending), worst.moment(), "bending " + load.words));
    const double fb = checks.back().demand, fb_allowed = checks.back().capacity;

    HandSheet shear = load.sheet;
    shear.worked("Q", "plumb force beside a support", worst.shear, "lb", or_continuous(load.plumb));
    HandSheet along = shear;
    const double v = shear.worked("V", "square to the board", worst.shear * cosine(), "lb", "Q T / sqrt(R^2 + T^2)");
    Check across = shear_check(board_, section_, std::move(shear), v, "shear " + load.words);
    checks.push_back(with_axial(fb, fb_allowed, std::move(along), worst, load.words));
    checks.push_back(std::move(across));
  }

  // Below the middle of a span N presses: (fc/F'c)^2 + fb/(F'b (1 - fc/FcE)); above it stretches: ft/F't + fb/F'b. Each
  // with the greatest N and the greatest M, though they do not meet.
  Check with_axial(double fb, double fb_allowed, HandSheet sheet, const BeamWorst& worst, const std::string& load) {
    const double n = sheet.worked("N", "along the board", worst.shear * sine(), "lb", "Q R / sqrt(R^2 + T^2)");
    const double f = sheet.worked("fc", "stress along the board, either way", n / section_.area(), "psi", "N / (b d)");
    sheet.given("fb", "bending stress", fb, "psi", "bending check");
    sheet.given("F'b", "adjusted bending value", fb_allowed, "psi", "bending check");
    Service service = board_.service;
    service.column_length = 0;
    const double fc_star = adjusted(sheet, *board_.values, board_.member, service, Value::compression);
    const double e_min = adjusted(sheet, *board_.values, board_.member, service, Value::least_stiffness);
    const double longest = *std::ranges::max_element(beam_.spans) / cosine();
    const double slender = sheet.worked("s/d", "slenderness, the worse of s / d and held length / b",
                                        std::max(longest / section_.depth, service.unbraced_length / section_.breadth),
                                        "", "s = L sqrt(R^2 + T^2) / T", "NDS 2018 3.7.1");
    const double fc_e = sheet.worked("FcE", "buckling stress", 0.822 * e_min / (slender * slender), "psi",
                                     "0.822 E'min / (s/d)^2", "NDS 2018 3.7.1");
    const double cp = sheet.worked("CP", "column stability", column_stability(fc_star, fc_e), "", "FcE, F'c, c = 0.8",
                                   "NDS 2018 3.7.1");
    const double fc_allowed = sheet.worked("F'c CP", "with column stability", fc_star * cp, "psi", "F'c CP");
    const double ft_allowed = adjusted(sheet, *board_.values, board_.member, service, Value::tension);
    const double left = 1 - f / fc_e;
    const double pressed = left > 0 ? f * f / (fc_allowed * fc_allowed) + fb / (fb_allowed * left) : 1 + f / fc_e;
    sheet.worked("pressed", "lower half", pressed, "",
                 left > 0 ? "(fc / F'c CP)^2 + fb / (F'b (1 - fc / FcE))" : "1 + fc / FcE: it buckles",
                 "NDS 2018 3.9.2");
    const double stretched = f / ft_allowed + fb / fb_allowed;
    sheet.worked("stretched", "upper half", stretched, "", "fc / F't + fb / F'b", "NDS 2018 3.9.1");
    return held(named(board_, "bending with the force along the slope " + load, "NDS 2018 3.9"), std::move(sheet),
                std::max(pressed, stretched), 1.0, "");
  }

  void deflections(std::vector<Check>& checks, Case live, Case single) {
    std::vector<double> slopes;
    slopes.reserve(beam_.spans.size());
    for (const double span : beam_.spans) slopes.push_back(span / cosine());
    const double square = cosine() * cosine();
    const Stiffness stiffness = write_stiffness(live.sheet, board_, section_);
    write_stiffness(single.sheet, board_, section_);
    const WorstSag of_live = worst_sag_of_uniform(slopes, live_ * square, 0, stiffness);
    const WorstSag of_single = worst_sag_of_point(slopes, beam_.point * cosine(), stiffness);
    const WorstSag of_dead = worst_sag_of_uniform(slopes, 0, dead_ * square, stiffness);
    checks.push_back(deflection(std::move(live), of_live));
    checks.push_back(deflection(std::move(single), of_single));
    checks.push_back(deflection_in_all(of_live, of_single, of_dead));
  }

  Check deflection(Case load, const WorstSag& worst) {
    HandSheet& sheet = load.sheet;
    sheet.worked("s", "length of that span along the slope", worst.span, "in", "L sqrt(R^2 + T^2) / T");
    sheet.worked("Delta_b", "square to the board by bending", worst.sag.bending, "in",
                 simple() ? load.bent : "superposition");
    sheet.worked("Delta_s", "by shear", worst.sag.shear, "in", simple() ? load.sheared : "k M / (G b d)");
    const double allowed = write_allowed_sag(sheet, worst.sag, worst.span, "deflection.live");
    return held(named(board_, "deflection " + load.words, "NDS 2018 3.5"), std::move(sheet), worst.sag.total(), allowed,
                "in");
  }

  // Dead load stays: it creeps to Kcr times its first deflection.
  Check deflection_in_all(const WorstSag& of_live, const WorstSag& of_single, const WorstSag& of_dead) {
    const bool people = of_live.sag.total() / of_live.span >= of_single.sag.total() / of_single.span;
    const WorstSag& worse = people ? of_live : of_single;
    HandSheet total = start_;
    total.given("Delta_L", people ? "deflection by people" : "deflection by the single load", worse.sag.total(), "in",
                "check above");
    total.worked("Delta_D", "first deflection by the own weight", of_dead.sag.total(), "in", "as above, w_D for w_L");
    const bool wet = board_.service.wet;
    const double creep = total.worked("Kcr", wet ? "creep of wet lumber" : "creep of seasoned lumber", wet ? 2.0 : 1.5,
                                      "", "", "NDS 2018 3.5.2", true);
    const Sag sum{.bending = worse.sag.total(), .shear = creep * of_dead.sag.total()};
    total.worked("Delta", "in all", sum.total(), "in", "Delta_L + Kcr Delta_D", "NDS 2018 3.5.2", true);
    total.worked("s", "length of that span along the slope", worse.span, "in", "L sqrt(R^2 + T^2) / T");
    const double part = total.put(figure_of(limit("deflection.total")));
    const double allowed = total.worked("Delta_allowed", "deflection allowed", worse.span / part, "in", "s / n_T");
    return held(named(board_, "deflection in all", "NDS 2018 3.5"), std::move(total), sum.total(), allowed, "in");
  }

  const StringerBeam& beam_;
  const StringerWorst& worst_;
  Timber board_;  // as deep as what carries
  Rectangle section_;
  double step_ = 0, live_ = 0, dead_ = 0;
  HandSheet start_;
};

}  // namespace

StringerWorst worst_of(const StringerBeam& stringer) {
  const double dead = stringer.dead / kInchesPerFoot;
  return {worst_of_uniform(stringer.spans, stringer.live / kInchesPerFoot, dead),
          worst_of_point(stringer.spans, stringer.point, dead)};
}

std::vector<Check> check_stringer(const StringerBeam& stringer, const StringerWorst& worst) {
  return Inclined(stringer, worst).checks();
}

StringerReactions reactions_of(const StringerWorst& worst) {
  const auto& [people, single] = worst;
  StringerReactions all{.greatest = people.reactions, .least = people.least, .everywhere = people.reactions};
  for (std::size_t i = 0; i < all.greatest.size(); ++i) {
    all.greatest[i] = std::max(all.greatest[i], single.reactions[i]);
    all.least[i] = std::min(all.least[i], single.least[i]);
  }
  return all;
}

}  // namespace pitchboard
