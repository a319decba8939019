#include "engine/checks_text.hpp"

#include <fmt/format.h>

#include "engine/base/text_table.hpp"
#include "engine/choose/sensitivity.hpp"
#include "engine/draw/sheet_words.hpp"
#include "engine/draw/sheets.hpp"
#include "engine/draw/strength_words.hpp"

namespace pitchboard {
namespace {

std::string dressed(const std::string& words, const std::string& verdict, const Dress& dress) {
  return dress ? dress(words, verdict) : words;
}

/// The checks of strength, weakest first, and the weakest link of every way to the ground.
std::string strength_text(const Plan& plan, const Dress& dress) {
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
        return column == 0 ? dressed(cell, cell, dress) : cell;
      });
  out += "\n  " + counts_text(strength_counts(plan.strength), dress) + "\n";
  for (const LoadPath& path : plan.strength.paths) {
    out += fmt::format("  {}: weakest link {}\n", path.from, weakest_words(plan.strength, path));
  }
  return out;
}

}  // namespace

std::string counts_text(const std::vector<VerdictCount>& counts, const Dress& dress) {
  std::string out;
  for (const VerdictCount& count : counts) {
    out += (out.empty() ? "" : "; ") + dressed(count.words, verdict_words(count.verdict), dress);
  }
  return out;
}

std::string faults_text(const Plan& plan, const Dress& dress) {
  std::string out;
  for (const std::string& line : clash_lines(plan.frame)) {
    out += fmt::format("  {} {}\n", dressed("clash", verdict_words(Verdict::fail), dress), line);
  }
  for (const Problem& problem : plan.cuts.impossible) {
    out += fmt::format("  {} {} {}\n", dressed("missing", verdict_words(Verdict::fail), dress), problem.wrong,
                       problem.remedy);
  }
  return out;
}

std::string checks_text(const Plan& plan, const Dress& dress) {
  const UnitSystem units = plan.job.about.units;
  TextTable table{{{"verdict"}, {"clause"}, {"measured", true}, {"limit", true}, {"margin", true}, {"where"}, {"what"}},
                  {}};
  for (const Finding* finding : asked_first(plan.findings)) {
    const std::string change = change_words(*finding);
    std::string what(finding->sentence);
    if ((!finding->applies || finding->verdict != Verdict::pass) && !change.empty()) what += " " + change;
    table.rows.push_back({verdict_words(*finding), fmt::format("{} {}", finding->pack, finding->clause),
                          measured_words(*finding, units), limit_words(*finding, units),
                          fine_figure_words(finding->margin, finding->unit, units), finding->where, what});
  }
  std::string out = fmt::format("{}, {}\n\n", plan.job.about.name, plan.job.place.pack);
  out += lined_up(table, 0, [&](std::size_t column, const std::string& cell) {
    return column == 0 ? dressed(cell, cell, dress) : cell;
  });
  out += "\n  " + counts_text(verdict_counts(plan.findings), dress) + "\n" + strength_text(plan, dress) +
         faults_text(plan, dress);
  for (const Doubt& doubt : doubts_of(plan.job)) out += "  again " + doubt_words(plan.job, doubt) + "\n";
  for (const std::string& note : plan.frame.notes) out += "  note " + note + "\n";
  return out + "\n" + std::string(kWhoDecides) + "\n";
}

}  // namespace pitchboard
