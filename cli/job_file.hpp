#pragma once
// Job files on disk: TOML, as people write them, or canonical JSON.

#include <filesystem>
#include <string>
#include <string_view>

#include "engine/base/problem.hpp"
#include "engine/job/job.hpp"

namespace pitchboard {

/// RETURNS the same job as JSON text for `read_job_json`, or the syntax error with its line and column.
[[nodiscard]] Result<std::string> json_of_toml(std::string_view toml);

/// Reads a job file; a name that ends in `.json` is JSON, any other is TOML.
/// ERRORS  as `read_job_json`, and a file that cannot be read.
[[nodiscard]] Result<Job> read_job_file(const std::filesystem::path& path);

}  // namespace pitchboard
