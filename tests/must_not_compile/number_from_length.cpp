// A length turns into a number only by naming the unit.
#include "engine/base/units.hpp"

using namespace pitchboard;

[[maybe_unused]] const auto right = in_inches(inches(7.25));
#ifdef MIXED
[[maybe_unused]] const auto mixed = []() -> double { return inches(7.25); }();
#endif
