// The calculation: what is carried, every check worst first, every load's way to the ground, and each check figure by
// figure as it is done by hand.

#include <fmt/format.h>

#include "engine/draw/flow.hpp"
#include "engine/draw/parts.hpp"
#include "engine/draw/sheet_words.hpp"
#include "engine/draw/strength_words.hpp"
#include "engine/draw/verdict_bar.hpp"

namespace pitchboard {
namespace {

void write_figures(Flow& flow, const std::vector<Figure>& figures) {
  Table table{{{"Symbol"},
               {"What it is", Anchor::start, true},
               {"Value", Anchor::end},
               {"Unit"},
               {"How", Anchor::start, true},
               {"Source", Anchor::start, true}},
              {}};
  table.close = true;
  for (const Figure& f : figures) {
    const bool to_say = f.from_memory && !f.source.view().starts_with("from memory");
    table.rows.push_back({f.symbol.str(), f.words.str(), number_words(f.value), f.unit.str(), f.from.str(),
                          f.source.str() + (to_say ? " (from memory)" : "")});
  }
  flow.table(table);
}

void write_overview(Flow& flow, const Strength& strength) {
  flow.heading("Every check, weakest first");
  flow.paragraph(
      "Ratio is demand over capacity: 1.00 is just enough. What is not checked has no published value here: find it, "
      "or ask an engineer.");
  Table table{{{"Verdict"},
               {"", Anchor::start, false, false, kVerdictBarWidth},
               {"Member"},
               {"Where", Anchor::start, true, false, 0, 90},
               {"What", Anchor::start, true},
               {"Demand", Anchor::end},
               {"Capacity", Anchor::end},
               {"Ratio", Anchor::end},
               {"Clause", Anchor::start, true, false, 0, 90}},
              {}};
  const std::vector<AlikeChecks> rows = weakest_first(strength.checks);
  for (const auto& [check, where] : rows) {
    table.rows.push_back({verdict_words(check->verdict), "", check->member, where, check->what, demand_words(*check),
                          capacity_words(*check), ratio_words(*check), check->clause});
  }
  table.picture = [&](Canvas& canvas, std::size_t row, std::size_t column, const Box& room) {
    if (column == 1) draw_verdict_bar(canvas, room, rows[row].check->verdict);
  };
  flow.table(table);
}

void write_paths(Flow& flow, const Strength& strength) {
  flow.heading("From the load to the ground");
  Table table{{{"Load", Anchor::start, true, false, 0, 130},
               {"Weakest link", Anchor::start, true, false, 0, 130},
               {"Not checked", Anchor::end},
               {"The way, member by member, with the highest ratio of each", Anchor::start, true}},
              {}};
  for (const LoadPath& path : strength.paths) {
    table.rows.push_back(
        {path.from, weakest_words(strength, path), std::to_string(path.not_checked), links_words(strength, path)});
  }
  flow.table(table);
}

void write_limits(Flow& flow, const Strength& strength) {
  if (strength.limits.empty()) return;
  flow.heading("What the guides print");
  flow.paragraph("These stand beside the computed checks; the worse of the two decides.");
  Table table{{{"What", Anchor::start, true},
               {"Is", Anchor::end},
               {"Limit", Anchor::end},
               {""},
               {"Source", Anchor::start, true}},
              {}};
  for (const SpanLimit& limit : strength.limits) {
    table.rows.push_back({limit.what, number_words(limit.is) + " " + limit.unit,
                          fmt::format("{} {} {}", limit.compare == "at_most" ? "at most" : "at least",
                                      number_words(limit.limit), limit.unit),
                          limit.kept() ? "kept" : "not kept", limit.source});
  }
  flow.table(table);
}

void write_sawtooth(Flow& flow, const Strength& strength) {
  if (!strength.sawtooth || !strength.throat_beam) return;
  const SawtoothResult &plate = *strength.sawtooth, &beam = *strength.throat_beam;
  flow.heading("The cut stringer as a plate, by finite elements");
  std::string words = fmt::format(
      "The worst stringer as a plate of wood in plane stress, {} nodes in {} six-node triangles, beside a beam as deep "
      "as its throat, both under people on whichever spans are worst and the own weight. The plate has its teeth too, "
      "so it bends less, and its foot bears on the whole level cut, the beam's on the cut's end towards the house. "
      "Stress in the inner corners has no finite value in this theory and is not given.",
      plate.nodes, plate.elements);
  if (!plate.props.empty()) {
    words +=
        " Nor is the lower edge's on a support's seat and as far again on both sides of it. Over a support the throats "
        "are pulled at their upper ends: given is the stress that the plate's forces make there if it runs straight.";
  }
  flow.paragraph(words);
  Table table{{{"Where", Anchor::start, true},
               {"What", Anchor::start, true},
               {"Plate", Anchor::end},
               {"Throat beam", Anchor::end},
               {"Unit"}},
              {}};
  table.close = true;
  const auto add = [&](const std::string& where, const std::string& what, double one, double other, int digits,
                       const std::string& unit) {
    table.rows.push_back(
        {where, what, fmt::format("{:.{}f}", one, digits), fmt::format("{:.{}f}", other, digits), unit});
  };
  for (std::size_t i = 0; i < plate.bays.size(); ++i) {
    const SawtoothBay &bay = plate.bays[i], &straight = beam.bays[i];
    const std::string above = i == 0 ? "the head" : fmt::format("support {}", i);
    const std::string below = i + 1 == plate.bays.size() ? "the foot" : fmt::format("support {}", i + 1);
    const std::string where = fmt::format("{} to {}", above, below);
    // Where the foot reaches past mid-span there is no free edge to read a deflection on.
    if (bay.mid_down > 0) {
      const std::string what =
          fmt::format("deflection square to the board, half way along {:.1f} in level (beam: {:.1f})",
                      bay.to - bay.from, straight.to - straight.from);
      add(where, what, bay.mid_normal, straight.mid_normal, 4, "in");
    }
    add(where, "greatest tension of the lower edge", bay.bottom_stress, straight.bottom_stress, 0, "psi");
  }
  for (std::size_t i = 0; i < plate.props.size(); ++i) {
    const SawtoothProp &prop = plate.props[i], &straight = beam.props[i];
    const std::string where = fmt::format("support {}", i + 1);
    add(where, "force on it", prop.reaction, straight.reaction, 0, "lb");
    add(where, "greatest pressure of the lower edge beside it", -prop.bottom_stress, -straight.bottom_stress, 0, "psi");
    add(where, "greatest tension at the upper end of a throat", prop.throat_stress, straight.throat_stress, 0, "psi");
  }
  flow.table(table);
}

void write_check(Flow& flow, const Check& check, const std::string& where) {
  if (check.figures.empty() && check.note.empty()) return;
  flow.heading(fmt::format("{}, {}: {}", where, check.member, check.what));
  std::string verdict = fmt::format("{} ({})", verdict_words(check.verdict), check.clause);
  if (check.verdict != Verdict::not_checked) {
    verdict +=
        fmt::format(": {} against {}, ratio {}.", demand_words(check), capacity_words(check), ratio_words(check));
  }
  flow.paragraph(verdict, 8.5, true);
  for (const std::string& words : {check.note, memory_words(check)}) {
    if (!words.empty()) flow.paragraph(words, 7.5);
  }
  if (!check.figures.empty()) write_figures(flow, check.figures);
}

}  // namespace

std::vector<Canvas> draw_strength(const DrawInput& in, Paper paper) {
  if (in.strength.checks.empty()) return {};
  Flow flow("Strength", "strength", paper, true);
  flow.paragraph(
      "Allowable stress design after NDS 2018, from published values. It is a help to whoever decides, not a seal: an "
      "engineer has to look where a check fails, where one that carries load is not checked, and where this stair is "
      "not what the figures describe. Every check stands figure by figure in calculation.pdf.");
  for (const std::string& note : in.strength.notes) flow.bullet(note);
  write_overview(flow, in.strength);
  write_paths(flow, in.strength);
  write_limits(flow, in.strength);
  write_sawtooth(flow, in.strength);
  return flow.take();
}

std::vector<Canvas> draw_calculation(const DrawInput& in, Paper paper) {
  Flow flow("Calculation", "calculation", paper, true);
  flow.paragraph(
      std::string("Every figure with its origin and source, weakest check first. Values marked from memory have to be "
                  "looked up before anybody relies on them.") +
      (in.job.about.units == UnitSystem::metric
           ? " The method's equations hold in inches and pounds, so its figures stay in them whatever this job's units "
             "are: 1 in = 25.4 mm, 1 lb = 4.448 N, 1 psi = 0.006895 N/mm2, 1 psf = 47.88 N/m2."
           : ""));
  flow.heading("What is carried");
  write_figures(flow, in.strength.loads);
  for (const auto& [check, where] : weakest_first(in.strength.checks)) write_check(flow, *check, where);
  if (!in.strength.other_ways.empty()) {
    flow.heading("Beside it: what this stair does not rely on");
    for (const Check& check : in.strength.other_ways) write_check(flow, check, check.where);
  }
  return flow.take();
}

}  // namespace pitchboard
