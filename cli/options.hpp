#pragma once
// The commands over every stair that a job allows.

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>

#include "engine/choose/search.hpp"
#include "engine/plan.hpp"

namespace pitchboard {

struct OptionsArguments {
  std::string subject;  ///< the job file's name
  std::string picture;  ///< file for the plot; empty: none
  std::size_t why = 0;  ///< option that is explained; 0: none
  bool json = false;
};

/// Searches and prints the front, one option of it, or its JSON, and writes the plot. RETURNS the exit code.
[[nodiscard]] int options_command(const Job& job, Paper paper, const OptionsArguments& arguments);

/// RETURNS why no stair of the search can be built: the limits that collide, or how each kind of stair fails.
/// REQUIRES an empty front.
[[nodiscard]] Problems why_none(const Job& job, const Search& search);

/// RETURNS the job that plans that option of its front, counted from 1.
/// ERRORS  kBadInput: no such option; kImpossible: nothing can be built. What is wrong has been said.
[[nodiscard]] std::expected<Job, int> chosen_option(const Job& job, std::size_t number, const std::string& subject);

}  // namespace pitchboard
