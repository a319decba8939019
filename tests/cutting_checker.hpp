#pragma once
// Is this choice of boards what it says it is? Shares nothing with the code that made it but the types.

#include <map>
#include <string>

#include "engine/cut/board_search.hpp"

namespace pitchboard {

/// RETURNS what is wrong with the choice, in words; empty: nothing.
inline std::string fault_of(const Pieces& pieces, const std::vector<BoardKind>& boards, const BoardChoice& choice) {
  std::map<std::size_t, int> used;
  std::vector<long> cut(pieces.sizes.size(), 0);
  std::int64_t cost = 0;
  for (const FilledBoard& board : choice.boards) {
    if (board.kind >= boards.size() || board.pieces.size() != pieces.sizes.size()) return "no such board or piece";
    if (++used[board.kind] > boards[board.kind].limit) return "more boards than there are";
    cost += boards[board.kind].price;
    Ticks length = 0, sound = 0;
    for (std::size_t kind = 0; kind < pieces.sizes.size(); ++kind) {
      if (board.pieces[kind] < 0) return "a negative count";
      length += board.pieces[kind] * pieces.sizes[kind];
      if (pieces.is_sound(kind)) sound += board.pieces[kind] * pieces.sizes[kind];
      cut[kind] += board.pieces[kind];
    }
    if (length == 0) return "an empty board";
    if (length > boards[board.kind].capacity) return "a board too short for its pieces";
    if (sound > 0 && sound > boards[board.kind].capacity - boards[board.kind].bad_end) return "a piece in a bad end";
  }
  for (std::size_t kind = 0; kind < pieces.sizes.size(); ++kind) {
    if (cut[kind] + choice.left_out[kind] != pieces.counts[kind]) return "a piece not cut once";
  }
  if (cost != choice.cost) return "a cost that is not the boards' sum";
  if (choice.bound > choice.cost) return "a bound above the cost";
  return {};
}

}  // namespace pitchboard
