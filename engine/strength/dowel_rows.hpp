#pragma once
// Rows of data/strength that the figures of dowels and joints come from. Internal to the stage.
//
// UNITS  inches, psi.

#include <string_view>

namespace pitchboard {

struct DowelRow {
  std::string_view kind;  ///< "bolt", "lag", "wood_screw", "nail"
  std::string_view size;  ///< "#10", "1/2"
  double diameter = 0, root = 0;
  double tip = 0;     ///< lags: length of the taper
  double head = 0;    ///< diameter of a head that is drawn into the wood; 0: bears on a washer
  double washer = 0;  ///< thickness of its washer
  bool from_memory = false;
  std::string_view source;
};

/// Bending yield strength of a kind up to a nominal diameter.
struct YieldStrengthRow {
  std::string_view kind;
  double at_least = 0, up_to = 0;
  double yield_strength = 0;
  std::string_view source;
};

struct JointValueRow {
  std::string_view key, words;
  double value = 0;
  bool from_memory = false;
  std::string_view source;
};

/// A distance in diameters.
struct DistanceRow {
  std::string_view key;
  double least = 0, full = 0;
  std::string_view source;
};

}  // namespace pitchboard
