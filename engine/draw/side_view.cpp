#include "engine/draw/side_view.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/sort.hpp"
#include "engine/draw/dimension.hpp"
#include "engine/draw/text_metrics.hpp"

namespace pitchboard {
namespace {

/// How much of the deck and of the ground past the landing is shown, and how deep the earth is drawn.
constexpr Length kDeckShown = inches(14.0), kGroundBeyond = inches(10.0), kEarthShown = inches(3.0);
/// How much of what is overhead, and of what stands in the way (its height is not asked for), is drawn.
constexpr Length kOverheadShown = inches(12.0), kObstacleShown = inches(8.0);
/// How much of a pier is drawn: what goes on below would only shrink the stair.
constexpr Length kPierShown = inches(20.0);

}  // namespace

std::string length_words(const DrawInput& in, Length length) { return tape_plain(length, in.job.about.units); }

Interval shown_pier(const Part& pier) {
  const Interval z = box(pier.solid)[2];
  return {std::max(z.from, z.to - kPierShown), z.to};
}

Extent extent_of(const DrawInput& in, bool every_reading) {
  Extent e{{-kDeckShown, in.site.furthest_reading() + kGroundBeyond}, {}};
  if (!in.flight.nosings.empty()) {
    const Polygon whole = whole_extent(in.frame, Axis::y);
    const Length far = std::max(in.flight.landing.out.to, extent_a(whole).to) + kGroundBeyond;
    e = {{-kDeckShown, every_reading ? std::max(far, e.x.to) : far}, extent_b(whole)};
  }
  for (const Part& part : in.frame.parts) {
    if (part.kind == PartKind::footing) e.z.from = std::min(e.z.from, shown_pier(part).from);
    if (!is_ground(part)) continue;
    e.z.from = std::min(e.z.from, extent_b(seen_along(part, Axis::y)).from);
    e.x.to = std::max(e.x.to, extent_a(seen_along(part, Axis::y)).to);
  }
  for (const GroundLine& line : in.site.lines()) {
    for (const Reading& reading : line.readings) {
      if (reading.out < e.x.to) e.z.from = std::min(e.z.from, -reading.down);
    }
  }
  const bool covered = std::ranges::any_of(
      in.job.room.overheads, [&](const Overhead& overhead) { return overlap(overhead.out, e.x) > Length(); });
  if (covered) e.z.to += kOverheadShown;
  e.z.from -= kEarthShown;
  e.z.to = std::max(e.z.to, inches(2.0));
  return e;
}

Polygon ground_track(const DrawInput& in, Interval x, Length across) {
  std::vector<Length> places{std::max(x.from, Length()), x.to};
  for (const GroundLine& line : in.site.lines()) {
    for (const Reading& reading : line.readings) {
      if (reading.out > places.front() && reading.out < x.to) places.push_back(reading.out);
    }
  }
  sort_stably(places);
  places.erase(std::unique(places.begin(), places.end()), places.end());
  Polygon track;
  if (x.from < Length()) track.push_back({x.from, in.site.ground(Length(), across).z});
  for (const Length out : places) track.push_back({out, in.site.ground(out, across).z});
  return track;
}

std::vector<Length> support_places(const DrawInput& in) {
  std::vector<Length> out;
  for (const Part& part : in.frame.parts) {
    if (part.kind == PartKind::support_beam) out.push_back(box(part.solid)[0].middle());
  }
  sort_stably(out);
  return out;
}

void draw_ground(Canvas& canvas, const DrawInput& in, const View& view, const Extent& extent) {
  Polygon earth = ground_track(in, extent.x, in.job.stair.width / 2.0);
  earth.push_back({extent.x.to, extent.z.from});
  earth.push_back({extent.x.from, extent.z.from});
  canvas.add(
      {.points = view.track(earth), .closed = true, .hatch = Hatch::earth, .stroked = false, .tint = kEarthTint});
}

void draw_room(Canvas& canvas, const DrawInput& in, const View& view, const Extent& extent) {
  const auto outline = [&](Interval out, Interval z, const std::string& name) {
    const Polygon seen = clip_a(rectangle(out, z), extent.x);
    if (seen.size() < 3) return;
    canvas.add({.points = view.track(seen), .pen = Pen::medium, .closed = true, .dashed = true});
    canvas.label(view.at({extent_a(seen).middle(), z.to}), name, 7, false, Toward::up);
  };
  for (const Overhead& overhead : in.job.room.overheads) {
    // What hangs high over the rails would shrink the whole view: it is drawn lower and says so.
    const Length highest = extent.z.to - kOverheadShown / 2.0, thick = kOverheadShown / 6.0;
    const Length underside = std::min(overhead.above, highest);
    outline(overhead.out, {underside, underside + thick},
            fmt::format("{}, {} over the deck{}", overhead.name, length_words(in, overhead.above),
                        underside < overhead.above ? ", drawn lower" : ""));
  }
  for (const Obstacle& obstacle : in.job.room.obstacles) {
    const Length ground = in.site.ground(obstacle.out.middle(), obstacle.across.middle()).z;
    outline(obstacle.out, {ground, ground + kObstacleShown}, obstacle.name);
  }
}

void draw_parts(Canvas& canvas, const DrawInput& in, const View& view, const Extent& extent) {
  const auto draw = [&](const Part& part) {
    // The deck and rim run on past the paper: only their near stretch is drawn.
    Polygon seen = clip_a(seen_along(part, Axis::y), extent.x);
    if (part.kind == PartKind::footing) seen = clip_b(seen, shown_pier(part));
    // So do footings and the posts in them, further down.
    if (const Part* footing = find_part(in.frame, footing_of(part.mark)))
      seen = clip_b(seen, {shown_pier(*footing).from, extent.z.to});
    if (seen.size() < 3) return;
    SheetPath path = look_of(part, Axis::y);
    path.part = part.mark;
    path.step = part.step;
    path.points = view.track(seen);
    canvas.add(std::move(path));
  };
  const std::vector<std::size_t> order = right_to_left(in.frame);
  for (const std::size_t i : order) {
    if (is_ground(in.frame.parts[i])) draw(in.frame.parts[i]);
  }
  for (const std::size_t i : order) {
    if (!is_ground(in.frame.parts[i])) draw(in.frame.parts[i]);
  }
}

void draw_level_dimensions(Canvas& canvas, const DrawInput& in, const View& view, double first_line, double feature,
                           bool small) {
  const Flight& flight = in.flight;
  std::vector<Length> places;
  for (const Point nosing : flight.nosings) places.push_back(nosing.a);
  if (places.back() > kTouch) places.push_back(Length());
  Chain chain{.along = Along::x, .line = first_line};
  for (std::size_t i = places.size(); i-- > 0;) {
    chain.at.push_back(view.x(places[i]));
    chain.feature.push_back(feature);
    if (i > 0) chain.figures.push_back(length_words(in, places[i - 1] - places[i]));
  }
  // On a small drawing equal goings without room for a figure each share one.
  std::string shared;
  if (small && chain.figures.size() > 1 &&
      std::ranges::count(chain.figures, chain.figures[0]) == std::ssize(chain.figures) &&
      text_width(chain.figures[0], kDimensionText) + 4 > std::abs(chain.at[1] - chain.at[0])) {
    shared = fmt::format("{} x {}", chain.figures.size(), chain.figures[0]);
    std::ranges::fill(chain.figures, "");
  }
  draw_chain(canvas, chain);
  const SheetPoint under{(chain.at.front() + chain.at.back()) / 2, first_line + 14};
  if (!shared.empty()) canvas.text({.at = under, .text = shared, .size = kDimensionText, .anchor = Anchor::middle});
  // Out to each support beam's middle, from the deck edge.
  const std::vector<Length> supports = support_places(in);
  Chain beams{.along = Along::x, .line = first_line + 34, .at = {view.x(Length())}};
  const double under_goings = first_line + 26;  // where figures that stepped out have ended
  beams.feature.push_back(under_goings);
  for (std::size_t i = 0; i < supports.size(); ++i) {
    beams.at.push_back(view.x(supports[i]));
    beams.feature.push_back(under_goings);
    beams.figures.push_back(length_words(in, i == 0 ? supports[i] : supports[i] - supports[i - 1]));
  }
  if (!supports.empty()) draw_chain(canvas, beams);
  const double second = first_line + 34 + (supports.empty() ? 0 : kSupportRoom);
  const Length landing_end = flight.landing.out.to;
  draw_chain(canvas, {.along = Along::x,
                      .line = second,
                      .at = {view.x(Length()), view.x(flight.run), view.x(landing_end)},
                      .feature = {first_line + 3, first_line + 3, feature},
                      .figures = {length_words(in, flight.run), length_words(in, landing_end - flight.run)}});
}

}  // namespace pitchboard
