#include "engine/rules/condition.hpp"

#include <algorithm>
#include <array>

#include "engine/base/decimal.hpp"
#include "engine/base/units.hpp"

namespace pitchboard {
namespace {

constexpr std::array<std::string_view, 16> kFactNames{
    "risers",       "going",          "total_rise",      "drop",
    "width",        "handrail_sides", "salt_water",      "closed_risers",
    "open_risers",  "cut_stringers",  "solid_stringers", "round_handrail",
    "guard_needed", "guard",          "handrail",        "guard_or_handrail"};

struct Term {
  std::string_view name, compare;  ///< no compare: a bare name
  double limit = 0;
};

std::string_view next_word(std::string_view& text) {
  text.remove_prefix(std::min(text.find_first_not_of(' '), text.size()));
  const std::string_view word = text.substr(0, text.find(' '));
  text.remove_prefix(word.size());
  return word;
}

std::optional<Term> read_term(std::string_view text) {
  Term term;
  term.name = next_word(text);
  if (std::ranges::find(kFactNames, term.name) == kFactNames.end()) return std::nullopt;
  term.compare = next_word(text);
  if (term.compare.empty()) return term;
  if (term.compare != "<" && term.compare != "<=" && term.compare != ">" && term.compare != ">=") return std::nullopt;
  const std::string_view number = next_word(text), unit = next_word(text);
  const std::optional<double> limit = decimal_in(number);
  if (!limit || !next_word(text).empty()) return std::nullopt;
  term.limit = *limit;
  if (!unit.empty()) {
    const std::optional<double> scale = inches_in(unit);
    if (!scale) return std::nullopt;
    term.limit *= *scale;
  }
  return term;
}

/// Calls `each` with every term, until it returns false.
template <class Each>
void for_each_term(std::string_view when, Each each) {
  constexpr std::string_view kAnd = " and ";
  if (when.empty()) return;
  while (true) {
    const std::size_t end = when.find(kAnd);
    if (!each(read_term(when.substr(0, end))) || end == std::string_view::npos) return;
    when.remove_prefix(end + kAnd.size());
  }
}

Truth holds(const Term& term, const Facts& facts) {
  const auto fact = std::ranges::find(facts, term.name, &Fact::name);
  if (fact == facts.end() || !fact->value) return Truth::maybe;
  if (term.compare.empty()) return *fact->value != 0 ? Truth::yes : Truth::no;
  const bool below = term.compare.front() == '<', equal_counts = term.compare.size() == 2;
  // How far inside the condition the fact is; equal within a touch is equal.
  double inside = below ? term.limit - *fact->value : *fact->value - term.limit;
  if (std::abs(inside) <= kTouch.raw()) inside = 0;
  if (fact->uncertainty > 0 && std::abs(inside) <= fact->uncertainty) return Truth::maybe;
  return inside > 0 || (inside == 0 && equal_counts) ? Truth::yes : Truth::no;
}

}  // namespace

std::span<const std::string_view> fact_names() { return kFactNames; }

bool is_condition(std::string_view when) {
  bool good = true;
  for_each_term(when, [&](const std::optional<Term>& term) { return good = term.has_value(); });
  return good;
}

Truth holds(std::string_view when, const Facts& facts) {
  Truth all = Truth::yes;
  for_each_term(when, [&](const std::optional<Term>& term) {
    all = std::min(all, term ? holds(*term, facts) : Truth::no);
    return all != Truth::no;
  });
  return all;
}

std::optional<double> inches_in(std::string_view unit) {
  if (unit == "in") return 1.0;
  if (unit == "ft") return 12.0;
  if (unit == "mm") return 1.0 / kMillimetresPerInch;
  return std::nullopt;
}

}  // namespace pitchboard
