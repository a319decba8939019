#pragma once
// Frame: every part of the stair as a prism in space, every fastener with its holes, and the proof that none clash.
//
// 1. Every part that is cut from a board is a prism: outline, thickness, place (see base/geometry.hpp for the axes).
// 2. Every fastener runs along one line through the parts it joins, head first.

#include <array>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/geometry.hpp"
#include "engine/job/job.hpp"
#include "engine/shape/flight.hpp"

namespace pitchboard {

enum class PartKind {
  stringer,
  hanger_board,
  block,
  riser,
  tread,
  kicker,
  post,
  top_rail,
  bottom_rail,
  cap,
  handrail,
  baluster,
  support_beam,  ///< under long stringers, across the stair
  support_post,  ///< carries a support beam
  connector,     ///< bent or welded metal, bought: stringer connectors, rail brackets, handrail brackets, angles,
                 ///< post bases
  pad_layer,     ///< pavers, bedding sand, compacted base, concrete
  footing,       ///< concrete in a hole of its own, under a support post or round the foot of a rail post
  existing       ///< what is there already: rim, deck boards, posts, pad
};

/// Dressed cross-section of a board. `width` >= `thickness`.
struct Section {
  std::string nominal;  ///< "2x12"; for connectors the item's key in data/hardware
  Length thickness, width;
};

struct Part {
  std::string mark;  ///< "S2", "T3a", "R1": written on the piece, unique
  PartKind kind = PartKind::stringer;
  std::string use;  ///< "stringer, left", in words
  Section section;
  Prism solid;
  double grain_a = 1, grain_b = 0;  ///< direction of the board's length in the outline's plane, length one
  bool across_outline = false;      ///< board's length runs along solid.normal (its outline is the end grain)
  std::string species, grade, treatment;
  int step = 0;              ///< tread or riser number that it belongs to, 1 lowest; 0: none
  Line side = Line::middle;  ///< for rails, posts, balusters
  int pieces = 1;            ///< of a counted frame: it stands for so many alike
};
/// RETURNS the outline with the board's length along the first axis, starting at 0, lower edge at 0. REQUIRES
/// !across_outline.
[[nodiscard]] Polygon board_outline(const Part& part);
/// RETURNS the length of board that the part takes, tip to tip.
[[nodiscard]] Length board_length(const Part& part);
/// RETURNS the mark of the footing that the foot of the rail post of that mark stands in, where it has one.
[[nodiscard]] std::string footing_of(const std::string& post_mark);
/// RETURNS what one part of that kind is called: "riser board".
[[nodiscard]] std::string_view kind_words(PartKind kind);
/// True for parts cut from stock boards.
[[nodiscard]] bool is_cut_from_board(PartKind kind);

enum class HoleKind { clearance, pilot };
struct Hole {
  std::size_t part = 0;  ///< index in Frame::parts
  HoleKind kind = HoleKind::clearance;
  Length diameter;  ///< drill to use
  Point3 at;        ///< where the axis enters the part
  Length depth;     ///< length inside the part
};

/// The parts that a fastener joins, as indices in Frame::parts, in the order that its axis passes them. They lie in the
/// fastener itself: a stair has hundreds, and joints of two or three parts.
class Joined {
 public:
  Joined() = default;
  /// REQUIRES no more than kMost.
  Joined(std::initializer_list<std::size_t> parts) {
    for (const std::size_t part : parts) push_back(part);
  }
  void push_back(std::size_t part) { parts_[size_++] = static_cast<std::uint32_t>(part); }
  [[nodiscard]] std::size_t size() const { return size_; }
  [[nodiscard]] bool empty() const { return size_ == 0; }
  [[nodiscard]] const std::uint32_t* begin() const { return parts_.data(); }
  [[nodiscard]] const std::uint32_t* end() const { return parts_.data() + size_; }
  [[nodiscard]] std::size_t operator[](std::size_t i) const { return parts_[i]; }
  [[nodiscard]] std::size_t front() const { return parts_[0]; }
  [[nodiscard]] std::size_t back() const { return parts_[size_ - 1]; }
  friend bool operator==(const Joined&, const Joined&) = default;

 private:
  static constexpr std::size_t kMost = 6;  ///< plate, post, stringer and hold-down; an angle and the landing's layers
  std::array<std::uint32_t, kMost> parts_{};
  std::uint32_t size_ = 0;
};

struct Fastener {
  std::string mark;     ///< "F12"
  std::string item;     ///< key in data/hardware: "bolt-1/2x6", "screw-10x3"
  Point3 head;          ///< centre of the bearing face under the head
  Direction direction;  ///< from head to tip
  Length length, diameter;
  Length head_radius, head_height;  ///< washer included; 0 height: flush
  Length tool_radius, tool_reach;   ///< socket or driver room needed beyond the head
  Length nut_radius, nut_height;    ///< bolts: the far end, washer included; 0: none
  Joined joins;
  std::string_view reason;  ///< "holds the stringer head to the hanger board"; the engine's own words, which last
};

/// How the stringer heads bear at the top.
struct HeadBearing {
  Length plumb_cut;  ///< height of the stringer's plumb cut
  Length contact;    ///< of which this much meets the rim alone
  Length needed;     ///< contact wanted before a hanger board is added
  bool hanger_board = false;
  /// RETURNS whether so much of the plumb cut wants a hanger board. REQUIRES there is none yet.
  [[nodiscard]] bool wants_board(double share) const { return contact < plumb_cut * share; }
};

struct Clash {
  std::string kind;           ///< "overlap", "outside", "edge", "crossing", "tool", "floating"
  std::string first, second;  ///< marks
  std::string note;           ///< what and by how much
};

/// So many fasteners or connectors of one key in data/hardware.
struct ItemCount {
  std::string_view item;
  int count = 0;
};

struct Frame {
  std::vector<Part> parts;
  std::vector<Fastener> fasteners;
  /// Nothing stands yet: angles, and fasteners but the posts' bolts, are only counted, and one baluster stands for all
  /// of a bay.
  bool counted = false;
  std::vector<ItemCount> items;
  HeadBearing head;
  std::vector<Clash> clashes;      ///< empty on a good plan; each one is a failure that the plan shows
  std::vector<std::string> notes;  ///< things to do on site that no part shows: "scribe the foot", "pre-drill ends"
  Length stringer_spacing;         ///< centre to centre
  Length throat;                   ///< least wood left under the notches; the full depth for solid stringers
  bool guard_left = false, guard_right = false, handrail_left = false, handrail_right = false;
};

/// RETURNS how far from its head the last part that a fastener joins ends: there a bolt's nut sits. Its whole length
/// where it does not reach that part.
[[nodiscard]] Length grip(const Frame& frame, const Fastener& fastener);
/// RETURNS what is drilled for it: a hole in each part it joins but in metal, which comes with its holes.
[[nodiscard]] std::vector<Hole> holes(const Frame& frame, const Fastener& fastener);

/// RETURNS how many stringers the stair has: as the job says, or as its spacing and what its treads span ask for.
[[nodiscard]] int stringer_count(const Job& job);
/// RETURNS what is there before any stair: the rim and the deck boards over it.
[[nodiscard]] Frame house_side(const Job& job);
/// RETURNS the whole frame for one flight, clash-tested. The handrail is added where `handrail_needed` or the job asks.
[[nodiscard]] Frame build_frame(const Job& job, const Site& site, const Flight& flight, bool handrail_needed);
/// RETURNS the same frame before the clash test: `clashes` is empty whatever is in the way of what.
[[nodiscard]] Frame untested_frame(const Job& job, const Site& site, const Flight& flight, bool handrail_needed);

/// What the stringers are and stand against, as indices in Frame::parts.
struct StringerParts {
  std::vector<std::size_t> stringers;
  std::vector<std::size_t> rims;  ///< rim, and hanger board if there is one
  std::optional<std::size_t> kicker;
  std::vector<std::size_t> ground;  ///< layers of the landing, top first
};
/// A rail post.
struct PostPlace {
  std::size_t part;  ///< index in Frame::parts
  Length x;          ///< middle
};
struct Layout;
/// A frame that has no treads and no hold-downs yet. The job, site and flight that it is of have to outlast it.
struct Skeleton {
  Frame frame;
  StringerParts stringers;
  std::array<std::vector<PostPlace>, 2> posts;  ///< of the left and the right side, lowest first
  std::shared_ptr<const Layout> layout;         ///< the lines that it is set out from
};
/// RETURNS that of the same frame: parts, fasteners and notes as the whole one begins with.
[[nodiscard]] Skeleton skeleton_of(const Job& job, const Site& site, const Flight& flight, bool handrail_needed);
/// RETURNS the whole frame, before the clash test.
[[nodiscard]] Frame finished(Skeleton skeleton);

/// RETURNS landing and stringers of the same frame alone, `counted`: what holds the stringers is still to come.
[[nodiscard]] Skeleton counted_stringers(const Job& job, const Site& site, const Flight& flight);
/// Adds its rail posts and what holds their feet.
void count_posts(Skeleton& counted);
/// The cheapest that a hold-down may need, as keys in data/hardware.
struct HoldDownItems {
  std::string_view hold_down, angle;
  bool long_angles = false;  ///< where its block's ends cannot do without
};
/// Adds what hold-downs at those of its posts (0 its first) take at the least, their blocks without a section: which
/// board one is cut from is not certain. Bolts of other posts, whose length depends on whether they get one, are left
/// out. RETURNS false where one of those posts has no room for any: the frame is then good for nothing. REQUIRES its
/// posts.
[[nodiscard]] bool count_hold_downs(Skeleton& counted, const std::vector<std::size_t>& posts,
                                    const HoldDownItems& items);
/// Adds what holds the stringers, rails, treads and riser boards. REQUIRES its posts.
void count_treads(Skeleton& counted, bool handrail_needed);
/// Adds as many mid supports as are known to stand or, where that is not known, as it takes to keep every level span
/// within what guides print; each of the least height.
void count_supports(Skeleton& counted, std::optional<int> standing);

/// RETURNS how the stringers' heads would bear.
[[nodiscard]] HeadBearing head_bearing(const Job& job, const Site& site, const Flight& flight);
/// RETURNS with how many mid supports guides' level span is first kept, for certain: with fewer it never is.
[[nodiscard]] int fewest_supports(const Job& job, const Site& site, const Flight& flight);
/// RETURNS every clash: overlaps (but a rail post may stand in its own footing, and in the landing's layers over it,
/// which are cut or poured round it), fasteners outside the parts they join or too near an edge, fasteners or their
/// heads and tools in the way of other parts or fasteners, and parts that nothing holds.
[[nodiscard]] std::vector<Clash> find_clashes(const Frame& frame);

}  // namespace pitchboard
