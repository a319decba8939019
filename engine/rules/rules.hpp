#pragma once
// Code packs as data, evaluated on what is measured afresh from the parts.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/problem.hpp"
#include "engine/base/verdict.hpp"
#include "engine/frame/frame.hpp"
#include "engine/job/job.hpp"
#include "engine/measure/site.hpp"
#include "engine/shape/flight.hpp"

namespace pitchboard {

/// One rule of one pack or amendment; rows live in data/packs/*.toml.
struct RuleRow {
  std::string_view pack;        ///< family of packs, "irc", or an amendment, "us-pa"
  std::string_view editions;    ///< editions of the family that it holds in: "2018 2021 2024"; empty: all
  std::string_view clause;      ///< "R311.7.5.1"
  std::string_view renumbered;  ///< where an edition numbers it otherwise: "2015 R311.7.8.2; 2024 R318.7.8.4"
  std::string_view quantity;    ///< what is measured: "riser_height", see docs/rules.md
  /// "at_most", "at_least", "less_than", "more_than", "required", "advice" (a figure to come near)
  std::string_view compare;
  double limit = 0;             ///< in `unit`
  std::string_view unit;        ///< "in", "mm", "deg", "slope", "count", "none"
  std::string_view when;        ///< condition: "" always, "closed_risers and going < 11 in", see docs/rules.md
  std::string_view sentence;    ///< our own words
  std::string_view confidence;  ///< "seen", "summary", "memory"
  std::string_view source;      ///< source tag and what was seen
  bool advice = false;          ///< nobody asks for it: it warns where it is not kept
};

struct Finding {
  std::string_view pack, clause, quantity, sentence, confidence;  ///< the rule's
  std::string source;
  Verdict verdict = Verdict::not_checked;
  std::optional<double> measured, limit, margin, uncertainty;  ///< in `unit`; margin positive when kept
  std::string_view unit, compare;
  int step = 0;         ///< worst step, 0: none
  std::string where;    ///< mark or place of the worst: "R1", "left rail"
  std::string change;   ///< what would change the verdict
  bool advice = false;  ///< nobody asks for it: `warn` where it is not kept, `pass` where it is
  bool applies = true;  ///< false: its condition is not met here; the verdict is then `pass`
};

struct PackInfo {
  std::string_view key, title, kind;  ///< kind: "pack" or "amendment"
  std::string_view applies_to;        ///< amendments: pack family they overlay, "irc"
  std::string_view family, edition;   ///< packs: the `pack` of their rows, and which edition of it
  std::string_view caveat;            ///< what is less sure about the whole pack; its rows are then never "seen"
  std::string_view source;
};

/// RETURNS every pack, then every amendment.
[[nodiscard]] std::span<const PackInfo> packs();
/// RETURNS what is wrong with the place's pack and amendments: unknown names, amendments of another family.
[[nodiscard]] Problems check_place(const Place& place);
/// RETURNS every row of every pack and amendment, as the data files have them.
[[nodiscard]] std::vector<RuleRow> all_rules();
/// RETURNS the rules in force: the pack's rows with the clause numbers of its edition; an amendment's rows replace all
/// rows of the same quantity and comparison before it. An unknown pack or amendment has none. `quantity`: those of it
/// alone; empty: all.
[[nodiscard]] std::vector<RuleRow> rules_in_force(const Place& place, std::string_view quantity = {});
/// RETURNS the limits that shaping a flight needs, read from the rules in force.
[[nodiscard]] ShapeLimits shape_limits(const Place& place);
/// True when the rules in force ask for a handrail on a flight of that many risers, or may ask for one.
[[nodiscard]] bool handrail_needed(const Place& place, int risers);
/// True when the rules in force ask for a guard at that drop.
[[nodiscard]] bool guard_needed(const Place& place, Length drop);
/// True when the salt water is so near that fasteners and connectors have to be stainless.
[[nodiscard]] bool stainless_required(const Place& place);

/// RETURNS one finding per rule in force, worst first: by verdict, then by margin over limit, then by clause.
/// Quantities are measured from the parts, not taken from the flight.
/// 1. `pass` only when the measured value keeps the limit by more than the readings' uncertainty.
/// 2. A row whose confidence is "memory" is `warn` where it would be `pass` or `fail`, and says so.
/// `written`: false for findings that nobody reads: without their sources, and changes but of what fails.
[[nodiscard]] std::vector<Finding> judge(const Job& job, const Site& site, const Flight& flight, const Frame& frame,
                                         bool written = true);
/// RETURNS of those findings the ones of rules on risers, goings, nosings and headroom, unwritten; what hangs on the
/// fall beside the whole stair, or on its rails, is left open. `frame`: one with its treads, which may be a counted
/// one.
[[nodiscard]] std::vector<Finding> judge_steps(const Job& job, const Site& site, const Flight& flight,
                                               const Frame& frame);

}  // namespace pitchboard
