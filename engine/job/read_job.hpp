#pragma once
// Job files: text -> Job -> text.

#include <string>
#include <string_view>

#include "engine/base/problem.hpp"
#include "engine/job/job.hpp"

namespace pitchboard {

/// Reads a job in its canonical form, JSON.
/// ERRORS  every problem of the text and of the job (`check_job`) at once, each with its place.
[[nodiscard]] Result<Job> read_job_json(std::string_view json);

/// RETURNS the job in its canonical form: keys sorted, lengths exact, every input that has a value.
/// 1. `read_job_json` reads it back to a job with the same text.
[[nodiscard]] std::string job_json(const Job& job);

/// RETURNS what is wrong with the job's values, alone and together; empty when the job can be planned.
[[nodiscard]] Problems check_job(const Job& job);

}  // namespace pitchboard
