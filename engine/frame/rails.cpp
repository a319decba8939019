// One side's rails: posts bolted to the outer stringer, rails cut to the rake between plumb posts, balusters, cap,
// handrail.

#include <algorithm>
#include <cmath>

#include "engine/frame/layout.hpp"
#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {
namespace {

/// Cap pieces meet this far outwards of a post's middle: screws run square to the rake, so each still finds the post.
constexpr Length kJointPastPost = inches(0.3);

/// Everything that depends on the side: the outer faces and which way is out of the stair.
struct Side {
  const Layout& l;
  Line line;
  bool left;
  double out;   ///< -1 left, +1 right: direction of y away from the stair
  Length face;  ///< y of the outer stringer's outer face, and of the posts' inner face
  Section post, rail, cap;
  Length cap_depth, rail_depth;  ///< plumb depths of cap and rail on the rake
  std::string letter;

  Side(const Layout& layout, Line line_)
      : l(layout),
        line(line_),
        left(line_ == Line::left),
        out(left ? -1 : 1),
        face(left ? Length() : layout.width()),
        post(section_of(layout.job.rails.post)),
        rail(section_of(layout.job.rails.rail)),
        cap(section_of(layout.job.rails.cap)),
        cap_depth(cap.thickness / layout.cosine),
        rail_depth(rail.width / layout.cosine),
        letter(left ? "L" : "R") {}

  /// Stretch of y from `inner` to `outer`, both measured outwards from the posts' inner face.
  [[nodiscard]] Interval band(Length inner, Length outer) const {
    const Length p = face + inner * out, q = face + outer * out;
    return {std::min(p, q), std::max(p, q)};
  }
  /// Underside of the cap: top of posts and top rail.
  [[nodiscard]] Length rail_top(Length x) const { return l.nosing_line(x) + l.job.rails.height - cap_depth; }
  /// Underside of the bottom rail.
  [[nodiscard]] Length rail_bottom(Length x) const { return l.nosing_line(x) + l.bottom_rail_gap() / l.cosine; }
  [[nodiscard]] Direction outwards() const { return {0, out, 0}; }
  [[nodiscard]] Direction inwards() const { return {0, -out, 0}; }
};

/// A strip between two lines of the rake, cut plumb at both ends.
Polygon raked(const Side& side, Interval x, Length above_line_from, Length above_line_to) {
  const auto z = [&](Length at, Length above) { return side.l.nosing_line(at) + above; };
  return {{x.from, z(x.from, above_line_from)},
          {x.to, z(x.to, above_line_from)},
          {x.to, z(x.to, above_line_to)},
          {x.from, z(x.from, above_line_to)}};
}

Part part_of(const Side& side, PartKind kind, std::string mark, std::string use, Section section, Interval y,
             Polygon outline) {
  Part part =
      wood(side.l.job, kind, std::move(mark), std::move(use), std::move(section), Axis::y, y, std::move(outline));
  part.side = side.line;
  if (!side.l.job.wood.rail_species.empty()) part.species = side.l.job.wood.rail_species;
  return part;
}

Part along_rake(Part part, const Layout& l) {
  part.grain_a = l.cosine;
  part.grain_b = -l.sine;
  return part;
}

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
  const Length nearest = l.solid() ? std::max(kPostBeyondHead, l.head_x + inches(1.625))
                                   : std::max(kPostClearance, l.head_x + kPostBeyondHead);
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

std::size_t add_post(Frame& frame, const Side& side, std::size_t stringer, Length x, int number, bool lowest) {
  const Layout& l = side.l;
  const Length half = side.post.width / 2.0;
  Interval wood_here = wood_beside(frame, stringer, x);
  if (l.solid()) {
    // The nuts come out under a tread.
    int k = 1;
    while (k < l.treads && l.nosing_x(k + 1) > x) ++k;
    wood_here.to = std::min(wood_here.to, l.level_cut(k) - kUnderTread + kBoltEdge);
  }
  // Two bolts, 2 in from the edges where there is room, never closer than three diameters.
  const Length lower_edge_clear = lowest ? kBoltEdge : kBoltEdge / l.cosine;
  Length high = wood_here.to - kBoltEdge, low = wood_here.from + lower_edge_clear;
  if (high - low < kBoltApart) {
    const Length middle =
        l.solid() ? high - kBoltApart / 2.0
                  : std::max(wood_here.middle(), wood_here.from + kOffGround + inches(0.8) + kBoltApart / 2.0);
    high = middle + kBoltApart / 2.0;
    low = middle - kBoltApart / 2.0;
  }
  low = std::max(low, high - kBoltSpread);
  const Length foot = std::max(l.foot_z(x, side.face) + kOffGround, low - kBoltEdge * 1.75);
  const Interval across{x - half, x + half};
  Part post = part_of(side, PartKind::post, "P" + side.letter + std::to_string(number),
                      lowest ? "post at the foot" : "post", side.post, side.band({}, side.post.width),
                      {{across.from, lowest ? l.foot_z(x, side.face) + kOffGround : foot},
                       {across.to, lowest ? l.foot_z(x, side.face) + kOffGround : foot},
                       {across.to, side.rail_top(across.to)},
                       {across.from, side.rail_top(across.from)}});
  post.grain_a = 0;
  post.grain_b = 1;
  const std::size_t index = add(frame, post);
  const std::string bolt = bolt_for(side.post.width + l.stringer.thickness);
  for (const bool upper : {true, false}) {
    fasten(frame, bolt,
           {x + kBoltStagger * (upper ? -1.0 : 1.0), side.face + side.post.width * side.out, upper ? high : low},
           side.inwards(), {index, stringer}, "holds the post to the stringer");
  }
  return index;
}

/// An angle that ties the lowest post's foot to the landing, on its house side.
void tie_foot(Frame& frame, const Side& side, std::size_t post, Length x, const std::vector<std::size_t>& ground) {
  const Layout& l = side.l;
  const Length face = x - side.post.width / 2.0, y = side.band({}, side.post.width).middle();
  Length z = l.foot_z(face, y);
  for (const Length dy : {-inches(0.75), inches(0.75)}) {
    z = std::max({z, l.foot_z(face, y + dy), l.foot_z(face - inches(2.0), y + dy)});
  }
  const std::size_t angle = add_angle(frame, "angle-2", "AP" + side.letter, "angle at the foot of the post", Axis::y,
                                      {y - inches(0.75), y + inches(0.75)}, {{face, z}, -1, 1});
  for (const double dy : {-0.4, 0.4}) {
    fasten(frame, "screw-10x1-1/2", {face - inches(0.1), y + inches(dy), z + inches(1.4)}, {1, 0, 0}, {angle, post},
           "ties the foot of the post to the landing");
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
  const Length foot = side.l.rim_bottom;
  post.solid = {
      Axis::y,
      side.band({}, side.post.width),
      {{x - half, foot}, {x + half, foot}, {x + half, side.rail_top(x + half)}, {x - half, side.rail_top(x - half)}}};
  return add(frame, post);
}

/// Metal at one end of a rail: a leg on the rail's outer face, a leg on the post.
void bracket(Frame& frame, const Side& side, std::size_t rail, std::size_t post, Length x, double towards_rail,
             Length middle_z, const std::string& mark) {
  const Length face = side.face + side.rail.thickness * side.out;
  const std::size_t index =
      add_angle(frame, "rail-bracket", mark, "rail bracket", Axis::z,
                {middle_z - inches(0.75), middle_z + inches(0.75)}, {{x, face}, towards_rail, side.out});
  frame.parts[index].side = side.line;
  for (const double dz : {-0.4, 0.4}) {
    fasten(frame, "screw-10x1-1/2",
           {x + inches(0.8) * towards_rail, face + inches(0.07) * side.out, middle_z + inches(dz)}, side.inwards(),
           {index, rail}, "holds the rail in its bracket");
    fasten(frame, "screw-10x1-1/2",
           {x + inches(0.07) * towards_rail, face + inches(0.8) * side.out, middle_z + inches(dz)},
           {-towards_rail, 0, 0}, {index, post}, "holds the rail bracket to the post");
  }
}

/// Even gaps, none above the wanted one. RETURNS the near edge of every baluster, measured level.
std::vector<Length> baluster_places(Interval clear, Length thickness, Length gap_at_most) {
  const int count = static_cast<int>(std::ceil((clear.size() - gap_at_most) / (thickness + gap_at_most) - 1e-9));
  std::vector<Length> out;
  if (count < 1) return out;
  const Length gap = (clear.size() - thickness * count) / (count + 1);
  for (int i = 0; i < count; ++i) out.push_back(clear.from + gap * (i + 1) + thickness * i);
  return out;
}

void add_bay(Frame& frame, const Side& side, const PostPlace& lower, const PostPlace& upper, int number,
             int& baluster) {
  const Layout& l = side.l;
  const Length half = side.post.width / 2.0;
  const Interval clear{upper.x + half, lower.x - half};
  const std::string name = side.letter + std::to_string(number);
  const Interval inner = side.band({}, side.rail.thickness);
  const Length top = side.l.job.rails.height - side.cap_depth, bottom = l.bottom_rail_gap() / l.cosine;
  const std::size_t top_rail =
      add(frame, along_rake(part_of(side, PartKind::top_rail, "TR" + name, "top rail", side.rail, inner,
                                    raked(side, clear, top - side.rail_depth, top)),
                            l));
  const auto brackets = [&](std::size_t rail, Length above, const std::string& mark) {
    for (const bool down : {true, false}) {
      const Length x = down ? clear.to : clear.from;
      const double way = down ? -1 : 1;
      bracket(frame, side, rail, down ? lower.part : upper.part, x, way,
              l.nosing_line(x + inches(0.6) * way) + above - side.rail_depth / 2.0, mark + (down ? "d" : "u"));
    }
  };
  brackets(top_rail, top, "BT" + name);
  if (l.job.rails.balusters == BalusterKind::none) return;
  const std::size_t bottom_rail =
      add(frame, along_rake(part_of(side, PartKind::bottom_rail, "BR" + name, "bottom rail", side.rail, inner,
                                    raked(side, clear, bottom, bottom + side.rail_depth)),
                            l));
  brackets(bottom_rail, bottom + side.rail_depth, "BB" + name);
  const bool round = l.job.rails.balusters == BalusterKind::round_metal;
  const Section stock = section_of(round ? "round-3/4" : "2x2");
  const Interval outer = side.band(side.rail.thickness, side.rail.thickness + stock.thickness);
  const Length y_head = side.face + (side.rail.thickness + stock.thickness) * side.out;
  for (const Length x : baluster_places(clear, stock.width, l.job.rails.baluster_gap_at_most)) {
    Part part = part_of(side, PartKind::baluster, "b" + side.letter + std::to_string(++baluster), "baluster", stock,
                        outer, raked(side, {x, x + stock.width}, bottom, top));
    part.grain_a = 0;
    part.grain_b = 1;
    if (round) part.species = part.grade = part.treatment = "";
    const std::size_t index = add(frame, part);
    const Length middle = x + stock.width / 2.0;
    for (const bool up : {true, false}) {
      const Length z = l.nosing_line(middle) + (up ? top - side.rail_depth / 2.0 : bottom + side.rail_depth / 2.0);
      fasten(frame, round ? "screw-8x2" : "screw-10x2-1/2", {middle, y_head, z}, side.inwards(),
             {index, up ? top_rail : bottom_rail},
             up ? "holds the baluster to the top rail" : "holds the baluster to the bottom rail");
    }
  }
}

/// Places where a long piece is joined: over posts, so that no piece is longer than a board.
std::vector<Interval> pieces_over(const Layout& l, const Section& stock, Interval whole,
                                  const std::vector<PostPlace>& posts) {
  // Tip to tip a raked piece is longer than its middle line by its depth times the rake.
  const Length longest = (longest_board(l.job, stock.nominal) - stock.width * l.rake) * l.cosine;
  std::vector<Interval> out;
  Length from = whole.from;
  Length last = from;
  // Posts come lowest first; walk them from the house outwards.
  for (std::size_t i = posts.size(); i-- > 1;) {  // never over the lowest: what is left would hang in the air
    const Length at = posts[i].x;
    if (at - from > longest && last > from) {
      out.push_back({from, last});
      from = last;
    }
    last = at + kJointPastPost;
  }
  if (whole.to - from > longest && last > from) {
    out.push_back({from, last});
    from = last;
  }
  out.push_back({from, whole.to});
  return out;
}

void add_cap(Frame& frame, const Side& side, const std::vector<PostPlace>& posts) {
  const Layout& l = side.l;
  const Length half = side.post.width / 2.0, over = l.job.rails.cap_overhang;
  const Interval whole{posts.back().x - half, posts.front().x + half};
  const Length top = l.job.rails.height;
  const std::vector<Interval> pieces = pieces_over(l, side.cap, whole, posts);
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const std::size_t cap = add(
        frame,
        along_rake(part_of(side, PartKind::cap, "CP" + side.letter + std::to_string(i + 1), "cap", side.cap,
                           side.band(-over, side.post.width + over), raked(side, pieces[i], top - side.cap_depth, top)),
                   l));
    const Direction down{-l.sine, 0, -l.cosine};
    const auto drive = [&](Length x, Length off_face, std::size_t into) {
      // The screw runs square to the rake, so its head lies uphill of where it enters what is below.
      const Length head_x = x + side.cap.thickness * l.sine;
      fasten(frame, "screw-10x2-1/2", {head_x, side.face + off_face * side.out, l.nosing_line(head_x) + top}, down,
             {cap, into}, "holds the cap down");
    };
    for (const PostPlace& post : posts) {
      if (frame.parts[post.part].kind == PartKind::existing) continue;
      for (const double dx : {-1.0, 0.6}) {
        const Length x = post.x + inches(dx), head_x = x + side.cap.thickness * l.sine;
        if (x > pieces[i].from + inches(0.25) && head_x < pieces[i].to - inches(0.25))
          drive(x, side.post.width / 2.0, post.part);
      }
    }
    for (std::size_t p = 0; p < frame.parts.size(); ++p) {
      const Part& rail = frame.parts[p];
      if (rail.kind != PartKind::top_rail || rail.side != side.line) continue;
      const Interval x = extent_a(rail.solid.outline);
      const int count = std::max(2, static_cast<int>(std::ceil(x.size() / inches(16.0))));
      for (int j = 0; j < count; ++j) {
        const Length at = x.from + x.size() * ((j + 0.5) / count);
        if (at > pieces[i].from + inches(1.0) && at < pieces[i].to - inches(1.0))
          drive(at, side.rail.thickness / 2.0, p);
      }
    }
  }
}

/// Where a bracket's screws miss those of the balusters: `x`, or just past the baluster that is there.
Length between_balusters(const Frame& frame, const Side& side, Length x) {
  for (const Part& part : frame.parts) {
    if (part.kind != PartKind::baluster || part.side != side.line) continue;
    const Interval there = extent_a(part.solid.outline);
    if (there.contains(x)) return there.to + inches(0.5);
  }
  return x;
}

/// A rail to grip, on brackets inside the guard, from over the top riser to over the lowest nosing.
void add_handrail(Frame& frame, const Side& side, const std::vector<PostPlace>& posts) {
  const Layout& l = side.l;
  const Section stock = section_of("handrail-1-1/2");
  const Length inner = -(l.job.rails.cap_overhang + kHandrailClear);
  const Length depth = stock.width / l.cosine, top = l.job.rails.height - kHandrailBelowCap;
  const Interval whole{std::min(l.rim_face, posts.back().x - side.post.width / 2.0), l.nosing_x(1)};
  std::vector<std::size_t> pieces;
  for (const Interval& piece : pieces_over(l, stock, whole, posts)) {
    pieces.push_back(add(
        frame,
        along_rake(part_of(side, PartKind::handrail, "HR" + side.letter + std::to_string(pieces.size() + 1), "handrail",
                           stock, side.band(inner - stock.thickness, inner), raked(side, piece, top - depth, top)),
                   l)));
  }
  // A bracket on every post, and between them where the posts stand too far apart.
  std::vector<PostPlace> places = posts;
  for (std::size_t i = 0; i + 1 < posts.size(); ++i) {
    const Length gap = posts[i].x - posts[i + 1].x;
    const int more = static_cast<int>(std::ceil(gap / kBracketApart - 1e-9)) - 1;
    for (int j = 1; j <= more; ++j) {
      const Length x = between_balusters(frame, side, posts[i].x - gap * (static_cast<double>(j) / (more + 1)));
      const auto rail = std::ranges::find_if(frame.parts, [&](const Part& p) {
        return p.kind == PartKind::top_rail && p.side == side.line && extent_a(p.solid.outline).contains(x);
      });
      places.push_back({static_cast<std::size_t>(rail - frame.parts.begin()), x});
    }
  }
  int number = 0;
  for (const PostPlace& place : places) {
    const Interval saddle{place.x - inches(0.5), place.x + inches(0.5)};  // its top follows the handrail
    const Length under = l.nosing_line(place.x) + top - depth;
    Part part;
    part.mark = "HB" + side.letter + std::to_string(++number);
    part.kind = PartKind::connector;
    part.use = "handrail bracket";
    part.side = side.line;
    part.section = {"handrail-bracket", inches(1.0), inches(2.0)};
    part.across_outline = true;
    part.solid = {Axis::y,
                  side.band(inner - stock.thickness, {}),
                  {{saddle.from, under - inches(2.0)},
                   {saddle.to, under - inches(2.0)},
                   {saddle.to, l.nosing_line(saddle.to) + top - depth},
                   {saddle.from, l.nosing_line(saddle.from) + top - depth}}};
    const std::size_t bracket_part = add(frame, part);
    for (const double dz : {0.7, 1.6}) {
      fasten(frame, "screw-10x1-1/2", {place.x, side.face - inches(0.1) * side.out, under - inches(dz)},
             side.outwards(), {bracket_part, place.part}, "holds the handrail bracket");
    }
    for (const std::size_t piece : pieces) {
      if (!extent_a(frame.parts[piece].solid.outline).contains(place.x)) continue;
      fasten(frame, "screw-8x1-1/4",
             {place.x, side.face + (inner - stock.thickness / 2.0) * side.out, under - inches(0.1)}, {0, 0, 1},
             {bracket_part, piece}, "holds the handrail on its bracket");
      break;
    }
  }
  frame.notes.push_back("Return both ends of the handrail to the guard, so that nothing can catch on them.");
}

}  // namespace

std::vector<PostPlace> add_side(Frame& frame, const Layout& l, const StringerParts& stringers, Line line, bool guard,
                                bool handrail) {
  std::vector<PostPlace> posts;
  if (!guard) return posts;
  const Side side(l, line);
  const std::size_t stringer = side.left ? stringers.stringers.front() : stringers.stringers.back();
  const std::vector<Length> places = post_places(side);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const int number = static_cast<int>(i) + 1;
    const bool there = i > 0 && i + 1 == places.size() && l.job.rails.top_posts == TopPosts::existing;
    posts.push_back({there ? add_existing_post(frame, side, places[i], number)
                           : add_post(frame, side, stringer, places[i], number, i == 0),
                     places[i]});
  }
  tie_foot(frame, side, posts.front().part, posts.front().x, stringers.ground);
  if (posts.size() < 2) {
    frame.notes.push_back("The flight is too short for two rail posts on a side: one post stands by the lowest riser.");
    return posts;
  }
  int baluster = 0;
  for (std::size_t i = 0; i + 1 < posts.size(); ++i)
    add_bay(frame, side, posts[i], posts[i + 1], static_cast<int>(i) + 1, baluster);
  add_cap(frame, side, posts);
  if (handrail) add_handrail(frame, side, posts);
  return posts;
}

}  // namespace pitchboard
