#pragma once
// The make-up of a tread: which boards, how deep, how thick.

#include <string>

#include "engine/job/job.hpp"

namespace pitchboard {

struct TreadBoards {
  std::string section;  ///< nominal; "custom" for boards the job measures itself
  Length thickness, width;
  int count = 1;
};
[[nodiscard]] TreadBoards tread_boards(const Stair& stair);
/// RETURNS boards and the gaps between them, front to back.
[[nodiscard]] Length tread_depth(const Stair& stair);
[[nodiscard]] Length tread_thickness(const Stair& stair);

}  // namespace pitchboard
