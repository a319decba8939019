// The driver: from the set-out lines to the whole frame, in the order in which it is built.

#include "engine/frame/post_ties.hpp"
#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {
namespace {

/// Room made at once for what a stair takes; a long one takes more, one that is counted has few fasteners.
constexpr std::size_t kUsualParts = 128, kUsualFasteners = 512, kUsualBolts = 16;

/// RETURNS landing and stringers; sets out the layout as far.
Skeleton stringers_of(Layout& layout, bool counted) {
  Skeleton out{.frame = house_side(layout.job), .stringers = {}};
  Frame& frame = out.frame;
  frame.counted = counted;
  frame.parts.reserve(kUsualParts);
  frame.fasteners.reserve(counted ? kUsualBolts : kUsualFasteners);
  frame.guard_left = layout.job.rails.left == SideRail::guard;
  frame.guard_right = layout.job.rails.right == SideRail::guard;
  frame.head = head_bearing(layout);
  const std::vector<std::size_t> ground = add_landing(frame, layout);
  out.stringers = add_stringers(frame, layout, ground);
  return out;
}

/// RETURNS the layout with its head where that bears.
Layout set_out(const Job& job, const Site& site, const Flight& flight) {
  Layout layout(job, site, flight);
  head_bearing(layout);
  return layout;
}

constexpr Line kSides[] = {Line::left, Line::right};

bool has_guard(const Frame& frame, std::size_t side) { return side == 0 ? frame.guard_left : frame.guard_right; }

void add_posts(Skeleton& out, const Layout& layout, std::size_t side) {
  if (has_guard(out.frame, side)) out.posts[side] = add_posts(out.frame, layout, out.stringers, kSides[side]);
}

void add_rails(Skeleton& out, const Layout& layout, std::size_t side, bool handrail_needed) {
  Frame& frame = out.frame;
  if (!has_guard(frame, side)) return;
  const HandrailWish wish = layout.job.rails.handrail;
  // One graspable handrail serves the flight: on the right going down unless only the left side has a guard.
  bool& handrail = side == 0 ? frame.handrail_left : frame.handrail_right;
  handrail = (wish == HandrailWish::yes || (wish == HandrailWish::as_required && handrail_needed)) &&
             (side == 1 || !frame.guard_right) && out.posts[side].size() >= 2;
  add_rails(frame, layout, kSides[side], out.posts[side], handrail);
}

}  // namespace

HeadBearing head_bearing(const Job& job, const Site& site, const Flight& flight) {
  Layout layout(job, site, flight);
  return head_bearing(layout);
}

int fewest_supports(const Job& job, const Site& site, const Flight& flight) {
  const Layout layout = set_out(job, site, flight);
  return fewest_supports(layout);
}

Skeleton skeleton_of(const Job& job, const Site& site, const Flight& flight, bool handrail_needed) {
  Layout layout(job, site, flight);
  Skeleton out = stringers_of(layout, false);
  for (const std::size_t side : {0u, 1u}) {
    add_posts(out, layout, side);
    add_rails(out, layout, side, handrail_needed);
  }
  add_mid_supports(out.frame, layout, out.stringers);
  return out;
}

Skeleton counted_stringers(const Job& job, const Site& site, const Flight& flight) {
  Layout layout(job, site, flight);
  return stringers_of(layout, true);
}

void count_posts(Skeleton& counted, const Job& job, const Site& site, const Flight& flight) {
  const Layout layout = set_out(job, site, flight);
  for (const std::size_t side : {0u, 1u}) add_posts(counted, layout, side);
}

bool count_hold_downs(Skeleton& counted, const Job& job, const Site& site, const Flight& flight,
                      const std::vector<std::size_t>& posts, const HoldDownItems& items) {
  return count_hold_downs(counted.frame, Layout(job, site, flight), counted.stringers, posts, items);
}

void count_treads(Skeleton& counted, const Job& job, const Site& site, const Flight& flight, bool handrail_needed) {
  const Layout layout = set_out(job, site, flight);
  for (const std::size_t side : {0u, 1u}) add_rails(counted, layout, side, handrail_needed);
  add_treads(counted.frame, layout, counted.stringers);
}

void count_supports(Skeleton& counted, const Job& job, const Site& site, const Flight& flight,
                    std::optional<int> standing) {
  const Layout layout = set_out(job, site, flight);
  count_mid_supports(counted.frame, layout, counted.stringers, standing);
}

Frame finished(const Job& job, const Site& site, const Flight& flight, Skeleton skeleton) {
  Frame frame = std::move(skeleton.frame);
  const Layout layout = set_out(job, site, flight);
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
  return finished(job, site, flight, skeleton_of(job, site, flight, handrail_needed));
}

Frame build_frame(const Job& job, const Site& site, const Flight& flight, bool handrail_needed) {
  Frame frame = untested_frame(job, site, flight, handrail_needed);
  frame.clashes = find_clashes(frame);
  return frame;
}

}  // namespace pitchboard
