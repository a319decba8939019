#pragma once

namespace pitchboard {

/// How far to go over boards: `tidy` looks among equally cheap orders for the one that is best to buy and to keep.
enum class Effort { cost_only, tidy };

}  // namespace pitchboard
