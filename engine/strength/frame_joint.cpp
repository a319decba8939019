// One joint of the frame: from the force on a part to the worst of the fasteners that hold it.
//
// A force F on the loaded part splits at each fastener into a part along its axis and one across it. Across, the dowel
// yields (Z'); along, it is pulled out, its head is pulled through or its washers bear (W'), or the parts are pressed
// together, which asks nothing of the fastener. SOURCE NDS 2018 11.3, 12.2 to 12.5.

#include "engine/strength/frame_joint.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/catalog.hpp"
#include "engine/strength/joint_reading.hpp"

namespace pitchboard {
namespace {

/// A share of the force smaller than this is rounding.
constexpr double kNothing = 1e-9;
/// Parts nearer than this touch. UNITS inches. SOURCE own judgement: what a clamped joint leaves open.
constexpr double kTouching = 1.0 / 32.0;
constexpr double kLongestDuration = 1.6;  ///< CD of connections, NDS 2018 2.3.2, 11.3.2

/// F as one fastener of the joint meets it.
struct Split {
  Vector across;       ///< what it puts on the loaded part's fastener, square to the axis
  double lateral = 0;  ///< its size
  double pull = 0;     ///< along the axis, apart; negative: pressed together
};

struct Factors {
  double duration = 1;
  Moisture moisture;
  Figure cg;
  GeometryRead geometry;
  bool across_grain = false;  ///< more than one row, so that shrinking wood is held
};

/// What one fastener carries in the direction of F.
struct Capacity {
  double pounds = 0;
  std::vector<Figure> figures;
  std::string fails;    ///< why it carries nothing
  std::string unknown;  ///< which value is missing
};

Split split(const StandingDowel& d, std::size_t loaded, Vector force) {
  Split out;
  const double along = dot(force, d.axis);
  out.across = sum(force, scaled(d.axis, -along));
  out.lateral = length_of(out.across);
  if (d.far_side) {
    out.pull = std::abs(along);
  } else {
    out.pull = loaded == d.side.part ? -along : along;
  }
  const double size = length_of(force);
  if (out.lateral < kNothing * size) out.lateral = 0;
  if (std::abs(out.pull) < kNothing * size) out.pull = 0;
  return out;
}

Leg yield_leg(const LegInFrame& leg, Vector across, double bearing_length) {
  Leg out;
  out.bearing_length = bearing_length;
  if (leg.material.metal) {
    out.steel_bearing = joint_value("sheet-steel-bearing", "Fe").value;
    return out;
  }
  out.gravity = leg.material.gravity;
  out.end_grain = leg.end_grain;
  out.load_to_grain = leg.end_grain ? 90.0 : degrees_between(across, leg.grain);
  return out;
}

void put_leg(std::vector<Figure>& figures, const char* which, const Frame& frame, const LegInFrame& leg) {
  const std::string name = fmt::format("{} member {}", which, frame.parts[leg.part].mark);
  if (leg.material.metal) {
    figures.push_back(joint_value("sheet-steel-bearing", std::string("Fe ") + which));
  } else {
    figures.push_back({std::string("G ") + which, "specific gravity, " + name, leg.material.gravity, "", "",
                       leg.material.source, leg.material.from_memory});
  }
  figures.push_back(
      {std::string("t ") + which, "thickness along the fastener, " + name, leg.thickness(), "in", "", "frame"});
}

/// A bolt bears on its root where threads take more than a quarter of a leg. SOURCE NDS 2018 12.3.7.2.
bool threads_bear(const StandingDowel& d) {
  if (d.dowel.kind != DowelKind::bolt) return false;
  const double thread_from = d.dowel.length - d.dowel.thread;
  const auto in_leg = [&](const LegInFrame& leg) {
    return leg.to - std::max(leg.from, thread_from) > leg.thickness() / 4.0;
  };
  return in_leg(d.side) || in_leg(d.main) || (d.far_side && in_leg(*d.far_side));
}

/// Z' of one fastener; figures end in "Z'".
double lateral_value(Capacity& out, const StandingDowel& d, const Split& force, const Factors& factors) {
  Dowel dowel = d.dowel;
  if (threads_bear(d)) {
    dowel.in_yield = dowel.root;
    out.figures.push_back({"Dr", "root diameter: threads take more than a quarter of a member", dowel.root, "in", "",
                           "NDS 2018 12.3.7.2", dowel.from_memory});
  }
  const Penetration depth = penetration(dowel, d.main.from, d.main.thickness());
  const double lm = d.far_side ? d.main.thickness() : depth.lm;
  if (!d.far_side && !depth.enough) out.fails = fmt::format("{}: {}", d.fastener->mark, depth.words);
  const Leg main = yield_leg(d.main, force.across, lm);
  Leg side = yield_leg(d.side, force.across, d.side.thickness());
  Yield yield = yield_modes(dowel, main, side, d.far_side.has_value());
  if (d.far_side) {
    const Leg far = yield_leg(*d.far_side, force.across, d.far_side->thickness());
    Yield other = yield_modes(dowel, main, far, true);
    if (other.z < yield.z) yield = std::move(other);
  }
  double z = yield.z;
  out.figures.insert(out.figures.end(), yield.figures.begin(), yield.figures.end());
  const double gap = d.main.from - d.side.to;
  if (!d.far_side && gap > kTouching) {
    z = yield_by_tr12(dowel, main, side, gap);
    out.figures.push_back({"g", "gap between the members", gap, "in", "", "frame"});
    out.figures.push_back({"Z", "reference lateral value with the gap", z, "lb", "Fem Fes lm ls g", "AWC TR12"});
  }
  const Figure cm = wet_lateral(factors.moisture, dowel.diameter, factors.across_grain);
  const Figure ceg = end_grain_lateral(d.main.end_grain || d.side.end_grain);
  out.figures.push_back(cm);
  out.figures.push_back(factors.cg);
  out.figures.push_back({"CDelta", factors.geometry.words, factors.geometry.factor, "", "", factors.geometry.source});
  out.figures.push_back(ceg);
  const double adjusted_z = z * factors.duration * cm.value * factors.cg.value * factors.geometry.factor * ceg.value;
  out.figures.push_back(
      {"Z'", "adjusted lateral value", adjusted_z, "lb", "Z CD CM Ct Cg CDelta Ceg", "NDS 2018 Table 11.3.1"});
  return adjusted_z;
}

/// What the washer under the head or nut carries on a wooden leg; figures end in "Pwasher".
void washer_limit(Capacity& out, double& least, const Job& job, const Frame& frame, const LegInFrame& leg,
                  double radius, double diameter, const char* where) {
  if (leg.material.metal) return;
  if (!leg.material.values) {
    out.unknown = leg.material.note;
    return;
  }
  Service service;
  service.wet = job.wood.wet;
  service.incised =
      job.wood.incised.value_or(usually_incised(leg.material.member.species, frame.parts[leg.part].treatment));
  const std::vector<Figure> bearing =
      adjusted(*leg.material.values, leg.material.member, service, Value::compression_across);
  out.figures.insert(out.figures.end(), bearing.begin(), bearing.end());
  const double carries = washer_bearing(radius, diameter, value_of(bearing, "F'c_perp"));
  out.figures.push_back(
      {"Pwasher",
       fmt::format("washer {}, {:.4g} in across, on the wood of {}", where, radius * 2.0, frame.parts[leg.part].mark),
       carries, "lb", "F'c_perp x (area of the washer less its hole)", "NDS 2018 11.2.3"});
  least = std::min(least, carries);
}

/// W' of one fastener, the least of what pulls it out or through; figures end in "W'".
double pull_value(Capacity& out, const Job& job, const Frame& frame, const StandingDowel& d, const Factors& factors) {
  const Dowel& dowel = d.dowel;
  const Figure steel = steel_tension(dowel);
  out.figures.push_back(steel);
  double least = steel.value;
  const double head_radius = d.fastener->head_radius.raw();
  if (dowel.kind != DowelKind::bolt) {
    const Penetration depth = penetration(dowel, d.main.from, d.main.thickness());
    const double w = withdrawal_per_inch(dowel, d.main.material.gravity);
    Figure cm = wet_withdrawal(factors.moisture, dowel.kind);
    const Figure ceg = end_grain_withdrawal(d.main.end_grain, dowel.kind);
    cm.words += ", withdrawal";
    out.figures.push_back({"W", "withdrawal value", w, "lb/in", "G D", "NDS 2018 12.2"});
    out.figures.push_back({"pt", "thread in the main member", depth.threads, "in", "", "NDS 2018 12.2, Appendix L"});
    out.figures.push_back(cm);
    out.figures.push_back(ceg);
    const double pulled = w * depth.threads * factors.duration * cm.value * ceg.value;
    out.figures.push_back({"W'p", "adjusted withdrawal", pulled, "lb", "W pt CD CM Ct Ceg", "NDS 2018 Table 11.3.1"});
    least = std::min(least, pulled);
    if (ceg.value == 0)
      out.fails = fmt::format("{} stands in the end grain of {} and is pulled: screws are given no withdrawal there",
                              d.fastener->mark, frame.parts[d.main.part].mark);
    if (dowel.kind == DowelKind::wood_screw && !d.side.material.metal) {
      const double head =
          head_pull_through(dowel, d.side.material.gravity, d.side.thickness()) * factors.duration * cm.value;
      out.figures.push_back({"W'H", "head pulled through " + frame.parts[d.side.part].mark, head, "lb",
                             "G DH t CD CM Ct", "NDS 2018 12.2.5"});
      least = std::min(least, head);
    }
  }
  if (dowel.kind != DowelKind::wood_screw) {
    washer_limit(out, least, job, frame, d.side, head_radius, dowel.diameter, "under the head");
  }
  if (dowel.kind == DowelKind::bolt) {
    washer_limit(out, least, job, frame, d.far_side ? *d.far_side : d.main, d.fastener->nut_radius.raw(),
                 dowel.diameter, "under the nut");
  }
  out.figures.push_back({"W'", "carried along the axis: the least of these", least, "lb", "", "NDS 2018 11.2.3, 12.2"});
  return least;
}

Capacity carries(const Job& job, const Frame& frame, const StandingDowel& d, const Split& force, const Factors& factors,
                 const JointDuty& duty) {
  Capacity out;
  put_leg(out.figures, "main", frame, d.main);
  put_leg(out.figures, "side", frame, d.side);
  if (d.far_side) put_leg(out.figures, "far", frame, *d.far_side);
  out.figures.push_back({"CD", duty.duration_words.empty() ? "load duration, at most 1.6" : duty.duration_words,
                         factors.duration, "", "", "NDS 2018 Table 2.3.2, 11.3.2"});
  out.figures.push_back({"Ct", "up to 100 F", 1.0, "", "", "NDS 2018 Table 11.3.4"});
  const double size = std::hypot(force.lateral, force.pull);
  if (force.pull <= 0) {
    const double z = lateral_value(out, d, force, factors);
    out.pounds = z * size / force.lateral;
  } else if (force.lateral <= 0) {
    out.pounds = pull_value(out, job, frame, d, factors);
  } else {
    const double z = lateral_value(out, d, force, factors), w = pull_value(out, job, frame, d, factors);
    const double degrees = std::atan2(force.pull, force.lateral) * 180.0 / kPi;
    out.pounds = combined(d.dowel.kind, w, z, degrees);
    out.figures.push_back({"alpha", "force from the wood's surface", degrees, "deg", "", "frame"});
    const bool bolt = d.dowel.kind == DowelKind::bolt;
    out.figures.push_back(
        {"Z'alpha", "both at once", out.pounds, "lb",
         bolt ? "least of Z' / cos alpha and W' / sin alpha" : "W' Z' / (W' cos^2 alpha + Z' sin^2 alpha)",
         bolt ? "NDS 2018 11.2.3: each part held apart" : "NDS 2018 12.4.1"});
  }
  if (!out.fails.empty()) out.pounds = 0;
  return out;
}

bool parallel(const StandingDowel& p, const StandingDowel& q) {
  return std::abs(dot(p.axis, q.axis)) > 1.0 - 1e-9 && p.side.part == q.side.part && p.main.part == q.main.part;
}

/// Wood treated with copper comes wet from the treating. SOURCE common practice, no source.
bool comes_wet(const Part& part) {
  const TreatmentRow* row = find_treatment(part.treatment);
  return row && row->corrosive;
}

/// Cg of the fasteners that stand like `group`; nothing when a stiffness is missing.
std::optional<Figure> read_group_action(std::span<const StandingDowel> group, Vector across) {
  const StandingDowel& d = group.front();
  Figure out{"Cg", "one fastener in a row", 1.0, "", "", "NDS 2018 11.3.6"};
  const RowRead rows = read_rows(group, across);
  if (d.dowel.diameter < 0.25) {
    out.words = "thinner than 1/4 in";
    return out;
  }
  if (rows.most < 2) return out;
  const auto stiffness = [&](const LegInFrame& leg) {
    if (leg.material.metal) return joint_value("steel-stiffness", "E").value;
    return leg.material.values ? leg.material.values->e : 0.0;
  };
  const auto area_of = [&](const LegInFrame& leg) {
    const Member& m = leg.material.member;
    const bool along = leg.material.metal || degrees_between(across, leg.grain) <= 45.0;
    if (along && m.thickness > 0) return m.thickness * m.width;
    return leg.thickness() * std::max(rows.group_width, 3.0 * d.dowel.diameter);
  };
  const double sides = d.far_side ? 2.0 : 1.0;
  const double e_main = stiffness(d.main), e_side = stiffness(d.side);
  if (e_main <= 0 || e_side <= 0) return {};
  out.value = group_action(d.dowel.diameter, rows.most, rows.spacing, e_main, area_of(d.main), e_side,
                           area_of(d.side) * sides, d.side.material.metal);
  out.words = fmt::format("{} in a row, {:.2f} in apart", rows.most, rows.spacing);
  out.from = "D, spacing, E A of both members";
  return out;
}

/// CDelta of every wooden part round those fasteners: the smallest.
GeometryRead geometry_of(const Frame& frame, std::span<const StandingDowel> group, std::size_t loaded,
                         const Split& force) {
  GeometryRead out{1.0, "every distance gives the whole value", "NDS 2018 12.5.1", ""};
  const StandingDowel& first = group.front();
  if (first.dowel.diameter < 0.25) {
    out.words = "thinner than 1/4 in: the wood must not split";
    return out;
  }
  const double sides = first.side.thickness() + (first.far_side ? first.far_side->thickness() : 0.0);
  const double slenderness = std::min(first.main.thickness(), sides) / first.dowel.diameter;
  const auto weigh = [&](auto leg_of) {
    std::vector<LegInFrame> legs;
    for (const StandingDowel& d : group) legs.push_back(leg_of(d));
    if (legs.front().material.metal) return;
    // The fastener pushes back on the loaded part and pushes the others along.
    const double way = legs.front().part == loaded ? -1.0 : 1.0;
    GeometryRead there = read_geometry(frame, group, legs, scaled(force.across, way), slenderness);
    if (there.factor < out.factor) out = std::move(there);
  };
  if (force.lateral > 0) {
    weigh([](const StandingDowel& d) { return d.side; });
    weigh([](const StandingDowel& d) { return d.main; });
    if (first.far_side) weigh([](const StandingDowel& d) { return *d.far_side; });
  } else if (first.dowel.kind == DowelKind::lag) {
    std::vector<LegInFrame> legs;
    for (const StandingDowel& d : group) legs.push_back(d.main);
    out = read_pulled_lags(frame, group, legs);
  }
  return out;
}

std::string member_of(PartKind kind) {
  switch (kind) {
    case PartKind::stringer:
      return "stringer";
    case PartKind::hanger_board:
      return "hanger board";
    case PartKind::block:
      return "block";
    case PartKind::riser:
      return "riser";
    case PartKind::tread:
      return "tread";
    case PartKind::kicker:
      return "foot";
    case PartKind::post:
      return "post";
    case PartKind::top_rail:
    case PartKind::bottom_rail:
    case PartKind::cap:
    case PartKind::handrail:
      return "rail";
    case PartKind::baluster:
      return "baluster";
    case PartKind::connector:
      return "connector";
    case PartKind::pad_layer:
      return "ground";
    case PartKind::existing:
      break;
  }
  return "existing";
}

void add_sentence(std::string& note, std::string_view sentence) {
  if (sentence.empty() || note.find(sentence) != std::string::npos) return;
  if (!note.empty()) note += ". ";
  note += sentence;
}

/// What every such joint takes for granted, said once.
std::string assumptions(std::span<const StandingDowel> dowels) {
  std::string out;
  if (dowels.size() > 1) add_sentence(out, "The fasteners share the force alike");
  for (const StandingDowel& d : dowels) {
    if (d.dowel.kind == DowelKind::wood_screw)
      add_sentence(out,
                   "Exterior screws are taken as wood screws of their number, threaded over two thirds: the report of "
                   "the screw that is bought replaces this");
    if (d.side.material.metal) add_sentence(out, "The metal itself is not checked: read its maker's report");
    for (const LegInFrame* leg : {&d.side, &d.main}) {
      if (leg->material.known && leg->material.from_memory) add_sentence(out, leg->material.note);
      if (leg->end_grain) add_sentence(out, "A fastener within 45 degrees of the grain counts as in end grain");
    }
  }
  return out;
}

}  // namespace

std::vector<std::size_t> fasteners_between(const Frame& frame, std::size_t part, std::size_t other) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < frame.fasteners.size(); ++i) {
    const std::vector<std::size_t>& joins = frame.fasteners[i].joins;
    if (std::ranges::find(joins, part) != joins.end() && std::ranges::find(joins, other) != joins.end())
      out.push_back(i);
  }
  return out;
}

Check check_joint(const Job& job, const Frame& frame, const JointDuty& duty) {
  const Part& loaded = frame.parts[duty.loaded];
  const Vector force{duty.force.x, duty.force.y, duty.force.z};
  Check check;
  check.member = member_of(loaded.kind);
  check.where = loaded.mark;
  check.what = "fasteners";
  check.clause = "NDS 2018 11.3, 12.3";
  check.unit = "lb";
  const double demand = length_of(force);
  const auto not_checked = [&](const std::string& why) {
    check.note = why;
    return check;
  };
  if (demand <= 0) return not_checked("no force acts on this joint");
  if (duty.fasteners.empty()) {
    check.demand = demand;
    check.note = "no fastener holds " + loaded.mark;
    return weighed(std::move(check));
  }

  std::vector<StandingDowel> dowels;
  for (const std::size_t index : duty.fasteners) {
    const Fastener& f = frame.fasteners[index];
    if (std::ranges::find(f.joins, duty.loaded) == f.joins.end())
      return not_checked(fmt::format("{} does not hold {}", f.mark, loaded.mark));
    dowels.push_back(read_dowel(job, frame, f, duty.loaded));
    if (!dowels.back().why_not.empty()) return not_checked(dowels.back().why_not);
  }
  const Fastener& first = *dowels.front().fastener;
  check.what = first.reason.empty() ? "fasteners" : first.reason;
  for (const std::size_t part : first.joins) {
    if (part != duty.loaded) check.where += " to " + frame.parts[part].mark;
  }

  // Fasteners that stand alike, in the order of the duty, make one group for rows and distances.
  Capacity worst;
  bool any_pressed = false, any_carries = false;
  std::vector<bool> done(dowels.size(), false);
  for (std::size_t i = 0; i < dowels.size(); ++i) {
    if (done[i]) continue;
    std::vector<StandingDowel> group;
    for (std::size_t j = i; j < dowels.size(); ++j) {
      if (done[j] || !parallel(dowels[i], dowels[j])) continue;
      done[j] = true;
      group.push_back(dowels[j]);
    }
    const Split share = split(group.front(), duty.loaded, force);
    any_pressed = any_pressed || share.pull < 0;
    if (share.lateral <= 0 && share.pull <= 0) continue;
    const std::optional<Figure> cg = read_group_action(group, share.across);
    if (!cg) {
      const StandingDowel& d = group.front();
      return not_checked(d.main.material.values || d.main.material.metal ? d.side.material.note : d.main.material.note);
    }
    Factors factors;
    factors.duration = std::min(duty.load_duration, kLongestDuration);
    factors.moisture = {job.wood.wet || comes_wet(loaded), job.wood.wet};
    factors.cg = *cg;
    factors.geometry = geometry_of(frame, group, duty.loaded, share);
    factors.across_grain = read_rows(group, group.front().main.grain).rows > 1;
    for (const StandingDowel& d : group) {
      Capacity one = carries(job, frame, d, split(d, duty.loaded, force), factors, duty);
      if (!one.unknown.empty()) return not_checked(one.unknown);
      if (!factors.geometry.falls_short.empty()) {
        one.fails = factors.geometry.falls_short;
        one.pounds = 0;
      }
      if (!any_carries || one.pounds < worst.pounds) worst = std::move(one);
      any_carries = true;
    }
  }
  if (!any_carries)
    return not_checked("the force presses the parts together: wood bears on wood, the fasteners carry none of it");

  check.demand = demand;
  check.capacity = worst.pounds * static_cast<double>(dowels.size());
  check.figures = std::move(worst.figures);
  check.figures.push_back({"n", "fasteners that share the force", static_cast<double>(dowels.size()), "", "", "frame"});
  check.figures.push_back({"P", "carried by the joint in this direction", check.capacity, "lb", "n x the worst of them",
                           "NDS 2018 11.3.1"});
  add_sentence(check.note, worst.fails);
  if (any_pressed)
    add_sentence(check.note, "What presses the parts together goes by bearing and is not put on the fasteners");
  add_sentence(check.note, assumptions(dowels));
  return weighed(std::move(check));
}

}  // namespace pitchboard
