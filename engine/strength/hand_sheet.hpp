#pragma once
// Writes a calculation down in the order a hand would, and hands each value on.

#include <algorithm>
#include <iterator>
#include <string>
#include <vector>

#include "engine/strength/calculation.hpp"

namespace pitchboard {

class HandSheet {
 public:
  /// `written`: false for a sheet that stays empty and only hands the values on.
  explicit HandSheet(bool written) : written_(written) {}
  HandSheet() = default;
  /// An input: it has no line before it.
  double given(Text symbol, Text words, double value, Text unit, Text source = "job and frame") {
    if (!written_) return value;
    return put({.symbol = std::move(symbol),
                .words = std::move(words),
                .value = value,
                .unit = std::move(unit),
                .from = "",
                .source = std::move(source),
                .from_memory = false});
  }
  /// A result of the lines above it; `memory`: the clause has not been read again.
  double worked(Text symbol, Text words, double value, Text unit, Text from, Text source = "statics",
                bool memory = false) {
    if (!written_) return value;
    return put({.symbol = std::move(symbol),
                .words = std::move(words),
                .value = value,
                .unit = std::move(unit),
                .from = std::move(from),
                .source = std::move(source),
                .from_memory = memory});
  }
  double put(Figure figure) {
    const double value = figure.value;
    if (written_) figures_.push_back(std::move(figure));
    return value;
  }
  /// RETURNS the value of the last of those lines: the adjusted one.
  double append(std::vector<Figure> figures) {
    const double value = figures.empty() ? 0.0 : figures.back().value;
    if (written_) std::ranges::move(figures, std::back_inserter(figures_));
    return value;
  }
  /// RETURNS words that are made up only where they are written down.
  [[nodiscard]] Text said(const auto& made) const { return written_ ? Text(made()) : Text(); }
  [[nodiscard]] bool written() const { return written_; }
  [[nodiscard]] const std::vector<Figure>& figures() const { return figures_; }
  [[nodiscard]] std::vector<Figure> take() && { return std::move(figures_); }

 private:
  bool written_ = true;
  std::vector<Figure> figures_;
};

}  // namespace pitchboard
