#pragma once
// Members of a stair by themselves: geometry, loads and wood in, checks with every figure out. Nothing of the frame is
// known here, so that each can be tried on a worked example. docs/strength.md tells the models.
//
// UNITS   inches, pounds, psi; loads as people say them: psf, lb per ft. Gaps in the wood's values never fail a
//         function: its checks are `not_checked` and say what is missing.
// SOURCE  NDS 2018 chapter 3 and statics.

#include <optional>
#include <string>
#include <vector>

#include "engine/strength/statics.hpp"
#include "engine/strength/wood_values.hpp"

namespace pitchboard {

/// A board or post, where it is, and what it works under. `service.flat` is set by the functions that know it.
struct Timber {
  std::string part;  ///< "tread": Check::member
  std::string mark;  ///< "T3a": Check::where
  Member member;
  Service service;
  std::optional<ReferenceValues> values;
  std::string why_not;  ///< why there are none
};

// --- treads

struct TreadBoard {
  Timber board;
  double span = 0;            ///< between the middles of the bearings of two stringers
  double overhang = 0;        ///< beyond the outer stringer's bearing; 0: none
  double live = 0, dead = 0;  ///< psf
  double point = 0;           ///< lb
  int shared_by = 1;          ///< boards that carry `point` together; 1 unless they are joined
  double greatest_span = 0;   ///< the maker's, center to center; 0: none printed
  std::string maker;          ///< where it is printed
};
/// RETURNS bending under each of the two loads, shear, deflection under the single one, the overhang and the maker's
/// span, as far as each applies. The board spans two stringers only: conservative where it carries on.
[[nodiscard]] std::vector<Check> check_tread(const TreadBoard& tread);

// --- stringers

/// RETURNS what a step cuts off a board square to its edge: R T / sqrt(R^2 + T^2).
[[nodiscard]] double notch_depth(double rise, double going);
/// RETURNS what is left of a cut stringer, square to its edge. `over_cut`: how far a saw ran past the inner corner,
/// along its line; the plumb or the level cut, whichever costs more.
[[nodiscard]] double throat_of(double width, double rise, double going, double over_cut);

struct StringerBeam {
  Timber board;
  bool cut = true;
  double rise = 0, going = 0;  ///< one step
  double over_cut = 0;
  std::vector<double> spans;  ///< level, between bearings, from the foot up
  double live = 0, dead = 0;  ///< lb per level ft
  double point = 0;           ///< lb on this stringer alone
};
/// Moments, shear and reactions under each of the two loads, which do not act together; the level beam's.
struct StringerWorst {
  BeamWorst people, single;
};
[[nodiscard]] StringerWorst worst_of(const StringerBeam& stringer);
/// RETURNS bending, bending with the force along the slope, shear and deflections, each under people everywhere and
/// under the single load. `worst`: of that stringer.
[[nodiscard]] std::vector<Check> check_stringer(const StringerBeam& stringer, const StringerWorst& worst);
/// Plumb forces on the supports from the foot up, the worse of both loads for each; a negative least one lifts.
struct StringerReactions {
  std::vector<double> greatest, least;
  std::vector<double> everywhere;  ///< greatest under people alone: these add up over the stringers of a stair
};
[[nodiscard]] StringerReactions reactions_of(const StringerWorst& worst);

// --- bearing

/// One of the two pieces of wood that press on each other.
struct BearingFace {
  Timber board;
  double degrees_from_grain = 90;
};
struct Bearing {
  std::string part, mark, what;
  std::vector<BearingFace> faces;
  double length = 0, width = 0;
  double force = 0;
  std::string force_words;  ///< "reaction of the head"
};
/// RETURNS the pressure held against the weaker face.
[[nodiscard]] Check check_bearing(const Bearing& bearing);
/// RETURNS angle between the grain of a stringer and a plumb force (level seat) or a level one (plumb cut), degrees.
[[nodiscard]] double seat_angle(double rise, double going);
[[nodiscard]] double plumb_cut_angle(double rise, double going);

/// RETURNS pressure on the ground under a footing; `weight` is its own.
[[nodiscard]] Check check_ground(const std::string& mark, double force, double weight, double length, double width,
                                 double soil);

// --- ends

struct NotchedEnd {
  Timber board;
  double depth = 0;          ///< d, of the whole member
  double left = 0;           ///< d_n, over the notch
  bool tension_side = true;  ///< notch in the stretched face
  double past_support = 0;   ///< e, from the support's inner edge to the notch's end; compressed face only
  double shear = 0;          ///< V, square to the member
};
/// SOURCE NDS 2018 3.4.3.2.
[[nodiscard]] Check check_notched_end(const NotchedEnd& end);

struct JointedEnd {
  Timber board;
  double depth = 0;
  double effective = 0;  ///< d_e: depth less the distance from the unloaded edge to the nearest fastener
  double from_end = 0;   ///< from the member's end to that fastener
  double shear = 0;
};
/// SOURCE NDS 2018 3.4.3.3.
[[nodiscard]] Check check_jointed_end(const JointedEnd& end);

// --- posts

struct GuardPost {
  Timber post;
  double load = 0;          ///< lb at the top, outwards
  double height = 0;        ///< of the load over the walking surface beside the post
  double cover = 0;         ///< thickness of the boards between that surface and the framing's top
  double upper_down = 0;    ///< a: from the framing's top to the upper bolt
  double bolt_spacing = 0;  ///< d, between upper and lower bolt
  double hole = 0;          ///< diameter, in line with the load; 0: none
};
struct GuardPostForces {
  double upper_tension = 0;  ///< pull in the upper bolt
  double lower_push = 0;     ///< at the lower one
  double moment = 0;         ///< in the post at the upper bolt
};
/// The post turns about the lower bolt: T d = P (h + t + a + d), C = T - P.
[[nodiscard]] GuardPostForces guard_post_forces(const GuardPost& post);
/// RETURNS bending of the post, whole and less the bolt's hole, and its shear; the pull is among the figures (T).
[[nodiscard]] std::vector<Check> check_guard_post(const GuardPost& post);

struct SupportPost {
  Timber post;
  double length = 0;        ///< clear height; hinged ends
  double load = 0;          ///< lb
  double eccentricity = 0;  ///< e, of the load from the post's middle line
  double side_moment = 0;   ///< in-lb from loads across
};
/// SOURCE NDS 2018 3.7, 3.9.2, 15.4.
[[nodiscard]] Check check_support_post(const SupportPost& post);

// --- rails

struct RailBoard {
  Timber board;
  bool on_edge = true;  ///< the wide face stands plumb
};
struct RailSpan {
  std::vector<RailBoard> carries;  ///< one: alone; more: joined, so that they bend alike and share by stiffness
  double span = 0;                 ///< along the rail, between posts or brackets
  double point = 0;                ///< lb at midspan
  double along = 0;                ///< lb per ft; 0: none
  bool level = true;               ///< level push; otherwise down
};
/// RETURNS bending and shear of each board, under the single load and under the one along the rail where there is one.
[[nodiscard]] std::vector<Check> check_rail(const RailSpan& rail);

struct Baluster {
  Timber wood;
  bool metal = false;
  double span = 0;     ///< between its fixings
  double spacing = 0;  ///< center to center
  double infill = 0;   ///< lb on 1 sq ft
};
[[nodiscard]] std::vector<Check> check_baluster(const Baluster& baluster);

// --- head and foot

struct HangerBoard {
  Timber board;
  double span = 0;  ///< between the bolts or drop blocks that hold it
  double down = 0;  ///< lb that one stringer hangs on it, at midspan
  double out = 0;   ///< lb that one stringer pushes against it; the other case of thrust_of
};
[[nodiscard]] std::vector<Check> check_hanger_board(const HangerBoard& board);

/// A flight that leans: its head bears against the rim and nothing there holds it up.
struct Thrust {
  double push = 0;  ///< level, the same at head and foot
  std::vector<Figure> figures;
};
/// RETURNS the level force of a stringer that carries `load` in all, its middle `from_foot` out of the level length.
/// Moments about the foot: H rise = W x.
[[nodiscard]] Thrust thrust_of(double load, double from_foot, double rise);

}  // namespace pitchboard
