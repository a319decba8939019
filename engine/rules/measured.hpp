#pragma once
// Quantities measured afresh from the parts of a frame, as an inspector with a tape would.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/frame/frame.hpp"
#include "engine/job/job.hpp"
#include "engine/measure/site.hpp"
#include "engine/rules/condition.hpp"
#include "engine/shape/flight.hpp"

namespace pitchboard {

/// One place where a quantity was measured. Lengths in inches, angles in degrees, slopes as rise over run, yes as 1.
struct Sample {
  double value = 0;
  double uncertainty = 0;  ///< what the readings leave open
  int step = 0;            ///< riser or tread number, 1 lowest; 0: none
  std::string where;
  std::optional<double> drop = {};  ///< fall beside this place, where rules ask for it
  double drop_uncertainty = 0;
  double limit_from = 0;  ///< what a rule's limit is counted from: "as wide as the flight" from the flight's width
};

struct Measure {
  std::string_view quantity;
  std::vector<Sample> samples;
  std::string_view missing;  ///< no samples: what is not there, so that rules about it do not apply
  std::string_view why_not;  ///< no samples: why it could not be measured
};

struct Measured {
  std::vector<Measure> measures;
  Facts facts;
};

/// RETURNS every quantity that can be measured on the frame, and the facts that conditions ask for.
/// 1. Only the landing's level is taken from the flight: no part shows a finish that is laid later.
[[nodiscard]] Measured measure(const Job& job, const Site& site, const Flight& flight, const Frame& frame);
/// RETURNS those of risers, goings, nosings and headroom alone.
[[nodiscard]] Measured measure_steps(const Job& job, const Site& site, const Flight& flight, const Frame& frame);
/// RETURNS the quantity's measure; nullptr for one that is never measured.
[[nodiscard]] const Measure* find_measure(const Measured& measured, std::string_view quantity);

}  // namespace pitchboard
