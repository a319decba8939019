#pragma once
// Every quantity that a rule may speak of: its kind, its words, and what changes it or who has to look.

#include <span>
#include <string_view>

namespace pitchboard {

enum class Kind { length, angle, slope, count, yes_no, load };

struct QuantityInfo {
  std::string_view name;
  Kind kind = Kind::length;
  std::string_view words;  ///< "riser height"
  std::string_view less;   ///< what makes it less; for yes/no: what makes it so
  std::string_view more;   ///< what makes it more
  std::string_view look;   ///< not measured: who has to look at what; empty where it is measured
};

[[nodiscard]] std::span<const QuantityInfo> quantities();
/// RETURNS the quantity, or nullptr when there is none of that name.
[[nodiscard]] const QuantityInfo* find_quantity(std::string_view name);

}  // namespace pitchboard
