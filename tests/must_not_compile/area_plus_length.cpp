// An area and a length have no sum.
#include "engine/base/units.hpp"

using namespace pitchboard;

[[maybe_unused]] const auto right = inches(2.0) * inches(3.0) + inches(1.0) * inches(1.0);
#ifdef MIXED
[[maybe_unused]] const auto mixed = inches(2.0) * inches(3.0) + inches(1.0);
#endif
