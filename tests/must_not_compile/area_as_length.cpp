// A product of lengths is no length.
#include "engine/base/units.hpp"

using namespace pitchboard;

[[maybe_unused]] const auto right = []() -> Area { return inches(2.0) * inches(3.0); }();
#ifdef MIXED
[[maybe_unused]] const auto mixed = []() -> Length { return inches(2.0) * inches(3.0); }();
#endif
