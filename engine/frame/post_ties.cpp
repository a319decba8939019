// Hold-downs: behind a post's bolts a block runs to the next stringer, and a hold-down on its side takes the upper
// bolt.
//
// METHOD  The push at the top of a rail pulls at the post's upper bolt: post -> bolt -> hold-down -> block -> next
//         stringer. The block stands on edge, square to the stringers, on the house side of the bolts or in front of
//         them, as deep as fits; every place is built and put to the clash test, part after part, the first that passes
//         stays.

#include "engine/frame/post_ties.hpp"

#include <algorithm>

#include "engine/base/sort.hpp"
#include "engine/frame/clash.hpp"
#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {
namespace {

/// Screws of a hold-down in its block: from the block's end, apart along it, off the bolt's level. SOURCE common
/// practice, no source.
constexpr Length kFirstScrew = inches(2.25), kScrewsApart = inches(1.0), kRowsApart = inches(0.75),
                 kTwoRowsOff = inches(0.55);
constexpr int kScrewColumns = 6, kFewestRows = 2;
/// Screws through each leg of an angle at a block's end.
constexpr int kFewestOnLeg = 2, kOnLongLeg = 6;
/// The block reaches past the hold-down's bolt at least this far, up and down. SOURCE own judgement.
constexpr Length kBlockPastBolt = inches(1.3), kLowBlockPastBolt = inches(1.05);
/// Deepest block, and its top below the tread. SOURCE own judgement.
constexpr Length kDeepestBlock = inches(7.5), kRippedBlock = inches(3.0), kBelowTread = inches(0.125);
/// Angles at the block's ends stand off its middle, so that those of two blocks on one stringer miss each other.
constexpr Length kAngleOffMiddle = inches(0.8), kHalfAngle = inches(0.75), kAngleInBlock = inches(0.875);
constexpr Length kHalfLongAngle = inches(2.25), kLongScrewsApart = inches(0.75);
constexpr Length kScrewOffAngle = inches(0.4), kOnLeg = inches(1.4), kNearCorner = inches(0.9);
/// Screws through the stringer into the block's end, off its upper and lower edge: the upper one under those of a
/// tread.
constexpr Length kUnderTop = inches(2.0), kOverBottom = inches(0.6);
/// An angle under a tread keeps at least this much of the stretch on the other side of a hold-down's block.
constexpr Length kAngleLeft = inches(1.25);

enum class NearEnd { long_angle, angle, screws };
/// How a block's ends may be held.
struct Ends {
  NearEnd near_end = NearEnd::angle;  ///< an angle, or screws through the stringer
  bool far_away = true;               ///< an angle at the far end on the face away from the bolt
  bool far_by = true;                 ///< and one on the hold-down's face
  bool high = true;  ///< the near angle over the block's middle, the far ones under it, or the other way
  Length on_leg;     ///< the screws into the stringers, from the angle's corner
};

/// A block in its place, and the hold-down on it.
struct Block {
  double to_block = 1;    ///< direction of x from the bolt
  Length face, far_face;  ///< x: the one that the hold-down lies on, and the other
  Interval x, up;
  bool shared = false;  ///< it is that of the other side's hold-down
  std::size_t part = 0, hold_down = 0;
  std::optional<std::size_t> plate;
};

/// An angle in the corner of a block's face and a stringer's; its legs run `way_x` and `way_y`, its screws stand so far
/// from the corner, in the block and in the stringer.
struct EndAngle {
  std::size_t part = 0, stringer = 0;
  Point corner;
  double way_x = 1, way_y = 1;
  Length middle, in_block, in_stringer;
  bool longer = false;
};

class Tie {
 public:
  /// `test`: of that frame; may be null where nothing is tried.
  Tie(Frame& frame, FitTest* test, const Layout& l, const StringerParts& stringers, std::size_t post)
      : frame_(frame),
        test_(test),
        l_(l),
        name_(frame.parts[post].mark.substr(1)),
        left_(frame.parts[post].side == Line::left) {
    const std::vector<std::size_t>& all = stringers.stringers;
    near_ = left_ ? all.front() : all.back();
    far_ = left_ ? all[1] : all[all.size() - 2];
    way_ = left_ ? 1.0 : -1.0;
    const Interval a = frame.parts[near_].solid.span, b = frame.parts[far_].solid.span;
    face_ = left_ ? a.to : a.from;
    bay_ = left_ ? Interval{a.to, b.from} : Interval{b.to, a.from};
    for (std::size_t i = 0; i < frame.fasteners.size(); ++i) {
      const Fastener& f = frame.fasteners[i];
      if (f.joins.front() != post || f.reason != kHoldsPost) continue;
      if (!bolt_at_ || f.head.z > frame.fasteners[*bolt_at_].head.z) bolt_at_ = i;
    }
  }

  /// RETURNS whether a hold-down found room; if not the frame is as it was.
  bool add_hold_down() {
    if (!bolt_at_) return false;
    const auto at = frame_.fasteners.begin() + static_cast<std::ptrdiff_t>(*bolt_at_);
    bolt_ = std::move(*at);
    test_->let_stand(frame_.parts.size(), *bolt_at_);
    frame_.fasteners.erase(at);
    if (find_place()) return true;
    test_->let_stand(frame_.parts.size(), *bolt_at_);
    frame_.fasteners.insert(frame_.fasteners.begin() + static_cast<std::ptrdiff_t>(*bolt_at_), std::move(bolt_));
    return false;
  }

  /// Counts what one takes at the least. RETURNS whether it may have room.
  bool count_hold_down(const HoldDownItems& items) {
    if (!bolt_at_) return false;
    bolt_ = frame_.fasteners[*bolt_at_];
    if (!may_have_room()) return false;
    const auto put = [&](PartKind kind, std::string_view item) {
      Part part;
      part.kind = kind;
      part.section.nominal = item;
      add(frame_, std::move(part));
    };
    frame_.fasteners[*bolt_at_].item = bolt_for(bolt_grip(add_plate()), l_.bolt.diameter).key;
    put(PartKind::connector, items.hold_down);
    count(frame_, hardware("screw-10x1-1/2"), kScrewColumns * kFewestRows);
    // Two rails may share the block between two stringers, and its ends may then have no angles.
    if (!one_bay() || left_) {
      put(PartKind::block, {});
      // A long angle at the near end comes with another at the far one.
      for (int i = 0; items.long_angles && i < 2; ++i) {
        put(PartKind::connector, "angle-4-1/2");
        count(frame_, hardware("screw-10x1-1/2"), 2 * kOnLongLeg);
      }
    }
    if (one_bay() || items.long_angles) return true;
    put(PartKind::connector, items.angle);
    count(frame_, hardware("screw-10x1-1/2"), 2 * kFewestOnLeg);
    return true;
  }

 private:
  /// The next stringer is in the way of every hold-down where that is longer than the bay.
  bool may_have_room() {
    for (const HardwareRow* row : {&hardware("hold-down"), &hardware("hold-down-low")}) {
      hold_down_ = row;
      if (inches(row->head_radius) <= bay_.size()) return true;
      for (const double to_block : {-1.0, 1.0}) {
        const Block block{.to_block = to_block, .face = bolt_.head.x + kHoldDownBolt * to_block};
        if (!overlap(hold_down_part(block), frame_.parts[far_])) return true;
      }
    }
    return false;
  }

  bool find_place() {
    test_->let_stand(frame_.parts.size(), frame_.fasteners.size());
    for (const bool low : {false, true}) {
      low_ = low;
      hold_down_ = low ? &hardware("hold-down-low") : &hardware("hold-down");
      if (!low && l_.solid()) continue;
      const std::vector<Section> sold = blocks();
      for (const bool behind : {true, false}) {
        for (const Section& section : sold) {
          if (fits(behind, section)) return true;
        }
      }
    }
    return false;
  }

  /// How the block's ends may be held, best first: an angle near, two far; where two rails share the block the far end
  /// is the other's near one.
  [[nodiscard]] std::vector<Ends> ways_to_tie() const {
    std::vector<Ends> out;
    for (const NearEnd near_end : {NearEnd::long_angle, NearEnd::angle, NearEnd::screws}) {
      for (const int far : {3, 1, 2}) {
        if ((far & 2) != 0 && !one_bay() && !room_beside_leg()) continue;
        if (one_bay() && far != (near_end == NearEnd::screws ? 2 : 1)) continue;
        for (const bool high : {left_, !left_}) {
          for (const Length on_leg : {kOnLeg, kNearCorner}) {
            out.push_back({.near_end = near_end,
                           .far_away = (far & 1) != 0,
                           .far_by = (far & 2) != 0 && !one_bay(),
                           .high = high,
                           .on_leg = on_leg});
          }
        }
      }
    }
    return out;
  }

  [[nodiscard]] Length past_bolt() const { return low_ ? kLowBlockPastBolt : kBlockPastBolt; }
  [[nodiscard]] std::vector<Length> rows() const {
    if (low_) return {kTwoRowsOff, -kTwoRowsOff};
    return {kRowsApart, Length(), -kRowsApart};
  }

  /// True where the block's face has room for the hold-down's leg and an angle's beside it.
  [[nodiscard]] bool room_beside_leg() const {
    return bay_.size() > inches(hold_down_->head_radius) + inches(hardware("angle-2").head_radius) + kMetalClear;
  }

  /// Stock for the block, deepest first, the last one ripped.
  [[nodiscard]] std::vector<Section> blocks() const {
    std::vector<Section> out;
    for (const SectionRow& row : sections()) {
      const Length thickness = inches(row.thickness), width = inches(row.width);
      if (row.kind != "dimension" || abs(thickness - l_.stringer.thickness) >= kTouch || width >= kDeepestBlock ||
          width <= past_bolt() * 2.0)
        continue;
      if (std::ranges::count(demo_stock(), row.nominal, &StockRow::section) > 0 ||
          std::ranges::count(l_.job.yard.stock, row.nominal, &StockLength::section) > 0)
        out.push_back({std::string(row.nominal), thickness, width});
    }
    sort_stably(out, std::greater<>(), &Section::width);
    if (!out.empty() && out.back().width > kRippedBlock) {
      out.push_back(out.back());
      out.back().width = kRippedBlock;
    }
    return out;
  }

  /// Lowest underside of the treads over the block.
  [[nodiscard]] Length ceiling(Interval x, Length bolt) const {
    Length under = bolt + kBoltEdge;
    for (const Part& part : frame_.parts) {
      if (part.kind != PartKind::tread) continue;
      const auto extents = box(part.solid);
      if (overlap(extents[0], x) > kTouch && overlap(extents[1], bay_) > kTouch && extents[2].from > bolt)
        under = std::min(under, extents[2].from);
    }
    return under;
  }

  /// RETURNS whether a hold-down on a block of that section, with all that holds it, clashes with nothing. It then
  /// stays; all else leaves the frame as it was.
  bool fits(bool behind, const Section& section) {
    const std::size_t parts = frame_.parts.size(), fasteners = frame_.fasteners.size();
    // Parts are soon put in and tested: fasteners come once these have room, and the ends once the middle stands.
    if (std::optional<Block> block = add_middle(behind, section); block && test_->parts_fit()) {
      fasten_middle(*block);
      if (test_->fasteners_fit() && (block->shared || ends_fit(*block))) return true;
    }
    take_back(parts, fasteners);
    return false;
  }

  bool ends_fit(const Block& block) {
    const std::size_t parts = frame_.parts.size(), fasteners = frame_.fasteners.size();
    test_->let_stand(parts, fasteners);
    for (const Ends& ends : ways_to_tie()) {
      if (ends.near_end == NearEnd::long_angle && block.up.size() < kHalfLongAngle * 2.0 + inches(0.25)) continue;
      const std::vector<EndAngle> angles = add_angles(block, ends);
      if (test_->parts_fit()) {
        if (ends.near_end == NearEnd::screws) {
          screw_end(block, near_);
          if (one_bay()) screw_end(block, far_);
        }
        for (const EndAngle& angle : angles) fasten_angle(block, angle);
        if (test_->fasteners_fit()) return true;
      }
      take_back(parts, fasteners);
    }
    return false;
  }

  void take_back(std::size_t parts, std::size_t fasteners) {
    frame_.parts.resize(parts);
    frame_.fasteners.resize(fasteners);
    test_->let_stand(parts, fasteners);
  }

  /// Block, hold-down and plate. RETURNS nothing where the block would not reach past the bolt.
  std::optional<Block> add_middle(bool behind, const Section& section) {
    Block block{.to_block = behind ? -1.0 : 1.0};
    block.face = bolt_.head.x + kHoldDownBolt * block.to_block;
    block.far_face = block.face + section.thickness * block.to_block;
    block.x = {std::min(block.face, block.far_face), std::max(block.face, block.far_face)};
    block.up.to = ceiling(block.x, bolt_.head.z) - kBelowTread;
    block.up.from = block.up.to - section.width;
    if (block.up.to < bolt_.head.z + past_bolt() || block.up.from > bolt_.head.z - past_bolt()) return std::nullopt;
    const std::optional<std::size_t> shared = block_of_other_side(block.x, block.up);
    block.shared = shared.has_value();
    block.part = shared ? *shared : add_block(section, block.x, block.up);
    block.hold_down = add(frame_, hold_down_part(block));
    block.plate = add_plate();
    return block;
  }

  std::vector<EndAngle> add_angles(const Block& block, const Ends& ends) {
    std::vector<EndAngle> out;
    const auto put = [&](const char* letter, EndAngle angle) {
      const Length half = angle.longer ? kHalfLongAngle : kHalfAngle;
      angle.part =
          add_angle(frame_, angle.longer ? hardware("angle-4-1/2") : hardware("angle-2"), {"AT", name_, letter},
                    {"angle, TB", name_, " to ", frame_.parts[angle.stringer].mark}, Axis::z,
                    {angle.middle - half, angle.middle + half}, {angle.corner, angle.way_x, angle.way_y});
      out.push_back(angle);
    };
    const Length middle = block.up.middle();
    const Length off = std::min(kAngleOffMiddle, block.up.size() / 2.0 - kAngleInBlock) * (ends.high ? 1.0 : -1.0);
    // Between solid stringers nothing else comes to the far end, and both angles keep under the tread's.
    const Length far_middle = l_.solid() ? middle + off : middle - off;
    const bool longer = ends.near_end == NearEnd::long_angle;
    const double away = block.to_block;
    if (ends.near_end != NearEnd::screws)
      put("n", {.stringer = near_,
                .corner = {block.far_face, face_},
                .way_x = away,
                .way_y = way_,
                .middle = longer ? middle : middle + off,
                .in_block = kOnLeg,
                .in_stringer = ends.on_leg,
                .longer = longer});
    const Length far_side = left_ ? bay_.to : bay_.from;
    if (ends.far_away)
      put("f", {.stringer = far_,
                .corner = {block.far_face, far_side},
                .way_x = away,
                .way_y = -way_,
                .middle = longer ? middle : far_middle,
                .in_block = kOnLeg,
                .in_stringer = ends.on_leg,
                .longer = longer});
    if (ends.far_by)
      put("g", {.stringer = far_,
                .corner = {block.face, far_side},
                .way_x = -away,
                .way_y = -way_,
                .middle = far_middle,
                .in_block = kNearCorner,
                .in_stringer = ends.on_leg});
    return out;
  }

  /// Two stringers with a rail on both sides: one block serves both.
  [[nodiscard]] bool one_bay() const { return l_.stringer_y.size() == 2 && frame_.guard_left && frame_.guard_right; }

  [[nodiscard]] std::optional<std::size_t> block_of_other_side(Interval x, Interval up) const {
    for (std::size_t i = 0; i < frame_.parts.size(); ++i) {
      const Part& part = frame_.parts[i];
      if (part.kind != PartKind::block || !part.mark.starts_with("TB")) continue;
      const auto extents = box(part.solid);
      const auto same = [](Interval p, Interval q) {
        return abs(p.from - q.from) < kTouch && abs(p.to - q.to) < kTouch;
      };
      if (same(extents[0], x) && same(extents[1], bay_) && same(extents[2], up)) return i;
    }
    return std::nullopt;
  }

  std::size_t add_block(const Section& section, Interval x, Interval up) {
    // A ripped block comes out of the stock it is named by.
    Section stock = section_of(section.nominal);
    Part part = wood(l_.job, PartKind::block, "TB" + name_, "block that the hold-down at P" + name_ + " ties to",
                     std::move(stock), Axis::x, x, rectangle(bay_, up));
    return add(frame_, std::move(part));
  }

  [[nodiscard]] Part hold_down_part(const Block& block) const {
    const Length metal = inches(hold_down_->diameter), leg = inches(hold_down_->head_radius),
                 half = inches(hold_down_->length) / 2.0;
    const Length flange = kHoldDownBolt + kHoldDownPastBolt;
    const auto at = [&](Length a, Length b) { return Point{block.face - a * block.to_block, face_ + b * way_}; };
    Part part;
    part.mark = "HD" + name_;
    part.kind = PartKind::connector;
    part.use = "hold-down at the upper bolt of P" + name_;
    part.section = {std::string(hold_down_->key), metal, leg};
    part.across_outline = true;
    part.solid = {Axis::z,
                  {bolt_.head.z - half, bolt_.head.z + half},
                  {at({}, {}), at(flange, {}), at(flange, metal), at(metal, metal), at(metal, leg), at({}, leg)}};
    return part;
  }

  /// What the bolt of a hold-down clamps.
  [[nodiscard]] Length bolt_grip(std::optional<std::size_t> plate) const {
    const Length grip =
        frame_.parts[bolt_.joins[0]].solid.span.size() + l_.stringer.thickness + inches(hold_down_->diameter);
    return plate ? grip + frame_.parts[*plate].solid.span.size() : grip;
  }

  /// The bolt, long enough to pass the hold-down's flange, and the screws.
  void fasten_middle(const Block& block) {
    const Length metal = inches(hold_down_->diameter);
    Joined joins;
    if (block.plate) joins.push_back(*block.plate);
    for (const std::size_t part : bolt_.joins) joins.push_back(part);
    joins.push_back(block.hold_down);
    Point3 head = bolt_.head;
    if (block.plate) head = moved(head, bolt_.direction, -frame_.parts[*block.plate].solid.span.size());
    fasten(frame_, bolt_for(bolt_grip(block.plate), l_.bolt.diameter), head, bolt_.direction, joins, bolt_.reason);
    frame_.fasteners.back().mark = bolt_.mark;
    for (int i = 0; i < kScrewColumns; ++i) {
      for (const Length up : rows()) {
        fasten(
            frame_, hardware("screw-10x1-1/2"),
            {block.face - metal * block.to_block, face_ + (kFirstScrew + kScrewsApart * i) * way_, bolt_.head.z + up},
            {block.to_block, 0, 0}, {block.hold_down, block.part}, "holds the hold-down to its block");
      }
    }
  }

  /// A plate under the head of the pulled bolt, where the other bolt leaves it room: its washer alone would sink in.
  std::optional<std::size_t> add_plate() {
    const HardwareRow& row = hardware("plate-washer");
    const Length half = inches(row.length) / 2.0;
    for (const Fastener& other : frame_.fasteners) {
      if (other.joins.front() != bolt_.joins.front() || other.reason != kHoldsPost || other.mark == bolt_.mark)
        continue;
      if (bolt_.head.z - other.head.z < half + other.head_radius) return std::nullopt;
    }
    Part part;
    part.mark = "PW" + name_;
    part.kind = PartKind::connector;
    part.use = "plate under the head of the upper bolt of P" + name_;
    part.section = {std::string(row.key), inches(row.diameter), inches(row.length)};
    part.across_outline = true;
    const Length outer = bolt_.head.y - inches(row.diameter) * bolt_.direction.y;
    part.solid = {Axis::y,
                  {std::min(bolt_.head.y, outer), std::max(bolt_.head.y, outer)},
                  rectangle({bolt_.head.x - half, bolt_.head.x + half}, {bolt_.head.z - half, bolt_.head.z + half})};
    return add(frame_, std::move(part));
  }

  /// Two screws through the stringer into the block's end.
  void screw_end(const Block& block, std::size_t stringer) {
    const Interval wood = frame_.parts[stringer].solid.span;
    const bool to_right = wood.middle() < bay_.middle();
    for (const Length z : {block.up.to - kUnderTop, block.up.from + kOverBottom}) {
      fasten(frame_, hardware("screw-10x3"), {block.x.middle(), to_right ? wood.from : wood.to, z},
             {0, to_right ? 1.0 : -1.0, 0}, {stringer, block.part},
             "holds the tie block, driven before the post stands");
    }
  }

  void fasten_angle(const Block& block, const EndAngle& angle) {
    const Length metal = inches(0.1);
    std::vector<Length> heights{kScrewOffAngle, -kScrewOffAngle};
    for (int i = 1; angle.longer && i < kOnLongLeg / 2; ++i) {
      heights.push_back(kScrewOffAngle + kLongScrewsApart * i);
      heights.push_back(-kScrewOffAngle - kLongScrewsApart * i);
    }
    const Point corner = angle.corner;
    for (const Length height : heights) {
      const Length z = angle.middle + height;
      fasten(frame_, hardware("screw-10x1-1/2"),
             {corner.a + metal * angle.way_x, corner.b + angle.in_block * angle.way_y, z}, {-angle.way_x, 0, 0},
             {angle.part, block.part}, "holds the tie block to its angle");
      fasten(frame_, hardware("screw-10x1-1/2"),
             {corner.a + angle.in_stringer * angle.way_x, corner.b + metal * angle.way_y, z}, {0, -angle.way_y, 0},
             {angle.part, angle.stringer}, "holds the tie block's angle to the stringer");
    }
  }

  Frame& frame_;
  FitTest* test_;
  const Layout& l_;
  std::string name_;
  bool left_;
  /// The hold-down that is tried. Where there is no room for a tall one, as under the treads between solid stringers, a
  /// low one with two rows of screws.
  bool low_ = false;
  const HardwareRow* hold_down_ = nullptr;
  std::size_t near_ = 0, far_ = 0;
  double way_ = 1;                      ///< direction of y into the stair
  Length face_;                         ///< the outer stringer's inner face
  Interval bay_;                        ///< between the outer stringer and the next
  std::optional<std::size_t> bolt_at_;  ///< the post's upper one
  Fastener bolt_;                       ///< itself, taken out while a place is looked for
};

}  // namespace

Interval room_behind_post(const Layout& l, Length x, Interval under) {
  const Interval nuts{x - l.bolt.nut_room(), x + l.bolt.nut_room()};
  if (!l.job.rails.hold_downs) return nuts;
  const Length block = kHoldDownBolt + l.stringer.thickness + kBelowTread;
  const Interval behind{x - kBoltStagger - block, x + kBoltStagger + kHoldDownPastBolt},
      before{x - kBoltStagger - kHoldDownPastBolt, x + kBoltStagger + block};
  const Length left_behind = behind.from - under.from, left_before = under.to - before.to;
  if (std::max(left_behind, left_before) < kAngleLeft) return nuts;
  const Interval& hold_down = left_behind > left_before ? behind : before;
  return {std::min(nuts.from, hold_down.from), std::max(nuts.to, hold_down.to)};
}

Length highest_block(Length bolt) { return bolt + (kBoltEdge - kBelowTread - kLowBlockPastBolt) / 2.0; }

ShortTies short_ties(const Job& job) {
  ShortTies out;
  const Section stock = section_of(job.stringers.board);
  const Length thick = stock.thickness, off = kScrewOffAngle, metal = inches(hardware("angle-2").diameter);
  const auto board = [&](Axis normal, Interval span, Interval out_or_across) {
    return add(out.frame, wood(job, PartKind::block, "", "", stock, normal, span,
                               rectangle(out_or_across, {-stock.width / 2.0, stock.width / 2.0})));
  };
  out.block = board(Axis::x, {Length(), thick}, {Length(), stock.width});
  const std::size_t stringer = board(Axis::y, {-thick, Length()}, {-stock.width, stock.width}),
                    angle = add_angle(out.frame, hardware("angle-2"), {}, {}, Axis::z, {-kHalfAngle, kHalfAngle},
                                      {{thick, Length()}, 1, 1});
  for (const Length z : {off, -off}) {
    fasten(out.frame, hardware("screw-10x1-1/2"), {thick + metal, kOnLeg, z}, {-1, 0, 0}, {angle, out.block}, "");
    fasten(out.frame, hardware("screw-10x3"), {thick / 2.0, -thick, z}, {0, 1, 0}, {stringer, out.block}, "");
  }
  return out;
}

bool count_hold_downs(Frame& frame, const Layout& l, const StringerParts& stringers,
                      const std::vector<std::size_t>& posts, const HoldDownItems& items) {
  for (auto bolt = frame.fasteners.begin(); bolt != frame.fasteners.end(); ++bolt) {
    if (bolt->reason != kHoldsPost) continue;
    bolt->item = {};  // of the two of a post the upper one comes first
    ++bolt;
  }
  std::vector<std::size_t> all;
  for (std::size_t p = 0; p < frame.parts.size(); ++p) {
    if (frame.parts[p].kind == PartKind::post) all.push_back(p);
  }
  return std::ranges::all_of(
      posts, [&](std::size_t post) { return Tie(frame, nullptr, l, stringers, all[post]).count_hold_down(items); });
}

void add_hold_downs(Frame& frame, const Layout& l, const StringerParts& stringers) {
  std::string without;
  bool any = false;
  FitTest test(frame);
  for (std::size_t p = 0, count = frame.parts.size(); p < count; ++p) {
    if (frame.parts[p].kind != PartKind::post) continue;
    if (std::ranges::find(frame.parts, footing_of(frame.parts[p].mark), &Part::mark) != frame.parts.end()) continue;
    if (Tie(frame, &test, l, stringers, p).add_hold_down()) {
      any = true;
    } else {
      without += (without.empty() ? "" : ", ") + frame.parts[p].mark;
    }
  }
  if (!without.empty()) frame.notes.push_back("No room for a hold-down at " + without + ": have it looked at.");
  if (any)
    frame.notes.push_back(
        "Set the hold-downs and their blocks before the treads go on: drive every screw, then tighten the bolt.");
}

}  // namespace pitchboard
