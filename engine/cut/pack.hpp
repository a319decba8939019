#pragma once
// Can these very boards hold all pieces?
//
// METHOD  First by rounding: whole patterns of the fractional cover are cut, the rest is covered again, and so on down
//         to a few pieces. Then exactly, by branch and bound: the longest piece that is left, in every kind of board,
//         in every way to fill that board fully; the fractional cover prunes and says which to try first, and every
//         proof (piece_worth.hpp) limits how much worth a board may waste.
//
// SOURCE  S. Martello and P. Toth, "Knapsack problems" (1990), 8.5: fills that need not be tried.

#include <set>

#include "engine/cut/piece_worth.hpp"

namespace pitchboard {

enum class Fits { yes, no, gave_up };

struct FilledBoard {
  std::size_t kind = 0;
  Counts pieces;
};

class Packer {
 public:
  /// `proofs` grows with what the packer learns. Without a programme it neither rounds nor learns.
  Packer(const Pieces& pieces, const std::vector<BoardKind>& boards, std::vector<Proof>& proofs,
         PatternProgram* program = nullptr)
      : pieces_(pieces), boards_(boards), proofs_(proofs), program_(program) {}
  /// RETURNS whether a packing was found by rounding. Each `attempt` rounds in its own way. `no` is no proof.
  Fits round(const Counts& count, int attempt, Work& work);
  /// RETURNS whether `count` boards of each kind hold the pieces: exact unless it gave up.
  Fits search(const Counts& count, Work& work);
  /// RETURNS the packing after `yes`; boards left empty are not listed.
  [[nodiscard]] const std::vector<FilledBoard>& boards() const { return filled_; }

 private:
  struct Child {
    double times;
    Ticks waste;
    std::size_t at;  // in `arena_`: the board's kind, then the counts
  };
  void begin(const Counts& count);
  [[nodiscard]] int pieces_left() const;
  /// Worth that the boards left may waste.
  [[nodiscard]] Worth spare(const Proof& proof) const;
  void put(std::size_t board, const Counts& wanted);
  void take_back();
  void cut(std::size_t pattern);
  [[nodiscard]] std::vector<Child> children(std::size_t kind, const std::vector<PatternProgram::Use>& used, Work& work);
  [[nodiscard]] double times_used(const int* child, const std::vector<PatternProgram::Use>& used) const;
  [[nodiscard]] bool fully_filled(Ticks room, Ticks sound_room) const;
  void fill(std::size_t board, std::size_t kind, Ticks room, Ticks sound_room, Work& work);
  Fits place(Work& work);

  const Pieces& pieces_;
  const std::vector<BoardKind>& boards_;
  std::vector<Proof>& proofs_;
  PatternProgram* program_;
  bool guided_ = false;  // ask the programme at every board
  Counts left_, count_, taken_;
  std::vector<FilledBoard> filled_;
  std::vector<std::size_t> tight_;  // proofs that leave the least
  std::vector<Worth> lowest_;       // that each of them asks of the board in hand
  std::size_t must_ = 0, child_count_ = 0;
  bool truncated_ = false;
  std::vector<int> arena_;
  std::set<std::vector<int>> failed_;
};

}  // namespace pitchboard
