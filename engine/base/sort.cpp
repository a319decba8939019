#include "engine/base/sort.hpp"

#include <algorithm>

namespace pitchboard {

void sort_numbers(std::span<std::size_t> numbers, bool (*before)(const void* context, std::size_t i, std::size_t j),
                  const void* context) {
  std::ranges::stable_sort(numbers, [=](std::size_t i, std::size_t j) { return before(context, i, j); });
}

}  // namespace pitchboard
