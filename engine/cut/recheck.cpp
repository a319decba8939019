#include "engine/cut/recheck.hpp"

#include <algorithm>
#include <map>

namespace pitchboard {
namespace {

bool same_board(const StockItem& item, const Board& board) {
  return item.length == board.length && item.price == board.price && item.offcut == board.offcut;
}

/// RETURNS whether there are as many boards like that one as are cut.
bool there_are_enough(const Board& like, const std::vector<Board>& boards, const std::vector<StockItem>& stock) {
  long have = 0, cut = 0;
  for (const StockItem& item : stock) {
    if (!same_board(item, like)) continue;
    if (!item.available) return true;
    have += *item.available;
  }
  for (const Board& board : boards) {
    cut += board.length == like.length && board.price == like.price && board.offcut == like.offcut;
  }
  return cut <= have;
}

}  // namespace

std::string fault_of_boards(const std::vector<Board>& boards, const std::vector<Demand>& demands, std::size_t left_out,
                            const std::vector<StockItem>& stock, const Ends& ends) {
  std::map<std::string, const Demand*> waiting;
  for (const Demand& demand : demands) waiting[demand.mark] = &demand;
  for (const Board& board : boards) {
    if (!there_are_enough(board, boards, stock)) return "more boards are cut than there are";
    const Length trim = board.offcut ? Length() : ends.trim;
    const Length sound_to = board.length - trim - (board.offcut ? Length() : ends.bad_end);
    Length free_from = trim;
    for (const PlacedPiece& piece : board.pieces) {
      const auto found = waiting.find(piece.mark);
      if (found == waiting.end()) return piece.mark + " is cut twice, or not wanted";
      if (piece.from < free_from - kTouch) return piece.mark + " is cut into its neighbour";
      const Length off = piece.to - piece.from - found->second->length;
      if (off > kTouch || off < -kTouch) return piece.mark + " is cut to a wrong length";
      if (piece.to > board.length - trim + kTouch) return piece.mark + " runs into the trimmed end";
      if (found->second->sound && piece.to > sound_to + kTouch) return piece.mark + " lies in the bad end";
      free_from = piece.to + ends.kerf;
      waiting.erase(found);
    }
  }
  return waiting.size() == left_out ? "" : "a piece is not cut";
}

}  // namespace pitchboard
