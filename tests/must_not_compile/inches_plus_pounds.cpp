// A length and a force have no sum.
#include "engine/base/units.hpp"

using namespace pitchboard;

[[maybe_unused]] const auto right = inches(7.25) + inches(1.0);
#ifdef MIXED
[[maybe_unused]] const auto mixed = inches(7.25) + pounds(1.0);
#endif
