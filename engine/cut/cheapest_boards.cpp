#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include "engine/base/sort.hpp"
#include "engine/base/tape.hpp"
#include "engine/cut/board_search.hpp"
#include "engine/cut/cut.hpp"
#include "engine/cut/recheck.hpp"

namespace pitchboard {
namespace {

constexpr double kTicksPerInch = 64.0;
constexpr int kPlenty = 1'000'000;  // "as many as wanted"

// Pieces round up and boards round down, so that what fits in ticks fits in wood; a length that is above a whole tick
// only by the rounding of doubles (kTouch) counts as that tick.
Ticks ticks_up(Length v) { return static_cast<Ticks>(std::ceil(in_inches(v - kTouch) * kTicksPerInch)); }
Ticks ticks_down(Length v) { return static_cast<Ticks>(std::floor(in_inches(v + kTouch) * kTicksPerInch)); }

struct Supply {
  StockItem item;
  BoardKind kind;
};

/// Every different board that can be had, the one that gives less first.
std::vector<Supply> supplies_of(const std::vector<StockItem>& stock, const Ends& ends) {
  std::map<std::tuple<Ticks, std::int64_t, bool, Length>, Supply> by_kind;
  for (const StockItem& item : stock) {
    const int many = std::min(item.available.value_or(kPlenty), kPlenty);
    if (many <= 0) continue;
    const Length usable = item.length - (item.offcut ? Length() : ends.trim * 2.0);
    const Ticks capacity = ticks_down(usable) + ticks_up(ends.kerf);
    Supply& supply =
        by_kind.try_emplace({capacity, item.price.cents, item.offcut, item.length}, Supply{item, {}}).first->second;
    supply.kind = {capacity, item.price.cents, std::min(supply.kind.limit + many, kPlenty),
                   item.offcut ? 0 : ticks_up(ends.bad_end)};
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

Board cut_board(const std::string& section, const StockItem& item, const std::vector<Demand>& pieces,
                const Ends& ends) {
  const Length trim = item.offcut ? Length() : ends.trim;
  Board board{.section = section, .length = item.length, .price = item.price, .offcut = item.offcut};
  Length at = trim;
  for (const Demand& piece : pieces) {
    board.pieces.push_back({piece.mark, at, at + piece.length});
    at += piece.length + ends.kerf;
  }
  board.left_over = std::max(Length(), item.length - trim - at);
  return board;
}

}  // namespace

CutPlan cheapest_boards(const std::string& section, std::vector<Demand> demands, const std::vector<StockItem>& stock,
                        Length kerf, Length end_trim, Length bad_end, Effort effort) {
  const Ends ends{kerf, end_trim, bad_end};
  CutPlan plan;
  const std::vector<Demand> all = demands;
  const std::vector<Supply> supplies = supplies_of(stock, ends);
  std::vector<BoardKind> kinds;
  Ticks largest[2] = {ticks_up(ends.kerf), ticks_up(ends.kerf)};  // for any piece, for a sound one
  for (const Supply& supply : supplies) {
    kinds.push_back(supply.kind);
    largest[0] = std::max(largest[0], supply.kind.capacity);
    largest[1] = std::max(largest[1], supply.kind.capacity - supply.kind.bad_end);
  }
  const bool bad_ends = std::ranges::any_of(kinds, [](const BoardKind& kind) { return kind.bad_end > 0; });
  std::map<std::pair<Ticks, bool>, std::vector<Demand>, std::greater<>> by_size;
  for (Demand& demand : demands) {
    by_size[{ticks_up(demand.length) + ticks_up(ends.kerf), bad_ends && demand.sound}].push_back(std::move(demand));
  }
  Pieces pieces;
  std::vector<std::vector<Demand>> waiting;
  std::size_t left_out = 0;
  for (auto& [size, same] : by_size) {
    if (size.first > largest[size.second]) {
      left_out += same.size();
      const Length longest = inches(static_cast<double>(largest[size.second] - ticks_up(ends.kerf)) / kTicksPerInch);
      plan.impossible.push_back(too_long(section, same, longest));
      continue;
    }
    pieces.sizes.push_back(size.first);
    pieces.counts.push_back(static_cast<int>(same.size()));
    if (bad_ends) pieces.sound.push_back(size.second);
    waiting.push_back(std::move(same));
  }
  const BoardChoice choice = choose_boards(pieces, kinds, effort);
  std::vector<std::size_t> taken(waiting.size(), 0);
  for (const FilledBoard& filled : choice.boards) {
    std::vector<Demand> on_board;
    for (std::size_t kind = 0; kind < waiting.size(); ++kind) {
      for (int n = 0; n < filled.pieces[kind]; ++n) on_board.push_back(waiting[kind][taken[kind]++]);
    }
    std::ranges::stable_partition(on_board, &Demand::sound);
    plan.boards.push_back(cut_board(section, supplies[filled.kind].item, on_board, ends));
  }
  sort_stably(plan.boards,
              [](const Board& p, const Board& q) { return p.offcut != q.offcut ? q.offcut : p.length > q.length; });
  for (std::size_t kind = 0; kind < waiting.size(); ++kind) {
    if (taken[kind] == waiting[kind].size()) continue;
    waiting[kind].erase(waiting[kind].begin(), waiting[kind].begin() + static_cast<std::ptrdiff_t>(taken[kind]));
    left_out += waiting[kind].size();
    plan.impossible.push_back(
        {"yard.stock", "The yard has too few " + section + " to cut " + marks_of(waiting[kind]) + " as well.",
         "Add more " + section + ", or leave out how many are available if the yard can order them."});
  }
  const std::string fault = fault_of_boards(plan.boards, all, left_out, stock, ends);
  if (!fault.empty()) {
    plan.impossible.push_back({"yard.stock", "The cut plan of " + section + " failed its own check: " + fault + ".",
                               "Do not order by it; report this job."});
  }
  plan.proofs.push_back({section, {choice.cost}, {choice.bound}, choice.cost == choice.bound && fault.empty()});
  return plan;
}

}  // namespace pitchboard
