#pragma once
// One sort for every type: equal elements stay as they stood, so that every library sorts alike.

#include <cstddef>
#include <functional>
#include <iterator>
#include <ranges>
#include <utility>
#include <vector>

namespace pitchboard {

/// RETURNS the numbers below `count`, sorted stably by `before(context, i, j)`.
[[nodiscard]] std::vector<std::size_t> sorted_numbers(std::size_t count,
                                                      bool (*before)(const void* context, std::size_t i, std::size_t j),
                                                      const void* context);

/// Sorts the range as std::ranges::stable_sort does. The sorting itself is compiled once, not anew for every type: that
/// is a twelfth of the engine in a browser.
template <std::ranges::random_access_range Range, class Compare = std::ranges::less, class Projection = std::identity>
void sort_stably(Range&& range, Compare compare = {}, Projection projection = {}) {
  if (std::ranges::size(range) < 2) return;
  const auto first = std::ranges::begin(range);
  using Distance = std::iter_difference_t<decltype(first)>;
  const auto before = [&](std::size_t i, std::size_t j) -> bool {
    return std::invoke(compare, std::invoke(projection, first[static_cast<Distance>(i)]),
                       std::invoke(projection, first[static_cast<Distance>(j)]));
  };
  using Before = decltype(before);
  std::vector<std::size_t> numbers = sorted_numbers(
      static_cast<std::size_t>(std::ranges::distance(range)),
      [](const void* context, std::size_t i, std::size_t j) { return (*static_cast<const Before*>(context))(i, j); },
      &before);
  // Every element goes to its place along the cycle that it is part of.
  for (std::size_t start = 0; start < numbers.size(); ++start) {
    if (numbers[start] == start) continue;
    auto held = std::move(first[static_cast<Distance>(start)]);
    std::size_t at = start;
    while (numbers[at] != start) {
      first[static_cast<Distance>(at)] = std::move(first[static_cast<Distance>(numbers[at])]);
      at = std::exchange(numbers[at], at);
    }
    first[static_cast<Distance>(at)] = std::move(held);
    numbers[at] = at;
  }
}

}  // namespace pitchboard
