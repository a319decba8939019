#pragma once
// What is wrong with a job, as values: every problem at once, each with its place and what would be right.

#include <expected>
#include <string>
#include <vector>

namespace pitchboard {

struct Problem {
  std::string place;   ///< where in the job file: "ground.left[2].down"
  std::string wrong;   ///< what is wrong, one sentence
  std::string remedy;  ///< what would be right, one sentence
  friend bool operator==(const Problem&, const Problem&) = default;
};
using Problems = std::vector<Problem>;

template <class T>
using Result = std::expected<T, Problems>;

}  // namespace pitchboard
