#pragma once
// Random sections to cut, the same everywhere for the same seed.

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "engine/cut/board_search.hpp"

namespace pitchboard {

struct CuttingInstance {
  std::string name;
  Pieces pieces;  ///< the kerf is in the sizes, trims are off the capacities
  std::vector<BoardKind> boards;
};

/// What is different from the plain families.
enum class Variant {
  plain,
  linear_prices,    ///< every foot costs the same: all orders of equal length tie
  arbitrary_cents,  ///< prices share no divisor
  few_a_board,      ///< one to three pieces on a board
  stair_size,       ///< 4 to 24 pieces of one to four lengths, as a stair's sections are
  limited_counts,   ///< the yard has few of all but the longest length; some free offcuts
};
inline constexpr std::pair<Variant, const char*> kVariants[] = {{Variant::plain, "plain"},
                                                                {Variant::linear_prices, "linear prices"},
                                                                {Variant::arbitrary_cents, "arbitrary cents"},
                                                                {Variant::few_a_board, "few pieces a board"},
                                                                {Variant::limited_counts, "limited counts"},
                                                                {Variant::stair_size, "stair size"}};

/// RETURNS `count` sections of 30 to 120 pieces (but see stair_size), the families mixed, short, long and stress in
/// turn.
[[nodiscard]] std::vector<CuttingInstance> job_size_sections(Variant variant, std::uint64_t seed, int count);

/// SOURCE E. Falkenauer, "A hybrid grouping genetic algorithm for bin packing" (1996): sizes 20 to 100 in bins of 150.
[[nodiscard]] CuttingInstance falkenauer_uniform(int pieces, std::uint64_t seed);
/// SOURCE the same: threes that add up to the bin of 1000 exactly; the first of 380 to 490, the second from 250 to half
/// the rest. REQUIRES pieces divisible by 3.
[[nodiscard]] CuttingInstance falkenauer_triplets(int pieces, std::uint64_t seed);

}  // namespace pitchboard
