#pragma once
// What a stair has to carry and how far it may bend: loads by code, load durations, deflection limits.
//
// UNITS  as each row says. SOURCE  data/strength/limits.toml, row by row.

#include <span>
#include <string_view>
#include <vector>

#include "engine/job/job.hpp"
#include "engine/strength/calculation.hpp"

namespace pitchboard {

struct LimitRow {
  std::string_view key;   ///< "load.live", "deflection.tread", "duration.guard"
  std::string_view pack;  ///< how the names of the packs begin that it holds for: "irc-"; empty: all others
  std::string_view symbol;
  std::string_view words;
  double value = 0;
  std::string_view unit;  ///< deflection: the part of the span, 360 for L/360
  std::string_view source;
  bool from_memory = false;
};

[[nodiscard]] std::span<const LimitRow> limits();
/// RETURNS the row of that key for the pack, or the one for all packs. REQUIRES the key is in the table.
[[nodiscard]] const LimitRow& limit(std::string_view key, std::string_view pack = "");
/// RETURNS the row as a figure of a calculation.
[[nodiscard]] Figure figure_of(const LimitRow& row);

struct LoadSet {
  double live = 0, dead = 0;    ///< psf, level
  double tread = 0;             ///< lb on 2 x 2 in
  double rail = 0;              ///< lb, any direction, top of a guard or handrail
  double rail_along = 0;        ///< lb per ft along the top of a guard; 0: the code asks for none
  double infill = 0;            ///< lb on 1 sq ft
  double soil = 0;              ///< psf
  std::vector<Figure> figures;  ///< the same with their sources, where written: w_L w_D P_t P_g w_g P_i q_s
};
/// RETURNS the job's own loads, and for those it leaves out what its code asks.
[[nodiscard]] LoadSet loads_for(const Job& job, bool written = true);

}  // namespace pitchboard
