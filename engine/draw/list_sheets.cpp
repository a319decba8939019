// The printed lists: what to cut, saw settings, holes, what to buy, checks.

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/catalog.hpp"
#include "engine/draw/flow.hpp"
#include "engine/draw/parts.hpp"
#include "engine/draw/sheet_words.hpp"
#include "engine/draw/verdict_bar.hpp"

namespace pitchboard {
namespace {

/// Pieces closer than this in length are cut to one stop.
constexpr Length kSameLength = inches(1.0 / 64.0);

void append(std::vector<Canvas>& out, std::vector<Canvas> more) {
  for (Canvas& canvas : more) out.push_back(std::move(canvas));
}

struct CutRow {
  PartKind kind;
  std::string section;
  Length length;
  std::vector<std::string> marks;
};

std::vector<CutRow> cut_rows(const Frame& frame) {
  std::vector<CutRow> rows;
  for (const Part& part : frame.parts) {
    if (!is_cut_from_board(part.kind)) continue;
    const Length length = board_length(part);
    auto row = std::ranges::find_if(rows, [&](const CutRow& r) {
      return r.kind == part.kind && r.section == part.section.nominal && abs(r.length - length) < kSameLength;
    });
    if (row == rows.end()) row = rows.insert(rows.end(), {part.kind, part.section.nominal, length, {}});
    row->marks.push_back(part.mark);
  }
  return rows;
}

std::string wood_words(const Job& job) {
  const SpeciesRow* species = find_species(job.wood.species);
  const TreatmentRow* treatment = find_treatment(job.wood.treatment);
  std::string words = species ? std::string(species->words) : job.wood.species;
  if (treatment) words += ", " + std::string(treatment->words);
  if (!job.wood.rail_species.empty()) {
    const SpeciesRow* rails = find_species(job.wood.rail_species);
    words += "; rails: " + (rails ? std::string(rails->words) : job.wood.rail_species);
  }
  return words;
}

std::vector<Canvas> draw_cut_list(const DrawInput& in, Paper paper) {
  const UnitSystem units = in.job.about.units;
  Flow flow("What to cut", "cut-list", paper);
  flow.paragraph("Wood: " + wood_words(in.job) + ".");
  flow.paragraph(
      "Lengths are tip to tip along the board. Glasses, hearing protection and a mask for the dust of treated wood. "
      "Never "
      "burn the offcuts of treated wood.");
  flow.gap(4);
  Table pieces{
      {{"Piece"}, {"Marks", Anchor::start, true, true}, {"No.", Anchor::end}, {"Section"}, {"Length", Anchor::end}},
      {}};
  for (const CutRow& row : cut_rows(in.frame)) {
    pieces.rows.push_back({kind_words(row.kind), mark_ranges(row.marks), std::to_string(row.marks.size()), row.section,
                           tape(row.length, units)});
  }
  flow.table(pieces);
  if (!in.marks.saw.empty()) {
    flow.heading("Saw settings");
    flow.paragraph("The scale of a saw counts from square: 0° is a square cut.");
    flow.gap(3);
    Table saw{{{"First of", Anchor::start, false, true},
               {"No.", Anchor::end},
               {"Cut"},
               {"Scale", Anchor::end},
               {"How", Anchor::start, true}},
              {}};
    for (const SawSetting& row : in.marks.saw) {
      saw.rows.push_back({row.mark, std::to_string(row.count), row.cut,
                          fmt::format("{:.1f}°", in_degrees(row.from_square)),
                          row.beyond_saw ? "Beyond the saw. " + row.how : row.how});
    }
    flow.table(saw);
  }
  return flow.take();
}

/// Rows of one fastener in parts of one kind at one place on each: one line of the schedule.
struct HoleGroup {
  const HoleRow* first;
  PartKind kind;
  std::string item;  ///< what goes through, in words
  std::vector<std::string> parts;
};

bool bored_alike(const HoleRow& p, const HoleRow& q) {
  constexpr Length kSame = inches(1.0 / 32.0);
  return p.face == q.face && p.kind == q.kind && abs(p.along - q.along) < kSame && abs(p.across - q.across) < kSame &&
         abs(p.diameter - q.diameter) < kTouch && abs(p.depth - q.depth) < kSame;
}

std::string item_words(const std::string& key) {
  const HardwareRow* row = find_hardware(key);
  return row ? std::string(row->words) : key;
}

std::vector<HoleGroup> hole_groups(const DrawInput& in) {
  std::vector<HoleGroup> out;
  for (const HoleRow& row : in.marks.holes) {
    const Part* part = find_part(in.frame, row.part);
    const PartKind kind = part ? part->kind : PartKind::existing;
    const std::string item = item_words(row.fastener);
    auto group = std::ranges::find_if(
        out, [&](const HoleGroup& g) { return g.kind == kind && g.item == item && bored_alike(*g.first, row); });
    if (group == out.end()) group = out.insert(out.end(), {&row, kind, item, {}});
    if (std::ranges::find(group->parts, row.part) == group->parts.end()) group->parts.push_back(row.part);
  }
  return out;
}

std::vector<Canvas> draw_holes(const DrawInput& in, Paper paper) {
  if (in.marks.holes.empty()) return {};
  const UnitSystem units = in.job.about.units;
  Flow flow("Holes", "holes", paper);
  flow.paragraph(
      "Along is measured from the part's end, across from its lower edge. Clearance holes let the shank slide; pilot "
      "holes let the thread bite. Clamp, "
      "look behind the wood, then drill. Keep clear of the bit's far side.");
  flow.gap(4);
  Table table{{{"Parts", Anchor::start, true, true},
               {"For", Anchor::start, true},
               {"Face"},
               {"Along", Anchor::end},
               {"Across", Anchor::end},
               {"Drill", Anchor::end},
               {"Depth", Anchor::end},
               {"Hole"}},
              {}};
  for (const HoleGroup& group : hole_groups(in)) {
    const HoleRow& row = *group.first;
    table.rows.push_back({mark_ranges(group.parts), group.item, row.face, tape_plain(row.along, units),
                          tape_plain(row.across, units), drill_words(row.diameter, units), tape_plain(row.depth, units),
                          row.kind == HoleKind::pilot ? "pilot" : "clearance"});
  }
  flow.table(table);
  return flow.take();
}

std::vector<Canvas> draw_order(const DrawInput& in, Paper paper) {
  const Order& order = in.order;
  if (order.lines.empty()) return {};
  Flow flow("What to buy", "order", paper, true);
  const std::string date = order.price_date.empty() ? "without a date" : "of " + order.price_date;
  flow.paragraph(
      fmt::format(
          "Total {} {}, prices {}. About {:.0f} {} to carry.", order.currency, money_text(order.total), date,
          in.job.about.units == UnitSystem::metric ? in_pounds(order.weight) * 0.45359237 : in_pounds(order.weight),
          in.job.about.units == UnitSystem::metric ? "kg" : "lb"),
      10, true);
  flow.gap(4);
  Table table{{{"Group"},
               {"Item", Anchor::start, true},
               {"For", Anchor::start, true},
               {"Needed", Anchor::end},
               {"Buy", Anchor::end},
               {"Package"},
               {"Each", Anchor::end},
               {"Price", Anchor::end},
               {"Note", Anchor::start, true}},
              {}};
  for (const OrderLine& line : order.lines) {
    table.rows.push_back({line.group, line.item, line.use, std::to_string(line.needed), std::to_string(line.quantity),
                          line.package, money_text(line.unit_price), money_text(line.price), line.note});
  }
  flow.table(table);
  for (const std::string& note : order.notes) flow.bullet(note);
  for (const SectionProof& proof : in.cuts.proofs) {
    flow.bullet(fmt::format("{}: boards cost {}; no choice of boards can cost less than {}{}.", proof.section,
                            money_text(proof.cost), money_text(proof.bound),
                            proof.optimal ? ", so this is the cheapest" : ""));
  }
  return flow.take();
}

std::vector<Canvas> draw_checks(const DrawInput& in, Paper paper) {
  if (in.findings.empty()) return {};
  const UnitSystem units = in.job.about.units;
  Flow flow("Checks", "checks", paper, true);
  flow.paragraph(
      "Worst first. Bar: the upright is the limit; a thin line ends inside it (pass), a thick bar runs past it (fail), "
      "a bar that straddles it is closer "
      "than the readings can tell (too close), dots were not checked. A rule known from memory only never passes: look "
      "it up.");
  flow.gap(4);
  Table table{{{"Verdict"},
               {"", Anchor::start, false, false, kVerdictBarWidth},
               {"Rule", Anchor::start, true},
               {"Measured", Anchor::end},
               {"Limit", Anchor::end},
               {"Where"},
               {"Clause"},
               {"What would change it", Anchor::start, true}},
              {}};
  for (const Finding& finding : in.findings) {
    table.rows.push_back({verdict_words(finding.verdict), "", finding.sentence,
                          figure_words(finding.measured, finding.unit, units),
                          figure_words(finding.limit, finding.unit, units), finding.where,
                          finding.pack + " " + finding.clause, finding.change});
  }
  table.picture = [&](Canvas& canvas, std::size_t row, std::size_t column, const Box& room) {
    if (column == 1) draw_verdict_bar(canvas, room, in.findings[row].verdict);
  };
  flow.table(table);
  return flow.take();
}

}  // namespace

std::vector<Canvas> draw_lists(const DrawInput& input, Paper paper) {
  std::vector<Canvas> out;
  append(out, draw_cut_list(input, paper));
  append(out, draw_holes(input, paper));
  append(out, draw_order(input, paper));
  append(out, draw_checks(input, paper));
  return out;
}

}  // namespace pitchboard
