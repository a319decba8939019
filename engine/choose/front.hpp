#pragma once
// What is told of a front: by which rule the pick was picked, which stair is best at what, and the job of each.

#include <string>
#include <string_view>
#include <vector>

#include "engine/choose/search.hpp"

namespace pitchboard {

/// What the default pick gives beside the cost: see `worth`.
struct PickRule {
  Money hour;     ///< of work saved
  Money comfort;  ///< an inch of 2R + G nearer to comfortable
};
[[nodiscard]] PickRule pick_rule(const Job& job);
/// RETURNS the rule in a sentence: "the least of the cost, USD 45.00 an hour of work and USD 60.00 an inch that ...".
[[nodiscard]] std::string rule_words(const Job& job);

/// RETURNS what the option is the first of: "pick", "cheapest", "least work", "most comfortable", "strongest", "least
/// earth moved". By the exact figures, the cheapest of equals; nothing where all are equal.
/// REQUIRES an index in `search.front`.
[[nodiscard]] std::vector<std::string_view> marks_of(const Search& search, std::size_t option);

/// RETURNS the job that plans that very stair: the choice is written into it, and of ready-cut stringers only those
/// that were chosen are left in its yard.
/// REQUIRES an index in `search.front`.
[[nodiscard]] Job job_of(const Job& job, const Search& search, std::size_t option);

/// RETURNS the search as canonical JSON, options numbered from 1; the keys: docs/choose.md.
[[nodiscard]] std::string search_json(const Job& job, const Search& search);

}  // namespace pitchboard
