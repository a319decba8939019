// Where to drill: every hole of every fastener, in the axes of the board that lies on the trestles.

#include <cmath>

#include "engine/cut/mark_out.hpp"

namespace pitchboard {
namespace {

/// Boards steeper than this slope or stand: one of their ends is the lower one.
constexpr double kSloping = 0.01;

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

/// Which side of the part looks along (u, v) of its outline's plane: "lower edge", "front edge", "left edge".
std::string edge_words(const Part& part, double u, double v) {
  const Axis normal = part.solid.normal;
  // On a sloping board the one edge is lower all along, whatever else it faces.
  if (normal != Axis::z && std::abs(v) > kSloping) return v < 0 ? "lower edge" : "upper edge";
  if (normal == Axis::z && std::abs(v) > std::abs(u)) return face_words(Axis::y, v > 0) + " edge";
  return face_words(normal == Axis::x ? Axis::y : Axis::x, u > 0) + " edge";
}

/// Whether the board is measured from the far end of its outline, and what the end that it is measured from is called.
struct EndFrom {
  bool far = false;
  std::string words;
};

EndFrom end_from(const Part& part) {
  const Axis normal = part.solid.normal;
  const double u = part.grain_a, v = part.grain_b;
  if (normal != Axis::z && std::abs(v) > kSloping) {
    const std::string words = part.kind == PartKind::stringer                                      ? "foot end"
                              : part.kind == PartKind::post || part.kind == PartKind::support_post ? "foot"
                                                                                                   : "lower end";
    return {v < 0, words};
  }
  // Level boards: across the stair from the left, along it from the house.
  const bool with_y = normal == Axis::x || (normal == Axis::z && std::abs(v) > std::abs(u));
  const double way = normal == Axis::z && with_y ? v : u;
  return {way < 0, with_y ? "left end" : "house end"};
}

HoleRow row_of(const Part& part, const Fastener& fastener, const Hole& hole) {
  HoleRow row{.part = part.mark,
              .fastener = fastener.item,
              .mark = fastener.mark,
              .from = {},
              .diameter = hole.diameter,
              .depth = hole.depth,
              .kind = hole.kind};
  const Prism& solid = part.solid;
  const Length from_face = hole.at.along(solid.normal) - solid.span.from;
  const bool through_flat = abs(from_face) < kTouch || abs(from_face - solid.span.size()) < kTouch;
  row.face = entry_face(part, fastener.direction, through_flat);
  if (part.mark == "rim") {
    // The rim runs on past the stair on both sides: no end of it is at hand, and its head sheet counts like this.
    row.along = hole.at.y;
    row.across = -hole.at.z;
    row.from = "left stringer's outer face, deck surface down";
    return row;
  }
  const Polygon board = turned(solid.outline, part.grain_a, part.grain_b);
  const Point hole_in_board = turned(in_plane_of(solid, hole.at), part.grain_a, part.grain_b);
  const Interval length = extent_a(board), width = extent_b(board);
  const Point at = hole_in_board - Point{length.from, width.from};
  const std::string long_edge = edge_words(part, part.grain_b, -part.grain_a);
  const std::string first_face = face_words(solid.normal, false) + (solid.normal == Axis::z ? "" : " face");
  const bool at_tip = at.a < kTouch || at.a > length.size() - kTouch;
  if (part.across_outline) {
    // The board's length runs along the prism's own: its outline is the end grain.
    const std::string end = solid.normal == Axis::y ? "left end" : solid.normal == Axis::x ? "house end" : "foot";
    const std::string first_edge = edge_words(part, -part.grain_a, -part.grain_b);
    if (through_flat) row.face = "end";
    row.along = through_flat ? at.a : from_face;
    row.across = through_flat || at_tip ? at.b : at.a;
    row.from = through_flat ? first_edge + ", " + long_edge : end + ", " + (at_tip ? long_edge : first_edge);
    return row;
  }
  if (!through_flat && at_tip) {
    row.face = "end";
    row.along = at.b;
    row.across = from_face;
    row.from = long_edge + ", " + first_face;
    return row;
  }
  const EndFrom end = end_from(part);
  row.along = end.far ? length.size() - at.a : at.a;
  row.across = through_flat ? at.b : from_face;
  row.from = end.words + ", " + (through_flat ? long_edge : first_face);
  return row;
}

}  // namespace

std::vector<HoleRow> hole_rows(const Frame& frame) {
  std::vector<HoleRow> rows;
  for (const Fastener& fastener : frame.fasteners) {
    for (const Hole& hole : holes(frame, fastener)) {
      const Part& part = frame.parts[hole.part];
      if (is_drilled(part)) rows.push_back(row_of(part, fastener, hole));
    }
  }
  return rows;
}

}  // namespace pitchboard
