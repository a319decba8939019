// Hold-downs: behind a post's bolts a block runs to the next stringer, and a hold-down on its side takes the upper
// bolt.
//
// METHOD  The push at the top of a rail pulls at the post's upper bolt: post -> bolt -> hold-down -> block -> next
//         stringer. The block stands on edge, square to the stringers, on the house side of the bolts or in front of
//         them, as deep as fits; every place is built and put to the clash test, the first that passes stays.

#include "engine/frame/post_ties.hpp"

#include <algorithm>

#include "engine/frame/clash.hpp"
#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {
namespace {

/// Of a hold-down: its flange on the stringer; its screws in the block, from the block's end, apart along and across
/// it. SOURCE common practice, no source.
constexpr Length kFlange = inches(2.25);
constexpr Length kFirstScrew = inches(2.25), kScrewsApart = inches(1.25), kOffMiddle = inches(0.55);
constexpr int kScrewColumns = 4;
/// The block reaches past the hold-down's bolt at least this far, up and down. SOURCE own judgement.
constexpr Length kBlockPastBolt = inches(1.05);
/// Deepest block, and its top below the tread. SOURCE own judgement.
constexpr Length kDeepestBlock = inches(7.5), kBelowTread = inches(0.125);
/// Angles at the block's ends stand off its middle, so that those of two blocks on one stringer miss each other.
constexpr Length kAngleOffMiddle = inches(0.8), kHalfAngle = inches(0.75);
constexpr Length kScrewOffAngle = inches(0.4), kOnLeg = inches(1.4), kOnSecondLeg = inches(0.9);

/// Of the bolt's middle from the block's face: its washer and a little.
Length bolt_off_block(const Layout& l) { return l.bolt.nut_radius + inches(0.25); }

/// Where one hold-down may go.
struct Place {
  bool behind = true;  ///< the block is on the house side of the bolt
  Section block;
  bool both_faces = true;  ///< angles on both faces of the block's far end
  bool high = true;        ///< the near angle over the block's middle, the far ones under it, or the other way
};

class Tie {
 public:
  Tie(Frame& frame, const Layout& l, const StringerParts& stringers, std::size_t post)
      : frame_(frame), l_(l), name_(frame.parts[post].mark.substr(1)), left_(frame.parts[post].side == Line::left) {
    const std::vector<std::size_t>& all = stringers.stringers;
    near_ = left_ ? all.front() : all.back();
    far_ = left_ ? all[1] : all[all.size() - 2];
    way_ = left_ ? 1.0 : -1.0;
    const Interval a = frame.parts[near_].solid.span, b = frame.parts[far_].solid.span;
    face_ = left_ ? a.to : a.from;
    bay_ = left_ ? Interval{a.to, b.from} : Interval{b.to, a.from};
    for (std::size_t i = 0; i < frame.fasteners.size(); ++i) {
      const Fastener& f = frame.fasteners[i];
      if (f.reason != kHoldsPost || f.joins.front() != post) continue;
      if (!bolt_ || f.head.z > frame.fasteners[*bolt_].head.z) bolt_ = i;
    }
  }

  /// RETURNS whether a hold-down found room; if not the frame is as it was.
  bool add_hold_down() {
    if (!bolt_) return false;
    for (const bool behind : {true, false}) {
      for (const Section& block : blocks()) {
        for (const bool both_faces : {true, false}) {
          for (const bool high : {left_, !left_}) {
            if (fits({behind, block, both_faces, high})) return true;
          }
        }
      }
    }
    return false;
  }

 private:
  /// Stock for the block, deepest first.
  [[nodiscard]] std::vector<Section> blocks() const {
    std::vector<Section> out;
    for (const SectionRow& row : sections()) {
      const Section section{std::string(row.nominal), inches(row.thickness), inches(row.width)};
      const bool sold = std::ranges::count(demo_stock(), row.nominal, &StockRow::section) > 0 ||
                        std::ranges::count(l_.job.yard.stock, row.nominal, &StockLength::section) > 0;
      if (row.kind == "dimension" && sold && abs(section.thickness - l_.stringer.thickness) < kTouch &&
          section.width < kDeepestBlock && section.width > kBlockPastBolt * 2.0)
        out.push_back(section);
    }
    std::ranges::sort(out, std::greater<>(), &Section::width);
    return out;
  }

  /// Lowest underside of the treads over the block.
  [[nodiscard]] Length ceiling(Interval x, Length bolt) const {
    Length under = bolt + kBoltEdge;
    for (const Part& part : frame_.parts) {
      const auto extents = box(part.solid);
      if (part.kind == PartKind::tread && overlap(extents[0], x) > kTouch && overlap(extents[1], bay_) > kTouch &&
          extents[2].from > bolt)
        under = std::min(under, extents[2].from);
    }
    return under;
  }

  bool fits(const Place& place) {
    const Fastener old = frame_.fasteners[*bolt_];
    const std::size_t parts = frame_.parts.size();
    frame_.fasteners.erase(frame_.fasteners.begin() + static_cast<std::ptrdiff_t>(*bolt_));
    const std::size_t fasteners = frame_.fasteners.size();
    if (build(place, old) && clashes_of_newest(frame_, parts, fasteners).empty()) return true;
    frame_.parts.resize(parts);
    frame_.fasteners.resize(fasteners);
    frame_.fasteners.insert(frame_.fasteners.begin() + static_cast<std::ptrdiff_t>(*bolt_), old);
    return false;
  }

  /// RETURNS false where the block would not reach past the bolt.
  bool build(const Place& place, const Fastener& old) {
    const double to_block = place.behind ? -1.0 : 1.0;
    const Length x0 = old.head.x + bolt_off_block(l_) * to_block;  // the face that the hold-down lies on
    const Length x1 = x0 + place.block.thickness * to_block;
    const Interval x{std::min(x0, x1), std::max(x0, x1)};
    Interval up;
    up.to = ceiling(x, old.head.z) - kBelowTread;
    up.from = up.to - place.block.width;
    if (up.to < old.head.z + kBlockPastBolt || up.from > old.head.z - kBlockPastBolt) return false;
    const std::optional<std::size_t> shared = block_of_other_side(x, up);
    const std::size_t block = shared ? *shared : add_block(place, x, up);
    hold(block, x0, to_block, old);
    if (shared) return true;
    const Length middle = up.middle(), off = kAngleOffMiddle * (place.high ? 1.0 : -1.0);
    tie_end(block, near_, "n", face_, way_, x1, to_block, middle + off, kOnLeg);
    const Length far_face = left_ ? bay_.to : bay_.from;
    tie_end(block, far_, "f", far_face, -way_, x1, to_block, middle - off, kOnLeg);
    // On the hold-down's face, where the other side's does not lie there.
    if (place.both_faces && !one_bay())
      tie_end(block, far_, "g", far_face, -way_, x0, -to_block, middle - off, kOnSecondLeg);
    return place.both_faces != one_bay();
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

  std::size_t add_block(const Place& place, Interval x, Interval up) {
    Part part = wood(l_.job, PartKind::block, "TB" + name_, "block that the hold-down at P" + name_ + " ties to",
                     place.block, Axis::x, x, rectangle(bay_, up));
    return add(frame_, std::move(part));
  }

  /// The hold-down, its screws and the bolt, long enough to pass its flange.
  void hold(std::size_t block, Length x0, double to_block, const Fastener& old) {
    const HardwareRow* row = find_hardware("hold-down");
    if (!row) return;
    const Length metal = inches(row->diameter), leg = inches(row->head_radius), half = inches(row->length) / 2.0;
    const auto at = [&](Length a, Length b) { return Point{x0 - a * to_block, face_ + b * way_}; };
    Part part;
    part.mark = "HD" + name_;
    part.kind = PartKind::connector;
    part.use = "hold-down at the upper bolt of P" + name_;
    part.section = {std::string(row->key), metal, leg};
    part.across_outline = true;
    part.solid = {Axis::z,
                  {old.head.z - half, old.head.z + half},
                  {at({}, {}), at(kFlange, {}), at(kFlange, metal), at(metal, metal), at(metal, leg), at({}, leg)}};
    const std::size_t hold_down = add(frame_, std::move(part));
    std::vector<std::size_t> joins = old.joins;
    joins.push_back(hold_down);
    const Length grip = frame_.parts[joins[0]].solid.span.size() + l_.stringer.thickness + metal;
    fasten(frame_, bolt_for(grip, l_.bolt.diameter), old.head, old.direction, std::move(joins), old.reason);
    frame_.fasteners.back().mark = old.mark;
    for (int i = 0; i < kScrewColumns; ++i) {
      for (const double up : {1.0, -1.0}) {
        fasten(frame_, "screw-10x1-1/2",
               {x0 - metal * to_block, face_ + (kFirstScrew + kScrewsApart * i) * way_, old.head.z + kOffMiddle * up},
               {to_block, 0, 0}, {hold_down, block}, "holds the hold-down to its block");
      }
    }
  }

  /// An angle in the corner of the block's face at `x` and the stringer's at `y`; its legs run `way_x` and `way_y`.
  void tie_end(std::size_t block, std::size_t stringer, const char* letter, Length y, double way_y, Length x,
               double way_x, Length middle, Length on_leg) {
    const std::size_t angle =
        add_angle(frame_, "angle-2", "AT" + name_ + letter, "angle, TB" + name_ + " to " + frame_.parts[stringer].mark,
                  Axis::z, {middle - kHalfAngle, middle + kHalfAngle}, {{x, y}, way_x, way_y});
    const Length metal = inches(0.1);
    for (const double dz : {1.0, -1.0}) {
      const Length z = middle + kScrewOffAngle * dz;
      fasten(frame_, "screw-10x1-1/2", {x + metal * way_x, y + on_leg * way_y, z}, {-way_x, 0, 0}, {angle, block},
             "holds the tie block to its angle");
      fasten(frame_, "screw-10x1-1/2", {x + on_leg * way_x, y + metal * way_y, z}, {0, -way_y, 0}, {angle, stringer},
             "holds the tie block's angle to the stringer");
    }
  }

  Frame& frame_;
  const Layout& l_;
  std::string name_;
  bool left_;
  std::size_t near_ = 0, far_ = 0;
  double way_ = 1;                   ///< direction of y into the stair
  Length face_;                      ///< the outer stringer's inner face
  Interval bay_;                     ///< between the outer stringer and the next
  std::optional<std::size_t> bolt_;  ///< the post's upper one
};

}  // namespace

Length hold_down_room(const Layout& l) { return kBoltStagger + bolt_off_block(l) + l.stringer.thickness + kBelowTread; }

void add_hold_downs(Frame& frame, const Layout& l, const StringerParts& stringers) {
  std::string without;
  bool any = false;
  for (std::size_t p = 0, count = frame.parts.size(); p < count; ++p) {
    if (frame.parts[p].kind != PartKind::post) continue;
    if (Tie(frame, l, stringers, p).add_hold_down()) {
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
