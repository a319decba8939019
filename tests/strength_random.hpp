#pragma once
// The same random numbers on every machine.

#include <cstddef>
#include <random>

struct Random {
  std::mt19937 engine{20250101};
  double between(double low, double high) {
    return low + (high - low) * (static_cast<double>(engine()) / 4294967296.0);
  }
  std::size_t one_of(std::size_t count) { return engine() % count; }
};
