// One joint of the frame: from the force on a part to the worst of the fasteners that hold it.
//
// Fasteners that stand alike make a group: it gives rows and distances, and the worst fastener of all groups gives the
// joint. SOURCE NDS 2018 11.3, 12.5.

#include "engine/strength/frame_joint.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

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
std::optional<Figure> read_group_action(std::span<const StandingDowel> group, Vector across, bool written) {
  const StandingDowel& d = group.front();
  Figure out{"Cg", "one fastener in a row", 1.0, "", "", "NDS 2018 11.3.6"};
  if (d.dowel.diameter < 0.25) {
    out.words = "thinner than 1/4 in";
    return out;
  }
  const RowRead rows = read_rows(group, across);
  if (rows.most < 2) return out;
  const auto stiffness = [&](const LegInFrame& leg) {
    if (leg.material->metal) return joint_value("steel-stiffness", "E").value;
    return leg.material->values ? leg.material->values->e : 0.0;
  };
  const auto area_of = [&](const LegInFrame& leg) {
    const Member& m = leg.material->member;
    const bool along = leg.material->metal || degrees_between(across, leg.grain) <= 45.0;
    if (along && m.thickness > 0) return m.thickness * m.width;
    return leg.thickness() * std::max(rows.group_width, 3.0 * d.dowel.diameter);
  };
  const double sides = d.far_side ? 2.0 : 1.0;
  const double e_main = stiffness(d.main), e_side = stiffness(d.side);
  if (e_main <= 0 || e_side <= 0) return {};
  out.value = group_action(d.dowel.diameter, rows.most, rows.spacing, e_main, area_of(d.main), e_side,
                           area_of(d.side) * sides, d.side.material->metal);
  out.from = "D, spacing, E A of both members";
  if (written) out.words = fmt::format("{} in a row, {:.2f} in apart", rows.most, rows.spacing);
  return out;
}

/// CDelta of every wooden part round those fasteners: the smallest.
GeometryRead geometry_of(const Frame& frame, std::span<const StandingDowel> group, std::size_t loaded,
                         const Split& force, bool written) {
  GeometryRead out{1.0, "every distance gives the whole value", "NDS 2018 12.5.1", "", written};
  const StandingDowel& first = group.front();
  if (first.dowel.diameter < 0.25) {
    out.words = "thinner than 1/4 in: the wood must not split";
    return out;
  }
  const double sides = first.side.thickness() + (first.far_side ? first.far_side->thickness() : 0.0);
  const double slenderness = std::min(first.main.thickness(), sides) / first.dowel.diameter;
  const auto weigh = [&](LegOf leg_of) {
    const LegInFrame& leg = leg_of(first);
    if (leg.material->metal) return;
    // The fastener pushes back on the loaded part and pushes the others along.
    const double way = leg.part == loaded ? -1.0 : 1.0;
    GeometryRead there = read_geometry(frame, group, leg_of, scaled(force.across, way), slenderness, written);
    if (there.factor < out.factor) out = std::move(there);
  };
  if (force.lateral > 0) {
    weigh([](const StandingDowel& d) -> const LegInFrame& { return d.side; });
    weigh([](const StandingDowel& d) -> const LegInFrame& { return d.main; });
    if (first.far_side) weigh([](const StandingDowel& d) -> const LegInFrame& { return *d.far_side; });
  } else if (first.dowel.kind == DowelKind::lag) {
    out = read_pulled_lags(frame, group, written);
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
    if (d.side.material->metal) add_sentence(out, "The metal itself is not checked: read its maker's report");
    for (const LegInFrame* leg : {&d.side, &d.main}) {
      add_sentence(out, leg->material->taken_as);
      if (leg->end_grain) add_sentence(out, "A fastener within 45 degrees of the grain counts as in end grain");
    }
  }
  return out;
}

/// One joint, read once for all the forces on it.
class Joint {
 public:
  Joint(JointedFrame& jointed, const JointDuty& duty)
      : job_(jointed.job),
        frame_(jointed.frame),
        duty_(duty),
        dowels_(read_dowels(jointed, duty.fasteners, duty.loaded)) {
    if (dowels_.empty() || !dowels_.back().why_not.empty()) return;
    if (duty.written) write_names();
    // Fasteners that stand alike, in the order of the duty, make one group for rows and distances.
    for (auto from = dowels_.begin(); from != dowels_.end();) {
      const auto to = std::stable_partition(std::next(from), dowels_.end(),
                                            [&](const StandingDowel& d) { return parallel(*from, d); });
      groups_.emplace_back(from, to);
      from = to;
    }
  }

  [[nodiscard]] Check under(const ForceVector& pull) const {
    const std::string& loaded = frame_.parts[duty_.loaded].mark;
    const Vector force{pull.x, pull.y, pull.z};
    Check check;
    check.where = loaded;
    check.clause = "NDS 2018 11.3, 12.3";
    check.unit = "lb";
    const double demand = length_of(force);
    const auto not_checked = [&](const Text& why) {
      check.note = why.view();
      return std::move(check);
    };
    if (demand <= 0) return not_checked("no force acts on this joint");
    if (dowels_.empty()) {
      check.demand = demand;
      check.note = "no fastener holds " + loaded;
      return weighed(std::move(check));
    }
    if (!dowels_.back().why_not.empty()) return not_checked(dowels_.back().why_not);
    check.what = what_;
    check.where += joined_to_;

    Capacity worst;
    bool any_pressed = false, any_carries = false;
    for (const Group group : groups_) {
      const StandingDowel& first = group.front();
      const Split share = split(first, duty_.loaded, force);
      any_pressed = any_pressed || share.pull < 0;
      if (share.lateral <= 0 && share.pull <= 0) continue;
      const std::optional<Figure> cg = read_group_action(group, share.across, duty_.written);
      if (!cg) {
        return not_checked(first.main.material->values || first.main.material->metal ? first.side.material->note
                                                                                     : first.main.material->note);
      }
      const Factors factors = factors_of(group, share, *cg);
      for (auto d = group.begin(); d != group.end(); ++d) {
        if (std::any_of(group.begin(), d, [&](const StandingDowel& before) { return alike(before, *d); })) continue;
        Capacity one =
            carries(job_, frame_, *d, split(*d, duty_.loaded, force), factors, duty_.duration_words, duty_.written);
        if (!one.unknown.empty()) return not_checked(one.unknown);
        if (factors.geometry.factor <= 0) {
          one.fails = factors.geometry.falls_short;
          one.pounds = 0;
        }
        if (!any_carries || one.pounds < worst.pounds) worst = std::move(one);
        any_carries = true;
      }
    }
    if (!any_carries)
      return not_checked("the force presses the parts together: wood bears on wood, the fasteners carry none of it");

    const auto count = static_cast<double>(dowels_.size());
    check.demand = demand;
    check.capacity = worst.pounds * count;
    worst.sheet.put({"Fj", "force on the joint", demand, "lb", "", "loads and frame"});
    worst.sheet.put({"n", "fasteners that share the force", count, "", "", "frame"});
    worst.sheet.put({"P", "carried by the joint in this direction", check.capacity, "lb", "n x the worst of them",
                     "NDS 2018 11.3.1"});
    if (!duty_.written) return weighed(std::move(check));
    check.figures = std::move(worst.sheet).take();
    add_sentence(check.note, worst.fails);
    if (any_pressed)
      add_sentence(check.note, "What presses the parts together goes by bearing and is not put on the fasteners");
    add_sentence(check.note, assumed_);
    if (!check.note.empty() && !check.note.ends_with(".")) check.note += ".";
    return weighed(std::move(check));
  }

 private:
  using Group = std::span<const StandingDowel>;

  void write_names() {
    const Fastener& first = *dowels_.front().fastener;
    what_ = first.reason.empty() ? "fasteners" : first.reason;
    for (const std::size_t part : first.joins) {
      if (part != duty_.loaded) joined_to_ += " to " + frame_.parts[part].mark;
    }
    assumed_ = assumptions(dowels_);
  }

  [[nodiscard]] Factors factors_of(Group group, const Split& share, const Figure& cg) const {
    Factors factors;
    factors.duration = std::min(duty_.load_duration, kLongestDuration);
    factors.moisture = {job_.wood.wet || comes_wet(frame_.parts[duty_.loaded]), job_.wood.wet};
    factors.cg = cg;
    factors.geometry = geometry_of(frame_, group, duty_.loaded, share, duty_.written);
    // Wood that stays wet does not shrink between its rows.
    factors.across_grain = !job_.wood.wet && read_rows(group, group.front().main.grain).rows > 1;
    return factors;
  }

  const Job& job_;
  const Frame& frame_;
  const JointDuty& duty_;
  std::vector<StandingDowel> dowels_;
  std::vector<Group> groups_;
  std::string what_, joined_to_, assumed_;
};

}  // namespace

Check check_joint(JointedFrame& jointed, const JointDuty& duty) {
  const Joint joint(jointed, duty);
  Check worst;
  for (const ForceVector& force : duty.forces) {
    Check check = joint.under(force);
    if (&force == &duty.forces.front() || weakness(check) > weakness(worst)) worst = std::move(check);
  }
  return worst;
}

}  // namespace pitchboard
