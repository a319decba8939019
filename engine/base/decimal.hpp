#pragma once
// Decimal numbers as text.

#include <optional>
#include <string_view>

namespace pitchboard {

/// RETURNS the double nearest to the number that the text is: digits, at most one point, a minus before them.
/// No value for any other text, and for a number beyond the doubles. The same on every platform and in every locale.
[[nodiscard]] std::optional<double> decimal_in(std::string_view text);

}  // namespace pitchboard
