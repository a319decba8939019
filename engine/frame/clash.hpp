#pragma once
// The clash test on the newest parts and fasteners alone: whether what was just put in fits. Internal to the frame.

#include <cstddef>
#include <vector>

#include "engine/frame/frame.hpp"

namespace pitchboard {

/// RETURNS every clash that a part from `first_part` on or a fastener from `first_fastener` on has a share in.
[[nodiscard]] std::vector<Clash> clashes_of_newest(const Frame& frame, std::size_t first_part,
                                                   std::size_t first_fastener);

}  // namespace pitchboard
