// A length has no degrees.
#include "engine/base/units.hpp"

using namespace pitchboard;

[[maybe_unused]] const auto right = in_degrees(degrees(3.0));
#ifdef MIXED
[[maybe_unused]] const auto mixed = in_degrees(inches(3.0));
#endif
