// Where to drill: every hole of every fastener, in the axes of the board that lies on the trestles.

#include <cmath>

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

/// The face of the part that the hole is bored into, as the stair stands: the one that looks back along the fastener.
std::string entry_face(const Part& part, Direction way, bool through_flat) {
  if (through_flat) {
    const double along = part.solid.normal == Axis::x ? way.x : part.solid.normal == Axis::y ? way.y : way.z;
    return face_words(part.solid.normal, along < 0);
  }
  const bool with_x = part.solid.normal != Axis::x, with_z = part.solid.normal != Axis::z;
  const Axis first = with_x ? Axis::x : Axis::y, second = with_z ? Axis::z : Axis::y;
  const double u = with_x ? way.x : way.y, v = with_z ? way.z : way.y;
  return std::abs(u) > std::abs(v) ? face_words(first, u < 0) : face_words(second, v < 0);
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
  const bool through_flat = abs(from_face) < kTouch || abs(from_face - solid.span.size()) < kTouch;
  const Polygon board = turned(solid.outline, part.grain_a, part.grain_b);
  const Point hole_in_board = turned({in_plane_of(solid, hole.at)}, part.grain_a, part.grain_b)[0];
  const Point at = hole_in_board - Point{extent_a(board).from, extent_b(board).from};
  row.face = entry_face(part, fastener.direction, through_flat);
  // The board's length runs along the prism's own where its outline is the end grain.
  const bool at_end =
      part.across_outline ? through_flat : !through_flat && (at.a < kTouch || at.a > extent_a(board).size() - kTouch);
  if (at_end) row.face = "end";
  if (part.across_outline) {
    row.along = at_end ? at.a : from_face;
    row.across = at_end ? at.b : at.a;
  } else {
    row.along = at_end ? at.b : at.a;
    row.across = through_flat ? at.b : from_face;
  }
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
