#include "engine/job/nearest.hpp"

#include <algorithm>
#include <numeric>

namespace pitchboard {
namespace {

/// No name of ours is longer; a longer word is nobody's typing error, and comparing it would only take time.
constexpr std::size_t kLongestWord = 64;

/// Letters to insert, drop or change (Levenshtein 1966), row by row of the usual table.
std::size_t typing_errors(std::string_view from, std::string_view to) {
  std::vector<std::size_t> row(to.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < from.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < to.size(); ++j) {
      const std::size_t changed = diagonal + (from[i] == to[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({changed, row[j] + 1, row[j + 1] + 1});
    }
  }
  return row.back();
}

}  // namespace

std::string_view nearest(std::string_view written, const std::vector<std::string_view>& candidates) {
  if (written.size() > kLongestWord) return {};
  std::string_view best;
  std::size_t fewest = kLongestWord;
  for (const std::string_view candidate : candidates) {
    const std::size_t errors = typing_errors(written, candidate);
    if (errors < fewest && errors <= (candidate.size() + 2) / 3) {
      fewest = errors;
      best = candidate;
    }
  }
  return best;
}

}  // namespace pitchboard
