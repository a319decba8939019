#pragma once
// The best that can be cut from one board, for every board length at once.
//
// METHOD  G. Nemhauser and Z. Ullmann, "Discrete dynamic programming and capital allocation" (1969): grow the list of
// fills of
//         which none is both shorter and worth more than another; one list answers every capacity.
//
// UNITS   Ticks: 1/1024 in, whole numbers only, so that every comparison is exact.

#include <cstdint>
#include <vector>

namespace pitchboard {

using Ticks = std::int64_t;
using Worth = std::int64_t;
using Counts = std::vector<int>;  ///< how many of each kind

/// All pieces of one section. A kind is a length that occurs; kinds run from the longest to the shortest.
struct Pieces {
  std::vector<Ticks> sizes;  ///< length plus one kerf
  Counts counts;
};

class BestFill {
 public:
  /// REQUIRES worth >= 0 for every kind.
  BestFill(const Pieces& pieces, const std::vector<Worth>& worth, Ticks largest);
  /// RETURNS the most worth that a board of that capacity can hold.
  [[nodiscard]] Worth most(Ticks capacity) const { return fills_[at(capacity)].worth; }
  /// RETURNS pieces that are worth that much.
  [[nodiscard]] Counts pieces(Ticks capacity) const;

 private:
  struct Fill {
    Ticks size = 0;
    Worth worth = 0;
    int last = -1;    ///< kind added last; -1: the empty fill
    int before = -1;  ///< fill it was added to, in `grown_`
  };
  [[nodiscard]] std::size_t at(Ticks capacity) const;
  std::vector<Fill> grown_;  ///< every fill ever kept
  std::vector<Fill> fills_;  ///< the best ones: size and worth both rise
  std::vector<int> place_;   ///< of fills_[i] in grown_
  std::size_t kinds_ = 0;
};

}  // namespace pitchboard
