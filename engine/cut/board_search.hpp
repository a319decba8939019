#pragma once
// Which boards to buy: the cheapest set that holds the pieces, with its proof. Whole ticks and cents only.

#include "engine/cut/pack.hpp"

namespace pitchboard {

struct BoardChoice {
  std::vector<FilledBoard> boards;
  std::int64_t cost = 0;
  std::int64_t bound = 0;  ///< no set of boards that holds the pieces costs less
  Counts left_out;         ///< pieces that the boards that can be had do not hold
};
/// RETURNS the cheapest boards; among equally cheap ones the fewest, then the most wood, then the longest single
/// left-over.
/// 1. cost == bound unless the step limits in the .cpp run out first.  2. Boards without a price are used first.
/// REQUIRES every piece to fit some board, and no two kinds of board with equal capacity and price.
[[nodiscard]] BoardChoice choose_boards(const Pieces& pieces, const std::vector<BoardKind>& boards);

}  // namespace pitchboard
