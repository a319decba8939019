#pragma once
// Fasteners as they stand in the frame: which part is which leg, how the grain runs there, how far the edges are.
// Internal to the stage.
//
// UNITS  inches, degrees. A Vector is along the frame's axes.

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/frame/frame.hpp"
#include "engine/strength/dowel.hpp"
#include "engine/strength/joint_factors.hpp"
#include "engine/strength/wood_values.hpp"

namespace pitchboard {

struct Vector {
  double x = 0, y = 0, z = 0;
};
[[nodiscard]] double dot(Vector p, Vector q);
[[nodiscard]] Vector cross(Vector p, Vector q);
[[nodiscard]] Vector scaled(Vector p, double by);
[[nodiscard]] Vector sum(Vector p, Vector q);
[[nodiscard]] double length_of(Vector p);
/// Of two directions without sense, 0 to 90.
[[nodiscard]] double degrees_between(Vector p, Vector q);

/// What a part is made of, as far as fasteners ask.
struct LegMaterial {
  bool metal = false;                     ///< a bought connector: its steel bears
  bool known = false;                     ///< false: `note` says why
  double gravity = 0;                     ///< G
  std::optional<ReferenceValues> values;  ///< for washers and group action; nothing: `note` says why
  Member member;
  Text source;  ///< where G comes from
  bool from_memory = false;
  Text note;
  Text taken_as;  ///< a sentence on what it is taken for, where nobody said
};

/// The frame as its joints are read: what a part is made of is found when a joint first asks for it.
class JointedFrame {
 public:
  JointedFrame(const Job& job_, const Frame& frame_)
      : job(job_), frame(frame_), woods(job_.wood), materials_(frame_.parts.size()) {}
  const Job& job;
  const Frame& frame;
  Woods woods;
  /// RETURNS a reference that stays good.
  [[nodiscard]] const LegMaterial& material_of(std::size_t part);

 private:
  std::vector<std::unique_ptr<const LegMaterial>> materials_;
};

/// One part on a fastener's way, distances along the axis from the face under its head.
struct LegInFrame {
  std::size_t part = 0;
  double from = 0, to = 0;
  Vector grain;                           ///< length one
  bool end_grain = false;                 ///< the axis runs within 45 degrees of the grain
  const LegMaterial* material = nullptr;  ///< the JointedFrame's
  [[nodiscard]] double thickness() const { return to - from; }
};

/// One fastener of a joint. Two legs; three where a bolt's middle part is loaded: two sides and the main one.
struct StandingDowel {
  const Fastener* fastener = nullptr;
  Dowel dowel;  ///< its length counted from the wood's face: less the washer
  Vector axis;  ///< from head to tip
  LegInFrame side, main;
  std::optional<LegInFrame> far_side;  ///< double shear
  std::string why_not;                 ///< no value can be read: why, and what to do; else empty
};
/// RETURNS the fasteners in their order, as far as the first of which no value can be read.
[[nodiscard]] std::vector<StandingDowel> read_dowels(JointedFrame& jointed, std::span<const std::size_t> fasteners,
                                                     std::size_t loaded);
using LegOf = const LegInFrame& (*)(const StandingDowel&);

/// The distances round the fasteners in one part.
struct GeometryRead {
  double factor = 1;        ///< CDelta; 0: a distance is under its least, `falls_short`
  Text words;               ///< the distance that rules
  Text source;              ///< its table
  std::string falls_short;  ///< which one is too short, and by how much
  bool written = true;      ///< words are made
};
/// RETURNS CDelta of the group in one wooden leg. `push`: what the fasteners push that part with, across their axis.
/// `slenderness`: l/D. All of the group's legs are of the same part. `written`: with words.
[[nodiscard]] GeometryRead read_geometry(const Frame& frame, std::span<const StandingDowel> group, LegOf leg_of,
                                         Vector push, double slenderness, bool written);
/// RETURNS the same for lag screws that are only pulled, in their main members.
[[nodiscard]] GeometryRead read_pulled_lags(const Frame& frame, std::span<const StandingDowel> group, bool written);

/// Fasteners one behind the other in the direction of the load.
struct RowRead {
  int most = 1;            ///< fasteners in the longest row
  double spacing = 0;      ///< least one in that row
  int rows = 1;            ///< rows beside each other
  double group_width = 0;  ///< from the first row to the last
};
[[nodiscard]] RowRead read_rows(std::span<const StandingDowel> group, Vector along);

}  // namespace pitchboard
