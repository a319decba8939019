// The lowest post of a side in concrete of its own: how deep, where, and what has to be said about it.

#include "data/post_footing.hpp"

#include <algorithm>
#include <cmath>

#include "engine/frame/post_ties.hpp"
#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {
namespace {

/// The footing reaches this far under the stair: its inner side stays clear of the spike of a stringer's foot.
constexpr Length kUnderStair = inches(2.25);
/// Deepest hole that the formula is solved for, feet.
constexpr double kDeepest = 60.0;

}  // namespace

double post_footing_figure(std::string_view key) {
  const FigureRow* row = find_figure(kPostFootingFigures, key);
  return row ? row->value : 0.0;
}

Length pole_depth(Force push, Length height, Length width, double bearing_per_foot) {
  const double p = in_pounds(push), h = in_inches(height) / 12.0, b = in_inches(width) / 12.0;
  // With A = c / d the formula is d³ - c d - 1.09 h c = 0, which has one root above 0; from above it Newton's steps
  // come down to it.
  const double c = 3.0 * 2.34 * p / (bearing_per_foot * b);
  double d = kDeepest;
  for (;;) {
    const double over = (d * d - c) * d - 1.09 * h * c;
    const double next = d - over / (3.0 * d * d - c);
    if (!(over > 0 && next < d)) return inches(d * 12.0);
    d = next;
  }
}

bool feet_in_concrete(const Layout& l) {
  if (l.job.rails.foot_posts != FootPosts::footing) return false;
  // Loose pavers and gravel are taken up; a slab that is there, or a landing that stays as it is, is not broken open.
  const bool taken_up = l.flight.landing.lift != Length() && l.job.pad.make != PadMake::concrete;
  return !l.job.pad.existing || taken_up;
}

PostFooting post_footing(const Frame& frame, const Side& side, Length x, const std::vector<std::size_t>& ground) {
  const Layout& l = side.l;
  const Length width = inches(post_footing_figure("width"));
  PostFooting f{.out = {x - width / 2.0, x + width / 2.0}, .across = side.band(-kUnderStair, width - kUnderStair)};
  Length grade = l.foot_z(x, side.face);
  f.up.to = grade;
  for (const std::size_t layer : ground) {
    const Polygon& outline = frame.parts[layer].solid.outline;
    const Interval there = extent_a(outline);
    for (const Length at : {f.out.from, f.out.to}) {
      const auto slices = slice_at_a(outline, std::clamp(at, there.from + kTouch, there.to - kTouch));
      if (!slices.empty()) f.up.to = std::min(f.up.to, slices.front().from);
    }
  }
  grade = std::min(grade, l.site.ground(x, f.across.middle()).z);
  const Force push = pounds(l.job.loads.rail.value_or(post_footing_figure("push")));
  // Nobody digs to a fraction of an inch.
  const Length depth = inches(std::ceil(in_inches(
      pole_depth(push, l.nosing_line(x) + l.job.rails.height - f.up.to, width, post_footing_figure("bearing")))));
  f.post_foot = f.up.to - inches(post_footing_figure("embedded"));
  f.up.from = std::min({f.up.to - depth, grade - l.job.place.frost_depth.value_or(Length()),
                        f.post_foot - inches(post_footing_figure("cover"))});
  return f;
}

void add_footing(Frame& frame, const Side& side, std::size_t post, const PostFooting& f) {
  Part& wood = frame.parts[post];
  const TreatmentRow* treatment = find_treatment(wood.treatment);
  if (!treatment || !treatment->ground_contact) {
    for (const TreatmentRow& row : treatments()) {
      if (!row.ground_contact) continue;
      wood.treatment = row.key;
      break;
    }
  }
  Part part;
  part.mark = footing_of(wood.mark);
  part.kind = PartKind::footing;
  part.use = "concrete round the foot of post " + wood.mark;
  part.side = side.line;
  part.section = {"concrete", f.out.size(), f.up.size()};
  part.across_outline = true;
  part.solid = {Axis::z, f.up, rectangle(f.out, f.across)};
  add(frame, std::move(part));
}

void note_posts(Frame& frame, const Layout& l) {
  if (l.post_at_foot && l.bolt.diameter != PostBolt(l.job.rails.post_bolt).diameter)
    frame.notes.push_back("The lowest rise leaves no wood for two 5/8 in bolts: 1/2 in ones hold the posts.");
  if (l.job.rails.foot_posts != FootPosts::footing || !l.post_at_foot) return;
  if (!feet_in_concrete(l)) {
    frame.notes.push_back("The landing that is there is not broken open: the lowest posts stand on it, bolted.");
    return;
  }
  frame.notes.push_back("Have the utilities marked before you dig for the lowest posts: call days ahead.");
  frame.notes.push_back(
      "Let the concrete round the lowest posts set before anybody leans on the rail: prop the posts.");
}

}  // namespace pitchboard
