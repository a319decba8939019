#include "engine/base/sort.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

namespace pitchboard {
namespace {

/// Lists up to this long, nearly all there are, are sorted by putting one after the other in its place.
constexpr std::size_t kShort = 8;

}  // namespace

std::vector<std::size_t> sorted_numbers(std::size_t count,
                                        bool (*before)(const void* context, std::size_t i, std::size_t j),
                                        const void* context) {
  std::vector<std::size_t> numbers(count);
  std::iota(numbers.begin(), numbers.end(), std::size_t{});
  if (count <= kShort) {
    for (std::size_t i = 1; i < count; ++i) {
      for (std::size_t at = i; at > 0 && before(context, numbers[at], numbers[at - 1]); --at)
        std::swap(numbers[at], numbers[at - 1]);
    }
    return numbers;
  }
  std::ranges::stable_sort(numbers, [=](std::size_t i, std::size_t j) { return before(context, i, j); });
  return numbers;
}

}  // namespace pitchboard
