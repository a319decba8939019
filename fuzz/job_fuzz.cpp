// A text, TOML or JSON, that reads as a job is written and read back to the same job; any other is refused with its
// problems.

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "cli/job_file.hpp"
#include "engine/job/read_job.hpp"

using pitchboard::Job;
using pitchboard::Problem;
using pitchboard::Result;

namespace {

Result<Job> read_job(std::string_view text) {
  if (text.starts_with('{')) return pitchboard::read_job_json(text);
  const Result<std::string> json = pitchboard::json_of_toml(text);
  if (!json) return std::unexpected(json.error());
  return pitchboard::read_job_json(*json);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const Result<Job> job = read_job(text);
  if (!job) {
    if (job.error().empty()) std::abort();
    for (const Problem& problem : job.error()) {
      if (problem.wrong.empty() || problem.remedy.empty()) std::abort();
    }
    return 0;
  }
  const std::string written = pitchboard::job_json(*job);
  const Result<Job> again = pitchboard::read_job_json(written);
  if (!again || pitchboard::job_json(*again) != written) std::abort();
  return 0;
}
