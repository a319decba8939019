#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <memory>
#include <random>
#include <string>
#include <vector>

#include "engine/base/sort.hpp"

namespace pitchboard {
namespace {

struct Item {
  int key = 0;
  std::string name;
  bool operator==(const Item&) const = default;
};

/// `size` items of few different keys, numbered by their names.
std::vector<Item> items(std::size_t size, std::mt19937& random) {
  std::vector<Item> out;
  for (std::size_t i = 0; i < size; ++i) out.push_back({static_cast<int>(random() % 7), std::to_string(i)});
  return out;
}

// SOURCE the C++ standard library's own stable sort.
TEST(Sort, SortsAsTheLibrarysStableSortDoes) {
  std::mt19937 random(20261127);
  for (std::size_t size = 0; size < 200; ++size) {
    std::vector<Item> ours = items(size, random), theirs = ours;
    sort_stably(ours, {}, &Item::key);
    std::ranges::stable_sort(theirs, {}, &Item::key);
    EXPECT_EQ(ours, theirs);
    sort_stably(ours, std::greater<>(), &Item::name);
    std::ranges::stable_sort(theirs, std::greater<>(), &Item::name);
    EXPECT_EQ(ours, theirs);
    sort_stably(ours, [](const Item& a, const Item& b) { return a.key % 3 < b.key % 3; });
    std::ranges::stable_sort(theirs, [](const Item& a, const Item& b) { return a.key % 3 < b.key % 3; });
    EXPECT_EQ(ours, theirs);
  }
}

TEST(Sort, SortsWhatCanOnlyBeMoved) {
  std::vector<std::unique_ptr<int>> list;
  for (const int v : {5, 1, 4, 2, 3}) list.push_back(std::make_unique<int>(v));
  sort_stably(list, {}, [](const std::unique_ptr<int>& p) { return *p; });
  for (int i = 0; i < 5; ++i) EXPECT_EQ(*list[static_cast<std::size_t>(i)], i + 1);
}

}  // namespace
}  // namespace pitchboard
