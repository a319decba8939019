#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include "engine/base/tape.hpp"
#include "engine/cut/board_search.hpp"
#include "engine/cut/cut.hpp"

namespace pitchboard {
namespace {

constexpr double kTicksPerInch = 64.0;
constexpr int kPlenty = 1'000'000;  // "as many as wanted"

// Pieces round up and boards round down, so that what fits in ticks fits in wood; a length that is above a whole tick
// only by the rounding of doubles (kTouch) counts as that tick.
Ticks ticks_up(Length v) { return static_cast<Ticks>(std::ceil(in_inches(v - kTouch) * kTicksPerInch)); }
Ticks ticks_down(Length v) { return static_cast<Ticks>(std::floor(in_inches(v + kTouch) * kTicksPerInch)); }

bool is_offcut(const StockItem& item) { return item.price.cents == 0 && item.available.has_value(); }

struct Supply {
  StockItem item;
  BoardKind kind;
};

/// Every different board that can be had, by length, price and whether it is trimmed.
std::vector<Supply> supplies_of(const std::vector<StockItem>& stock, Length kerf, Length end_trim) {
  std::map<std::tuple<Ticks, std::int64_t, bool>, Supply> by_kind;
  for (const StockItem& item : stock) {
    const int many = std::min(item.available.value_or(kPlenty), kPlenty);
    if (many <= 0) continue;
    const Length usable = item.length - (is_offcut(item) ? Length() : end_trim * 2.0);
    const Ticks capacity = ticks_down(usable) + ticks_up(kerf);
    Supply& supply = by_kind.try_emplace({capacity, item.price.cents, is_offcut(item)}, Supply{item, {}}).first->second;
    supply.kind = {capacity, item.price.cents, std::min(supply.kind.limit + many, kPlenty)};
  }
  std::vector<Supply> supplies;
  for (auto& [key, supply] : by_kind) supplies.push_back(supply);
  return supplies;
}

std::string marks_of(const std::vector<Demand>& demands) {
  std::string marks;
  for (const Demand& demand : demands) marks += (marks.empty() ? "" : ", ") + demand.mark;
  return marks;
}

Problem too_long(const std::string& section, const std::vector<Demand>& demands, Length longest) {
  const std::string need = tape_plain(demands.front().length);
  if (longest <= Length()) {
    return {"yard.stock",
            "There is no " + section + " in stock to cut " + marks_of(demands) + " from, " + need + " long.",
            "Add the " + section + " lengths that the yard has, with their prices."};
  }
  return {"yard.stock",
          marks_of(demands) + ": " + need + " of " + section + " is longer than the longest board, which gives " +
              tape_plain(longest) + ".",
          "Add a " + section + " that gives at least " + need +
              " after its ends are trimmed, or choose a flight with a shorter piece."};
}

Board cut_board(const std::string& section, const StockItem& item, const std::vector<Demand>& pieces, Length kerf,
                Length end_trim) {
  const Length trim = is_offcut(item) ? Length() : end_trim;
  Board board{.section = section, .length = item.length, .price = item.price, .offcut = is_offcut(item)};
  Length at = trim;
  for (const Demand& piece : pieces) {
    board.pieces.push_back({piece.mark, at, at + piece.length});
    at += piece.length + kerf;
  }
  board.left_over = std::max(Length(), item.length - trim - at);
  return board;
}

}  // namespace

CutPlan cheapest_boards(const std::string& section, std::vector<Demand> demands, const std::vector<StockItem>& stock,
                        Length kerf, Length end_trim) {
  CutPlan plan;
  const std::vector<Supply> supplies = supplies_of(stock, kerf, end_trim);
  std::vector<BoardKind> kinds;
  Ticks largest = ticks_up(kerf);
  for (const Supply& supply : supplies) {
    kinds.push_back(supply.kind);
    largest = std::max(largest, supply.kind.capacity);
  }
  std::map<Ticks, std::vector<Demand>, std::greater<>> by_size;
  for (Demand& demand : demands) by_size[ticks_up(demand.length) + ticks_up(kerf)].push_back(std::move(demand));
  while (!by_size.empty() && by_size.begin()->first > largest) {
    const Length longest = inches(static_cast<double>(largest - ticks_up(kerf)) / kTicksPerInch);
    plan.impossible.push_back(too_long(section, by_size.begin()->second, longest));
    by_size.erase(by_size.begin());
  }
  Pieces pieces;
  std::vector<std::vector<Demand>> waiting;
  for (auto& [size, same] : by_size) {
    pieces.sizes.push_back(size);
    pieces.counts.push_back(static_cast<int>(same.size()));
    waiting.push_back(std::move(same));
  }
  const BoardChoice choice = choose_boards(pieces, kinds);
  std::vector<std::size_t> taken(waiting.size(), 0);
  for (const FilledBoard& filled : choice.boards) {
    std::vector<Demand> on_board;
    for (std::size_t kind = 0; kind < waiting.size(); ++kind) {
      for (int n = 0; n < filled.pieces[kind]; ++n) on_board.push_back(waiting[kind][taken[kind]++]);
    }
    plan.boards.push_back(cut_board(section, supplies[filled.kind].item, on_board, kerf, end_trim));
  }
  std::ranges::stable_sort(plan.boards, [](const Board& p, const Board& q) {
    return p.offcut != q.offcut ? q.offcut : p.length > q.length;
  });
  for (std::size_t kind = 0; kind < waiting.size(); ++kind) {
    if (taken[kind] == waiting[kind].size()) continue;
    waiting[kind].erase(waiting[kind].begin(), waiting[kind].begin() + static_cast<std::ptrdiff_t>(taken[kind]));
    plan.impossible.push_back(
        {"yard.stock", "The yard has too few " + section + " to cut " + marks_of(waiting[kind]) + " as well.",
         "Add more " + section + ", or leave out how many are available if the yard can order them."});
  }
  plan.proofs.push_back({section, {choice.cost}, {choice.bound}, choice.cost == choice.bound});
  return plan;
}

}  // namespace pitchboard
