// A bare number has no unit, so it adds to no length.
#include "engine/base/units.hpp"

using namespace pitchboard;

[[maybe_unused]] const auto right = inches(7.25) + inches(1.0);
#ifdef MIXED
[[maybe_unused]] const auto mixed = inches(7.25) + 1.0;
#endif
