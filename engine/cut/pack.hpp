#pragma once
// Can these very boards hold all pieces? Exact answer by branch and bound.
//
// METHOD  Take the longest piece that is left; try it in every kind of board that is left, in every way to fill that
// board
//         fully; remember what failed. Every proof (piece_worth.hpp) limits how much worth a board may waste.

#include "engine/cut/piece_worth.hpp"

namespace pitchboard {

enum class Fits { yes, no, gave_up };

struct FilledBoard {
  std::size_t kind = 0;
  Counts pieces;
};
struct Packing {
  Fits fits = Fits::no;
  std::vector<FilledBoard> boards;  ///< boards left empty are not listed
};

/// RETURNS whether `count` boards of each capacity hold the pieces, and how. Takes its steps off `steps`; out of steps:
/// gave_up.
[[nodiscard]] Packing pack(const Pieces& pieces, const std::vector<Ticks>& capacities, const Counts& count,
                           const std::vector<Proof>& proofs, int& steps);

}  // namespace pitchboard
