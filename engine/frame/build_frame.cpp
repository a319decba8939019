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
  frame.head = head_bearing(layout);
  const std::vector<std::size_t> ground = add_landing(frame, layout);
  out.stringers = add_stringers(frame, layout, ground);
  return out;
}

void add_sides(Frame& frame, const Layout& layout, const StringerParts& stringers, bool handrail_needed) {
  const Rails& rails = layout.job.rails;
  frame.guard_left = rails.left == SideRail::guard;
  frame.guard_right = rails.right == SideRail::guard;
  const bool handrail =
      rails.handrail == HandrailWish::yes || (rails.handrail == HandrailWish::as_required && handrail_needed);
  // One graspable handrail serves the flight: on the right going down unless only the left side has a guard.
  frame.handrail_left = handrail && frame.guard_left && !frame.guard_right;
  frame.handrail_right = handrail && frame.guard_right;
  const auto left = add_side(frame, layout, stringers, Line::left, frame.guard_left, frame.handrail_left);
  const auto right = add_side(frame, layout, stringers, Line::right, frame.guard_right, frame.handrail_right);
  if (left.size() < 2) frame.handrail_left = false;
  if (right.size() < 2) frame.handrail_right = false;
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
  Layout layout(job, site, flight);
  Skeleton out = stringers_of(layout, false);
  add_sides(out.frame, layout, out.stringers, handrail_needed);
  add_mid_supports(out.frame, layout, out.stringers);
  return out;
}

Skeleton counted_stringers(const Job& job, const Site& site, const Flight& flight) {
  Layout layout(job, site, flight);
  return stringers_of(layout, true);
}

void count_rest(Skeleton& counted, const Job& job, const Site& site, const Flight& flight, bool handrail_needed,
                std::optional<int> supports) {
  auto& [frame, parts] = counted;
  Layout layout(job, site, flight);
  head_bearing(layout);  // where the head is depends on it
  add_sides(frame, layout, parts, handrail_needed);
  count_mid_supports(frame, layout, parts, supports);
  add_treads(frame, layout, parts);
}

bool count_hold_downs(Skeleton& counted, const Job& job, const Site& site, const Flight& flight,
                      const std::vector<std::size_t>& posts, const HoldDownItems& items) {
  return count_hold_downs(counted.frame, Layout(job, site, flight), counted.stringers, posts, items);
}

Frame finished(const Job& job, const Site& site, const Flight& flight, Skeleton skeleton) {
  Frame frame = std::move(skeleton.frame);
  Layout layout(job, site, flight);
  head_bearing(layout);  // where the head is depends on it
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
