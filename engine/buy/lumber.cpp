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

void add_ready_cut(Order& order, const Job& job, const Flight& flight, const Frame& frame) {
  if (flight.kind != StringerKind::ready_cut || !flight.ready_cut) return;
  const ReadyCut& ready = job.yard.ready_cut[*flight.ready_cut];
  OrderLine line{.group = "stringers", .item = ready.name, .key = ready.name, .use = "stringers", .package = "piece"};
  Force weight;
  for (const Part& part : frame.parts) {
    if (part.kind != PartKind::stringer) continue;
    ++line.needed;
    weight = std::max(weight, weight_of(part, board_length(part)));
  }
  line.quantity = line.needed;
  line.item += ": " + std::to_string(ready.risers) + " risers of " + tape(ready.unit_rise, job.about.units) +
               ", going " + tape(ready.unit_going, job.about.units);
  line.note = "measure rise, going and foot at the yard";
  price_line(line, ready.price, weight);
  order.lines.push_back(std::move(line));
}

}  // namespace

void add_lumber(Order& order, const Job& job, const Flight& flight, const Frame& frame, const CutPlan& cuts) {
  add_ready_cut(order, job, flight, frame);
  struct Bought {
    const Board* first;
    OrderLine line;
  };
  std::vector<Bought> bought;
  int offcuts = 0;
  Money scrap;
  for (const Board& board : cuts.boards) {
    const Part* part = board.pieces.empty() ? nullptr : part_of(frame, board.pieces.front().mark);
    if (!part) continue;
    if (board.offcut) {
      ++offcuts;
      scrap.cents += board.price.cents;
      continue;
    }
    auto row = std::ranges::find_if(bought, [&](const Bought& b) {
      return b.first->section == board.section && b.first->length == board.length && b.first->price == board.price;
    });
    if (row == bought.end()) {
      const SectionRow* section = find_section(part->section.nominal);
      OrderLine line{.group = "lumber",
                     .key = part->section.nominal,
                     .length = board.length,
                     .package = part->species.empty() ? "piece" : "board"};
      line.item = (section ? std::string(section->words) : part->section.nominal) + " x " +
                  length_words(board.length, job.about.units);
      if (!part->species.empty()) line.item += ", " + wood_words(*part);
      bought.push_back({&board, std::move(line)});
      row = std::prev(bought.end());
    }
    ++row->line.needed;
    for (const PlacedPiece& piece : board.pieces) {
      if (const Part* use = part_of(frame, piece.mark)) add_words(row->line.use, plural(use->kind));
    }
    row->line.quantity = row->line.needed;
    const bool own =
        std::ranges::find(job.yard.stock, part->section.nominal, &StockLength::section) != job.yard.stock.end();
    if (own) {
      price_line(row->line, board.price, weight_of(*part, board.length));
    } else {
      demo_price_line(row->line, job, board.price, weight_of(*part, board.length));
    }
  }
  for (Bought& row : bought) order.lines.push_back(std::move(row.line));
  if (offcuts > 0) {
    std::string worth;
    if (scrap.cents > 0) worth = ", worth " + order.currency + " " + money_text(scrap) + " as scrap";
    order.notes.push_back("Offcuts on hand that are used and not bought: " + std::to_string(offcuts) + worth + ".");
  }
  if (!cuts.impossible.empty()) {
    order.notes.push_back(
        "This order is short: some pieces cannot be cut from the stock that is listed, see the cut plan.");
  }
}

}  // namespace pitchboard
