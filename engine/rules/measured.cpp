#include "engine/rules/measured.hpp"

#include <algorithm>
#include <utility>

#include "engine/base/catalog.hpp"
#include "engine/base/sort.hpp"
#include "engine/rules/stair_found.hpp"

namespace pitchboard {
namespace {

/// Top of the band that a handrail may lie in: above it, what reaches in narrows the stair itself. SOURCE IRC
/// R311.7.8.1.
constexpr Length kHandrailBand = inches(38.0);

/// The walking surface at the foot: the highest of the landing's layers just in front of the lowest nosing.
const Part* landing_surface(const StairFound& stair) {
  const Length x = stair.nosings.front().a + inches(1.0);
  const Part* out = nullptr;
  for (const Part& part : stair.frame.parts) {
    const bool ground = part.kind == PartKind::pad_layer || (part.kind == PartKind::existing && part.mark == "pad");
    if (ground && x_of(part).contains(x) && (!out || z_at(part, x).to > z_at(*out, x).to)) out = &part;
  }
  return out;
}

/// Width left between whatever stands in from both sides. The guard is taken as the stair's side; handrail and cap
/// count for the narrowest width, and above the handrail only where they reach higher than it may. Uncut stringers
/// narrow the treads alone.
Sample clear_width(const StairFound& stair, bool narrowest) {
  Interval clear = stair.width;
  if (!narrowest) {
    for (const Part* s : stair.stringers)
      clear = {std::min(clear.from, y_of(*s).from), std::max(clear.to, y_of(*s).to)};
  }
  for (const bool left : {true, false}) {
    for (const Part* part : stair.side_parts(left, {PartKind::post, PartKind::top_rail, PartKind::bottom_rail,
                                                    PartKind::baluster, PartKind::cap, PartKind::handrail})) {
      const bool reaches_in = part->kind == PartKind::cap || part->kind == PartKind::handrail;
      const Length x = x_of(*part).middle();
      if (reaches_in && !narrowest && z_at(*part, x).to - stair.nosing_line(x) <= kHandrailBand + kTouch) continue;
      if (left) clear.from = std::max(clear.from, y_of(*part).to);
      if (!left) clear.to = std::min(clear.to, y_of(*part).from);
    }
  }
  return {clear.size().raw(), 0, 0, "flight"};
}

/// RETURNS the part's lower edge as it lies in the board, and the notch corners above it: the wood left is the least of
/// them.
std::vector<Sample> throats(const StairFound& stair) {
  std::vector<Sample> out;
  for (const Part* stringer : stair.stringers) {
    const Polygon& outline = stringer->solid.outline;
    const Polygon in_board = turned(outline, stringer->grain_a, stringer->grain_b);
    const Interval depth = extent_b(in_board);
    Length least = depth.size();
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const Point corner = outline[i], before = outline[(i + outline.size() - 1) % outline.size()],
                  after = outline[(i + 1) % outline.size()];
      // A tread's notch runs out level from its corner and up along the next riser, whichever way round the outline
      // goes; out and up of the corner there is air. The toe of the foot looks the same but for the air.
      const auto level = [&](Point p) { return p.a - corner.a > kTouch && abs(p.b - corner.b) < kTouch; };
      const auto plumb = [&](Point p) { return p.b - corner.b > kTouch && abs(p.a - corner.a) < kTouch; };
      const bool square = (level(before) && plumb(after)) || (plumb(before) && level(after));
      if (square && !contains(outline, corner + Point{kSixteenth, kSixteenth}))
        least = std::min(least, in_board[i].b - depth.from);
    }
    out.push_back({least.raw(), 0, 0, stringer->mark});
  }
  return out;
}

/// Longest level stretch without a bearing: from the head to the heel, where the lower edge meets the foot's cut, less
/// what the beams under it divide.
double span_of(const StairFound& stair, const Part& stringer) {
  const Polygon in_board = turned(stringer.solid.outline, stringer.grain_a, stringer.grain_b);
  const Length lowest = extent_b(in_board).from, head = extent_a(stringer.solid.outline).from;
  Length heel = head;
  for (std::size_t i = 0; i < in_board.size(); ++i) {
    if (in_board[i].b - lowest < kTouch) heel = std::max(heel, stringer.solid.outline[i].a);
  }
  // A beam bears where its wood meets the lower edge: a little above its top there is stringer.
  std::vector<Interval> bearings;
  for (const Part& part : stair.frame.parts) {
    if (part.kind != PartKind::support_beam || overlap(y_of(part), stringer.solid.span) <= kTouch) continue;
    const Interval x = x_of(part);
    const Length top = z_at(part, x.middle()).to;
    if (contains(stringer.solid.outline, {x.middle(), top + kSixteenth})) bearings.push_back(x);
  }
  sort_stably(bearings, {}, &Interval::from);
  Length longest, from = head;
  for (const Interval& bearing : bearings) {
    longest = std::max(longest, bearing.from - from);
    from = bearing.to;
  }
  return std::max(longest, heel - from).raw();
}

}  // namespace

void measure_width_and_landing(const StairFound& stair, Measured& out) {
  const Sample narrowest = clear_width(stair, true);
  out.measures.push_back({"clear_width", {narrowest}, "", ""});
  const Sample flight = clear_width(stair, false);
  out.measures.push_back({"clear_width_above_rail", {flight}, "", ""});
  const Part* landing = landing_surface(stair);
  std::vector<Sample> depth, deeper, wide, fall;
  if (landing) {
    const std::string where = landing->use;
    const Length along = x_of(*landing).to - stair.nosings.front().a;
    depth.push_back({along.raw(), 0, 0, where});
    deeper.push_back({.value = along.raw(), .where = where, .limit_from = flight.value});
    wide.push_back({.value = y_of(*landing).size().raw(), .where = where, .limit_from = flight.value});
    const Interval x{stair.nosings.front().a, (stair.nosings.front().a + x_of(*landing).to) / 2.0};
    fall.push_back({std::abs((z_at(*landing, x.from).to - z_at(*landing, x.to).to) / x.size()), 0, 0, where});
  }
  constexpr const char* kNone = "There is no landing at the foot.";
  out.measures.push_back({"landing", {{landing ? 1.0 : 0.0}}, "", ""});
  out.measures.push_back({"landing_depth", std::move(depth), kNone, ""});
  out.measures.push_back({"landing_depth_over_width", std::move(deeper), kNone, ""});
  out.measures.push_back({"landing_width", std::move(wide), kNone, ""});
  out.measures.push_back({"landing_fall", std::move(fall), kNone, ""});
  out.measures.push_back(
      {"landing_cross_fall", {{std::abs(stair.flight.landing.cross_fall), 0, 0, "landing"}}, "", ""});
  out.facts.push_back({"width", narrowest.value});
}

void measure_stringers_and_wood(const StairFound& stair, Measured& out) {
  std::vector<Sample> depth, thick, apart, span, tread_thick, lasting, ground;
  for (std::size_t i = 0; i < stair.stringers.size(); ++i) {
    const Part& s = *stair.stringers[i];
    depth.push_back({extent_b(turned(s.solid.outline, s.grain_a, s.grain_b)).size().raw(), 0, 0, s.mark});
    thick.push_back({s.solid.span.size().raw(), 0, 0, s.mark});
    span.push_back({span_of(stair, s), 0, 0, s.mark});
    if (i == 0) continue;
    const Part& last = *stair.stringers[i - 1];
    apart.push_back({(y_of(s).middle() - y_of(last).middle()).raw(), 0, 0, last.mark + " to " + s.mark});
  }
  for (std::size_t i = 0; i < stair.treads.size(); ++i) {
    tread_thick.push_back(
        {stair.treads[i].z.size().raw(), 0, static_cast<int>(i) + 1, "tread " + std::to_string(i + 1)});
  }
  for (const Part& part : stair.frame.parts) {
    if (!is_cut_from_board(part.kind) || part.species.empty()) continue;
    const TreatmentRow* treatment = find_treatment(part.treatment);
    const SpeciesRow* species = find_species(part.species);
    const bool treated = treatment && (treatment->corrosive || treatment->ground_contact);
    lasting.push_back({treated || (species && species->durable) ? 1.0 : 0.0, 0, 0, part.mark});
    const bool in_concrete =
        part.kind == PartKind::post && std::ranges::count(stair.frame.parts, footing_of(part.mark), &Part::mark) > 0;
    const bool at_ground = part.kind == PartKind::stringer || part.kind == PartKind::kicker || in_concrete;
    if (at_ground) ground.push_back({treatment && treatment->ground_contact ? 1.0 : 0.0, 0, 0, part.mark});
  }
  constexpr const char* kNone = "There are no stringers.";
  out.measures.push_back({"throat", throats(stair), kNone, ""});
  out.measures.push_back({"stringer_depth", std::move(depth), kNone, ""});
  out.measures.push_back({"stringer_thickness", std::move(thick), kNone, ""});
  out.measures.push_back({"stringer_spacing", std::move(apart), kNone, ""});
  out.measures.push_back({"stringer_span", std::move(span), kNone, ""});
  out.measures.push_back(
      {"tread_thickness", std::move(tread_thick), "There is no tread between landing and deck.", ""});
  out.measures.push_back({"composite_tread", {}, "The treads are wood.", ""});
  out.measures.push_back({"decay_resistance", std::move(lasting), "There is no wood.", ""});
  out.measures.push_back({"ground_contact", std::move(ground), "No wood stands on the ground.", ""});
  out.facts.push_back({"cut_stringers", stair.solid ? 0.0 : 1.0});
  out.facts.push_back({"solid_stringers", stair.solid ? 1.0 : 0.0});
}

Measured measure(const Job& job, const Site& site, const Flight& flight, const Frame& frame) {
  const StairFound stair(job, site, flight, frame);
  Measured out;
  out.measures.reserve(64);
  measure_steps(stair, out);
  measure_width_and_landing(stair, out);
  measure_rails(stair, out);
  measure_stringers_and_wood(stair, out);
  // Salt water that nobody named is far away.
  out.facts.push_back({"salt_water", job.place.salt_water ? job.place.salt_water->raw() : 1e9});
  return out;
}

Measured measure_steps(const Job& job, const Site& site, const Flight& flight, const Frame& frame) {
  const StairFound stair(job, site, flight, frame);
  Measured out;
  measure_steps(stair, out);
  out.facts.push_back({"drop", std::nullopt});
  return out;
}

const Measure* find_measure(const Measured& measured, std::string_view quantity) {
  const auto found = std::ranges::find(measured.measures, quantity, &Measure::quantity);
  return found == measured.measures.end() ? nullptr : &*found;
}

}  // namespace pitchboard
