#include "cli/report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/terminal.hpp"
#include "engine/draw/finding_words.hpp"
#include "engine/draw/sheet_words.hpp"
#include "engine/draw/sheets.hpp"
#include "engine/draw/strength_words.hpp"
#include "engine/job/words.hpp"
#include "engine/least_change.hpp"

namespace pitchboard {
namespace {

Ink ink_of(const std::string& verdict) {
  if (verdict == verdict_words(Verdict::fail)) return Ink::red;
  if (verdict == verdict_words(Verdict::too_close) || verdict == verdict_words(Verdict::warn) || verdict == "advice")
    return Ink::yellow;
  return verdict == verdict_words(Verdict::pass) ? Ink::plain : Ink::dim;
}

/// Exact length, where tape text is too coarse.
std::string decimal(Length length, UnitSystem units) {
  return units == UnitSystem::metric ? fmt::format("{:.2f}", in_millimetres(length))
                                     : fmt::format("{:.3f}", in_inches(length));
}

std::string unit_of(UnitSystem units) { return units == UnitSystem::metric ? "mm" : "in"; }

std::string counts_text(const std::vector<VerdictCount>& counts, bool colour) {
  std::string out;
  for (const VerdictCount& count : counts) {
    out += (out.empty() ? "" : "; ") + inked(count.words, ink_of(verdict_words(count.verdict)), colour);
  }
  return out;
}

std::string weight_words(Force weight, UnitSystem units) {
  constexpr double kKilogramsPerPound = 0.45359237;  // SOURCE international pound, 1959
  return units == UnitSystem::metric ? fmt::format("{:.0f} kg", in_pounds(weight) * kKilogramsPerPound)
                                     : fmt::format("{:.0f} lb", in_pounds(weight));
}

/// What stands in the way of building it as planned; a line each.
std::string faults_text(const Plan& plan, bool colour) {
  std::string out;
  for (const std::string& line : clash_lines(plan.frame)) {
    out += fmt::format("  {} {}\n", inked("clash", Ink::red, colour), line);
  }
  for (const Problem& problem : plan.cuts.impossible) {
    out += fmt::format("  {} {} {}\n", inked("missing", Ink::red, colour), problem.wrong, problem.remedy);
  }
  return out;
}

bool strength_fails(const Plan& plan) {
  return std::ranges::any_of(plan.strength.checks, [](const Check& c) { return c.verdict == Verdict::fail; });
}

/// The checks of strength, weakest first, and the weakest link of every way to the ground.
std::string strength_text(const Plan& plan, bool colour) {
  TextTable table{{{"verdict"}, {"ratio", true}, {"demand", true}, {"capacity", true}, {"where"}, {"what"}}, {}};
  for (const auto& [check, where] : weakest_first(plan.strength.checks)) {
    std::string what = fmt::format("{}: {} ({}).", check->member, check->what, check->clause);
    // What passes keeps its remarks for the strength sheets.
    if (check->verdict != Verdict::pass && !check->note.empty()) what += " " + check->note;
    if (const std::string words = memory_words(*check); !words.empty()) what += " " + words;
    table.rows.push_back({verdict_words(check->verdict), ratio_words(*check), demand_words(*check),
                          capacity_words(*check), where, what});
  }
  std::string out =
      "\nStrength, weakest first\n\n" + lined_up(table, 0, [&](std::size_t column, const std::string& cell) {
        return column == 0 ? inked(cell, ink_of(cell), colour) : cell;
      });
  out += "\n  " + counts_text(strength_counts(plan.strength), colour) + "\n";
  for (const LoadPath& path : plan.strength.paths) {
    out += fmt::format("  {}: weakest link {}\n", path.from, weakest_words(plan.strength, path));
  }
  return out;
}

}  // namespace

std::string landing_words(const Flight& flight, const Job& job) {
  const Length lift = flight.landing.lift;
  const std::string made = job.pad.existing ? "" : "new, ";
  if (abs(lift) < kSixteenth / 2.0) return job.pad.existing ? "as it is" : "new, level with the ground";
  return made + (lift > Length() ? "up " : "down ") + tape(abs(lift), job.about.units);
}

std::string summary(const Plan& plan, bool colour) {
  const UnitSystem units = plan.job.about.units;
  const Flight& flight = plan.flight;
  const auto stringers = std::ranges::count(plan.frame.parts, PartKind::stringer, &Part::kind);
  std::string out = inked(plan.job.about.name, Ink::bold, colour) + "\n";
  out += fmt::format("  stair    {} risers of {}, going (run) {}, {} out and {} down; {} {}stringers, {} apart\n",
                     flight.risers, tape(flight.unit_rise, units), tape(flight.going, units),
                     tape_feet(flight.run, units), tape_feet(flight.total_rise, units), stringers,
                     flight.kind == StringerKind::cut ? "" : std::string(word(flight.kind)) + " ",
                     tape_plain(plan.frame.stringer_spacing, units));
  out += fmt::format("  landing  {}, {}{}\n", word(plan.job.pad.make), landing_words(flight, plan.job),
                     plan.frame.head.hanger_board ? "; a hanger board at the head" : "");
  out += fmt::format("  checks   {}: {}\n", plan.job.place.pack, counts_text(verdict_counts(plan.findings), colour));
  for (const Finding& finding : plan.findings) {
    if (finding.verdict != Verdict::fail && finding.verdict != Verdict::too_close) continue;
    const std::string words = verdict_words(finding.verdict);
    out += fmt::format("    {} {}: {} Measured {}, limit {}. {}\n", inked(words, ink_of(words), colour), finding.clause,
                       finding.sentence, measured_words(finding, units), limit_words(finding, units), finding.change);
  }
  out += fmt::format("  strength {}\n", counts_text(strength_counts(plan.strength), colour));
  for (const auto& [check, where] : weakest_first(plan.strength.checks)) {
    if (check->verdict != Verdict::fail) break;
    out += fmt::format("    {} {}, {}: {} against {}\n", inked(verdict_words(check->verdict), Ink::red, colour), where,
                       check->what, demand_words(*check), capacity_words(*check));
  }
  out += faults_text(plan, colour);
  out += fmt::format("  order    {} {}, {} lines, {}{}\n", plan.order.currency, money_text(plan.order.total),
                     plan.order.lines.size(), weight_words(plan.order.weight, units),
                     plan.order.price_date.empty() ? "" : "; prices of " + plan.order.price_date);
  return out;
}

std::string checks_text(const Plan& plan, bool colour) {
  const UnitSystem units = plan.job.about.units;
  TextTable table{{{"verdict"}, {"clause"}, {"measured", true}, {"limit", true}, {"margin", true}, {"where"}, {"what"}},
                  {}};
  for (const Finding* finding : asked_first(plan.findings)) {
    const std::string change = change_words(*finding);
    std::string what = finding->sentence;
    if ((!finding->applies || finding->verdict != Verdict::pass) && !change.empty()) what += " " + change;
    table.rows.push_back({verdict_words(*finding), finding->pack + " " + finding->clause,
                          measured_words(*finding, units), limit_words(*finding, units),
                          fine_figure_words(finding->margin, finding->unit, units), finding->where, what});
  }
  std::string out = fmt::format("{}, {}\n\n", plan.job.about.name, plan.job.place.pack);
  out += lined_up(table, 0, [&](std::size_t column, const std::string& cell) {
    return column == 0 ? inked(cell, ink_of(cell), colour) : cell;
  });
  out += "\n  " + counts_text(verdict_counts(plan.findings), colour) + "\n" + strength_text(plan, colour) +
         faults_text(plan, colour);
  for (const std::string& note : plan.frame.notes) out += "  note " + note + "\n";
  return out + "\n" + std::string(kWhoDecides) + "\n";
}

bool something_fails(const Plan& plan) {
  return std::ranges::any_of(plan.findings, [](const Finding& f) { return f.verdict == Verdict::fail; }) ||
         strength_fails(plan) || !plan.frame.clashes.empty() || !plan.cuts.impossible.empty();
}

std::string remedy_text(const Plan& plan, bool colour) {
  const Remedy remedy = least_change(plan);
  std::string out = "\n" + inked("What would make it strong enough on paper", Ink::bold, colour) + "\n";
  if (!strength_fails(plan)) {
    out += "  No check of strength fails.\n";
  } else if (remedy.changes.empty()) {
    out += "  No change that this program knows would help: ask an engineer.\n";
  } else {
    out += fmt::format("  Write this into the job file; the order then costs {} {} {}:\n", plan.order.currency,
                       money_text({std::abs(remedy.dearer.cents)}), remedy.dearer.cents < 0 ? "less" : "more");
    for (const Change& change : remedy.changes)
      out += fmt::format("    {} = {}   # {}\n", change.key, change.value, change.why);
  }
  for (const std::string& left : remedy.left)
    out += fmt::format("  {} {}\n", inked("still fails", Ink::red, colour), left);
  for (const std::string& ask : remedy.ask)
    out += fmt::format("  {} {}\n", inked("not checked", Ink::dim, colour), ask);
  if (!remedy.left.empty() && !remedy.changes.empty())
    out += "  Nothing that this program may change makes all of it pass: have an engineer look at what is left.\n";
  return out;
}

std::string packs_text() {
  TextTable table{{{"key"}, {"kind"}, {"for"}, {"title"}}, {}};
  for (const PackInfo& pack : packs()) {
    table.rows.push_back({std::string(pack.key), std::string(pack.kind), std::string(pack.applies_to),
                          std::string(pack.title) + (pack.caveat.empty() ? "" : fmt::format(" ({})", pack.caveat))});
  }
  return lined_up(table);
}

TextTable order_table(const Order& order) {
  TextTable table{{{"group"},
                   {"item"},
                   {"for"},
                   {"needed"},
                   {"buy"},
                   {"package"},
                   {"each, " + order.currency},
                   {"price, " + order.currency},
                   {"weight, lb"},
                   {"note"}},
                  {}};
  for (const OrderLine& line : order.lines) {
    table.rows.push_back({line.group, line.item, line.use, std::to_string(line.needed), std::to_string(line.quantity),
                          line.package, money_text(line.unit_price), money_text(line.price),
                          fmt::format("{:.1f}", in_pounds(line.weight)), line.note});
  }
  return table;
}

TextTable cut_list_table(const Plan& plan) {
  const UnitSystem units = plan.job.about.units;
  TextTable table{{{"board"},
                   {"section"},
                   {"board length"},
                   {"offcut"},
                   {"piece"},
                   {"length"},
                   {"rip to"},
                   {"besides"},
                   {"from, " + unit_of(units)},
                   {"to, " + unit_of(units)}},
                  {}};
  int number = 0;
  for (const Board& board : plan.cuts.boards) {
    ++number;
    for (const PlacedPiece& piece : board.pieces) {
      const auto part = std::ranges::find(plan.frame.parts, piece.mark, &Part::mark);
      const bool known = part != plan.frame.parts.end();
      const std::optional<Length> rip = known ? ripped_to(*part) : std::nullopt;
      table.rows.push_back({std::to_string(number), board.section, tape_feet(board.length, units),
                            board.offcut ? "yes" : "no", piece.mark, tape(piece.to - piece.from, units),
                            rip ? tape(*rip, units) : "", known ? notch_words(*part, units) : "",
                            decimal(piece.from, units), decimal(piece.to, units)});
    }
  }
  return table;
}

TextTable holes_table(const Plan& plan) {
  const UnitSystem units = plan.job.about.units;
  TextTable table{{{"part"},
                   {"hole for"},
                   {"fastener"},
                   {"face"},
                   {"kind"},
                   {"drill"},
                   {"along"},
                   {"across"},
                   {"depth"},
                   {"along and across from"},
                   {"along, " + unit_of(units)},
                   {"across, " + unit_of(units)}},
                  {}};
  for (const HoleRow& hole : plan.marks.holes) {
    table.rows.push_back({hole.part, hole.mark, hole.fastener, hole.face,
                          hole.kind == HoleKind::clearance ? "clearance" : "pilot", drill_words(hole.diameter, units),
                          tape(hole.along, units), tape(hole.across, units), tape(hole.depth, units), hole.from,
                          decimal(hole.along, units), decimal(hole.across, units)});
  }
  return table;
}

}  // namespace pitchboard
