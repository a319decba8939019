// One stringer laid flat, as it lies on the saw horses: crown up, foot to the right, all marks counted from one end.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/sort.hpp"
#include "engine/draw/dimension.hpp"
#include "engine/draw/parts.hpp"
#include "engine/draw/sheet_words.hpp"
#include "engine/draw/text_metrics.hpp"

namespace pitchboard {
namespace {

/// A corner this close to the board's edge lies on it.
constexpr Length kOnEdge = inches(0.02);
/// How many goings the details of foot and head show, and how high the foot's own corners reach.
constexpr double kDetailGoings = 1.55;
constexpr Length kFootCorners = inches(4.0);
/// Room over the board for its running figures.
constexpr double kHeadRoom = 112;

std::string degrees_words(Angle angle) { return fmt::format("{:.1f}°", in_degrees(angle)); }

/// Corners on the board's upper edge, from the foot up: where the steps are marked.
std::vector<Length> edge_corners(const Polygon& outline) {
  const Length top = extent_b(outline).to;
  std::vector<Length> out;
  for (const Point p : outline) {
    if (p.b > top - kOnEdge) out.push_back(p.a);
  }
  sort_stably(out, std::greater<>());
  return out;
}

void draw_board(Canvas& canvas, const Part& part, const Polygon& outline, const View& view) {
  const Interval length = extent_a(outline);
  // The board it is cut from, behind it, broken.
  canvas.add(
      {.points = view.track(rectangle(length, {Length(), part.section.width})), .closed = true, .hidden_line = true});
  SheetPath path{.points = view.track(outline), .pen = Pen::thick, .closed = true, .tint = kCedarTint};
  canvas.add(std::move(path));
}

void draw_marks(Canvas& canvas, const DrawInput& in, const Part& part, const Polygon& outline, const View& view) {
  const UnitSystem units = in.job.about.units;
  const Interval length = extent_a(outline);
  const std::vector<Length> corners = edge_corners(outline);
  const double edge = view.y(part.section.width);
  Running upper{.along = Along::x, .line = edge - 14, .outward_positive = false};
  for (const Length corner : corners) {
    upper.at.push_back(view.x(corner));
    upper.feature.push_back(edge);
    upper.figures.push_back(tape(length.to - corner, units));
  }
  draw_running(canvas, upper);
  // Corners of the lower edge and the foot's notch, from the same end.
  Running lower{.along = Along::x, .line = view.y(Length()) + 14, .outward_positive = true};
  std::vector<Length> places;
  for (const Point p : outline) {
    const bool inner_notch = p.a > length.to - inches(20.0) && p.b < part.section.width / 2.0;
    if (p.b < kOnEdge || inner_notch) places.push_back(p.a);
  }
  places.push_back(length.from);
  places.push_back(length.to);
  sort_stably(places);
  for (const Length p : places) {
    if (!lower.at.empty() && view.x(p) - lower.at.back() < 0.5) continue;
    lower.at.push_back(view.x(p));
    lower.feature.push_back(view.y(Length()));
    lower.figures.push_back(tape_plain(length.to - p, units));
  }
  draw_running(canvas, lower);
}

/// Least wood between a notch and the lower edge, drawn where the third inner corner is, or the only one.
void draw_throat(Canvas& canvas, const DrawInput& in, const Part& part, const Polygon& outline, const View& view) {
  std::vector<Point> inner;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point before = outline[(i + outline.size() - 1) % outline.size()], p = outline[i],
                after = outline[(i + 1) % outline.size()];
    // Under a notch there is wood; under a corner of the foot there is none.
    const bool notch = p.b < before.b - kOnEdge && p.b < after.b - kOnEdge && p.b < part.section.width - inches(1.0);
    if (notch && contains(outline, {p.a, p.b - kOnEdge})) inner.push_back(p);
  }
  if (inner.empty()) return;
  const Point at = inner[inner.size() / 2];
  const double x = view.x(at.a);
  draw_dimension(canvas, Along::y, x, view.y(at.b), view.y(Length()), x, x, "");
  canvas.label({x, (view.y(at.b) + view.y(Length())) / 2}, "throat " + tape_plain(in.frame.throat, in.job.about.units),
               kDimensionText);
}

/// Which edge is up on the horses, in the sheet's upper right corner.
void draw_crown(Canvas& canvas) {
  const SheetText words{.at = {canvas.body().x1, canvas.body().y0 + 9},
                        .text = "crown up; figures count from the foot, on the right",
                        .size = 8,
                        .anchor = Anchor::end};
  const double x = words.at.x - text_width(words) - 7;
  canvas.text(words);
  canvas.arrow({x, words.at.y + 5}, {x, words.at.y - 10}, Pen::medium);
}

std::vector<std::string> card_lines(const StringerCard& card, UnitSystem units) {
  const auto words = [&](Length length) { return tape(length, units); };
  return {fmt::format("Framing square: {} on the tongue (rise), {} on the body (going).", words(card.square_tongue),
                      words(card.square_body)),
          fmt::format("One step along the edge {}. First to last mark {}: measure it before you cut.",
                      words(card.step_length), words(card.overall)),
          fmt::format("Lowest riser cut {} plumb: the foot is dropped by {}.", words(card.first_riser_cut),
                      words(card.drop)),
          fmt::format("Highest tread cut {} level. Plumb cut at the head {}; level cut at the foot {}.",
                      words(card.top_going_cut), words(card.plumb_cut), words(card.foot_cut)),
          fmt::format("Level cuts {} from the board's edge, plumb cuts {}. Throat {}.", degrees_words(card.slope),
                      degrees_words(degrees(90.0) - card.slope), words(card.throat)),
          "Hook the tape once, at the end the figures count from, and mark every step before you move it. Stop each "
          "saw cut at the mark and "
          "finish the corner by hand: an overcut takes from the throat."};
}

/// What is left to do to a stringer that the yard has cut: where the outline differs from what is bought.
std::vector<std::string> ready_cut_lines(const DrawInput& in, const Part& part, const StringerCard& card) {
  const UnitSystem units = in.job.about.units;
  const auto words = [&](Length length) { return tape_plain(length, units); };
  const ReadyCut& bought = in.job.yard.ready_cut[*in.flight.ready_cut];
  std::vector<std::string> lines{
      fmt::format("Bought as {}: {} risers of {}, going {}, foot {}. Measure one before you start.", bought.name,
                  bought.risers, words(bought.unit_rise), words(bought.unit_going),
                  bought.dropped ? "shortened by " + words(bought.dropped_by) : "not shortened")};
  int number = 0;
  const auto task = [&](const std::string& text) { lines.push_back(fmt::format("{}. {}", ++number, text)); };
  const Length as_bought = bought.unit_rise - (bought.dropped ? bought.dropped_by : Length());
  const Length trim = as_bought - card.first_riser_cut;
  if (trim > kSixteenth / 2.0) {
    task(
        fmt::format("Cut {} off the foot: the lowest riser cut is then {}.", words(trim), words(card.first_riser_cut)));
  } else if (trim < -kSixteenth / 2.0) {
    task(fmt::format("Pack the foot up {} with treated wood over its whole length: the lowest riser cut is then {}.",
                     words(-trim), words(card.first_riser_cut)));
  }
  const Landing& landing = in.flight.landing;
  if (landing.fall != 0 || landing.cross_fall != 0) {
    task("Scribe the foot to the landing's fall where it stands, before the head is fixed.");
  }
  const auto kicker = std::ranges::find(in.frame.parts, PartKind::kicker, &Part::kind);
  if (kicker != in.frame.parts.end()) {
    const Interval front_to_back = extent_a(seen_along(*kicker, Axis::y));
    const Length front = extent_a(part.solid.outline).to;
    const Length top = extent_b(seen_along(*kicker, Axis::y)).to;
    const std::vector<Interval> over = slice_at_a(part.solid.outline, front_to_back.middle());
    // The notch is there when the wood over the kicker begins at its top.
    if (!over.empty() && abs(over.front().from - top) < kSixteenth) {
      const Length floor = extent_b(clip_a(part.solid.outline, {front - inches(20.0), front})).from;
      const Length back = front - front_to_back.to;
      task(fmt::format("Notch the foot for the kicker: {} along the foot by {} up, {}.", words(front_to_back.size()),
                       words(top - floor),
                       back < kSixteenth ? "open to the front" : words(back) + " back from the front"));
    }
  }
  if (abs(card.top_going_cut - in.flight.going) > kSixteenth / 2.0) {
    task(fmt::format("The highest tread cut is {} long (the others {}): cut the head to it, plumb.",
                     words(card.top_going_cut), words(in.flight.going)));
  }
  if (number == 0) lines.push_back("Nothing: it goes up as bought.");
  lines.push_back(fmt::format("Throat {}, plumb cut at the head {}, level cut at the foot {}. Treat every fresh cut.",
                              words(card.throat), words(card.plumb_cut), words(card.foot_cut)));
  return lines;
}

/// RETURNS the y under the marks.
double write_marks(Canvas& canvas, const StringerCard& card, UnitSystem units, double y) {
  const Box& body = canvas.body();
  canvas.text({.at = {body.x0, y + 8},
               .text = "Marks along the notched edge, counted from the lowest mark",
               .size = 8.5,
               .bold = true});
  std::vector<std::string> figures;
  for (const Length mark : card.marks) figures.push_back(tape(mark, units));
  return draw_mark_grid(canvas, {body.x0, y + 14}, body.width(), figures);
}

/// The foot as it stands on the landing, plumb and level, with the cuts that are made there.
void draw_foot(Canvas& canvas, const DrawInput& in, const Part& part, const Box& room) {
  const UnitSystem units = in.job.about.units;
  const Polygon& outline = part.solid.outline;
  const Interval whole = extent_a(outline);
  const Polygon seen = clip_a(outline, {std::max(whole.from, whole.to - in.flight.going * kDetailGoings), whole.to});
  const Length floor = extent_b(seen).from;
  const Scale scale =
      scale_to_fit(extent_a(seen).size(), extent_b(seen).size(), room.width() - 70, room.height() - 58, units);
  const View view(scale, {extent_a(seen).from, floor}, {room.x0 + 4, room.y1 - 44});
  canvas.text({.at = {room.x0, room.y0 + 8},
               .text = fmt::format("Foot, as it stands, {}", scale.words),
               .size = 8.5,
               .bold = true});
  canvas.add({.points = view.track(seen), .pen = Pen::medium, .closed = true, .tint = kCedarTint});
  // Every corner near the landing belongs to heel, kicker notch or front.
  Chain foot{.along = Along::x, .line = room.y1 - 26};
  Chain rise{.along = Along::y, .line = view.x(whole.to) + 16};
  std::vector<Length> level, plumb{floor};
  for (const Point p : outline) {
    // On a short stringer the head begins as low: it has its own detail.
    if (p.b < floor + kFootCorners && p.a > extent_a(seen).from - kTouch) level.push_back(p.a);
    if (p.a > whole.to - kSixteenth) plumb.push_back(p.b);
  }
  // A notch that opens to the front takes the corner at the floor away: its top still counts from the floor.
  for (auto* places : {&level, &plumb}) {
    sort_stably(*places);
    places->erase(std::unique(places->begin(), places->end(), [](Length p, Length q) { return q - p < kSixteenth; }),
                  places->end());
  }
  for (std::size_t i = 0; i < level.size(); ++i) {
    foot.at.push_back(view.x(level[i]));
    foot.feature.push_back(view.y(floor));
    if (i > 0) foot.figures.push_back(tape_plain(level[i] - level[i - 1], units));
  }
  for (std::size_t i = 0; i < plumb.size(); ++i) {
    rise.at.push_back(view.y(plumb[i]));
    rise.feature.push_back(view.x(whole.to));
    if (i > 0) rise.figures.push_back(tape_plain(plumb[i] - plumb[i - 1], units));
  }
  draw_chain(canvas, foot);
  draw_chain(canvas, rise);
}

/// The head as it hangs: plumb cut, and the level cut of the highest tread.
void draw_head(Canvas& canvas, const DrawInput& in, const Part& part, const Box& room) {
  const UnitSystem units = in.job.about.units;
  const Polygon& outline = part.solid.outline;
  const Interval whole = extent_a(outline);
  const Polygon seen = clip_a(outline, {whole.from, std::min(whole.to, whole.from + in.flight.going * kDetailGoings)});
  const Interval up = extent_b(seen);
  const Scale scale = scale_to_fit(extent_a(seen).size(), up.size(), room.width() - 56, room.height() - 46, units);
  const View view(scale, {whole.from, up.to}, {room.x0 + 50, room.y0 + 42});
  canvas.text({.at = {room.x0, room.y0 + 8},
               .text = fmt::format("Head, as it hangs, {}", scale.words),
               .size = 8.5,
               .bold = true});
  canvas.add({.points = view.track(seen), .pen = Pen::medium, .closed = true, .tint = kCedarTint});
  const std::vector<Interval> cut = slice_at_a(outline, whole.from + inches(0.01));
  if (cut.empty()) return;
  draw_dimension(canvas, Along::y, view.x(whole.from) - 14, view.y(cut.back().to), view.y(cut.front().from),
                 view.x(whole.from), view.x(whole.from), tape_plain(cut.back().to - cut.front().from, units));
  Length tread_end = whole.from;
  for (const Point p : outline) {
    if (p.b > up.to - kOnEdge) tread_end = std::max(tread_end, p.a);
  }
  if (tread_end > whole.from) {
    draw_dimension(canvas, Along::x, view.y(up.to) - 14, view.x(whole.from), view.x(tread_end), view.y(up.to),
                   view.y(up.to), tape_plain(tread_end - whole.from, units));
  }
}

Canvas draw_one(const DrawInput& in, const Part& part, const StringerCard* card, const std::string& others, Paper paper,
                std::size_t number) {
  Canvas canvas("Stringer " + part.mark + others, number == 0 ? "stringer" : fmt::format("stringer-{}", number + 1),
                paper, true);
  const Box& body = canvas.body();
  const Polygon outline = board_outline(part);
  const Length length = extent_a(outline).size();
  const UnitSystem units = in.job.about.units;
  const Scale scale = scale_to_fit(length, part.section.width, body.width() - 16, 104, units);
  canvas.set_scale(scale.words);
  const double drawn = length.raw() * scale.points_per_inch;
  const View view(scale, {extent_a(outline).from, part.section.width},
                  {body.x0 + (body.width() - drawn) / 2, body.y0 + kHeadRoom});
  canvas.text({.at = {body.x0, body.y0 + 9},
               .text = fmt::format("{}, {}, {} tip to tip", part.use,
                                   in.flight.ready_cut ? "ready-cut" : section_words(part.section.nominal),
                                   tape_plain(length, units)),
               .size = 9,
               .bold = true});
  draw_board(canvas, part, outline, view);
  draw_throat(canvas, in, part, outline, view);
  draw_marks(canvas, in, part, outline, view);
  draw_crown(canvas);
  double y = view.y(Length()) + 78;
  if (card && !card->marks.empty()) y = write_marks(canvas, *card, units, y) + 8;
  const double third = body.width() / 3;
  draw_foot(canvas, in, part, {body.x0, y, body.x0 + third - 8, body.y1});
  draw_head(canvas, in, part, {body.x0 + third, y, body.x0 + 2 * third - 8, body.y1});
  if (!card) return canvas;
  const SheetPoint notes{body.x0 + 2 * third, y};
  if (!in.flight.ready_cut) {
    canvas.note(notes, third, card_lines(*card, units), kDimensionText);
    return canvas;
  }
  canvas.text({.at = {notes.x, notes.y + 8}, .text = "Do to each ready-cut stringer", .size = 8.5, .bold = true});
  canvas.note({notes.x, notes.y + 12}, third, ready_cut_lines(in, part, *card), kDimensionText);
  return canvas;
}

bool same_shape(const Part& p, const Part& q) {
  const Polygon a = board_outline(p), b = board_outline(q);
  if (p.section.nominal != q.section.nominal || a.size() != b.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (distance(a[i], b[i]) > kSixteenth / 4.0) return false;
  }
  return true;
}

}  // namespace

std::vector<Canvas> draw_stringers(const DrawInput& input, Paper paper) {
  std::vector<Canvas> out;
  std::vector<const Part*> done;
  for (const Part& part : input.frame.parts) {
    if (part.kind != PartKind::stringer) continue;
    if (std::ranges::any_of(done, [&](const Part* other) { return same_shape(*other, part); })) continue;
    done.push_back(&part);
    std::string others;
    for (const Part& other : input.frame.parts) {
      if (other.kind == PartKind::stringer && other.mark != part.mark && same_shape(other, part))
        others += ", " + other.mark;
    }
    const auto card = std::ranges::find(input.marks.stringers, part.mark, &StringerCard::mark);
    const StringerCard* own = card == input.marks.stringers.end() ? nullptr : &*card;
    out.push_back(draw_one(input, part, own, others, paper, out.size()));
  }
  return out;
}

}  // namespace pitchboard
