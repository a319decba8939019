#pragma once
// Reference design values of sawn lumber and every factor that adjusts them, one by one (allowable stress design).
//
// SOURCE  NDS 2018 and its Supplement, as told in data/strength/*.toml row by row.

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/job/job.hpp"
#include "engine/strength/calculation.hpp"

namespace pitchboard {

class HandSheet;

/// Psi, but for `gravity`.
struct ReferenceValues {
  double fb = 0, ft = 0, fv = 0, fc_perp = 0, fc = 0, e = 0, e_min = 0;
  double gravity = 0;
  bool timber = false;         ///< 5x5 and larger: Table 4D
  bool size_factor = true;     ///< CF of Table 4A, for timbers of 4.3.6.2, still to be applied
  Text table;                  ///< of the NDS Supplement: "4A", "4B", "4D"; empty: the job's own values
  bool wet_tabulated = false;  ///< CM = 1: the values hold wet as they are
  Text source;
  bool from_memory = false;
};

/// A board or post as it is used. UNITS inches, dressed.
struct Member {
  std::string species, grade;  ///< as in the job: "southern-pine", "no2"
  std::string nominal;         ///< "2x12"; CF, Cfu and the Southern Pine rows go by it
  double thickness = 0, width = 0;
  friend bool operator==(const Member&, const Member&) = default;
};

/// What the member works under.
struct Service {
  bool wet = true;
  bool incised = false;
  double load_duration = 1.0;  ///< CD; no more than 1.6 is taken, since outdoor wood is treated
  Text duration_words;         ///< "ten years: occupancy"
  bool duration_from_memory = false;
  bool flat = false;           ///< bent about its weak axis: Cfu
  bool repetitive = false;     ///< Cr
  double unbraced_length = 0;  ///< inches between lateral supports of the compressed edge; 0: CL = 1
  double column_length = 0;    ///< effective length, inches, for CP about the thinner side; 0: CP = 1
  double bearing_length = 0;   ///< inches along the grain, for Cb; 0: Cb = 1
  bool hot = false;            ///< 100 to 125 F sustained
  bool written = true;         ///< false: the calculation is not written down, only its last value is wanted
};

/// RETURNS the values for that member: the job's own ones first, then the tables'; nothing when there are none.
/// `why_not` then says what is missing and how to give it.
[[nodiscard]] std::optional<ReferenceValues> reference_values(const Wood& wood, const Member& member,
                                                              std::string& why_not);
/// A job's woods: the values of members that are alike are looked up once.
class Woods {
 public:
  explicit Woods(const Wood& wood) : wood_(wood) {}
  struct Known {
    Member member;
    std::optional<ReferenceValues> values;
    std::string why_not;  ///< why there are none
  };
  /// RETURNS a reference that stays good.
  [[nodiscard]] const Known& of(const Member& member);

 private:
  const Wood& wood_;
  std::vector<std::unique_ptr<const Known>> known_;
};
/// RETURNS whether boards of that species and treatment usually come incised.
[[nodiscard]] bool usually_incised(std::string_view species, std::string_view treatment);

/// The seven values with their factors, as figures ending in "F'b", "F'v", "F'c_perp", "F'c", "F't", "E'", "E'min".
/// Symbols of the stiffness that CL and CP need carry "_E": "CM_E".
/// 1. Each call writes the reference value first, every factor that the value takes (Table 4.3.1) with its source, also
///    those that are 1, and the adjusted value last. It RETURNS that one.
enum class Value { bending, tension, shear, compression_across, compression, stiffness, least_stiffness };
double adjusted(HandSheet& sheet, const ReferenceValues& values, const Member& member, const Service& service,
                Value which);

/// How the load stands on the span, for the effective length l_e of NDS 2018 Table 3.3.3.
enum class BeamLoad { any, at_middle, at_middle_braced };
/// A beam bent about its strong axis between lateral supports of its compressed edge. UNITS inches, psi.
struct UnbracedBeam {
  double depth = 0, breadth = 0;
  double unbraced_length = 0;
  double fb_star = 0;  ///< F*b: every factor but CL and Cfu
  double e_min = 0;    ///< E'min
  BeamLoad load = BeamLoad::any;
};
/// Writes l_e, RB, FbE and CL. RETURNS CL, 0 where RB is over 50, which is not allowed.
/// SOURCE NDS 2018 3.3.3.
double beam_stability(HandSheet& sheet, const UnbracedBeam& beam);

/// RETURNS F'theta, bearing at `degrees_from_grain` (Hankinson). Both values adjusted, psi. SOURCE NDS 2018 3.10.3.
[[nodiscard]] double bearing_at_angle(double fc_star, double fc_perp, double degrees_from_grain);

}  // namespace pitchboard
