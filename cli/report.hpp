#pragma once
// What the program says about a plan, in words and tables.

#include <string>

#include "engine/plan.hpp"

namespace pitchboard {

/// RETURNS a few lines: what the stair is, how it stands with the code, what it costs, what to look at.
[[nodiscard]] std::string summary(const Plan& plan, bool colour);
/// RETURNS how the landing gets to its level: "new, up 1 1/2"".
[[nodiscard]] std::string landing_words(const Flight& flight, const Job& job);
/// RETURNS how it stands with rules and strength: see engine/checks_text.hpp.
[[nodiscard]] std::string checks_report(const Plan& plan, bool colour);
/// True when a rule or a check of strength fails, parts clash, or a piece fits no board that can be had.
[[nodiscard]] bool something_fails(const Plan& plan);
/// RETURNS the least change that makes the plan strong enough, as lines for the job file, and what is left open.
[[nodiscard]] std::string remedy_text(const Plan& plan, bool colour);
/// RETURNS the code packs and amendments.
[[nodiscard]] std::string packs_text();

}  // namespace pitchboard
