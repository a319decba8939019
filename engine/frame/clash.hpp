#pragma once
// The clash test on the newest parts and fasteners alone: whether what was just put in fits. Internal to the frame.

#include <memory>

#include "engine/frame/frame.hpp"

namespace pitchboard {

class Tester;

/// RETURNS whether two parts overlap, which neither is let into.
[[nodiscard]] bool overlap(const Part& p, const Part& q);

/// A test of what is put into a frame from now on, against what stands in it and against itself.
class FitTest {
 public:
  /// What is in the frame now stands. REQUIRES that the frame outlives the test.
  explicit FitTest(const Frame& frame);
  ~FitTest();
  /// The first so many parts and fasteners stand. REQUIRES that of these, those that stood before are as they were.
  void let_stand(std::size_t parts, std::size_t fasteners);
  /// RETURNS whether no newer part overlaps any other.
  [[nodiscard]] bool parts_fit();
  /// RETURNS whether newer fasteners and parts clash with nothing in any other way, and none of the parts floats.
  [[nodiscard]] bool fasteners_fit();

 private:
  std::unique_ptr<Tester> tester_;
};

}  // namespace pitchboard
