#pragma once
// Of the boards that are bought, one is to keep the longest piece whole.

#include "engine/cut/pack.hpp"

namespace pitchboard {

/// RETURNS the longest single left-over on a board that has a price.
[[nodiscard]] Ticks longest_left_over(const Pieces& pieces, const std::vector<BoardKind>& boards,
                                      const std::vector<FilledBoard>& filled);

/// Packs `count` boards anew wherever that leaves more than `longest` on one that has a price. Sets `filled` and
/// `longest` to the best found before the work is done: to the best there is, if it does not run out.
void lengthen_left_over(const Pieces& pieces, const std::vector<BoardKind>& boards, const std::vector<Proof>& proofs,
                        const Counts& count, std::vector<FilledBoard>& filled, Ticks& longest, Work& work);

}  // namespace pitchboard
