// A step to round to has a unit.
#include "engine/base/units.hpp"

using namespace pitchboard;

[[maybe_unused]] const auto right = [] { return round_to(inches(7.3), kSixteenth); }();
#ifdef MIXED
[[maybe_unused]] const auto mixed = [] { return round_to(inches(7.3), 0.0625); }();
#endif
