// Cents are named, so that 5 is never taken for dollars.
#include "engine/base/units.hpp"

using namespace pitchboard;

[[maybe_unused]] const auto right = Money{500} + Money{5};
#ifdef MIXED
[[maybe_unused]] const auto mixed = Money{500} + 5;
#endif
