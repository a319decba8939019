#pragma once
// What the checks of all members have in common: section, bending, shear, stiffness.

#include <string>

#include "engine/strength/hand_sheet.hpp"
#include "engine/strength/members.hpp"

namespace pitchboard {

/// A rectangle, bent in the direction of its depth.
struct Rectangle {
  double breadth = 0, depth = 0;
  [[nodiscard]] double area() const { return breadth * depth; }
  [[nodiscard]] double modulus() const { return breadth * depth * depth / 6; }
  [[nodiscard]] double inertia() const { return breadth * depth * depth * depth / 12; }
};
/// RETURNS the whole section, `service.flat` deciding which way it is bent.
[[nodiscard]] Rectangle section_of(const Timber& timber);

/// RETURNS the check with its names and without a result; `what` and `clause` are filled in.
[[nodiscard]] Check named(const Timber& timber, std::string what, std::string clause);
/// RETURNS the one check of a timber that has no values.
[[nodiscard]] Check without_values(const Timber& timber, const std::string& what);
/// RETURNS the named check with the sheet's figures, weighed.
[[nodiscard]] Check held(Check&& check, HandSheet sheet, double demand, double capacity, const std::string& unit);

void write_section(HandSheet& sheet, const Rectangle& section);
/// f_b = M / S against F'b. REQUIRES the sheet's last lines give the moment, and the timber has values.
[[nodiscard]] Check bending_check(const Timber& timber, const Rectangle& section, HandSheet sheet, double moment,
                                  const std::string& what);
/// f_v = 3 V / (2 b d) against F'v. The same requirements.
[[nodiscard]] Check shear_check(const Timber& timber, const Rectangle& section, HandSheet sheet, double shear,
                                const std::string& what);
/// Writes E', I, G = E'/16 and k = 1.2. RETURNS what deflections need.
Stiffness write_stiffness(HandSheet& sheet, const Timber& timber, const Rectangle& section);
/// Writes the sag and the allowed part of the span. RETURNS the allowed sag.
double write_allowed_sag(HandSheet& sheet, const Sag& sag, double span, const std::string& limit_key);
/// RETURNS CP of a column of that slenderness. SOURCE NDS 2018 3.7.1, c = 0.8 for sawn lumber.
[[nodiscard]] double column_stability(double fc_star, double fc_e);

}  // namespace pitchboard
