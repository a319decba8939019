#pragma once
// The clash test on the newest parts and fasteners alone: whether what was just put in fits. Internal to the frame.

#include <cstddef>

#include "engine/frame/frame.hpp"

namespace pitchboard {

/// RETURNS whether the parts from `first_part` on and the fasteners from `first_fastener` on clash with nothing, and
/// nothing of them floats.
[[nodiscard]] bool newest_fit(const Frame& frame, std::size_t first_part, std::size_t first_fastener);

}  // namespace pitchboard
