#pragma once
// Lengths as people write them on site, read and written.

#include <string>
#include <string_view>

#include "engine/base/problem.hpp"
#include "engine/base/units.hpp"

namespace pitchboard {

/// Reads `47 3/8 in`, `47-3/8"`, `3' 11-3/8"`, `3-11 3/8` (feet-inches), `3 ft 11 in`, `1203 mm`, `120.3 cm`, `1.2 m`.
/// ERRORS  ambiguous (`47`: no unit), negative, or unreadable text: one Problem without a place, saying what to write.
[[nodiscard]] Result<Length> read_length(std::string_view text);

enum class UnitSystem { imperial, metric };

/// RETURNS inches to the nearest 1/16 (`47 3/8"`) or millimetres (`1203 mm`), followed by ` strong` or ` shy` when the
/// exact value is more than 1/64 in above or below it (imperial only).
[[nodiscard]] std::string tape(Length length, UnitSystem system = UnitSystem::imperial);
/// The same without strong or shy, for drawings and tables.
[[nodiscard]] std::string tape_plain(Length length, UnitSystem system = UnitSystem::imperial);
/// RETURNS feet and inches for long lengths (`7'-3 1/2"`), metres to the millimetre for metric.
[[nodiscard]] std::string tape_feet(Length length, UnitSystem system = UnitSystem::imperial);
/// RETURNS text that `read_length` reads back to the very same bits: the shortest decimal of inches with ` in`.
[[nodiscard]] std::string exact_text(Length length);
/// RETURNS `$1,234.50`-less plain `1234.50`; the currency sign is the caller's.
[[nodiscard]] std::string money_text(Money money);

}  // namespace pitchboard
