// One over a length is no quantity of this program.
#include "engine/base/units.hpp"

using namespace pitchboard;

[[maybe_unused]] const auto right = inches(2.0) / inches(3.0);
#ifdef MIXED
[[maybe_unused]] const auto mixed = 1.0 / inches(3.0);
#endif
