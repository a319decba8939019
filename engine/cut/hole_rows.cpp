// Where to drill: every hole of every fastener, in the axes of the board that lies on the trestles.

#include "engine/cut/mark_out.hpp"

namespace pitchboard {
namespace {

/// Sand, base and gravel give way to a spike, metal comes bored: neither is drilled.
bool is_drilled(const Part& part) {
  if (part.kind == PartKind::pad_layer) return part.section.nominal == "concrete" || part.section.nominal == "pavers";
  return part.kind != PartKind::connector;
}

std::string face_words(Axis normal, bool far) {
  switch (normal) {
    case Axis::x:
      return far ? "front" : "back";
    case Axis::y:
      return far ? "right" : "left";
    case Axis::z:
      break;
  }
  return far ? "top" : "underside";
}

HoleRow row_of(const Part& part, const Fastener& fastener, const Hole& hole) {
  HoleRow row{.part = part.mark,
              .fastener = fastener.item,
              .mark = fastener.mark,
              .diameter = hole.diameter,
              .depth = hole.depth,
              .kind = hole.kind};
  const Prism& solid = part.solid;
  const Length from_face = hole.at.along(solid.normal) - solid.span.from;
  const bool through_near = abs(from_face) < kTouch, through_far = abs(from_face - solid.span.size()) < kTouch;
  const Polygon turned_outline = turned(solid.outline, part.grain_a, part.grain_b);
  const Point turned_hole = turned({in_plane_of(solid, hole.at)}, part.grain_a, part.grain_b)[0];
  const Point at = turned_hole - Point{extent_a(turned_outline).from, extent_b(turned_outline).from};
  if (part.across_outline) {  // the board's length is the prism's own
    row.face = through_near || through_far ? "end" : "edge";
    row.along = from_face;
    row.across = at.a;
    if (row.face == "end") {
      row.along = at.a;
      row.across = at.b;
    } else if (abs(at.b - extent_b(turned_outline).size()) < kTouch) {
      row.face = face_words(Axis::z, true);  // flat boards are bored from above
    }
    return row;
  }
  if (through_near || through_far) {
    row.face = face_words(solid.normal, through_far);
    row.along = at.a;
    row.across = at.b;
    return row;
  }
  const bool at_end = at.a < kTouch || at.a > extent_a(turned_outline).size() - kTouch;
  row.face = at_end ? "end" : "edge";
  row.along = at_end ? at.b : at.a;
  row.across = from_face;
  return row;
}

}  // namespace

std::vector<HoleRow> hole_rows(const Frame& frame) {
  std::vector<HoleRow> rows;
  for (const Fastener& fastener : frame.fasteners) {
    for (const Hole& hole : fastener.holes) {
      const Part& part = frame.parts[hole.part];
      if (is_drilled(part)) rows.push_back(row_of(part, fastener, hole));
    }
  }
  return rows;
}

}  // namespace pitchboard
