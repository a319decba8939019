// Risers, goings, nosings, pitch and headroom.

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/rules/stair_found.hpp"

namespace pitchboard {
namespace {

std::string numbered(const char* what, std::size_t number) { return what + (" " + std::to_string(number)); }

/// RETURNS the difference between the greatest and the least of the samples, named by both.
std::vector<Sample> spread(const std::vector<Sample>& samples, Length uncertainty) {
  if (samples.empty()) return {};
  const auto [least, most] = std::ranges::minmax_element(samples, {}, &Sample::value);
  return {{most->value - least->value, uncertainty.raw(), most->step, most->where + " against " + least->where}};
}

/// RETURNS how much each sample differs from the one of the step below.
std::vector<Sample> between_neighbours(const std::vector<Sample>& samples) {
  std::vector<Sample> out;
  for (const Sample& low : samples) {
    for (const Sample& high : samples) {
      if (high.step != low.step + 1) continue;
      out.push_back({std::abs(high.value - low.value), std::max(high.uncertainty, low.uncertainty), high.step,
                     high.where + " against " + low.where});
    }
  }
  return out;
}

/// Places across the stair where the lowest riser is measured: a landing that falls across makes it differ.
std::vector<std::pair<Length, std::string>> across(const StairFound& stair) {
  if (stair.flight.landing.cross_fall == 0.0) return {{stair.flight.landing.middle_y, ""}};
  return {{Length(), " on the left"}, {stair.job.stair.width, " on the right"}};
}

std::vector<Sample> risers(const StairFound& stair) {
  std::vector<Sample> out;
  const Point lowest = stair.nosings.front();
  for (const auto& [y, side] : across(stair)) {
    out.push_back({(lowest.b - stair.flight.landing.z_at(lowest.a, y)).raw(), stair.landing_uncertainty.raw(), 1,
                   "riser 1" + side});
  }
  for (std::size_t i = 1; i < stair.nosings.size(); ++i) {
    out.push_back(
        {(stair.nosings[i].b - stair.nosings[i - 1].b).raw(), 0, static_cast<int>(i) + 1, numbered("riser", i + 1)});
  }
  return out;
}

/// Going k lies before nosing k; a full tread at the top ends at the deck's edge.
std::vector<Sample> goings(const StairFound& stair) {
  std::vector<Sample> out;
  for (std::size_t i = 0; i < stair.treads.size(); ++i) {
    const Length next = i + 1 < stair.nosings.size() ? stair.nosings[i + 1].a : stair.deck_edge.a;
    out.push_back({(stair.nosings[i].a - next).raw(), 0, static_cast<int>(i) + 1, numbered("tread", i + 1)});
  }
  return out;
}

/// Whatever stands up against the deck's edge above the highest tread: rim, hanger board, riser board.
std::vector<const Part*> top_riser(const StairFound& stair) {
  const Length above = stair.treads.empty() ? stair.flight.landing.z : stair.treads.back().z.to;
  std::vector<const Part*> out;
  for (const Part& part : stair.frame.parts) {
    const bool wall = part.kind == PartKind::riser || part.kind == PartKind::hanger_board || part.mark == "rim";
    if (wall && z_of(part).to > above + kTouch && x_of(part).to <= stair.deck_edge.a + kTouch) out.push_back(&part);
  }
  return out;
}

std::vector<Sample> nosing_projections(const StairFound& stair) {
  std::vector<Sample> out;
  for (std::size_t i = 0; i < stair.treads.size(); ++i) {
    const FoundTread& tread = stair.treads[i];
    if (tread.has_face)
      out.push_back({(tread.x.to - tread.face).raw(), 0, static_cast<int>(i) + 1, numbered("tread", i + 1)});
  }
  if (!stair.deck_is_nosing) return out;
  Length face = inches(-1e9);
  for (const Part* part : top_riser(stair)) face = std::max(face, x_of(*part).to);
  if (face > inches(-1e9)) {
    out.push_back({(stair.deck_edge.a - face).raw(), 0, static_cast<int>(stair.nosings.size()), "deck edge"});
  }
  return out;
}

std::vector<Sample> overlaps(const StairFound& stair) {
  std::vector<Sample> out;
  for (std::size_t i = 0; i + 1 < stair.nosings.size() && i < stair.treads.size(); ++i) {
    out.push_back({(stair.nosings[i + 1].a - stair.treads[i].x.from).raw(), 0, static_cast<int>(i) + 1,
                   numbered("tread", i + 1)});
  }
  return out;
}

/// Balls that pass under each tread that no riser board closes, and under what closes the top one.
std::vector<Sample> open_gaps(const StairFound& stair) {
  std::vector<Sample> out;
  for (std::size_t i = 0; i < stair.treads.size(); ++i) {
    const FoundTread& tread = stair.treads[i];
    if (tread.has_riser) continue;
    Length out_of_reach, below;
    if (i == 0) {
      below = stair.flight.landing.z_at(tread.x.to, stair.flight.landing.middle_y);
    } else {
      out_of_reach = std::max(stair.treads[i - 1].x.from - tread.x.to, Length());
      below = stair.treads[i - 1].z.to;
    }
    const Level ground = stair.site.ground(tread.x.to);
    out.push_back({.value = hypotenuse(out_of_reach, std::max(tread.z.from - below, Length())).raw(),
                   .uncertainty = i == 0 ? stair.landing_uncertainty.raw() : 0.0,
                   .step = static_cast<int>(i) + 1,
                   .where = numbered("riser", i + 1),
                   .drop = (tread.z.from - ground.z).raw(),
                   .drop_uncertainty = ground.uncertainty.raw()});
  }
  if (!stair.deck_is_nosing || stair.treads.empty()) return out;
  Length bottom = stair.deck_edge.b;
  for (const Part* part : top_riser(stair)) bottom = std::min(bottom, z_of(*part).from);
  if (const Length gap = bottom - stair.treads.back().z.to; gap > kTouch) {
    const Level ground = stair.site.ground(stair.deck_edge.a);
    const std::size_t last = stair.nosings.size();
    out.push_back({gap.raw(), 0, static_cast<int>(last), numbered("riser", last), (bottom - ground.z).raw(),
                   ground.uncertainty.raw()});
  }
  return out;
}

/// How much a tread's top falls or rises from back to front, over its depth.
double slope_of(const Part& tread) {
  const Interval x = x_of(tread);
  return std::abs((z_at(tread, x.from).to - z_at(tread, x.to).to) / x.size());
}

/// How far a riser board's face leans from plumb.
double lean_of(const Part& riser) {
  const Polygon seen = side_view(riser);
  const Interval z = extent_b(seen);
  const auto low = slice_at_b(seen, z.from + z.size() * 0.1), high = slice_at_b(seen, z.from + z.size() * 0.9);
  if (low.empty() || high.empty()) return 0;
  return in_degrees(Angle::from_raw(std::atan2(abs(high.back().to - low.back().to).raw(), z.size().raw() * 0.8)));
}

std::vector<Sample> headrooms(const StairFound& stair) {
  std::vector<Sample> out;
  const Point lowest = stair.nosings.front();
  const Interval walked{stair.deck_edge.a, std::max(stair.flight.landing.out.to, lowest.a)};
  for (const Overhead& overhead : stair.job.room.overheads) {
    if (overlap(overhead.out, walked) <= Length()) continue;
    const Length from = std::max(overhead.out.from, walked.from), to = std::min(overhead.out.to, walked.to);
    // The line of nosings only falls outwards, so its nearest place counts; past the lowest nosing the landing does.
    if (from <= lowest.a) out.push_back({(overhead.above - stair.nosing_line(from)).raw(), 0, 0, overhead.name});
    if (to > lowest.a) {
      const Length x = std::max(from, lowest.a);
      const Length floor =
          std::max(stair.flight.landing.z_at(x, {}), stair.flight.landing.z_at(x, stair.job.stair.width));
      out.push_back(
          {(overhead.above - floor).raw(), stair.landing_uncertainty.raw(), 0, overhead.name + " over the landing"});
    }
  }
  return out;
}

}  // namespace

void measure_steps(const StairFound& stair, Measured& out) {
  const std::vector<Sample> rise = risers(stair), going = goings(stair), nosing = nosing_projections(stair);
  const Length uncertainty = stair.landing_uncertainty;
  const double count = static_cast<double>(stair.nosings.size());
  constexpr const char* kOneStep = "There is no tread between landing and deck.";

  std::vector<Sample> flight_rise, twice, sum, less, closed, slope, lean;
  for (const auto& [y, side] : across(stair)) {
    flight_rise.push_back({(stair.nosings.back().b - stair.flight.landing.z_at(stair.nosings.front().a, y)).raw(),
                           uncertainty.raw(), 0, "flight" + side});
  }
  for (const Sample& g : going) {
    for (const Sample& r : rise) {
      if (r.step != g.step) continue;
      twice.push_back({2 * r.value + g.value, 2 * r.uncertainty, g.step, g.where});
      sum.push_back({r.value + g.value, r.uncertainty, g.step, g.where});
      less.push_back({g.value - r.value, r.uncertainty, g.step, g.where});
    }
  }
  for (std::size_t i = 0; i < stair.treads.size(); ++i) {
    closed.push_back({stair.treads[i].has_riser ? 1.0 : 0.0, 0, static_cast<int>(i) + 1, numbered("riser", i + 1)});
  }
  for (const Part& part : stair.frame.parts) {
    if (part.kind == PartKind::tread) slope.push_back({slope_of(part), 0, part.step, part.mark});
    if (part.kind == PartKind::riser) lean.push_back({lean_of(part), 0, part.step, part.mark});
  }
  std::vector<Sample> pitch;
  if (stair.nosings.size() > 1) {
    const Point low = stair.nosings.front(), high = stair.nosings.back();
    pitch.push_back(
        {in_degrees(Angle::from_raw(std::atan2((high.b - low.b).raw(), (low.a - high.a).raw()))), 0, 0, "flight"});
  }
  const bool open = std::ranges::any_of(closed, [](const Sample& s) { return s.value == 0; });

  out.facts.push_back({"total_rise", flight_rise.front().value, uncertainty.raw()});
  out.measures.push_back({"riser_height", rise, "", ""});
  out.measures.push_back({"riser_variation", spread(rise, uncertainty), "", ""});
  out.measures.push_back({"riser_neighbour_variation", between_neighbours(rise), "There is one riser only.", ""});
  out.measures.push_back({"riser_slope", std::move(lean), "There are no riser boards.", ""});
  out.measures.push_back({"risers", {{count, 0, 0, "flight"}}, "", ""});
  out.measures.push_back({"closed_risers", std::move(closed), kOneStep, ""});
  out.measures.push_back({"open_riser_gap", open_gaps(stair), "Every riser is closed.", ""});
  out.measures.push_back({"going", going, kOneStep, ""});
  out.measures.push_back({"going_variation", spread(going, {}), kOneStep, ""});
  out.measures.push_back({"going_neighbour_variation", between_neighbours(going), "There is one tread only.", ""});
  out.measures.push_back({"twice_rise_plus_going", std::move(twice), kOneStep, ""});
  out.measures.push_back({"rise_plus_going", std::move(sum), kOneStep, ""});
  out.measures.push_back({"going_minus_rise", std::move(less), kOneStep, ""});
  out.measures.push_back({"pitch", std::move(pitch), kOneStep, ""});
  out.measures.push_back({"nosing", nosing, "Nothing stands under the nosings that they could project past.", ""});
  out.measures.push_back(
      {"nosing_variation", spread(nosing, {}), "Nothing stands under the nosings that they could project past.", ""});
  out.measures.push_back({"tread_overlap", overlaps(stair), kOneStep, ""});
  out.measures.push_back({"tread_slope", std::move(slope), kOneStep, ""});
  out.measures.push_back({"flight_rise", std::move(flight_rise), "", ""});
  out.measures.push_back(
      {"headroom", headrooms(stair), "",
       stair.job.room.overheads.empty()
           ? "Nothing overhead was recorded: look up along the flight and the landing, and measure what is there."
           : "Nothing recorded lies over the flight or the landing: look up and see that nothing else does."});

  out.facts.push_back({"risers", count});
  out.facts.push_back({"closed_risers", open ? 0.0 : 1.0});
  out.facts.push_back({"open_risers", open ? 1.0 : 0.0});
  const auto least = std::ranges::min_element(going, {}, &Sample::value);
  out.facts.push_back({"going", going.empty() ? 0.0 : least->value});
}

}  // namespace pitchboard
