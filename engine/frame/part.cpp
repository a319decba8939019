#include <algorithm>

#include "engine/frame/frame.hpp"

namespace pitchboard {

Polygon board_outline(const Part& part) {
  Polygon out = turned(part.solid.outline, part.grain_a, part.grain_b);
  const Length a = extent_a(out).from, b = extent_b(out).from;
  for (Point& p : out) p = {p.a - a, p.b - b};
  return out;
}

Length board_length(const Part& part) {
  if (part.across_outline) return part.solid.span.size();
  return extent_a(turned(part.solid.outline, part.grain_a, part.grain_b)).size();
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

bool is_cut_from_board(PartKind kind) {
  return kind != PartKind::connector && kind != PartKind::pad_layer && kind != PartKind::footing &&
         kind != PartKind::existing;
}

}  // namespace pitchboard
