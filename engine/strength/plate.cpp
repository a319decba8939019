// The worst cut stringer of the frame as a plate: its own outline, its treads' loads, its bearings, its props.

#include <algorithm>
#include <cmath>

#include "engine/strength/calculator.hpp"
#include "engine/strength/member_parts.hpp"

namespace pitchboard {
namespace {

/// A level cut that reaches past a prop's middle by less counts as on one side.
constexpr Length kLeastPiece = inches(0.1);

struct Edge {
  Point from, to;
  [[nodiscard]] Length run() const { return abs(from.a - to.a); }
  [[nodiscard]] Length fall() const { return abs(from.b - to.b); }
};

std::vector<Edge> edges_of(const Polygon& outline) {
  std::vector<Edge> out;
  for (std::size_t i = 0; i < outline.size(); ++i) out.push_back({outline[i], outline[(i + 1) % outline.size()]});
  return out;
}

/// RETURNS the span that a level cut is over.
std::size_t span_over(const StringerReading& reading, Length x) {
  return static_cast<std::size_t>(
      std::ranges::count_if(reading.props, [&](const Interval& prop) { return prop.middle() < x; }));
}

/// A level cut over a prop is loaded as two: people may stand on either side alone.
void add_load(SawtoothModel& model, const Edge& edge, const StringerReading& reading) {
  Point from = edge.from, to = edge.to;
  if (from.a > to.a) std::swap(from, to);
  for (const Interval& prop : reading.props) {
    const Length x = prop.middle();
    if (x < from.a + kLeastPiece || x > to.a - kLeastPiece) continue;
    const Point cut{x, from.b + (to.b - from.b) * ((x - from.a) / (to.a - from.a))};
    model.loads.push_back({from, cut});
    from = cut;
  }
  model.loads.push_back({from, to});
}

/// Loads the spans in turn, as `worst_of_uniform` does: RETURNS whether each has people on it, all of them first.
std::vector<std::vector<bool>> patterns(std::size_t spans) {
  std::vector<std::vector<bool>> out;
  for (std::size_t empty = 0; empty < std::size_t{1} << spans; ++empty) {
    std::vector<bool>& loaded = out.emplace_back();
    for (std::size_t i = 0; i < spans; ++i) loaded.push_back((empty >> i) % 2 == 0);
  }
  return out;
}

void keep_worst(SawtoothResult& worst, const SawtoothResult& other) {
  for (std::size_t i = 0; i < worst.bays.size(); ++i) {
    SawtoothBay& bay = worst.bays[i];
    bay.mid_down = std::max(bay.mid_down, other.bays[i].mid_down);
    bay.mid_normal = std::max(bay.mid_normal, other.bays[i].mid_normal);
    bay.bottom_stress = std::max(bay.bottom_stress, other.bays[i].bottom_stress);
  }
  for (std::size_t i = 0; i < worst.props.size(); ++i) {
    SawtoothProp& prop = worst.props[i];
    prop.reaction = std::max(prop.reaction, other.props[i].reaction);
    prop.bottom_stress = std::min(prop.bottom_stress, other.props[i].bottom_stress);
    prop.throat_stress = std::max(prop.throat_stress, other.props[i].throat_stress);
  }
}

SawtoothResult worst_of(const std::vector<SawtoothResult>& results) {
  SawtoothResult worst = results.front();
  for (const SawtoothResult& other : results) keep_worst(worst, other);
  return worst;
}

/// The throat beam of member_stringer.cpp, read where the plate is.
SawtoothResult throat_beam(const StringerReading& reading, StringerBeam beam) {
  beam.board.member.width = throat_of(beam.board.member.width, beam.rise, beam.going, beam.over_cut);
  const Rectangle section = section_of(beam.board);
  HandSheet unread(false);
  const Stiffness stiffness = write_stiffness(unread, beam.board, section);
  const double cosine = beam.going / std::hypot(beam.rise, beam.going);
  const std::vector<double>& spans = reading.spans;
  std::vector<double> slopes;
  for (const double span : spans) slopes.push_back(span / cosine);
  std::vector<SawtoothResult> results;
  for (const std::vector<bool>& loaded : patterns(spans.size())) {
    BeamLoads level, square;
    for (const bool people : loaded) {
      level.uniform.push_back((beam.dead + (people ? beam.live : 0.0)) / kInchesPerFoot);
      square.uniform.push_back(level.uniform.back() * cosine * cosine);
    }
    const BeamResult flat = solve_beam(spans, level), sloped = solve_beam(slopes, square);
    SawtoothResult& result = results.emplace_back();
    double from = reading.head_x;
    for (std::size_t i = 0; i < spans.size(); ++i) {
      const double sag = sag_at(slopes, square, sloped, i, slopes[i] / 2.0, stiffness).total();
      double most = 0;
      constexpr int kPlaces = 48;
      for (int k = 1; k < kPlaces; ++k) most = std::max(most, moment_at(spans, level, flat, i, spans[i] * k / kPlaces));
      result.bays.push_back({from, from + spans[i], sag * cosine, sag, most / section.modulus()});
      from += spans[i];
      result.reactions_down += flat.reactions[i];
      if (i + 1 == spans.size()) continue;
      const double hogging = std::max(-flat.support_moments[i + 1], 0.0) / section.modulus();
      result.props.push_back({from, flat.reactions[i + 1], -hogging, hogging});
    }
    result.reactions_down += flat.reactions.back();
  }
  return worst_of(results);
}

}  // namespace

void check_plate(Calculator& c) {
  if (c.flight.kind == StringerKind::solid) return;
  const std::vector<StringerReading> readings = stringers_of(c.frame);
  const auto worst = std::ranges::max_element(readings, {}, &StringerReading::tributary);
  if (worst == readings.end()) return;
  const Part& part = c.frame.parts[worst->part];
  const StringerBeam beam = beam_of(c, *worst);
  const Timber& wood = beam.board;
  if (!wood.values || throat_of(wood.member.width, beam.rise, beam.going, beam.over_cut) <= 0) return;
  HandSheet unread(false);
  const double e = adjusted(unread, *wood.values, wood.member, wood.service, Value::stiffness);

  SawtoothModel model;
  model.outline = part.solid.outline;
  model.thickness = in_inches(part.solid.span.size());
  model.wood = plane_wood(e, part.grain_a, part.grain_b);
  const double slope = beam.rise / beam.going;
  for (const Edge& edge : edges_of(model.outline)) {
    const bool level = edge.run() > edge.fall() * (2.0 / std::max(slope, 0.1)) && edge.run() > inches(0.25);
    const double middle = in_inches((edge.from.a + edge.to.a) / 2.0), z = in_inches((edge.from.b + edge.to.b) / 2.0);
    const bool foot =
        middle > worst->foot_from - 0.01 && middle < worst->foot_to + 0.01 &&
        z < in_inches(extent_b(model.outline).from) + std::max(2.0, 0.1 * in_inches(extent_b(model.outline).size()));
    if (level && foot) {
      model.supports.push_back({edge.from, edge.to, 0, 1});
    } else if (level) {
      add_load(model, edge, *worst);
    }
    if (edge.run() < inches(0.01) && std::abs(middle - worst->head_x) < 0.01)
      model.supports.push_back({edge.from, edge.to, 0, 1});
    // The foot is kept from sliding; the head only hangs.
  }
  if (model.supports.empty() || model.loads.empty()) return;
  const auto foot = std::ranges::find_if(
      model.supports, [](const EdgeSupport& s) { return abs(s.from.b - s.to.b) < abs(s.from.a - s.to.a); });
  if (foot == model.supports.end()) return;
  model.supports.push_back({foot->from, foot->to, 1, 0});
  // Upright, not square to the edge: the tie takes what would slide down the seat, and posts in post bases give way
  // before they push level.
  const auto lower_edge_at = [&](Length x) {
    Point out{x, extent_b(model.outline).to};
    for (const Interval& wood_there : slice_at_a(model.outline, x)) out.b = std::min(out.b, wood_there.from);
    return out;
  };
  for (const Interval& prop : worst->props)
    model.supports.push_back({lower_edge_at(prop.from), lower_edge_at(prop.to), 0, 1});
  std::vector<std::vector<EdgeLoad>> cases;
  for (const std::vector<bool>& loaded : patterns(worst->spans.size())) {
    std::vector<EdgeLoad>& loads = cases.emplace_back(model.loads);
    for (EdgeLoad& load : loads) {
      const double people = loaded[span_over(*worst, (load.from.a + load.to.a) / 2.0)] ? beam.live : 0.0;
      load.down = (beam.dead + people) / kInchesPerFoot * in_inches(abs(load.from.a - load.to.a));
    }
  }
  const std::vector<SawtoothResult> results = solve_sawtooth(model, mesh_sawtooth(model), cases);
  if (results.empty()) return;
  c.out.sawtooth = worst_of(results);
  c.out.throat_beam = throat_beam(*worst, beam);
}

}  // namespace pitchboard
