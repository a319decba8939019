#pragma once
// The clash test on the newest parts and fasteners alone: whether what was just put in fits. Internal to the frame.

#include <functional>

#include "engine/frame/frame.hpp"

namespace pitchboard {

/// RETURNS a test of what is put into the frame from now on: called, it tells whether that clashes with nothing and
/// none of it floats. REQUIRES that the frame outlives it, and that what stands in it now is left as it is.
[[nodiscard]] std::function<bool()> fit_test(const Frame& frame);

}  // namespace pitchboard
