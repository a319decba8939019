#include "engine/cut/piece_worth.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/base/sort.hpp"

namespace pitchboard {
namespace {

// The worth of all pieces together is scaled to about this whole number: fine enough that the bound is sharp to a small
// part of a cent, coarse enough that worth times cents stays far inside 64 bits.
constexpr double kWorthScale = 1e9;
// Columns dearer than this part of the dearest board are taken as not improving; the proof does not depend on it.
constexpr double kImprovement = 1e-9;
constexpr double kTiny = 1e-9;
constexpr double kDearer = 8.0;  // at a time, for pieces left out
constexpr double kShort = 1e-7;  // amounts further below zero are mended

}  // namespace

PatternProgram::PatternProgram(const Pieces& pieces, const std::vector<BoardKind>& boards)
    : pieces_(pieces), boards_(boards), kinds_(pieces.sizes.size()), rows_(kinds_ + boards.size()) {
  for (const BoardKind& board : boards) {
    largest_ = std::max(largest_, board.capacity);
    prices_.push_back(board.price);
  }
  found_.resize(kinds_);
  worth_.resize(kinds_);
  penalty_.resize(kinds_);
  start();
}

/// Everything missing, every board left over.
void PatternProgram::start() {
  inverse_.assign(rows_ * rows_, 0.0);
  basis_.resize(rows_);
  logical_basic_.assign(first_pattern(), 0);
  for (Pattern& pattern : patterns_) pattern.basic = false;
  for (std::size_t row = 0; row < rows_; ++row) {
    inverse_[row * rows_ + row] = 1.0;
    basis_[row] = row < kinds_ ? row : row + kinds_;
    set_basic(basis_[row], true);
  }
  pivots_ = 0;
}

void PatternProgram::set_basic(std::size_t column, bool basic) {
  if (column < first_pattern()) {
    logical_basic_[column] = basic;
  } else {
    patterns_[column - first_pattern()].basic = basic;
  }
}

double PatternProgram::cost(std::size_t column) const {
  if (column < kinds_) return penalty_[column];
  if (column < first_pattern()) return 0.0;
  const Pattern& pattern = patterns_[column - first_pattern()];
  if (!pattern.banned) return goal_ == Goal::least_cost ? static_cast<double>(prices_[pattern.board]) : 0.0;
  double dear = 0.0;  // dearer than to leave its pieces out
  for (const Entry& entry : entries(column - first_pattern())) dear += 2.0 * entry.count * penalty_[entry.kind];
  return dear;
}

double PatternProgram::dot(const double* row, std::size_t stride, std::size_t column) const {
  if (column < kinds_) return row[column * stride];
  if (column < 2 * kinds_) return -row[(column - kinds_) * stride];
  if (column < first_pattern()) return row[(column - kinds_) * stride];
  const Pattern& pattern = patterns_[column - first_pattern()];
  double sum = row[(kinds_ + pattern.board) * stride];
  const Entry* entry = entries_.data() + pattern.begin;
  for (std::size_t i = 0; i < pattern.size; ++i) sum += entry[i].count * row[entry[i].kind * stride];
  return sum;
}

void PatternProgram::step_of(std::size_t column) {
  step_.assign(rows_, 0.0);
  const auto add = [&](std::size_t row, double times) {
    const double* from = inverse_.data() + row * rows_;
    for (std::size_t i = 0; i < rows_; ++i) step_[i] += times * from[i];
  };
  if (column < kinds_) return add(column, 1.0);
  if (column < 2 * kinds_) return add(column - kinds_, -1.0);
  if (column < first_pattern()) return add(column - kinds_, 1.0);
  add(kinds_ + patterns_[column - first_pattern()].board, 1.0);
  for (const Entry& entry : entries(column - first_pattern())) add(entry.kind, entry.count);
}

/// REQUIRES step_of(column). Brings the column into the basis in place of the one of that row.
void PatternProgram::pivot(std::size_t row, std::size_t column) {
  const double by = step_[row], reduced_cost = reduced(column);
  for (std::size_t c = 0; c < rows_; ++c) {
    double* in = inverse_.data() + c * rows_;
    if (in[row] == 0.0) continue;
    const double own = in[row] / by;
    for (std::size_t i = 0; i < rows_; ++i) in[i] -= step_[i] * own;
    in[row] = own;
    dual_[c] += reduced_cost * own;
  }
  const double times = amount_[row] / by;
  for (std::size_t i = 0; i < rows_; ++i) amount_[i] -= step_[i] * times;
  amount_[row] = times;
  set_basic(basis_[row], false);
  basis_[row] = column;
  set_basic(column, true);
  ++pivots_;
}

/// Counts the inverse afresh from the basis. RETURNS false when the basis has become singular.
bool PatternProgram::refactor() {
  const std::vector<std::size_t> columns = basis_;
  for (const std::size_t column : columns) set_basic(column, false);
  inverse_.assign(rows_ * rows_, 0.0);
  std::vector<char> taken(rows_, 0);
  for (std::size_t row = 0; row < rows_; ++row) inverse_[row * rows_ + row] = 1.0;
  for (const std::size_t column : columns) {
    step_of(column);
    std::size_t best = rows_;
    for (std::size_t row = 0; row < rows_; ++row) {
      if (!taken[row] && (best == rows_ || std::abs(step_[row]) > std::abs(step_[best]))) best = row;
    }
    if (std::abs(step_[best]) < kTiny) return false;
    taken[best] = 1;
    basis_[best] = column;
    set_basic(column, true);
    const double by = step_[best];
    for (std::size_t c = 0; c < rows_; ++c) {
      double* in = inverse_.data() + c * rows_;
      if (in[best] == 0.0) continue;
      const double own = in[best] / by;
      for (std::size_t i = 0; i < rows_; ++i) in[i] -= step_[i] * own;
      in[best] = own;
    }
  }
  pivots_ = 0;
  return true;
}

void PatternProgram::set_amounts() {
  amount_.assign(rows_, 0.0);
  for (std::size_t c = 0; c < rows_; ++c) {
    if (needed_[c] == 0.0) continue;
    const double* in = inverse_.data() + c * rows_;
    for (std::size_t i = 0; i < rows_; ++i) amount_[i] += needed_[c] * in[i];
  }
}

void PatternProgram::set_duals() {
  dual_.assign(rows_, 0.0);
  row_.resize(rows_);
  for (std::size_t i = 0; i < rows_; ++i) row_[i] = cost(basis_[i]);
  for (std::size_t c = 0; c < rows_; ++c) {
    const double* in = inverse_.data() + c * rows_;
    for (std::size_t i = 0; i < rows_; ++i) dual_[c] += row_[i] * in[i];
  }
}

/// Dual simplex over the patterns that are known. RETURNS false when it stalls.
bool PatternProgram::restore_amounts(Work& work) {
  for (std::size_t turns = 0; turns < 4 * rows_; ++turns) {
    std::size_t row = 0;
    for (std::size_t i = 1; i < rows_; ++i) {
      if (amount_[i] < amount_[row]) row = i;
    }
    if (amount_[row] > -kShort) return true;
    std::size_t enters = 0;
    double least = 0.0, pivot_by = 0.0;
    const std::size_t columns = first_pattern() + patterns_.size();
    for (std::size_t column = 0; column < columns; ++column) {
      if (is_basic(column)) continue;
      if (column >= first_pattern() && patterns_[column - first_pattern()].banned) continue;
      const double by = dot(inverse_.data() + row, rows_, column);
      if (by > -1e-7) continue;
      const double rc = reduced(column);
      if (rc < -kImprovement * dearest_) continue;
      const double ratio = std::max(rc, 0.0) / -by;
      if (pivot_by == 0.0 || ratio < least - 1e-12 || (ratio <= least + 1e-12 && by < pivot_by)) {
        least = ratio;
        pivot_by = by;
        enters = column;
      }
    }
    work.spend(columns * 6 + rows_ * rows_ / 2);
    if (pivot_by == 0.0) return false;
    step_of(enters);
    pivot(row, enters);
  }
  return false;
}

double PatternProgram::missing() const {
  double sum = 0.0;
  for (std::size_t i = 0; i < rows_; ++i) {
    if (basis_[i] < kinds_ || (basis_[i] >= first_pattern() && patterns_[basis_[i] - first_pattern()].banned)) {
      sum += std::max(amount_[i], 0.0);
    }
  }
  return sum;
}

/// Adds the patterns that the worths ask for. RETURNS whether one of them improves the cover.
bool PatternProgram::priced(bool& proven, Work& work) {
  proven = false;
  worth_.assign(kinds_, 0);
  if (!std::ranges::all_of(dual_, [](double dual) { return std::isfinite(dual); })) return false;
  double total = 0.0;
  for (std::size_t kind = 0; kind < kinds_; ++kind) total += std::max(dual_[kind], 0.0) * left_[kind];
  if (total < kTiny) return false;
  const double scale = kWorthScale / total;
  Worth need = 0;
  for (std::size_t kind = 0; kind < kinds_; ++kind) {
    worth_[kind] = static_cast<Worth>(std::clamp(dual_[kind] * scale, 0.0, kWorthScale));
    need += worth_[kind] * left_[kind];
  }
  // What each board is taken to be worth: a pattern that holds more improves the cover.
  targets_.clear();
  for (std::size_t i = 0; i < boards_.size(); ++i) {
    if (limits_[i] == 0) continue;
    const double price = goal_ == Goal::least_cost ? static_cast<double>(prices_[i]) : 0.0;
    const double taken = std::clamp((price - dual_[kinds_ + i]) * scale, 0.0, 1e12);
    targets_.push_back({boards_[i].capacity, static_cast<Worth>(taken)});
  }
  bool improves = false;
  const auto add = [&](std::size_t board) {
    Pattern pattern{.board = board, .begin = entries_.size()};
    for (std::size_t kind = 0; kind < kinds_; ++kind) {
      if (found_[kind] > 0) entries_.push_back({static_cast<std::uint32_t>(kind), found_[kind]});
    }
    pattern.size = entries_.size() - pattern.begin;
    patterns_.push_back(pattern);
    if (reduced(first_pattern() + patterns_.size() - 1) >= -kImprovement * dearest_) {
      entries_.resize(pattern.begin);
      patterns_.pop_back();
    } else {
      improves = true;
    }
  };
  quick_fill_.begin(pieces_, left_, worth_);
  for (std::size_t i = 0, target = 0; i < boards_.size(); ++i) {
    if (limits_[i] > 0 && quick_fill_.better_than(targets_[target++].worth, boards_[i], found_, work)) add(i);
  }
  if (improves) return true;
  sort_stably(targets_, {}, &BestFill::Target::capacity);
  if (!targets_.empty()) fill_.find_above(pieces_, left_, worth_, targets_, work);
  for (std::size_t i = 0; i < boards_.size() && !targets_.empty(); ++i) {
    if (limits_[i] == 0) continue;
    fill_.pieces_on(boards_[i], found_);
    add(i);
  }
  if (improves || missing() < kShort) return improves;
  fill_.find(pieces_, left_, worth_, largest_, work);
  Worth held = 0;
  for (std::size_t i = 0; i < boards_.size(); ++i) {
    if (limits_[i] > 0) held += fill_.most().on(boards_[i]) * limits_[i];
  }
  proven = held < need;
  return false;
}

PatternProgram::Answer PatternProgram::improve(Work& work) {
  for (;;) {
    if (work.done()) return Answer::gave_up;
    if (pivots_ > 100 + 2 * static_cast<int>(rows_)) {
      work.spend(rows_ * rows_ * rows_ / 2);
      if (!refactor()) start();
      set_amounts();
      set_duals();
      if (std::ranges::min(amount_) < -1e-5) {
        start();
        set_amounts();
        set_duals();
      }
    }
    if (goal_ == Goal::fewest_missing && missing() < kShort) return Answer::covered;
    double lowest = -kImprovement * dearest_;
    std::size_t enters = 0;
    bool found = false;
    const std::size_t columns = first_pattern() + patterns_.size();
    for (std::size_t column = 0; column < columns; ++column) {
      if (is_basic(column) || (column >= first_pattern() && patterns_[column - first_pattern()].banned)) continue;
      const double rc = reduced(column);
      if (rc >= lowest) continue;
      lowest = rc;
      enters = column;
      found = true;
    }
    work.spend(columns * 4 + rows_ * rows_ / 2);
    if (!found) {
      bool proven = false;
      if (priced(proven, work)) continue;
      if (!proven && goal_ == Goal::least_cost && missing() > kShort && penalty_.back() < 2.0 * dearest_) {
        for (double& penalty : penalty_) penalty *= kDearer;
        set_duals();
        continue;
      }
      return proven ? Answer::too_few_boards : Answer::covered;
    }
    step_of(enters);
    std::size_t leaves = rows_;
    double least = 0.0;
    for (std::size_t row = 0; row < rows_; ++row) {
      if (step_[row] < 1e-8) continue;
      const double ratio = std::max(amount_[row], 0.0) / step_[row];
      if (leaves == rows_ || ratio < least - 1e-10 || (ratio <= least + 1e-10 && step_[row] > step_[leaves])) {
        least = ratio;
        leaves = row;
      }
    }
    if (leaves == rows_) return Answer::gave_up;
    pivot(leaves, enters);
  }
}

PatternProgram::Answer PatternProgram::solve(const Counts& left, const Counts& boards, Goal goal, Work& work) {
  left_ = left;
  limits_ = boards;
  needed_.resize(rows_);
  for (std::size_t row = 0; row < rows_; ++row) needed_[row] = row < kinds_ ? left[row] : boards[row - kinds_];
  set_amounts();
  if (!dual_.empty() && !restore_amounts(work)) {
    start();
    set_amounts();
  }
  goal_ = goal;
  dearest_ = 1.0;
  if (goal == Goal::least_cost) {
    for (const BoardKind& board : boards_) dearest_ = std::max(dearest_, static_cast<double>(board.price));
  } else {
    dearest_ = static_cast<double>(largest_) / 2.0;  // what is missing is counted by its length
  }
  // A piece left out costs twice its length of a board. Where that is not enough, improve() makes it dearer, in the end
  // dearer than a whole board for it alone, so that none is left out unless boards run short.
  for (std::size_t kind = 0; kind < kinds_; ++kind) {
    penalty_[kind] = 2.0 * dearest_ / static_cast<double>(largest_) * static_cast<double>(pieces_.sizes[kind]);
  }
  for (std::size_t i = 0; i < patterns_.size(); ++i) {
    patterns_[i].banned = boards[patterns_[i].board] == 0;
    for (const Entry& entry : entries(i)) patterns_[i].banned = patterns_[i].banned || entry.count > left[entry.kind];
  }
  set_duals();
  return improve(work);
}

Proof PatternProgram::proof(Work& work) { return proof_by(pieces_, boards_, worth_, fill_, work); }

const std::vector<PatternProgram::Use>& PatternProgram::used() {
  used_.clear();
  for (std::size_t row = 0; row < rows_; ++row) {
    if (basis_[row] < first_pattern() || amount_[row] < kShort) continue;
    used_.push_back({basis_[row] - first_pattern(), amount_[row]});
  }
  sort_stably(
      used_, [](const Use& p, const Use& q) { return p.times != q.times ? p.times > q.times : p.pattern < q.pattern; });
  return used_;
}

Proof proof_by(const Pieces& pieces, const std::vector<BoardKind>& boards, std::vector<Worth> worth, BestFill& fill,
               Work& work) {
  Proof proof{.worth = std::move(worth)};
  Ticks largest = 0;
  for (const BoardKind& board : boards) largest = std::max(largest, board.capacity);
  fill.find(pieces, pieces.counts, proof.worth, largest, work);
  proof.held = fill.most();
  for (const BoardKind& board : boards) proof.most.push_back(proof.held.on(board));
  for (std::size_t kind = 0; kind < pieces.sizes.size(); ++kind) proof.need += proof.worth[kind] * pieces.counts[kind];
  return proof;
}

}  // namespace pitchboard
