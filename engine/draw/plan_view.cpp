// The view from above, the house at the top of the paper.

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/sort.hpp"
#include "engine/draw/dimension.hpp"
#include "engine/draw/parts.hpp"

namespace pitchboard {
namespace {

constexpr double kLeftRoom = 74, kRightRoom = 150, kUpperRoom = 40, kLowerRoom = 56, kNotes = 128;
constexpr Length kDeckShown = inches(12.0), kBeside = inches(8.0);
/// Something in the way is shown up to this far past the landing and the stair's sides.
constexpr Length kObstaclesShown = inches(24.0);

/// From above: y to the right, x down the paper.
Polygon from_above(const Polygon& seen) {
  Polygon out;
  for (const Point p : seen) out.push_back({p.b, -p.a});
  return out;
}

/// Parts lie over one another in this order; their own heights do not tell, since sloping boards reach over many steps.
int layer_of(const Part& part) {
  switch (part.kind) {
    case PartKind::pad_layer:
      return 0;
    case PartKind::existing:
      return part.mark == "deck" ? 5 : part.mark.starts_with("post") ? 6 : is_ground(part) ? 0 : 1;
    case PartKind::hanger_board:
    case PartKind::kicker:
    case PartKind::block:
    case PartKind::connector:
    case PartKind::footing:
    case PartKind::support_post:
    case PartKind::support_beam:
      return 1;
    case PartKind::stringer:
      return 2;
    case PartKind::riser:
      return 3;
    case PartKind::tread:
      return 4;
    case PartKind::post:
      return 6;
    case PartKind::top_rail:
    case PartKind::bottom_rail:
    case PartKind::baluster:
    case PartKind::handrail:
      return 7;
    case PartKind::cap:
      return 8;
  }
  return 0;
}

void draw_hidden_outline(Canvas& canvas, const View& view, const Polygon& shape) {
  canvas.add({.points = view.track(shape), .closed = true, .hidden_line = true});
}

void draw_parts(Canvas& canvas, const DrawInput& in, const View& view, Interval x, Interval y) {
  const auto seen = [&](const Part& part) {
    return clip_a(clip_b(from_above(seen_along(part, Axis::z)), {-x.to, -x.from}), y);
  };
  std::vector<const Part*> order;
  for (const Part& part : in.frame.parts) {
    // Layers under the landing would only repeat its outline.
    if (part.kind == PartKind::connector || part.kind == PartKind::footing ||
        (part.kind == PartKind::pad_layer && part.mark != "L1"))
      continue;
    order.push_back(&part);
  }
  sort_stably(order, {}, [](const Part* part) { return layer_of(*part); });
  for (const Part* part : order) {
    const Polygon shape = seen(*part);
    if (shape.size() < 3) continue;
    SheetPath path = look_of(*part, Axis::z);
    path.points = view.track(shape);
    canvas.add(std::move(path));
  }
  for (const Part& part : in.frame.parts) {
    if (part.kind == PartKind::stringer || part.kind == PartKind::hanger_board || part.kind == PartKind::kicker ||
        part.kind == PartKind::support_beam || part.kind == PartKind::support_post || part.kind == PartKind::footing ||
        part.mark.starts_with("TB") || part.mark == "rim") {
      const Polygon shape = seen(part);
      if (shape.size() >= 3) draw_hidden_outline(canvas, view, shape);
    }
  }
}

void draw_dimensions(Canvas& canvas, const DrawInput& in, const View& view, Interval x, Interval y) {
  const UnitSystem units = in.job.about.units;
  const Flight& flight = in.flight;
  // Goings down the left side, from the deck edge.
  Chain goings{.along = Along::y, .line = view.x(y.from) - 14};
  std::vector<Length> places{Length()};
  for (std::size_t i = flight.nosings.size(); i-- > 0;) {
    if (flight.nosings[i].a > kTouch) places.push_back(flight.nosings[i].a);
  }
  places.push_back(flight.landing.out.to);
  for (std::size_t i = 0; i < places.size(); ++i) {
    goings.at.push_back(view.y(-places[i]));
    goings.feature.push_back(view.x(y.from));
    if (i > 0) goings.figures.push_back(tape_plain(places[i] - places[i - 1], units));
  }
  draw_chain(canvas, goings);
  // Stringers across the foot, then the landing, then the clear width.
  const double foot = view.y(-x.to);
  Chain across{.along = Along::x, .line = foot + 16};
  std::vector<Length> middles;
  for (const Part& part : in.frame.parts) {
    if (part.kind == PartKind::stringer) middles.push_back(part.solid.span.middle());
  }
  sort_stably(middles);
  for (std::size_t i = 0; i < middles.size(); ++i) {
    across.at.push_back(view.x(middles[i]));
    across.feature.push_back(foot);
    if (i > 0) across.figures.push_back(tape_plain(middles[i] - middles[i - 1], units));
  }
  if (middles.size() > 1) draw_chain(canvas, across);
  const Interval landing = flight.landing.across;
  draw_dimension(canvas, Along::x, foot + 40, view.x(landing.from), view.x(landing.to), foot, foot,
                 tape_plain(landing.size(), units));
  const double head = view.y(-x.from);
  draw_dimension(canvas, Along::x, head - 14, view.x(Length()), view.x(in.job.stair.width), head, head,
                 tape_plain(in.job.stair.width, units));
}

void draw_walk_line(Canvas& canvas, const DrawInput& in, const View& view) {
  const Length middle = in.job.stair.width / 2.0;
  const SheetPoint foot = view.at({middle, -in.flight.run - inches(10.0)}), head = view.at({middle, inches(2.0)});
  canvas.arrow(foot, head, Pen::medium);
  SheetText up{.at = {foot.x + 4, foot.y - 2}, .text = "UP", .size = 9, .bold = true};
  canvas.text(up);
}

/// What the job says is in the way, and what is over the stair: outlined and named.
void draw_room(Canvas& canvas, const DrawInput& in, const View& view, Interval x, Interval y) {
  const auto outline = [&](Interval out, Interval across, const std::string& name) {
    const Polygon seen = clip_a(clip_b(rectangle(across, {-out.to, -out.from}), {-x.to, -x.from}), y);
    if (seen.size() < 3) return;
    canvas.add({.points = view.track(seen), .pen = Pen::medium, .closed = true, .dashed = true});
    canvas.label(view.at({extent_a(seen).to, extent_b(seen).middle()}), name, 7);
  };
  for (const Obstacle& obstacle : in.job.room.obstacles) outline(obstacle.out, obstacle.across, obstacle.name);
  for (const Overhead& overhead : in.job.room.overheads) outline(overhead.out, y, overhead.name + " (overhead)");
}

/// Treads are marked on themselves, posts outside the stair, stringers at their feet.
void write_marks(Canvas& canvas, const DrawInput& in, const View& view) {
  for (const Part& part : in.frame.parts) {
    const auto extents = box(part.solid);
    const bool left = part.side == Line::left;
    if (part.kind == PartKind::tread) {
      // Where no hidden line and no walk line runs under the mark: along the board first, then across it.
      std::vector<SheetText> places;
      for (const double down : {0.5, 0.35, 0.65, 0.25, 0.75}) {
        for (const double share : {0.28, 0.2, 0.24, 0.32, 0.36, 0.4, 0.16, 0.6, 0.64, 0.68, 0.72, 0.76}) {
          const SheetPoint at =
              view.at({extents[1].from + extents[1].size() * share, -(extents[0].from + extents[0].size() * down)});
          places.push_back(
              {.at = {at.x, at.y + 2.4}, .text = part.mark, .size = 6.5, .anchor = Anchor::middle, .mono = true});
        }
      }
      const auto clear = std::ranges::find_if(
          places, [&](const SheetText& text) { return canvas.is_free(text) && canvas.is_off_lines(text); });
      if (clear != places.end()) {
        canvas.text_on_paper(*clear);
      } else {
        canvas.label(view.at({extents[1].to, -extents[0].middle()}), part.mark, 6.5, true);
      }
    } else if (part.kind == PartKind::support_beam) {
      canvas.label(view.at({extents[1].from, -extents[0].middle()}), part.mark, 6.5, true, Toward::left);
    } else if (part.kind == PartKind::post) {
      const Length edge =
          left ? extents[1].from - in.job.rails.cap_overhang : extents[1].to + in.job.rails.cap_overhang;
      canvas.label(view.at({edge, -extents[0].middle()}), part.mark, 6.5, true, left ? Toward::left : Toward::right);
    } else if (part.kind == PartKind::stringer) {
      canvas.label(view.at({extents[1].middle(), -in.flight.run - inches(1.5)}), part.mark, 6.5, true);
    }
  }
}

std::vector<std::string> note_lines(const DrawInput& in, Interval x) {
  std::vector<std::string> lines{
      "Left and right as you face the house.",
      fmt::format("{} stringers, {} apart middle to middle.",
                  std::ranges::count(in.frame.parts, PartKind::stringer, &Part::kind),
                  tape_plain(in.frame.stringer_spacing, in.job.about.units)),
      fmt::format("Treads overhang the outer stringers by {} each side{}.",
                  tape_plain(in.job.stair.side_overhang, in.job.about.units),
                  std::ranges::any_of(in.frame.parts, [](const Part& part) { return !notches(part).empty(); })
                      ? ", and are notched round posts"
                      : ""),
      "Broken lines: parts under the treads and the deck."};
  for (const Obstacle& obstacle : in.job.room.obstacles) {
    if (obstacle.out.from < x.to && obstacle.out.to > x.from) continue;
    lines.push_back(fmt::format("Beyond this drawing: {}, {} to {} out from the deck.", obstacle.name,
                                tape_feet(obstacle.out.from, in.job.about.units),
                                tape_feet(obstacle.out.to, in.job.about.units)));
  }
  return lines;
}

}  // namespace

Canvas draw_plan_view(const DrawInput& input, Paper paper) {
  Canvas canvas("From above", "plan", paper, false);
  const Box& body = canvas.body();
  Interval x{-kDeckShown, input.flight.landing.out.to};
  Interval y{std::min(Length(), input.flight.landing.across.from) - kBeside,
             std::max(input.job.stair.width, input.flight.landing.across.to) + kBeside};
  for (const Part& part : input.frame.parts) {
    if (part.kind == PartKind::pad_layer) x.to = std::max(x.to, box(part.solid)[0].to);
  }
  for (const Obstacle& obstacle : input.job.room.obstacles) {
    if (obstacle.out.from > x.to + kObstaclesShown || obstacle.out.to < x.from) continue;
    x.to = std::max(x.to, std::min(obstacle.out.to, x.to + kObstaclesShown));
    y.from = std::min(y.from, std::max(obstacle.across.from, y.from - kObstaclesShown));
    y.to = std::max(y.to, std::min(obstacle.across.to, y.to + kObstaclesShown));
  }
  const double room_x = body.width() - kLeftRoom - kRightRoom, room_y = body.height() - kUpperRoom - kLowerRoom;
  const Scale scale = scale_to_fit(y.size(), x.size(), room_x, room_y, input.job.about.units);
  canvas.set_scale(scale.words);
  const View view(scale, {y.from, -x.from},
                  {body.x0 + kLeftRoom + (room_x - y.size().raw() * scale.points_per_inch) / 2, body.y0 + kUpperRoom});
  // Notes first: labels find their places round them.
  canvas.note({body.x1 - kNotes, body.y0 + kUpperRoom}, kNotes, note_lines(input, x));
  draw_parts(canvas, input, view, x, y);
  draw_dimensions(canvas, input, view, x, y);
  draw_walk_line(canvas, input, view);
  draw_room(canvas, input, view, x, y);
  const SheetPoint deck = view.at({(y.from + y.to) / 2.0, inches(5.0)});
  canvas.text({.at = deck, .text = "DECK", .size = 10, .anchor = Anchor::middle, .bold = true});
  canvas.text({.at = {deck.x, deck.y - 11}, .text = "house beyond", .size = 7, .anchor = Anchor::middle});
  const double side_y = view.y(-input.flight.landing.out.to) - 8;
  canvas.label({view.x(input.flight.landing.across.from), side_y}, "left", 9, false, Toward::left);
  canvas.label({view.x(input.flight.landing.across.to), side_y}, "right", 9);
  write_marks(canvas, input, view);
  return canvas;
}

}  // namespace pitchboard
