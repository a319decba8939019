#include <algorithm>

#include "engine/base/catalog.hpp"
#include "engine/frame/frame.hpp"
#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {

Polygon board_outline(const Part& part) {
  Polygon out = turned(part.solid.outline, part.grain_a, part.grain_b);
  const Length a = extent_a(out).from, b = extent_b(out).from;
  for (Point& p : out) p = {p.a - a, p.b - b};
  return out;
}

Length board_length(const Part& part) {
  if (part.across_outline) return part.solid.span.size();
  Interval length;
  for (const Point& p : part.solid.outline) {
    const Length a = turned(p, part.grain_a, part.grain_b).a;
    if (&p == &part.solid.outline.front()) length = {a, a};
    length = {std::min(length.from, a), std::max(length.to, a)};
  }
  return length.size();
}

std::string footing_of(const std::string& post_mark) { return post_mark + "F"; }

std::string_view kind_words(PartKind kind) {
  switch (kind) {
    case PartKind::stringer:
      return "stringer";
    case PartKind::hanger_board:
      return "hanger board";
    case PartKind::block:
      return "block";
    case PartKind::riser:
      return "riser board";
    case PartKind::tread:
      return "tread";
    case PartKind::kicker:
      return "kicker";
    case PartKind::post:
      return "post";
    case PartKind::top_rail:
      return "top rail";
    case PartKind::bottom_rail:
      return "bottom rail";
    case PartKind::cap:
      return "cap";
    case PartKind::handrail:
      return "handrail";
    case PartKind::baluster:
      return "baluster";
    case PartKind::support_beam:
      return "support beam";
    case PartKind::support_post:
      return "support post";
    case PartKind::connector:
      return "connector";
    case PartKind::pad_layer:
      return "landing";
    case PartKind::footing:
      return "footing";
    case PartKind::existing:
      return "there already";
  }
  return "";
}

Length grip(const Frame& frame, const Fastener& fastener) {
  if (fastener.joins.empty()) return fastener.length;
  const std::vector<Interval> way =
      inside(frame.parts[fastener.joins.back()].solid, fastener.head, fastener.direction, fastener.length);
  return way.empty() ? fastener.length : way.back().to;
}

std::vector<Hole> holes(const Frame& frame, const Fastener& fastener) {
  std::vector<Hole> out;
  const HardwareRow* row = find_hardware(fastener.item);
  if (!row) return out;
  for (const std::size_t joined : fastener.joins) {
    const Part& part = frame.parts[joined];
    if (part.kind == PartKind::connector) continue;
    const std::vector<Interval> way = inside(part.solid, fastener.head, fastener.direction, fastener.length);
    if (way.empty()) continue;  // the clash test reports it
    const bool pilot = joined == fastener.joins.back() && row->kind != "bolt";
    const SpeciesRow* wood = find_species(part.species);
    const bool hard = wood && wood->gravity > kHardWoodGravity;
    const double drill = !pilot ? row->clearance_drill : hard ? row->pilot_hard : row->pilot_soft;
    out.push_back({joined, pilot ? HoleKind::pilot : HoleKind::clearance, inches(drill),
                   moved(fastener.head, fastener.direction, way.front().from), way.front().size()});
  }
  return out;
}

bool is_cut_from_board(PartKind kind) {
  return kind != PartKind::connector && kind != PartKind::pad_layer && kind != PartKind::footing &&
         kind != PartKind::existing;
}

}  // namespace pitchboard
