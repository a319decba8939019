// One fastener: across its axis the dowel yields (Z'); along it, it is pulled out, its head is pulled through or its
// washers bear (W'), or the parts are pressed together, which asks nothing of it. SOURCE NDS 2018 11.3, 12.2 to 12.4.

#include "engine/strength/joint_capacity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace pitchboard {
namespace {

/// A share of the force smaller than this is rounding.
constexpr double kNothing = 1e-9;
/// Parts nearer than this touch. UNITS inches. SOURCE own judgement: what a clamped joint leaves open.
constexpr double kTouching = 1.0 / 32.0;

Leg yield_leg(const LegInFrame& leg, Vector across, double bearing_length) {
  Leg out;
  out.bearing_length = bearing_length;
  if (leg.material->metal) {
    out.steel_bearing = joint_value("sheet-steel-bearing", "Fe").value;
    return out;
  }
  out.gravity = leg.material->gravity;
  out.end_grain = leg.end_grain;
  out.load_to_grain = leg.end_grain ? 90.0 : degrees_between(across, leg.grain);
  return out;
}

void put_leg(HandSheet& sheet, const char* which, const Frame& frame, const LegInFrame& leg) {
  const std::string name = fmt::format("{} member {}", which, frame.parts[leg.part].mark);
  if (leg.material->metal) {
    Figure bearing = joint_value("sheet-steel-bearing", std::string("Fe ") + which);
    bearing.unit = "psi";
    sheet.put(std::move(bearing));
  } else {
    sheet.put({std::string("G ") + which, "specific gravity, " + name, leg.material->gravity, "", "",
               leg.material->source, leg.material->from_memory});
  }
  sheet.put({std::string("t ") + which, "thickness along the fastener, " + name, leg.thickness(), "in", "", "frame"});
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
    out.sheet.put({"Dr", "root diameter: threads take more than a quarter of a member", dowel.root, "in", "",
                   "NDS 2018 12.3.7.2", dowel.from_memory});
  }
  const Penetration depth = penetration(dowel, d.main.from, d.main.thickness());
  const double lm = d.far_side ? d.main.thickness() : depth.lm;
  if (!d.far_side && !depth.enough) out.fails = fmt::format("{}: {}", d.fastener->mark, depth.words);
  const Leg main = yield_leg(d.main, force.across, lm);
  Leg side = yield_leg(d.side, force.across, d.side.thickness());
  Yield yield = yield_modes(dowel, main, side, d.far_side.has_value(), out.sheet.written());
  if (d.far_side) {
    const Leg far = yield_leg(*d.far_side, force.across, d.far_side->thickness());
    Yield other = yield_modes(dowel, main, far, true, out.sheet.written());
    if (other.z < yield.z) yield = std::move(other);
  }
  double z = yield.z;
  out.sheet.append(std::move(yield.figures));
  const double gap = d.main.from - d.side.to;
  if (!d.far_side && gap > kTouching) {
    z = yield_by_tr12(dowel, main, side, gap);
    out.sheet.put({"g", "gap between the members", gap, "in", "", "frame"});
    out.sheet.put({"Z", "reference lateral value with the gap", z, "lb", "Fem Fes lm ls g", "AWC TR12"});
  }
  const Figure cm = wet_lateral(factors.moisture, dowel.diameter, factors.across_grain);
  const Figure ceg = end_grain_lateral(d.main.end_grain || d.side.end_grain);
  const double adjusted_z = z * factors.duration * cm.value * factors.cg.value * factors.geometry.factor * ceg.value;
  if (!out.sheet.written()) return adjusted_z;
  out.sheet.put(cm);
  out.sheet.put(factors.cg);
  out.sheet.put({"CDelta", factors.geometry.words, factors.geometry.factor, "", "", factors.geometry.source});
  out.sheet.put(ceg);
  out.sheet.put(
      {"Z'", "adjusted lateral value", adjusted_z, "lb", "Z CD CM Ct Cg CDelta Ceg", "NDS 2018 Table 11.3.1"});
  return adjusted_z;
}

/// What the washer under the head or nut carries on a wooden leg; figures end in "Pwasher".
void washer_limit(Capacity& out, double& least, const Job& job, const Frame& frame, const LegInFrame& leg,
                  double radius, double diameter, const char* where) {
  if (leg.material->metal) return;
  if (!leg.material->values) {
    out.unknown = leg.material->note;
    return;
  }
  Service service;
  service.wet = job.wood.wet;
  service.incised =
      job.wood.incised.value_or(usually_incised(leg.material->member.species, frame.parts[leg.part].treatment));
  const double carries = washer_bearing(
      radius, diameter,
      adjusted(out.sheet, *leg.material->values, leg.material->member, service, Value::compression_across));
  const auto words = [&] {
    return fmt::format("washer {}, {:.4g} in across, on the wood of {}", where, radius * 2.0,
                       frame.parts[leg.part].mark);
  };
  out.sheet.put({"Pwasher", out.sheet.said(words), carries, "lb", "F'c_perp x (area of the washer less its hole)",
                 "NDS 2018 11.2.3; size of the washer from memory", true});
  least = std::min(least, carries);
}

std::string withdrawal_words(const Dowel& dowel) {
  if (dowel.kind == DowelKind::lag) return "1,800 (G main)^1.5 Dn^0.75";
  if (dowel.kind == DowelKind::wood_screw) return "2,850 (G main)^2 Dn";
  return dowel.stainless ? "465 (G main)^1.5 Dn" : "1,380 (G main)^2.5 Dn";
}

/// W' of one fastener, the least of what pulls it out or through; figures end in "W'".
double pull_value(Capacity& out, const Job& job, const Frame& frame, const StandingDowel& d, const Factors& factors) {
  const Dowel& dowel = d.dowel;
  double least = steel_tension(out.sheet, dowel);
  const double head_radius = d.fastener->head_radius.raw();
  if (dowel.kind != DowelKind::bolt) {
    const Penetration depth = penetration(dowel, d.main.from, d.main.thickness());
    const double w = withdrawal_per_inch(dowel, d.main.material->gravity);
    Figure cm = wet_withdrawal(factors.moisture, dowel.kind);
    const Figure ceg = end_grain_withdrawal(d.main.end_grain, dowel.kind);
    cm.words = out.sheet.said([&] { return cm.words.str() + ", withdrawal"; });
    out.sheet.put({"W", "withdrawal value", w, "lb/in", out.sheet.said([&] { return withdrawal_words(dowel); }),
                   "NDS 2018 12.2"});
    out.sheet.put({"pt", "thread in the main member", depth.threads, "in", "", "NDS 2018 12.2, Appendix L"});
    out.sheet.put(cm);
    out.sheet.put(ceg);
    const double pulled = w * depth.threads * factors.duration * cm.value * ceg.value;
    out.sheet.put({"W'p", "adjusted withdrawal", pulled, "lb", "W pt CD CM Ct Ceg", "NDS 2018 Table 11.3.1"});
    least = std::min(least, pulled);
    if (ceg.value == 0)
      out.fails = fmt::format("{} stands in the end grain of {} and is pulled: screws are given no withdrawal there",
                              d.fastener->mark, frame.parts[d.main.part].mark);
    if (dowel.kind == DowelKind::wood_screw && !d.side.material->metal) {
      const double head =
          head_pull_through(dowel, d.side.material->gravity, d.side.thickness()) * factors.duration * cm.value;
      out.sheet.put({"DH", "diameter of the head", dowel.head, "in", "", dowel.source, dowel.from_memory});
      out.sheet.put({"W'H", out.sheet.said([&] { return "head pulled through " + frame.parts[d.side.part].mark; }),
                     head, "lb", "690 pi DH (G side)^2 min(t side, 2.5 DH) CD CM Ct", "NDS 2018 12.2.5"});
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
  out.sheet.put({"W'", "carried along the axis: the least of these", least, "lb", "", "NDS 2018 11.2.3, 12.2"});
  return least;
}

}  // namespace

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

Capacity carries(const Job& job, const Frame& frame, const StandingDowel& d, const Split& force, const Factors& factors,
                 const Text& duration_words, bool written) {
  Capacity out{.sheet = HandSheet(written)};
  if (written) {
    put_leg(out.sheet, "main", frame, d.main);
    put_leg(out.sheet, "side", frame, d.side);
    if (d.far_side) put_leg(out.sheet, "far", frame, *d.far_side);
    out.sheet.put({"Dn", "nominal diameter", d.dowel.diameter, "in", "", d.dowel.source, d.dowel.from_memory});
    out.sheet.put({"CD", duration_words.empty() ? "load duration, at most 1.6" : duration_words, factors.duration, "",
                   "", "NDS 2018 Table 2.3.2, 11.3.2"});
    out.sheet.put({"Ct", "up to 100 F", 1.0, "", "", "NDS 2018 Table 11.3.4"});
  }
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
    out.sheet.put({"alpha", "force from the wood's surface", degrees, "deg", "", "frame"});
    const bool bolt = d.dowel.kind == DowelKind::bolt;
    out.sheet.put({"Z'alpha", "both at once", out.pounds, "lb",
                   bolt ? "least of Z' / cos alpha and W' / sin alpha" : "W' Z' / (W' cos^2 alpha + Z' sin^2 alpha)",
                   bolt ? "NDS 2018 11.2.3: each part held apart" : "NDS 2018 12.4.1"});
  }
  if (!out.fails.empty()) out.pounds = 0;
  return out;
}

}  // namespace pitchboard
