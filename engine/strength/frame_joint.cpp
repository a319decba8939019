// One joint of the frame: from the force on a part to the worst of the fasteners that hold it.
//
// Fasteners that stand alike make a group: it gives rows and distances, and the worst fastener of all groups gives the
// joint. SOURCE NDS 2018 11.3, 12.5.

#include "engine/strength/frame_joint.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/catalog.hpp"
#include "engine/strength/joint_capacity.hpp"

namespace pitchboard {
namespace {

/// Lengths that differ by less are one. UNITS inches. SOURCE far above the rounding of doubles.
constexpr double kSame = 1e-9;
constexpr double kLongestDuration = 1.6;  ///< CD of connections, NDS 2018 2.3.2, 11.3.2

bool parallel(const StandingDowel& p, const StandingDowel& q) {
  return std::abs(dot(p.axis, q.axis)) > 1.0 - 1e-9 && p.side.part == q.side.part && p.main.part == q.main.part;
}

/// True when both, of one group, have the same capacity.
bool alike(const StandingDowel& p, const StandingDowel& q) {
  const auto same = [](const LegInFrame& a, const LegInFrame& b) {
    return std::abs(a.from - b.from) < kSame && std::abs(a.to - b.to) < kSame;
  };
  return p.fastener->item == q.fastener->item && dot(p.axis, q.axis) > 0 && same(p.side, q.side) &&
         same(p.main, q.main) && (!p.far_side || same(*p.far_side, *q.far_side));
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
      add_sentence(out, leg->material.taken_as);
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
  check.where = loaded.mark;
  check.clause = "NDS 2018 11.3, 12.3";
  check.unit = "lb";
  const double demand = length_of(force);
  const auto not_checked = [&](const Text& why) {
    check.note = why.view();
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
    for (std::size_t k = 0; k < group.size(); ++k) {
      const StandingDowel& d = group[k];
      if (std::any_of(group.begin(), group.begin() + static_cast<std::ptrdiff_t>(k),
                      [&](const StandingDowel& before) { return alike(before, d); }))
        continue;
      Capacity one = carries(job, frame, d, split(d, duty.loaded, force), factors, duty.duration_words);
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
  check.figures.push_back({"Fj", "force on the joint", demand, "lb", "", "loads and frame"});
  check.figures.push_back({"n", "fasteners that share the force", static_cast<double>(dowels.size()), "", "", "frame"});
  check.figures.push_back({"P", "carried by the joint in this direction", check.capacity, "lb", "n x the worst of them",
                           "NDS 2018 11.3.1"});
  add_sentence(check.note, worst.fails);
  if (any_pressed)
    add_sentence(check.note, "What presses the parts together goes by bearing and is not put on the fasteners");
  add_sentence(check.note, assumptions(dowels));
  if (!check.note.empty() && !check.note.ends_with(".")) check.note += ".";
  return weighed(std::move(check));
}

}  // namespace pitchboard
