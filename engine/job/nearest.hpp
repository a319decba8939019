#pragma once
// The word that someone most likely meant.

#include <string_view>
#include <vector>

namespace pitchboard {

/// RETURNS the candidate that takes the fewest typing errors to become `written`, the first of equals; empty when every
/// one differs in more than a third of its letters.
[[nodiscard]] std::string_view nearest(std::string_view written, const std::vector<std::string_view>& candidates);

}  // namespace pitchboard
