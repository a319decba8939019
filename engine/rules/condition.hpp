#pragma once
// The conditions that rules hang on: "closed_risers and going < 11 in".
//
// GRAMMAR  condition = "" | term { " and " term };  term = name | name ("<" | "<=" | ">" | ">=") number [unit];
//          unit = "in" | "ft" | "mm".  A bare name holds when its fact is not zero.

#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace pitchboard {

enum class Truth { no, maybe, yes };

/// Something known about a stair; lengths in inches. No value: nobody knows.
struct Fact {
  std::string_view name;
  std::optional<double> value;
  double uncertainty = 0;
};
using Facts = std::vector<Fact>;

/// RETURNS every name that a condition may use; docs/rules.md says what each one means.
[[nodiscard]] std::span<const std::string_view> fact_names();
/// True when `when` follows the grammar and uses known names only.
[[nodiscard]] bool is_condition(std::string_view when);
/// RETURNS whether the condition holds; `maybe` where a fact is missing, or so uncertain that it could fall either way.
/// REQUIRES is_condition(when).
[[nodiscard]] Truth holds(std::string_view when, const Facts& facts);

/// RETURNS inches in one `unit`; empty for a unit that is no length.
[[nodiscard]] std::optional<double> inches_in(std::string_view unit);

}  // namespace pitchboard
