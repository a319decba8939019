#pragma once
// What there is of a stair, found again from its parts alone: treads, risers, nosings, sides. Internal to the
// measuring.

#include <vector>

#include "engine/rules/measured.hpp"

namespace pitchboard {

/// One tread, all its boards together.
struct FoundTread {
  Interval x, y, z;        ///< z of the front board
  bool has_riser = false;  ///< a board closes the step below it
  Length face;             ///< what the nosing projects past: riser board, or the stringer's plumb cut
  bool has_face = false;
};

struct StairFound {
  const Job& job;
  const Site& site;
  const Flight& flight;
  const Frame& frame;
  std::vector<FoundTread> treads;  ///< lowest first
  bool deck_is_nosing = false;     ///< the deck's edge lies above the highest tread
  Point deck_edge;
  std::vector<Point> nosings;  ///< front edges, lowest first, the deck's edge included when it is one
  Interval width;              ///< side edges of the treads
  std::vector<const Part*> stringers;
  bool solid = false;
  Length landing_uncertainty;
  double cosine = 1;  ///< of the pitch

  StairFound(const Job& job, const Site& site, const Flight& flight, const Frame& frame);
  /// Height of the line of nosings, carried on straight beyond its ends.
  [[nodiscard]] Length nosing_line(Length x) const;
  [[nodiscard]] bool is_left(const Part& part) const;
  /// Parts of a side of any of these kinds; posts that were there count as posts.
  [[nodiscard]] std::vector<const Part*> side_parts(bool left, std::initializer_list<PartKind> kinds) const;
  [[nodiscard]] bool has_guard(bool left) const;
  /// Greatest fall from the stair's side, or the deck's edge at its head, to the ground within 36 in beyond the edge.
  [[nodiscard]] Sample drop(bool left) const;
};

[[nodiscard]] inline Interval x_of(const Part& part) { return box(part.solid)[0]; }
[[nodiscard]] inline Interval y_of(const Part& part) { return box(part.solid)[1]; }
[[nodiscard]] inline Interval z_of(const Part& part) { return box(part.solid)[2]; }
/// RETURNS the part's stretch of z at `x`, its lowest to its highest.
[[nodiscard]] Interval z_at(const Part& part, Length x);
/// RETURNS the part as seen from the side, in x and z.
[[nodiscard]] Polygon side_view(const Part& part);
[[nodiscard]] bool is_post(const Part& part);

// One room for one group of quantities.
void measure_steps(const StairFound& stair, Measured& out);
void measure_width_and_landing(const StairFound& stair, Measured& out);
void measure_rails(const StairFound& stair, Measured& out);
void measure_stringers_and_wood(const StairFound& stair, Measured& out);

}  // namespace pitchboard
