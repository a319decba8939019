#include "cli/report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/terminal.hpp"
#include "engine/base/text_table.hpp"
#include "engine/checks_text.hpp"
#include "engine/choose/sensitivity.hpp"
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

Dress coloured(bool colour) {
  if (!colour) return {};
  return [](const std::string& words, const std::string& verdict) { return inked(words, ink_of(verdict), true); };
}

std::string weight_words(Force weight, UnitSystem units) {
  constexpr double kKilogramsPerPound = 0.45359237;  // SOURCE international pound, 1959
  return units == UnitSystem::metric ? fmt::format("{:.0f} kg", in_pounds(weight) * kKilogramsPerPound)
                                     : fmt::format("{:.0f} lb", in_pounds(weight));
}

bool strength_fails(const Plan& plan) {
  return std::ranges::any_of(plan.strength.checks, [](const Check& c) { return c.verdict == Verdict::fail; });
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
  out += fmt::format("  checks   {}: {}\n", plan.job.place.pack,
                     counts_text(verdict_counts(plan.findings), coloured(colour)));
  for (const Finding& finding : plan.findings) {
    if (finding.verdict != Verdict::fail && finding.verdict != Verdict::too_close) continue;
    const std::string words = verdict_words(finding.verdict);
    out += fmt::format("    {} {}: {} Measured {}, limit {}. {}\n", inked(words, ink_of(words), colour), finding.clause,
                       finding.sentence, measured_words(finding, units), limit_words(finding, units), finding.change);
  }
  out += fmt::format("  strength {}\n", counts_text(strength_counts(plan.strength), coloured(colour)));
  for (const auto& [check, where] : weakest_first(plan.strength.checks)) {
    if (check->verdict != Verdict::fail) break;
    out += fmt::format("    {} {}, {}: {} against {}\n", inked(verdict_words(check->verdict), Ink::red, colour), where,
                       check->what, demand_words(*check), capacity_words(*check));
  }
  out += faults_text(plan, coloured(colour));
  out += fmt::format("  order    {} {}, {} lines, {}{}\n", plan.order.currency, money_text(plan.order.total),
                     plan.order.lines.size(), weight_words(plan.order.weight, units),
                     plan.order.price_date.empty() ? "" : "; prices of " + plan.order.price_date);
  return out;
}

std::string checks_report(const Plan& plan, bool colour) { return checks_text(plan, coloured(colour)); }

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

}  // namespace pitchboard
