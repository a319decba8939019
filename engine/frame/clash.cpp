// The clash test: nothing overlaps, every fastener lies in what it joins and clear of the rest, nothing floats.

#include "engine/frame/clash.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <optional>
#include <utility>

#include "engine/base/catalog.hpp"
#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {
namespace {

/// Faces that overlap by less than this touch; more is an overlap. A sixty-fourth is what a plane takes off.
constexpr Length kSkin = inches(1.0 / 64.0);

std::string text(Length v) { return tape_plain(abs(v)); }

Axis axis_of(Direction d) {
  return std::abs(d.x) > 0.5 && std::abs(d.x) >= std::abs(d.z) ? Axis::x : std::abs(d.y) > 0.5 ? Axis::y : Axis::z;
}

using Box = std::array<Interval, 3>;

/// REQUIRES boxes that are not flat.
inline bool meet(const Box& p, const Box& q) {
  const auto overlap = [](const Interval& a, const Interval& b) { return a.from < b.to && b.from < a.to; };
  return overlap(p[0], q[0]) && overlap(p[1], q[1]) && overlap(p[2], q[2]);
}

Box grown(Box b, Length by) {
  for (Interval& v : b) v = {v.from - by, v.to + by};
  return b;
}

Box round_both(Box b, const Box& other) {
  for (std::size_t i = 0; i < b.size(); ++i)
    b[i] = {std::min(b[i].from, other[i].from), std::max(b[i].to, other[i].to)};
  return b;
}

/// Box round a length of a fastener's axis.
Box box_of(Point3 from, Point3 to, Length radius) {
  const auto span = [&](Length a, Length b) { return Interval{std::min(a, b) - radius, std::max(a, b) + radius}; };
  return {span(from.x, to.x), span(from.y, to.y), span(from.z, to.z)};
}

/// An eight-sided bar round an axis-parallel stretch: a head, a nut, or the room that a tool needs.
Prism bar(Point3 from, Direction d, Length length, Length radius) {
  const Axis axis = axis_of(d);
  const Length a = from.along(axis), b = moved(from, d, length).along(axis);
  Prism out{axis, {std::min(a, b), std::max(a, b)}, {}};
  const Point middle = in_plane_of(out, from);
  constexpr double kHalf = 0.70710678118654752;
  const std::array<std::array<double, 2>, 8> corners{
      {{1, 0}, {kHalf, kHalf}, {0, 1}, {-kHalf, kHalf}, {-1, 0}, {-kHalf, -kHalf}, {0, -1}, {kHalf, -kHalf}}};
  for (const auto& c : corners) out.outline.push_back({middle.a + radius * c[0], middle.b + radius * c[1]});
  return out;
}

/// The two legs of an angle, each for itself: together they reach round much more room than their thin metal fills, and
/// what little they share with others would pass for contact. Any other part is whole.
std::vector<Prism> legs_of(const Part& part) {
  const Polygon& o = part.solid.outline;
  if (part.kind != PartKind::connector || o.size() != 6) return {part.solid};
  std::vector<Prism> legs;
  for (const Polygon& leg : {Polygon{o[0], o[1], o[2]}, Polygon{o[0], o[4], o[5]}})
    legs.push_back({part.solid.normal, part.solid.span, rectangle(extent_a(leg), extent_b(leg))});
  return legs;
}

struct Rod {
  Point3 head, tip;
  Box box;
  Length radius;
};

class Tester {
 public:
  explicit Tester(const Frame& frame) : frame_(frame) {
    for (const Part& part : frame.parts) boxes_.push_back(box(part.solid));
    for (const Fastener& f : frame.fasteners) {
      const Point3 tip = moved(f.head, f.direction, f.length);
      rods_.push_back({f.head, tip, box_of(f.head, tip, f.diameter / 2.0), f.diameter / 2.0});
    }
  }

  std::vector<Clash> all() {
    parts_overlap(0);
    for (std::size_t i = 0; i < frame_.fasteners.size(); ++i) {
      lies_in_its_parts(frame_.fasteners[i]);
      clear_of_other_parts(i, 0);
    }
    fasteners_cross(0);
    nothing_floats(0);
    return std::move(clashes_);
  }

  /// The same where a new part or fastener has a share in it, as far as the first clash.
  bool newest_fit(std::size_t first_part, std::size_t first_fastener) {
    parts_overlap(first_part);
    if (clashes_.empty()) fasteners_cross(first_fastener);
    for (std::size_t i = frame_.fasteners.size(); clashes_.empty() && i-- > first_fastener;) {
      lies_in_its_parts(frame_.fasteners[i]);
      clear_of_other_parts(i, 0);
    }
    if (first_part < boxes_.size()) round_new_ = boxes_[first_part];
    for (std::size_t p = first_part; p < boxes_.size(); ++p) round_new_ = round_both(round_new_, boxes_[p]);
    for (std::size_t i = 0; clashes_.empty() && i < first_fastener; ++i) clear_of_other_parts(i, first_part);
    if (clashes_.empty()) nothing_floats(first_part);
    return clashes_.empty();
  }

 private:
  void report(std::string kind, const std::string& first, const std::string& second, std::string note) {
    clashes_.push_back({std::move(kind), first, second, std::move(note)});
  }

  /// A rail post in concrete: its foot is embedded in its own footing, and the landing's layers over that are cut or
  /// poured round it.
  [[nodiscard]] bool is_let_in(const Part& post, const Part& ground) const {
    if (post.kind != PartKind::post) return false;
    const auto own = std::ranges::find(frame_.parts, footing_of(post.mark), &Part::mark);
    if (own == frame_.parts.end() || own->kind != PartKind::footing) return false;
    const std::array<Interval, 3> foot = box(post.solid), concrete = box(own->solid);
    const bool stands_in_it = concrete[0].from <= foot[0].from && foot[0].to <= concrete[0].to &&
                              concrete[1].from <= foot[1].from && foot[1].to <= concrete[1].to &&
                              concrete[2].contains(foot[2].from);
    return stands_in_it && (ground.mark == own->mark || ground.kind == PartKind::pad_layer);
  }

  void parts_overlap(std::size_t first_part) {
    for (std::size_t i = 0; i < frame_.parts.size(); ++i) {
      for (std::size_t j = std::max(i + 1, first_part); j < frame_.parts.size(); ++j) {
        const Part &p = frame_.parts[i], &q = frame_.parts[j];
        if (!meet(boxes_[i], boxes_[j])) continue;
        if (p.kind == PartKind::existing && q.kind == PartKind::existing) continue;
        if (is_let_in(p, q) || is_let_in(q, p)) continue;
        Volume shared;
        for (const Prism& a : legs_of(p)) {
          for (const Prism& b : legs_of(q)) shared += shared_volume(a, b, kSkin);
        }
        if (shared > Volume()) {
          report(
              "overlap", p.mark, q.mark,
              p.use + " and " + q.use + " share " + std::to_string(std::lround(shared.raw() * 100.0)) + "/100 cu in");
        }
      }
    }
  }

  [[nodiscard]] Length edge_needed(const Fastener& f) const {
    return f.diameter * (f.diameter >= kThickDowel ? kDowelEdge : kScrewEdge);
  }

  void lies_in_its_parts(const Fastener& f) {
    const bool bolt = f.nut_height > Length();
    Length reached;  // how far the parts before this one go without a gap
    for (std::size_t i = 0; i < f.joins.size(); ++i) {
      const Part& part = frame_.parts[f.joins[i]];
      const std::vector<Interval> way = inside(part.solid, f.head, f.direction, f.length);
      if (way.empty()) {
        report("outside", f.mark, part.mark, f.item + " does not reach " + part.use);
        continue;
      }
      if (i == 0 && way.front().from > kSkin) report("outside", f.mark, part.mark, f.item + " starts off " + part.use);
      // A level kicker on a falling landing bears on its high side only; everything else has to lie tight.
      if (i > 0 && part.kind != PartKind::pad_layer && part.kind != PartKind::existing &&
          way.front().from - reached > kSkin) {
        report("outside", f.mark, part.mark,
               f.item + " crosses a gap of " + text(way.front().from - reached) + " before " + part.use);
      }
      reached = way.front().to;
      if (i + 1 == f.joins.size() && !bolt && way.front().size() < kLeastBite) {
        report("outside", f.mark, part.mark, f.item + " bites only " + text(way.front().size()) + " into " + part.use);
      }
      const bool last = i + 1 == f.joins.size();
      // A lag may come through the rim, a spike goes on into the ground.
      const bool may_come_out =
          part.kind == PartKind::pad_layer ||
          (part.kind == PartKind::existing && (f.item.starts_with("lag") || f.item.starts_with("spike")));
      if (last && !bolt && !may_come_out && way.front().to < f.length - kSkin) {
        report("outside", f.mark, part.mark,
               f.item + " comes out of " + part.use + " by " + text(f.length - way.front().to));
      }
      if (last && bolt && f.length - way.front().to < f.nut_height - kSkin) {
        report("outside", f.mark, part.mark, f.item + " is too short for its nut");
      }
      if (is_cut_from_board(part.kind) && !part.species.empty()) near_edge(f, part, way.front());
    }
  }

  /// Distance from the axis to the faces that it runs along, not to those that it passes through.
  void near_edge(const Fastener& f, const Part& part, Interval way) {
    const Prism& solid = part.solid;
    const double along = std::abs(solid.normal == Axis::x   ? f.direction.x
                                  : solid.normal == Axis::y ? f.direction.y
                                                            : f.direction.z);
    const Point3 middle = moved(f.head, f.direction, way.middle());
    Length edge;
    if (along > 0.99) {
      edge = distance_to_outline(solid.outline, in_plane_of(solid, middle));
    } else {
      const Length at = middle.along(solid.normal);
      edge = std::min(at - solid.span.from, solid.span.to - at);
    }
    if (edge < edge_needed(f) - kTouch) {
      report("edge", f.mark, part.mark,
             f.item + " is " + text(edge) + " from the edge of " + part.use + ", needs " + text(edge_needed(f)));
    }
  }

  [[nodiscard]] bool bar_meets(Point3 from, Direction d, Length length, Length radius, std::size_t part) const {
    return meet(box_of(from, moved(from, d, length), radius), boxes_[part]) &&
           shared_volume(bar(from, d, length, radius), frame_.parts[part].solid, kSkin) > Volume();
  }

  void clear_of_other_parts(std::size_t index, std::size_t first_part) {
    const Fastener& f = frame_.fasteners[index];
    const Rod& rod = rods_[index];
    const Direction back{-f.direction.x, -f.direction.y, -f.direction.z};
    const bool head = f.head_height > Length(), nut = f.nut_height > Length();
    std::optional<Point3> far;  // where the nut sits
    const auto nut_meets = [&](std::size_t p) {
      if (!far) {
        far = rod.tip;
        std::vector<Interval> way;
        if (!f.joins.empty()) way = inside(frame_.parts[f.joins.back()].solid, f.head, f.direction, f.length);
        if (!way.empty()) far = moved(f.head, f.direction, way.back().to);
      }
      return bar_meets(*far, f.direction, f.nut_height, f.nut_radius, p);
    };
    const Box near = grown(rod.box, std::max({f.head_radius, f.tool_radius, f.nut_radius}) +
                                        (head ? f.head_height + f.tool_reach : Length()));
    if (first_part > 0 && !meet(near, round_new_)) return;
    for (std::size_t p = first_part; p < frame_.parts.size(); ++p) {
      const Part& part = frame_.parts[p];
      if (!meet(near, boxes_[p])) continue;
      const bool joined = std::ranges::find(f.joins, p) != f.joins.end();
      if (!joined) {
        Length through;
        for (const Interval& v : inside(part.solid, f.head, f.direction, f.length)) through += v.size();
        if (through > kSkin) report("crossing", f.mark, part.mark, f.item + " runs through " + part.use);
      }
      if (head && bar_meets(f.head, back, f.head_height, f.head_radius, p)) {
        report("head", f.mark, part.mark, "the head of " + f.item + " does not fit beside " + part.use);
      }
      if (nut && nut_meets(p)) {
        report("head", f.mark, part.mark, "the nut of " + f.item + " does not fit beside " + part.use);
      }
      // Boards that go on last leave the wrench its room; everything else has to.
      // A post is stood on its base once the base's anchor is tight.
      const bool goes_on_last =
          (part.kind == PartKind::support_post && f.item.starts_with("anchor")) || part.kind == PartKind::tread ||
          part.kind == PartKind::riser || part.kind == PartKind::baluster || part.kind == PartKind::cap ||
          part.kind == PartKind::handrail || part.kind == PartKind::top_rail || part.kind == PartKind::bottom_rail ||
          (part.kind == PartKind::connector && (part.step > 0 || part.side != Line::middle));
      if (head && !goes_on_last && !joined && f.tool_radius > Length() &&
          bar_meets(moved(f.head, back, f.head_height), back, f.tool_reach, f.tool_radius, p)) {
        report("tool", f.mark, part.mark, "no room for the wrench of " + f.item + " beside " + part.use);
      }
    }
  }

  void fasteners_cross(std::size_t first_fastener) {
    for (const auto& [i, j] : fasteners_near_each_other(first_fastener)) {
      const Rod &p = rods_[i], &q = rods_[j];
      const Length gap = distance(p.head, p.tip, q.head, q.tip) - p.radius - q.radius;
      if (gap < kBetweenFasteners - kTouch) {
        const Fastener &f = frame_.fasteners[i], &g = frame_.fasteners[j];
        report("crossing", f.mark, g.mark, f.item + " (" + f.reason + ") meets " + g.item + " (" + g.reason + ")");
      }
    }
  }
  /// RETURNS the pairs whose boxes come that near, the lower index first, in order.
  [[nodiscard]] std::vector<std::pair<std::size_t, std::size_t>> fasteners_near_each_other(
      std::size_t first_fastener) const {
    if (first_fastener >= rods_.size()) return {};
    Box round_new = rods_[first_fastener].box;
    for (std::size_t i = first_fastener; i < rods_.size(); ++i) round_new = round_both(round_new, rods_[i].box);
    std::vector<std::size_t> outwards;
    for (std::size_t i = 0; i < rods_.size(); ++i) {
      if (meet(grown(rods_[i].box, kBetweenFasteners), round_new)) outwards.push_back(i);
    }
    const auto from = [&](std::size_t i) { return rods_[i].box[0].from; };
    std::ranges::sort(outwards, {}, from);
    std::vector<std::pair<std::size_t, std::size_t>> out;
    for (auto at = outwards.begin(); at != outwards.end(); ++at) {
      const Box near = grown(rods_[*at].box, kBetweenFasteners);
      for (auto next = std::next(at); next != outwards.end() && from(*next) < near[0].to; ++next) {
        if (std::max(*at, *next) >= first_fastener && meet(near, rods_[*next].box))
          out.emplace_back(std::minmax(*at, *next));
      }
    }
    std::ranges::sort(out);
    return out;
  }

  /// Parts hang together through fasteners; the ground and what is there already hold the rest.
  void nothing_floats(std::size_t first_part) {
    std::vector<std::size_t> root(frame_.parts.size());
    std::iota(root.begin(), root.end(), std::size_t{0});
    const auto find = [&](std::size_t i) {
      while (root[i] != i) i = root[i] = root[root[i]];
      return i;
    };
    for (const Fastener& f : frame_.fasteners) {
      for (const std::size_t part : f.joins) root[find(part)] = find(f.joins.front());
    }
    std::vector<bool> held(frame_.parts.size());
    for (std::size_t i = 0; i < frame_.parts.size(); ++i) {
      const PartKind kind = frame_.parts[i].kind;
      if (kind == PartKind::existing || kind == PartKind::pad_layer || kind == PartKind::footing) held[find(i)] = true;
    }
    for (std::size_t i = first_part; i < frame_.parts.size(); ++i) {
      if (!held[find(i)]) report("floating", frame_.parts[i].mark, "", "nothing holds " + frame_.parts[i].use);
    }
  }

  const Frame& frame_;
  std::vector<Box> boxes_;
  Box round_new_;  ///< round the newest parts
  std::vector<Rod> rods_;
  std::vector<Clash> clashes_;
};

}  // namespace

std::vector<Clash> find_clashes(const Frame& frame) { return Tester(frame).all(); }

bool newest_fit(const Frame& frame, std::size_t first_part, std::size_t first_fastener) {
  return Tester(frame).newest_fit(first_part, first_fastener);
}

}  // namespace pitchboard
