#pragma once
// What the shell gets back: exit codes, results on standard output, problems on standard error.

#include <string>

#include "engine/base/problem.hpp"

namespace pitchboard {

constexpr int kDone = 0, kUnexpected = 1, kBadInput = 2, kImpossible = 3, kFails = 4;

/// Says on standard error what is wrong with `subject`, every problem with its remedy.
void complain(const std::string& subject, const Problems& problems);
/// RETURNS kUnexpected when standard output took not all of it (a full disk, a closed pipe).
[[nodiscard]] int print(const std::string& text);

}  // namespace pitchboard
