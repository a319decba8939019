#pragma once
// Code packs as data, evaluated on what is measured afresh from the parts.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "engine/frame/frame.hpp"
#include "engine/job/job.hpp"
#include "engine/measure/site.hpp"
#include "engine/shape/flight.hpp"

namespace pitchboard {

/// One rule of one pack or amendment; rows live in data/packs/*.toml.
struct RuleRow {
  std::string_view pack;          ///< "irc-2021", "uk-adk-2013", or an amendment: "us-pa"
  std::string_view clause;        ///< "R311.7.5.1"
  std::string_view quantity;      ///< what is measured: "riser_height", see docs/rules.md
  std::string_view compare;       ///< "at_most", "at_least", "less_than", "more_than", "required", "advice"
  double limit = 0;               ///< in the unit of the quantity: in, degrees, a slope, a count
  std::string_view unit;          ///< "in", "deg", "slope", "count", "none"
  std::string_view when;          ///< condition: "" always, "closed_risers", "going < 11", see docs/rules.md
  std::string_view sentence;      ///< our own words
  std::string_view confidence;    ///< "seen", "summary", "memory"
  std::string_view source;        ///< source tag and what was seen
};

enum class Verdict { fail, too_close, warn, not_checked, pass };

struct Finding {
  std::string pack, clause, quantity, sentence, confidence, source;
  Verdict verdict = Verdict::not_checked;
  std::optional<double> measured, limit, margin, uncertainty;  ///< in `unit`; margin positive when kept
  std::string unit;
  std::string compare;
  int step = 0;                  ///< worst step, 0: none
  std::string where;             ///< mark or place of the worst: "R1", "left rail"
  std::string change;            ///< what would change the verdict
};

struct PackInfo {
  std::string_view key, title, kind;  ///< kind: "pack" or "amendment"
  std::string_view applies_to;        ///< amendments: pack family they overlay, "irc"
  std::string_view source;
};

[[nodiscard]] std::span<const PackInfo> packs();
/// RETURNS the rules in force: the pack's rows, each row replaced by an amendment's row for the same quantity and condition.
[[nodiscard]] std::vector<RuleRow> rules_in_force(const Place& place);
/// RETURNS the limits that shaping a flight needs, read from the rules in force.
[[nodiscard]] ShapeLimits shape_limits(const Place& place);
/// True when the rules in force ask for a handrail on a flight of that many risers.
[[nodiscard]] bool handrail_needed(const Place& place, int risers);
/// True when the rules in force ask for a guard at that drop.
[[nodiscard]] bool guard_needed(const Place& place, Length drop);

/// RETURNS one finding per rule in force, worst first. Quantities are measured from the parts, not taken from the flight.
/// 1. `pass` only when the measured value keeps the limit by more than the readings' uncertainty.
/// 2. A row whose confidence is "memory" is `warn` where it would be `pass` or `fail`, and says so.
[[nodiscard]] std::vector<Finding> judge(const Job& job, const Site& site, const Flight& flight, const Frame& frame);

}  // namespace pitchboard
