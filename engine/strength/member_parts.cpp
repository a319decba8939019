#include "engine/strength/member_parts.hpp"

#include <cmath>
#include <utility>

#include "engine/strength/limits.hpp"

namespace pitchboard {

Rectangle section_of(const Timber& timber) {
  return timber.service.flat ? Rectangle{timber.member.width, timber.member.thickness}
                             : Rectangle{timber.member.thickness, timber.member.width};
}

Check named(const Timber& timber, std::string what, std::string clause) {
  Check check;
  check.member = timber.part;
  check.where = timber.mark;
  check.what = std::move(what);
  check.clause = std::move(clause);
  return check;
}

Check without_values(const Timber& timber, const std::string& what) {
  Check check = named(timber, what, "NDS 2018 Supplement");
  check.note = timber.why_not;
  return check;
}

Check held(Check&& check, HandSheet sheet, double demand, double capacity, const std::string& unit) {
  check.figures = std::move(sheet).take();
  check.demand = demand;
  check.capacity = capacity;
  check.unit = unit;
  return weighed(std::move(check));
}

void write_section(HandSheet& sheet, const Rectangle& section) {
  sheet.given("b", "breadth", section.breadth, "in");
  sheet.given("d", "depth in the direction of the load", section.depth, "in");
}

Check bending_check(const Timber& timber, const Rectangle& section, HandSheet sheet, double moment,
                    const std::string& what) {
  sheet.worked("S", "section modulus", section.modulus(), "in3", "b d^2 / 6");
  const double fb = sheet.worked("fb", "bending stress", moment / section.modulus(), "psi", "M / S", "NDS 2018 3.3.2");
  const double allowed = adjusted(sheet, *timber.values, timber.member, timber.service, Value::bending);
  return held(named(timber, what, "NDS 2018 3.3"), std::move(sheet), fb, allowed, "psi");
}

Check shear_check(const Timber& timber, const Rectangle& section, HandSheet sheet, double shear,
                  const std::string& what) {
  const double fv =
      sheet.worked("fv", "shear stress", 1.5 * shear / section.area(), "psi", "3 V / (2 b d)", "NDS 2018 3.4.2");
  const double allowed = adjusted(sheet, *timber.values, timber.member, timber.service, Value::shear);
  return held(named(timber, what, "NDS 2018 3.4"), std::move(sheet), fv, allowed, "psi");
}

Stiffness write_stiffness(HandSheet& sheet, const Timber& timber, const Rectangle& section) {
  constexpr double kShearOfRectangle = 1.2;
  constexpr double kStiffnessOverShear = 16.0;
  sheet.worked("I", "moment of inertia", section.inertia(), "in4", "b d^3 / 12");
  const double e = adjusted(sheet, *timber.values, timber.member, timber.service, Value::stiffness);
  const double g = sheet.worked("G", "shear stiffness", e / kStiffnessOverShear, "psi", "E' / 16",
                                "from memory: usual ratio for softwoods", true);
  sheet.given("k", "shape of the shear in a rectangle", kShearOfRectangle, "", "statics");
  return {.ei = e * section.inertia(), .ga_per_k = g * section.area() / kShearOfRectangle};
}

double write_allowed_sag(HandSheet& sheet, const Sag& sag, double span, const std::string& limit_key) {
  sheet.worked("Delta", "deflection", sag.total(), "in", "Delta_b + Delta_s");
  const LimitRow& row = limit(limit_key);
  const double part = sheet.put(figure_of(row));
  return sheet.worked("Delta_allowed", "deflection allowed", span / part, "in", "L / " + std::string(row.symbol), "",
                      row.from_memory);
}

// CP = (1 + r)/2c - sqrt([(1 + r)/2c]^2 - r/c), r = FcE / Fc*.
double column_stability(double fc_star, double fc_e) {
  constexpr double kSawn = 0.8;  // c
  const double r = fc_e / fc_star, middle = (1 + r) / (2 * kSawn);
  return middle - std::sqrt(middle * middle - r / kSawn);
}

}  // namespace pitchboard
