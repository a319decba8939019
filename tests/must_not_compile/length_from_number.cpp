// A length is made by naming its unit.
#include "engine/base/units.hpp"

using namespace pitchboard;

[[maybe_unused]] const auto right = Length::from_raw(7.25);
#ifdef MIXED
[[maybe_unused]] const auto mixed = []() -> Length { return 7.25; }();
#endif
