#include "engine/cut/left_over.hpp"

#include <algorithm>

namespace pitchboard {
namespace {

constexpr std::size_t kProofsAsked = 3;

Ticks room_left(const Pieces& pieces, Ticks capacity, const Counts& on_board) {
  for (std::size_t kind = 0; kind < on_board.size(); ++kind) capacity -= on_board[kind] * pieces.sizes[kind];
  return capacity;
}

}  // namespace

Ticks longest_left_over(const Pieces& pieces, const std::vector<BoardKind>& boards,
                        const std::vector<FilledBoard>& filled) {
  Ticks longest = 0;
  for (const FilledBoard& board : filled) {
    if (boards[board.kind].price == 0) continue;
    longest = std::max(longest, room_left(pieces, boards[board.kind].capacity, board.pieces));
  }
  return longest;
}

void lengthen_left_over(const Pieces& pieces, const std::vector<BoardKind>& boards, const std::vector<Proof>& proofs,
                        const Counts& count, std::vector<FilledBoard>& filled, Ticks& longest, Work& work) {
  // What all boards together leave is the most that one can leave.
  Ticks spare = 0;
  for (std::size_t i = 0; i < boards.size(); ++i) spare += boards[i].capacity * count[i];
  for (std::size_t kind = 0; kind < pieces.sizes.size(); ++kind) spare -= pieces.sizes[kind] * pieces.counts[kind];
  // One board of the kind is made shorter by what is to be left of it: that is a kind of its own.
  const std::size_t cut_short = boards.size();
  std::vector<BoardKind> kinds = boards;
  kinds.emplace_back();
  std::vector<Proof> asked(proofs.begin(),
                           proofs.begin() + static_cast<std::ptrdiff_t>(std::min(kProofsAsked, proofs.size())));
  for (Proof& proof : asked) proof.most.push_back(0);
  Packer packer(pieces, kinds, asked);
  Counts counts = count;
  counts.push_back(1);
  for (std::size_t i = 0; i < boards.size(); ++i) {
    if (boards[i].price == 0 || count[i] == 0) continue;
    --counts[i];
    Ticks low = longest, high = std::min(spare, boards[i].capacity - pieces.sizes.back()) + 1;
    bool gained = false;
    while (high - low > 1 && !work.done()) {
      // Ask first for the smallest gain: mostly there is none.
      const Ticks ask = gained ? low + (high - low) / 2 : low + 1;
      kinds[cut_short] = {boards[i].capacity - ask, boards[i].price, 1, std::max<Ticks>(boards[i].bad_end - ask, 0)};
      for (Proof& proof : asked) proof.most[cut_short] = proof.held.on(kinds[cut_short]);
      if (packer.search(counts, work) != Fits::yes) {
        high = ask;
        continue;
      }
      gained = true;
      filled = packer.boards();
      for (FilledBoard& board : filled) board.kind = board.kind == cut_short ? i : board.kind;
      low = longest = std::max(ask, longest_left_over(pieces, boards, filled));
    }
    ++counts[i];
  }
}

}  // namespace pitchboard
