// What the stringers hang on, seen from the ground: rim, hanger board, bolts and screws, each at its place.

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/catalog.hpp"
#include "engine/base/sort.hpp"
#include "engine/draw/dimension.hpp"
#include "engine/draw/parts.hpp"
#include "engine/draw/sheet_words.hpp"

namespace pitchboard {
namespace {

/// Rim shown past the outer stringers.
constexpr Length kRimBeyond = inches(6.0);
/// Room for the figures round the drawing.
constexpr double kLeftRoom = 64, kRightRoom = 100, kUpperRoom = 64, kLowerRoom = 72;

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
  std::string item;
  std::string_view reason;
  int count = 0;
  Length clearance, pilot;
};

std::vector<Group> grouped(const Frame& frame, const std::vector<const Fastener*>& fasteners) {
  std::vector<Group> out;
  for (const Fastener* fastener : fasteners) {
    auto group = std::ranges::find_if(
        out, [&](const Group& g) { return g.item == words_of(*fastener) && g.reason == fastener->reason; });
    if (group == out.end()) {
      out.push_back({words_of(*fastener), fastener->reason});
      group = out.end() - 1;
      for (const Hole& hole : holes(frame, *fastener))
        (hole.kind == HoleKind::clearance ? group->clearance : group->pilot) = hole.diameter;
    }
    ++group->count;
  }
  return out;
}

/// Ends of the stringers against the rim: left to right, bottom to top of the plumb cut.
struct Head {
  std::string mark;
  Interval across, up;
};

std::vector<Head> heads_of(const Frame& frame) {
  std::vector<Head> out;
  for (const Part& part : frame.parts) {
    if (part.kind != PartKind::stringer) continue;
    const Length at = extent_a(part.solid.outline).from + inches(0.01);
    const std::vector<Interval> cut = slice_at_a(part.solid.outline, at);
    if (!cut.empty()) out.push_back({part.mark, part.solid.span, {cut.front().from, cut.back().to}});
  }
  return out;
}

/// Sorts the places and drops those that are there already.
std::vector<Length> tidy(std::vector<Length> places) {
  sort_stably(places);
  const auto same = [](Length p, Length q) { return q - p < kSixteenth / 2.0; };
  places.erase(std::unique(places.begin(), places.end(), same), places.end());
  return places;
}

bool is_bolt(const Fastener& fastener) { return fastener.diameter > inches(0.3); }

void draw_wood(Canvas& canvas, const std::vector<const Part*>& boards, const std::vector<Head>& heads, const View& view,
               Interval across) {
  for (const Part* part : boards) {
    SheetPath path = look_of(*part, Axis::x);
    path.points = view.track(clip_a(seen_along(*part, Axis::x), across));
    canvas.add(std::move(path));
  }
  for (const Head& head : heads) {
    canvas.add({.points = view.track(rectangle(head.across, head.up)),
                .pen = Pen::medium,
                .closed = true,
                .hatch = Hatch::wood_end});
  }
}

void draw_fasteners(Canvas& canvas, const std::vector<const Fastener*>& fasteners, const View& view) {
  for (const Fastener* fastener : fasteners) {
    const SheetPoint at = view.at({fastener->head.y, fastener->head.z});
    if (is_bolt(*fastener)) canvas.circle(at, view.size(fastener->head_radius), Pen::thin, kPaperTint);
    canvas.circle(at, std::max(1.2, view.size(fastener->diameter) / 2), Pen::thin, kPaperTint);
    if (!is_bolt(*fastener)) continue;
    const double reach = view.size(fastener->head_radius) + 2;
    canvas.line({at.x - reach, at.y}, {at.x + reach, at.y});
    canvas.line({at.x, at.y - reach}, {at.x, at.y + reach});
  }
}

/// Running dimensions on all four sides: stringers above and right, bolts below, boards and bolts left.
void draw_figures(Canvas& canvas, const std::vector<const Part*>& boards, const std::vector<Head>& heads,
                  const std::vector<const Fastener*>& fasteners, const View& view, Interval across, Interval up,
                  UnitSystem units) {
  std::vector<Length> edges, ends, bolts_y, levels;
  for (const Head& head : heads) {
    edges.insert(edges.end(), {head.across.from, head.across.to});
    ends.insert(ends.end(), {head.up.from, head.up.to});
  }
  for (const Fastener* fastener : fasteners) {
    if (!is_bolt(*fastener)) continue;
    bolts_y.push_back(fastener->head.y);
    levels.push_back(fastener->head.z);
  }
  for (const Part* part : boards) {
    const Interval board = extent_b(seen_along(*part, Axis::x));
    levels.insert(levels.end(), {board.from, board.to});
  }
  const auto run = [&](Along along, double line, bool outward, double feature, const std::vector<Length>& places,
                       const char* what) {
    Running running{.along = along, .line = line, .outward_positive = outward};
    for (const Length place : tidy(places)) {
      running.at.push_back(along == Along::x ? view.x(place) : view.y(place));
      running.feature.push_back(feature);
      running.figures.push_back(what + tape_plain(along == Along::x ? place : -place, units));
    }
    draw_running(canvas, running);
  };
  run(Along::x, view.y(up.to) - 10, false, view.y(up.to), edges, "");
  run(Along::y, view.x(across.to) + 10, true, view.x(across.to), ends, "stringer ");
  run(Along::x, view.y(up.from) + 12, true, view.y(up.from), bolts_y, "");
  run(Along::y, view.x(across.from) - 10, false, view.x(across.from), levels, "");
}

std::vector<std::string> note_lines(const DrawInput& in, const std::vector<const Fastener*>& fasteners) {
  const UnitSystem units = in.job.about.units;
  const HeadBearing& head = in.frame.head;
  std::vector<std::string> lines{
      "Seen from the ground. Figures above and below count from the left face of the left stringer, figures at the "
      "sides from the deck "
      "surface down.",
      fmt::format("Plumb cut of the stringers {}; {} of it meets the rim, {} wanted{}",
                  tape_plain(head.plumb_cut, units), tape_plain(head.contact, units), tape_plain(head.needed, units),
                  head.hanger_board ? ": so a hanger board carries the rest." : ".")};
  for (const Group& group : grouped(in.frame, fasteners)) {
    std::string drill;
    if (group.clearance > Length()) drill += ", clearance hole " + drill_words(group.clearance, units);
    if (group.pilot > Length()) drill += ", pilot hole " + drill_words(group.pilot, units);
    lines.push_back(fmt::format("{} × {}{}: {}.", group.count, group.item, drill, group.reason));
  }
  lines.push_back(
      "Before you drill: look for wires, pipes and flashing behind the rim. Probe the wood; soft wood carries "
      "nothing.");
  return lines;
}

}  // namespace

Canvas draw_heads(const DrawInput& input, Paper paper) {
  const Frame& frame = input.frame;
  const UnitSystem units = input.job.about.units;
  Canvas canvas(frame.head.hanger_board ? "Hanger board, drill map" : "Stringer heads on the rim", "heads", paper,
                true);
  const Box& body = canvas.body();
  const Interval across{-kRimBeyond, input.job.stair.width + kRimBeyond};
  const std::vector<Head> heads = heads_of(frame);
  std::vector<const Part*> boards;
  Polygon corners;
  for (const Part& part : frame.parts) {
    if (part.mark != "rim" && part.kind != PartKind::hanger_board) continue;
    boards.push_back(&part);
    const Polygon seen = clip_a(seen_along(part, Axis::x), across);
    corners.insert(corners.end(), seen.begin(), seen.end());
  }
  for (const Head& head : heads)
    corners.insert(corners.end(), {{head.across.from, head.up.from}, {head.across.to, head.up.to}});
  const Interval up = extent_b(corners);
  const std::vector<const Fastener*> fasteners = through(frame);
  const std::vector<std::string> notes = note_lines(input, fasteners);
  const double room_x = body.width() - kLeftRoom - kRightRoom;
  const double room_y = body.height() - kUpperRoom - kLowerRoom - Canvas::note_height(body.width(), notes);
  const Scale scale = scale_to_fit(across.size(), up.size(), room_x, room_y, units);
  canvas.set_scale(scale.words);
  const double drawn_x = across.size().raw() * scale.points_per_inch;
  const View view(scale, {across.from, up.to}, {body.x0 + kLeftRoom + (room_x - drawn_x) / 2, body.y0 + kUpperRoom});
  draw_wood(canvas, boards, heads, view, across);
  draw_fasteners(canvas, fasteners, view);
  draw_figures(canvas, boards, heads, fasteners, view, across, up, units);
  for (const Head& head : heads) canvas.label({view.x(head.across.to), view.y(head.up.middle())}, head.mark, 8, true);
  canvas.note({body.x0, view.y(up.from) + kLowerRoom - 6}, body.width(), notes);
  return canvas;
}

}  // namespace pitchboard
