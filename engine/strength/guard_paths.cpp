// From any point of a rail to the stringer or the ground: rails, brackets, posts, bolts, and what keeps the stringer
// from rolling; balusters and handrail on their way to the rails and posts.
//
// MODEL  A guard's push comes at the top of the cap, level and square to the stair. A bolted post turns about its lower
//        bolt, so the upper one is pulled. That pull goes back into the frame through a hold-down where there is one;
//        without it, the treads' screws hold the stringer's upper edge and blocking its lower one.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/catalog.hpp"
#include "engine/base/sort.hpp"
#include "engine/frame/post_ties.hpp"
#include "engine/job/words.hpp"
#include "engine/strength/calculator.hpp"
#include "engine/strength/joint_factors.hpp"

namespace pitchboard {
namespace {

constexpr std::string_view kGuard = "duration.guard";
/// Bolt holes are this much wider than the bolt. SOURCE NDS 2018 12.1.3: 1/32 to 1/16 in.
constexpr double kHoleOver = 1.0 / 16.0;
/// What fails by more than this fails however sums are rounded.
constexpr double kSurely = 1.0 + 1e-9;
/// Blocks further from a post than this do not hold its stringer there. SOURCE own judgement: a step's length.
constexpr double kBlockNear = 14.0;

struct SidePart {
  const Calculator& c;
  Line line;
  double outwards;  ///< +1 or -1 along y
  [[nodiscard]] bool has(std::size_t part) const { return c.frame.parts[part].side == line; }
  [[nodiscard]] std::vector<std::size_t> parts(PartKind kind) const {
    std::vector<std::size_t> out = parts_of(c.frame, kind);
    std::erase_if(out, [&](std::size_t part) { return !has(part); });
    return out;
  }
};

double slope_length(const Calculator& c, double level) {
  return level * std::hypot(in_inches(c.flight.unit_rise), in_inches(c.flight.going)) / in_inches(c.flight.going);
}

std::vector<ForceVector> any_direction(double force) { return {{0, force, 0}, {0, -force, 0}, {0, 0, -force}}; }

bool is_item(const Frame& frame, std::size_t part, std::string_view item) {
  return frame.parts[part].section.nominal == item;
}
bool is_hold_down(const Frame& frame, std::size_t part) {
  return frame.parts[part].section.nominal.starts_with("hold-down");
}

// ----------------------------------------------------------------------------------------------------------------
// posts

/// The upper and lower bolt of a post in a stringer, or the nearest two if it has more.
std::vector<std::size_t> bolts_of(const Calculator& c, std::size_t post, std::size_t stringer) {
  std::vector<std::size_t> bolts = c.fastened.between(post, stringer);
  sort_stably(bolts, std::ranges::greater(), [&](std::size_t f) { return c.frame.fasteners[f].head.z; });
  return bolts;
}

std::optional<std::size_t> stringer_of(const Calculator& c, std::size_t post) {
  for (const std::size_t other : c.fastened.to(post)) {
    if (c.frame.parts[other].kind == PartKind::stringer) return other;
  }
  return std::nullopt;
}

/// Height that wood between the stringers holds this stringer's lower edge at, near the post.
std::optional<double> lower_hold(const Calculator& c, std::size_t stringer, double x) {
  std::optional<double> low;
  for (std::size_t i = 0; i < c.frame.parts.size(); ++i) {
    const Part& part = c.frame.parts[i];
    if (part.kind != PartKind::block && part.kind != PartKind::support_beam) continue;
    if (c.fastened.between(i, stringer).empty()) continue;
    const auto extents = box(part.solid);
    if (std::abs(in_inches(extents[0].middle()) - x) > kBlockNear) continue;
    const double at = in_inches(extents[2].from);
    low = low ? std::min(*low, at) : at;
  }
  return low;
}

/// Screws of the treads beside the post into its stringer, and how high they lie.
std::vector<std::size_t> tread_screws(const Calculator& c, std::size_t stringer, double x) {
  std::vector<std::size_t> out;
  const double going = in_inches(c.flight.going);
  for (const std::size_t f : c.fastened.by(stringer)) {
    const Fastener& fastener = c.frame.fasteners[f];
    const bool tread = std::ranges::any_of(
        fastener.joins, [&](std::size_t part) { return c.frame.parts[part].kind == PartKind::tread; });
    if (tread && std::abs(in_inches(fastener.head.x) - x) <= going) out.push_back(f);
  }
  return out;
}

/// Screws of the angles and straight ones that hold an end of a block to a stringer.
struct BlockEnd {
  std::vector<std::size_t> in_block, in_stringer;
};
BlockEnd end_of(const Calculator& c, std::size_t block, std::size_t stringer) {
  BlockEnd out;
  out.in_block = c.fastened.between(block, stringer);
  for (const std::size_t angle : c.fastened.to(block)) {
    if (!is_item(c.frame, angle, "angle-2") && !is_item(c.frame, angle, "angle-4-1/2")) continue;
    const std::vector<std::size_t> here = c.fastened.between(angle, stringer);
    if (here.empty()) continue;
    const std::vector<std::size_t> there = c.fastened.between(angle, block);
    out.in_stringer.insert(out.in_stringer.end(), here.begin(), here.end());
    out.in_block.insert(out.in_block.end(), there.begin(), there.end());
  }
  return out;
}

/// The hold-down pulls the block's upper part, the stringer presses on its lower part: the difference, P, goes on to
/// the next stringer, and the turning moment goes into a couple of plumb forces at the block's ends.
void add_block_links(Calculator& c, const SidePart& side, std::size_t post, std::size_t stringer, std::size_t block,
                     double top, Links& links) {
  const std::string where = c.frame.parts[post].mark;
  const auto extents = box(c.frame.parts[block].solid);
  const double push = c.loads.rail, arm = top - in_inches(extents[2].middle());
  for (const std::size_t other : parts_of(c.frame, PartKind::stringer)) {
    const BlockEnd end = end_of(c, block, other);
    if (end.in_block.empty()) continue;
    const bool near = other == stringer;
    const double reach = in_inches(extents[1].size() + c.frame.parts[other].solid.span.size());
    const double couple = push * arm / reach, along = near ? 0.0 : side.outwards * push;
    const std::string name = near ? "the post's stringer" : "the next stringer";
    const auto said = [&](std::size_t link) {
      links.push_back(link);
      if (!c.written()) return;
      c.lead_in(link,
                {{"P_g", "push at the top of the guard", push, "lb", "", "loads", false},
                 {"h_k", "height of the push over the block's middle", arm, "in", "", "frame", false},
                 {"b_k", "from stringer to stringer, middles", reach, "in", "", "frame", false},
                 {"V_k", "plumb force at each end of the block", couple, "lb", "P_g h_k / b_k", "statics", false}});
    };
    said(c.joint("post", where, "block's end at " + name + ", screws in the block", end.in_block, block,
                 {{0, along, couple}, {0, along, -couple}}, kGuard));
    if (!end.in_stringer.empty()) {
      said(c.joint("post", where, "block's end at " + name + ", angles' screws in the stringer", end.in_stringer, other,
                   {{0, -along, couple}, {0, -along, -couple}}, kGuard));
    }
  }
}

/// The pull of the upper bolt, back into the frame.
void add_pull_links(Calculator& c, const SidePart& side, std::size_t post, std::size_t stringer, std::size_t upper,
                    const GuardPostForces& forces, double top, Links& links) {
  const std::string where = c.frame.parts[post].mark;
  for (const std::size_t other : c.frame.fasteners[upper].joins) {
    if (!is_hold_down(c.frame, other)) continue;
    const double pull = forces.upper_tension;
    links.push_back(
        c.reported("post", where, "the hold-down", pull, c.job.rails.hold_down_value, "rails.hold_down_value"));
    for (const std::size_t block : c.fastened.to(other)) {
      if (c.frame.parts[block].kind != PartKind::block) continue;
      links.push_back(c.joint("post", where, "the hold-down's screws into its block", c.fastened.between(other, block),
                              other, {{0, side.outwards * pull, 0}}, kGuard));
      add_block_links(c, side, post, stringer, block, top, links);
    }
    return;
  }
  // No hold-down: the stringer must not roll.
  const double x = in_inches(box(c.frame.parts[post].solid)[0].middle());
  const std::optional<double> low = lower_hold(c, stringer, x);
  const std::vector<std::size_t> screws = tread_screws(c, stringer, x);
  if (!low || screws.empty()) {
    links.push_back(
        c.unknown("post", where, "what keeps the stringer from rolling", forces.upper_tension,
                  "Nothing between the stringers near this post holds the stringer's lower edge: a hold-down and "
                  "blocking would (rails.hold_downs)."));
    return;
  }
  double high = -1e9;
  for (const std::size_t screw : screws) high = std::max(high, in_inches(c.frame.fasteners[screw].head.z));
  const double arm = std::max(high - *low, 1.0), force = c.loads.rail * (top - *low) / arm;
  const std::size_t link = c.joint("post", where, "treads' screws, that keep the stringer from rolling", screws,
                                   stringer, {{0, side.outwards * force, 0}}, kGuard);
  links.push_back(link);
  if (!c.written()) return;
  c.lead_in(link, {{"P_g", "push at the top of the guard", c.loads.rail, "lb", "", "loads", false},
                   {"h_b", "height of the push over the blocking's lower edge", top - *low, "in", "", "frame", false},
                   {"h_s", "height of the treads over it", arm, "in", "", "frame", false},
                   {"F", "pull across the treads' screws", force, "lb", "P_g h_b / h_s", "statics", false}});
}

/// A post in concrete: the ground beside it holds it.
Check check_embedded_post(const Calculator& c, std::size_t post, std::size_t footing, double top) {
  const auto pier = box(c.frame.parts[footing].solid);
  const double depth = in_inches(pier[2].size());
  const Length width = std::min(pier[0].size(), pier[1].size());
  const Length height = inches(top) - pier[2].to;
  const double soil = post_footing_figure("bearing");
  Check check;
  check.member = "post";
  check.where = c.frame.parts[post].mark;
  check.what = "depth of the concrete round its foot";
  check.clause = "IBC 1807.3.2.1";
  check.demand = in_inches(pole_depth(pounds(c.loads.rail), height, width, soil));
  check.capacity = depth;
  check.unit = "in";
  if (!c.written()) return weighed(std::move(check));
  check.figures = {
      {"P_g", "push at the top of the guard", c.loads.rail, "lb", "", "loads", false},
      {"h", "height of the push over the concrete", in_inches(height), "in", "", "frame", false},
      {"b", "width of the concrete", in_inches(width), "in", "", "frame", false},
      {"S", "what the soil bears sideways, for each foot of depth", soil, "psf/ft", "", "IBC Table 1806.2", true},
      {"d", "depth needed", check.demand, "in", "A/2 (1 + sqrt(1 + 4.36 h/A)), A = 2.34 P_g/(S d/3 b)",
       "IBC 1807.3.2.1", true}};
  return weighed(std::move(check));
}

/// Top of the cap over the post's middle.
double top_of_guard(const Calculator& c, const Part& post) {
  double top = in_inches(extent_b(post.solid.outline).to);
  for (const Interval& plumb : slice_at_a(post.solid.outline, extent_a(post.solid.outline).middle()))
    top = in_inches(plumb.to);
  const SectionRow* cap = find_section(c.job.rails.cap);
  return top + (cap ? slope_length(c, cap->thickness) : 0.0);
}

/// The upper bolt where a hold-down takes its pull: its steel, and the plate under its head on the post.
void add_tied_bolt(Calculator& c, std::size_t post, const Fastener& bolt, double pull, Links& links) {
  const std::string& where = c.frame.parts[post].mark;
  Check steel;
  steel.member = "post";
  steel.where = where;
  steel.what = "steel of the upper bolt, pulled";
  steel.clause = "NDS 2018 11.2.3";
  steel.demand = pull;
  steel.unit = "lb";
  HandSheet sheet(c.written());
  steel.capacity = steel_tension(sheet, dowel_of(DowelKind::bolt, in_inches(bolt.diameter), in_inches(bolt.length)));
  steel.figures = std::move(sheet).take();
  links.push_back(c.add(weighed(std::move(steel))));
  const std::size_t plate = bolt.joins.front();
  if (!is_item(c.frame, plate, "plate-washer")) {
    links.push_back(c.joint("post", where, "upper bolt's washer on the post",
                            {static_cast<std::size_t>(&bolt - c.frame.fasteners.data())}, post,
                            {{0, bolt.direction.y < 0 ? pull : -pull, 0}}, kGuard));
    return;
  }
  const double side = in_inches(c.frame.parts[plate].section.width), hole = in_inches(bolt.diameter) + kHoleOver;
  Bearing bearing;
  bearing.part = "post";
  bearing.mark = where;
  bearing.what = "plate under the upper bolt's head";
  bearing.faces = {{c.timber(post, "post", kGuard), 90.0}};
  bearing.length = side;
  bearing.width = (side * side - kPi / 4.0 * hole * hole) / side;  // less the hole
  bearing.force = pull;
  bearing.force_words = "pull of the upper bolt";
  links.push_back(c.add(check_bearing(bearing)));
}

/// Whether a hold-down will take the pull at the post is not known yet, but where the bolt alone cannot, one has to:
/// then that is noted. Of the checks only what fails whether there is one or not stays; how the bolts are pressed is
/// asked once, since posts are mostly alike in that. `arm`: of the push over a hold-down's block, at the least.
void note_need(Calculator& c, std::size_t post, double pull, const auto& pulled, const auto& pressed, double arm) {
  std::vector<Check>& checks = c.out.checks;
  const std::size_t before = checks.size();
  const bool first = !c.bolt_carries;
  if (first) {
    const Check& check = checks[pulled()];
    c.bolt_carries = check.verdict == Verdict::not_checked ? std::numeric_limits<double>::infinity() : check.capacity;
  }
  if (pull > *c.bolt_carries * kSurely) {
    const double moment = c.loads.rail * arm;
    c.need.moment = c.need.posts.empty() ? moment : std::min(c.need.moment, moment);
    if (c.need.posts.empty()) c.need.without = checks[first ? before : pulled()];
    const std::vector<std::size_t> posts = parts_of(c.frame, PartKind::post);
    c.need.posts.push_back(static_cast<std::size_t>(std::ranges::find(posts, post) - posts.begin()));
  }
  std::optional<Check> fails;
  if (first) {
    if (Check& down = checks[pressed()]; down.verdict == Verdict::fail) fails = std::move(down);
  }
  checks.resize(before);
  if (fails) checks.push_back(*std::move(fails));
}

Links post_links(Calculator& c, const SidePart& side, std::size_t post) {
  Links links;
  const Part& part = c.frame.parts[post];
  const double top = top_of_guard(c, part);
  if (const auto footing = part_named(c.frame, footing_of(part.mark))) {
    const Interval pier = c.frame.parts[*footing].solid.span;
    GuardPost guard;
    guard.post = c.timber(post, "post", kGuard);
    guard.load = c.loads.rail;
    guard.height = top - in_inches(pier.to);
    guard.bolt_spacing = in_inches(pier.size());
    links = c.add(check_guard_post(guard));
    links.push_back(c.add(check_embedded_post(c, post, *footing, top)));
    return links;
  }
  const std::optional<std::size_t> stringer = stringer_of(c, post);
  const std::vector<std::size_t> bolts = stringer ? bolts_of(c, post, *stringer) : std::vector<std::size_t>();
  if (bolts.size() < 2) {
    return {c.unknown("post", part.mark, "what holds this post", c.loads.rail,
                      "It stands already, or hangs on what this program has not drawn: look at it.")};
  }
  const Fastener& upper = c.frame.fasteners[bolts.front()];
  GuardPost guard;
  guard.load = c.loads.rail;
  guard.height = top - in_inches(upper.head.z);
  guard.bolt_spacing = in_inches(upper.head.z - c.frame.fasteners[bolts.back()].head.z);
  guard.hole = in_inches(upper.diameter) + kHoleOver;
  const GuardPostForces forces = guard_post_forces(guard);
  if (!c.no_worse(guard)) {
    guard.post = c.timber(post, "post", kGuard);
    links = c.add(check_guard_post(guard));
  }
  const bool before_hold_downs = c.depth == Depth::skeleton && c.job.rails.hold_downs;
  if (before_hold_downs && !c.frame.counted) return links;
  const auto pulled = [&] {
    return c.joint("post", part.mark, "upper bolt, pulled", {bolts.front()}, post,
                   {{0, side.outwards * forces.upper_tension, 0}}, kGuard);
  };
  const auto pressed = [&](const std::vector<std::size_t>& by) {
    return c.joint("post", part.mark, "bolts, pressed down", by, post, {{0, 0, -c.loads.rail}}, kGuard);
  };
  if (before_hold_downs) {
    note_need(
        c, post, forces.upper_tension, pulled, [&] { return pressed(bolts); },
        top - in_inches(highest_block(upper.head.z)));
    return links;
  }
  const bool tied = std::ranges::any_of(upper.joins, [&](std::size_t other) { return is_hold_down(c.frame, other); });
  if (tied) {
    add_tied_bolt(c, post, upper, forces.upper_tension, links);
  } else {
    links.push_back(pulled());
  }
  // The bolt that a hold-down pulls is not counted on for the load down.
  links.push_back(pressed(tied ? std::vector{bolts.back()} : bolts));
  if (c.depth == Depth::skeleton) return links;
  add_pull_links(c, side, post, *stringer, bolts.front(), forces, top, links);
  return links;
}

// ----------------------------------------------------------------------------------------------------------------
// rails

/// Screws of the brackets that hold a rail, worst direction of the push.
void add_bracket_links(Calculator& c, std::size_t rail, Links& links) {
  for (const std::size_t bracket : c.fastened.to(rail)) {
    if (!is_item(c.frame, bracket, "rail-bracket")) continue;
    links.push_back(c.joint("rail", c.frame.parts[rail].mark, "a bracket's screws into the rail",
                            c.fastened.between(bracket, rail), rail, any_direction(c.loads.rail), kGuard));
    for (const std::size_t post : c.fastened.to(bracket)) {
      if (post == rail) continue;
      links.push_back(c.joint("rail", c.frame.parts[rail].mark, "a bracket's screws into the post",
                              c.fastened.between(bracket, post), bracket, any_direction(c.loads.rail), kGuard));
    }
    links.push_back(c.unknown("rail", c.frame.parts[rail].mark, "the bracket itself", c.loads.rail,
                              "Bent metal: take its value from its maker's report."));
    return;  // both ends are alike
  }
}

Links rail_links(Calculator& c, const SidePart& side, std::size_t rail) {
  const Interval bay = extent_a(c.frame.parts[rail].solid.outline);
  RailSpan span;
  span.carries = {{c.timber(rail, "rail", kGuard), true}};
  // The cap is screwed down on the rail along its length, so both bend together.
  for (const std::size_t cap : side.parts(PartKind::cap)) {
    if (overlap(extent_a(c.frame.parts[cap].solid.outline), bay) < bay.size() * 0.9) continue;
    Timber board = c.timber(cap, "cap", kGuard);
    board.member.width = in_inches(c.frame.parts[cap].solid.span.size());  // ripped
    span.carries.push_back({board, false});
    break;
  }
  span.span = slope_length(c, in_inches(bay.size()));
  span.point = c.loads.rail;
  span.along = c.loads.rail_along;
  Links links = c.add(check_rail(span));
  span.level = false;
  const Links down = c.add(check_rail(span));
  links.insert(links.end(), down.begin(), down.end());
  add_bracket_links(c, rail, links);
  return links;
}

// ------------------------------------------------------------------------------------------------ balusters and
// handrail

Links baluster_links(Calculator& c, const std::vector<std::size_t>& balusters) {
  const Part& part = c.frame.parts[balusters.front()];
  Baluster baluster;
  baluster.wood = c.timber(balusters.front(), "baluster", kGuard);
  baluster.wood.mark = marks_of(c.frame, balusters);
  baluster.metal = part.section.nominal.starts_with("round");
  baluster.span = in_inches(extent_b(part.solid.outline).size());
  baluster.infill = c.loads.infill;
  if (balusters.size() > 1) {
    baluster.spacing = std::abs(in_inches(extent_a(c.frame.parts[balusters[1]].solid.outline).middle() -
                                          extent_a(part.solid.outline).middle()));
  } else {
    baluster.spacing = 12.0;
  }
  Links links = c.add(check_baluster(baluster));
  for (const std::size_t rail : c.fastened.to(balusters.front())) {
    // One end alone when the push comes beside a rail.
    links.push_back(c.joint("baluster", baluster.wood.mark, "screw into the " + c.frame.parts[rail].use,
                            c.fastened.between(balusters.front(), rail), balusters.front(),
                            {{0, c.loads.infill, 0}, {0, -c.loads.infill, 0}}, kGuard));
    break;
  }
  return links;
}

Links handrail_links(Calculator& c, const std::vector<std::size_t>& pieces) {
  Links links;
  std::vector<double> held;
  std::vector<std::size_t> brackets;
  for (const std::size_t piece : pieces) {
    for (const std::size_t bracket : c.fastened.to(piece)) {
      if (!is_item(c.frame, bracket, "handrail-bracket")) continue;
      brackets.push_back(bracket);
      held.push_back(in_inches(extent_a(c.frame.parts[bracket].solid.outline).middle()));
    }
  }
  sort_stably(held);
  RailSpan span;
  span.carries = {{c.timber(pieces.front(), "handrail", kGuard), true}};
  for (std::size_t i = 0; i + 1 < held.size(); ++i)
    span.span = std::max(span.span, slope_length(c, held[i + 1] - held[i]));
  span.point = c.loads.rail;
  if (span.span > 0) links = c.add(check_rail(span));
  if (brackets.empty()) return links;
  const std::size_t bracket = brackets.front();
  for (const std::size_t behind : c.fastened.to(bracket)) {
    if (std::ranges::find(pieces, behind) != pieces.end()) continue;
    links.push_back(c.joint("handrail", c.frame.parts[bracket].mark, "a bracket's screws",
                            c.fastened.between(bracket, behind), bracket, any_direction(c.loads.rail), kGuard));
  }
  links.push_back(c.unknown("handrail", c.frame.parts[bracket].mark, "the bracket itself", c.loads.rail,
                            "Cast or bent metal: take its value from its maker's report."));
  return links;
}

void side_paths(Calculator& c, const SidePart& side, const Links& below) {
  Links posts;  // the worst post stands at the end of every way over the rails
  for (const PartKind kind : {PartKind::post, PartKind::existing}) {
    for (const std::size_t post : side.parts(kind)) {
      if (c.depth == Depth::skeleton) break;  // those are checked before, as post_paths
      if (kind == PartKind::existing && !c.frame.parts[post].mark.starts_with("post")) continue;
      const Links links = post_links(c, side, post);
      posts.insert(posts.end(), links.begin(), links.end());
      c.path([&] { return fmt::format("{:.0f} lb at the top of post {}", c.loads.rail, c.frame.parts[post].mark); },
             links, below);
    }
  }
  for (const std::size_t rail : side.parts(PartKind::top_rail)) {
    c.path([&] { return fmt::format("{:.0f} lb on rail {}", c.loads.rail, c.frame.parts[rail].mark); },
           rail_links(c, side, rail), posts);
  }
  if (const auto balusters = side.parts(PartKind::baluster); !balusters.empty())
    c.path([&] { return fmt::format("{:.0f} lb on 1 sq ft of the {} guard", c.loads.infill, word(side.line)); },
           baluster_links(c, balusters), posts);
  if (const auto pieces = side.parts(PartKind::handrail); !pieces.empty())
    c.path([&] { return fmt::format("{:.0f} lb on the {} handrail", c.loads.rail, word(side.line)); },
           handrail_links(c, pieces), posts);
}

}  // namespace

void guard_paths(Calculator& c, const Links& below) {
  if (c.frame.guard_left) side_paths(c, {c, Line::left, -1.0}, below);
  if (c.frame.guard_right) side_paths(c, {c, Line::right, 1.0}, below);
}

std::optional<double> short_tie_capacity(const Job& job, const Flight& flight) {
  const ShortTies ties = short_ties(job);
  Calculator c(job, flight, ties.frame, Depth::skeleton);
  double most = 0;
  for (const std::size_t first : {0u, 1u}) {
    const std::size_t end = c.joint("", "", "", {first, first + 2}, ties.block, {{0, 0, 1}, {0, 0, -1}}, kGuard);
    if (c.out.checks[end].verdict == Verdict::not_checked) return std::nullopt;
    most = std::max(most, c.out.checks[end].capacity);
  }
  return most;
}

void post_paths(Calculator& c) {
  for (const SidePart& side : {SidePart{c, Line::left, -1.0}, SidePart{c, Line::right, 1.0}}) {
    for (const std::size_t post : side.parts(PartKind::post)) {
      post_links(c, side, post);
      if (c.one_fails()) return;
    }
  }
}

}  // namespace pitchboard
