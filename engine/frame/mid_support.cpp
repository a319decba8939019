// Supports between head and foot of long stringers: a beam across the stair, bevelled to their lower edges, bolted to
// posts that stand on piers of their own.
//
// SOURCE  common practice, no source; spans that ask for one: data/strength/span-limits.toml.

#include <algorithm>
#include <cmath>

#include "engine/frame/clash.hpp"
#include "engine/frame/layout.hpp"
#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {
namespace {

constexpr Direction kInward{-1, 0, 0}, kDown{0, 0, -1};

/// The level span that is checked may be shorter than the one that supports divide, but by less than this: it ends
/// inside the bearing of each stringer's own foot.
constexpr Length kBearingUnknown = inches(1.0);

/// What all supports of a stair have in common.
struct Supports {
  int count = 0;
  Length part_span;  ///< from bearing to bearing
  Length shift;      ///< how far one may stand from where it divides the span evenly
  Section beam, post;
  std::vector<Length> post_y;  ///< middles
  Length pier;                 ///< side of its square plan
  Length depth;                ///< below the ground
  /// RETURNS where the middle of the beam of that number, from the house, divides the span evenly.
  [[nodiscard]] Length even_place(const Layout& l, int number) const {
    return round_to(l.head_x + part_span * number, inches(0.25));
  }
};

/// What supports divide: from the head to where the outer stringers meet the landing.
Length level_span(const Layout& l) { return std::max(l.heel_x(Length()), l.heel_x(l.width())) - l.head_x; }

/// RETURNS how many keep every part of the span within what guides print.
int supports_asked_for(const Layout& l, Length span) {
  const SpanLimitRow* row = find_span_limit(l.solid() ? "solid" : "cut");
  return row ? std::max(static_cast<int>(std::ceil((span - kTouch) / inches(row->limit))) - 1, 0) : 0;
}

/// Nearest place to `y` where a post is clear of every stringer, so that a wrench gets at its bolts.
Length between_stringers(const Layout& l, Length y, Length width) {
  const Length off = (l.stringer.thickness + width) / 2.0 + kPostInside;
  const auto clear = [&](Length at) {
    return std::ranges::none_of(
        l.stringer_y, [&](Length left) { return abs(left + l.stringer.thickness / 2.0 - at) < off - kTouch; });
  };
  if (clear(y)) return y;
  std::optional<Length> best;
  for (const Length left : l.stringer_y) {
    for (const double way : {-1.0, 1.0}) {
      const Length at = left + l.stringer.thickness / 2.0 + off * way;
      if (at < Length() || at > l.width() || !clear(at)) continue;
      if (!best || abs(at - y) < abs(*best - y) - kTouch) best = at;
    }
  }
  return best.value_or(y);  // stringers too close for a post between them: the clash test says what it meets
}

/// One near each outer stringer, and the others evenly between them.
std::vector<Length> even_places(const Layout& l, Length width, int bays) {
  const Length first = l.stringer.thickness + kPostInside + width / 2.0, last = l.width() - first;
  std::vector<Length> out{first};
  for (int i = 1; i < bays; ++i) out.push_back(first + (last - first) * (static_cast<double>(i) / bays));
  out.push_back(last);
  return out;
}

bool too_far(Length p, Length q) { return q - p > kSupportPostsApart + kTouch; }

int fewest_bays(const Layout& l, Length width) {
  int bays = 1;
  while (too_far(even_places(l, width, bays)[0], even_places(l, width, bays)[1])) ++bays;
  return bays;
}

/// As many as their spacing asks for, each clear of the stringers.
std::vector<Length> post_places(const Layout& l, Length width) {
  const auto in_bays = [&](int bays) {
    std::vector<Length> out = even_places(l, width, bays);
    for (int i = 1; i < bays; ++i) {
      Length& place = out[static_cast<std::size_t>(i)];
      place = between_stringers(l, place, width);
    }
    return out;
  };
  int bays = 1;
  std::vector<Length> out = in_bays(bays);
  while (std::ranges::adjacent_find(out, too_far) != out.end()) out = in_bays(++bays);
  return out;
}

/// The most that one post carries of the beam's length: half way to its neighbours, or out to the beam's end.
Length widest_share(const std::vector<Length>& posts, Length width) {
  Length widest;
  for (std::size_t i = 0; i < posts.size(); ++i) {
    const Length from = i == 0 ? Length() : (posts[i - 1] + posts[i]) / 2.0;
    const Length to = i + 1 == posts.size() ? width : (posts[i] + posts[i + 1]) / 2.0;
    widest = std::max(widest, to - from);
  }
  return widest;
}

/// Side of a square pier that presses on the soil with just what it bears. UNITS inches.
double needed_side(const Job& job, Length along, Length across) {
  const double load = job.loads.live.value_or(kLiveLoad) + job.loads.dead.value_or(kDeadLoad);
  const Area carried = along * across;
  return std::sqrt(carried.raw() * kRunsOn * load / job.loads.soil);
}

/// Nobody digs to a fraction of an inch.
Length pier_side(const Job& job, Length along, Length across) {
  return std::max(inches(std::ceil(needed_side(job, along, across) - 1e-9)), kLeastPier);
}

Supports plan_supports(const Layout& l, Length span) {
  Supports s;
  s.count = l.job.stringers.mid_supports.value_or(supports_asked_for(l, span));
  s.part_span = span / (s.count + 1);
  const SpanLimitRow* row = find_span_limit(l.solid() ? "solid" : "cut");
  // As far as the spans on both sides keep their limit: between two supports both may move.
  const Length spare = (row ? inches(row->limit) : Length()) - s.part_span;
  s.shift = std::clamp(spare / (s.count > 1 ? 2.0 : 1.0), Length(), s.part_span * kSupportShift);
  s.beam = narrowest("dimension", l.stringer.thickness, kSupportBeam);
  s.post = section_of(l.job.rails.post);
  s.post_y = post_places(l, s.post.width);
  s.pier = pier_side(l.job, s.part_span, widest_share(s.post_y, l.width()));
  s.depth = std::max(l.job.place.frost_depth.value_or(Length()), kLeastPierDepth);
  return s;
}

/// The four corners of a pier's plan, and what the ground does between them.
struct PierGround {
  Length high, low;
};

bool through_pad(const Layout& l, Length x) { return l.job.pad.existing && x >= *l.job.pad.from; }

PierGround ground_at(const Layout& l, const Supports& s, Length x, Length y) {
  PierGround out{inches(-1e6), inches(1e6)};
  for (const double dx : {-0.5, 0.5}) {
    for (const double dy : {-0.5, 0.5}) {
      const Length px = x + s.pier * dx, py = y + s.pier * dy, z = l.site.ground(px, py).z;
      out.high = std::max(out.high, through_pad(l, px) ? std::max(z, l.foot_z(px, py)) : z);
      out.low = std::min(out.low, z);
    }
  }
  return out;
}

Length post_middle(const Supports& s, Length beam) { return beam - (s.beam.thickness + s.post.thickness) / 2.0; }

Length foot_of_post(const Layout& l, const Supports& s, Length beam, Length y) {
  return ground_at(l, s, post_middle(s, beam), y).high + kPierAboveGround + inches(hardware("post-base").head_radius);
}

/// Upper edge of the beam on its house side, where it is whole.
Length top_of_beam(const Layout& l, const Supports& s, Length beam) {
  return l.lower_edge(beam - s.beam.thickness / 2.0);
}

/// Highest that a post's foot may be.
Length highest_foot(const Layout& l, const Supports& s, Length beam) {
  return top_of_beam(l, s, beam) - s.beam.width - kBeamOverFoot;
}

bool stands_high_enough(const Layout& l, const Supports& s, Length beam) {
  const Length under = top_of_beam(l, s, beam) - s.beam.width;
  return std::ranges::all_of(s.post_y, [&](Length y) { return under >= foot_of_post(l, s, beam, y) + kBeamOverFoot; });
}

/// The beam's bevelled upper edge meets the lower edges of the stringers.
std::size_t add_beam(Frame& frame, const Layout& l, const Supports& s, Length x, int number) {
  const Length back = x - s.beam.thickness / 2.0, front = x + s.beam.thickness / 2.0;
  const Length under = top_of_beam(l, s, x) - s.beam.width;
  Part part = wood(l.job, PartKind::support_beam, "SB" + std::to_string(number), "support beam under the stringers",
                   s.beam, Axis::y, {Length(), l.width()},
                   {{back, under}, {front, under}, {front, l.lower_edge(front)}, {back, l.lower_edge(back)}});
  part.across_outline = true;
  return add(frame, std::move(part));
}

/// An angle on the beam's outer face and each stringer's side: it straddles the stringer's lower edge.
void tie_stringers(Frame& frame, const Layout& l, const StringerParts& parts, std::size_t beam, Length front,
                   int number) {
  const Length edge = l.lower_edge(front), metal = inches(0.1);
  const Interval up{edge - inches(1.0), edge + inches(0.5)};
  for (std::size_t i = 0; i < parts.stringers.size(); ++i) {
    const bool on_right = i + 1 < parts.stringers.size();
    const double way = on_right ? 1 : -1;
    const Length face = on_right ? l.stringer_y[i] + l.stringer.thickness : l.stringer_y[i];
    const std::size_t angle = add_angle(
        frame, hardware("angle-2"), {"AS", std::to_string(number), "-", std::to_string(i + 1)},
        {"angle, ", frame.parts[parts.stringers[i]].mark, " to support beam"}, Axis::z, up, {{front, face}, 1, way});
    const std::string_view reason = "ties the stringer to the support beam";
    for (const double off : {0.55, 1.1, 1.65}) {
      // In the stringer square to its edge, in the beam below the bevel.
      const Length x = front + inches(off);
      const Length z = std::min(l.lower_edge(x) + inches(0.6) / l.cosine, up.to - inches(0.125));
      fasten(frame, hardware("screw-10x1-1/2"), {x, face + metal * way, z}, {0, -way, 0}, {angle, parts.stringers[i]},
             reason);
      fasten(frame, hardware("screw-10x1-1/2"),
             {front + metal, face + inches(off) * way, edge - inches(off > 1.0 && off < 1.5 ? 0.55 : 0.8)}, kInward,
             {angle, beam}, reason);
    }
  }
}

/// Metal under a post, seen along the stair: a plate on the pier, one under the post held off it at the left, and a
/// strap up each side of the post.
Polygon base_outline(Length y, Length pier, Length half, Length metal, Length stand_off, Length height) {
  const auto at = [&](Length dy, Length dz) { return Point{y + dy, pier + dz}; };
  const Length out = half + metal;
  return {at(-out, {}),
          at(out, {}),
          at(out, metal),
          at(-half, metal),
          at(-half, stand_off - metal),
          at(out, stand_off - metal),
          at(out, height),
          at(half, height),
          at(half, stand_off),
          at(-half, stand_off),
          at(-half, height),
          at(-out, height)};
}

void add_post(Frame& frame, const Layout& l, const Supports& s, std::size_t beam, Length x, Length y,
              const std::string& number) {
  const HardwareRow& base_row = hardware("post-base");
  const Length metal = inches(base_row.diameter), stand_off = inches(base_row.head_radius);
  const Length back = x - s.beam.thickness / 2.0, front = x + s.beam.thickness / 2.0, half = s.post.width / 2.0;
  const Length middle = post_middle(s, x);
  const Length foot = frame.counted ? highest_foot(l, s, x) : foot_of_post(l, s, x, y), pier_top = foot - stand_off;
  const Length pier_foot = (frame.counted ? pier_top - kPierAboveGround : ground_at(l, s, middle, y).low) - s.depth;
  const Interval along{back - s.post.thickness, back};

  Part pier;
  pier.mark = "PF" + number;
  pier.kind = PartKind::footing;
  pier.use = "pier under a support post";
  pier.section = {"concrete", s.pier, s.pier};
  pier.solid = {Axis::z,
                {pier_foot, pier_top},
                rectangle({middle - s.pier / 2.0, middle + s.pier / 2.0}, {y - s.pier / 2.0, y + s.pier / 2.0})};
  const std::size_t footing = add(frame, std::move(pier));

  Part metal_part;
  metal_part.mark = "PB" + number;
  metal_part.kind = PartKind::connector;
  metal_part.use = "post base";
  metal_part.section = {std::string(base_row.key), metal, inches(base_row.length)};
  metal_part.across_outline = true;
  metal_part.solid = {Axis::x, along, base_outline(y, pier_top, half, metal, stand_off, inches(base_row.length))};
  const std::size_t base = add(frame, std::move(metal_part));

  Part part = wood(l.job, PartKind::support_post, "SP" + number, "support post", s.post, Axis::y, {y - half, y + half},
                   rectangle(along, {foot, top_of_beam(l, s, x) - kPostBelowBeam}));
  part.grain_a = 0;
  part.grain_b = 1;
  const std::size_t post = add(frame, std::move(part));

  fasten(frame, hardware("anchor-1/2x4"), {middle, y, pier_top + metal}, kDown, {base, footing},
         "holds the post base to its pier");
  for (const double way : {1.0, -1.0}) {
    for (const Length up : {kLowStrapScrew, kHighStrapScrew}) {
      fasten(frame, hardware("screw-10x1-1/2"), {middle, y - (half + metal) * way, foot + up}, {0, way, 0},
             {base, post}, "holds the support post in its base");
    }
  }
  const HardwareRow& bolt = bolt_for(s.beam.thickness + s.post.thickness, kSupportBolt);
  const Length high = l.lower_edge(front) - kSupportBoltEdge,
               low = top_of_beam(l, s, x) - s.beam.width + kSupportBoltFree;
  for (const bool upper : {true, false}) {
    fasten(frame, bolt, {front, y, upper ? high : low}, kInward, {beam, post}, "holds the support beam to its post");
  }
}

void add_support(Frame& frame, const Layout& l, const StringerParts& parts, const Supports& s, Length x, int number) {
  const std::size_t beam = add_beam(frame, l, s, x, number);
  tie_stringers(frame, l, parts, beam, x + s.beam.thickness / 2.0, number);
  for (const Length y : s.post_y) {
    const auto built = std::ranges::count(frame.parts, PartKind::support_post, &Part::kind);
    add_post(frame, l, s, beam, x, y, std::to_string(built + 1));
  }
}

/// What became of one support.
enum class Outcome { stands, too_low, in_the_way };

/// Sets the support where it divides the span evenly or, if it meets something there, as near to that as it meets
/// nothing.
Outcome set_support(Frame& frame, FitTest& test, const Layout& l, const StringerParts& stringers, const Supports& s,
                    Length even, int number, Length& found) {
  Outcome outcome = Outcome::too_low;
  const std::size_t parts = frame.parts.size(), fasteners = frame.fasteners.size();
  for (int step = 0; kSupportStep * step <= s.shift; ++step) {
    for (const double way : {-1.0, 1.0}) {
      if (step == 0 && way > 0) continue;
      found = even + kSupportStep * (step * way);
      if (!stands_high_enough(l, s, found)) continue;
      add_support(frame, l, stringers, s, found, number);
      if (test.parts_fit() && test.fasteners_fit()) {
        test.let_stand(frame.parts.size(), frame.fasteners.size());
        return Outcome::stands;
      }
      frame.parts.resize(parts);
      frame.fasteners.resize(fasteners);
      outcome = Outcome::in_the_way;
    }
  }
  found = even;
  return outcome;
}

void note_supports(Frame& frame, const Layout& l, const Supports& s, const std::vector<Length>& places) {
  const UnitSystem units = l.job.about.units;
  for (std::size_t i = 0; i < places.size(); ++i) {
    frame.notes.push_back("Support beam " + std::to_string(i + 1) + ": its middle " + tape_feet(places[i], units) +
                          " out from the deck edge, its bevelled edge up against every stringer. Piers " +
                          tape_plain(s.pier, units) + " square, " + tape_plain(s.depth, units) +
                          " into the ground, middles " + tape_feet(post_middle(s, places[i]), units) + " out.");
  }
  frame.notes.push_back(
      "Call before you dig the piers: buried lines are marked first. Cut each support post to what is measured on its "
      "own pier.");
  if (!l.job.place.frost_depth) {
    frame.notes.push_back("How deep the ground freezes is not given: the piers are drawn " +
                          tape_plain(s.depth, units) + " deep. Ask the building department before you dig.");
  }
  const bool cut_open =
      std::ranges::any_of(places, [&](Length x) { return through_pad(l, post_middle(s, x) + s.pier / 2.0); });
  if (cut_open) frame.notes.push_back("Open the landing that is there where the piers go through it.");
}

}  // namespace

int fewest_supports(const Layout& l) { return supports_asked_for(l, level_span(l) - kBearingUnknown); }

void count_mid_supports(Frame& frame, const Layout& l, const StringerParts& parts, std::optional<int> standing) {
  const Length span = level_span(l);
  if (span <= Length()) return;
  Supports s = plan_supports(l, span);
  // Posts that stand clear of stringers may be more than these, but their piers, if not rounded up, are no less in all;
  // of more supports than are certain each carries less.
  s.post_y = even_places(l, s.post.width, fewest_bays(l, s.post.width));
  const Length along = standing ? s.part_span : span / (std::max(s.count, kMostSupports) + 1.0);
  const Length across = l.width() / static_cast<double>(s.post_y.size());
  s.pier = std::max(inches(needed_side(l.job, along, across)), kLeastPier);
  const int certain = std::min(s.count, standing.value_or(fewest_supports(l)));
  for (int i = 1; i <= certain; ++i) add_support(frame, l, parts, s, s.even_place(l, i), i);
}

void add_mid_supports(Frame& frame, const Layout& l, const StringerParts& parts) {
  const Length span = level_span(l);
  if (span <= Length()) return;
  const Supports s = plan_supports(l, span);
  if (s.count == 0) return;
  const UnitSystem units = l.job.about.units;
  const auto too_near = [&](Length p, Length q) { return q - p < s.pier + kBetweenPiers; };
  if (std::ranges::adjacent_find(s.post_y, too_near) != s.post_y.end()) {
    frame.notes.push_back("No support under the stringers: on this soil its piers would be " +
                          tape_plain(s.pier, units) + " wide and meet. Have an engineer size one footing.");
    return;
  }
  std::vector<Length> places;
  FitTest test(frame);
  for (int i = 1; i <= s.count; ++i) {
    const Length even = s.even_place(l, i);
    Length x;
    const Outcome outcome = set_support(frame, test, l, parts, s, even, static_cast<int>(places.size()) + 1, x);
    if (outcome == Outcome::stands) {
      places.push_back(x);
      continue;
    }
    const bool low = outcome == Outcome::too_low;
    frame.notes.push_back("No support under the stringers at " + tape_feet(x, units) + " out: " +
                          (low ? "they run too low over the ground there for a beam on posts."
                               : "the landing or what holds head and foot is in the way there.") +
                          " Ask an engineer whether they carry without it.");
  }
  if (!places.empty()) note_supports(frame, l, s, places);
}

}  // namespace pitchboard
