// An angle and a length cannot be compared.
#include "engine/base/units.hpp"

using namespace pitchboard;

[[maybe_unused]] const auto right = degrees(34.0) < degrees(35.0);
#ifdef MIXED
[[maybe_unused]] const auto mixed = degrees(34.0) < inches(35.0);
#endif
