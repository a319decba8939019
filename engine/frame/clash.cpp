// The clash test: nothing overlaps, every fastener lies in what it joins and clear of the rest, nothing floats.

#include "engine/frame/clash.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
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

bool deeper_than_skin(const Box& p, const Box& q) {
  return overlap(p[0], q[0]) > kSkin && overlap(p[1], q[1]) > kSkin && overlap(p[2], q[2]) > kSkin;
}

Point3 tip_of(const Fastener& f) { return moved(f.head, f.direction, f.length); }

Box grown(Box b, Length by) {
  for (Interval& v : b) v = {v.from - by, v.to + by};
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

/// Boxes on shelves, stretches of x that each reaches into, so that those that one meets are soon found.
class Shelves {
 public:
  [[nodiscard]] std::size_t size() const { return boxes_.size(); }
  [[nodiscard]] const Box& operator[](std::size_t i) const { return boxes_[i]; }
  void add(const Box& box) {
    if (boxes_.size() % kRow == 0) rows_.emplace_back();
    for (std::size_t s = shelf_of(box[0].from); s <= shelf_of(box[0].to); ++s)
      rows_.back()[s] |= std::uint64_t{1} << boxes_.size() % kRow;
    boxes_.push_back(box);
  }
  /// Takes away all but the first `count`.
  void keep(std::size_t count) {
    boxes_.resize(count);
    rows_.resize((count + kRow - 1) / kRow);
    if (count % kRow == 0) return;
    for (std::uint64_t& shelf : rows_.back()) shelf &= (std::uint64_t{1} << count % kRow) - 1;
  }
  /// Visits each from `first` on that meets the box, in order.
  void visit_meeting(const Box& box, std::size_t first, const auto& visit) const {
    const std::size_t from = shelf_of(box[0].from), to = shelf_of(box[0].to);
    for (std::size_t row = first / kRow; row < rows_.size(); ++row) {
      std::uint64_t there = 0;
      for (std::size_t s = from; s <= to; ++s) there |= rows_[row][s];
      if (row == first / kRow) there &= ~std::uint64_t{0} << first % kRow;
      for (; there != 0; there &= there - 1) {
        const std::size_t i = row * kRow + static_cast<std::size_t>(std::countr_zero(there));
        if (meet(box, boxes_[i])) visit(i);
      }
    }
  }

 private:
  static constexpr std::size_t kRow = 64;  ///< boxes that one word of bits tells of
  static constexpr std::size_t kShelves = 64;
  static constexpr Length kShelf = inches(4.0);  ///< the first and the last shelf take in all beyond them
  static std::size_t shelf_of(Length x) {
    return static_cast<std::size_t>(std::max(0.0, std::min(static_cast<double>(kShelves - 1), x / kShelf)));
  }

  std::vector<Box> boxes_;
  std::vector<std::array<std::uint64_t, kShelves>> rows_;  ///< a word for each shelf
};

/// A head, a nut or a tool's room, and its box.
struct Body {
  Prism solid;
  Box around;
};
Body body(Prism solid) {
  const Box around = box(solid);
  return {std::move(solid), around};
}

class Tester {
 public:
  /// What stands is not tested against itself: the first so many parts and fasteners.
  Tester(const Frame& frame, std::size_t parts, std::size_t fasteners)
      : frame_(frame), first_part_(parts), first_fastener_(fasteners) {
    take_in(parts, fasteners);
  }

  std::vector<Clash> all() {
    take_in(frame_.parts.size(), frame_.fasteners.size());
    parts_overlap();
    for (std::size_t i = 0; i < frame_.fasteners.size(); ++i) {
      lies_in_its_parts(frame_.fasteners[i]);
      clear_of_other_parts(i, 0);
    }
    fasteners_cross();
    nothing_floats();
    return std::move(clashes_);
  }

  /// The same where something newer than what stands has a share in it, as far as the first clash.
  bool newest_fit() {
    take_in(frame_.parts.size(), frame_.fasteners.size());
    parts_overlap();
    if (clashes_.empty()) fasteners_cross();
    for (std::size_t i = first_fastener_; clashes_.empty() && i < frame_.fasteners.size(); ++i) {
      lies_in_its_parts(frame_.fasteners[i]);
      clear_of_other_parts(i, 0);
    }
    for (std::size_t i = 0; clashes_.empty() && i < first_fastener_; ++i) clear_of_other_parts(i, first_part_);
    if (clashes_.empty()) nothing_floats();
    parts_.keep(first_part_);
    rods_.keep(first_fastener_);
    return std::exchange(clashes_, {}).empty();
  }

 private:
  void take_in(std::size_t parts, std::size_t fasteners) {
    while (parts_.size() < parts) parts_.add(box(frame_.parts[parts_.size()].solid));
    while (rods_.size() < fasteners) {
      const Fastener& f = frame_.fasteners[rods_.size()];
      rods_.add(box_of(f.head, tip_of(f), f.diameter / 2.0));
    }
  }

  void report(std::string kind, const std::string& first, const std::string& second, std::string note) {
    clashes_.push_back({std::move(kind), first, second, std::move(note)});
  }

  /// A rail post in concrete: its foot is embedded in its own footing, and the landing's layers over that are cut or
  /// poured round it.
  [[nodiscard]] bool is_let_in(const Part& post, const Part& ground) const {
    if (post.kind != PartKind::post || (ground.kind != PartKind::footing && ground.kind != PartKind::pad_layer))
      return false;
    const auto own = std::ranges::find(frame_.parts, footing_of(post.mark), &Part::mark);
    if (own == frame_.parts.end() || own->kind != PartKind::footing) return false;
    const std::array<Interval, 3> foot = box(post.solid), concrete = box(own->solid);
    const bool stands_in_it = concrete[0].from <= foot[0].from && foot[0].to <= concrete[0].to &&
                              concrete[1].from <= foot[1].from && foot[1].to <= concrete[1].to &&
                              concrete[2].contains(foot[2].from);
    return stands_in_it && (ground.mark == own->mark || ground.kind == PartKind::pad_layer);
  }

  void parts_overlap() {
    for (std::size_t i = 0; i < frame_.parts.size(); ++i) {
      parts_.visit_meeting(parts_[i], std::max(i + 1, first_part_), [&](std::size_t j) {
        const Part &p = frame_.parts[i], &q = frame_.parts[j];
        if (p.kind == PartKind::existing && q.kind == PartKind::existing) return;
        if (!deeper_than_skin(parts_[i], parts_[j])) return;
        if (is_let_in(p, q) || is_let_in(q, p)) return;
        Volume shared;
        for (const Prism& a : legs_of(p)) {
          for (const Prism& b : legs_of(q)) shared += shared_volume(a, b, kSkin);
        }
        if (shared > Volume()) {
          report(
              "overlap", p.mark, q.mark,
              p.use + " and " + q.use + " share " + std::to_string(std::lround(shared.raw() * 100.0)) + "/100 cu in");
        }
      });
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

  [[nodiscard]] bool takes_room_of(const std::optional<Body>& body, std::size_t part) const {
    return body && deeper_than_skin(body->around, parts_[part]) &&
           shared_volume(body->solid, frame_.parts[part].solid, kSkin) > Volume();
  }

  void clear_of_other_parts(std::size_t index, std::size_t first_part) {
    const Fastener& f = frame_.fasteners[index];
    const bool has_head = f.head_height > Length(), has_nut = f.nut_height > Length();
    std::vector<std::size_t> near;
    parts_.visit_meeting(grown(rods_[index], std::max({f.head_radius, f.tool_radius, f.nut_radius}) +
                                                 (has_head ? f.head_height + f.tool_reach : Length())),
                         first_part, [&](std::size_t p) { near.push_back(p); });
    if (near.empty()) return;
    const Direction back{-f.direction.x, -f.direction.y, -f.direction.z};
    std::optional<Body> head, tool, nut;
    if (has_head) head = body(bar(f.head, back, f.head_height, f.head_radius));
    if (has_head && f.tool_radius > Length())
      tool = body(bar(moved(f.head, back, f.head_height), back, f.tool_reach, f.tool_radius));
    if (has_nut) nut = body(bar(moved(f.head, f.direction, grip(frame_, f)), f.direction, f.nut_height, f.nut_radius));
    for (const std::size_t p : near) {
      const Part& part = frame_.parts[p];
      const bool joined = std::ranges::find(f.joins, p) != f.joins.end();
      if (!joined && meet(rods_[index], parts_[p])) {
        Length through;
        for (const Interval& v : inside(part.solid, f.head, f.direction, f.length)) through += v.size();
        if (through > kSkin) report("crossing", f.mark, part.mark, f.item + " runs through " + part.use);
      }
      if (takes_room_of(head, p))
        report("head", f.mark, part.mark, "the head of " + f.item + " does not fit beside " + part.use);
      if (takes_room_of(nut, p))
        report("head", f.mark, part.mark, "the nut of " + f.item + " does not fit beside " + part.use);
      // Boards that go on last leave the wrench its room; everything else has to.
      // A post is stood on its base once the base's anchor is tight.
      const bool goes_on_last =
          (part.kind == PartKind::support_post && f.item.starts_with("anchor")) || part.kind == PartKind::tread ||
          part.kind == PartKind::riser || part.kind == PartKind::baluster || part.kind == PartKind::cap ||
          part.kind == PartKind::handrail || part.kind == PartKind::top_rail || part.kind == PartKind::bottom_rail ||
          (part.kind == PartKind::connector && (part.step > 0 || part.side != Line::middle));
      if (!goes_on_last && !joined && takes_room_of(tool, p))
        report("tool", f.mark, part.mark, "no room for the wrench of " + f.item + " beside " + part.use);
    }
  }

  void fasteners_cross() {
    for (std::size_t i = 0; i < frame_.fasteners.size(); ++i) {
      rods_.visit_meeting(grown(rods_[i], kBetweenFasteners), std::max(i + 1, first_fastener_), [&](std::size_t j) {
        const Fastener &f = frame_.fasteners[i], &g = frame_.fasteners[j];
        const Length gap = distance(f.head, tip_of(f), g.head, tip_of(g)) - f.diameter / 2.0 - g.diameter / 2.0;
        if (gap < kBetweenFasteners - kTouch)
          report("crossing", f.mark, g.mark, f.item + " (" + f.reason + ") meets " + g.item + " (" + g.reason + ")");
      });
    }
  }

  /// Parts hang together through fasteners; the ground and what is there already hold the rest.
  void nothing_floats() {
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
    for (std::size_t i = first_part_; i < frame_.parts.size(); ++i) {
      if (!held[find(i)]) report("floating", frame_.parts[i].mark, "", "nothing holds " + frame_.parts[i].use);
    }
  }

  const Frame& frame_;
  std::size_t first_part_, first_fastener_;
  Shelves parts_, rods_;
  std::vector<Clash> clashes_;
};

}  // namespace

std::vector<Clash> find_clashes(const Frame& frame) { return Tester(frame, 0, 0).all(); }

std::function<bool()> fit_test(const Frame& frame) {
  return [tester = Tester(frame, frame.parts.size(), frame.fasteners.size())]() mutable { return tester.newest_fit(); };
}

}  // namespace pitchboard
