#pragma once
// What the program says about a search over stairs, in words and tables.

#include <string>
#include <vector>

#include "engine/choose/front.hpp"
#include "engine/plan.hpp"

namespace pitchboard {

/// RETURNS the front as a table, the rule of the pick, and the kinds of stairs of which none can be built.
[[nodiscard]] std::string front_text(const Job& job, const Search& search, bool colour);
/// RETURNS why the option is on the front, its weakest checks, all that is open in it, what a change of one choice
/// would do, and the lines that make the job file plan it. `plan`: of `job_of` that option.
[[nodiscard]] std::string why_text(const Job& job, const Search& search, std::size_t option, const Plan& plan,
                                   bool colour);

/// RETURNS the inputs in which the second job differs from the first, as lines for a job file: `stair.risers = 5`.
[[nodiscard]] std::vector<std::string> changed_inputs(const Job& from, const Job& to);

}  // namespace pitchboard
