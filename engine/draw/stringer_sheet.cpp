// One stringer laid flat, as it lies on the saw horses: crown up, foot to the right, all marks counted from one end.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/draw/dimension.hpp"
#include "engine/draw/parts.hpp"

namespace pitchboard {
namespace {

/// A corner this close to the board's edge lies on it.
constexpr Length kOnEdge = inches(0.02);

std::string degrees_words(Angle angle) { return fmt::format("{:.1f}°", in_degrees(angle)); }

/// Corners on the board's upper edge, from the foot up: where the steps are marked.
std::vector<Length> edge_corners(const Polygon& outline) {
  const Length top = extent_b(outline).to;
  std::vector<Length> out;
  for (const Point p : outline) {
    if (p.b > top - kOnEdge) out.push_back(p.a);
  }
  std::ranges::sort(out, std::greater<>());
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
  std::ranges::sort(places);
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
    if (p.b < before.b - kOnEdge && p.b < after.b - kOnEdge && p.b > kOnEdge && p.b < part.section.width - inches(1.0))
      inner.push_back(p);
  }
  if (inner.empty()) return;
  const Point at = inner[inner.size() / 2];
  const double x = view.x(at.a);
  draw_dimension(canvas, Along::y, x, view.y(at.b), view.y(Length()), x, x, "");
  canvas.label({x, (view.y(at.b) + view.y(Length())) / 2}, "throat " + tape_plain(in.frame.throat, in.job.about.units),
               kDimensionText);
}

void draw_crown(Canvas& canvas, const Part& part, const Polygon& outline, const View& view, double y) {
  const double x = view.x(extent_a(outline).middle());
  canvas.arrow({x, y + 16}, {x, y}, Pen::medium);
  canvas.text({.at = {x + 7, y + 14},
               .text = fmt::format("crown this way: {} on edge, hollow side down", part.section.nominal),
               .size = 8});
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

Canvas draw_one(const DrawInput& in, const Part& part, const StringerCard* card, const std::string& others, Paper paper,
                std::size_t number) {
  Canvas canvas("Stringer " + part.mark + others, number == 0 ? "stringer" : fmt::format("stringer-{}", number + 1),
                paper, true);
  const Box& body = canvas.body();
  const Polygon outline = board_outline(part);
  const Length length = extent_a(outline).size();
  const UnitSystem units = in.job.about.units;
  const Scale scale = scale_to_fit(length, part.section.width, body.width() - 16, 130, units);
  canvas.set_scale(scale.words);
  const double drawn = length.raw() * scale.points_per_inch;
  const double upper = body.y0 + 84;
  const View view(scale, {extent_a(outline).from, part.section.width}, {body.x0 + (body.width() - drawn) / 2, upper});
  canvas.text(
      {.at = {body.x0, body.y0 + 9},
       .text = fmt::format("{} of {}, {} long tip to tip", part.use, part.section.nominal, tape_plain(length, units)),
       .size = 9,
       .bold = true});
  canvas.text({.at = {body.x1, body.y0 + 9},
               .text = "figures count from the foot end, on the right",
               .size = 8,
               .anchor = Anchor::end});
  draw_board(canvas, part, outline, view);
  draw_throat(canvas, in, part, outline, view);
  draw_marks(canvas, in, part, outline, view);
  double y = view.y(Length()) + 70;
  draw_crown(canvas, part, outline, view, y);
  y += 28;
  if (card) {
    y = write_marks(canvas, *card, units, y) + 6;
    canvas.note({body.x0, y}, body.width(), card_lines(*card, units));
  }
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
