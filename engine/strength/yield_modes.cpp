// The six ways in which a dowel and the wood around it give way (Johansen's yield theory).
//
// SYMBOLS  Fem, Fes dowel bearing of main and side member; lm, ls their bearing lengths; Re = Fem/Fes, Rt = lm/ls; D
// the
//          diameter in the yield equations; Rd what the mode is divided by.
// SOURCE   NDS 2018 12.3.1 with Tables 12.3.1A and 12.3.1B, 12.3.3, 12.3.7; AWC TR12 for the form with a gap.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/units.hpp"
#include "engine/strength/dowel.hpp"
#include "engine/strength/hand_sheet.hpp"

namespace pitchboard {
namespace {

constexpr double kQuarter = 0.25 - 1e-9;  ///< where a dowel counts as thick

/// Halves up, as the printed tables do.
double to_50_psi(double value) { return std::floor(value / 50.0 + 0.5) * 50.0; }

double angle_of(const Leg& leg) { return leg.end_grain ? 90.0 : leg.load_to_grain; }

/// Kθ goes by the worst member; steel has no grain.
double worst_angle(const Leg& main, const Leg& side) {
  return std::max(main.gravity > 0 ? angle_of(main) : 0.0, side.gravity > 0 ? angle_of(side) : 0.0);
}

double thin_reduction(double diameter) { return diameter <= 0.17 ? 2.2 : 10.0 * diameter + 0.5; }

/// What modes I, II, and III with IV are divided by.
struct Reduction {
  double crush = 4, turn = 3.6, bend = 3.2;
  bool thin = false, angled = true;  ///< KD is in it, Ktheta is
};
double k_theta(double degrees) { return 1.0 + 0.25 * degrees / 90.0; }
Reduction reduction(const Dowel& dowel, const Leg& main, const Leg& side) {
  const double k = k_theta(worst_angle(main, side)), kd = thin_reduction(dowel.in_yield);
  if (dowel.diameter < kQuarter) return {kd, kd, kd, true, false};
  if (dowel.in_yield < kQuarter) return {kd * k, kd * k, kd * k, true, true};
  return {4.0 * k, 3.6 * k, 3.2 * k, false, true};
}

/// How a leg's dowel bearing comes about. `g`: the symbol of its specific gravity.
std::string bearing_words(const Dowel& dowel, const Leg& leg, const std::string& g) {
  if (leg.gravity <= 0) return "steel, above";
  if (dowel.diameter < kQuarter) return "16,600 (" + g + ")^1.84, to 50 psi";
  const std::string along = "11,200 (" + g + ")", across = "6,100 (" + g + ")^1.45 / sqrt(Dn)";
  if (angle_of(leg) < 1e-6) return along + ", to 50 psi";
  if (angle_of(leg) > 90.0 - 1e-6) return across + ", to 50 psi";
  return fmt::format("Hankinson at {:.4g} deg between {} and {}, each to 50 psi", angle_of(leg), along, across);
}

}  // namespace

double dowel_bearing(const Dowel& dowel, const Leg& leg) {
  if (leg.gravity <= 0) return leg.steel_bearing;
  const double g = leg.gravity;
  if (dowel.diameter < kQuarter) return to_50_psi(16600.0 * std::pow(g, 1.84));
  const double along = to_50_psi(11200.0 * g),
               across = to_50_psi(6100.0 * std::pow(g, 1.45) / std::sqrt(dowel.diameter));
  const double s = std::sin(angle_of(leg) * kPi / 180.0), c = std::cos(angle_of(leg) * kPi / 180.0);
  return along * across / (along * s * s + across * c * c);
}

Yield yield_modes(const Dowel& dowel, const Leg& main, const Leg& side, bool double_shear, bool written) {
  Yield out;
  const double d = dowel.in_yield, fyb = dowel.yield_strength, lm = main.bearing_length, ls = side.bearing_length;
  const double fem = dowel_bearing(dowel, main), fes = dowel_bearing(dowel, side);
  if (d <= 0 || fyb <= 0 || lm <= 0 || ls <= 0 || fem <= 0 || fes <= 0) return out;
  const double re = fem / fes, rt = lm / ls;
  const double k1 =
      (std::sqrt(re + 2.0 * re * re * (1.0 + rt + rt * rt) + rt * rt * re * re * re) - re * (1.0 + rt)) / (1.0 + re);
  const double k2 = -1.0 + std::sqrt(2.0 * (1.0 + re) + 2.0 * fyb * (1.0 + 2.0 * re) * d * d / (3.0 * fem * lm * lm));
  const double k3 = -1.0 + std::sqrt(2.0 * (1.0 + re) / re + 2.0 * fyb * (2.0 + re) * d * d / (3.0 * fem * ls * ls));
  const Reduction rd = reduction(dowel, main, side);
  const double sides = double_shear ? 2.0 : 1.0;

  HandSheet sheet(written);
  const auto put = [&](Text symbol, Text words, double value, Text unit, Text from, Text source) {
    sheet.worked(std::move(symbol), std::move(words), value, std::move(unit), std::move(from), std::move(source));
  };
  if (written) {
    put("D", "diameter in the yield equations", d, "in", "", "NDS 2018 12.3.7");
    put("Fyb", "bending yield strength", fyb, "psi", "", "NDS 2018 Table I1");
    put("lm", "bearing length in the main member", lm, "in", "", "NDS 2018 12.3.5");
    put("ls", "bearing length in the side member", ls, "in", "", "NDS 2018 12.3.5");
    put("Fem", "dowel bearing, main member", fem, "psi", bearing_words(dowel, main, "G main"), "NDS 2018 Table 12.3.3");
    put("Fes", "dowel bearing, side member", fes, "psi", bearing_words(dowel, side, "G side"), "NDS 2018 Table 12.3.3");
    put("Re", "ratio of dowel bearing", re, "", "Fem / Fes", "NDS 2018 Table 12.3.1A");
    put("Rt", "ratio of lengths", rt, "", "lm / ls", "NDS 2018 Table 12.3.1A");
    put("k1", "factor of mode II", k1, "", "(sqrt(Re + 2 Re^2 (1 + Rt + Rt^2) + Rt^2 Re^3) - Re (1 + Rt)) / (1 + Re)",
        "NDS 2018 Table 12.3.1A");
    put("k2", "factor of mode IIIm", k2, "", "sqrt(2 (1 + Re) + 2 Fyb (1 + 2 Re) D^2 / (3 Fem lm^2)) - 1",
        "NDS 2018 Table 12.3.1A");
    put("k3", "factor of mode IIIs", k3, "", "sqrt(2 (1 + Re) / Re + 2 Fyb (2 + Re) D^2 / (3 Fem ls^2)) - 1",
        "NDS 2018 Table 12.3.1A");
    put("theta", "largest angle of load to grain", worst_angle(main, side), "deg", "", "NDS 2018 Table 12.3.1B");
    if (rd.angled)
      put("Ktheta", "by that angle", k_theta(worst_angle(main, side)), "", "1 + 0.25 theta / 90",
          "NDS 2018 Table 12.3.1B");
    if (rd.thin)
      put("KD", "by the diameter", thin_reduction(d), "", "2.2 up to D = 0.17 in, then 10 D + 0.5",
          "NDS 2018 Table 12.3.1B");
    const auto reduced = [&](const char* share) {
      return (rd.thin ? "KD" : share) + std::string(rd.angled ? " Ktheta" : "");
    };
    put("Rd I", "reduction of modes Im and Is", rd.crush, "", reduced("4"), "NDS 2018 Table 12.3.1B");
    put("Rd II", "reduction of mode II", rd.turn, "", reduced("3.6"), "NDS 2018 Table 12.3.1B");
    put("Rd III", "reduction of modes III and IV", rd.bend, "", reduced("3.2"), "NDS 2018 Table 12.3.1B");
  }

  const auto mode = [&](const char* name, const char* words, double value, const char* from) {
    if (written) {
      const bool twice = double_shear && std::string_view(name) != "Im";
      put(name, words, value, "lb", (twice ? "2 " : "") + std::string(from), "NDS 2018 Table 12.3.1A");
    }
    if (out.mode.empty() || value < out.z) {
      out.z = value;
      out.mode = name;
    }
  };
  mode("Im", "main member crushed", d * lm * fem / rd.crush, "D lm Fem / Rd I");
  mode("Is", "side member crushed", sides * d * ls * fes / rd.crush, "D ls Fes / Rd I");
  if (!double_shear) {
    mode("II", "dowel turned in both", k1 * d * ls * fes / rd.turn, "k1 D ls Fes / Rd II");
    mode("IIIm", "dowel bent once, main member crushed", k2 * d * lm * fem / ((1.0 + 2.0 * re) * rd.bend),
         "k2 D lm Fem / ((1 + 2 Re) Rd III)");
  }
  mode("IIIs", "dowel bent once, side member crushed", sides * k3 * d * ls * fem / ((2.0 + re) * rd.bend),
       "k3 D ls Fem / ((2 + Re) Rd III)");
  mode("IV", "dowel bent twice", sides * d * d / rd.bend * std::sqrt(2.0 * fem * fyb / (3.0 * (1.0 + re))),
       "D^2 sqrt(2 Fem Fyb / (3 (1 + Re))) / Rd III");
  sheet.worked("Z", "reference lateral value of one fastener", out.z, "lb",
               sheet.said([&] { return fmt::format("the least: {}", out.mode); }), "NDS 2018 12.3.1",
               dowel.from_memory);
  out.figures = std::move(sheet).take();
  return out;
}

double yield_by_tr12(const Dowel& dowel, const Leg& main, const Leg& side, double gap) {
  const double d = dowel.in_yield, lm = main.bearing_length, ls = side.bearing_length;
  const double qm = dowel_bearing(dowel, main) * d, qs = dowel_bearing(dowel, side) * d;
  if (d <= 0 || dowel.yield_strength <= 0 || lm <= 0 || ls <= 0 || qm <= 0 || qs <= 0) return 0;
  const double moment = dowel.yield_strength * d * d * d / 6.0;
  const Reduction rd = reduction(dowel, main, side);
  // A P^2 + B P + C = 0; written so that nothing cancels: C is negative.
  const auto positive_root = [](double a, double b, double c) {
    return -2.0 * c / (b + std::sqrt(b * b - 4.0 * a * c));
  };
  const double crush = std::min(qm * lm, qs * ls) / rd.crush;
  const double turn =
      positive_root(0.25 / qs + 0.25 / qm, ls / 2.0 + gap + lm / 2.0, -qs * ls * ls / 4.0 - qm * lm * lm / 4.0) /
      rd.turn;
  const double bend_main = positive_root(0.5 / qs + 0.25 / qm, gap + lm / 2.0, -moment - qm * lm * lm / 4.0) / rd.bend;
  const double bend_side = positive_root(0.25 / qs + 0.5 / qm, ls / 2.0 + gap, -qs * ls * ls / 4.0 - moment) / rd.bend;
  const double bend_both = positive_root(0.5 / qs + 0.5 / qm, gap, -2.0 * moment) / rd.bend;
  return std::min({crush, turn, bend_main, bend_side, bend_both});
}

}  // namespace pitchboard
