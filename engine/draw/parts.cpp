#include "engine/draw/parts.hpp"

#include <algorithm>
#include <array>
#include <functional>

#include "engine/base/sort.hpp"

namespace pitchboard {
namespace {

Hatch ground_hatch(const Part& part) {
  const std::string& material = part.section.nominal;
  if (material == "sand") return Hatch::sand;
  if (material == "base" || material == "gravel") return Hatch::gravel;
  if (material == "concrete" || part.kind == PartKind::existing) return Hatch::concrete;
  return Hatch::none;
}

}  // namespace

Polygon seen_along(const Part& part, Axis view) {
  if (part.solid.normal == view) return part.solid.outline;
  const std::array<Interval, 3> extents = box(part.solid);
  const auto pair = view == Axis::x   ? std::pair{extents[1], extents[2]}
                    : view == Axis::y ? std::pair{extents[0], extents[2]}
                                      : std::pair{extents[0], extents[1]};
  return rectangle(pair.first, pair.second);
}

bool is_ground(const Part& part) {
  return part.kind == PartKind::pad_layer || (part.kind == PartKind::existing && part.mark == "pad");
}

SheetPath look_of(const Part& part, Axis view) {
  SheetPath path{.pen = Pen::medium, .closed = true, .tint = kPaperTint};
  const bool end_grain = part.across_outline && part.solid.normal == view;
  switch (part.kind) {
    case PartKind::stringer:
      path.pen = Pen::thick;
      path.tint = kCedarTint;
      break;
    case PartKind::existing:
      path.pen = Pen::thin;
      path.tint = kWeatheredTint;
      if (is_ground(part)) path.hatch = ground_hatch(part);
      break;
    case PartKind::pad_layer:
      path.pen = Pen::thin;
      path.tint = kStoneTint;
      path.hatch = view == Axis::z ? Hatch::none : ground_hatch(part);
      break;
    case PartKind::footing:
      path.tint = kStoneTint;
      path.hatch = view == Axis::z ? Hatch::none : Hatch::concrete;
      break;
    case PartKind::connector:
      path.pen = Pen::thin;
      path.tint = kStoneTint;
      break;
    case PartKind::baluster:
      path.pen = Pen::thin;
      break;
    case PartKind::tread:
    case PartKind::riser:
    case PartKind::kicker:
    case PartKind::block:
    case PartKind::hanger_board:
    case PartKind::support_beam:
    case PartKind::support_post:
      path.tint = kCedarTint;
      break;
    case PartKind::post:
    case PartKind::top_rail:
    case PartKind::bottom_rail:
    case PartKind::cap:
    case PartKind::handrail:
      break;
  }
  if (end_grain && part.kind != PartKind::pad_layer && part.kind != PartKind::footing &&
      part.kind != PartKind::baluster)
    path.hatch = Hatch::wood_end;
  return path;
}

std::vector<std::size_t> right_to_left(const Frame& frame) {
  std::vector<std::size_t> order(frame.parts.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  sort_stably(order, std::greater<>(), [&](std::size_t i) { return box(frame.parts[i].solid)[1].from; });
  return order;
}

Polygon whole_extent(const Frame& frame, Axis view) {
  Polygon corners;
  for (const Part& part : frame.parts) {
    if (part.kind == PartKind::existing || part.kind == PartKind::footing || is_ground(part)) continue;
    Polygon seen = seen_along(part, view);
    // Of a post in concrete, what stands over its footing.
    const Part* footing = find_part(frame, footing_of(part.mark));
    if (footing && view != Axis::z) seen = clip_b(seen, {footing->solid.span.to, extent_b(seen).to});
    corners.insert(corners.end(), seen.begin(), seen.end());
  }
  return rectangle(extent_a(corners), extent_b(corners));
}

const Part* find_part(const Frame& frame, std::string_view mark) {
  const auto found = std::ranges::find(frame.parts, mark, &Part::mark);
  return found == frame.parts.end() ? nullptr : &*found;
}

std::string side_words(Line side) { return side == Line::left ? "left" : side == Line::right ? "right" : "middle"; }

}  // namespace pitchboard
