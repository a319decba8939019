#pragma once
// Writes a calculation down in the order a hand would, and hands each value on.

#include <string>
#include <vector>

#include "engine/strength/calculation.hpp"

namespace pitchboard {

class HandSheet {
 public:
  /// An input: it has no line before it.
  double given(Text symbol, Text words, double value, Text unit, Text source = "job and frame") {
    figures_.push_back({.symbol = std::move(symbol),
                        .words = std::move(words),
                        .value = value,
                        .unit = std::move(unit),
                        .from = "",
                        .source = std::move(source),
                        .from_memory = false});
    return value;
  }
  /// A result of the lines above it; `memory`: the clause has not been read again.
  double worked(Text symbol, Text words, double value, Text unit, Text from, Text source = "statics",
                bool memory = false) {
    figures_.push_back({.symbol = std::move(symbol),
                        .words = std::move(words),
                        .value = value,
                        .unit = std::move(unit),
                        .from = std::move(from),
                        .source = std::move(source),
                        .from_memory = memory});
    return value;
  }
  double put(Figure figure) {
    figures_.push_back(std::move(figure));
    return figures_.back().value;
  }
  /// RETURNS the value of the last of those lines: the adjusted one.
  double append(const std::vector<Figure>& figures) {
    figures_.insert(figures_.end(), figures.begin(), figures.end());
    return figures.empty() ? 0.0 : figures.back().value;
  }
  [[nodiscard]] const std::vector<Figure>& figures() const { return figures_; }

 private:
  std::vector<Figure> figures_;
};

}  // namespace pitchboard
