// What the stringers hang on, seen from the ground: rim, hanger board, bolts and screws, each at its place.

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/catalog.hpp"
#include "engine/draw/dimension.hpp"
#include "engine/draw/parts.hpp"
#include "engine/draw/sheet_words.hpp"

namespace pitchboard {
namespace {

/// Rim shown past the outer stringers.
constexpr Length kRimBeyond = inches(6.0);

bool runs_inwards(const Fastener& fastener) { return fastener.direction.x < -0.9 || fastener.direction.x > 0.9; }

/// Fasteners through the rim or the hanger board, square to it.
std::vector<const Fastener*> through(const Frame& frame) {
  std::vector<const Fastener*> out;
  for (const Fastener& fastener : frame.fasteners) {
    const bool here = std::ranges::any_of(fastener.joins, [&](std::size_t part) {
      return frame.parts[part].kind == PartKind::hanger_board || frame.parts[part].mark == "rim";
    });
    if (here && runs_inwards(fastener)) out.push_back(&fastener);
  }
  return out;
}

std::string words_of(const Fastener& fastener) {
  const HardwareRow* row = find_hardware(fastener.item);
  return row ? std::string(row->words) : fastener.item;
}

struct Group {
  std::string item, reason;
  int count = 0;
  Length clearance, pilot;
};

std::vector<Group> grouped(const std::vector<const Fastener*>& fasteners) {
  std::vector<Group> out;
  for (const Fastener* fastener : fasteners) {
    auto group = std::ranges::find_if(
        out, [&](const Group& g) { return g.item == words_of(*fastener) && g.reason == fastener->reason; });
    if (group == out.end()) {
      out.push_back({words_of(*fastener), fastener->reason});
      group = out.end() - 1;
      for (const Hole& hole : fastener->holes)
        (hole.kind == HoleKind::clearance ? group->clearance : group->pilot) = hole.diameter;
    }
    ++group->count;
  }
  return out;
}

}  // namespace

Canvas draw_heads(const DrawInput& input, Paper paper) {
  const Frame& frame = input.frame;
  const UnitSystem units = input.job.about.units;
  Canvas canvas(frame.head.hanger_board ? "Hanger board, drill map" : "Stringer heads on the rim", "heads", paper,
                true);
  const Box& body = canvas.body();
  const Interval across{-kRimBeyond, input.job.stair.width + kRimBeyond};
  std::vector<const Part*> boards;
  Polygon corners;
  for (const Part& part : frame.parts) {
    if (part.mark == "rim" || part.kind == PartKind::hanger_board) {
      boards.push_back(&part);
      const Polygon seen = clip_a(seen_along(part, Axis::x), across);
      corners.insert(corners.end(), seen.begin(), seen.end());
    }
  }
  if (corners.empty()) return canvas;
  const Interval up = extent_b(corners);
  const double room_x = body.width() - 150, room_y = 170;
  const Scale scale = scale_to_fit(across.size(), up.size(), room_x, room_y, units);
  canvas.set_scale(scale.words);
  const double drawn_x = across.size().raw() * scale.points_per_inch;
  const View view(scale, {across.from, up.to}, {body.x0 + 80 + (room_x - drawn_x) / 2, body.y0 + 76});
  for (const Part* part : boards) {
    SheetPath path = look_of(*part, Axis::x);
    path.points = view.track(clip_a(seen_along(*part, Axis::x), across));
    canvas.add(std::move(path));
  }
  Running above{.along = Along::x, .line = view.y(up.to) - 10, .outward_positive = false};
  for (const Part& part : frame.parts) {
    if (part.kind != PartKind::stringer) continue;
    const Length head = extent_a(part.solid.outline).from;
    const std::vector<Interval> cut = slice_at_a(part.solid.outline, head + inches(0.01));
    if (cut.empty()) continue;
    canvas.add({.points = view.track(rectangle(part.solid.span, {cut.front().from, cut.back().to})),
                .pen = Pen::medium,
                .closed = true,
                .hatch = Hatch::wood_end});
    canvas.label({view.x(part.solid.span.middle()), view.y(std::min(cut.front().from, up.from))}, part.mark, 8, true);
    for (const Length edge : {part.solid.span.from, part.solid.span.to}) {
      above.at.push_back(view.x(edge));
      above.feature.push_back(view.y(up.to));
      above.figures.push_back(tape_plain(edge, units));
    }
  }
  draw_running(canvas, above);
  const std::vector<const Fastener*> fasteners = through(frame);
  std::vector<Length> ys, zs;
  for (const Fastener* fastener : fasteners) {
    const SheetPoint at = view.at({fastener->head.y, fastener->head.z});
    canvas.circle(at, std::max(1.2, view.size(fastener->diameter) / 2), Pen::thin, kPaperTint);
    if (fastener->nut_radius > Length()) {
      canvas.circle(at, view.size(fastener->head_radius));
      canvas.line({at.x - 5, at.y}, {at.x + 5, at.y});
      canvas.line({at.x, at.y - 5}, {at.x, at.y + 5});
    }
    const bool bolt = fastener->diameter > inches(0.3);
    if (!bolt) continue;
    ys.push_back(fastener->head.y);
    zs.push_back(fastener->head.z);
  }
  const auto tidy = [](std::vector<Length>& places) {
    std::ranges::sort(places);
    const auto same = [](Length p, Length q) { return q - p < kTouch; };
    places.erase(std::unique(places.begin(), places.end(), same), places.end());
  };
  tidy(ys);
  for (const Part* part : boards) {
    zs.push_back(extent_b(part->solid.outline).from);
    zs.push_back(extent_b(part->solid.outline).to);
  }
  tidy(zs);
  Length lowest = up.from;
  for (const Part& part : frame.parts) {
    if (part.kind == PartKind::stringer)
      lowest = std::min(lowest,
                        slice_at_a(part.solid.outline, extent_a(part.solid.outline).from + inches(0.01)).front().from);
  }
  const double floor = view.y(lowest);
  Running below{.along = Along::x, .line = floor + 26, .outward_positive = true};
  for (const Length y : ys) {
    below.at.push_back(view.x(y));
    below.feature.push_back(view.y(up.from));
    below.figures.push_back(tape_plain(y, units));
  }
  draw_running(canvas, below);
  Running beside{.along = Along::y, .line = view.x(across.from) - 10, .outward_positive = false};
  for (const Length z : zs) {
    beside.at.push_back(view.y(z));
    beside.feature.push_back(view.x(across.from));
    beside.figures.push_back(tape_plain(z, units));
  }
  draw_running(canvas, beside);
  std::vector<std::string> lines{
      "Seen from the ground. Figures across count from the left face of the left stringer; figures up and down from "
      "the deck surface.",
      fmt::format("Plumb cut of the stringers {}; {} of it meets the rim, {} wanted.",
                  tape_plain(frame.head.plumb_cut, units), tape_plain(frame.head.contact, units),
                  tape_plain(frame.head.needed, units))};
  for (const Group& group : grouped(fasteners)) {
    std::string drill;
    if (group.clearance > Length()) drill += ", clearance hole " + drill_words(group.clearance, units);
    if (group.pilot > Length()) drill += ", pilot hole " + drill_words(group.pilot, units);
    lines.push_back(fmt::format("{} x {}{}: {}.", group.count, group.item, drill, group.reason));
  }
  canvas.note({body.x0, floor + 84}, body.width(), lines);
  return canvas;
}

}  // namespace pitchboard
