#include <algorithm>
#include <cmath>
#include <functional>
#include <span>
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
  const auto rank = [](const Supply& s) {
    return std::tuple(s.kind.capacity, s.kind.price, s.item.offcut, s.item.length);
  };
  std::vector<Supply> supplies;
  for (const StockItem& item : stock) {
    const int many = std::min(item.available.value_or(kPlenty), kPlenty);
    if (many <= 0) continue;
    const Length usable = item.length - (item.offcut ? Length() : ends.trim * 2.0);
    const Supply supply{item,
                        {.capacity = ticks_down(usable) + ticks_up(ends.kerf),
                         .price = item.price.cents,
                         .bad_end = item.offcut ? 0 : ticks_up(ends.bad_end)}};
    auto at = std::ranges::lower_bound(supplies, rank(supply), {}, rank);
    if (at == supplies.end() || rank(*at) != rank(supply)) at = supplies.insert(at, supply);
    at->kind.limit = std::min(at->kind.limit + many, kPlenty);
  }
  return supplies;
}

/// The pieces of one length.
struct Alike {
  Ticks size = 0;  ///< length plus one kerf
  bool sound = false;
  std::vector<const Demand*> pieces;
};

/// The longest first.
std::vector<Alike> by_length(const std::vector<Demand>& demands, bool bad_ends, const Ends& ends) {
  const auto rank = [](const Alike& a) { return std::pair(a.size, a.sound); };
  std::vector<Alike> out;
  for (const Demand& demand : demands) {
    Alike alike{.size = ticks_up(demand.length) + ticks_up(ends.kerf), .sound = bad_ends && demand.sound};
    auto at = std::ranges::lower_bound(out, rank(alike), std::greater<>(), rank);
    if (at == out.end() || rank(*at) != rank(alike)) at = out.insert(at, std::move(alike));
    at->pieces.push_back(&demand);
  }
  return out;
}

std::string marks_of(std::span<const Demand* const> demands) {
  std::string marks;
  for (const Demand* demand : demands) marks += (marks.empty() ? "" : ", ") + demand->mark;
  return marks;
}

Problem too_long(const std::string& section, const std::vector<const Demand*>& demands, Length longest) {
  const std::string need = tape_plain(demands.front()->length);
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

Board cut_board(const std::string& section, const StockItem& item, const std::vector<const Demand*>& pieces,
                const Ends& ends) {
  const Length trim = item.offcut ? Length() : ends.trim;
  Board board{.section = section, .length = item.length, .price = item.price, .offcut = item.offcut};
  Length at = trim;
  for (const Demand* piece : pieces) {
    board.pieces.push_back({piece->mark, at, at + piece->length});
    at += piece->length + ends.kerf;
  }
  board.left_over = std::max(Length(), item.length - trim - at);
  return board;
}

}  // namespace

CutPlan cheapest_boards(const std::string& section, const std::vector<Demand>& demands,
                        const std::vector<StockItem>& stock, Length kerf, Length end_trim, Length bad_end,
                        BoardMemory* memory) {
  const Ends ends{kerf, end_trim, bad_end};
  CutPlan plan;
  const std::vector<Supply> supplies = supplies_of(stock, ends);
  std::vector<BoardKind> kinds;
  Ticks largest[2] = {ticks_up(ends.kerf), ticks_up(ends.kerf)};  // for any piece, for a sound one
  for (const Supply& supply : supplies) {
    kinds.push_back(supply.kind);
    largest[0] = std::max(largest[0], supply.kind.capacity);
    largest[1] = std::max(largest[1], supply.kind.capacity - supply.kind.bad_end);
  }
  const bool bad_ends = std::ranges::any_of(kinds, [](const BoardKind& kind) { return kind.bad_end > 0; });
  Pieces pieces;
  std::vector<std::vector<const Demand*>> waiting;
  std::size_t left_out = 0;
  for (Alike& alike : by_length(demands, bad_ends, ends)) {
    if (alike.size > largest[alike.sound]) {
      left_out += alike.pieces.size();
      const Length longest = inches(static_cast<double>(largest[alike.sound] - ticks_up(ends.kerf)) / kTicksPerInch);
      plan.impossible.push_back(too_long(section, alike.pieces, longest));
      continue;
    }
    pieces.sizes.push_back(alike.size);
    pieces.counts.push_back(static_cast<int>(alike.pieces.size()));
    if (bad_ends) pieces.sound.push_back(alike.sound);
    waiting.push_back(std::move(alike.pieces));
  }
  BoardChoice own;
  if (!memory) own = choose_boards(pieces, kinds);
  const BoardChoice& choice = memory ? memory->cheapest(pieces, kinds) : own;
  std::vector<std::size_t> taken(waiting.size(), 0);
  for (const FilledBoard& filled : choice.boards) {
    std::vector<const Demand*> on_board;
    for (std::size_t kind = 0; kind < filled.pieces.size(); ++kind) {
      for (int n = 0; n < filled.pieces[kind]; ++n) on_board.push_back(waiting[kind][taken[kind]++]);
    }
    std::ranges::stable_partition(on_board, &Demand::sound);
    plan.boards.push_back(cut_board(section, supplies[filled.kind].item, on_board, ends));
  }
  for (std::size_t kind = 0; kind < waiting.size(); ++kind) {
    const auto missing = static_cast<std::size_t>(choice.left_out[kind]);
    if (missing == 0) continue;
    left_out += missing;
    plan.impossible.push_back(
        {"yard.stock",
         "The yard has too few " + section + " to cut " + marks_of(std::span(waiting[kind]).last(missing)) +
             " as well.",
         "Add more " + section + ", or leave out how many are available if the yard can order them."});
  }
  plan.proofs.push_back({section, {choice.cost}, {choice.bound}, choice.cost == choice.bound});
  if (memory) return plan;
  sort_stably(plan.boards,
              [](const Board& p, const Board& q) { return p.offcut != q.offcut ? q.offcut : p.length > q.length; });
  const std::string fault = fault_of_boards(plan.boards, demands, left_out, stock, ends);
  if (!fault.empty()) {
    plan.impossible.push_back({"yard.stock", "The cut plan of " + section + " failed its own check: " + fault + ".",
                               "Do not order by it; report this job."});
    plan.proofs.back().optimal = false;
  }
  return plan;
}

}  // namespace pitchboard
