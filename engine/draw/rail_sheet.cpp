// Rails and balusters of one side, seen from outside the stair, with the marks along the rails.

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/sort.hpp"
#include "engine/draw/dimension.hpp"
#include "engine/draw/parts.hpp"
#include "engine/draw/sheet_words.hpp"

namespace pitchboard {
namespace {

constexpr double kLowerRoom = 44, kNotes = 150, kNoteSize = 7.5;

bool belongs(const Part& part, Line side) {
  const bool rail_kind =
      part.kind == PartKind::post || part.kind == PartKind::top_rail || part.kind == PartKind::bottom_rail ||
      part.kind == PartKind::cap || part.kind == PartKind::handrail || part.kind == PartKind::baluster ||
      part.kind == PartKind::footing || (part.kind == PartKind::existing && part.side != Line::middle);
  return rail_kind && part.side == side;
}

std::vector<const Part*> parts_of(const Frame& frame, Line side) {
  std::vector<const Part*> out;
  for (const Part& part : frame.parts) {
    if (belongs(part, side)) out.push_back(&part);
  }
  return out;
}

bool mirrored(const std::vector<const Part*>& left, const std::vector<const Part*>& right) {
  if (left.size() != right.size()) return false;
  for (std::size_t i = 0; i < left.size(); ++i) {
    const Polygon p = seen_along(*left[i], Axis::y), q = seen_along(*right[i], Axis::y);
    if (left[i]->kind != right[i]->kind || p.size() != q.size()) return false;
    for (std::size_t j = 0; j < p.size(); ++j) {
      if (distance(p[j], q[j]) > kSixteenth / 4.0) return false;
    }
  }
  return true;
}

/// From outside the right side the house is on the right: x runs to the left there.
Polygon from_outside(const Polygon& outline, bool flip) {
  Polygon out;
  for (const Point p : outline) out.push_back({flip ? -p.a : p.a, p.b});
  return out;
}

/// Balusters of one bay and the rail that they are marked on.
struct Bay {
  const Part* top = nullptr;
  const Part* bottom = nullptr;
  std::vector<const Part*> balusters;  ///< lowest first
};

std::vector<Bay> bays_of(const std::vector<const Part*>& parts) {
  std::vector<Bay> out;
  for (const Part* rail : parts) {
    if (rail->kind != PartKind::top_rail) continue;
    Bay bay{.top = rail};
    const Interval stretch = extent_a(rail->solid.outline);
    for (const Part* part : parts) {
      const Length middle = extent_a(part->solid.outline).middle();
      if (!stretch.contains(middle)) continue;
      if (part->kind == PartKind::bottom_rail) bay.bottom = part;
      if (part->kind == PartKind::baluster) bay.balusters.push_back(part);
    }
    sort_stably(bay.balusters, std::greater<>(), [](const Part* p) { return extent_a(p->solid.outline).to; });
    out.push_back(bay);
  }
  return out;
}

void draw_side(Canvas& canvas, const DrawInput& in, const std::vector<const Part*>& parts, const View& view,
               bool flip) {
  // The stringer stands behind, then posts, rails, balusters, cap, as they are built up from inside.
  const auto draw = [&](const Part& part, bool hidden) {
    SheetPath path = look_of(part, Axis::y);
    if (hidden) path = {.closed = true, .hidden_line = true};
    path.points = view.track(from_outside(seen_along(part, Axis::y), flip));
    canvas.add(std::move(path));
  };
  const Line side = flip ? Line::right : Line::left;
  const Part* stringer = nullptr;
  for (const Part& part : in.frame.parts) {
    if (part.kind == PartKind::stringer && (!stringer || side == Line::right)) stringer = &part;
  }
  if (stringer) draw(*stringer, true);
  for (const Part* part : parts) {
    if (part->kind == PartKind::footing) draw(*part, false);
  }
  for (const PartKind kind : {PartKind::existing, PartKind::post, PartKind::bottom_rail, PartKind::top_rail,
                              PartKind::baluster, PartKind::cap}) {
    for (const Part* part : parts) {
      if (part->kind == kind) draw(*part, false);
    }
  }
  // A handrail on the inner side is hidden from outside.
  for (const Part* part : parts) {
    if (part->kind == PartKind::handrail) draw(*part, true);
  }
  for (const Part* part : parts) {
    if (part->kind == PartKind::baluster) continue;
    const Polygon shape = seen_along(*part, Axis::y);
    const Interval x = extent_a(shape), z = extent_b(shape);
    const bool upright =
        part->kind == PartKind::post || part->kind == PartKind::existing || part->kind == PartKind::footing;
    const Length at = upright ? x.middle() : x.middle() + x.size() * (part->kind == PartKind::cap ? 0.22 : 0.05);
    const std::vector<Interval> slice = slice_at_a(shape, at);
    // A post in concrete is named where the eye looks for it: over its footing.
    const Part* footing = find_part(in.frame, footing_of(part->mark));
    const Length low = footing ? footing->solid.span.to : z.from;
    const Length height = upright ? low + inches(3.0) : slice.empty() ? z.middle() : slice.back().to;
    canvas.label(view.at({flip ? -at : at, height}), part->mark, 7, true);
  }
}

/// RETURNS the height of all bays' marks, written to that width.
double marks_height(const std::vector<Bay>& bays, double width) {
  double height = 0;
  for (const Bay& bay : bays) height += bay.balusters.empty() ? 0 : 20 + mark_grid_height(width, bay.balusters.size());
  return height;
}

/// RETURNS the y under the marks.
double write_bay(Canvas& canvas, const DrawInput& in, const Bay& bay, double y, double width) {
  const UnitSystem units = in.job.about.units;
  const Box& body = canvas.body();
  if (bay.balusters.empty() || !bay.bottom) return y;
  const Length low_end = extent_a(bay.bottom->solid.outline).to;
  const double cosine = bay.bottom->grain_a;
  std::vector<std::string> figures;
  for (const Part* baluster : bay.balusters) {
    figures.push_back(tape((low_end - extent_a(baluster->solid.outline).to) / cosine, units));
  }
  canvas.text({.at = {body.x0, y + 8},
               .text = fmt::format("{} and {}: from the lower end along the rail to the lower edge of each baluster",
                                   bay.bottom->mark, bay.top->mark),
               .size = kNoteText,
               .bold = true});
  return draw_mark_grid(canvas, {body.x0, y + 13}, width, figures) + 6;
}

std::vector<std::string> note_lines(const DrawInput& in, const std::vector<Bay>& bays,
                                    const std::vector<const Part*>& parts) {
  const UnitSystem units = in.job.about.units;
  std::vector<std::string> lines{
      fmt::format("Rails lie at {:.1f}° to the level; their plumb end cuts are {:.1f}° from square.",
                  in_degrees(in.flight.slope), in_degrees(in.flight.slope))};
  for (const Bay& bay : bays) {
    lines.push_back(fmt::format("{}: {} tip to tip.", bay.top->mark, tape(board_length(*bay.top), units)));
    if (bay.bottom)
      lines.push_back(fmt::format("{}: {} tip to tip.", bay.bottom->mark, tape(board_length(*bay.bottom), units)));
    if (bay.balusters.empty() || !bay.bottom) continue;
    const Length rail_end = extent_a(bay.bottom->solid.outline).to;
    const Length gap = rail_end - extent_a(bay.balusters.front()->solid.outline).to;
    lines.push_back(fmt::format("{} balusters of {}, level gap {}.", bay.balusters.size(),
                                tape(board_length(*bay.balusters.front()), units), tape(gap, units)));
  }
  for (const Part* part : parts) {
    if (part->kind == PartKind::cap || part->kind == PartKind::handrail || part->kind == PartKind::post) {
      lines.push_back(fmt::format("{}, {}: {}.", part->mark, kind_words(part->kind), tape(board_length(*part), units)));
    }
  }
  for (const Part* part : parts) {
    if (part->kind != PartKind::footing) continue;
    const Interval out = extent_a(part->solid.outline);
    lines.push_back(fmt::format("{}, {}: {} square, {} deep, its top under the landing's lowest layer.", part->mark,
                                part->use, tape(out.size(), units), tape(part->solid.span.size(), units)));
  }
  for (const Part& part : in.frame.parts) {
    if (part.section.nominal.starts_with("hold-down") &&
        part.mark.substr(2, 1) == (parts.front()->side == Line::left ? "L" : "R"))
      lines.push_back(fmt::format("{}, {}, on {}.", part.mark, part.use, "TB" + part.mark.substr(2)));
  }
  lines.push_back(
      "Clamp top and bottom rail together and mark both at once. Measure the posts as they stand before you cut a "
      "rail.");
  return lines;
}

Canvas draw_one(const DrawInput& in, const std::vector<const Part*>& parts, Line side, bool both, Paper paper) {
  const bool flip = side == Line::right;
  Canvas canvas(both ? "Rails, both sides" : "Rails, " + side_words(side) + " side",
                both ? "rails" : "rails-" + side_words(side), paper, true);
  const Box& body = canvas.body();
  const std::vector<Bay> bays = bays_of(parts);
  Polygon corners;
  for (const Part* part : parts) {
    const Polygon seen = from_outside(seen_along(*part, Axis::y), flip);
    corners.insert(corners.end(), seen.begin(), seen.end());
  }
  const Interval across = extent_a(corners), up = extent_b(corners);
  const std::vector<std::string> notes = note_lines(in, bays, parts);
  // The marks take the whole width, but where the notes reach down to them they keep out of the notes' column.
  const bool long_notes =
      Canvas::note_height(kNotes, notes, kNoteSize) > body.height() - marks_height(bays, body.width()) - 4;
  const double marks_width = long_notes ? body.width() - kNotes - 12 : body.width();
  const double grids = marks_height(bays, marks_width);
  const double room_x = body.width() - kNotes - 40, room_y = body.height() - kLowerRoom - grids - 4;
  const Scale scale = scale_to_fit(across.size(), up.size(), room_x, room_y, in.job.about.units);
  canvas.set_scale(scale.words);
  const double drawn_x = across.size().raw() * scale.points_per_inch;
  const View view(scale, {across.from, up.to}, {body.x0 + 20 + (room_x - drawn_x) / 2, body.y0 + 2});
  canvas.note({body.x1 - kNotes, body.y0}, kNotes, notes, kNoteSize);
  draw_side(canvas, in, parts, view, flip);
  // Posts and the clear distances between them, level.
  std::vector<Length> places;
  for (const Part* part : parts) {
    if (part->kind != PartKind::post && part->kind != PartKind::existing) continue;
    const Interval x = extent_a(from_outside(part->solid.outline, flip));
    places.push_back(x.from);
    places.push_back(x.to);
  }
  sort_stably(places);
  const double floor = view.y(up.from);
  Chain chain{.along = Along::x, .line = floor + 16};
  for (std::size_t i = 0; i < places.size(); ++i) {
    chain.at.push_back(view.x(places[i]));
    chain.feature.push_back(floor);
    if (i > 0) chain.figures.push_back(tape_plain(places[i] - places[i - 1], in.job.about.units));
  }
  draw_chain(canvas, chain);
  double y = body.y1 - grids;
  for (const Bay& bay : bays) y = write_bay(canvas, in, bay, y, marks_width);
  return canvas;
}

}  // namespace

std::vector<Canvas> draw_rails(const DrawInput& input, Paper paper) {
  const std::vector<const Part*> left = parts_of(input.frame, Line::left), right = parts_of(input.frame, Line::right);
  std::vector<Canvas> out;
  const bool both = !left.empty() && mirrored(left, right);
  if (!left.empty()) out.push_back(draw_one(input, left, Line::left, both, paper));
  if (!right.empty() && !both) out.push_back(draw_one(input, right, Line::right, false, paper));
  return out;
}

}  // namespace pitchboard
