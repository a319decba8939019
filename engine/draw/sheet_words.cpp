#include "engine/draw/sheet_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numeric>
#include <tuple>

#include "engine/base/catalog.hpp"
#include "engine/base/sort.hpp"
#include "engine/cut/cut.hpp"

namespace pitchboard {
namespace {

/// A mark taken apart: "BRL2" is "BRL" and 2; marks that do not end in a number keep -1.
struct SplitMark {
  std::string letters;
  int number = -1;
};

SplitMark split(const std::string& mark) {
  const std::size_t last = mark.find_last_not_of("0123456789");
  const std::size_t digits = last == std::string::npos ? 0 : last + 1;
  if (digits == mark.size() || mark.size() - digits > 6) return {mark, -1};
  return {mark.substr(0, digits), std::atoi(mark.c_str() + digits)};
}

}  // namespace

std::string drill_words(Length diameter, UnitSystem units) {
  if (units == UnitSystem::metric) return fmt::format("{:.1f} mm", in_millimetres(diameter));
  constexpr long kParts = 64;
  const long parts = std::lround(in_inches(diameter) * kParts), whole = parts / kParts, rest = parts % kParts;
  if (rest == 0) return fmt::format("{}\"", whole);
  const long common = std::gcd(rest, kParts);
  const std::string fraction = fmt::format("{}/{}\"", rest / common, kParts / common);
  return whole == 0 ? fraction : fmt::format("{} {}", whole, fraction);
}

std::string mark_ranges(const std::vector<std::string>& marks) {
  std::string out;
  for (std::size_t i = 0; i < marks.size();) {
    const SplitMark first = split(marks[i]);
    std::size_t last = i;
    while (first.number >= 0 && last + 1 < marks.size()) {
      const SplitMark next = split(marks[last + 1]);
      if (next.letters != first.letters || next.number != first.number + static_cast<int>(last + 1 - i)) break;
      ++last;
    }
    if (!out.empty()) out += ", ";
    out += marks[i];
    if (last > i) out += (last == i + 1 ? ", " : "–") + marks[last];
    i = last + 1;
  }
  return out;
}

std::vector<std::string> sorted_marks(std::vector<std::string> marks) {
  // Letters, then the number, then what follows it: T2a stands before T10a.
  const auto key = [](const std::string& mark) {
    const std::size_t digit = std::min(mark.find_first_of("0123456789"), mark.size());
    const std::size_t end = std::min(mark.find_first_not_of("0123456789", digit), mark.size());
    return std::tuple(mark.substr(0, digit), end - digit, mark.substr(digit));
  };
  sort_stably(marks, {}, key);
  return marks;
}

std::string notch_words(const Part& part, UnitSystem units) {
  std::string out;
  for (const Notch& notch : notches(part)) {
    const std::string sides = notch.left && notch.right ? "left and right" : notch.left ? "left" : "right";
    const std::string place =
        notch.from_front < kTouch ? "at the front edge" : tape_plain(notch.from_front, units) + " from the front edge";
    out += fmt::format("{}notch {} × {}, {}, {}", out.empty() ? "" : "; ", tape_plain(notch.length, units),
                       tape_plain(notch.depth, units), place, sides);
  }
  return out;
}

std::string section_words(const std::string& nominal) {
  const SectionRow* section = find_section(nominal);
  return section ? std::string(section->words) : nominal;
}

std::string figure_words(std::optional<double> value, std::string_view unit, UnitSystem units) {
  if (!value) return "–";
  // Tape text has no words for what is finer than a tape.
  if (unit == "in" && *value != 0 && std::abs(*value) < 1.0 / 32) return fmt::format("{:.2f} in", *value);
  if (unit == "in") return tape(inches(*value), units);
  if (unit == "mm") return tape(millimetres(*value), units);
  if (unit == "deg") return fmt::format("{:.1f}°", *value);
  if (unit == "slope") return fmt::format("{:.1f} %", *value * 100);
  if (unit == "count" || unit == "none") return fmt::format("{:.0f}", *value);
  return fmt::format("{:.2f} {}", *value, unit);
}

std::string verdict_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::fail:
      return "fail";
    case Verdict::too_close:
      return "too close";
    case Verdict::warn:
      return "from memory";
    case Verdict::not_checked:
      return "not checked";
    case Verdict::pass:
      return "pass";
  }
  return "";
}

}  // namespace pitchboard
