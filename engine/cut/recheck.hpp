#pragma once
// Is a cut plan what it says it is? Looks at lengths on boards only and shares nothing with the code that chose them.

#include "engine/cut/cut.hpp"

namespace pitchboard {

/// What the saw and the ends of a new board take.
struct Ends {
  Length kerf;
  Length trim;     ///< off each end
  Length bad_end;  ///< beyond the trim at the far end: for pieces that need not be sound
};

/// RETURNS what is wrong with the boards of one section, in words; empty: nothing. All demands but `left_out` are cut
/// once, a kerf apart, inside the trims, sound ones out of the bad end, from boards that there are.
[[nodiscard]] std::string fault_of_boards(const std::vector<Board>& boards, const std::vector<Demand>& demands,
                                          std::size_t left_out, const std::vector<StockItem>& stock, const Ends& ends);

}  // namespace pitchboard
