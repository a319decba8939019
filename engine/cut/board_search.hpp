#pragma once
// Which boards to buy: the cheapest set that holds the pieces, with its proof. Whole ticks and cents only.

#include <map>

#include "engine/cut/pack.hpp"

namespace pitchboard {

/// How far to go over boards: `tidy` looks among equally cheap orders for the one that is best to buy and to keep.
enum class Effort { cost_only, tidy };

struct BoardChoice {
  std::vector<FilledBoard> boards;
  std::int64_t cost = 0;
  std::int64_t bound = 0;  ///< no set of boards that holds the pieces costs less
  Counts left_out;         ///< pieces that the boards that can be had do not hold
};

/// RETURNS the cheapest boards. Among equally cheap ones those of the fewest kinds, then those that leave the longest
/// single left-over; boards without a price count in neither.
/// 1. cost == bound unless the work limits in the .cpp run out first.  2. Boards without a price are used first.
/// REQUIRES sizes above 0, no board of 2^20 ticks (1,365 ft) or more, and fewer than a million pieces; orders below
/// 10^9 cents, and no price below 0: then no sum or product here leaves 64 bits. Pieces that fit no board are left out.
[[nodiscard]] BoardChoice choose_boards(const Pieces& pieces, const std::vector<BoardKind>& boards,
                                        Effort effort = Effort::tidy);

/// The answers for all lists of pieces asked so far: stairs alike are cut from the same lists.
class BoardMemory {
 public:
  /// RETURNS the cheapest boards at Effort::cost_only, without the pieces on them.
  [[nodiscard]] const BoardChoice& cheapest(const Pieces& pieces, const std::vector<BoardKind>& boards);

 private:
  /// All figures of a list of pieces and of the boards, and a sum of them that mostly tells two apart at once.
  struct Question {
    std::uint64_t sum = 0;
    std::vector<std::int64_t> figures;
    friend auto operator<=>(const Question&, const Question&) = default;
  };
  std::map<Question, BoardChoice> known_;
};

}  // namespace pitchboard
