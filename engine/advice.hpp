#pragma once
// What is told beside a search: what to measure again, or what is in the way where nothing can be built.

#include <optional>
#include <string>
#include <vector>

#include "engine/choose/conflict.hpp"
#include "engine/choose/search.hpp"
#include "engine/choose/sensitivity.hpp"
#include "engine/least_change.hpp"

namespace pitchboard {

struct Advice {
  std::vector<Doubt> doubts;   ///< readings that, off by their uncertainty, would change the pick
  Conflict conflict;           ///< of stairs whose flight fits; nothing where there is a front
  std::optional<Freed> freed;  ///< the least change that frees one of them
};
/// RETURNS what is to be told beside that search of the job.
[[nodiscard]] Advice advice_on(const Job& job, const Search& search);

/// RETURNS why no stair of the search can be built: the limits that collide, or the kinds of fault, the least change
/// and how each kind of stair fails. REQUIRES an empty front.
[[nodiscard]] Problems why_none(const Job& job, const Search& search, const Advice& advice);

/// RETURNS search and advice as canonical JSON, options numbered from 1; the keys: docs/choose.md.
[[nodiscard]] std::string search_json(const Job& job, const Search& search, const Advice& advice);

}  // namespace pitchboard
