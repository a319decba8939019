#pragma once
// What each piece is worth: the numbers that prove that boards cannot hold the pieces.
//
// METHOD  Column generation: P. Gilmore and R. Gomory, "A linear programming approach to the cutting-stock problem"
//         (1961). Any worths prove something: boards whose best fills are together worth less than the pieces cannot
//         hold the pieces. The linear programme only looks for good ones, so its rounding can cost time but never a
//         wrong proof.

#include <span>

#include "engine/cut/fill.hpp"

namespace pitchboard {

/// Worths and what they say about every set of boards: sum of most[board] >= need, or the pieces do not fit.
struct Proof {
  std::vector<Worth> worth;  ///< of each kind of piece
  MostWorth held;            ///< what boards of any length can hold, from all pieces
  std::vector<Worth> most;   ///< that each kind of board can hold
  Worth need = 0;            ///< of all pieces together
};

/// Covers what is left to cut by fractions of patterns, from the boards that are left. Keeps its patterns and its last
/// basis, so that the next question is answered from there.
class PatternProgram {
 public:
  enum class Goal { least_cost, fewest_missing };
  enum class Answer { covered, too_few_boards, gave_up };
  struct Use {
    std::size_t pattern;
    double times;
  };

  PatternProgram(const Pieces& pieces, const std::vector<BoardKind>& boards);
  /// What the boards cost from now on, at the goal least_cost; at first, their own prices.
  void set_prices(const std::vector<std::int64_t>& prices) { prices_ = prices; }
  /// RETURNS too_few_boards only when whole numbers prove it: see proof(). At the goal least_cost the worths are those
  /// under which the boards, at their prices, cost as little as they fractionally can.
  Answer solve(const Counts& left, const Counts& boards, Goal goal, Work& work);
  /// RETURNS the last worths with what they say of all pieces. Counts the fills afresh if the last question was of
  /// fewer.
  [[nodiscard]] Proof proof(Work& work);
  /// RETURNS the patterns in use after `covered`.
  [[nodiscard]] const std::vector<Use>& used();
  [[nodiscard]] std::size_t board_of(std::size_t pattern) const { return patterns_[pattern].board; }
  struct Entry {
    std::uint32_t kind;
    int count;
  };
  [[nodiscard]] std::span<const Entry> entries(std::size_t pattern) const {
    return std::span(entries_).subspan(patterns_[pattern].begin, patterns_[pattern].size);
  }

 private:
  struct Pattern {
    std::size_t board = 0, begin = 0, size = 0;
    bool basic = false, banned = false;
  };
  // Columns by number: pieces missing, pieces too many, boards left over, then the patterns.
  [[nodiscard]] std::size_t first_pattern() const { return 2 * kinds_ + boards_.size(); }
  [[nodiscard]] double cost(std::size_t column) const;
  [[nodiscard]] double dot(const double* row, std::size_t stride, std::size_t column) const;
  [[nodiscard]] double reduced(std::size_t column) const { return cost(column) - dot(dual_.data(), 1, column); }
  [[nodiscard]] bool is_basic(std::size_t column) const {
    return column < first_pattern() ? logical_basic_[column] != 0 : patterns_[column - first_pattern()].basic;
  }
  void set_basic(std::size_t column, bool basic);
  void start();
  bool refactor();
  void set_amounts();
  void set_duals();
  void step_of(std::size_t column);
  void pivot(std::size_t row, std::size_t column);
  bool restore_amounts(Work& work);
  [[nodiscard]] double missing() const;
  Answer improve(Work& work);
  [[nodiscard]] bool priced(bool& proven, Work& work);

  const Pieces& pieces_;
  const std::vector<BoardKind>& boards_;
  std::size_t kinds_, rows_;
  Ticks largest_ = 1;
  std::vector<Entry> entries_;
  std::vector<Pattern> patterns_;
  std::vector<char> logical_basic_;
  std::vector<std::size_t> basis_;
  std::vector<double> inverse_;  // by column
  std::vector<double> amount_, dual_, step_, needed_, penalty_, row_;
  Goal goal_ = Goal::least_cost;
  double dearest_ = 1.0;
  int pivots_ = 0;
  BestFill fill_;
  QuickFill quick_fill_;
  std::vector<Worth> worth_;
  std::vector<std::int64_t> prices_;
  std::vector<BestFill::Target> targets_;
  Counts left_, limits_, found_;
  std::vector<Use> used_;
};

/// RETURNS what these worths say.
[[nodiscard]] Proof proof_by(const Pieces& pieces, const std::vector<BoardKind>& boards, std::vector<Worth> worth,
                             BestFill& fill, Work& work);

}  // namespace pitchboard
