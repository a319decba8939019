// One side's rails: cut to the rake between plumb posts, with balusters, cap and handrail.

#include <algorithm>
#include <cmath>

#include "engine/frame/side.hpp"
#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {
namespace {

/// Cap pieces meet this far outwards of a post's middle: screws run square to the rake, so each still finds the post.
constexpr Length kJointPastPost = inches(0.3);

/// Metal at one end of a rail: a leg on the rail's outer face, a leg on the post.
void bracket(Frame& frame, const Side& side, std::size_t rail, std::size_t post, Length x, double towards_rail,
             Length middle_z, const std::string& mark) {
  const Length face = side.face + side.rail.thickness * side.out;
  const std::size_t index =
      add_angle(frame, hardware("rail-bracket"), {mark}, {"rail bracket"}, Axis::z,
                {middle_z - inches(0.75), middle_z + inches(0.75)}, {{x, face}, towards_rail, side.out, side.line});
  for (const double dz : {-0.4, 0.4}) {
    fasten(frame, hardware("screw-10x1-1/2"),
           {x + inches(0.8) * towards_rail, face + inches(0.07) * side.out, middle_z + inches(dz)}, side.inwards(),
           {index, rail}, "holds the rail in its bracket");
    fasten(frame, hardware("screw-10x1-1/2"),
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
  const HardwareRow& screw = round ? hardware("screw-8x2") : hardware("screw-10x2-1/2");
  std::vector<Length> places = baluster_places(clear, stock.width, l.job.rails.baluster_gap_at_most);
  const int pieces = frame.counted ? static_cast<int>(places.size()) : 1;
  if (pieces > 1) {
    count(frame, screw, 2 * (pieces - 1));
    places.resize(1);
  }
  for (const Length x : places) {
    Part part = part_of(side, PartKind::baluster, "b" + side.letter + std::to_string(++baluster), "baluster", stock,
                        outer, raked(side, {x, x + stock.width}, bottom, top));
    part.grain_a = 0;
    part.grain_b = 1;
    part.pieces = pieces;
    if (round) part.species = part.grade = part.treatment = "";
    const std::size_t index = add(frame, std::move(part));
    const Length middle = x + stock.width / 2.0;
    for (const bool up : {true, false}) {
      const Length z = l.nosing_line(middle) + (up ? top - side.rail_depth / 2.0 : bottom + side.rail_depth / 2.0);
      fasten(frame, screw, {middle, y_head, z}, side.inwards(), {index, up ? top_rail : bottom_rail},
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
      fasten(frame, hardware("screw-10x2-1/2"), {head_x, side.face + off_face * side.out, l.nosing_line(head_x) + top},
             down, {cap, into}, "holds the cap down");
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
  const Interval whole{std::min(l.rim.face, posts.back().x - side.post.width / 2.0), l.nosing_x(1)};
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
    const std::size_t bracket_part = add(frame, std::move(part));
    for (const double dz : {0.7, 1.6}) {
      fasten(frame, hardware("screw-10x1-1/2"), {place.x, side.face - inches(0.1) * side.out, under - inches(dz)},
             side.outwards(), {bracket_part, place.part}, "holds the handrail bracket");
    }
    for (const std::size_t piece : pieces) {
      if (!extent_a(frame.parts[piece].solid.outline).contains(place.x)) continue;
      fasten(frame, hardware("screw-8x1-1/4"),
             {place.x, side.face + (inner - stock.thickness / 2.0) * side.out, under - inches(0.1)}, {0, 0, 1},
             {bracket_part, piece}, "holds the handrail on its bracket");
      break;
    }
  }
  frame.notes.push_back("Return both ends of the handrail to the guard, so that nothing can catch on them.");
}

}  // namespace

void add_rails(Frame& frame, const Layout& l, Line line, const std::vector<PostPlace>& posts, bool handrail) {
  const Side side(l, line);
  if (posts.size() < 2) {
    frame.notes.push_back("The flight is too short for two rail posts on a side: one post stands by the lowest riser.");
    return;
  }
  int baluster = 0;
  for (std::size_t i = 0; i + 1 < posts.size(); ++i)
    add_bay(frame, side, posts[i], posts[i + 1], static_cast<int>(i) + 1, baluster);
  add_cap(frame, side, posts);
  if (handrail) add_handrail(frame, side, posts);
}

}  // namespace pitchboard
