// Not even an explicit conversion hides the unit.
#include "engine/base/units.hpp"

using namespace pitchboard;

[[maybe_unused]] const auto right = inches(7.25);
#ifdef MIXED
[[maybe_unused]] const auto mixed = Length(7.25);
#endif
