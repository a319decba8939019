#include <algorithm>
#include <cmath>

#include "engine/strength/member_parts.hpp"

namespace pitchboard {

GuardPostForces guard_post_forces(const GuardPost& post) {
  const double arm = post.height + post.cover + post.upper_down;
  GuardPostForces forces{.upper_tension = 0, .lower_push = 0, .moment = post.load * arm};
  if (post.bolt_spacing > 0) {
    forces.upper_tension = post.load * (arm + post.bolt_spacing) / post.bolt_spacing;
    forces.lower_push = post.load * arm / post.bolt_spacing;
  }
  return forces;
}

std::vector<Check> check_guard_post(const GuardPost& post) {
  const Timber& wood = post.post;
  if (!wood.values) return {without_values(wood, "bending and shear")};
  const Rectangle whole = section_of(wood);
  const GuardPostForces forces = guard_post_forces(post);
  HandSheet start(wood.service.written);
  write_section(start, whole);
  start.given("P", "push at the top", post.load, "lb");
  start.given("h", "height of the push over the walking surface", post.height, "in");
  start.given("t", "boards between that surface and the framing", post.cover, "in");
  start.given("a", "from the framing's top to the upper bolt", post.upper_down, "in");
  start.worked("M", "moment at the upper bolt", forces.moment, "in-lb", "P (h + t + a)");

  std::vector<Check> checks;
  checks.push_back(bending_check(wood, whole, start, forces.moment, "bending at the upper bolt"));
  if (post.hole > 0) {
    HandSheet bored = start;
    bored.given("D_h", "hole, in line with the push", post.hole, "in");
    const Rectangle net{std::max(0.0, whole.breadth - post.hole), whole.depth};
    bored.worked("b", "breadth beside the hole", net.breadth, "in", "b - D_h", "NDS 2018 3.1.2");
    checks.push_back(bending_check(wood, net, std::move(bored), forces.moment, "bending less the bolt's hole"));
  }
  if (post.bolt_spacing > 0) {
    HandSheet between = start;
    between.given("d_b", "between the upper and the lower bolt", post.bolt_spacing, "in");
    between.worked("T", "pull in the upper bolt, about the lower one", forces.upper_tension, "lb",
                   "P (h + t + a + d_b) / d_b");
    between.worked("C", "push at the lower bolt; shear between them", forces.lower_push, "lb", "T - P");
    checks.push_back(shear_check(wood, whole, std::move(between), forces.lower_push, "shear between the bolts"));
  }
  if (!wood.service.written) return checks;
  for (Check& check : checks)
    check.note = "The post is not notched. The pull in the upper bolt has to reach the joists: see the joint.";
  return checks;
}

// (fc/F'c)^2 + [fb + fc (6 e/d)(1 + 0.234 fc/FcE)] / [F'b (1 - fc/FcE)] <= 1; the eccentricity bends the same way as
// the side moment. CP goes by the thinner side, FcE by the one that is bent.
Check check_support_post(const SupportPost& post) {
  const Timber& wood = post.post;
  const std::string what = "load with bending";
  if (!wood.values) return without_values(wood, what);
  const Rectangle section = section_of(wood);
  Timber column = wood;
  column.service.column_length = post.length;
  HandSheet sheet(wood.service.written);
  write_section(sheet, section);
  const double p = sheet.given("P", "load", post.load, "lb");
  sheet.given("l", "height between its ends, both hinged", post.length, "in");
  const double e = sheet.given("e", "load from the post's middle line", post.eccentricity, "in");
  const double m = sheet.given("M", "moment of loads across", post.side_moment, "in-lb");
  const double fc = sheet.worked("fc", "pressure", p / section.area(), "psi", "P / (b d)");
  const double fb = sheet.worked("fb", "bending stress", m / section.modulus(), "psi", "6 M / (b d^2)");
  const double fc_allowed = adjusted(sheet, *wood.values, wood.member, column.service, Value::compression);
  const double fb_allowed = adjusted(sheet, *wood.values, wood.member, wood.service, Value::bending);
  const double e_min = adjusted(sheet, *wood.values, wood.member, wood.service, Value::least_stiffness);
  const double slender =
      sheet.worked("l/d", "slenderness the way it is bent", post.length / section.depth, "", "l / d");
  const double fc_e = slender > 0 ? sheet.worked("FcE", "buckling stress", 0.822 * e_min / (slender * slender), "psi",
                                                 "0.822 E'min / (l/d)^2", "NDS 2018 3.7.1")
                                  : 0.0;
  const double part = fc_e > 0 ? fc / fc_e : 0.0;
  const double off = fc * 6 * e / section.depth * (1 + 0.234 * part);
  sheet.worked("f_e", "bending by the eccentricity", off, "psi", "fc (6 e / d)(1 + 0.234 fc / FcE)", "NDS 2018 15.4",
               true);
  const bool stands = part < 1;
  const double used = stands ? fc * fc / (fc_allowed * fc_allowed) + (fb + off) / (fb_allowed * (1 - part)) : 1 + part;
  sheet.worked("used", "both together", used, "",
               stands ? "(fc / F'c)^2 + (fb + f_e) / (F'b (1 - fc / FcE))" : "1 + fc / FcE: it buckles",
               "NDS 2018 15.4", true);
  constexpr double kMostSlender = 50.0;
  Check check = named(wood, what, "NDS 2018 3.9, 15.4");
  const double thinner = std::min(section.breadth, section.depth);
  if (post.length / thinner > kMostSlender) {
    check.note = "More slender than a column may be: length over thickness above 50 (NDS 2018 3.7.1.4).";
    return held(std::move(check), std::move(sheet), post.length / thinner, kMostSlender, "");
  }
  return held(std::move(check), std::move(sheet), used, 1.0, "");
}

}  // namespace pitchboard
