#pragma once
// One side of the stair: the lines that its posts and rails are set out from. Internal to the frame.

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "engine/frame/layout.hpp"

namespace pitchboard {

/// Everything that depends on the side: the outer faces and which way is out of the stair.
struct Side {
  const Layout& l;
  Line line;
  bool left;
  double out;   ///< -1 left, +1 right: direction of y away from the stair
  Length face;  ///< y of the outer stringer's outer face, and of the posts' inner face
  Section post, rail, cap;
  Length cap_depth, rail_depth;  ///< plumb depths of cap and rail on the rake
  std::string letter;

  Side(const Layout& layout, Line line_)
      : l(layout),
        line(line_),
        left(line_ == Line::left),
        out(left ? -1 : 1),
        face(left ? Length() : layout.width()),
        post(section_of(layout.job.rails.post)),
        rail(section_of(layout.job.rails.rail)),
        cap(section_of(layout.job.rails.cap)),
        cap_depth(cap.thickness / layout.cosine),
        rail_depth(rail.width / layout.cosine),
        letter(left ? "L" : "R") {}

  /// Stretch of y from `inner` to `outer`, both measured outwards from the posts' inner face.
  [[nodiscard]] Interval band(Length inner, Length outer) const {
    const Length p = face + inner * out, q = face + outer * out;
    return {std::min(p, q), std::max(p, q)};
  }
  /// Underside of the cap: top of posts and top rail.
  [[nodiscard]] Length rail_top(Length x) const { return l.nosing_line(x) + l.job.rails.height - cap_depth; }
  /// Underside of the bottom rail.
  [[nodiscard]] Length rail_bottom(Length x) const { return l.nosing_line(x) + l.bottom_rail_gap() / l.cosine; }
  [[nodiscard]] Direction outwards() const { return {0, out, 0}; }
  [[nodiscard]] Direction inwards() const { return {0, -out, 0}; }
};

/// A strip between two lines of the rake, cut plumb at both ends.
inline Polygon raked(const Side& side, Interval x, Length above_line_from, Length above_line_to) {
  const auto z = [&](Length at, Length above) { return side.l.nosing_line(at) + above; };
  return {{x.from, z(x.from, above_line_from)},
          {x.to, z(x.to, above_line_from)},
          {x.to, z(x.to, above_line_to)},
          {x.from, z(x.from, above_line_to)}};
}

inline Part part_of(const Side& side, PartKind kind, std::string mark, std::string use, Section section, Interval y,
                    Polygon outline) {
  Part part =
      wood(side.l.job, kind, std::move(mark), std::move(use), std::move(section), Axis::y, y, std::move(outline));
  part.side = side.line;
  if (!side.l.job.wood.rail_species.empty()) part.species = side.l.job.wood.rail_species;
  return part;
}

inline Part&& along_rake(Part&& part, const Layout& l) {
  part.grain_a = l.cosine;
  part.grain_b = -l.sine;
  return std::move(part);
}

}  // namespace pitchboard
