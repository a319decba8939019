// The driver: from the set-out lines to the whole frame, in the order in which it is built.

#include "engine/frame/post_ties.hpp"
#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {
namespace {

/// Room made at once for what a stair takes; a long one takes more, one that is counted has few fasteners.
constexpr std::size_t kUsualParts = 128, kUsualFasteners = 512, kUsualBolts = 16;

/// RETURNS landing and stringers, which nothing holds yet.
Skeleton stringers_of(const Job& job, const Site& site, const Flight& flight, bool counted) {
  const auto layout = std::make_shared<Layout>(job, site, flight);
  Skeleton out{.frame = house_side(job), .stringers = {}, .posts = {}, .layout = layout};
  Frame& frame = out.frame;
  frame.counted = counted;
  frame.parts.reserve(kUsualParts);
  frame.fasteners.reserve(counted ? kUsualBolts : kUsualFasteners);
  frame.guard_left = job.rails.left == SideRail::guard;
  frame.guard_right = job.rails.right == SideRail::guard;
  frame.head = head_bearing(*layout);
  const std::vector<std::size_t> ground = add_landing(frame, *layout);
  out.stringers = add_stringers(frame, *layout, ground);
  return out;
}

constexpr Line kSides[] = {Line::left, Line::right};

bool has_guard(const Frame& frame, std::size_t side) { return side == 0 ? frame.guard_left : frame.guard_right; }

void add_posts(Skeleton& out, std::size_t side) {
  if (has_guard(out.frame, side)) out.posts[side] = add_posts(out.frame, *out.layout, out.stringers, kSides[side]);
}

void add_rails(Skeleton& out, std::size_t side, bool handrail_needed) {
  Frame& frame = out.frame;
  if (!has_guard(frame, side)) return;
  const HandrailWish wish = out.layout->job.rails.handrail;
  // One graspable handrail serves the flight: on the right going down unless only the left side has a guard.
  bool& handrail = side == 0 ? frame.handrail_left : frame.handrail_right;
  handrail = (wish == HandrailWish::yes || (wish == HandrailWish::as_required && handrail_needed)) &&
             (side == 1 || !frame.guard_right) && out.posts[side].size() >= 2;
  add_rails(frame, *out.layout, kSides[side], out.posts[side], handrail);
}

}  // namespace

HeadBearing head_bearing(const Job& job, const Site& site, const Flight& flight) {
  Layout layout(job, site, flight);
  return head_bearing(layout);
}

int fewest_supports(const Job& job, const Site& site, const Flight& flight) {
  Layout layout(job, site, flight);
  head_bearing(layout);  // where the head is depends on it
  return fewest_supports(layout);
}

Skeleton skeleton_of(const Job& job, const Site& site, const Flight& flight, bool handrail_needed) {
  Skeleton out = stringers_of(job, site, flight, false);
  hold_stringers(out.frame, *out.layout, out.stringers);
  for (const std::size_t side : {0u, 1u}) {
    add_posts(out, side);
    add_rails(out, side, handrail_needed);
  }
  add_mid_supports(out.frame, *out.layout, out.stringers);
  return out;
}

Skeleton counted_stringers(const Job& job, const Site& site, const Flight& flight) {
  return stringers_of(job, site, flight, true);
}

void count_posts(Skeleton& counted) {
  for (const std::size_t side : {0u, 1u}) add_posts(counted, side);
}

bool count_hold_downs(Skeleton& counted, const std::vector<std::size_t>& posts, const HoldDownItems& items) {
  return count_hold_downs(counted.frame, *counted.layout, counted.stringers, posts, items);
}

void count_treads(Skeleton& counted, bool handrail_needed) {
  hold_stringers(counted.frame, *counted.layout, counted.stringers);
  for (const std::size_t side : {0u, 1u}) add_rails(counted, side, handrail_needed);
  add_treads(counted.frame, *counted.layout, counted.stringers);
}

void count_supports(Skeleton& counted, std::optional<int> standing) {
  count_mid_supports(counted.frame, *counted.layout, counted.stringers, standing);
}

Frame finished(Skeleton skeleton) {
  Frame frame = std::move(skeleton.frame);
  const Layout& layout = *skeleton.layout;
  const Job& job = layout.job;
  const Flight& flight = layout.flight;
  add_treads(frame, layout, skeleton.stringers);
  if (job.rails.hold_downs) add_hold_downs(frame, layout, skeleton.stringers);
  note_posts(frame, layout);
  if (flight.landing.fall != 0.0 || flight.landing.cross_fall != 0.0) {
    frame.notes.push_back("Scribe each stringer foot to the landing: it is not level.");
  }
  if (layout.hanger_under)
    frame.notes.push_back("Shift a drop block sideways where a joist is in its way; keep its bolts in its middle.");
  if (job.deck.fascia_thickness > Length()) {
    frame.notes.push_back("Cut the fascia away behind the stair: the stringers bear on the rim, not on the trim.");
  }
  if (flight.kind == StringerKind::ready_cut) {
    const ReadyCut& stock = job.yard.ready_cut[flight.ready_cut.value_or(0)];
    const Length trim = flight.tread_thickness - job.pad.later_finish - (stock.dropped ? stock.dropped_by : Length());
    if (trim > kTouch)
      frame.notes.push_back("Take " + tape_plain(trim, job.about.units) +
                            " more off the foot of each ready-cut stringer.");
    if (trim < -kTouch)
      frame.notes.push_back("Pack the foot of each ready-cut stringer up by " + tape_plain(-trim, job.about.units) +
                            ".");
  }
  return frame;
}

Frame untested_frame(const Job& job, const Site& site, const Flight& flight, bool handrail_needed) {
  return finished(skeleton_of(job, site, flight, handrail_needed));
}

Frame build_frame(const Job& job, const Site& site, const Flight& flight, bool handrail_needed) {
  Frame frame = untested_frame(job, site, flight, handrail_needed);
  frame.clashes = find_clashes(frame);
  return frame;
}

}  // namespace pitchboard
