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

/// Pieces of one length in ticks, with one kerf.
struct Sized {
  Ticks size = 0;
  bool sound = false;
  const Demand* demand = nullptr;
};
using Alike = std::span<const Sized>;

/// Demands and stock as the search takes them.
struct Question {
  std::vector<Supply> supplies;
  std::vector<BoardKind> kinds;
  Ticks largest[2];          ///< for any piece, for a sound one
  std::vector<Sized> sized;  ///< the longest first
  Pieces pieces;
  std::vector<Alike> alike;     ///< by the pieces' kind
  std::vector<Alike> too_long;  ///< for every board

  Question(const std::vector<Demand>& demands, const std::vector<StockItem>& stock, const Ends& ends)
      : supplies(supplies_of(stock, ends)), largest{ticks_up(ends.kerf), ticks_up(ends.kerf)} {
    kinds.reserve(supplies.size());
    bool bad_ends = false;
    for (const Supply& supply : supplies) {
      kinds.push_back(supply.kind);
      largest[0] = std::max(largest[0], supply.kind.capacity);
      largest[1] = std::max(largest[1], supply.kind.capacity - supply.kind.bad_end);
      bad_ends = bad_ends || supply.kind.bad_end > 0;
    }
    sized.reserve(demands.size());
    for (const Demand& demand : demands)
      sized.push_back({ticks_up(demand.length) + ticks_up(ends.kerf), bad_ends && demand.sound, &demand});
    const auto rank = [](const Sized& s) { return std::pair(s.size, s.sound); };
    sort_stably(sized, std::greater<>(), rank);
    for (auto from = sized.begin(); from != sized.end();) {
      const auto to = std::ranges::find_if(from, sized.end(), [&](const Sized& s) { return rank(s) != rank(*from); });
      take({from, to}, bad_ends);
      from = to;
    }
  }

 private:
  void take(Alike all, bool bad_ends) {
    const Sized& first = all.front();
    if (first.size > largest[first.sound]) {
      too_long.push_back(all);
      return;
    }
    int count = 0;
    for (const Sized& one : all) count += one.demand->pieces;
    pieces.sizes.push_back(first.size);
    pieces.counts.push_back(count);
    if (bad_ends) pieces.sound.push_back(first.sound);
    alike.push_back(all);
  }
};

std::string marks_of(Alike pieces) {
  std::string marks;
  for (const Sized& piece : pieces) {
    marks += (marks.empty() ? "" : ", ") + piece.demand->mark;
  }
  return marks;
}

Problem too_long(const std::string& section, Alike pieces, Length longest) {
  const std::string need = tape_plain(pieces.front().demand->length);
  if (longest <= Length()) {
    return {"yard.stock",
            "There is no " + section + " in stock to cut " + marks_of(pieces) + " from, " + need + " long.",
            "Add the " + section + " lengths that the yard has, with their prices."};
  }
  return {"yard.stock",
          marks_of(pieces) + ": " + need + " of " + section + " is longer than the longest board, which gives " +
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
  const Question asked(demands, stock, ends);
  std::size_t left_out = 0;
  for (const Alike all : asked.too_long) {
    left_out += all.size();
    const Ticks gives = asked.largest[all.front().sound] - ticks_up(ends.kerf);
    plan.impossible.push_back(too_long(section, all, inches(static_cast<double>(gives) / kTicksPerInch)));
  }
  BoardChoice own;
  if (!memory) own = choose_boards(asked.pieces, asked.kinds);
  const BoardChoice& choice = memory ? memory->cheapest(asked.pieces, asked.kinds) : own;
  std::vector<std::size_t> taken(asked.alike.size(), 0);
  for (const FilledBoard& filled : choice.boards) {
    std::vector<const Demand*> on_board;
    for (std::size_t kind = 0; kind < filled.pieces.size(); ++kind) {
      for (int n = 0; n < filled.pieces[kind]; ++n) on_board.push_back(asked.alike[kind][taken[kind]++].demand);
    }
    std::ranges::stable_partition(on_board, &Demand::sound);
    plan.boards.push_back(cut_board(section, asked.supplies[filled.kind].item, on_board, ends));
  }
  for (std::size_t kind = 0; kind < asked.alike.size(); ++kind) {
    const auto missing = static_cast<std::size_t>(choice.left_out[kind]);
    if (missing == 0) continue;
    left_out += missing;
    plan.impossible.push_back(
        {"yard.stock",
         "The yard has too few " + section + " to cut " + marks_of(asked.alike[kind].last(missing)) + " as well.",
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

Money least_cost(const std::vector<Demand>& demands, const std::vector<StockItem>& stock, Length kerf, Length end_trim,
                 Length bad_end, BoardMemory& memory) {
  const Question asked(demands, stock, {kerf, end_trim, bad_end});
  return {memory.cheapest(asked.pieces, asked.kinds).bound};
}

}  // namespace pitchboard
