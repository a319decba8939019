#pragma once
// The set-out lines that every part is built from, and small makers of parts and fasteners. Internal to the frame.
//
// SYMBOLS  n treads; for tread k (1 lowest): nosing_x(k), tread_z(k) its top front edge; riser_face(k) the visible face
// of the
//          riser under it; cut_face(k) the stringer's plumb cut behind that riser; level_cut(k) the stringer's cut
//          under it.

#include <algorithm>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "data/hardware.hpp"
#include "engine/base/catalog.hpp"
#include "engine/frame/frame.hpp"
#include "engine/frame/shelves.hpp"
#include "engine/shape/treads.hpp"

namespace pitchboard {

/// Why the posts' bolts are there, as each of them says.
constexpr std::string_view kHoldsPost = "holds the post to the stringer";
/// The bolts that hold the posts, and the room that goes with their diameter.
struct PostBolt {
  Length diameter;
  Length least_edge;  ///< from its middle to an edge of the wood
  Length least_end;   ///< from its middle to an end of the wood
  Length apart;       ///< between the middles of two
  Length nut_radius;  ///< washer included

  explicit PostBolt(BoltSize size);
  /// Highest bolt below the underside of a tread between solid stringers.
  [[nodiscard]] Length under_tread() const;
  /// Room that the nuts of a post take along the tread's angle, either way from the post's middle.
  [[nodiscard]] Length nut_room() const;
};

/// The board of the house that the stair hangs on.
struct Rim {
  Length face;         ///< x, its outer one
  Length top, bottom;  ///< z
  Length thickness;

  explicit Rim(const Job& job);
};

struct Layout {
  const Job& job;
  const Site& site;
  const Flight& flight;
  Length rise, going, step;  ///< R, G, sqrt(R² + G²)
  double rake;               ///< R / G
  double sine, cosine;       ///< of the slope
  int treads;
  Length tread_thickness, riser_thickness;  ///< riser_thickness 0: open
  Section stringer;
  std::vector<Length> stringer_y;  ///< left face of each, left to right
  Rim rim;
  Length head_x;  ///< x of the plumb cut at the top
  bool hanger_under = false, hanger_on_face = false;
  bool post_at_foot = false;  ///< a rail post is bolted to the stringer by the lowest riser
  Length kicker_from;         ///< x of the kicker's house side
  Section kicker;
  PostBolt bolt;  ///< as the job asks, or 1/2 in where the lowest rise leaves no wood for thicker ones

  Layout(const Job& job_, const Site& site_, const Flight& flight_);
  [[nodiscard]] Length nosing_x(int k) const { return flight.nosings[static_cast<std::size_t>(k - 1)].a; }
  [[nodiscard]] Length tread_z(int k) const { return flight.nosings[static_cast<std::size_t>(k - 1)].b; }
  [[nodiscard]] Length riser_face(int k) const { return nosing_x(k) - flight.nosing; }
  [[nodiscard]] Length cut_face(int k) const { return riser_face(k) - riser_thickness; }
  [[nodiscard]] Length level_cut(int k) const { return tread_z(k) - tread_thickness; }
  /// Line through the nosings, extended both ways.
  [[nodiscard]] Length nosing_line(Length x) const { return tread_z(1) + (nosing_x(1) - x) * rake; }
  /// Landing surface that the stringers stand on: later finishes not yet laid.
  [[nodiscard]] Length foot_z(Length x, Length y) const { return flight.landing.z_at(x, y) - job.pad.later_finish; }
  /// Underside of the bottom rail above the nosing line, square to it.
  [[nodiscard]] Length bottom_rail_gap() const;
  /// Top of the kicker, level across the stair: it lies on the highest part of the landing under it.
  [[nodiscard]] Length kicker_top() const;
  /// Cut stringers stand over a kicker where the foot is long and tall enough for its notch.
  [[nodiscard]] bool has_kicker() const;
  /// Where the lower edge of a stringer meets the landing under it.
  [[nodiscard]] Length heel_x(Length y) const;
  /// Lower edge of the stringer board.
  [[nodiscard]] Length lower_edge(Length x) const;
  /// True where the wood over the foot takes two bolts of the posts.
  [[nodiscard]] bool foot_takes(const PostBolt& bolts) const;
  [[nodiscard]] bool solid() const { return flight.kind == StringerKind::solid; }
  [[nodiscard]] bool closed() const { return job.stair.riser_boards == Risers::closed; }
  /// Where the deck edge stands proud enough of the rim, a riser board covers the rim; where a
  /// hanger board's bolts need the rim's face, or the board would eat up the nosing, the rim itself closes the top
  /// step.
  [[nodiscard]] bool board_on_rim() const;
  [[nodiscard]] Length width() const { return job.stair.width; }
};

/// Sections the frame is built from where the job does not ask otherwise.
[[nodiscard]] Section section_of(std::string_view nominal);
/// RETURNS the narrowest stock of that kind and thickness that is at least `width` wide, or the widest there is.
[[nodiscard]] Section narrowest(std::string_view kind, Length thickness, Length width);

/// RETURNS the longest piece that a board of the section gives, its ends trimmed; one without stock is taken as 16 ft
/// long.
[[nodiscard]] Length longest_board(const Job& job, std::string_view nominal);

/// Adds a part and returns its index.
std::size_t add(Frame& frame, Part&& part);
/// A part with the job's wood, its outline in the plane square to `normal`.
[[nodiscard]] Part wood(const Job& job, PartKind kind, std::string mark, std::string use, Section section, Axis normal,
                        Interval span, Polygon outline);

/// RETURNS the row of data/hardware of that key, found when this is compiled; a key that is not there does not compile.
consteval const HardwareRow& hardware(std::string_view key) {
  return *std::ranges::find(kHardware, key, &HardwareRow::key);
}
/// Adds so many fasteners or connectors to what is counted.
void count(Frame& frame, const HardwareRow& item, int pieces);
/// Adds a fastener.
void fasten(Frame& frame, const HardwareRow& item, Point3 head, Direction direction, const Joined& joins,
            std::string_view reason);
/// The same, slid by steps of `slide` (of any length) to the nearest place where it is clear of every fastener that is
/// there already. `rods` are the frame's fasteners that it has seen so far; those that came since are taken in.
void fasten_clear(Frame& frame, Shelves& rods, const HardwareRow& item, Point3 head, Direction direction,
                  const Joined& joins, std::string_view reason, Direction slide);
/// RETURNS the shortest bolt of that diameter that clamps `grip`. REQUIRES a diameter that bolts are sold in.
[[nodiscard]] const HardwareRow& bolt_for(Length grip, Length diameter);
/// RETURNS the screw for a board of that thickness.
[[nodiscard]] const HardwareRow& screw_for(Length thickness);

/// Which connectors: an L of metal against two faces, extruded along `normal`.
struct AngleIron {
  Point corner;      ///< inner corner of the L, in the plane square to `normal`
  double leg_a = 1;  ///< +1 or -1: which way the first leg runs along the first axis
  double leg_b = 1;  ///< the same along the second axis
  Line side = Line::middle;
  int step = 0;  ///< of the part
};
/// Words in pieces, joined only where somebody reads them.
using WordsOf = std::initializer_list<std::string_view>;
/// Adds an angle and returns its index; in a counted frame it is only counted, and the index is of no part.
std::size_t add_angle(Frame& frame, const HardwareRow& item, WordsOf mark, WordsOf use, Axis normal, Interval span,
                      AngleIron angle);

// One room for one group of parts, in the order they are built.
HeadBearing head_bearing(Layout& layout);
[[nodiscard]] std::vector<std::size_t> add_landing(Frame& frame, const Layout& layout);
/// The stringers, and the boards that their heads meet.
[[nodiscard]] StringerParts add_stringers(Frame& frame, const Layout& layout, const std::vector<std::size_t>& ground);
/// What holds their heads and feet.
void hold_stringers(Frame& frame, const Layout& layout, StringerParts& parts);
/// An anchor into concrete, or a spike through pavers and gravel into the ground, holding `part`.
void pin_to_landing(Frame& frame, const Layout& layout, Point3 head, std::size_t part,
                    const std::vector<std::size_t>& ground, std::string_view reason);
/// Rail posts of one side. RETURNS them, lowest first.
std::vector<PostPlace> add_posts(Frame& frame, const Layout& layout, const StringerParts& stringers, Line line);
/// What stands between and on the posts of one side: rails, balusters, cap, handrail.
void add_rails(Frame& frame, const Layout& layout, Line line, const std::vector<PostPlace>& posts, bool handrail);
/// See frame.hpp.
[[nodiscard]] int fewest_supports(const Layout& layout);
/// Beams on posts and piers under long stringers; each clear of all that stands already, or left out with a note.
void add_mid_supports(Frame& frame, const Layout& layout, const StringerParts& stringers);
/// The same for a counted frame: as many as stand or, where that is not known, as its level spans cannot do without.
void count_mid_supports(Frame& frame, const Layout& layout, const StringerParts& stringers,
                        std::optional<int> standing);
void add_treads(Frame& frame, const Layout& layout, const StringerParts& stringers);

}  // namespace pitchboard
