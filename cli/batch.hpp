#pragma once
// Many jobs at once: JSON lines in, JSON lines out, on all cores.

#include <string>

namespace pitchboard {

constexpr unsigned kMostThreads = 256;

struct BatchArguments {
  std::string jobs;      ///< file with the jobs; "-": standard input
  bool search = false;   ///< plan the default pick of each search instead of the job's own stair
  unsigned threads = 0;  ///< jobs at a time; 0: as many as the machine has cores
};

/// Plans each line and prints its record, in the order of the lines; what is wrong with one is told in its record.
/// RETURNS kBadInput when a line was not right, else kImpossible when no stair fits one, else kDone; kUnexpected when
/// the jobs cannot be read or the records not be written.
[[nodiscard]] int batch_command(const BatchArguments& arguments);

}  // namespace pitchboard
