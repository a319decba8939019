#pragma once
// The least change of a job that makes every check of strength pass: `pitchboard check --fix`.

#include <optional>
#include <string>
#include <vector>

#include "engine/choose/conflict.hpp"
#include "engine/plan.hpp"

namespace pitchboard {

/// One change of one input.
struct Change {
  std::string key;    ///< "stringers.count"
  std::string value;  ///< as the job file writes it: "4", "\"solid\"", "true"
  std::string why;    ///< what it does, in a few words
};

struct Remedy {
  std::vector<Change> changes;
  Job job;                        ///< the job with the changes made
  Money dearer;                   ///< what the order costs more
  std::vector<std::string> left;  ///< checks that still fail; empty: everything that has a value passes
  std::vector<std::string> ask;   ///< what still has no value, with the demand to look for
};

/// RETURNS the set of changes after which no check fails, no rule fails that did not fail before, nothing clashes and
/// every part can be cut: the cheapest order first, then the fewest changes. When no set does it, the one that leaves
/// the fewest failing. Empty changes: nothing failed, or nothing here would help.
/// LIMITS  sets of up to four changes are tried, each planned whole.
[[nodiscard]] Remedy least_change(const Plan& plan);

/// A stair of a search without a front that some change of the job makes one that can be built.
struct Freed {
  Choice choice;  ///< in Conflict::space
  Remedy remedy;
};
/// RETURNS the first stair that its least change frees, of the one that comes nearest and the witnesses of what is in
/// the way; no value where none of them is.
[[nodiscard]] std::optional<Freed> least_change(const Job& job, const Conflict& conflict);

}  // namespace pitchboard
