// From any tread to the ground: tread, seat, stringer, head and foot, landing.
//
// MODEL  A stringer is a beam on plumb supports: the foot stands, the head hangs in its connector, props bear between
//        them. Loads go to the stringers by the width that each carries; the single load stands on one alone.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/sort.hpp"
#include "engine/strength/calculator.hpp"

namespace pitchboard {
namespace {

/// Shortest level cut that counts as a seat of its own. SOURCE IRC R502.6: 1 1/2 in of bearing on wood or metal.
constexpr double kLeastSeat = 1.5;

double length_of(const Interval& v) { return in_inches(v.size()); }

/// Parts of one kind that are computed once: same board, same width.
struct Alike {
  std::vector<std::size_t> parts;
  [[nodiscard]] std::size_t first() const { return parts.front(); }
};

double board_width(const Part& part) { return length_of(extent_a(part.solid.outline)); }

std::vector<Alike> alike_treads(const Frame& frame) {
  std::vector<Alike> out;
  for (const std::size_t part : parts_of(frame, PartKind::tread)) {
    const auto same = std::ranges::find_if(out, [&](const Alike& group) {
      const Part& other = frame.parts[group.first()];
      return other.section.nominal == frame.parts[part].section.nominal &&
             std::abs(board_width(other) - board_width(frame.parts[part])) < 0.02;
    });
    if (same == out.end()) {
      out.push_back({{part}});
    } else {
      same->parts.push_back(part);
    }
  }
  return out;
}

/// A joint's worst member: the part of that kind fixed to `part`, if there is one.
std::vector<std::size_t> connectors_on(const Calculator& c, std::size_t part, std::string_view item) {
  std::vector<std::size_t> out;
  for (const std::size_t other : c.fastened.to(part)) {
    if (c.frame.parts[other].section.nominal == item) out.push_back(other);
  }
  return out;
}

// ---------------------------------------------------------------------------------------------------------------
// treads

Links tread_links(Calculator& c, const Alike& treads) {
  const Part& part = c.frame.parts[treads.first()];
  const bool solid = c.flight.kind == StringerKind::solid;
  const TreadSpan span = tread_span(c.frame);
  TreadBoard tread;
  tread.board = c.timber(treads.first(), "tread", "duration.live");
  tread.board.mark = marks_of(c.frame, treads.parts);
  tread.board.member.width = board_width(part);
  tread.span = solid ? span.clear : span.middles;
  tread.overhang = solid ? 0.0 : in_inches(c.job.stair.side_overhang);
  tread.live = c.loads.live;
  tread.dead = c.loads.dead;
  tread.point = c.loads.tread;
  if (c.job.stair.treads == TreadMake::custom && c.job.stair.tread_span_at_most) {
    tread.greatest_span = in_inches(*c.job.stair.tread_span_at_most);
    tread.maker = "job: stair.tread_span_at_most";
  }
  Links links = c.add(check_tread(tread));

  const std::vector<std::size_t> stringers = parts_of(c.frame, PartKind::stringer);
  if (solid) {
    // One end of a board carries the single load when that stands beside the stringer.
    for (const std::size_t angle : connectors_on(c, treads.first(), "tread-angle")) {
      for (const std::size_t stringer : stringers) {
        const std::vector<std::size_t> screws = c.fastened.between(angle, stringer);
        if (screws.empty()) continue;
        links.push_back(c.joint("tread", c.frame.parts[angle].mark, "screws of the tread angle under the single load",
                                screws, angle, {{0, 0, -c.loads.tread}}, "duration.live"));
        return links;
      }
    }
    return links;
  }
  Bearing seat;
  seat.part = "tread";
  seat.mark = tread.board.mark;
  seat.what = "bearing on a stringer under the single load";
  seat.faces = {{tread.board, 90.0},
                {c.timber(stringers.front(), "stringer", "duration.live"),
                 seat_angle(in_inches(c.flight.unit_rise), in_inches(c.flight.going))}};
  seat.length = tread.board.member.width;
  seat.width = length_of(c.frame.parts[stringers.front()].solid.span);
  seat.force = c.loads.tread;
  seat.force_words = "single load beside the stringer";
  links.push_back(c.add(check_bearing(seat)));
  return links;
}

// ------------------------------------------------------------------------------------------------------------
// stringers

struct StringerForces {
  std::size_t part = 0;
  double head = 0, foot = 0, prop = 0;                       ///< the most that each carries, lb
  double head_shared = 0, foot_shared = 0, prop_shared = 0;  ///< with people everywhere, lb: add up over the stringers
  double all = 0;                                            ///< live and dead load of the whole stringer, lb
};

}  // namespace

StringerBeam beam_of(Calculator& c, const StringerReading& reading) {
  StringerBeam beam;
  beam.board = c.timber(reading.part, "stringer", "duration.live");
  beam.cut = c.flight.kind != StringerKind::solid;
  beam.rise = in_inches(c.flight.unit_rise);
  beam.going = in_inches(c.flight.going);
  beam.over_cut = beam.cut ? in_inches(c.job.stringers.over_cut) : 0.0;
  beam.spans.assign(reading.spans.rbegin(), reading.spans.rend());
  beam.live = c.loads.live * reading.tributary / kInchesPerFoot;
  beam.dead = c.loads.dead * reading.tributary / kInchesPerFoot;
  beam.point = c.loads.tread;
  // Treads hold the upper edge at every step.
  beam.board.service.unbraced_length = std::hypot(beam.rise, beam.going);
  return beam;
}

namespace {

StringerForces forces_of(const StringerBeam& beam, const StringerWorst& worst) {
  StringerForces out;
  const StringerReactions reactions = reactions_of(worst);
  const std::vector<double>& most = reactions.greatest;
  out.foot = most.front();
  out.head = most.back();
  out.foot_shared = reactions.everywhere.front();
  out.head_shared = reactions.everywhere.back();
  for (std::size_t i = 1; i + 1 < most.size(); ++i) {
    out.prop = std::max(out.prop, most[i]);
    out.prop_shared = std::max(out.prop_shared, reactions.everywhere[i]);
  }
  for (const double span : beam.spans) out.all += (beam.live + beam.dead) / kInchesPerFoot * span;
  return out;
}

// -----------------------------------------------------------------------------------------------------------------
// head

/// Lowest fastener that holds the head, over the lower end of its plumb cut: what the joint leaves effective.
std::optional<JointedEnd> jointed_end(Calculator& c, const StringerReading& reading,
                                      const std::vector<std::size_t>& screws, double head, double cosine) {
  if (screws.empty()) return std::nullopt;
  double lowest = 1e9, from_end = 1e9;
  for (const std::size_t screw : screws) {
    lowest = std::min(lowest, in_inches(c.frame.fasteners[screw].head.z));
    from_end = std::min(from_end, in_inches(c.frame.fasteners[screw].head.x) - reading.head_x);
  }
  const Polygon& outline = c.frame.parts[reading.part].solid.outline;
  double top = -1e9;
  for (const Interval& plumb : slice_at_a(outline, inches(reading.head_x + 0.01)))
    top = std::max(top, in_inches(plumb.to));
  JointedEnd end;
  end.board = c.timber(reading.part, "head", "duration.live");
  end.board.mark += " head";
  end.depth = reading.head_height * cosine;
  end.effective = (top - lowest) * cosine;  // the joint pushes up: the lower edge is the unloaded one
  end.from_end = from_end;
  end.shear = head * cosine;
  return end;
}

/// Bolts that carry the hanger board, and the board between them. `head`: what one stringer brings; `all`: all of them.
Links hanger_links(Calculator& c, double head, double all) {
  Links links;
  const std::vector<std::size_t> boards = parts_of(c.frame, PartKind::hanger_board);
  const std::optional<std::size_t> rim = part_named(c.frame, "rim");
  if (boards.empty() || !rim) return links;
  const std::size_t board = boards.front();
  const std::string where = c.frame.parts[board].mark;
  std::vector<std::size_t> blocks;
  for (const std::size_t other : c.fastened.to(board)) {
    if (c.frame.parts[other].kind == PartKind::block) blocks.push_back(other);
  }
  std::vector<double> held;  // where bolts hold it, across the stair
  for (const std::size_t index : c.fastened.by(board)) {
    const Fastener& fastener = c.frame.fasteners[index];
    if (fastener.item.starts_with("bolt") || fastener.item.starts_with("lag"))
      held.push_back(in_inches(fastener.head.y));
  }
  sort_stably(held);
  HangerBoard hanger;
  hanger.board = c.timber(board, "hanger board", "duration.live");
  for (std::size_t i = 0; i + 1 < held.size(); ++i) hanger.span = std::max(hanger.span, held[i + 1] - held[i]);
  hanger.down = head;
  if (hanger.span > 0) links = c.add(check_hanger_board(hanger));
  if (blocks.empty()) {
    links.push_back(c.joint("hanger board", where, "bolts to the rim, all heads together",
                            c.fastened.between(board, *rim), board, {{0, 0, -all}}, "duration.live"));
  } else {
    const double share = all / static_cast<double>(blocks.size());
    const std::string block = c.frame.parts[blocks.front()].mark;
    links.push_back(c.joint("hanger board", where + " on " + block, "bolts to a drop block",
                            c.fastened.between(board, blocks.front()), board, {{0, 0, -share}}, "duration.live"));
    links.push_back(c.joint("hanger board", block, "bolts of a drop block to the rim",
                            c.fastened.between(blocks.front(), *rim), blocks.front(), {{0, 0, -share}},
                            "duration.live"));
  }
  return links;
}

Links head_links(Calculator& c, const StringerReading& reading, const StringerForces& forces, double all_heads) {
  Links links;
  const std::string where = c.frame.parts[reading.part].mark + " head";
  const double rise = in_inches(c.flight.unit_rise), going = in_inches(c.flight.going);
  const std::vector<std::size_t> connectors = connectors_on(c, reading.part, "stringer-connector");
  if (connectors.empty()) {
    links.push_back(c.unknown("head", where, "what holds the head up", forces.head, "No connector is drawn here."));
  } else {
    const std::size_t connector = connectors.front();
    const std::vector<std::size_t> screws = c.fastened.between(connector, reading.part);
    if (const auto end = jointed_end(c, reading, screws, forces.head, going / std::hypot(rise, going)))
      links.push_back(c.add(check_jointed_end(*end)));
    links.push_back(c.joint("head", where, "connector's screws into the stringer", screws, reading.part,
                            {{0, 0, -forces.head}}, "duration.live"));
    std::vector<std::size_t> behind;
    for (const std::size_t other : c.fastened.to(connector)) {
      if (other == reading.part) continue;
      for (const std::size_t screw : c.fastened.between(connector, other)) behind.push_back(screw);
    }
    links.push_back(c.joint("head", where, "connector's screws into what is behind it", behind, connector,
                            {{0, 0, -forces.head}}, "duration.live"));
    links.push_back(c.reported("head", where, "the connector itself", forces.head, c.job.stringers.connector_value,
                               "stringers.connector_value"));
  }
  const Links hanger = hanger_links(c, forces.head, all_heads);
  links.insert(links.end(), hanger.begin(), hanger.end());
  links.push_back(c.unknown("head", "the rim", "the house's rim and what carries it", all_heads,
                            "It was there before: open it up, look for rot and for nails in end grain, which hold "
                            "nothing that pulls, and ask who knows when in doubt."));
  return links;
}

// -----------------------------------------------------------------------------------------------------------------
// foot

Links foot_links(Calculator& c, const StringerReading& reading, const StringerForces& forces, double all_feet) {
  Links links;
  const Part& stringer = c.frame.parts[reading.part];
  const std::string where = stringer.mark + " foot";
  const double rise = in_inches(c.flight.unit_rise), going = in_inches(c.flight.going);
  const double width = length_of(stringer.solid.span);
  Bearing foot;
  foot.part = "foot";
  foot.mark = where;
  foot.what = "bearing on the landing";
  foot.faces = {{c.timber(reading.part, "foot", "duration.live"), seat_angle(rise, going)}};
  foot.length = reading.foot_to - reading.foot_from;
  foot.width = width;
  foot.force = forces.foot;
  foot.force_words = "reaction of the foot";
  if (const auto kickers = parts_of(c.frame, PartKind::kicker); !kickers.empty()) {
    // Behind the kicker the foot stands on the landing itself, and the notch lies beyond that support. Where too little
    // of it does, it stands on the kicker, and the notch weakens it.
    const Interval flat = extent_a(c.frame.parts[kickers.front()].solid.outline);
    foot.length = in_inches(flat.from) - reading.foot_from;
    const Check behind = check_bearing(foot);
    if (foot.length < kLeastSeat || behind.verdict == Verdict::fail) {
      const auto wood_at = [&](Length x) {
        double most = 0;
        for (const Interval& plumb : slice_at_a(stringer.solid.outline, x)) most = std::max(most, length_of(plumb));
        return most;
      };
      const double cosine = going / std::hypot(rise, going);
      NotchedEnd end;
      end.board = c.timber(reading.part, "foot", "duration.live");
      end.board.mark = where;
      end.left = wood_at(flat.from + inches(0.01)) * cosine;
      end.depth = std::max(wood_at(flat.from - inches(0.01)) * cosine, end.left);
      end.shear = forces.foot * cosine;
      links.push_back(c.add(check_notched_end(end)));
      foot.what = "bearing on the kicker";
      foot.faces.push_back({c.timber(kickers.front(), "kicker", "duration.live"), 90.0});
      foot.length = in_inches(std::min(flat.to, inches(reading.foot_to)) - flat.from);
    }
  }
  links.push_back(c.add(check_bearing(foot)));

  // The load spreads through a bound landing's layers at 1 to 2, out to its own edges. SOURCE common practice, no
  // source.
  double deep = 0;
  Interval out{inches(reading.foot_from), inches(reading.foot_to)}, across{Length(), c.job.stair.width};
  for (const std::size_t layer : parts_of(c.frame, PartKind::pad_layer)) {
    if (c.frame.parts[layer].section.nominal == "pavers") continue;
    deep += in_inches(c.frame.parts[layer].section.thickness);
  }
  const double spread = deep / 2.0;
  links.push_back(c.add(check_ground("landing", all_feet, 0.0, length_of(out) + 2.0 * spread,
                                     length_of(across) + 2.0 * spread, c.loads.soil)));
  return links;
}

}  // namespace

void tread_paths(Calculator& c) {
  const std::vector<Alike> treads = alike_treads(c.frame);
  const auto narrowest = std::ranges::min_element(
      treads, {}, [&](const Alike& alike) { return board_width(c.frame.parts[alike.first()]); });
  if (narrowest != treads.end()) tread_links(c, *narrowest);
}

Links walk_paths(Calculator& c) {
  const std::vector<StringerReading> readings = stringers_of(c.frame);
  if (readings.empty()) return {};
  std::vector<StringerForces> forces;
  Links below;
  std::size_t heaviest = 0;
  double heads = 0, feet = 0;
  std::vector<double> done;
  for (const StringerReading& reading : readings) {
    // Stringers of the same spans that carry the same width have the same forces, and those that carry as good as the
    // same are checked once.
    const auto first_such = std::ranges::find_if(readings, [&](const StringerReading& other) {
      return other.tributary == reading.tributary && other.spans == reading.spans;
    });
    const auto first = static_cast<std::size_t>(first_such - readings.begin());
    const bool seen = first < forces.size();
    StringerBeam beam;
    StringerWorst worst;
    if (!seen) {
      beam = beam_of(c, reading);
      worst = worst_of(beam);
    }
    forces.push_back(seen ? forces[first] : forces_of(beam, worst));
    forces.back().part = reading.part;
    heads += forces.back().head_shared;
    feet += forces.back().foot_shared;
    if (forces.back().all > forces[heaviest].all + 1e-6) heaviest = forces.size() - 1;
    const bool known =
        seen || std::ranges::any_of(done, [&](double width) { return std::abs(width - reading.tributary) < 0.01; });
    if (known) continue;
    done.push_back(reading.tributary);
    std::vector<std::size_t> same;
    for (const StringerReading& other : readings) {
      if (std::abs(other.tributary - reading.tributary) < 0.01) same.push_back(other.part);
    }
    beam.board.mark = marks_of(c.frame, same);
    const Links links = c.add(check_stringer(beam, worst));
    below.insert(below.end(), links.begin(), links.end());
  }
  const StringerReading& worst = readings[heaviest];
  const double rise = in_inches(c.flight.unit_rise), going = in_inches(c.flight.going);
  if (forces[heaviest].prop > 0) {
    std::vector<LineLoad> shared;
    for (const StringerForces& one : forces)
      shared.push_back({in_inches(c.frame.parts[one.part].solid.span.middle()), one.prop_shared});
    const Links props = mid_support_links(c, forces[heaviest].prop, shared, rise, going);
    below.insert(below.end(), props.begin(), props.end());
  }
  // The single load may stand over one of them.
  const Links head = head_links(c, worst, forces[heaviest], std::max(heads, forces[heaviest].head));
  const Links foot = foot_links(c, worst, forces[heaviest], std::max(feet, forces[heaviest].foot));
  below.insert(below.end(), head.begin(), head.end());
  below.insert(below.end(), foot.begin(), foot.end());

  for (const Alike& treads : alike_treads(c.frame)) {
    const auto from = [&] {
      return fmt::format("people everywhere, or {:.0f} lb on {}", c.loads.tread, marks_of(c.frame, treads.parts));
    };
    c.path(from, tread_links(c, treads), below);
  }
  if (!c.written()) return below;
  const double fall = length_of(extent_b(c.frame.parts[worst.part].solid.outline));
  double level = 0;
  for (const double span : worst.spans) level += span;
  other_ways(c, worst.part, forces[heaviest].head, thrust_of(forces[heaviest].all, level / 2.0, fall));
  return below;
}

}  // namespace pitchboard
