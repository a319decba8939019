#include "engine/cut/board_search.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
#include <optional>

// METHOD  The cost depends only on how many boards of each kind are bought. Those counts are listed upward in cost from
//         the bound; a proof rejects most of them at sight, the fractional cover rejects others with a new proof, and the
//         packer decides the rest. The first counts that can be packed are the cheapest. See docs/cutting.md.

namespace pitchboard {
namespace {

constexpr std::int64_t kWork = 250'000'000;
constexpr std::int64_t kFirstLook = 6'000'000;  // for one set of counts, before the dearer ones are looked at
constexpr int kRoundings = 4;

class Search {
 public:
  Search(const Pieces& pieces, const std::vector<BoardKind>& boards)
      : pieces_(pieces), boards_(boards), program_(pieces, boards_), packer_(pieces, boards_, program_, proofs_) {
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
  }

  BoardChoice run() {
    best_ = fill_greedily();
    const bool holds = std::ranges::all_of(best_.left_out, [](int n) { return n == 0; });
    ceiling_ = best_.cost;
    if (!holds) {
      ceiling_ = coin_;
      for (const BoardKind& board : boards_) ceiling_ += board.price * board.limit;
    }
    BestFill fill;
    proofs_.push_back(proof_by(pieces_, boards_, {pieces_.sizes.begin(), pieces_.sizes.end()}, fill, work_));
    const PatternProgram::Answer answer =
        program_.solve(pieces_.counts, limits_, PatternProgram::Goal::least_cost, work_);
    proofs_.push_back(program_.proof(work_));
    if (answer == PatternProgram::Answer::too_few_boards) return best_;
    order_turns(proofs_.back());
    const std::int64_t step = std::max<std::int64_t>(coin_, 1);
    std::int64_t proven = ceiling_;  // nothing cheaper can be had
    for (std::int64_t cost = next_cost(step); cost < ceiling_; cost += step) {
      if (work_.done()) {
        proven = std::min(proven, cost);
        break;
      }
      cost_ = cost;
      list(0, cost);
      if (!packed_) continue;
      ceiling_ = cost;
      break;
    }
    proven = std::min(proven, ceiling_);
    for (const Open& open : open_) {
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
  struct Open {
    std::int64_t cost;
    Counts count;
  };

  /// The kinds that the bound likes least are counted first, since few of them can be in; the last kind is then given by
  /// the cost.
  void order_turns(const Proof& by) {
    std::ranges::stable_sort(buying_, [&](std::size_t i, std::size_t j) {
      return boards_[i].price * by.most[j] > boards_[j].price * by.most[i];
    });
  }

  /// RETURNS the least cost that no proof excludes, as a whole number of steps.
  std::int64_t next_cost(std::int64_t step) const {
    std::int64_t low = 0;
    for (const Proof& proof : proofs_) {
      Worth lacking = proof.need;
      for (std::size_t i = 0; i < boards_.size(); ++i) lacking -= proof.most[i] * count_[i];
      if (lacking <= 0) continue;
      std::int64_t least = std::numeric_limits<std::int64_t>::max();
      for (const std::size_t i : buying_) {
        const Worth most = proof.most[i];
        if (most == 0) continue;
        const std::int64_t price = boards_[i].price;
        least = std::min(least, lacking / most * price + (lacking % most * price + most - 1) / most);
      }
      low = std::max(low, least);
    }
    return (low + step - 1) / step * step;
  }

  bool refuted() const {
    return std::ranges::any_of(proofs_, [&](const Proof& proof) {
      Worth held = 0;
      for (std::size_t i = 0; i < boards_.size(); ++i) held += proof.most[i] * count_[i];
      return held < proof.need;
    });
  }

  /// Lists the counts of the kinds from that turn on that cost `rest` and that no proof rejects. RETURNS false if even
  /// the best of them are rejected, and more of the kind before would be no better.
  bool list(std::size_t turn, std::int64_t rest) {
    work_.spend(proofs_.size() * (boards_.size() + buying_.size() - turn) * 2);
    for (const Proof& proof : proofs_) {
      Worth lacking = proof.need;
      for (std::size_t i = 0; i < boards_.size(); ++i) lacking -= proof.most[i] * count_[i];
      if (lacking <= 0) continue;
      bool enough = false;
      for (std::size_t t = turn; t < buying_.size() && !enough; ++t) {
        enough = rest * proof.most[buying_[t]] >= lacking * boards_[buying_[t]].price;
      }
      if (enough) continue;
      if (turn == 0) return false;
      const std::size_t before = buying_[turn - 1];
      for (std::size_t t = turn; t < buying_.size(); ++t) {
        if (proof.most[buying_[t]] * boards_[before].price >= proof.most[before] * boards_[buying_[t]].price) return false;
      }
      return true;
    }
    if (turn == buying_.size()) {
      if (rest == 0) decide();
      return true;
    }
    const std::size_t i = buying_[turn];
    const int most = static_cast<int>(std::min<std::int64_t>(rest / boards_[i].price, boards_[i].limit));
    const int least = turn + 1 == buying_.size() ? most : 0;
    for (int n = least; n <= most && !packed_ && !work_.done(); ++n) {
      count_[i] = n;
      if (!list(turn + 1, rest - n * boards_[i].price)) break;
    }
    count_[i] = 0;
    return true;
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
    const PatternProgram::Answer answer =
        program_.solve(pieces_.counts, count_, PatternProgram::Goal::fewest_missing, work_);
    if (answer == PatternProgram::Answer::too_few_boards) {
      proofs_.push_back(program_.proof(work_));
      return;
    }
    Work look{std::min(work_.left, kFirstLook)};
    const std::int64_t given = look.left;
    Fits fits = Fits::gave_up;
    for (int attempt = 0; attempt < kRoundings && fits != Fits::yes; ++attempt) {
      fits = packer_.round(count_, attempt, look);
    }
    if (fits != Fits::yes) fits = packer_.search(count_, look);
    work_.left -= given - look.left;
    if (fits == Fits::yes) take();
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
  std::vector<std::size_t> buying_;
  Counts limits_, count_;
  std::vector<Open> open_;  // undecided, by cost
  BoardChoice best_;
  std::int64_t ceiling_ = 0;  // what the best order found costs
  std::int64_t coin_ = 0;     // greatest common divisor of the prices
  std::int64_t cost_ = 0;
  bool packed_ = false;
  Work work_{kWork};
};

}  // namespace

BoardChoice choose_boards(const Pieces& pieces, const std::vector<BoardKind>& boards) {
  return Search(pieces, boards).run();
}

}  // namespace pitchboard
