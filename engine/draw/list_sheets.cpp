// The printed lists: what to cut, saw settings, holes, what to buy, checks.

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/catalog.hpp"
#include "engine/draw/finding_words.hpp"
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
  std::string rip, shaping;
  std::vector<std::string> marks;
};

std::string shaping_words(const Part& part, UnitSystem units) {
  return part.kind == PartKind::support_beam ? "bevel along the upper edge, see saw settings"
                                             : notch_words(part, units);
}

std::vector<CutRow> cut_rows(const DrawInput& in) {
  const UnitSystem units = in.job.about.units;
  std::vector<CutRow> rows;
  for (const Part& part : in.frame.parts) {
    if (!is_cut_from_board(part.kind)) continue;
    const Length length = board_length(part);
    const std::optional<Length> rip = ripped_to(part);
    CutRow own{part.kind, part.section.nominal, length, rip ? tape_plain(*rip, units) : "", shaping_words(part, units),
               {}};
    auto row = std::ranges::find_if(rows, [&](const CutRow& r) {
      return r.kind == own.kind && r.section == own.section && abs(r.length - length) < kSameLength &&
             r.rip == own.rip && r.shaping == own.shaping;
    });
    if (row == rows.end()) row = rows.insert(rows.end(), std::move(own));
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
  Table pieces{{{"Piece"},
                {"Marks", Anchor::start, true, true},
                {"No.", Anchor::end},
                {"Section", Anchor::start, true, false, 0, 96},
                {"Length", Anchor::end},
                {"Rip to", Anchor::end},
                {"Besides", Anchor::start, true}},
               {}};
  for (const CutRow& row : cut_rows(in)) {
    // A ready-cut stringer is no board: nothing of it is cut from stock.
    const bool bought = row.kind == PartKind::stringer && in.flight.ready_cut.has_value();
    pieces.rows.push_back({std::string(kind_words(row.kind)), mark_ranges(row.marks), std::to_string(row.marks.size()),
                           bought ? "ready-cut" : section_words(row.section),
                           bought ? "as bought" : tape(row.length, units), row.rip,
                           bought ? "see the stringer sheet" : row.shaping});
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

/// All holes of one part that are drilled alike; the schedule's line but for the parts' marks.
struct Bores {
  std::string item, face, drill, depth, kind, from, places;
  friend bool operator==(const Bores&, const Bores&) = default;
  [[nodiscard]] bool drilled_alike(const Bores& other) const {
    return item == other.item && face == other.face && drill == other.drill && depth == other.depth &&
           kind == other.kind && from == other.from;
  }
};

/// Parts with the very same holes.
struct HoleGroup {
  PartKind kind;
  std::vector<std::string> parts;
  std::vector<Bores> bores;
};

std::vector<Bores> bores_of(const DrawInput& in, const std::string& part) {
  const UnitSystem units = in.job.about.units;
  std::vector<Bores> out;
  for (const HoleRow& row : in.marks.holes) {
    if (row.part != part) continue;
    const HardwareRow* item = find_hardware(row.fastener);
    Bores bores{item ? std::string(item->words) : row.fastener,
                row.face,
                drill_words(row.diameter, units),
                tape_plain(row.depth, units),
                row.kind == HoleKind::pilot ? "pilot" : "clearance",
                row.from,
                tape_plain(row.along, units) + " × " + tape_plain(row.across, units)};
    const auto known = std::ranges::find_if(out, [&](const Bores& b) { return b.drilled_alike(bores); });
    if (known == out.end()) {
      out.push_back(std::move(bores));
    } else {
      known->places += ";  " + bores.places;
    }
  }
  return out;
}

std::vector<HoleGroup> hole_groups(const DrawInput& in) {
  std::vector<HoleGroup> out;
  for (const Part& part : in.frame.parts) {
    std::vector<Bores> bores = bores_of(in, part.mark);
    if (bores.empty()) continue;
    const auto same =
        std::ranges::find_if(out, [&](const HoleGroup& g) { return g.kind == part.kind && g.bores == bores; });
    if (same == out.end()) {
      out.push_back({part.kind, {part.mark}, std::move(bores)});
    } else {
      same->parts.push_back(part.mark);
    }
  }
  return out;
}

std::vector<Canvas> draw_holes(const DrawInput& in, Paper paper) {
  if (in.marks.holes.empty()) return {};
  Flow flow("Holes", "holes", paper, true);
  flow.paragraph(
      "Places are two figures, counted from the two things named under From: the first from the one, the second from "
      "the other. Stringers count from the foot end as on their own sheet, rails from the lower end as the balusters "
      "do. "
      "Clearance holes let the shank slide, pilot holes let the thread bite. Clamp, look behind the wood, then drill; "
      "keep your hand "
      "from where the bit comes out.");
  flow.gap(4);
  Table table{{{"Parts", Anchor::start, true, true, 0, 96},
               {"For", Anchor::start, true, false, 0, 104},
               {"Face"},
               {"Drill", Anchor::end},
               {"Depth", Anchor::end},
               {"Hole"},
               {"From", Anchor::start, true, false, 0, 110},
               {"Places", Anchor::start, true}},
              {}};
  for (const HoleGroup& group : hole_groups(in)) {
    bool first = true;
    for (const Bores& bores : group.bores) {
      table.rows.push_back({first ? mark_ranges(group.parts) : "", bores.item, bores.face, bores.drill, bores.depth,
                            bores.kind, bores.from, bores.places});
      first = false;
    }
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
    flow.bullet(fmt::format("{}: boards cost {}; no choice of boards can cost less than {}{}.",
                            section_words(proof.section), money_text(proof.cost), money_text(proof.bound),
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
      "than the readings can tell (too close), dots were not checked. Rules whose case does not arise here "
      "are not asked and stand last. A rule known from memory only never passes: look "
      "it up.");
  flow.gap(4);
  Table table{{{"Verdict"},
               {"", Anchor::start, false, false, kVerdictBarWidth},
               {"Rule", Anchor::start, true},
               {"Measured", Anchor::end},
               {"Limit", Anchor::end},
               {"Where", Anchor::start, true, false, 0, 76},
               {"Clause"},
               {"What would change it", Anchor::start, true}},
              {}};
  const std::vector<const Finding*> rows = asked_first(in.findings);
  for (const Finding* finding : rows) {
    table.rows.push_back({verdict_words(*finding), "", std::string(finding->sentence), measured_words(*finding, units),
                          limit_words(*finding, units), finding->where,
                          fmt::format("{} {}", finding->pack, finding->clause), change_words(*finding)});
  }
  table.picture = [&](Canvas& canvas, std::size_t row, std::size_t column, const Box& room) {
    if (column == 1 && rows[row]->applies) draw_verdict_bar(canvas, room, rows[row]->verdict);
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
