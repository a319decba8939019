#include "engine/cut/piece_worth.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace pitchboard {
namespace {

// The worth of all pieces together is scaled to about this whole number: fine enough that the bound is sharp to a small
// part of a cent, coarse enough that worth times cents stays far inside 64 bits.
constexpr double kWorthScale = 1e9;
// Columns dearer than this part of the dearest board are taken as not improving; the proof does not depend on it.
constexpr double kImprovement = 1e-9;
constexpr int kPivotLimit = 3000;

/// min sum(price x) with every piece covered, no board used more often than its limit, shortages allowed at `penalty`.
/// Revised simplex over the rows [pieces | boards] with an explicit inverse; patterns are priced by BestFill.
class Master {
 public:
  Master(const Pieces& pieces, const std::vector<BoardKind>& boards, const std::vector<double>& penalty)
      : pieces_(pieces), boards_(boards), kinds_(pieces.sizes.size()), rows_(kinds_ + boards.size()) {
    inverse_.assign(rows_, std::vector<double>(rows_, 0.0));
    for (std::size_t row = 0; row < rows_; ++row) {
      inverse_[row][row] = 1.0;
      amount_.push_back(row < kinds_ ? pieces.counts[row] : boards[row - kinds_].limit);
      cost_.push_back(row < kinds_ ? penalty[row] : 0.0);
    }
    for (const BoardKind& board : boards) {
      largest_ = std::max(largest_, board.capacity);
      dearest_ = std::max(dearest_, static_cast<double>(board.price));
    }
    for (const double p : penalty) dearest_ = std::max(dearest_, p);
  }

  /// RETURNS the worths at the optimum, or the first on the way that prove the limits too low.
  Proof solve() {
    for (int pivots = 0;; ++pivots) {
      const std::vector<double> dual = duals();
      double total = 0.0;
      for (std::size_t kind = 0; kind < kinds_; ++kind) total += std::max(dual[kind], 0.0) * pieces_.counts[kind];
      const double scale = total > 0.0 ? kWorthScale / total : 0.0;
      std::vector<Worth> worth;
      for (std::size_t kind = 0; kind < kinds_; ++kind) {
        worth.push_back(static_cast<Worth>(std::max(dual[kind], 0.0) * scale));
      }
      Proof proof = proof_by(pieces_, std::move(worth), largest_);
      Worth held = 0;
      for (const BoardKind& board : boards_) held += proof.fill.most(board.capacity) * board.limit;
      if (held < proof.need || pivots == kPivotLimit || !improve(dual, proof, scale)) return proof;
    }
  }

 private:
  [[nodiscard]] std::vector<double> duals() const {
    std::vector<double> dual(rows_, 0.0);
    for (std::size_t row = 0; row < rows_; ++row) {
      if (cost_[row] == 0.0) continue;
      for (std::size_t column = 0; column < rows_; ++column) dual[column] += cost_[row] * inverse_[row][column];
    }
    return dual;
  }

  /// Brings the column with the lowest reduced cost into the basis. RETURNS false when none improves.
  bool improve(const std::vector<double>& dual, const Proof& proof, double scale) {
    double lowest = -kImprovement * dearest_;
    std::vector<double> column(rows_, 0.0);
    double price = 0.0;
    bool found = false;
    for (std::size_t row = 0; row < rows_; ++row) {  // a surplus of a piece, or a board left at the yard
      const double reduced = row < kinds_ ? dual[row] : -dual[row];
      if (reduced >= lowest) continue;
      lowest = reduced;
      column.assign(rows_, 0.0);
      column[row] = row < kinds_ ? -1.0 : 1.0;
      found = true;
    }
    for (std::size_t i = 0; i < boards_.size(); ++i) {
      const double value = scale > 0.0 ? static_cast<double>(proof.fill.most(boards_[i].capacity)) / scale : 0.0;
      const double reduced = static_cast<double>(boards_[i].price) - dual[kinds_ + i] - value;
      if (reduced >= lowest) continue;
      lowest = reduced;
      column.assign(rows_, 0.0);
      const Counts pattern = proof.fill.pieces(boards_[i].capacity);
      for (std::size_t kind = 0; kind < kinds_; ++kind) column[kind] = pattern[kind];
      column[kinds_ + i] = 1.0;
      price = static_cast<double>(boards_[i].price);
      found = true;
    }
    return found && pivot(column, price);
  }

  bool pivot(const std::vector<double>& column, double price) {
    std::vector<double> step(rows_, 0.0);
    for (std::size_t row = 0; row < rows_; ++row) {
      for (std::size_t i = 0; i < rows_; ++i) step[row] += inverse_[row][i] * column[i];
    }
    std::size_t leaves = rows_;
    double least = 0.0;
    for (std::size_t row = 0; row < rows_; ++row) {
      if (step[row] < 1e-9) continue;
      const double ratio = amount_[row] / step[row];
      if (leaves == rows_ || ratio < least) {
        least = ratio;
        leaves = row;
      }
    }
    if (leaves == rows_) return false;
    const double by = step[leaves];
    for (double& v : inverse_[leaves]) v /= by;
    amount_[leaves] = least;
    cost_[leaves] = price;
    for (std::size_t row = 0; row < rows_; ++row) {
      if (row == leaves || step[row] == 0.0) continue;
      for (std::size_t i = 0; i < rows_; ++i) inverse_[row][i] -= step[row] * inverse_[leaves][i];
      amount_[row] = std::max(0.0, amount_[row] - step[row] * least);
    }
    return true;
  }

  const Pieces& pieces_;
  const std::vector<BoardKind>& boards_;
  std::size_t kinds_, rows_;
  std::vector<std::vector<double>> inverse_;
  std::vector<double> amount_, cost_;
  Ticks largest_ = 0;
  double dearest_ = 0.0;
};

}  // namespace

Proof proof_by(const Pieces& pieces, std::vector<Worth> worth, Ticks largest) {
  Worth need = 0;
  for (std::size_t kind = 0; kind < worth.size(); ++kind) need += worth[kind] * pieces.counts[kind];
  BestFill fill(pieces, worth, largest);
  return {std::move(worth), std::move(fill), need};
}

Proof cost_proof(const Pieces& pieces, const std::vector<BoardKind>& boards) {
  std::int64_t dearest = 1;
  for (const BoardKind& board : boards) dearest = std::max(dearest, board.price);
  // A piece left out costs more than a whole board for it alone, so none is left out unless boards run short.
  return Master(pieces, boards, std::vector<double>(pieces.sizes.size(), 2.0 * static_cast<double>(dearest))).solve();
}

std::optional<Proof> shortage_proof(const Pieces& pieces, const std::vector<BoardKind>& boards, const Counts& count) {
  std::vector<BoardKind> had = boards;
  for (std::size_t i = 0; i < had.size(); ++i) {
    had[i].price = 0;
    had[i].limit = count[i];
  }
  std::vector<double> penalty;
  for (const Ticks size : pieces.sizes) penalty.push_back(static_cast<double>(size));
  Proof proof = Master(pieces, had, penalty).solve();
  Worth held = 0;
  for (const BoardKind& board : had) held += proof.fill.most(board.capacity) * board.limit;
  if (held < proof.need) return proof;
  return std::nullopt;
}

}  // namespace pitchboard
