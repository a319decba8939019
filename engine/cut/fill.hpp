#pragma once
// The best that can be cut from one board, for every board length at once.
//
// METHOD  G. Nemhauser and Z. Ullmann, "Discrete dynamic programming and capital allocation" (1969): grow the list of
//         fills of which none is both shorter and worth more than another; one list answers every capacity.
//
// UNITS   Ticks: 1/64 in, whole numbers only, so that every comparison is exact.

#include <cstdint>
#include <utility>
#include <vector>

namespace pitchboard {

using Ticks = std::int64_t;
using Worth = std::int64_t;
using Counts = std::vector<int>;  ///< how many of each kind

/// All pieces of one section. A kind is a length that occurs; kinds run from the longest to the shortest.
struct Pieces {
  std::vector<Ticks> sizes;  ///< length plus one kerf
  Counts counts;
  std::vector<bool> sound = {};  ///< kinds that must stay out of a board's bad end; empty: none
  [[nodiscard]] bool is_sound(std::size_t kind) const { return !sound.empty() && sound[kind]; }
};

struct BoardKind {
  Ticks capacity = 0;      ///< one kerf more than the usable length, since every piece carries one
  std::int64_t price = 0;  ///< cents
  int limit = 0;           ///< as many as there are, or as there are pieces
  Ticks bad_end = 0;       ///< of the capacity, closed to sound pieces
};

/// What is left of the work that may be done, in steps of about a nanosecond. The engine reads no clock, so that equal
/// jobs give equal plans.
struct Work {
  std::int64_t left = 0;
  void spend(std::size_t steps) { left -= static_cast<std::int64_t>(steps); }
  [[nodiscard]] bool done() const { return left <= 0; }
};

/// The most worth that a board of any length can hold.
class MostWorth {
 public:
  /// RETURNS the most worth that a board of that capacity can hold, its bad end not heeded.
  [[nodiscard]] Worth on(Ticks capacity) const { return all_[at(all_, capacity)].worth; }
  /// RETURNS the most worth that the board can hold, its bad end heeded.
  [[nodiscard]] Worth on(const BoardKind& board) const;

 private:
  friend class BestFill;
  struct Fill {
    std::int32_t size = 0;
    std::int32_t place = 0;  ///< in `BestFill::origins_`
    Worth worth = 0;
  };
  using Fills = std::vector<Fill>;  ///< size and worth both rise
  static std::size_t at(const Fills& fills, Ticks capacity);
  /// The best sound fill and the best other fill that share the board.
  [[nodiscard]] std::pair<const Fill*, const Fill*> split(const BoardKind& board) const;
  Fills all_;             // of all kinds
  Fills sound_, others_;  // of those kinds and of the rest; empty if no kind has to be sound
};

class BestFill {
 public:
  /// What a fill must be worth on each board to be of interest.
  struct Target {
    Ticks capacity;
    Worth worth;
  };
  /// Finds the best fills for these worths from at most `counts` pieces. REQUIRES worth >= 0 for every kind.
  void find(const Pieces& pieces, const Counts& counts, const std::vector<Worth>& worth, Ticks largest, Work& work);
  /// As find(), but only fills that reach a target, by capacity, are sure to be found: much faster.
  void find_above(const Pieces& pieces, const Counts& counts, const std::vector<Worth>& worth,
                  const std::vector<Target>& targets, Work& work);
  [[nodiscard]] const MostWorth& most() const { return most_; }
  /// Sets `counts` to pieces that are worth that much.
  void pieces_on(const BoardKind& board, Counts& counts) const;

 private:
  using Fill = MostWorth::Fill;
  using Fills = MostWorth::Fills;
  struct Origin {
    std::int32_t last = -1;    ///< kind added last; -1: the empty fill
    std::int32_t before = -1;  ///< fill it was added to
  };
  void start();
  void grow(Fills& best, std::size_t kind, Ticks size, Worth worth, int copies, Ticks largest);
  void drop_hopeless(Fills& best, const std::vector<Target>& targets, Ticks size, Worth worth);
  void count(std::int32_t fill, Counts& counts) const;
  std::vector<Origin> origins_;  // of every fill ever kept
  MostWorth most_;
  Fills fresh_, kept_, merged_;
  std::vector<std::size_t> order_;
  std::vector<Worth> asked_;
};

/// A good filling of one board, without the list: depth first, best value first, a limited number of steps.
class QuickFill {
 public:
  /// REQUIRES that the arguments outlive the calls of better_than().
  void begin(const Pieces& pieces, const Counts& counts, const std::vector<Worth>& worth);
  /// RETURNS whether pieces worth more than `target` were found for the board, and sets `counts` to them.
  bool better_than(Worth target, const BoardKind& board, Counts& counts, Work& work);

 private:
  void dig(std::size_t turn, Ticks room, Ticks sound_room, Worth so_far);
  const Pieces* pieces_ = nullptr;
  const Counts* counts_ = nullptr;
  const std::vector<Worth>* worth_ = nullptr;
  std::vector<std::size_t> order_;
  std::vector<Worth> rate_;  // by turn: of a tick, rounded up
  Counts taken_;
  Counts* found_ = nullptr;
  Worth best_ = 0;
  int steps_ = 0;
};

}  // namespace pitchboard
