#pragma once
// What each piece is worth when boards cost what they cost: the numbers that prove an order cheapest.
//
// METHOD  Column generation: P. Gilmore and R. Gomory, "A linear programming approach to the cutting-stock problem"
// (1961).
//         Any worths prove something: boards whose best fills are together worth less than the pieces cannot hold the
//         pieces. The linear programme only looks for good ones, so its rounding can cost time but never a wrong proof.

#include <optional>

#include "engine/cut/fill.hpp"

namespace pitchboard {

struct BoardKind {
  Ticks capacity = 0;      ///< one kerf more than the usable length, since every piece carries one
  std::int64_t price = 0;  ///< cents
  int limit = 0;           ///< as many as there are, or as there are pieces
};

/// Worths and what they say about every set of boards: sum of most(board) >= need, or the pieces do not fit.
struct Proof {
  std::vector<Worth> worth;
  BestFill fill;
  Worth need;  ///< of all pieces together
};
[[nodiscard]] Proof proof_by(const Pieces& pieces, std::vector<Worth> worth, Ticks largest);

/// RETURNS the worths under which the boards, at their prices, cost as little as they fractionally can.
[[nodiscard]] Proof cost_proof(const Pieces& pieces, const std::vector<BoardKind>& boards);
/// RETURNS worths that show that `count` of each board cannot hold the pieces, or nothing when fractions of patterns
/// can.
[[nodiscard]] std::optional<Proof> shortage_proof(const Pieces& pieces, const std::vector<BoardKind>& boards,
                                                  const Counts& count);

}  // namespace pitchboard
