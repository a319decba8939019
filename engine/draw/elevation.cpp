// The side view, seen from the left: everything in its place on the measured ground.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "engine/base/sort.hpp"
#include "engine/draw/dimension.hpp"
#include "engine/draw/parts.hpp"
#include "engine/draw/side_view.hpp"

namespace pitchboard {
namespace {

/// Room for what stands round the drawing: the pole and its figures, the lower chains, the notes on the right.
constexpr double kLeftRoom = 130, kLowerRoom = 74, kNotes = 132, kUpperRoom = 6, kPole = 74, kRightRoom = 92;
/// Readings this close on paper share a label.
constexpr double kOneLabel = 14;

std::string reading_name(Line line, std::size_t index) {
  return fmt::format("{}{}", line == Line::left ? 'L' : line == Line::right ? 'R' : 'M', index + 1);
}

void draw_readings(Canvas& canvas, const DrawInput& in, const View& view, const Extent& extent) {
  for (const GroundLine& line : in.site.lines()) {
    canvas.add({.points = view.track(ground_track(in, extent.x, line.across)), .dashed = line.line != Line::middle});
    for (const Reading& reading : line.readings) {
      if (reading.out <= extent.x.to) canvas.cross(view.at({reading.out, -reading.down}), 2.5);
    }
  }
  struct Group {
    SheetPoint at;
    std::string words;
  };
  std::vector<Group> groups;
  for (const GroundLine& line : in.site.lines()) {
    for (std::size_t i = 0; i < line.readings.size(); ++i) {
      if (line.readings[i].out > extent.x.to) continue;
      const SheetPoint at = view.at({line.readings[i].out, -line.readings[i].down});
      const auto near = std::ranges::find_if(groups, [&](const Group& g) {
        return std::abs(g.at.x - at.x) < kOneLabel && std::abs(g.at.y - at.y) < kOneLabel;
      });
      if (near == groups.end()) {
        groups.push_back({at, reading_name(line.line, i)});
      } else {
        near->words += " " + reading_name(line.line, i);
        near->at.y = std::min(near->at.y, at.y);
      }
    }
  }
  for (const Group& group : groups) canvas.label(group.at, group.words, 6.5, true, Toward::up);
}

/// Layers of a new landing, at its far end, and how deep the ground at the lowest nosing is dug for them.
void draw_layers(Canvas& canvas, const DrawInput& in, const View& view, const Extent& extent) {
  std::vector<const Part*> layers;
  for (const Part& part : in.frame.parts) {
    if (part.kind == PartKind::pad_layer) layers.push_back(&part);
  }
  if (layers.empty()) return;
  // Read where they end: a landing that falls away is lower there, its layers are as thick as everywhere.
  Length far = layers.front()->solid.outline.front().a;
  for (const Part* part : layers) far = std::max(far, extent_a(seen_along(*part, Axis::y)).to);
  struct Layer {
    Interval z;
    std::string name;
  };
  std::vector<Layer> stack;
  const auto slice_of = [](const Part& part, Length x) {
    const Polygon seen = seen_along(part, Axis::y);
    const Interval along = extent_a(seen);
    return slice_at_a(seen, std::clamp(x, along.from + kSixteenth, along.to - kSixteenth));
  };
  for (const Part* part : layers) {
    const std::vector<Interval> slice = slice_of(*part, far);
    if (!slice.empty()) stack.push_back({slice.back(), part->section.nominal});
  }
  sort_stably(stack, std::greater<>(), [](const Layer& layer) { return layer.z.to; });
  Chain chain{.along = Along::y, .line = view.x(extent.x.to) + 14};
  Running names{.along = Along::y, .line = chain.line + 2, .outward_positive = true};
  for (const Layer& layer : stack) {
    if (chain.at.empty()) {
      chain.at.push_back(view.y(layer.z.to));
      chain.feature.push_back(view.x(far));
    }
    chain.at.push_back(view.y(layer.z.from));
    chain.feature.push_back(view.x(far));
    chain.figures.emplace_back();
    names.at.push_back(view.y(layer.z.middle()));
    names.feature.push_back(chain.line - 2.5);
    names.figures.push_back(layer.name + " " + length_words(in, layer.z.size()));
  }
  draw_chain(canvas, chain);
  draw_running(canvas, names);
  const Length ground = in.site.ground(in.flight.run, in.job.stair.width / 2.0).z;
  Length bottom = ground;
  for (const Part* part : layers) {
    for (const Interval& slice : slice_of(*part, in.flight.run)) bottom = std::min(bottom, slice.from);
  }
  if (ground - bottom < kSixteenth) return;
  const double x = view.x(in.flight.run + inches(4.0));
  draw_dimension(canvas, Along::y, x, view.y(ground), view.y(bottom), x, x, "");
  canvas.label({x, view.y(bottom)}, "dig " + length_words(in, ground - bottom), kDimensionText);
}

/// The story pole at the left: a mark at each tread, its height over the landing, and the rise between.
void draw_pole(Canvas& canvas, const DrawInput& in, const View& view, double pole_x) {
  const Flight& flight = in.flight;
  std::vector<Length> heights{flight.landing.z};
  for (const Point nosing : flight.nosings) heights.push_back(nosing.b);
  if (heights.back() < -kTouch) heights.push_back(Length());
  Chain chain{.along = Along::y, .line = pole_x};
  Running running{.along = Along::y, .line = pole_x + 5, .outward_positive = true};
  for (std::size_t i = 0; i < heights.size(); ++i) {
    chain.at.push_back(view.y(heights[i]));
    chain.feature.push_back(pole_x + 2);
    if (i > 0) chain.figures.push_back(length_words(in, heights[i] - heights[i - 1]));
    running.at.push_back(view.y(heights[i]));
    running.feature.push_back(pole_x);
    running.figures.push_back(length_words(in, heights[i] - heights[0]));
  }
  canvas.add({.points = {{pole_x, chain.at.front()},
                         {pole_x + 5, chain.at.front()},
                         {pole_x + 5, chain.at.back()},
                         {pole_x, chain.at.back()}},
              .pen = Pen::medium,
              .closed = true,
              .tint = kCedarTint});
  draw_chain(canvas, chain);
  draw_running(canvas, running);
  draw_dimension(canvas, Along::y, canvas.body().x0 + 14, chain.at.front(), chain.at.back(), pole_x - 40, pole_x - 40,
                 length_words(in, heights.back() - heights.front()));
}

/// A zigzag over the end of something that goes on.
void draw_break(Canvas& canvas, SheetPoint from, SheetPoint to) {
  constexpr double kTooth = 4;
  SheetPath path{.pen = Pen::medium};
  for (const double share : {-0.2, 0.4, 0.45, 0.55, 0.6, 1.2}) {
    const double up = share == 0.45 ? -kTooth : share == 0.55 ? kTooth : 0;
    path.points.push_back({from.x + (to.x - from.x) * share, from.y + up});
  }
  canvas.add(std::move(path));
}

/// How deep each row of piers goes below the ground where that is lowest, and the beams' marks.
void draw_supports(Canvas& canvas, const DrawInput& in, const View& view) {
  std::vector<Length> dug;
  for (const Part& part : in.frame.parts) {
    const auto [x, y, z] = box(part.solid);
    if (part.kind == PartKind::support_beam) canvas.label(view.at({x.to, z.middle()}), part.mark, 6.5, true);
    // One row of piers is one place in this view.
    if (part.kind != PartKind::footing || std::ranges::find(dug, x.from) != dug.end()) continue;
    dug.push_back(x.from);
    Length low = z.to;
    for (const Length px : {x.from, x.to}) {
      for (const Length py : {y.from, y.to}) low = std::min(low, in.site.ground(px, py).z);
    }
    const Length shown = shown_pier(part).from;
    const bool broken = shown > z.from + kTouch;
    if (broken) draw_break(canvas, view.at({x.from, shown}), view.at({x.to, shown}));
    const double line = view.x(x.from) - 10;
    draw_dimension(canvas, Along::y, line, view.y(low), view.y(shown), view.x(x.from), view.x(x.from), "");
    canvas.label({line, view.y((low + shown) / 2.0)},
                 "pier " + length_words(in, low - z.from) + (broken ? " deep, drawn shorter" : " deep"), kDimensionText,
                 false, Toward::left);
  }
}

/// Cap over the nosing line, plumb at the lowest nosing under it; the dimension stands clear of the stair on the right.
void draw_rail_height(Canvas& canvas, const DrawInput& in, const View& view) {
  for (const Part& part : in.frame.parts) {
    if (part.kind != PartKind::cap) continue;
    for (const Point& nosing : in.flight.nosings) {
      const std::vector<Interval> slice = slice_at_a(part.solid.outline, nosing.a);
      if (slice.empty()) continue;
      const double x = view.x(nosing.a), line = view.x(extent_a(whole_extent(in.frame, Axis::y)).to) + 18;
      draw_dimension(canvas, Along::y, line, view.y(nosing.b), view.y(slice.back().to), x, x,
                     length_words(in, slice.back().to - nosing.b));
      return;
    }
  }
}

std::vector<std::string> note_lines(const DrawInput& in) {
  const Flight& flight = in.flight;
  std::vector<std::string> lines{
      fmt::format("{} risers of {}, going (run) {}.", flight.risers, tape(flight.unit_rise, in.job.about.units),
                  length_words(in, flight.going)),
      fmt::format("Slope {:.1f}°.", in_degrees(flight.slope)),
      "Seen from the left as you face the house. The pole counts from the landing.", "Readings, out / down:"};
  for (const GroundLine& line : in.site.lines()) {
    for (std::size_t i = 0; i < line.readings.size(); ++i) {
      const Reading& reading = line.readings[i];
      lines.push_back(fmt::format("{}  {} / {}", reading_name(line.line, i), length_words(in, reading.out),
                                  length_words(in, reading.down)));
    }
  }
  lines.push_back("L left, R right: broken lines. M middle.");
  for (const std::string& assumption : in.site.assumptions()) lines.push_back("Taken for granted: " + assumption + ".");
  return lines;
}

/// True when no part of the stair reaches into the upper right corner of that size.
bool corner_is_free(const DrawInput& in, const View& view, double left, double bottom) {
  return std::ranges::none_of(in.frame.parts, [&](const Part& part) {
    if (is_ground(part)) return false;
    const Polygon seen = seen_along(part, Axis::y);
    // The rail's height stands to the right of the stair, so it needs room as well.
    return view.x(extent_a(seen).to) + 34 > left && view.y(extent_b(seen).to) < bottom + 12;
  });
}

/// The view at the largest scale: over the whole width where the notes fit into the empty corner over the landing.
View placed(Canvas& canvas, const DrawInput& in, const Extent& extent, double notes_height) {
  const Box& body = canvas.body();
  const double below = kLowerRoom + (support_places(in).empty() ? 0 : kSupportRoom);
  const double room_y = body.height() - below - kUpperRoom;
  const auto view_within = [&](double room_x) {
    const Scale scale = scale_to_fit(extent.x.size(), extent.z.size(), room_x, room_y, in.job.about.units);
    const double drawn_y = extent.z.size().raw() * scale.points_per_inch;
    return View(scale, {extent.x.from, extent.z.to},
                {body.x0 + kLeftRoom, body.y0 + kUpperRoom + (room_y - drawn_y) / 2});
  };
  const View wide = view_within(body.width() - kLeftRoom - kRightRoom);
  const double left = body.x1 - kNotes, bottom = body.y0 + notes_height;
  return corner_is_free(in, wide, left, bottom)
             ? wide
             : view_within(body.width() - kLeftRoom - std::max(kNotes + 10, kRightRoom));
}

}  // namespace

Canvas draw_elevation(const DrawInput& input, Paper paper) {
  Canvas canvas("Side view", "elevation", paper, true);
  const Box& body = canvas.body();
  const Extent extent = extent_of(input);
  const std::vector<std::string> notes = note_lines(input);
  const View view = placed(canvas, input, extent, Canvas::note_height(kNotes, notes, kDimensionText));
  canvas.set_scale(view.words());
  canvas.note({body.x1 - kNotes, body.y0}, kNotes, notes, kDimensionText);
  draw_ground(canvas, input, view, extent);
  draw_parts(canvas, input, view, extent);
  const double bottom = view.y(extent.z.from);
  draw_pole(canvas, input, view, body.x0 + kPole);
  draw_level_dimensions(canvas, input, view, bottom + 18, bottom, false);
  draw_rail_height(canvas, input, view);
  draw_layers(canvas, input, view, extent);
  draw_supports(canvas, input, view);
  draw_room(canvas, input, view, extent);
  draw_readings(canvas, input, view, extent);
  return canvas;
}

}  // namespace pitchboard
