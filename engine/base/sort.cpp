#include "engine/base/sort.hpp"

#include <algorithm>
#include <numeric>

namespace pitchboard {

std::vector<std::size_t> sorted_numbers(std::size_t count,
                                        bool (*before)(const void* context, std::size_t i, std::size_t j),
                                        const void* context) {
  std::vector<std::size_t> numbers(count);
  std::iota(numbers.begin(), numbers.end(), std::size_t{});
  std::ranges::stable_sort(numbers, [=](std::size_t i, std::size_t j) { return before(context, i, j); });
  return numbers;
}

}  // namespace pitchboard
