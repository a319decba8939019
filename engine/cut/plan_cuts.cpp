#include <algorithm>
#include <cmath>
#include <iterator>
#include <string_view>
#include <utility>

#include "engine/base/catalog.hpp"
#include "engine/cut/cut.hpp"

namespace pitchboard {
namespace {

/// Pieces that may come from the same board.
struct Lot {
  const Part* like;  ///< the first part
  std::vector<Demand> demands;
  [[nodiscard]] std::string_view nominal() const { return like->section.nominal; }
  /// Metal balusters have true ends.
  [[nodiscard]] bool is_wood() const { return !like->species.empty(); }
};

/// Parts that people stand on, hold on to, or that hold those up: they are kept out of a board's bad end.
/// SOURCE common practice, no source.
bool carries(PartKind kind) {
  switch (kind) {
    case PartKind::block:
    case PartKind::riser:
    case PartKind::kicker:
    case PartKind::baluster:
    case PartKind::cap:
      return false;
    default:
      return true;
  }
}

std::vector<Lot> lots_of(const Job& job, const Frame& frame) {
  std::vector<Lot> lots;
  auto lot = lots.end();  // of the last part: neighbours are mostly alike
  const auto takes = [](const Lot& l, const Part& part) {
    return l.nominal() == part.section.nominal && l.like->species == part.species &&
           l.like->treatment == part.treatment;
  };
  for (const Part& part : frame.parts) {
    if (!is_cut_from_board(part.kind) || part.section.nominal.empty()) continue;
    if (part.kind == PartKind::stringer && job.stringers.kind == StringerKind::ready_cut) continue;
    if (lot == lots.end() || !takes(*lot, part))
      lot = std::ranges::find_if(lots, [&](const Lot& l) { return takes(l, part); });
    if (lot == lots.end()) lot = lots.insert(lot, {&part, {}});
    lot->demands.push_back({part.mark, board_length(part), carries(part.kind), part.pieces});
  }
  return lots;
}

/// RETURNS the lot's section: a size that is used in two woods is two sections at the yard.
std::string section_of(const Lot& own, const std::vector<Lot>& lots) {
  bool other_species = false, other_treatment = false;
  for (const Lot& l : lots) {
    if (l.nominal() != own.nominal()) continue;
    other_species = other_species || l.like->species != own.like->species;
    other_treatment = other_treatment || l.like->treatment != own.like->treatment;
  }
  std::string out(own.nominal());
  const SpeciesRow* wood = other_species ? find_species(own.like->species) : nullptr;
  const TreatmentRow* treatment = other_treatment ? find_treatment(own.like->treatment) : nullptr;
  if (wood) out += " " + std::string(wood->words);
  if (treatment) out += " " + std::string(treatment->short_words);
  return out;
}

/// What the yard has of a size: the job's own list if it names the size, less what is planned of that size already; the
/// demo stock if not, at the job's own prices where it gives them.
std::vector<StockItem> stock_of(const Job& job, std::string_view nominal, const std::vector<Board>& planned) {
  std::vector<StockItem> stock;
  for (const StockLength& own : job.yard.stock) {
    if (own.section != nominal) continue;
    stock.push_back({own.length, own.price, own.available});
    if (!own.available) continue;
    *stock.back().available -= static_cast<int>(std::ranges::count_if(planned, [&](const Board& board) {
      return nominal_of(board.section) == nominal && board.length == own.length && !board.offcut;
    }));
  }
  if (!stock.empty()) return stock;
  for (const StockRow& row : demo_stock()) {
    if (row.section != nominal) continue;
    const Length length = feet(row.length_feet);
    const ItemPrice* own = own_price(job, nominal, length);
    stock.push_back({length, own ? own->price : Money{row.price_cents}, {}});
  }
  return stock;
}

void add_offcuts(std::vector<StockItem>& stock, const Job& job, std::string_view nominal) {
  for (const Offcut& offcut : job.yard.offcuts) {
    if (offcut.section == nominal) stock.push_back({offcut.length, offcut.scrap_value, offcut.count, true});
  }
}

Length end_trim(const Job& job, const Lot& lot) { return lot.is_wood() ? job.yard.end_trim : Length(); }
Length bad_end(const Job& job, const Lot& lot) { return lot.is_wood() ? job.yard.bad_end : Length(); }

}  // namespace

const ItemPrice* own_price(const Job& job, std::string_view item, std::optional<Length> length) {
  const auto own = std::ranges::find_if(job.yard.prices, [&](const ItemPrice& price) {
    return price.item == item && (!length || (price.length && abs(*price.length - *length) < kTouch));
  });
  return own == job.yard.prices.end() ? nullptr : &*own;
}

std::string_view nominal_of(std::string_view section) { return section.substr(0, section.find(' ')); }

bool has_own_stock(const Job& job, std::string_view nominal) {
  return std::ranges::find(job.yard.stock, nominal, &StockLength::section) != job.yard.stock.end();
}

CutPlan plan_cuts(const Job& job, const Frame& frame, BoardMemory* memory) {
  CutPlan plan;
  std::vector<std::string_view> offcuts_given;  // an offcut's wood is not known: the first lot of its size gets it
  const std::vector<Lot> lots = lots_of(job, frame);
  for (const Lot& lot : lots) {
    std::vector<StockItem> stock = stock_of(job, lot.nominal(), plan.boards);
    if (std::ranges::find(offcuts_given, lot.nominal()) == offcuts_given.end()) {
      offcuts_given.push_back(lot.nominal());
      add_offcuts(stock, job, lot.nominal());
    }
    CutPlan part = cheapest_boards(section_of(lot, lots), lot.demands, stock, job.yard.kerf, end_trim(job, lot),
                                   bad_end(job, lot), memory);
    std::ranges::move(part.boards, std::back_inserter(plan.boards));
    std::ranges::move(part.proofs, std::back_inserter(plan.proofs));
    std::ranges::move(part.impossible, std::back_inserter(plan.impossible));
  }
  return plan;
}

std::vector<LeastCost> least_costs(const Job& job, const Frame& frame, Length step, BoardMemory& memory) {
  std::vector<LeastCost> out;
  for (Lot& lot : lots_of(job, frame)) {
    for (Demand& demand : lot.demands) {
      if (demand.length > step) demand.length = step * std::floor(demand.length / step);
    }
    // What other lots of the size take is not known: each may have it all.
    std::vector<StockItem> stock = stock_of(job, lot.nominal(), {});
    add_offcuts(stock, job, lot.nominal());
    out.push_back(
        {lot.nominal(), least_cost(lot.demands, stock, job.yard.kerf, end_trim(job, lot), bad_end(job, lot), memory)});
  }
  return out;
}

}  // namespace pitchboard
