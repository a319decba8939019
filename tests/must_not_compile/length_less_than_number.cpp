// A length and a bare number cannot be compared.
#include "engine/base/units.hpp"

using namespace pitchboard;

[[maybe_unused]] const auto right = inches(7.25) < inches(7.75);
#ifdef MIXED
[[maybe_unused]] const auto mixed = inches(7.25) < 7.75;
#endif
