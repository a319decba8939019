#include "engine/cut/board_search.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
#include <queue>
#include <tuple>

// METHOD  The cost depends only on how many boards of each kind are bought. Those counts are tried upward in cost, best
// bound
//         first (A*); the proofs give the bound. Counts that pass every proof are packed exactly; counts that fractions
//         of patterns already cannot serve yield a new proof. The first counts that can be packed are the cheapest. See
//         docs/cutting.md.

namespace pitchboard {
namespace {

// Limits in steps, not seconds: the engine reads no clock and equal jobs give equal plans. A stair's section needs a
// few hundred steps; these stop after about a second.
constexpr int kPackSteps = 4'000'000;  // for all packings; each may take a quarter of what is left
constexpr int kPackStepsLeast = 1'000;
constexpr int kCountsTried = 200'000;
constexpr std::int64_t kPayableLimit = 2'000'000;  // amounts listed; beyond, the bound does without
constexpr int kTiesTried = 500;                    // equally cheap counts looked at after the first
constexpr int kLeftOverSteps = 2'000;  // steps for one question "does it still fit without this much of that board?"
constexpr Ticks kLeftOverStep = 64;    // 1/16 in
constexpr std::int64_t kNever = std::numeric_limits<std::int64_t>::max();

struct Node {
  std::int64_t bound = 0, cost = 0;
  int boards = 0;
  Ticks capacity = 0;
  Counts count;          // of every kind
  std::size_t from = 0;  // kinds before this one (in buying order) have had their turn
};
struct Later {
  bool operator()(const Node& p, const Node& q) const {
    // At equal bound the dearer one is nearer its end.
    const auto key = [](const Node& n) { return std::tuple(n.bound, -n.cost, n.boards, -n.capacity); };
    return key(p) != key(q) ? key(p) > key(q) : p.count < q.count;
  }
};

class Search {
 public:
  Search(const Pieces& pieces, const std::vector<BoardKind>& boards) : pieces_(pieces), boards_(boards) {
    const int total = std::accumulate(pieces.counts.begin(), pieces.counts.end(), 0);
    free_.assign(boards.size(), 0);
    for (std::size_t i = 0; i < boards_.size(); ++i) {
      boards_[i].limit = std::min(boards_[i].limit, total);
      capacities_.push_back(boards_[i].capacity);
      largest_ = std::max(largest_, boards_[i].capacity);
      if (boards_[i].price == 0) free_[i] = boards_[i].limit;
      if (boards_[i].price > 0) buying_.push_back(i);
    }
    // The best value for money last: it closes most orders, and the few boards beside it are counted first.
    std::ranges::stable_sort(buying_, [&](std::size_t i, std::size_t j) {
      return boards_[i].price * boards_[j].capacity > boards_[j].price * boards_[i].capacity;
    });
    std::vector<Worth> sixteenths;
    for (const Ticks size : pieces.sizes) sixteenths.push_back(size / kLeftOverStep);
    proofs_.push_back(proof_by(pieces_, std::move(sixteenths), largest_));
    proofs_.push_back(cost_proof(pieces_, boards_));
  }

  BoardChoice run() {
    BoardChoice greedy = fill_greedily();
    const bool greedy_holds = std::ranges::all_of(greedy.left_out, [](int n) { return n == 0; });
    if (greedy_holds) list_payable(greedy.cost);
    if (greedy_holds) ceiling_ = greedy.cost;
    open_.push(bounded({.count = free_}));
    Node best{.bound = kNever, .cost = kNever};
    Packing packed{.fits = Fits::no};
    std::int64_t undecided = kNever;
    int ties = 0;
    for (int tried = 0; !open_.empty() && tried < kCountsTried && ties < kTiesTried && steps_ > kPackStepsLeast;
         ++tried) {
      Node node = bounded(open_.top());
      const bool fresh = node.bound == open_.top().bound;
      open_.pop();
      if (node.bound > std::min(best.cost, ceiling_)) continue;
      if (!fresh) {  // a proof found since then has raised it
        open_.push(std::move(node));
        continue;
      }
      if (best.cost < kNever) ++ties;
      if (node.bound == node.cost && better(node, best)) {
        Packing packing = decide(node);
        if (packing.fits == Fits::yes) {
          best = node;
          packed = std::move(packing);
          continue;
        }
        if (packing.fits == Fits::gave_up) undecided = std::min(undecided, node.cost);
      }
      expand(node);
    }
    // Everything cheaper than the bound has been shown not to hold the pieces.
    std::int64_t bound = std::min(undecided, best.cost);
    if (!open_.empty()) bound = std::min(bound, open_.top().bound);
    if (packed.fits == Fits::yes && !(greedy_holds && greedy.cost < best.cost)) {
      improve_left_over(best, packed);
      BoardChoice choice{.boards = packed.boards, .bound = bound, .left_out = Counts(pieces_.sizes.size(), 0)};
      for (const FilledBoard& board : packed.boards) choice.cost += boards_[board.kind].price;
      return choice;
    }
    greedy.bound = greedy_holds ? std::min(bound, greedy.cost) : 0;
    return greedy;
  }

 private:
  static bool better(const Node& p, const Node& q) {
    const auto key = [](const Node& n) { return std::tuple(n.cost, n.boards, -n.capacity); };
    return key(p) < key(q);
  }

  Node bounded(Node node) const {
    std::int64_t rest = 0;
    for (const Proof& proof : proofs_) {
      Worth missing = proof.need;
      for (std::size_t i = 0; i < boards_.size(); ++i) missing -= proof.fill.most(capacities_[i]) * node.count[i];
      if (missing <= 0) continue;
      std::int64_t least = kNever;
      for (std::size_t turn = node.from; turn < buying_.size(); ++turn) {
        const std::size_t i = buying_[turn];
        const Worth most = proof.fill.most(capacities_[i]);
        if (most == 0 || node.count[i] >= boards_[i].limit) continue;
        const std::int64_t price = boards_[i].price;
        least = std::min(least, missing / most * price + (missing % most * price + most - 1) / most);
      }
      rest = std::max(rest, least);
    }
    if (rest < kNever) rest = next_payable(node.from, rest);
    node.bound = rest == kNever ? kNever : node.cost + rest;
    return node;
  }

  /// Lists, for the boards from each turn on, which amounts up to `most` their prices can add up to.
  void list_payable(std::int64_t most) {
    for (const std::size_t i : buying_) coin_ = std::gcd(coin_, boards_[i].price);
    if (coin_ == 0 || most / coin_ > kPayableLimit) return;
    const auto coins = static_cast<std::size_t>(most / coin_);
    std::vector<bool> reached(coins + 1, false);
    reached[0] = true;
    payable_.resize(buying_.size());
    for (std::size_t turn = buying_.size(); turn-- > 0;) {
      const auto price = static_cast<std::size_t>(boards_[buying_[turn]].price / coin_);
      for (std::size_t sum = price; sum <= coins; ++sum) reached[sum] = reached[sum] || reached[sum - price];
      payable_[turn].assign(coins + 1, -1);
      for (std::size_t sum = coins + 1, next = 0; sum-- > 0;) {
        if (reached[sum]) next = sum;
        if (next > 0 || sum == 0) payable_[turn][sum] = static_cast<std::int32_t>(next);
      }
      payable_[turn][0] = 0;
    }
  }

  /// RETURNS the least amount from `rest` up that boards from that turn on can cost.
  std::int64_t next_payable(std::size_t turn, std::int64_t rest) const {
    if (payable_.empty() || rest == 0) return rest;
    const auto coins = static_cast<std::size_t>((rest + coin_ - 1) / coin_);
    if (turn >= payable_.size() || coins >= payable_[turn].size() || payable_[turn][coins] < 0) return kNever;
    return payable_[turn][coins] * coin_;
  }

  void expand(const Node& node) {
    for (std::size_t turn = node.from; turn < buying_.size(); ++turn) {
      const std::size_t i = buying_[turn];
      if (node.count[i] >= boards_[i].limit) continue;
      Node next = node;
      ++next.count[i];
      ++next.boards;
      next.from = turn;
      next.cost += boards_[i].price;
      next.capacity += capacities_[i];
      next = bounded(std::move(next));
      if (next.bound <= ceiling_) open_.push(std::move(next));
    }
  }

  Packing decide(const Node& node) {
    if (std::optional<Proof> proof = shortage_proof(pieces_, boards_, node.count)) {
      proofs_.push_back(std::move(*proof));
      return {.fits = Fits::no};
    }
    int steps = steps_ / 4;
    steps_ -= steps;
    Packing packing = pack(pieces_, capacities_, node.count, proofs_, steps);
    steps_ += std::max(steps, 0);
    return packing;
  }

  /// Repacks the same boards so that one of them keeps the longest piece whole.
  void improve_left_over(const Node& node, Packing& packed) const {
    Ticks longest = 0;
    for (const FilledBoard& board : packed.boards) {
      if (boards_[board.kind].price > 0) longest = std::max(longest, room_left(board));
    }
    for (const std::size_t i : buying_) {
      if (node.count[i] == 0) continue;
      Ticks low = longest, high = capacities_[i] + kLeftOverStep;
      std::vector<Ticks> capacities = capacities_;
      capacities.push_back(0);
      Counts count = node.count;
      --count[i];
      count.push_back(1);
      while (high - low > kLeftOverStep) {
        // Ask first for the smallest gain: mostly there is none.
        const Ticks ask = low == longest && high > capacities_[i] ? low + kLeftOverStep : low + (high - low) / 2;
        capacities.back() = capacities_[i] - ask;
        int steps = kLeftOverSteps;
        Packing packing = capacities.back() < 0 ? Packing{} : pack(pieces_, capacities, count, proofs_, steps);
        if (packing.fits == Fits::yes) {
          for (FilledBoard& board : packing.boards) board.kind = board.kind == boards_.size() ? i : board.kind;
          packed = std::move(packing);
          low = longest = ask;
          if (high > capacities_[i]) high = capacities_[i];
        } else {
          high = ask;
        }
      }
    }
  }

  Ticks room_left(const FilledBoard& board) const {
    Ticks room = capacities_[board.kind];
    for (std::size_t kind = 0; kind < board.pieces.size(); ++kind) room -= board.pieces[kind] * pieces_.sizes[kind];
    return room;
  }

  /// The answer when the limits run out: board by board, whichever costs least for the length it takes up.
  BoardChoice fill_greedily() const {
    BoardChoice choice{.left_out = Counts(pieces_.sizes.size(), 0)};
    Counts left = pieces_.counts, have;
    for (const BoardKind& board : boards_) have.push_back(board.limit);
    for (std::size_t kind = 0; kind < left.size();) {
      if (left[kind] == 0) {
        ++kind;
        continue;
      }
      std::optional<FilledBoard> best;
      Ticks best_used = 1;
      for (std::size_t i = 0; i < boards_.size(); ++i) {
        if (have[i] == 0 || capacities_[i] < pieces_.sizes[kind]) continue;
        FilledBoard board{i, Counts(left.size(), 0)};
        Ticks room = capacities_[i];
        for (std::size_t k = kind; k < left.size(); ++k) {
          board.pieces[k] = static_cast<int>(std::min<Ticks>(left[k], room / pieces_.sizes[k]));
          room -= board.pieces[k] * pieces_.sizes[k];
        }
        const Ticks used = capacities_[i] - room;
        if (!best || boards_[i].price * best_used < boards_[best->kind].price * used) {
          best = board;
          best_used = used;
        }
      }
      if (!best) {
        std::swap(choice.left_out[kind], left[kind]);
        continue;
      }
      --have[best->kind];
      choice.cost += boards_[best->kind].price;
      for (std::size_t k = 0; k < left.size(); ++k) left[k] -= best->pieces[k];
      choice.boards.push_back(*best);
    }
    return choice;
  }

  const Pieces& pieces_;
  std::vector<BoardKind> boards_;
  std::vector<Ticks> capacities_;
  std::vector<std::size_t> buying_;
  Counts free_;
  Ticks largest_ = 0;
  std::int64_t ceiling_ = kNever;  // what a first order found quickly costs
  std::int64_t coin_ = 0;          // greatest common divisor of the prices
  std::vector<std::vector<std::int32_t>>
      payable_;  // by turn and amount in coins: the next amount, -1: none up to the ceiling
  std::vector<Proof> proofs_;
  std::priority_queue<Node, std::vector<Node>, Later> open_;
  int steps_ = kPackSteps;
};

}  // namespace

BoardChoice choose_boards(const Pieces& pieces, const std::vector<BoardKind>& boards) {
  return Search(pieces, boards).run();
}

}  // namespace pitchboard
