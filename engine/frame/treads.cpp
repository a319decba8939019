// Treads and riser boards, and the screws that hold them.

#include <algorithm>

#include "engine/base/sort.hpp"
#include "engine/frame/post_ties.hpp"
#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {
namespace {

constexpr Direction kDown{0, 0, -1}, kInward{-1, 0, 0};
/// A tread board ripped narrower than this is left out: a gap is better than a splinter. SOURCE own judgement.
constexpr Length kNarrowestBoard = inches(1.5);
/// Screws stand this far from a board's edge and behind the plumb cut. SOURCE common practice, no source.
constexpr Length kScrewIn = inches(1.25);

/// A tread angle's screws stand this far from a stringer's plumb cut, before they are slid. SOURCE common practice, no
/// source.
constexpr Length kScrewFromHead = inches(0.65);
/// A tread angle shorter than this is left out. SOURCE own judgement.
constexpr Length kShortestAngle = inches(0.75);

/// Parts standing beside the stringers that a tread's overhang has to go round.
std::vector<Box> posts_of(const Frame& frame) {
  std::vector<Box> out;
  for (const Part& part : frame.parts) {
    if (part.kind == PartKind::post || (part.kind == PartKind::existing && part.mark.starts_with("post")))
      out.push_back(box(part.solid));
  }
  return out;
}

/// RETURNS where those at that edge are in the way of a board.
std::vector<Interval> posts_at(const std::vector<Box>& posts, Interval x, Interval z, bool left, Length edge) {
  std::vector<Interval> out;
  for (const Box& extents : posts) {
    if (overlap(extents[0], {x.from - kPostClearance, x.to + kPostClearance}) <= kTouch ||
        overlap(extents[2], z) <= kTouch)
      continue;
    if (left ? abs(extents[1].to - edge) < inches(1.0) : abs(extents[1].from - edge) < inches(1.0)) {
      out.push_back({extents[0].from - kPostClearance, extents[0].to + kPostClearance});
    }
  }
  sort_stably(out, {}, &Interval::from);
  return out;
}

/// A board from front to back in `x` and side to side in `y`, its two ends notched back to `edge` beside posts.
Polygon notched(Interval x, Interval y, Interval edge, const std::vector<Interval>& left,
                const std::vector<Interval>& right) {
  Polygon out;
  out.reserve(4 + 4 * (left.size() + right.size()));
  const auto side = [&](Length end, Length back, const std::vector<Interval>& posts, bool forward) {
    // Walk the end from the back of the board to its front (forward) or the other way, stepping in at each post.
    const auto start = static_cast<std::ptrdiff_t>(out.size());
    const auto begun = [&] { return out.begin() + start; };
    const auto put = [&](Length at_x, Length at_y) {
      const Point p{at_x, at_y};
      if (begun() == out.end() || !(out.back() == p)) out.push_back(p);
    };
    Length at = x.from;
    bool in = false;
    put(x.from, end);
    for (const Interval& post : posts) {
      const Interval cut{std::max(post.from, x.from), std::min(post.to, x.to)};
      if (cut.size() <= kTouch || cut.from < at) continue;
      if (cut.from == x.from) {
        out.erase(begun(), out.end());
        put(x.from, back);
      } else {
        put(cut.from, end);
        put(cut.from, back);
      }
      put(cut.to, back);
      in = cut.to == x.to;
      if (!in) put(cut.to, end);
      at = cut.to;
    }
    if (!in) put(x.to, end);
    if (!forward) std::reverse(begun(), out.end());
  };
  side(y.from, edge.from, left, true);
  side(y.to, edge.to, right, false);
  return out;
}

/// One stretch of stairs between supports: the whole width over cut stringers, a bay between solid ones.
struct Bay {
  Interval width;   ///< riser boards
  Interval treads;  ///< treads, overhangs included
  std::vector<std::size_t> stringers;
};

std::vector<Bay> bays(const Layout& l, const StringerParts& parts) {
  const Length over = l.job.stair.side_overhang;
  if (!l.solid()) return {{{Length(), l.width()}, {-over, l.width() + over}, parts.stringers}};
  std::vector<Bay> out;
  for (std::size_t i = 0; i + 1 < parts.stringers.size(); ++i) {
    const Interval clear{l.stringer_y[i] + l.stringer.thickness, l.stringer_y[i + 1]};
    out.push_back({clear, clear, {parts.stringers[i], parts.stringers[i + 1]}});
  }
  return out;
}

/// Angles under a tread between solid stringers, one at each end.
void hold_on_angles(Frame& frame, Shelves& rods, const Layout& l, const Bay& bay, int k,
                    const std::vector<std::size_t>& boards, const std::string& name) {
  // Clear of the deck edge, of the riser board and its angle below, of the nuts of a post and of the block behind them.
  std::vector<Interval> stretches{
      {std::max(l.nosing_x(k) - l.flight.tread_depth, Length()) + inches(0.25), l.cut_face(k) - inches(0.25)}};
  for (const Part& post : frame.parts) {
    if (post.kind != PartKind::post) continue;
    const Length middle = extent_a(post.solid.outline).middle();
    const Interval nuts = room_behind_post(l, middle, stretches.back());
    if (overlap(nuts, stretches.back()) <= Length()) continue;
    stretches = {{stretches.back().from, nuts.from}, {nuts.to, stretches.back().to}};
    break;
  }
  std::erase_if(stretches, [](Interval v) { return v.size() < kShortestAngle; });
  for (const bool left : {true, false}) {
    const double way = left ? 1 : -1;
    const Length face = left ? bay.width.from : bay.width.to;
    const std::size_t stringer = bay.stringers[left ? 0 : 1];
    for (std::size_t i = 0; i < stretches.size(); ++i) {
      const Interval& x = stretches[i];
      const std::size_t angle =
          add_angle(frame, hardware("tread-angle"), {"A", name, left ? "L" : "R", i > 0 ? "f" : ""},
                    {"tread angle under ", name}, Axis::x, x, {{face, l.level_cut(k)}, way, -1, Line::middle, k});
      for (const double share : {0.2, 0.8}) {
        fasten_clear(frame, rods, hardware("screw-10x1-1/2"),
                     {std::max(x.from + x.size() * share, l.head_x + kScrewFromHead), face + inches(0.1) * way,
                      l.level_cut(k) - inches(1.0)},
                     {0, -way, 0}, {angle, stringer}, "holds the tread angle to the stringer", {0.3, 0, -0.6});
      }
      for (const std::size_t board : boards) {
        const Interval depth = extent_a(frame.parts[board].solid.outline);
        const Interval both{std::max(depth.from + inches(0.5), x.from), std::min(depth.to - inches(0.5), x.to)};
        if (both.size() < inches(0.25)) continue;
        const std::vector<double> shares = both.size() < inches(1.5) ? std::vector{0.5} : std::vector{0.25, 0.75};
        for (const double share : shares) {
          fasten(frame, l.tread_thickness > inches(1.2) ? hardware("screw-10x1-1/2") : hardware("screw-8x3/4"),
                 {both.from + both.size() * share, face + inches(1.0) * way, l.level_cut(k) - inches(0.1)}, {0, 0, 1},
                 {angle, board}, "holds the tread to its angle");
        }
      }
    }
  }
}

void add_tread(Frame& frame, Shelves& rods, const Layout& l, const std::vector<Box>& posts, const Bay& bay, int k,
               const std::string& name) {
  const TreadBoards make = tread_boards(l.job.stair);
  const bool top_flush = l.flight.top == TopMode::full_tread && k == l.treads;
  // Back limit: the face of the riser above, the rim, or the deck edge.
  Length back = k < l.treads ? l.riser_face(k + 1) : l.board_on_rim() ? l.rim.face + l.riser_thickness : l.head_x;
  if (!l.closed() && k < l.treads) back = l.nosing_x(k) - l.flight.tread_depth;
  if (top_flush) back = kPostClearance;
  Length front = l.nosing_x(k);
  const Interval z{l.level_cut(k), l.tread_z(k)};
  std::vector<std::size_t> boards;
  for (int i = 0; i < make.count; ++i) {
    const Interval x{std::max(front - make.width, back), front};
    front = x.from - l.job.stair.board_gap;
    if (x.size() < kNarrowestBoard) break;
    Polygon outline = l.solid() ? rectangle(x, bay.treads)
                                : notched(x, bay.treads, {Length(), l.width()}, posts_at(posts, x, z, true, Length()),
                                          posts_at(posts, x, z, false, l.width()));
    Part part =
        wood(l.job, PartKind::tread, "T" + name + (make.count > 1 ? std::string(1, static_cast<char>('a' + i)) : ""),
             "tread " + std::to_string(k) + (i == 0 ? ", front" : ", back"), {make.section, make.thickness, make.width},
             Axis::z, z, std::move(outline));
    part.grain_a = 0;
    part.grain_b = 1;
    part.step = k;
    boards.push_back(add(frame, std::move(part)));
  }
  if (l.solid()) {
    hold_on_angles(frame, rods, l, bay, k, boards, name);
    return;
  }
  for (const std::size_t board : boards) {
    const Interval depth = extent_a(frame.parts[board].solid.outline);
    // The front screw has to find the stringer, which begins behind the riser board; the back one clears the riser
    // above.
    const Length first = std::min(depth.to - std::min(kScrewIn, depth.size() / 2.0), l.cut_face(k) - kScrewIn),
                 second = depth.from + std::min(kScrewIn, depth.size() / 3.0);
    for (std::size_t i = 0; i < bay.stringers.size(); ++i) {
      const Length y = l.stringer_y[i] + l.stringer.thickness / 2.0;
      for (const Length x : {first, second}) {
        if (x == second && first - second < inches(0.75)) continue;
        fasten_clear(frame, rods, screw_for(l.tread_thickness), {x, y, l.tread_z(k)}, kDown, {board, bay.stringers[i]},
                     "holds the tread to the stringer", {-1, 0, 0});
      }
    }
  }
}

void add_riser(Frame& frame, Shelves& rods, const Layout& l, const Bay& bay, int k, const std::string& name) {
  const bool on_rim = k > l.treads;
  const Length face = on_rim ? l.rim.face + l.riser_thickness : l.riser_face(k);
  const Length bottom =
      k == 1 ? std::max(l.foot_z(face, Length()), l.foot_z(face, l.width())) + kOffGround : l.level_cut(k - 1);
  const Length top = on_rim ? l.rim.top : l.level_cut(k);
  if (top - bottom < inches(1.0)) return;
  Part part = wood(l.job, PartKind::riser, "R" + name, "riser " + std::to_string(k),
                   narrowest("board", l.riser_thickness, top - bottom), Axis::x, {face - l.riser_thickness, face},
                   rectangle(bay.width, {bottom, top}));
  part.step = k;
  const std::size_t riser = add(frame, std::move(part));
  // Clear of the screws that come down through the tread above, and of the tread in front.
  const Length low = k == 1 ? std::max(bottom + inches(1.25), l.kicker_top() + inches(0.5))
                            : bottom + l.tread_thickness + inches(0.75);
  const Length high = top - inches(2.5);
  if (!on_rim && l.solid()) {
    for (const bool left : {true, false}) {
      const double way = left ? 1 : -1;
      const Length side = left ? bay.width.from : bay.width.to, middle = bottom + inches(0.875);
      const std::size_t angle = add_angle(
          frame, hardware("angle-2"), {"AR", name, left ? "L" : "R"}, {"angle behind riser ", name}, Axis::z,
          {middle - inches(0.75), middle + inches(0.75)}, {{face - l.riser_thickness, side}, -1, way, Line::middle, k});
      for (const double dz : {-0.4, 0.4}) {
        fasten(frame, hardware("screw-10x1-1/2"),
               {face - l.riser_thickness - inches(1.4), side + inches(0.1) * way, middle + inches(dz)}, {0, -way, 0},
               {angle, bay.stringers[left ? 0 : 1]}, "holds the riser's angle to the stringer");
        fasten(frame, hardware("screw-8x3/4"),
               {face - l.riser_thickness - inches(0.1), side + inches(1.4) * way, middle + inches(dz)}, {1, 0, 0},
               {angle, riser}, "holds the riser board to its angle");
      }
    }
  } else if (!on_rim) {
    for (const Length y0 : l.stringer_y) {
      const std::size_t stringer =
          bay.stringers[static_cast<std::size_t>(std::ranges::find(l.stringer_y, y0) - l.stringer_y.begin())];
      for (const Length z : {low, high}) {
        if (z == high && high - low < inches(0.75)) continue;
        fasten_clear(frame, rods, screw_for(l.riser_thickness), {face, y0 + l.stringer.thickness / 2.0, z}, kInward,
                     {riser, stringer}, "holds the riser board to the stringer", {0, 0, -1});
      }
    }
  }
  const auto rim =
      static_cast<std::size_t>(std::ranges::find(frame.parts, std::string("rim"), &Part::mark) - frame.parts.begin());
  if (on_rim) {
    for (const Length y : {bay.width.from + inches(3.0), bay.width.middle(), bay.width.to - inches(3.0)}) {
      fasten(frame, hardware("screw-8x2"), {face, y, top - inches(1.5)}, kInward, {riser, rim},
             "holds the top riser board to the rim");
    }
  }
}

}  // namespace

void add_treads(Frame& frame, const Layout& l, const StringerParts& parts) {
  const std::vector<Bay> all = bays(l, parts);
  const std::vector<Box> posts = posts_of(frame);
  Shelves rods;
  for (std::size_t b = 0; b < all.size(); ++b) {
    const std::string suffix = all.size() > 1 ? "-" + std::to_string(b + 1) : "";
    for (int k = 1; k <= l.treads; ++k) add_tread(frame, rods, l, posts, all[b], k, std::to_string(k) + suffix);
    if (!l.closed()) continue;
    for (int k = 1; k <= l.treads + (l.board_on_rim() ? 1 : 0); ++k)
      add_riser(frame, rods, l, all[b], k, std::to_string(k) + suffix);
  }
}

}  // namespace pitchboard
