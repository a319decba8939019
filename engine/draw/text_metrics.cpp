#include "engine/draw/text_metrics.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <iterator>

#include "data/font_widths.hpp"

namespace pitchboard {
namespace {

/// What a character that the font lacks is taken to need: wider than any that it has.
constexpr int kUnknownWidth = 1000;
constexpr int kMonoWidth = 650;

/// Takes one UTF-8 character off the front. A stray byte counts as one character.
std::uint32_t take_character(std::string_view& text) {
  const auto byte = [&](std::size_t i) { return static_cast<std::uint32_t>(static_cast<unsigned char>(text[i])); };
  const std::uint32_t lead = byte(0);
  const std::size_t length = lead < 0xC0 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
  if (length == 1 || text.size() < length) {
    text.remove_prefix(1);
    return lead;
  }
  std::uint32_t code = lead & (0xFFU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) code = code << 6 | (byte(i) & 0x3FU);
  text.remove_prefix(length);
  return code;
}

int advance(std::uint32_t code, bool bold, bool mono) {
  const auto row = std::ranges::lower_bound(kGlyphs, static_cast<int>(code), {}, &GlyphRow::code);
  if (row == std::end(kGlyphs) || row->code != static_cast<int>(code)) return kUnknownWidth;
  return mono ? kMonoWidth : bold ? row->bold : row->regular;
}

/// Extent of a box along a direction.
std::pair<double, double> shadow(const std::array<SheetPoint, 4>& box, double dx, double dy) {
  double low = box[0].x * dx + box[0].y * dy, high = low;
  for (const SheetPoint p : box) {
    low = std::min(low, p.x * dx + p.y * dy);
    high = std::max(high, p.x * dx + p.y * dy);
  }
  return {low, high};
}

/// RETURNS how many bytes of `word` fit, at least one character.
std::size_t fitting_bytes(std::string_view word, double width, double size, bool bold, bool mono) {
  std::string_view rest = word;
  double used = 0;
  std::size_t bytes = 0;
  while (!rest.empty()) {
    used += advance(take_character(rest), bold, mono) * size / 1000;
    if (bytes > 0 && used > width) break;
    bytes = word.size() - rest.size();
  }
  return bytes;
}

/// RETURNS where the first word ends: at a space, but not at the one inside `10 1/4`.
std::size_t word_end(std::string_view text) {
  const auto is_digit = [&](std::size_t i) { return i < text.size() && text[i] >= '0' && text[i] <= '9'; };
  std::size_t space = text.find(' ');
  while (space != std::string_view::npos && space > 0 && is_digit(space - 1)) {
    std::size_t i = space + 1;
    while (is_digit(i)) ++i;
    if (i == space + 1 || i >= text.size() || text[i] != '/') break;
    space = text.find(' ', space + 1);
  }
  return space;
}

}  // namespace

double text_width(std::string_view text, double size, bool bold, bool mono) {
  int total = 0;
  while (!text.empty()) total += advance(take_character(text), bold, mono);
  return total * size / 1000;
}

double text_width(const SheetText& text) { return text_width(text.text, text.size, text.bold, text.mono); }

std::array<SheetPoint, 4> text_box(const SheetText& text) {
  const double width = text_width(text);
  const double start = text.anchor == Anchor::start ? 0 : text.anchor == Anchor::middle ? -width / 2 : -width;
  const auto place = [&](double along, double down) {
    return text.upwards ? SheetPoint{text.at.x + down, text.at.y - along}
                        : SheetPoint{text.at.x + along, text.at.y + down};
  };
  const double up = -kCapHeight * text.size, down = kTailDepth * text.size;
  return {place(start, up), place(start + width, up), place(start + width, down), place(start, down)};
}

bool boxes_overlap(const std::array<SheetPoint, 4>& p, const std::array<SheetPoint, 4>& q) {
  // Two convex shapes are apart when some side of either has them on different sides (separating axis theorem).
  constexpr double kTouching = 0.01;
  for (const auto* box : {&p, &q}) {
    for (std::size_t i = 0; i < 2; ++i) {
      const double dx = (*box)[i + 1].x - (*box)[i].x, dy = (*box)[i + 1].y - (*box)[i].y;
      const double length = std::sqrt(dx * dx + dy * dy);
      if (length <= 0) return false;
      const auto [p_low, p_high] = shadow(p, dx / length, dy / length);
      const auto [q_low, q_high] = shadow(q, dx / length, dy / length);
      if (p_high <= q_low + kTouching || q_high <= p_low + kTouching) return false;
    }
  }
  return true;
}

std::vector<std::string> wrapped(std::string_view text, double width, double size, bool bold, bool mono) {
  std::vector<std::string> lines;
  std::string line;
  const auto fits = [&](std::string_view s) { return text_width(s, size, bold, mono) <= width; };
  while (!text.empty()) {
    const std::size_t space = word_end(text);
    std::string word(text.substr(0, space));
    text.remove_prefix(space == std::string_view::npos ? text.size() : space + 1);
    if (word.empty()) continue;
    if (!line.empty() && fits(line + ' ' + word)) {
      line += ' ' + word;
      continue;
    }
    if (!line.empty()) lines.push_back(std::move(line));
    while (!fits(word)) {
      const std::size_t bytes = fitting_bytes(word, width, size, bold, mono);
      if (bytes == word.size()) break;
      lines.push_back(word.substr(0, bytes));
      word.erase(0, bytes);
    }
    line = std::move(word);
  }
  if (!line.empty() || lines.empty()) lines.push_back(std::move(line));
  return lines;
}

}  // namespace pitchboard
