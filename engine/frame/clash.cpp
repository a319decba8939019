// The clash test: nothing overlaps, every fastener lies in what it joins and clear of the rest, nothing floats.

#include "engine/frame/clash.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <optional>
#include <utility>

#include "engine/base/catalog.hpp"
#include "engine/frame/shelves.hpp"
#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {
namespace {

/// Faces that overlap by less than this touch; more is an overlap. A sixty-fourth is what a plane takes off.
constexpr Length kSkin = inches(1.0 / 64.0);

std::string text(Length v) { return tape_plain(abs(v)); }

Axis axis_of(Direction d) {
  return std::abs(d.x) > 0.5 && std::abs(d.x) >= std::abs(d.z) ? Axis::x : std::abs(d.y) > 0.5 ? Axis::y : Axis::z;
}

bool deeper_than_skin(const Box& p, const Box& q) {
  return overlap(p[0], q[0]) > kSkin && overlap(p[1], q[1]) > kSkin && overlap(p[2], q[2]) > kSkin;
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

/// Visits the two legs of an angle, each for itself: together they reach round much more room than their thin metal
/// fills, and what little they share with others would pass for contact. Any other part is visited whole.
void visit_legs(const Part& part, const auto& visit) {
  const Polygon& o = part.solid.outline;
  if (part.kind != PartKind::connector || o.size() != 6) return visit(part.solid);
  for (const Polygon& leg : {Polygon{o[0], o[1], o[2]}, Polygon{o[0], o[4], o[5]}})
    visit(Prism{part.solid.normal, part.solid.span, rectangle(extent_a(leg), extent_b(leg))});
}

/// RETURNS what two parts share, more than their skins.
Volume shared_by(const Part& p, const Part& q) {
  Volume out;
  visit_legs(p, [&](const Prism& a) { visit_legs(q, [&](const Prism& b) { out += shared_volume(a, b, kSkin); }); });
  return out;
}

/// A head, a nut or a tool's room, and its box.
struct Body {
  Prism solid;
  Box around;
};
Body body(Prism solid) {
  const Box around = box(solid);
  return {std::move(solid), around};
}

/// RETURNS how far from its axis the head, the nut and the tool of a fastener reach at most; 0 where it drives flush.
Length room_round(const Fastener& f) {
  if (f.head_height <= Length() && f.nut_height <= Length()) return {};
  return std::max({f.head_radius, f.tool_radius, f.nut_radius}) +
         (f.head_height > Length() ? f.head_height + f.tool_reach : Length());
}

}  // namespace

bool overlap(const Part& p, const Part& q) {
  return deeper_than_skin(box(p.solid), box(q.solid)) && shared_by(p, q) > Volume();
}

class Tester {
 public:
  explicit Tester(const Frame& frame) : frame_(frame) {}

  std::vector<Clash> all() {
    take_in(frame_.parts.size(), frame_.fasteners.size());
    for (std::size_t i = 0; i < frame_.parts.size(); ++i)
      parts_.visit_meeting(parts_[i], i + 1, [&](std::size_t j) { parts_overlap(i, j); });
    for (std::size_t i = 0; i < frame_.fasteners.size(); ++i) {
      lies_in_its_parts(frame_.fasteners[i]);
      clear_of_other_parts(i, 0);
    }
    for (std::size_t i = 0; i < frame_.fasteners.size(); ++i)
      rods_.visit_meeting(grown(rods_[i], kBetweenFasteners), i + 1, [&](std::size_t j) { fasteners_cross(i, j); });
    nothing_floats();
    return std::move(clashes_);
  }

  /// What stands is not tested against itself: the first so many parts and fasteners.
  void let_stand(std::size_t parts, std::size_t fasteners) {
    drop_newest();
    parts_.keep(std::min(parts, first_part_));
    rods_.keep(std::min(fasteners, first_fastener_));
    take_in(parts, fasteners);
    first_part_ = parts;
    first_fastener_ = fasteners;
  }

  bool newest_parts_fit() {
    drop_newest();
    take_in(frame_.parts.size(), first_fastener_);
    for (std::size_t j = first_part_; clashes_.empty() && j < frame_.parts.size(); ++j) {
      parts_.visit_meeting(parts_[j], 0, [&](std::size_t i) {
        if (i < j) parts_overlap(i, j);
      });
    }
    return no_clash();
  }

  bool newest_fasteners_fit() {
    drop_newest();
    take_in(frame_.parts.size(), frame_.fasteners.size());
    for (std::size_t j = first_fastener_; clashes_.empty() && j < frame_.fasteners.size(); ++j) {
      rods_.visit_meeting(grown(rods_[j], kBetweenFasteners), 0, [&](std::size_t i) {
        if (i < j) fasteners_cross(i, j);
      });
    }
    for (std::size_t i = first_fastener_; clashes_.empty() && i < frame_.fasteners.size(); ++i) {
      lies_in_its_parts(frame_.fasteners[i]);
      clear_of_other_parts(i, 0);
    }
    if (clashes_.empty()) old_fasteners_clear_of_new_parts();
    if (clashes_.empty()) nothing_floats();
    return no_clash();
  }

 private:
  void take_in(std::size_t parts, std::size_t fasteners) {
    while (parts_.size() < parts) parts_.add(box(frame_.parts[parts_.size()].solid));
    while (rods_.size() < fasteners) {
      const Fastener& f = frame_.fasteners[rods_.size()];
      rods_.add(box_of(f));
      most_room_ = std::max(most_room_, room_round(f));
    }
  }

  void drop_newest() {
    parts_.keep(first_part_);
    rods_.keep(first_fastener_);
  }

  bool no_clash() { return std::exchange(clashes_, {}).empty(); }

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

  void parts_overlap(std::size_t i, std::size_t j) {
    const Part &p = frame_.parts[i], &q = frame_.parts[j];
    if (p.kind == PartKind::existing && q.kind == PartKind::existing) return;
    if (!deeper_than_skin(parts_[i], parts_[j])) return;
    if (is_let_in(p, q) || is_let_in(q, p)) return;
    if (const Volume shared = shared_by(p, q); shared > Volume()) {
      report("overlap", p.mark, q.mark,
             p.use + " and " + q.use + " share " + std::to_string(std::lround(shared.raw() * 100.0)) + "/100 cu in");
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
    near_.clear();
    parts_.visit_meeting(grown(rods_[index], room_round(f)), first_part, [&](std::size_t p) { near_.push_back(p); });
    if (near_.empty()) return;
    const bool has_head = f.head_height > Length(), has_nut = f.nut_height > Length();
    const Direction back{-f.direction.x, -f.direction.y, -f.direction.z};
    std::optional<Body> head, tool, nut;
    if (has_head) head = body(bar(f.head, back, f.head_height, f.head_radius));
    if (has_head && f.tool_radius > Length())
      tool = body(bar(moved(f.head, back, f.head_height), back, f.tool_reach, f.tool_radius));
    if (has_nut) nut = body(bar(moved(f.head, f.direction, grip(frame_, f)), f.direction, f.nut_height, f.nut_radius));
    for (const std::size_t p : near_) {
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

  void old_fasteners_clear_of_new_parts() {
    if (first_part_ == parts_.size()) return;
    Box round_all = parts_[first_part_];
    for (std::size_t p = first_part_ + 1; p < parts_.size(); ++p) {
      for (std::size_t axis = 0; axis < round_all.size(); ++axis) {
        const Interval v = parts_[p][axis];
        round_all[axis] = {std::min(round_all[axis].from, v.from), std::max(round_all[axis].to, v.to)};
      }
    }
    rods_.visit_meeting(grown(round_all, most_room_ + kTouch), 0, [&](std::size_t i) {
      if (i < first_fastener_ && clashes_.empty()) clear_of_other_parts(i, first_part_);
    });
  }

  void fasteners_cross(std::size_t i, std::size_t j) {
    const Fastener &f = frame_.fasteners[i], &g = frame_.fasteners[j];
    const Length gap = distance(f.head, tip_of(f), g.head, tip_of(g)) - f.diameter / 2.0 - g.diameter / 2.0;
    if (gap < kBetweenFasteners - kTouch)
      report("crossing", f.mark, g.mark,
             f.item + " (" + std::string(f.reason) + ") meets " + g.item + " (" + std::string(g.reason) + ")");
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
      if (f.joins.empty()) continue;
      const std::size_t first = find(f.joins.front());
      for (const std::size_t part : f.joins) root[find(part)] = first;
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
  std::size_t first_part_ = 0, first_fastener_ = 0;  ///< that do not stand yet
  Shelves parts_, rods_;
  std::vector<std::size_t> near_;  ///< parts round the fastener that is looked at
  Length most_room_;               ///< greatest `room_round` of any fastener
  std::vector<Clash> clashes_;
};

std::vector<Clash> find_clashes(const Frame& frame) { return Tester(frame).all(); }

FitTest::FitTest(const Frame& frame) : tester_(std::make_unique<Tester>(frame)) {
  let_stand(frame.parts.size(), frame.fasteners.size());
}
FitTest::~FitTest() = default;
void FitTest::let_stand(std::size_t parts, std::size_t fasteners) { tester_->let_stand(parts, fasteners); }
bool FitTest::parts_fit() { return tester_->newest_parts_fit(); }
bool FitTest::fasteners_fit() { return tester_->newest_fasteners_fit(); }

}  // namespace pitchboard
