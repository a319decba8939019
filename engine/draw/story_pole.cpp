// The story pole at true height, in strips to be cut out and joined.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/draw/parts.hpp"

namespace pitchboard {
namespace {

constexpr double kStripWidth = 92, kStripPitch = 108, kTab = 14;
constexpr double kPointsPerInch = 72;

struct Mark {
  Length height;
  std::string name;
};

std::vector<Mark> marks_of(const Flight& flight) {
  std::vector<Mark> out{{Length(), "landing"}};
  for (std::size_t i = 0; i < flight.nosings.size(); ++i) {
    const Length height = flight.nosings[i].b - flight.landing.z;
    const bool deck = flight.nosings[i].b > -kTouch;
    out.push_back({height, deck ? "deck" : fmt::format("tread {}", i + 1)});
  }
  if (out.back().name != "deck") out.push_back({-flight.landing.z, "deck"});
  return out;
}

std::string joint_name(std::size_t number) {
  // A to Z, then AA and on: a pole of more than 26 strips is over 17 ft and still reads in order.
  std::string name(1, static_cast<char>('A' + number % 26));
  if (number >= 26) name.insert(0, 1, static_cast<char>('A' + number / 26 - 1));
  return name;
}

/// A bar of a known length, so that a page scaled by the printer is found out before it is cut up.
void draw_check_bar(Canvas& canvas, SheetPoint at, UnitSystem units) {
  const double length = units == UnitSystem::metric ? 100 / 25.4 * kPointsPerInch : 4 * kPointsPerInch;
  canvas.line(at, {at.x + length, at.y}, Pen::medium);
  for (int i = 0; i <= 4; ++i)
    canvas.line({at.x + length * i / 4, at.y - 4}, {at.x + length * i / 4, at.y + 4}, Pen::medium);
  canvas.text({.at = {at.x, at.y + 14},
               .text = units == UnitSystem::metric ? "this bar is 100 mm long" : "this bar is 4 in long",
               .size = kNoteText});
}

void draw_strip(Canvas& canvas, const std::vector<Mark>& marks, std::size_t number, std::size_t count, Length strip,
                double x, double foot, UnitSystem units) {
  const Length from = strip * static_cast<double>(number), top_mark = marks.back().height;
  const Length to = std::min(from + strip, top_mark);
  const auto y = [&](Length height) { return foot - (height - from).raw() * kPointsPerInch; };
  const double right = x + kStripWidth;
  canvas.add({.points = {{x, y(to)}, {right, y(to)}, {right, foot}, {x, foot}}, .pen = Pen::medium, .closed = true});
  if (number + 1 < count) {
    canvas.add({.points = {{x + 6, y(to)}, {x + 10, y(to) - kTab}, {right - 10, y(to) - kTab}, {right - 6, y(to)}},
                .hidden_line = true});
    canvas.text({.at = {x + kStripWidth / 2, y(to) - 4},
                 .text = "join " + joint_name(number),
                 .size = 7,
                 .anchor = Anchor::middle});
  }
  if (number > 0) {
    canvas.text({.at = {x + kStripWidth / 2, foot + 9},
                 .text = "on join " + joint_name(number - 1),
                 .size = 7,
                 .anchor = Anchor::middle});
  }
  const Length step = units == UnitSystem::metric ? millimetres(10) : inches(1);
  for (int i = static_cast<int>(std::ceil(from / step)); step * i <= to + kTouch; ++i) {
    const bool numbered = units == UnitSystem::imperial || i % 5 == 0;
    canvas.line({x, y(step * i)}, {x + (numbered ? 8 : 4), y(step * i)});
    const double base = y(step * i) + 2.4;
    if (numbered && base < foot - 1 && base - 6 > y(to)) {
      canvas.text({.at = {x + 10, base},
                   .text = std::to_string(units == UnitSystem::metric ? i * 10 : i),
                   .size = 6,
                   .mono = true});
    }
  }
  for (const Mark& mark : marks) {
    const bool last = number + 1 == count;
    if (mark.height < from - kTouch || (last ? mark.height > to + kTouch : mark.height > to - kTouch)) continue;
    const double at = y(mark.height);
    canvas.line({x + 26, at}, {right, at}, Pen::thick);
    // Over its line; under it where the strip ends too soon, but never on the words under the strip's foot: over the
    // last strip, which has no tab, the paper is blank.
    const bool over = at - 22 > y(to) || at + 22 > foot;
    canvas.text({.at = {right - 3, over ? at - 11.5 : at + 9}, .text = mark.name, .size = 7, .anchor = Anchor::end});
    canvas.text({.at = {right - 3, over ? at - 3 : at + 18.5},
                 .text = tape_plain(mark.height, units),
                 .size = 8,
                 .anchor = Anchor::end,
                 .bold = true});
  }
}

}  // namespace

std::vector<Canvas> draw_story_pole(const DrawInput& input, Paper paper) {
  const UnitSystem units = input.job.about.units;
  const std::vector<Mark> marks = marks_of(input.flight);
  const Length strip = units == UnitSystem::metric ? millimetres(200) : inches(8);
  const auto count = static_cast<std::size_t>(std::max(1.0, std::ceil(marks.back().height / strip - 1e-9)));
  std::vector<Canvas> pages;
  double x = 0;
  for (std::size_t number = 0; number < count; ++number) {
    if (pages.empty() || x + kStripWidth > pages.back().body().x1) {
      const std::size_t page = pages.size() + 1;
      pages.emplace_back(page == 1 ? "Story pole" : fmt::format("Story pole, page {}", page),
                         page == 1 ? "pole" : fmt::format("pole-{}", page), paper, false);
      Canvas& canvas = pages.back();
      canvas.set_scale("full size");
      x = canvas.body().x0;
      draw_check_bar(canvas, {x, canvas.body().y0 + 8}, units);
      canvas.note({x + 300, canvas.body().y0 - 2}, canvas.body().x1 - x - 300,
                  {"Print at 100 %. Cut out, join A to A, tape it to a straight stick. Its foot stands on the finished "
                   "landing, its head is level with the "
                   "deck. Lines: tops of the treads."},
                  7.5);
    }
    Canvas& canvas = pages.back();
    draw_strip(canvas, marks, number, count, strip, x, canvas.body().y1 - 12, units);
    x += kStripPitch;
  }
  return pages;
}

}  // namespace pitchboard
