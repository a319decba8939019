#pragma once
// JSON text before it is a job: syntax, and the faults that a parsed tree no longer shows.

#include <string_view>

#include "engine/base/problem.hpp"

namespace pitchboard {

/// RETURNS what is wrong with the text as JSON: a syntax error with its line and column, a key given twice, or nesting
/// deeper than any job's.
[[nodiscard]] Problems check_json_text(std::string_view json);

}  // namespace pitchboard
