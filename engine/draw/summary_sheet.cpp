// The first page: what the stair is, how it stands with the checks, and what to take care of.

#include <fmt/format.h>

#include <algorithm>

#include "engine/draw/finding_words.hpp"
#include "engine/draw/flow.hpp"
#include "engine/draw/parts.hpp"
#include "engine/draw/sheet_words.hpp"
#include "engine/draw/strength_words.hpp"

namespace pitchboard {
namespace {

/// Findings named on the first page; the rest are on the checks sheet.
constexpr std::size_t kFindingsShown = 8;

std::string top_words(TopMode top) {
  return top == TopMode::deck_edge ? "the deck edge is the top step" : "the top tread lies level with the deck";
}

std::string stringer_words(StringerKind kind) {
  return kind == StringerKind::cut ? "cut on site" : kind == StringerKind::ready_cut ? "ready-cut" : "solid";
}

std::string landing_words(const DrawInput& in) {
  const Length lift = in.flight.landing.lift;
  if (abs(lift) < kSixteenth / 2.0) return in.job.pad.existing ? "as it is" : "new, level with the ground";
  const std::string much = tape_plain(abs(lift), in.job.about.units), made = in.job.pad.existing ? "" : "new, ";
  return made + (lift > Length() ? "raised " + much : "dug down " + much);
}

void write_key_figures(Flow& flow, const DrawInput& in) {
  const UnitSystem units = in.job.about.units;
  const Flight& flight = in.flight;
  const auto words = [&](Length length) { return tape(length, units); };
  Table table{{{"Figure"}, {"Value", Anchor::end}, {"In words", Anchor::start, true}}, {}};
  const auto row = [&](const char* name, const std::string& value, const std::string& meaning) {
    table.rows.push_back({name, value, meaning});
  };
  row("Total rise", words(flight.total_rise), "landing to deck surface, plumb, at the lowest nosing");
  row("Risers", std::to_string(flight.risers), fmt::format("{} treads; {}", flight.treads(), top_words(flight.top)));
  row("Unit rise", words(flight.unit_rise),
      fmt::format("exact {:.4f} in, {:.1f} mm", in_inches(flight.unit_rise), in_millimetres(flight.unit_rise)));
  row("Going (run)", words(flight.going), "level, nosing to nosing");
  row("Run", words(flight.run), "deck edge to the lowest nosing");
  row("Slope", fmt::format("{:.1f}°", in_degrees(flight.slope)),
      fmt::format("2 rises and a going make {}; most people walk 24 to 25 in with ease",
                  words(flight.comfort.twice_rise_plus_going)));
  row("Width", words(in.job.stair.width), "outside to outside of the outer stringers");
  row("Stringers", std::to_string(std::ranges::count(in.frame.parts, PartKind::stringer, &Part::kind)),
      fmt::format("{}, {} apart, least wood under a notch {}", stringer_words(flight.kind),
                  words(in.frame.stringer_spacing), words(in.frame.throat)));
  row("Head", words(in.frame.head.plumb_cut),
      in.frame.head.hanger_board ? "plumb cut; a hanger board takes what the rim does not" : "plumb cut, on the rim");
  row("Landing", words(flight.landing.out.to - flight.run),
      fmt::format("past the lowest nosing; {}", landing_words(in)));
  row("Order", fmt::format("{} {}", in.order.currency, money_text(in.order.total)),
      in.order.price_date.empty() ? "prices without a date" : "prices of " + in.order.price_date);
  flow.table(table);
}

/// Failing checks named on the first page; the rest are on the strength sheets.
constexpr std::size_t kChecksShown = 6;

void write_strength(Flow& flow, const DrawInput& in) {
  if (in.strength.checks.empty()) return;
  flow.heading("How strong it is on paper");
  std::string counts;
  for (const VerdictCount& count : strength_counts(in.strength)) counts += (counts.empty() ? "" : "; ") + count.words;
  flow.paragraph(counts + ".", 9, true);
  std::size_t shown = 0;
  for (const auto& [check, where] : weakest_first(in.strength.checks)) {
    if (check->verdict != Verdict::fail || ++shown > kChecksShown) break;
    flow.bullet(fmt::format("{}, {}, {}: {} against {}.", verdict_words(check->verdict), where, check->what,
                            demand_words(*check), capacity_words(*check)));
  }
}

void write_verdicts(Flow& flow, const DrawInput& in) {
  flow.heading("How it stands with " + in.job.place.pack);
  std::string counts;
  for (const VerdictCount& count : verdict_counts(in.findings)) counts += (counts.empty() ? "" : "; ") + count.words;
  flow.paragraph(counts + ".", 9, true);
  std::size_t shown = 0;
  for (const Finding& finding : in.findings) {
    if (finding.verdict != Verdict::fail && finding.verdict != Verdict::too_close) continue;
    if (++shown > kFindingsShown) break;
    flow.bullet(fmt::format("{}, {}: {} Measured {}, limit {}. {}", verdict_words(finding.verdict), finding.clause,
                            finding.sentence, measured_words(finding, in.job.about.units),
                            limit_words(finding, in.job.about.units), finding.change));
  }
  for (const std::string& line : clash_lines(in.frame)) flow.bullet("Clash: " + line);
  for (const Problem& problem : in.cuts.impossible)
    flow.bullet(fmt::format("{}: {} {}", problem.place, problem.wrong, problem.remedy));
}

// SOURCE of the cautions: common practice, no source, but where named.
void write_cautions(Flow& flow, const DrawInput& in) {
  flow.heading("Take care");
  flow.bullet(
      "Before you dig: have buried gas, power, water and data lines marked by those who run them, and wait for the "
      "marks.");
  flow.bullet(
      "Glasses and hearing protection at every saw and drill; a mask for the dust of treated wood; wash before you "
      "eat.");
  if (in.job.pad.make != PadMake::gravel)
    flow.bullet("Pavers and concrete: cut wet and wear a mask made for silica. Dry dust harms the lungs for good.");
  flow.bullet("Old paint may hold lead: test before you sand or cut it, and keep children away.");
  flow.bullet("Stringers, boards wet from treatment and bags: two people lift, legs bent, path clear.");
  flow.bullet(
      "Until rails and treads are screwed down, nobody walks here. Overnight: bar both ends, no open flight, no bare "
      "spikes or screws.");
  flow.heading("Ask an engineer when");
  flow.bullet(
      "a check on this paper fails or is marked not checked where it carries load; a span, height or load goes beyond "
      "the code's tables;");
  flow.bullet(
      "the house band or a joist end is soft, split or hidden; the soil is fill, peat or wet; a wall has to hold back "
      "earth near the landing.");
  flow.gap(4);
  flow.paragraph(std::string(kWhoDecides) + " Show it the readings, these sheets and the checks before you order.", 8.5,
                 true);
}

}  // namespace

std::vector<Canvas> draw_summary(const DrawInput& input, Paper paper) {
  Flow flow("Summary", "summary", paper);
  flow.heading(input.job.about.name);
  write_key_figures(flow, input);
  write_verdicts(flow, input);
  write_strength(flow, input);
  if (!input.frame.notes.empty()) {
    flow.heading("On site");
    for (const std::string& note : input.frame.notes) flow.bullet(note);
  }
  write_cautions(flow, input);
  return flow.take();
}

}  // namespace pitchboard
