// Posts of one side: where they stand, their bolts through the outer stringer, and how the lowest meets the landing.

#include <algorithm>
#include <cmath>

#include "engine/frame/post_ties.hpp"
#include "engine/frame/side.hpp"
#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {
namespace {

/// Middles of the posts, lowest first: one by the lowest riser, one at the deck, and between them as many as the
/// spacing asks.
std::vector<Length> post_places(const Side& side) {
  const Layout& l = side.l;
  const Length half = side.post.width / 2.0;
  const Length behind = l.solid() ? kPostBehindSolidRiser : kPostBehindCut;
  const Length low = l.cut_face(1) - behind;
  const bool fresh = l.job.rails.top_posts == TopPosts::fresh;
  // The post stands beyond the connectors at the head: beside solid stringers they are where it would be, and its nuts
  // have to clear those inside the others.
  const Length leg = inches(hardware("stringer-connector").head_radius);
  const Length beyond = std::max(kPostBeyondHead, leg + l.bolt.nut_radius + kMetalClear + kBoltStagger - half);
  const Length nearest = l.solid() ? std::max(kPostBeyondHead, l.head_x + leg + kPostClearance)
                                   : std::max(kPostClearance, l.head_x + beyond);
  const Length high = fresh ? half + nearest : l.job.rails.existing_post_out - half;
  if (low - high < side.post.width * 3.0) return {low};
  const auto in_bays = [&](int bays) {
    std::vector<Length> out{low};
    for (int i = 1; i < bays; ++i) {
      const Length ideal = low + (high - low) * (static_cast<double>(i) / bays);
      // Beside a plumb cut, where the stringer is deepest under a tread; the nearest one to the even spacing.
      Length best = low;
      for (int k = 1; k <= l.treads; ++k) {
        const Length at = l.cut_face(k) - behind;
        if (abs(at - ideal) < abs(best - ideal)) best = at;
      }
      out.push_back(best);
    }
    out.push_back(high);
    return out;
  };
  const Length apart = l.job.rails.post_spacing_at_most + kTouch;
  int bays = static_cast<int>(std::ceil((low - high) / apart));
  std::vector<Length> out = in_bays(bays);
  // Moved to the plumb cuts, two posts may stand too far apart: then one bay more.
  const auto too_far = [&](Length p, Length q) { return p - q > apart; };
  while (std::ranges::adjacent_find(out, too_far) != out.end() && bays < l.treads) out = in_bays(++bays);
  return out;
}

/// Stretch of stringer wood, bottom to top, beside a post.
Interval wood_beside(const Frame& frame, std::size_t stringer, Length x) {
  // Over the kicker's notch the wood begins above it; the post's bolts go into the longest stretch.
  Interval best;
  for (const Interval& v : slice_at_a(frame.parts[stringer].solid.outline, x)) {
    if (v.size() > best.size()) best = v;
  }
  return best;
}

/// Heights of the two bolts of a post, lower and upper.
Interval bolt_heights(const Frame& frame, const Side& side, std::size_t stringer, Length x, bool lowest) {
  const Layout& l = side.l;
  Interval wood_here = wood_beside(frame, stringer, x);
  Length high = wood_here.to - kBoltEdge;
  if (l.solid()) {
    // The nuts come out under a tread, a hold-down too.
    int k = 1;
    while (k < l.treads && l.nosing_x(k + 1) > x) ++k;
    const Length nut = l.bolt.under_tread();
    high = std::min(high, l.level_cut(k) - (l.job.rails.hold_downs ? std::max(nut, kHoldDownUnderTread) : nut));
  }
  // Two bolts, 2 in from the edges where there is room. At the foot, where the rise leaves little wood, the lower one
  // stands as low as its edge distance and the landing let it.
  const Length above_ground = l.job.pad.later_finish + kOffGround + l.bolt.least_end + kOverLeastEnd;
  // With a hold-down the lower bolt is the one further up the slope.
  const Length stagger = l.job.rails.hold_downs ? kBoltStagger * l.rake : Length();
  Length low = wood_here.from + (lowest ? std::min(kBoltEdge, above_ground) : kBoltEdge / l.cosine + stagger);
  if (high - low < l.bolt.apart) {
    const Length half = l.bolt.apart / 2.0;
    const Length middle =
        l.solid() ? high - half
                  : std::max(wood_here.middle(), wood_here.from + kOffGround + l.bolt.least_end + kOverLeastEnd + half);
    return {middle - half, middle + half};
  }
  return {std::max(low, high - kBoltSpread / l.cosine), high};
}

std::size_t add_post(Frame& frame, const Side& side, std::size_t stringer, Length x, int number, Length foot,
                     Interval bolts, std::string use, double upper_to) {
  const Layout& l = side.l;
  const Length half = side.post.width / 2.0;
  const Interval across{x - half, x + half};
  Part post = part_of(side, PartKind::post, "P" + side.letter + std::to_string(number), std::move(use), side.post,
                      side.band({}, side.post.width),
                      {{across.from, foot},
                       {across.to, foot},
                       {across.to, side.rail_top(across.to)},
                       {across.from, side.rail_top(across.from)}});
  post.grain_a = 0;
  post.grain_b = 1;
  const std::size_t index = add(frame, std::move(post));
  const HardwareRow& bolt = bolt_for(side.post.width + l.stringer.thickness, l.bolt.diameter);
  for (const bool upper : {true, false}) {
    fasten(frame, bolt,
           {x + kBoltStagger * (upper ? upper_to : -upper_to), side.face + side.post.width * side.out,
            upper ? bolts.to : bolts.from},
           side.inwards(), {index, stringer}, kHoldsPost);
  }
  return index;
}

/// An angle that ties the lowest post's foot to the landing, on its house side.
void tie_foot(Frame& frame, const Side& side, std::size_t post, Length x, const std::vector<std::size_t>& ground) {
  const Layout& l = side.l;
  const Length face = x - side.post.width / 2.0, y = side.band({}, side.post.width).middle();
  // Beside the stair the landing is drawn as it is under the nearer stringer.
  const auto surface = [&](Length at, Length across) { return l.foot_z(at, std::clamp(across, Length(), l.width())); };
  Length z = surface(face, y);
  for (const Length dy : {-inches(0.75), inches(0.75)}) {
    z = std::max({z, surface(face, y + dy), surface(face - inches(2.0), y + dy)});
  }
  const std::size_t angle =
      add_angle(frame, hardware("angle-2"), {"AP", side.letter}, {"angle at the foot of the post"}, Axis::y,
                {y - inches(0.75), y + inches(0.75)}, {{face, z}, -1, 1});
  for (const double dy : {-0.4, 0.4}) {
    fasten(frame, hardware("screw-10x1-1/2"), {face - inches(0.1), y + inches(dy), z + inches(1.4)}, {1, 0, 0},
           {angle, post}, "ties the foot of the post to the landing");
  }
  pin_to_landing(frame, l, {face - inches(1.3), y, z + inches(0.1)}, angle, ground,
                 "ties the foot of the post to the landing");
}

std::size_t add_existing_post(Frame& frame, const Side& side, Length x, int number) {
  const Length half = side.post.width / 2.0;
  Part post;
  post.mark = "post" + side.letter + std::to_string(number);
  post.kind = PartKind::existing;
  post.use = "post that is there";
  post.side = side.line;
  post.section = side.post;
  const Length foot = side.l.rim.bottom;
  post.solid = {
      Axis::y,
      side.band({}, side.post.width),
      {{x - half, foot}, {x + half, foot}, {x + half, side.rail_top(x + half)}, {x - half, side.rail_top(x - half)}}};
  return add(frame, std::move(post));
}

}  // namespace

std::vector<PostPlace> add_posts(Frame& frame, const Layout& l, const StringerParts& stringers, Line line) {
  const Side side(l, line);
  const std::size_t stringer = side.left ? stringers.stringers.front() : stringers.stringers.back();
  const std::vector<Length> places = post_places(side);
  std::vector<PostPlace> posts;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Length x = places[i];
    const int number = static_cast<int>(i) + 1;
    if (i > 0 && i + 1 == places.size() && l.job.rails.top_posts == TopPosts::existing) {
      posts.push_back({add_existing_post(frame, side, x, number), x});
      continue;
    }
    const Interval bolts = bolt_heights(frame, side, stringer, x, i == 0);
    const Length off_ground = l.foot_z(x, side.face) + kOffGround;
    if (i > 0) {
      // At the deck a hold-down's block has room in front of the bolts only: there the lower nut keeps out of its way.
      const double upper_to = l.job.rails.hold_downs && i + 1 == places.size() ? 1.0 : -1.0;
      const Length foot = std::max(off_ground, bolts.from - l.bolt.diameter * kBoltEnd);
      posts.push_back({add_post(frame, side, stringer, x, number, foot, bolts, "post", upper_to), x});
    } else if (feet_in_concrete(l)) {
      const PostFooting footing = post_footing(frame, side, x, stringers.ground);
      posts.push_back({add_post(frame, side, stringer, x, number, footing.post_foot, bolts,
                                "post at the foot, set in concrete", -1.0),
                       x});
      add_footing(frame, side, posts.front().part, footing);
    } else {
      posts.push_back({add_post(frame, side, stringer, x, number, off_ground, bolts, "post at the foot", -1.0), x});
      tie_foot(frame, side, posts.front().part, x, stringers.ground);
    }
  }
  return posts;
}

}  // namespace pitchboard
