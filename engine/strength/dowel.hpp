#pragma once
// One dowel-type fastener: what it carries across its axis (six yield modes), along it (withdrawal, head, washer) and
// both at once.
//
// UNITS   inches, pounds, psi, degrees.
// SOURCE  NDS 2018 chapters 11 and 12, AWC TR12.

#include <string>
#include <string_view>
#include <vector>

#include "engine/strength/calculation.hpp"

namespace pitchboard {

enum class DowelKind { bolt, lag, wood_screw, nail };

/// A fastener's own figures; rows in data/strength/fasteners.toml.
struct Dowel {
  DowelKind kind = DowelKind::bolt;
  double diameter = 0;        ///< D, nominal
  double root = 0;            ///< Dr; nails: D; 0: a size that no table holds
  double in_yield = 0;        ///< diameter in the yield equations and in KD (12.3.7): Dr of lags and wood screws, D of
                              ///< nails and of bolts, whose caller puts Dr where threads take over a quarter of a leg
  double length = 0;          ///< under the head to the tip
  double thread = 0;          ///< T
  double tip = 0;             ///< E, length of the taper
  double head = 0;            ///< DH, head diameter; 0: none
  double washer = 0;          ///< thickness of its washer: so much of the length stands outside the wood
  double yield_strength = 0;  ///< Fyb
  bool stainless = false;
  Text source;
  bool from_memory = false;
};
/// RETURNS the dowel of that kind, nominal diameter and length, its other figures from the table; root and yield
/// strength are 0 where the table has no such size.
[[nodiscard]] Dowel dowel_of(DowelKind kind, double diameter, double length);

/// One member of a joint as the fastener meets it.
struct Leg {
  double gravity = 0;         ///< G; 0: steel
  double bearing_length = 0;  ///< l: thickness for the side member; for the main one the depth of penetration counted
  double load_to_grain = 0;   ///< degrees between force and grain
  bool end_grain = false;     ///< the axis runs along this member's grain
  double steel_bearing = 0;   ///< Fe of a steel leg
};

/// RETURNS Fe: along and across the grain rounded to 50 psi as the tables do, between them by Hankinson. End grain
/// takes the value across the grain.
[[nodiscard]] double dowel_bearing(const Dowel& dowel, const Leg& leg);

struct Yield {
  double z = 0;                 ///< lb, the smallest mode
  std::string_view mode;        ///< "Im", "Is", "II", "IIIm", "IIIs", "IV"
  std::vector<Figure> figures;  ///< Fe's, Re, Rt, k1..k3, Rd, every mode, Z
};
/// RETURNS the reference lateral value by the six modes. `double_shear`: `side` is one of two equal sides. `written`:
/// with the figures.
[[nodiscard]] Yield yield_modes(const Dowel& dowel, const Leg& main, const Leg& side, bool double_shear,
                                bool written = true);
/// RETURNS the same by the quadratic form of TR12, single shear, with a gap between the members; agrees with
/// yield_modes at gap 0.
[[nodiscard]] double yield_by_tr12(const Dowel& dowel, const Leg& main, const Leg& side, double gap);

struct Penetration {
  double lm = 0;       ///< for the yield equations
  double threads = 0;  ///< pt, for withdrawal (nails: full penetration)
  bool enough = true;
  std::string words;  ///< where it is not enough: what is asked and what there is
};
/// RETURNS lm that the yield equations take, and whether the least penetration is kept (12.1): through the side member
/// of thickness `side`, into a main member of thickness `main`. A bolt has to reach through both.
[[nodiscard]] Penetration penetration(const Dowel& dowel, double side, double main);

/// RETURNS W, lb per inch of thread (nails: of penetration), side grain; 0 for bolts.
[[nodiscard]] double withdrawal_per_inch(const Dowel& dowel, double gravity);
/// RETURNS WH, the head's pull-through, lb; 0 where the equation does not hold (bolts, lags: bear on washers).
[[nodiscard]] double head_pull_through(const Dowel& dowel, double gravity, double side_thickness);
/// RETURNS the capacity of lateral and withdrawal together, force at `degrees` from the wood's surface (12.4). A bolt's
/// two parts are held apart: each against its own value.
[[nodiscard]] double combined(DowelKind kind, double withdrawal, double lateral, double degrees);
/// RETURNS Cg for n fasteners in a row at spacing s; areas in sq in, E in psi; `metal_side`: wood to metal.
[[nodiscard]] double group_action(double diameter, int n, double spacing, double e_main, double area_main,
                                  double e_side, double area_side, bool metal_side);

}  // namespace pitchboard
