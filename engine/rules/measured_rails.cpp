// Handrails and guards.

#include <algorithm>
#include <utility>

#include "engine/base/catalog.hpp"
#include "engine/base/sort.hpp"
#include "engine/rules/ball.hpp"
#include "engine/rules/stair_found.hpp"

namespace pitchboard {
namespace {

constexpr const char* kNoHandrail = "There is no handrail.";
constexpr const char* kNoGuard = "There is no guard.";

std::string side_words(bool left, const char* what) { return (left ? "left " : "right ") + std::string(what); }

/// Places along a rail where a tape would be held: over each nosing that it passes, and at its two ends.
std::vector<std::pair<Length, int>> stations(const StairFound& stair, Interval reach) {
  std::vector<std::pair<Length, int>> out;
  const Interval flight{stair.nosings.back().a, stair.nosings.front().a};
  for (std::size_t i = 0; i < stair.nosings.size(); ++i) {
    if (reach.contains(stair.nosings[i].a)) out.emplace_back(stair.nosings[i].a, static_cast<int>(i) + 1);
  }
  for (const Length end : {reach.from, reach.to}) {
    if (flight.contains(end)) out.emplace_back(end, 0);
  }
  return out;
}

bool is_round(const Part& part) { return part.section.nominal.starts_with("round"); }

/// Least space between the handrail and what stands beside it, in the plane square to the slope.
std::optional<Length> beside(const StairFound& stair, const Part& rail, const std::vector<const Part*>& others) {
  std::optional<Length> least;
  for (const Part* other : others) {
    const Interval shared{std::max(x_of(rail).from, x_of(*other).from), std::min(x_of(rail).to, x_of(*other).to)};
    if (shared.size() <= kTouch) continue;  // it ends at the other one
    const Length apart = std::max(-overlap(y_of(rail), y_of(*other)), Length());
    for (const Length x : {shared.from, shared.middle(), shared.to}) {
      const Length plumb = std::max(-overlap(z_at(rail, x), z_at(*other, x)), Length());
      const Length space = hypotenuse(apart, plumb * stair.cosine);
      if (!least || space < *least) least = space;
    }
  }
  return least;
}

void measure_handrails(const StairFound& stair, Measured& out) {
  std::vector<Sample> height, reach, clearance, foot, head, breaks, thick, around, across;
  double sides = 0;
  bool any_round = false;
  for (const bool left : {true, false}) {
    std::vector<const Part*> rails = stair.side_parts(left, {PartKind::handrail});
    if (rails.empty()) continue;
    ++sides;
    sort_stably(rails, [](const Part* p, const Part* q) { return x_of(*p).from < x_of(*q).from; });
    const std::string where = side_words(left, "handrail");
    const std::vector<const Part*> guard = stair.side_parts(
        left, {PartKind::post, PartKind::top_rail, PartKind::bottom_rail, PartKind::cap, PartKind::baluster});
    Length inner_face = left ? stair.width.from : stair.width.to;
    for (const Part* part : guard) {
      if (part->kind == PartKind::cap) continue;
      inner_face = left ? std::max(inner_face, y_of(*part).to) : std::min(inner_face, y_of(*part).from);
    }
    double broken = 0;
    for (std::size_t i = 0; i < rails.size(); ++i) {
      const Part& rail = *rails[i];
      for (const auto& [x, step] : stations(stair, x_of(rail))) {
        height.push_back({(z_at(rail, x).to - stair.nosing_line(x)).raw(), 0, step, where});
      }
      reach.push_back({(left ? y_of(rail).to - inner_face : inner_face - y_of(rail).from).raw(), 0, 0, where});
      if (const std::optional<Length> space = beside(stair, rail, guard))
        clearance.push_back({space->raw(), 0, 0, where});
      if (i > 0 && x_of(rail).from - x_of(*rails[i - 1]).to > kTouch) ++broken;
      const Length t = rail.solid.span.size(),
                   w = extent_b(turned(rail.solid.outline, rail.grain_a, rail.grain_b)).size();
      if (is_round(rail)) {
        any_round = true;
        thick.push_back({std::max(t, w).raw(), 0, 0, where});
      } else {
        around.push_back({2 * (t + w).raw(), 0, 0, where});
        across.push_back({hypotenuse(t, w).raw(), 0, 0, where});
      }
    }
    breaks.push_back({broken, 0, 0, where});
    foot.push_back({(x_of(*rails.back()).to - stair.nosings.front().a).raw(), 0, 0, where});
    head.push_back({(stair.nosings.back().a - x_of(*rails.front()).from).raw(), 0, 0, where});
  }
  out.measures.push_back({"handrail_sides", {{sides, 0, 0, "flight"}}, "", ""});
  out.measures.push_back({"handrail_height", std::move(height), kNoHandrail, ""});
  out.measures.push_back({"handrail_projection", std::move(reach), kNoHandrail, ""});
  out.measures.push_back({"handrail_clearance", std::move(clearance),
                          sides > 0 ? "Nothing stands beside the handrail." : kNoHandrail, ""});
  out.measures.push_back({"handrail_past_foot", std::move(foot), kNoHandrail, ""});
  out.measures.push_back({"handrail_past_head", std::move(head), kNoHandrail, ""});
  out.measures.push_back({"handrail_breaks", std::move(breaks), kNoHandrail, ""});
  out.measures.push_back(
      {"handrail_diameter", std::move(thick), sides > 0 ? "The handrail is not round." : kNoHandrail, ""});
  out.measures.push_back(
      {"handrail_perimeter", std::move(around), sides > 0 ? "The handrail is round." : kNoHandrail, ""});
  out.measures.push_back(
      {"handrail_cross_section", std::move(across), sides > 0 ? "The handrail is round." : kNoHandrail, ""});
  out.facts.push_back({"handrail_sides", sides});
  out.facts.push_back({"round_handrail", any_round ? 1.0 : 0.0});
}

/// Level gaps between neighbouring posts and balusters, and between the deck's edge and the first of them. Where rails
/// leave less room between themselves than the uprights do, that is the gap.
std::vector<Sample> guard_gaps(const StairFound& stair, bool left, const Sample& drop) {
  std::vector<Interval> uprights;
  for (const Part* part : stair.side_parts(left, {PartKind::post, PartKind::baluster})) uprights.push_back(x_of(*part));
  sort_stably(uprights, {}, &Interval::from);
  const std::vector<const Part*> top = stair.side_parts(left, {PartKind::top_rail});
  const std::vector<const Part*> bottom = stair.side_parts(left, {PartKind::bottom_rail});
  std::vector<Sample> out;
  Length reached = stair.deck_edge.a;
  bool between_rails = false;
  for (const Interval& upright : uprights) {
    Length gap = upright.from - reached;
    if (between_rails && gap > Length()) {
      const Length x = reached + gap / 2.0;
      const auto over = std::ranges::find_if(top, [&](const Part* p) { return x_of(*p).contains(x); });
      const auto under = std::ranges::find_if(bottom, [&](const Part* p) { return x_of(*p).contains(x); });
      if (over != top.end()) {
        const Length floor = under != bottom.end() ? z_at(**under, x).to : stair.nosing_line(x);
        gap = std::min(gap, (z_at(**over, x).from - floor) * stair.cosine);
      }
    }
    if (gap > kTouch) out.push_back({gap.raw(), 0, 0, side_words(left, "guard"), drop.value, drop.uncertainty});
    reached = std::max(reached, upright.to);
    between_rails = true;
  }
  return out;
}

/// What passes between the upper edge of an uncut stringer, which fills the triangles, and the rails over it.
std::vector<Sample> strips(const StairFound& stair, bool left, const std::vector<const Part*>& rails,
                           const Sample& drop) {
  std::vector<Sample> out;
  const Part& stringer = left ? *stair.stringers.front() : *stair.stringers.back();
  for (const Part* rail : rails) {
    for (const Length x : {x_of(*rail).from, x_of(*rail).to}) {
      const Length strip = std::max((z_at(*rail, x).from - z_at(stringer, x).to) * stair.cosine, Length());
      out.push_back({strip.raw(), 0, 0, side_words(left, "side, under the bottom rail"), drop.value, drop.uncertainty});
    }
  }
  return out;
}

/// Room over a tread, under the line of the bottom rails' undersides, and the largest ball in it. Posts are left out: a
/// ball passes beside them.
struct Pocket {
  int tread = 0;
  Length ball;
};

std::vector<Pocket> pockets_under(const std::vector<const Part*>& rails, const StairFound& stair) {
  std::vector<Pocket> out;
  std::vector<Polygon> solids;
  for (const Part& part : stair.frame.parts) {
    const bool wall = part.kind == PartKind::tread || part.kind == PartKind::riser || part.kind == PartKind::stringer ||
                      part.kind == PartKind::hanger_board || part.mark == "rim" || part.mark == "deck";
    if (!wall) continue;
    Polygon seen = side_view(part);
    if (std::ranges::find(solids, seen) == solids.end()) solids.push_back(std::move(seen));
  }
  for (std::size_t i = 0; i + 1 < stair.nosings.size() && i < stair.treads.size(); ++i) {
    const Point front = stair.nosings[i], next = stair.nosings[i + 1];
    // As far in as the stringer's plumb cut can lie behind the nosing above.
    const Interval x{std::min(next.a, stair.treads[i].x.from), front.a};
    const auto rail = std::ranges::find_if(rails, [&](const Part* p) { return overlap(x_of(*p), x) > kTouch; });
    if (rail == rails.end()) continue;
    const Interval reach = x_of(**rail);
    const Length z0 = z_at(**rail, reach.from).from, z1 = z_at(**rail, reach.to).from;
    const auto underside = [&](Length at) { return z0 + (z1 - z0) * ((at - reach.from) / reach.size()); };
    const Interval wide{x.from - x.size(), x.to + x.size()};
    const Interval z{front.b, std::max(underside(x.from), next.b)};
    std::vector<Polygon> walls{{{wide.from, underside(wide.from)},
                                {wide.to, underside(wide.to)},
                                {wide.to, z.to + x.size()},
                                {wide.from, z.to + x.size() + underside(wide.from) - underside(wide.to)}}};
    for (const Polygon& solid : solids) {
      if (Polygon part = clip_a(solid, wide); part.size() > 2 && area(part).raw() > 0) walls.push_back(std::move(part));
    }
    out.push_back({static_cast<int>(i) + 1, largest_ball(walls, x, z)});
  }
  return out;
}

void measure_guards(const StairFound& stair, Measured& out) {
  std::vector<Sample> present, height, opening, triangle, bottom_gap;
  double worst = 0, uncertainty = 0;
  std::vector<const Part*> last_rails;
  std::vector<Pocket> pockets;
  for (const bool left : {true, false}) {
    Sample drop = stair.drop(left);
    if (drop.value > worst) {
      worst = drop.value;
      uncertainty = drop.uncertainty;
    }
    const bool guarded = stair.has_guard(left);
    present.push_back({guarded ? 1.0 : 0.0, 0, drop.step, drop.where, drop.value, drop.uncertainty});
    if (!guarded) continue;
    for (const Part* part : stair.side_parts(left, {PartKind::top_rail, PartKind::cap})) {
      const std::vector<const Part*> caps = stair.side_parts(left, {PartKind::cap});
      if (part->kind == PartKind::top_rail && !caps.empty()) continue;
      for (const auto& [x, step] : stations(stair, x_of(*part))) {
        height.push_back({(z_at(*part, x).to - stair.nosing_line(x)).raw(), 0, step, side_words(left, "guard"),
                          drop.value, drop.uncertainty});
      }
    }
    const std::vector<const Part*> rails = stair.side_parts(left, {PartKind::bottom_rail});
    for (const Part* rail : rails) {
      for (const Length x : {x_of(*rail).from, x_of(*rail).to}) {
        bottom_gap.push_back({((z_at(*rail, x).from - stair.nosing_line(x)) * stair.cosine).raw(), 0, 0,
                              side_words(left, "bottom rail"), drop.value, drop.uncertainty});
      }
    }
    for (Sample& gap : guard_gaps(stair, left, drop)) opening.push_back(std::move(gap));
    if (stair.solid) {
      for (Sample& strip : strips(stair, left, rails, drop)) triangle.push_back(std::move(strip));
      continue;
    }
    // Rails that look alike from the side leave the same pockets.
    const auto seen = [](const Part* rail) { return side_view(*rail); };
    if (!std::ranges::equal(rails, last_rails, {}, seen, seen)) pockets = pockets_under(rails, stair);
    last_rails = rails;
    for (const Pocket& pocket : pockets) {
      triangle.push_back({pocket.ball.raw(), 0, pocket.tread,
                          side_words(left, "side, over tread ") + std::to_string(pocket.tread), drop.value,
                          drop.uncertainty});
    }
  }
  const bool any = !height.empty();
  out.measures.push_back({"guard", std::move(present), "", ""});
  out.measures.push_back({"guard_height", std::move(height), kNoGuard, ""});
  out.measures.push_back({"guard_opening", std::move(opening), kNoGuard, ""});
  out.measures.push_back({"guard_triangle", std::move(triangle), any ? "" : kNoGuard,
                          any ? "The guard has no bottom rail: look at what a ball can pass." : ""});
  out.measures.push_back({"guard_bottom_gap", std::move(bottom_gap), any ? "" : kNoGuard,
                          any ? "The guard has no bottom rail: look at what a ball can pass." : ""});
  out.facts.push_back({"drop", worst, uncertainty});
}

}  // namespace

void measure_rails(const StairFound& stair, Measured& out) {
  measure_handrails(stair, out);
  measure_guards(stair, out);
}

}  // namespace pitchboard
