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

bool is_cut_from_board(PartKind kind) {
  return kind != PartKind::connector && kind != PartKind::pad_layer && kind != PartKind::footing &&
         kind != PartKind::existing;
}

}  // namespace pitchboard
