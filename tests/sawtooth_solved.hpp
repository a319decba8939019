#pragma once
// Stringers that are known to have a solution.

#include <gtest/gtest.h>

#include "tests/sawtooth_fixture.hpp"

namespace pitchboard {

inline SawtoothResult solved(const SawtoothModel& model) {
  const auto result = solve_sawtooth(model, mesh_sawtooth(model));
  EXPECT_TRUE(result);
  return result.value_or(SawtoothResult{});
}

}  // namespace pitchboard
