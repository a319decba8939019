// Boards as a yard writes them: size, length, grade, species, treatment.

#include <algorithm>
#include <cmath>
#include <iterator>

#include "engine/base/catalog.hpp"
#include "engine/base/tape.hpp"
#include "engine/buy/lines.hpp"
#include "engine/buy/materials.hpp"

namespace pitchboard {
namespace {

const Part* part_of(const Frame& frame, const std::string& mark) {
  const auto at = std::ranges::find(frame.parts, mark, &Part::mark);
  return at == frame.parts.end() ? nullptr : &*at;
}

std::string length_words(Length length, UnitSystem units) {
  const double whole_feet = std::round(in_inches(length) / 12.0);
  if (units == UnitSystem::imperial && abs(length - feet(whole_feet)) < kTouch) {
    return std::to_string(static_cast<int>(whole_feet)) + " ft";
  }
  return tape_feet(length, units);
}

/// "no2" is stamped No.2; other grades are stamped in capitals or written out.
std::string grade_words(const std::string& grade) {
  if (grade.starts_with("no") && grade.size() == 3) return "No." + grade.substr(2);
  std::string words = grade;
  std::ranges::replace(words, '-', ' ');
  if (words.size() <= 3) {
    for (char& c : words) c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  }
  return words;
}

std::string wood_words(const Part& part) {
  std::string words = grade_words(part.grade);
  if (const SpeciesRow* species = find_species(part.species))
    words += (words.empty() ? "" : " ") + std::string(species->words);
  if (const TreatmentRow* treatment = find_treatment(part.treatment))
    words += ", " + std::string(treatment->short_words);
  return words;
}

Force weight_of(const Part& part, Length length) {
  const SpeciesRow* species = find_species(part.species);
  if (!species) return pounds(buying_figure("metal-baluster").value * in_inches(length) / 12.0);
  const Volume wood = part.section.thickness * part.section.width * length;
  return pounds(species->weight_wet * in_cubic_feet(wood));
}

void add_ready_cut(Bill& bill, const Flight& flight, const Frame& frame) {
  if (flight.kind != StringerKind::ready_cut || !flight.ready_cut) return;
  const ReadyCut& ready = bill.job().yard.ready_cut[*flight.ready_cut];
  const auto count = static_cast<int>(std::ranges::count(frame.parts, PartKind::stringer, &Part::kind));
  bill.add(count, {ready.price}, [&] {
    const UnitSystem units = bill.job().about.units;
    Force heaviest;
    for (const Part& part : frame.parts) {
      if (part.kind == PartKind::stringer) heaviest = std::max(heaviest, weight_of(part, board_length(part)));
    }
    return OrderLine{.group = "stringers",
                     .item = ready.name + ": " + std::to_string(ready.risers) + " risers of " +
                             tape(ready.unit_rise, units) + ", going " + tape(ready.unit_going, units),
                     .key = ready.name,
                     .use = "stringers",
                     .needed = count,
                     .package = "piece",
                     .weight = heaviest,
                     .note = "measure rise, going and foot at the yard"};
  });
}

bool alike(const Board& p, const Board& q) {
  return p.section == q.section && p.length == q.length && p.price == q.price && !p.offcut && !q.offcut;
}

/// The line of all boards that are like `board`.
OrderLine line_of(const Board& board, int count, const Job& job, const Frame& frame, const CutPlan& cuts) {
  OrderLine line{
      .group = "lumber", .key = std::string(nominal_of(board.section)), .length = board.length, .needed = count};
  const Part* part = nullptr;  // the first that is cut from them: all are of its wood
  for (const Board& other : cuts.boards) {
    if (!alike(board, other)) continue;
    for (const PlacedPiece& piece : other.pieces) {
      const Part* cut = part_of(frame, piece.mark);
      if (cut) add_words(line.use, plural(cut->kind));
      if (!part) part = cut;
    }
  }
  if (!part) return line;
  const SectionRow* section = find_section(line.key);
  line.item = (section ? std::string(section->words) : line.key) + " x " + length_words(board.length, job.about.units);
  if (!part->species.empty()) line.item += ", " + wood_words(*part);
  line.package = part->species.empty() ? "piece" : "board";
  line.weight = weight_of(*part, board.length);
  return line;
}

}  // namespace

void add_lumber(Bill& bill, const Flight& flight, const Frame& frame, const CutPlan& cuts) {
  add_ready_cut(bill, flight, frame);
  const Job& job = bill.job();
  struct Bought {
    const Board* like;
    int count = 0;
  };
  std::vector<Bought> bought;
  int offcuts = 0;
  Money scrap;
  for (const Board& board : cuts.boards) {
    if (board.offcut) {
      ++offcuts;
      scrap += board.price;
      continue;
    }
    auto row = std::ranges::find_if(bought, [&](const Bought& b) { return alike(*b.like, board); });
    if (row == bought.end()) row = bought.insert(row, {&board});
    ++row->count;
  }
  for (const Bought& row : bought) {
    const Board& board = *row.like;
    const std::string_view nominal = nominal_of(board.section);
    bill.add(row.count,
             has_own_stock(job, nominal) ? UnitPrice{board.price} : bill.price_of(nominal, board.price, board.length),
             [&] { return line_of(board, row.count, job, frame, cuts); });
  }
  if (offcuts > 0 && bill.is_read()) {
    std::string worth;
    if (scrap.cents > 0) worth = ", worth " + job.yard.currency + " " + money_text(scrap) + " as scrap";
    bill.note("Offcuts on hand that are used and not bought: " + std::to_string(offcuts) + worth + ".");
  }
  if (!cuts.impossible.empty()) {
    bill.note("This order is short: some pieces cannot be cut from the stock that is listed, see the cut plan.");
  }
}

}  // namespace pitchboard
