#include "engine/cut/board_search.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
#include <optional>
#include <cstdio>
#include <cstdlib>

// METHOD  The cost depends only on how many boards of each kind are bought. Those counts are listed upward in cost from
//         the bound; a proof rejects most of them at sight, the fractional cover rejects others with a new proof, and the
//         packer decides the rest. The first counts that can be packed are the cheapest. See docs/cutting.md.

namespace pitchboard {
namespace {

constexpr std::int64_t kWork = 250'000'000, kWorkPerCell = 15'000;
constexpr std::int64_t kFirstLook = 6'000'000, kLookPerCell = 1'500;  // for one set of counts, before the dearer ones are looked at
constexpr int kRoundings = 4;
constexpr std::size_t kStepsPerProof = 12;
constexpr int kNodesPerQuestion = 300;
constexpr std::int64_t kModulus = 100'000;
constexpr std::int64_t kNever = std::numeric_limits<std::int64_t>::max();

class Search {
 public:
  Search(const Pieces& pieces, const std::vector<BoardKind>& boards)
      : pieces_(pieces), boards_(boards), program_(pieces, boards_), packer_(pieces, boards_, program_, proofs_) {
    const auto rows = static_cast<std::int64_t>(pieces.sizes.size() + boards.size());
    cells_ = rows * rows;
    work_.left = kWork + kWorkPerCell * cells_;
    const int total = std::accumulate(pieces.counts.begin(), pieces.counts.end(), 0);
    for (std::size_t i = 0; i < boards_.size(); ++i) {
      boards_[i].limit = std::min(boards_[i].limit, total);
      limits_.push_back(boards_[i].limit);
      if (boards_[i].price > 0 && boards_[i].limit > 0) buying_.push_back(i);
      coin_ = std::gcd(coin_, boards_[i].price);
    }
    count_.assign(boards.size(), 0);
    for (std::size_t i = 0; i < boards_.size(); ++i) {
      if (boards_[i].price == 0) count_[i] = boards_[i].limit;
    }
    free_ = count_;
  }

  BoardChoice run() {
    BoardChoice c = run2(); if(getenv("DBG")) fprintf(stdout,"work %ld proofs %zu open %zu packed %d lp %ld round %ld search %ld ys %ld ",(kWork-work_.left)/1000000,proofs_.size(),open_.size(),(int)packed_,wlp/1000000,wround/1000000,wsearch/1000000,ys); return c;}
  long wlp=0,wround=0,wsearch=0,ys=0;
  BoardChoice run2() {
    best_ = fill_greedily();
    const bool holds = std::ranges::all_of(best_.left_out, [](int n) { return n == 0; });
    ceiling_ = best_.cost;
    if (!holds) {
      ceiling_ = coin_;
      for (const BoardKind& board : boards_) ceiling_ += board.price * board.limit;
    }
    BestFill fill;
    proofs_.push_back(proof_by(pieces_, boards_, {pieces_.sizes.begin(), pieces_.sizes.end()}, fill, work_));
    // One price asks only for how many: the length answers that nearly always.
    if (buying_.size() != 1) {
      const PatternProgram::Answer answer =
          program_.solve(pieces_.counts, limits_, PatternProgram::Goal::least_cost, work_);
      proofs_.push_back(program_.proof(work_));
      if (answer == PatternProgram::Answer::too_few_boards) return best_;
    }
    cost_proof_ = proofs_.size() - 1;
    order_turns(proofs_[cost_proof_]);
    sort_values();
    if (!buying_.empty()) list_remainders();
    const std::int64_t step = std::max<std::int64_t>(coin_, 1);
    std::int64_t proven = ceiling_;  // nothing cheaper can be had
    std::int64_t low = next_cost(step), width = step;
    while (low < ceiling_ && !packed_) {
      high_ = std::min(low + width, ceiling_) - 1;
      low_ = low;
      found_.clear();
      list(0, high_);
      if (work_.done()) {
        proven = low;
        break;
      }
      if (found_.empty()) {
        low += width;
        width *= 2;
        continue;
      }
      low = cost_;
      count_ = found_;
      decide();
      if (packed_) ceiling_ = cost_;
      count_ = free_;
    }
    proven = std::min(proven, ceiling_);
    for (const Listed& open : open_) {
      if (open.cost >= ceiling_) break;
      count_ = open.count;
      const Fits fits = work_.done() || refuted() ? (refuted() ? Fits::no : Fits::gave_up) : decide_fully();
      if (fits == Fits::no) continue;
      if (fits == Fits::yes) {
        proven = std::min(proven, open.cost);
        ceiling_ = open.cost;
        break;
      }
      proven = std::min(proven, open.cost);
    }
    best_.bound = holds || packed_ ? std::min(proven, best_.cost) : 0;
    return best_;
  }

 private:
  struct Listed {
    std::int64_t cost;
    Counts count;
  };

  /// The kinds that the bound likes least are counted first, since few of them can be in; the last kind is then given by
  /// the cost.
  void order_turns(const Proof& by) {
    std::ranges::stable_sort(buying_, [&](std::size_t i, std::size_t j) {
      return boards_[i].price * by.most[j] > boards_[j].price * by.most[i];
    });
    turn_of_.assign(boards_.size(), boards_.size());
    for (std::size_t turn = 0; turn < buying_.size(); ++turn) turn_of_[buying_[turn]] = turn;
  }

  /// Lists, for each new proof, the kinds that are bought, best value first.
  void sort_values() {
    while (values_.size() < proofs_.size()) {
      const Proof& proof = proofs_[values_.size()];
      turn_order_.insert(turn_order_.begin(), values_.size());
      values_.push_back(buying_);
      std::ranges::stable_sort(values_.back(), [&](std::size_t i, std::size_t j) { return better_value(proof, i, j); });
    }
  }
  bool better_value(const Proof& by, std::size_t i, std::size_t j) const {
    return by.most[i] * boards_[j].price > by.most[j] * boards_[i].price;
  }

  Worth lacking(const Proof& proof) const {
    Worth lacking = proof.need;
    for (std::size_t i = 0; i < boards_.size(); ++i) lacking -= proof.most[i] * count_[i];
    return lacking;
  }

  /// RETURNS the least cost that no proof excludes, as a whole number of steps.
  std::int64_t next_cost(std::int64_t step) const {
    std::int64_t low = 0;
    for (std::size_t p = 0; p < proofs_.size(); ++p) {
      Worth missing = lacking(proofs_[p]);
      std::int64_t cost = 0;
      for (const std::size_t i : values_[p]) {
        const Worth most = proofs_[p].most[i];
        const std::int64_t price = boards_[i].price;
        if (missing <= 0 || most == 0) break;
        if (most * limits_[i] >= missing) {
          cost += missing / most * price + (missing % most * price + most - 1) / most;
          missing = 0;
        } else {
          cost += price * limits_[i];
          missing -= most * limits_[i];
        }
      }
      low = std::max(low, missing > 0 ? ceiling_ : cost);
    }
    return (low + step - 1) / step * step;
  }

  bool refuted() const {
    return std::ranges::any_of(proofs_, [&](const Proof& proof) { return lacking(proof) > 0; });
  }

  enum class Listing { go_on, skip, skip_dearer };

  /// RETURNS whether a proof rejects all counts that the rest of the money can buy from that turn on; skip_dearer if more
  /// of the kind before would not help.
  Listing ask_proofs(std::size_t turn, std::int64_t rest) {
    for (std::size_t at = 0; at < values_.size(); ++at) {
      const std::size_t p = turn_order_[at];
      const Proof& proof = proofs_[p];
      work_.spend(kStepsPerProof);
      Worth missing = lacking(proof);
      if (missing <= 0) continue;
      if (p == cost_proof_ && !divides(turn, rest, missing)) return Listing::skip;
      std::int64_t money = rest;
      std::size_t last = boards_.size();  // kind that the last of the money goes to
      for (const std::size_t i : values_[p]) {
        if (turn_of_[i] < turn) continue;
        const std::int64_t all = boards_[i].price * limits_[i];
        if (all >= money) {
          missing -= money * proof.most[i] / boards_[i].price + 1;
          last = i;
          break;
        }
        missing -= proof.most[i] * limits_[i];
        money -= all;
      }
      if (missing <= 0) continue;
      // What has just rejected something is asked first.
      std::rotate(turn_order_.begin(), turn_order_.begin() + static_cast<std::ptrdiff_t>(at),
                  turn_order_.begin() + static_cast<std::ptrdiff_t>(at) + 1);
      const bool dearer = turn > 0 && last < boards_.size() && !better_value(proof, buying_[turn - 1], last);
      return dearer ? Listing::skip_dearer : Listing::skip;
    }
    return Listing::go_on;
  }

  /// Adds the proof that fits best where the kinds before that turn are counted already. RETURNS false if there is none.
  bool ask_programme(std::size_t turn) {
    Counts limits = limits_;
    std::vector<std::int64_t> prices;
    for (const BoardKind& board : boards_) prices.push_back(board.price);
    for (std::size_t t = 0; t < turn; ++t) {
      limits[buying_[t]] = count_[buying_[t]];
      prices[buying_[t]] = 0;
    }
    program_.set_prices(prices);
    if (program_.solve(pieces_.counts, limits, PatternProgram::Goal::least_cost, work_) ==
        PatternProgram::Answer::gave_up) {
      return false;
    }
    proofs_.push_back(program_.proof(work_));
    sort_values();
    return true;
  }
  void drop_last_proof() {
    std::erase(turn_order_, proofs_.size() - 1);
    proofs_.pop_back();
    values_.pop_back();
  }

  /// Lists the counts of the kinds from that turn on that cost `rest`, or less by the width, and that no proof rejects. RETURNS false if a proof
  /// rejects all of them, and more of the kind before would not help.
  bool list(std::size_t turn, std::int64_t rest) {
    if (const Listing by_proofs = ask_proofs(turn, rest); by_proofs != Listing::go_on) {
      return by_proofs == Listing::skip;
    }
    if (turn + 1 < buying_.size() && ++unasked_ > kNodesPerQuestion && turn > 0) {
      unasked_ = 0;
      if (ask_programme(turn)) {
        if (const Listing again = ask_proofs(turn, rest); again != Listing::go_on) return again == Listing::skip;
        drop_last_proof();
      }
    }
    if (turn == buying_.size()) {
      if (is_known()) return true;
      if (program_.solve(pieces_.counts, count_, PatternProgram::Goal::fewest_missing, work_) ==
          PatternProgram::Answer::too_few_boards) {
        proofs_.push_back(program_.proof(work_));
        sort_values();
        return true;
      }
      found_ = count_;
      cost_ = high_ - rest;
      high_ = cost_ - 1;  // from here on only cheaper ones are looked for
      return true;
    }
    const std::size_t i = buying_[turn];
    const std::int64_t price = boards_[i].price, spent = high_ - rest;
    const bool last = turn + 1 == buying_.size();
    for (int n = last ? static_cast<int>(std::max<std::int64_t>(low_ - spent + price - 1, 0) / price) : 0;
         n <= boards_[i].limit && spent + n * price <= high_ && !work_.done(); ++n) {
      count_[i] = n;
      if (!list(turn + 1, high_ - spent - n * price)) break;
    }
    count_[i] = 0;
    return true;
  }

  /// RETURNS whether the counts have been looked at, or hold no more than counts that the packer has refuted.
  bool is_known() const {
    return std::ranges::any_of(open_, [&](const Listed& open) { return open.count == count_; }) ||
           std::ranges::any_of(refuted_, [&](const Counts& more) {
             for (std::size_t i = 0; i < more.size(); ++i) {
               if (count_[i] > more[i]) return false;
             }
             return true;
           });
  }

  /// Money rarely divides into boards of the best value: lists, by what is over when it is divided by the price of the
  /// last kind, the least worth that has to be wasted on boards from each turn on, or on money kept. In worth times the
  /// last price; by the proof from the costs.
  /// SOURCE R. Gomory, "On the relation between integer and noninteger solutions to linear programs" (1965).
  void list_remainders() {
    const Proof& proof = proofs_[cost_proof_];
    const std::size_t last = buying_.back();
    modulus_ = boards_[last].price / coin_;
    if (modulus_ > kModulus) return;
    const auto m = static_cast<std::size_t>(modulus_);
    std::vector<Worth> least(m, kNever);
    least[0] = 0;
    const auto add = [&](std::size_t step, Worth waste) {
      step %= m;
      const std::size_t rounds = std::gcd(step, m);
      for (std::size_t start = 0; start < rounds; ++start) {
        std::size_t at = start;
        for (std::size_t i = 0; i < 2 * (m / rounds); ++i) {
          const std::size_t next = (at + step) % m;
          if (least[at] < kNever) least[next] = std::min(least[next], least[at] + waste);
          at = next;
        }
      }
    };
    add(1, coin_ * proof.most[last]);
    remainders_.assign(buying_.size() + 1, {});
    remainders_[buying_.size()] = least;
    for (std::size_t turn = buying_.size(); turn-- > 0;) {
      const BoardKind& board = boards_[buying_[turn]];
      add(static_cast<std::size_t>(board.price / coin_),
          proof.most[last] * board.price - proof.most[buying_[turn]] * boards_[last].price);
      remainders_[turn] = least;
    }
    work_.spend(m * (buying_.size() + 1) * 8);
  }

  /// RETURNS false when the money cannot be spent so well that the boards from that turn on hold what is missing.
  bool divides(std::size_t turn, std::int64_t money, Worth missing) const {
    if (remainders_.empty()) return true;
    const std::size_t last = buying_.back();
    const std::int64_t coins = money / coin_;
    return coins * coin_ * proofs_[cost_proof_].most[last] -
               remainders_[turn][static_cast<std::size_t>(coins % modulus_)] >=
           missing * boards_[last].price;
  }

  void take() {
    packed_ = true;
    best_.boards = packer_.boards();
    best_.left_out.assign(pieces_.sizes.size(), 0);
    best_.cost = 0;
    for (const FilledBoard& board : best_.boards) best_.cost += boards_[board.kind].price;
  }

  /// A first look at the counts.
  void decide() {
    ++ys;
    Work look{std::min(work_.left, kFirstLook + kLookPerCell * cells_)};
    const std::int64_t given = look.left;
    Fits fits = Fits::gave_up;
    for (int attempt = 0; attempt < kRoundings && fits != Fits::yes; ++attempt) {
      fits = packer_.round(count_, attempt, look);
    }
    wround+=given-look.left;
    const long w1=look.left;
    if (fits != Fits::yes) fits = packer_.search(count_, look);
    wsearch+=w1-look.left;
    work_.left -= given - look.left;
    sort_values();
    if(getenv("DBG")) printf("  y cost %ld fits %d round %ld total %ld\n", cost_, (int)fits, (given-w1)/1000,(given-look.left)/1000);
    if (fits == Fits::yes) take();
    if (fits == Fits::no) refuted_.push_back(count_);
    if (fits == Fits::gave_up) open_.push_back({cost_, count_});
  }

  Fits decide_fully() {
    const Fits fits = packer_.search(count_, work_);
    if (fits == Fits::yes) take();
    return fits;
  }

  /// A first order: board by board, whichever costs least for the length it takes up.
  BoardChoice fill_greedily() const {
    BoardChoice choice{.left_out = Counts(pieces_.sizes.size(), 0)};
    Counts left = pieces_.counts, have = limits_;
    for (std::size_t kind = 0; kind < left.size();) {
      if (left[kind] == 0) {
        ++kind;
        continue;
      }
      std::optional<FilledBoard> best;
      Ticks best_used = 1;
      for (std::size_t i = 0; i < boards_.size(); ++i) {
        if (have[i] == 0) continue;
        FilledBoard board{i, Counts(left.size(), 0)};
        Ticks room = boards_[i].capacity, sound_room = room - boards_[i].bad_end;
        for (std::size_t k = kind; k < left.size(); ++k) {
          const Ticks free = pieces_.is_sound(k) ? std::min(room, sound_room) : room;
          board.pieces[k] = static_cast<int>(std::clamp<Ticks>(free / pieces_.sizes[k], 0, left[k]));
          room -= board.pieces[k] * pieces_.sizes[k];
          if (pieces_.is_sound(k)) sound_room -= board.pieces[k] * pieces_.sizes[k];
        }
        if (board.pieces[kind] == 0) continue;
        const Ticks used = boards_[i].capacity - room;
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
  std::vector<Proof> proofs_;
  PatternProgram program_;
  Packer packer_;
  std::vector<std::size_t> buying_, turn_of_, turn_order_;
  std::vector<std::vector<std::size_t>> values_;  // of each proof: the kinds bought, best value first
  std::vector<Counts> refuted_;
  std::vector<std::vector<Worth>> remainders_;  // by turn and remainder
  std::int64_t modulus_ = 0;
  Counts limits_, free_, count_, found_;
  std::vector<Listed> open_;  // undecided, by cost
  BoardChoice best_;
  std::int64_t ceiling_ = 0;  // what the best order found costs
  std::int64_t coin_ = 0;     // greatest common divisor of the prices
  std::size_t cost_proof_ = 0;
  int unasked_ = 0;  // nodes since the programme was asked
  std::int64_t cost_ = 0, low_ = 0, high_ = 0;
  bool packed_ = false;
  std::int64_t cells_;  // of the programme's tableau
  Work work_;
};

}  // namespace

BoardChoice choose_boards(const Pieces& pieces, const std::vector<BoardKind>& boards) {
  return Search(pieces, boards).run();
}

}  // namespace pitchboard
