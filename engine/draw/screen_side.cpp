// The side view as a screen shows it: on it readings are typed, and the flight appears.

#include <fmt/format.h>

#include <algorithm>

#include "engine/draw/dimension.hpp"
#include "engine/draw/side_view.hpp"
#include "engine/job/words.hpp"

namespace pitchboard {
namespace {

/// Room for the figures over the deck and under the ground, and beside the drawing.
constexpr double kOver = 34, kUnder = 62, kUnderReadings = 16, kBeside = 8;
constexpr double kRowOfFigures = kDimensionText * 1.7;
/// A figure of a reading is taller than print: it is touched.
constexpr double kReadingText = 9;

/// Writes the figure at the first of the places that is free, else at the first.
void write(Canvas& canvas, const std::string& key, SheetText text, const std::vector<SheetPoint>& places) {
  text.input = key;
  text.size = kReadingText;
  text.anchor = Anchor::middle;
  text.at = places.front();
  for (const SheetPoint place : places) {
    SheetText there = text;
    there.at = place;
    there.text = " " + text.text + " ";
    if (!canvas.is_free(there)) continue;
    text.at = place;
    break;
  }
  canvas.text_on_paper(std::move(text));
}

/// Every reading: how far out, over the level of the deck, and how far down, along its own line.
void draw_reading_dimensions(Canvas& canvas, const DrawInput& in, const View& view, const Extent& extent, Line which) {
  const auto line = std::ranges::find(in.job.ground.lines, which, &ReadingLine::line);
  if (line == in.job.ground.lines.end()) return;
  const double level = view.y(Length());
  canvas.add({.points = {{view.x(Length()), level}, {view.x(extent.x.to), level}}, .dashed = true});
  for (std::size_t i = 0; i < line->readings.size(); ++i) {
    const Reading& reading = line->readings[i];
    const std::string key = fmt::format("ground.{}[{}]", word(which), i);
    const double x = view.x(reading.out), foot = view.y(-reading.down);
    canvas.line({x, level}, {x, foot}, Pen::medium);
    canvas.cross({x, foot}, 3);
    canvas.cross({x, level}, 2);
    std::vector<SheetPoint> beside, over;
    for (const double share : {0.5, 0.3, 0.7, 0.15, 0.85}) beside.push_back({x, level + (foot - level) * share});
    for (int row = 1; row <= 3; ++row) over.push_back({x, level - 4 - (row - 1) * kRowOfFigures});
    write(canvas, key + ".down", {.text = length_words(in, reading.down)}, beside);
    write(canvas, key + ".out", {.text = length_words(in, reading.out)}, over);
  }
}

/// What is measured of the house, under its deck, and how wide the stair is to be.
void draw_house_figures(Canvas& canvas, const DrawInput& in, const View& view) {
  const Box& body = canvas.body();
  const std::pair<const char*, std::string> figures[] = {
      {"deck.board_thickness", "boards " + length_words(in, in.job.deck.board_thickness)},
      {"deck.overhang", "edge past rim " + length_words(in, in.job.deck.overhang)},
      {"deck.rim_size", "rim " + in.job.deck.rim_size},
      {"stair.width", "stair " + length_words(in, in.job.stair.width) + " wide"}};
  double y = view.y(extent_b(seen_along(in.frame.parts.front(), Axis::y)).from);
  for (const auto& [key, words] : figures) {
    y += kRowOfFigures;
    canvas.text_on_paper({.at = {body.x0 + 2, y}, .text = words, .size = kDimensionText, .input = key});
  }
}

}  // namespace

Sheet draw_screen_side(const DrawInput& input, const ScreenView& screen) {
  Canvas canvas("Side view", "side", screen.width, screen.height);
  const Extent extent = extent_of(input, screen.readings);
  const double under = screen.readings || input.flight.nosings.empty() ? kUnderReadings : kUnder;
  const double over = screen.readings ? kOver : kBeside;
  const double room_x = screen.width - 2 * kBeside, room_y = screen.height - over - under;
  const double scale =
      std::max(0.05, std::min(room_x / in_inches(extent.x.size()), room_y / in_inches(extent.z.size())));
  const double spare_x = room_x - in_inches(extent.x.size()) * scale;
  const View view({scale, "to fit"}, {extent.x.from, extent.z.to}, {kBeside + spare_x / 2, over});
  draw_ground(canvas, input, view, extent);
  draw_parts(canvas, input, view, extent);
  draw_room(canvas, input, view, extent);
  if (screen.readings) {
    draw_house_figures(canvas, input, view);
    draw_reading_dimensions(canvas, input, view, extent, screen.line);
  } else if (!input.flight.nosings.empty()) {
    const double bottom = view.y(extent.z.from);
    draw_level_dimensions(canvas, input, view, bottom + 14, bottom, true);
  }
  return std::move(canvas.sheet());
}

}  // namespace pitchboard
