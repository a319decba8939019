#include <fmt/format.h>

#include <cmath>
#include <iterator>

#include "engine/draw/ink.hpp"
#include "engine/draw/sheet.hpp"

namespace pitchboard {
namespace {

/// A place to 1/100 point: far finer than a printer, and the same text on every platform.
std::string number(double v) {
  const double rounded = std::round(v * 100) / 100;
  std::string text = fmt::format("{:.2f}", rounded == 0 ? 0.0 : rounded);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        if (static_cast<unsigned char>(c) >= 0x20) out += c;
    }
  }
  return out;
}

std::string track(const std::vector<SheetPoint>& points, bool closed) {
  std::string out;
  for (std::size_t i = 0; i < points.size(); ++i) {
    out += fmt::format("{}{} {}", i == 0 ? "M" : "L", number(points[i].x), number(points[i].y));
  }
  return closed ? out + "Z" : out;
}

const char* pen_class(Pen pen) { return pen == Pen::thin ? "pb-n" : pen == Pen::medium ? "pb-m" : "pb-k"; }

void add_path(const SheetPath& path, std::string& out) {
  const auto put = std::back_inserter(out);
  if (!path.part.empty()) fmt::format_to(put, "<g data-part=\"{}\" data-step=\"{}\">\n", escaped(path.part), path.step);
  if (const std::string_view fill = fill_of(path); !fill.empty()) {
    fmt::format_to(put, "<path fill=\"{}\" d=\"{}\"/>\n", fill, track(path.points, true));
  }
  std::string hatch;
  for (const auto& stroke : hatch_strokes(path)) hatch += track(stroke, false);
  if (!hatch.empty()) fmt::format_to(put, "<path class=\"pb-n\" d=\"{}\"/>\n", hatch);
  if (path.stroked) {
    std::string dash;
    for (const double d : dashes(path)) dash += (dash.empty() ? "" : " ") + number(d);
    if (!dash.empty()) dash = fmt::format(" stroke-dasharray=\"{}\"", dash);
    fmt::format_to(put, "<path class=\"{}\"{} d=\"{}\"/>\n", pen_class(path.pen), dash,
                   track(path.points, path.closed));
  }
  if (!path.part.empty()) out += "</g>\n";
}

void add_text(const SheetText& text, std::string& out) {
  const char* anchor = text.anchor == Anchor::start ? "" : text.anchor == Anchor::middle ? " pb-c" : " pb-e";
  const std::string place = fmt::format("x=\"{}\" y=\"{}\"", number(text.at.x), number(text.at.y));
  const std::string turn =
      text.upwards ? fmt::format(" transform=\"rotate(-90 {} {})\"", number(text.at.x), number(text.at.y)) : "";
  const std::string input = text.input.empty() ? "" : fmt::format(" data-input=\"{}\"", escaped(text.input));
  fmt::format_to(std::back_inserter(out), "<text class=\"pb-t{}{}{}\" {}{}{} font-size=\"{}\">{}</text>\n", anchor,
                 text.bold ? " pb-b" : "", text.mono ? " pb-o" : "", place, turn, input, number(text.size),
                 escaped(text.text));
}

}  // namespace

std::string to_svg(const Sheet& sheet) {
  const std::string width = number(sheet.width), height = number(sheet.height);
  std::string out = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}pt\" height=\"{1}pt\" viewBox=\"0 0 {0} {1}\" "
      "role=\"img\">\n"
      "<title>{2}</title>\n"
      "<style>"
      ".pb-n,.pb-m,.pb-k{{fill:none;stroke:{3};stroke-linecap:round;stroke-linejoin:round}}"
      ".pb-n{{stroke-width:{4}}}.pb-m{{stroke-width:{5}}}.pb-k{{stroke-width:{6}}}"
      ".pb-t{{fill:{3};font-family:\"{7}\",\"DejaVu Sans\",sans-serif;font-kerning:none;white-space:pre}}"
      ".pb-o{{font-family:\"{8}\",\"DejaVu Sans Mono\",monospace}}"
      ".pb-b{{font-weight:bold}}.pb-c{{text-anchor:middle}}.pb-e{{text-anchor:end}}"
      "</style>\n"
      "<rect width=\"{0}\" height=\"{1}\" fill=\"#FFFFFF\"/>\n",
      width, height, escaped(sheet.title), kInk, number(pen_width(Pen::thin)), number(pen_width(Pen::medium)),
      number(pen_width(Pen::thick)), kFontFamily, kMonoFamily);
  for (const SheetPath& path : sheet.paths) add_path(path, out);
  for (const SheetText& text : sheet.texts) add_text(text, out);
  return out + "</svg>\n";
}

}  // namespace pitchboard
