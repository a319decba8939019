#include "engine/base/tape.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <utility>

#include "engine/base/decimal.hpp"

namespace pitchboard {
namespace {

/// Longer than any distance that matters to a stair, and short enough that sixteenths are exact in a double.
constexpr Length kLongest = inches(1e6);
/// A reading further than this from the nearest sixteenth is called strong or shy. SOURCE common practice, no source.
constexpr Length kStrong = inches(1.0 / 64.0);
constexpr int kFinestDenominator = 64;
constexpr std::size_t kQuotedAtMost = 40;

// ---------------------------------------------------------------------------------------------------------- tokens

enum class Kind {
  whole,
  decimal,
  fraction,
  dash,
  foot,
  inch,
  metric,
  zero_denominator,
  improper,
  odd_denominator,
  unknown
};

struct Token {
  Kind kind = Kind::unknown;
  double value = 0;  ///< of a number; of a metric unit: its millimetres
};

/// What people and their keyboards put in place of plain marks, each with the plain form.
constexpr std::array<std::pair<std::string_view, std::string_view>, 20> kPlainForms{{
    {"\u2032", "'"},    {"\u2019", "'"},    {"\u2033", "\""},   {"\u201D", "\""},   {"''", "\""},
    {"\u00BD", " 1/2"}, {"\u00BC", " 1/4"}, {"\u00BE", " 3/4"}, {"\u215B", " 1/8"}, {"\u215C", " 3/8"},
    {"\u215D", " 5/8"}, {"\u215E", " 7/8"}, {"\u2044", "/"},    {"\u2212", "-"},    {"\u2013", "-"},
    {"\u2010", "-"},    {"\u2011", "-"},    {"\u00A0", " "},    {"\u202F", " "},    {"\t", " "},
}};

constexpr std::array<std::pair<std::string_view, Token>, 21> kUnits{{
    {"in", {Kind::inch}},
    {"inch", {Kind::inch}},
    {"inches", {Kind::inch}},
    {"ft", {Kind::foot}},
    {"foot", {Kind::foot}},
    {"feet", {Kind::foot}},
    {"mm", {Kind::metric, 1}},
    {"millimetre", {Kind::metric, 1}},
    {"millimetres", {Kind::metric, 1}},
    {"millimeter", {Kind::metric, 1}},
    {"millimeters", {Kind::metric, 1}},
    {"cm", {Kind::metric, 10}},
    {"centimetre", {Kind::metric, 10}},
    {"centimetres", {Kind::metric, 10}},
    {"centimeter", {Kind::metric, 10}},
    {"centimeters", {Kind::metric, 10}},
    {"m", {Kind::metric, 1000}},
    {"metre", {Kind::metric, 1000}},
    {"metres", {Kind::metric, 1000}},
    {"meter", {Kind::metric, 1000}},
    {"meters", {Kind::metric, 1000}},
}};

std::string plain_form(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    bool replaced = false;
    for (const auto& [fancy, plain] : kPlainForms) {
      if (!text.starts_with(fancy)) continue;
      out += plain;
      text.remove_prefix(fancy.size());
      replaced = true;
      break;
    }
    if (replaced) continue;
    const char c = text.front();
    out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    text.remove_prefix(1);
  }
  return out;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return c >= 'a' && c <= 'z'; }

/// RETURNS the nearest double to a run of digits with at most one point; infinity when there is none.
double number(const std::string& digits) { return decimal_in(digits).value_or(HUGE_VAL); }

std::string take_while(std::string_view& rest, bool (*wanted)(char)) {
  std::size_t size = 0;
  while (size < rest.size() && wanted(rest[size])) ++size;
  std::string out(rest.substr(0, size));
  rest.remove_prefix(size);
  return out;
}

Token fraction(double numerator, double denominator) {
  if (denominator == 0) return {Kind::zero_denominator};
  for (int on_tape = 2; on_tape <= kFinestDenominator; on_tape *= 2) {
    if (denominator != on_tape) continue;
    return {numerator < denominator ? Kind::fraction : Kind::improper, numerator / denominator};
  }
  return {Kind::odd_denominator};
}

Token numeric(Kind kind, double value) { return std::isfinite(value) ? Token{kind, value} : Token{}; }

Token take_number(std::string_view& rest) {
  std::string digits = take_while(rest, is_digit);
  if (rest.starts_with('.')) {
    rest.remove_prefix(1);
    const std::string decimals = take_while(rest, is_digit);
    if (digits.empty() && decimals.empty()) return {};
    return numeric(Kind::decimal, number((digits.empty() ? "0" : digits) + "." + (decimals.empty() ? "0" : decimals)));
  }
  if (rest.size() > 1 && rest[0] == '/' && is_digit(rest[1])) {
    rest.remove_prefix(1);
    return fraction(number(digits), number(take_while(rest, is_digit)));
  }
  return numeric(Kind::whole, number(digits));
}

Token take_unit(std::string_view& rest) {
  const std::string word = take_while(rest, is_letter);
  if (rest.starts_with('.')) rest.remove_prefix(1);  // "in."
  for (const auto& [name, token] : kUnits) {
    if (word == name) return token;
  }
  return {};
}

std::vector<Token> tokens_of(std::string_view rest) {
  std::vector<Token> out;
  while (!rest.empty()) {
    const char c = rest.front();
    if (is_digit(c) || c == '.') {
      out.push_back(take_number(rest));
    } else if (is_letter(c)) {
      out.push_back(take_unit(rest));
    } else {
      if (c == '-')
        out.push_back({Kind::dash});
      else if (c == '\'')
        out.push_back({Kind::foot});
      else if (c == '"')
        out.push_back({Kind::inch});
      else if (c != ' ')
        out.push_back({});
      rest.remove_prefix(1);
    }
  }
  return out;
}

// --------------------------------------------------------------------------------------------------------- reading

struct Amount {
  double value = 0;
  bool whole = false, with_fraction = false;
};

struct Cursor {
  const std::vector<Token>& tokens;
  std::size_t at = 0;

  [[nodiscard]] bool next_is(Kind kind, std::size_t ahead = 0) const {
    return at + ahead < tokens.size() && tokens[at + ahead].kind == kind;
  }
  [[nodiscard]] bool done() const { return at == tokens.size(); }
  bool take(Kind kind) {
    const bool found = next_is(kind);
    if (found) ++at;
    return found;
  }
  /// Takes `47`, `47.375`, `3/8`, `47 3/8` or `47-3/8`.
  std::optional<Amount> amount() {
    if (next_is(Kind::decimal)) return Amount{tokens[at++].value};
    if (next_is(Kind::fraction)) return Amount{tokens[at++].value, false, true};
    if (!next_is(Kind::whole)) return {};
    const double value = tokens[at++].value;
    const std::size_t dash = next_is(Kind::dash) ? 1 : 0;
    if (!next_is(Kind::fraction, dash)) return Amount{value, true};
    at += dash + 1;
    return Amount{value + tokens[at - 1].value, false, true};
  }
};

std::string quoted(std::string_view text) {
  std::size_t size = std::min(text.size(), kQuotedAtMost);
  while (size > 0 && size < text.size() && (static_cast<unsigned char>(text[size]) & 0xC0) == 0x80) --size;
  return fmt::format("'{}{}'", text.substr(0, size), size < text.size() ? "..." : "");
}

std::unexpected<Problems> refused(std::string wrong, std::string remedy) {
  return std::unexpected(Problems{{"", std::move(wrong), std::move(remedy)}});
}

/// RETURNS `47 3/8`, without a mark. REQUIRES parts >= 0 and a power of two below.
std::string fraction_text(std::int64_t parts, std::int64_t bottom) {
  const std::int64_t whole = parts / bottom;
  std::int64_t top = parts % bottom;
  if (top == 0) return fmt::format("{}", whole);
  while (top % 2 == 0) {
    top /= 2;
    bottom /= 2;
  }
  return whole == 0 ? fmt::format("{}/{}", top, bottom) : fmt::format("{} {}/{}", whole, top, bottom);
}

std::int64_t sixteenths_of(double magnitude) { return static_cast<std::int64_t>(std::llround(magnitude * 16.0)); }

Result<Length> within_limits(Length length, std::string_view text) {
  if (length <= kLongest) return length;
  return refused(fmt::format("{} is longer than any stair needs", quoted(text)),
                 "write a length under 15 miles (25 km)");
}

Result<Length> feet_and_inches(Amount whole_feet, Amount odd_inches, std::string_view text) {
  if (!whole_feet.whole) {
    return refused(fmt::format("{} has a part of a foot and inches as well", quoted(text)),
                   "write whole feet and inches, 3' 11-3/8\", or inches only, 47 3/8 in");
  }
  const Length sum = feet(whole_feet.value) + inches(odd_inches.value);
  if (odd_inches.value >= 12) {
    return refused(fmt::format("{} has 12 inches or more after the feet", quoted(text)),
                   sum <= kLongest ? fmt::format("write {} if that is what you mean", tape_feet(sum))
                                   : "write fewer than 12 inches after the feet");
  }
  return within_limits(sum, text);
}

std::unexpected<Problems> without_unit(Amount amount, std::string_view text) {
  std::string remedy = "add the unit: in, ft, mm, cm or m";
  if (amount.value <= in_inches(kLongest)) {
    remedy = amount.with_fraction
                 ? fmt::format("write {} in",
                               fraction_text(std::llround(amount.value * kFinestDenominator), kFinestDenominator))
                 : fmt::format("write {0} in or {0} mm", amount.value);
  }
  return refused(fmt::format("{} has no unit", quoted(text)), std::move(remedy));
}

std::unexpected<Problems> unreadable(const std::vector<Token>& tokens, std::string_view text) {
  for (const Token& token : tokens) {
    if (token.kind == Kind::zero_denominator) {
      return refused(fmt::format("{} has a fraction over zero", quoted(text)),
                     "write a fraction of an inch such as 3/8");
    }
    if (token.kind == Kind::improper) {
      return refused(fmt::format("{} has a fraction of one or more", quoted(text)),
                     "write the whole inches first, 1 1/4 in for 5/4 in");
    }
    if (token.kind == Kind::odd_denominator) {
      return refused(fmt::format("{} has a fraction that no tape has", quoted(text)),
                     "write halves, quarters, eighths, 16ths, 32nds or 64ths, or a decimal");
    }
  }
  if (text.find(',') != std::string_view::npos) {
    return refused(fmt::format("{} has a comma", quoted(text)),
                   "write decimals with a point, 1.2 m, and thousands without a mark");
  }
  return refused(fmt::format("{} is not a length", quoted(text)),
                 "write it like 47 3/8 in, 3' 11-3/8\", 1203 mm or 1.2 m");
}

std::string sign_of(Length length) { return length < Length() ? "-" : ""; }

}  // namespace

Result<Length> read_length(std::string_view text) {
  const std::vector<Token> tokens = tokens_of(plain_form(text));
  Cursor cursor{tokens};
  if (cursor.done()) return refused("there is no length here", "write it like 47 3/8 in or 1203 mm");
  if (cursor.next_is(Kind::dash)) {
    return refused(fmt::format("{} is negative", quoted(text)),
                   "write lengths without a sign: each is measured one way only");
  }
  const std::optional<Amount> first = cursor.amount();
  if (!first) return unreadable(tokens, text);
  if (cursor.done()) return without_unit(*first, text);
  if (cursor.take(Kind::inch)) {
    return cursor.done() ? within_limits(inches(first->value), text) : unreadable(tokens, text);
  }
  if (cursor.next_is(Kind::metric)) {
    const double unit = tokens[cursor.at++].value;
    if (!cursor.done()) return unreadable(tokens, text);
    if (first->with_fraction)
      return refused(fmt::format("{} mixes a fraction with a metric unit", quoted(text)), "write a decimal, 1.5 m");
    return within_limits(millimetres(first->value * unit), text);
  }
  if (cursor.take(Kind::foot)) {
    if (cursor.done()) return within_limits(feet(first->value), text);
    cursor.take(Kind::dash);
    const std::optional<Amount> odd_inches = cursor.amount();
    cursor.take(Kind::inch);
    return odd_inches && cursor.done() ? feet_and_inches(*first, *odd_inches, text) : unreadable(tokens, text);
  }
  if (cursor.take(Kind::dash)) {
    const std::optional<Amount> odd_inches = cursor.amount();
    const bool marked = cursor.take(Kind::inch);
    if (!odd_inches || !cursor.done()) return unreadable(tokens, text);
    if (marked || odd_inches->with_fraction) return feet_and_inches(*first, *odd_inches, text);
    return refused(fmt::format("{} could be feet and inches or a range", quoted(text)),
                   fmt::format("write {}' {}\" if you mean feet and inches", first->value, odd_inches->value));
  }
  return unreadable(tokens, text);
}

std::string tape_plain(Length length, UnitSystem system) {
  const Length magnitude = abs(length);
  if (system == UnitSystem::metric) {
    const long long rounded = std::llround(in_millimetres(magnitude));
    return fmt::format("{}{} mm", rounded == 0 ? "" : sign_of(length), rounded);
  }
  const std::int64_t sixteenths = sixteenths_of(in_inches(magnitude));
  return fmt::format("{}{}\"", sixteenths == 0 ? "" : sign_of(length), fraction_text(sixteenths, 16));
}

std::string tape(Length length, UnitSystem system) {
  std::string out = tape_plain(length, system);
  if (system == UnitSystem::metric) return out;
  const Length beyond = abs(length) - round_to(abs(length), kSixteenth);
  if (beyond > kStrong) out += " strong";
  if (beyond < -kStrong) out += " shy";
  return out;
}

std::string tape_feet(Length length, UnitSystem system) {
  const Length magnitude = abs(length);
  if (system == UnitSystem::metric) {
    const long long rounded = std::llround(in_millimetres(magnitude));
    return fmt::format("{}{}.{:03} m", rounded == 0 ? "" : sign_of(length), rounded / 1000, rounded % 1000);
  }
  const std::int64_t sixteenths = sixteenths_of(in_inches(magnitude));
  constexpr std::int64_t kFoot = 12 * 16;
  if (sixteenths < kFoot) return tape_plain(length);
  return fmt::format("{}{}'-{}\"", sign_of(length), sixteenths / kFoot, fraction_text(sixteenths % kFoot, 16));
}

std::string exact_text(Length length) {
  // The fewest decimals that read back as the same double; every double is exact with this many.
  constexpr int kEnough = 1074;
  const double value = in_inches(length);
  std::string digits = fmt::format("{:.0f}", value);
  for (int decimals = 1; decimals <= kEnough && decimal_in(digits) != value; ++decimals)
    digits = fmt::format("{:.{}f}", value, decimals);
  return digits + " in";
}

std::string money_text(Money money) {
  const std::uint64_t cents =
      money.cents < 0 ? 0 - static_cast<std::uint64_t>(money.cents) : static_cast<std::uint64_t>(money.cents);
  return fmt::format("{}{}.{:02}", money.cents < 0 ? "-" : "", cents / 100, cents % 100);
}

}  // namespace pitchboard
