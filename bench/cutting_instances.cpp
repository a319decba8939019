#include "bench/cutting_instances.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <numbers>
#include <random>

namespace pitchboard {
namespace {

constexpr int kTicksPerFoot = 768;
constexpr int kTicksPerInch = 64;
constexpr int kKerf = 8, kTrims = 64;  // 1/8 in; 1/2 in each end

/// The standard's distributions differ from library to library; these do not.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : random_(seed) {}
  double unit() { return static_cast<double>(random_() >> 11) * 0x1p-53; }
  double between(double low, double high) { return low + unit() * (high - low); }
  int whole(int low, int high) {
    return low + static_cast<int>(random_() % static_cast<std::uint64_t>(high - low + 1));
  }
  double exponential() { return -std::log(1.0 - unit()); }
  double normal() { return std::sqrt(2.0 * exponential()) * std::cos(2.0 * std::numbers::pi * unit()); }

 private:
  std::mt19937_64 random_;
};

enum class Family { mixed, short_pieces, long_pieces, stress };
constexpr const char* kFamilies[] = {"mixed", "short", "long", "stress"};

/// To 1/8 in, or for three in ten to 1/16.
int taped(Dice& dice, double in_inches) {
  const int step = dice.unit() < 0.7 ? kTicksPerInch / 8 : kTicksPerInch / 16;
  return static_cast<int>(std::lround(in_inches * kTicksPerInch / step)) * step;
}

int piece_length(Dice& dice, Family family, Variant variant) {
  if (variant == Variant::few_a_board) return taped(dice, dice.between(64, 232));
  const double which = dice.unit();
  if (family == Family::short_pieces) return taped(dice, dice.between(10, 42));
  if (family == Family::long_pieces) return taped(dice, which > 0.5 ? dice.between(60, 230) : dice.between(60, 120));
  if (family == Family::stress) return taped(dice, dice.between(10, 100));
  if (which < 0.3) return taped(dice, dice.between(10, 24));
  if (which < 0.7) return taped(dice, dice.between(30, 72));
  return taped(dice, which < 0.9 ? dice.between(72, 120) : dice.between(120, 230));
}

CuttingInstance section(Dice& dice, Family family, Variant variant) {
  int kinds = family == Family::stress ? 25 : dice.whole(5, 25);
  int total = family == Family::stress ? 120 : dice.whole(std::max(30, kinds), 120);
  if (variant == Variant::stair_size) {
    kinds = dice.whole(1, 4);
    total = dice.whole(4, 24);
  }
  std::map<int, int, std::greater<>> counts;
  while (static_cast<int>(counts.size()) < kinds) counts[piece_length(dice, family, variant)] = 1;
  std::vector<double> weights;
  double sum = 0.0;
  for (const auto& [length, count] : counts) {
    weights.push_back(dice.exponential() * (1.0 + 48'000.0 / length));
    sum += weights.back();
  }
  for (int more = total - kinds; more > 0; --more) {
    double at = dice.between(0.0, sum);
    auto kind = counts.begin();
    for (std::size_t i = 0; i + 1 < weights.size() && at >= weights[i]; ++i, ++kind) at -= weights[i];
    ++kind->second;
  }
  CuttingInstance made;
  Ticks wood = 0;
  for (const auto& [length, count] : counts) {
    made.pieces.sizes.push_back(length + kKerf);
    made.pieces.counts.push_back(count);
    wood += Ticks{length + kKerf} * count;
  }
  const double base = dice.between(90, 480);  // cents a foot
  std::vector<int> lengths;
  for (int feet = 8; feet <= 20; feet += 2) {
    if (dice.unit() < 0.85) lengths.push_back(feet);
  }
  int needed = 8;
  while (needed * kTicksPerFoot - kTrims < counts.begin()->first) needed += 2;
  if (lengths.empty() || lengths.back() < needed) lengths.push_back(needed);
  for (const int feet : lengths) {
    const double dearer = 1.0 + 0.006 * (feet - 8) + 0.04 * dice.normal();
    BoardKind board{feet * kTicksPerFoot - kTrims + kKerf, 0, total};
    board.price = std::max(98L, std::lround(base * feet * dearer / 10.0) * 10 - 2);
    if (variant == Variant::linear_prices) board.price = std::lround(base) * feet;
    if (variant == Variant::arbitrary_cents) board.price = std::lround(base * feet * dearer);
    if (variant == Variant::limited_counts && feet != lengths.back()) {
      board.limit = dice.whole(0, 2 + static_cast<int>(wood / board.capacity / 3));
    }
    made.boards.push_back(board);
  }
  if (variant == Variant::limited_counts) {
    for (int offcuts = dice.whole(0, 3); offcuts > 0; --offcuts) {
      made.boards.push_back({taped(dice, dice.between(24, 110)) + kKerf, 0, dice.whole(1, 2)});
    }
  }
  return made;
}

CuttingInstance one_length(const std::vector<int>& sizes, int bin) {
  std::map<int, int, std::greater<>> counts;
  for (const int size : sizes) ++counts[size];
  CuttingInstance made;
  for (const auto& [size, count] : counts) {
    made.pieces.sizes.push_back(size);
    made.pieces.counts.push_back(count);
  }
  made.boards.push_back({bin, 1, static_cast<int>(sizes.size())});
  return made;
}

}  // namespace

std::vector<CuttingInstance> job_size_sections(Variant variant, std::uint64_t seed, int count) {
  std::vector<CuttingInstance> all;
  for (int i = 0; i < count; ++i) {
    const int family = i % 4;
    Dice dice(seed * 1'000'003 + static_cast<std::uint64_t>(i) * 8 + static_cast<std::uint64_t>(variant));
    all.push_back(section(dice, static_cast<Family>(family), variant));
    all.back().name = kFamilies[family] + std::to_string(i / 4);
  }
  return all;
}

CuttingInstance falkenauer_uniform(int pieces, std::uint64_t seed) {
  Dice dice(seed * 7919 + static_cast<std::uint64_t>(pieces));
  std::vector<int> sizes;
  for (int i = 0; i < pieces; ++i) sizes.push_back(dice.whole(20, 100));
  return one_length(sizes, 150);
}

CuttingInstance falkenauer_triplets(int pieces, std::uint64_t seed) {
  Dice dice(seed * 7907 + static_cast<std::uint64_t>(pieces));
  std::vector<int> sizes;
  for (int i = 0; i < pieces; i += 3) {
    const int first = dice.whole(380, 490);
    const int second = dice.whole(250, (1000 - first) / 2);
    sizes.insert(sizes.end(), {first, second, 1000 - first - second});
  }
  return one_length(sizes, 1000);
}

}  // namespace pitchboard
