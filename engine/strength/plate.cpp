// The worst cut stringer of the frame as a plate: its own outline, its treads' loads, its bearings.

#include <algorithm>
#include <cmath>

#include "engine/strength/calculator.hpp"

namespace pitchboard {
namespace {

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

}  // namespace

void check_plate(Calculator& c) {
  if (c.flight.kind == StringerKind::solid) return;
  const std::vector<StringerReading>& readings = c.stringers;
  const auto worst = std::ranges::max_element(readings, {}, &StringerReading::tributary);
  if (worst == readings.end()) return;
  if (!worst->props.empty()) {
    c.out.notes.push_back(
        "The plate of finite elements stands for a stringer from head to foot: with supports between them the throat "
        "beam stands alone.");
    return;
  }
  const Part& part = c.frame.parts[worst->part];
  const Timber wood = c.timber(worst->part, "stringer", "duration.live");
  if (!wood.values) return;
  const double e = adjusted(*wood.values, wood.member, wood.service, Value::stiffness).back().value;

  SawtoothModel model;
  model.outline = part.solid.outline;
  model.thickness = in_inches(part.solid.span.size());
  model.wood = plane_wood(e, part.grain_a, part.grain_b);
  const double rise = in_inches(c.flight.unit_rise), going = in_inches(c.flight.going), slope = rise / going;
  const double per_inch = (c.loads.live + c.loads.dead) * worst->tributary / kInchesPerFoot / kInchesPerFoot;
  for (const Edge& edge : edges_of(model.outline)) {
    const bool level = edge.run() > edge.fall() * (2.0 / std::max(slope, 0.1)) && edge.run() > inches(0.25);
    const double middle = in_inches((edge.from.a + edge.to.a) / 2.0), z = in_inches((edge.from.b + edge.to.b) / 2.0);
    const bool foot =
        middle > worst->foot_from - 0.01 && middle < worst->foot_to + 0.01 &&
        z < in_inches(extent_b(model.outline).from) + std::max(2.0, 0.1 * in_inches(extent_b(model.outline).size()));
    if (level && foot) {
      model.supports.push_back({edge.from, edge.to, 0, 1});
    } else if (level) {
      model.loads.push_back({edge.from, edge.to, per_inch * in_inches(edge.run())});
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
  c.out.sawtooth = solve_sawtooth(model, mesh_sawtooth(model));
}

}  // namespace pitchboard
