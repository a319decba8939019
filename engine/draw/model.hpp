#pragma once
// The stair as a 3-D model for any viewer: every part and fastener where it stands, and the ground that was read.

#include <string>

#include "engine/frame/frame.hpp"
#include "engine/measure/site.hpp"

namespace pitchboard {

/// RETURNS the model as binary glTF 2.0, one file that stands alone.
/// 1. The scene's nodes are groups: one for each kind of part, one of fasteners, the ground. Below them is one node for
///    each part and each fastener, named by its mark; `extras` say its kind, use, step and side, of a fastener its
///    kind, item, use and the marks of what it joins. A bolt's nut is a node of its own below the bolt's.
/// 2. Each part is a closed mesh whose faces look outwards.
/// 3. Equal frames and sites give equal bytes.
/// UNITS   metres, y up. glTF's x, y, z are the frame's y, z, x (base/geometry.hpp AXES): both are right-handed, and
///         who stands on the ground before the stair looks at the model's front, as glTF wants it.
/// SOURCE  Khronos Group, glTF 2.0 Specification (ISO/IEC 12113:2022).
[[nodiscard]] std::string to_glb(const Frame& frame, const Site& site);

}  // namespace pitchboard
