#pragma once
// How a plan stands with rules and strength, as text.

#include <functional>
#include <string>
#include <vector>

#include "engine/draw/finding_words.hpp"
#include "engine/plan.hpp"

namespace pitchboard {

/// What a terminal may colour: the words, and the verdict that they speak of.
using Dress = std::function<std::string(const std::string& words, const std::string& verdict)>;

/// RETURNS "2 fail; 30 pass".
[[nodiscard]] std::string counts_text(const std::vector<VerdictCount>& counts, const Dress& dress = {});
/// RETURNS what stands in the way of building it as planned, clashes and missing boards; a line each.
[[nodiscard]] std::string faults_text(const Plan& plan, const Dress& dress = {});
/// RETURNS every finding and every check of strength as a table, worst first, then clashes, what is missing, and notes.
[[nodiscard]] std::string checks_text(const Plan& plan, const Dress& dress = {});

}  // namespace pitchboard
