#include "engine/cut/board_search.hpp"

#include <algorithm>
#include <numeric>
#include <optional>

#include "engine/base/sort.hpp"
#include "engine/cut/count_list.hpp"
#include "engine/cut/left_over.hpp"

// METHOD  Counts of boards come from the list upward in cost; the packer decides each. The first that can be packed are
//         the cheapest. See docs/cutting.md.

namespace pitchboard {
namespace {

// In steps of about a nanosecond; the programme's tableau has rows times rows cells. A stair's section needs a few
// hundred thousand.
constexpr std::int64_t kWork = 200'000'000, kWorkPerCell = 15'000, kMostWork = 2'000'000'000;
// For one set of counts, before the dearer ones are looked at.
constexpr std::int64_t kFirstLook = 6'000'000, kFirstLookPerCell = 3'000;
constexpr int kRoundings = 4, kMoreRoundings = 12;
// For choosing among equally cheap ones.
constexpr std::int64_t kTidying = 500'000;
constexpr std::size_t kTies = 100;

/// Of the programme's tableau.
std::int64_t cells_of(const Pieces& pieces, const std::vector<BoardKind>& boards) {
  const auto rows = static_cast<std::int64_t>(pieces.sizes.size() + boards.size());
  return rows * rows;
}

/// RETURNS the boards, no kind more often than there are pieces.
std::vector<BoardKind> limited(const Pieces& pieces, std::vector<BoardKind> boards) {
  const int total = std::accumulate(pieces.counts.begin(), pieces.counts.end(), 0);
  for (BoardKind& board : boards) board.limit = std::min(board.limit, total);
  return boards;
}

/// A first order: board by board, whichever costs least for the length it takes up.
BoardChoice fill_greedily(const Pieces& pieces, const std::vector<BoardKind>& boards) {
  BoardChoice choice{.left_out = Counts(pieces.sizes.size(), 0)};
  Counts left = pieces.counts, have;
  for (const BoardKind& board : boards) have.push_back(board.limit);
  for (std::size_t kind = 0; kind < left.size();) {
    if (left[kind] == 0) {
      ++kind;
      continue;
    }
    std::optional<FilledBoard> best;
    Ticks best_used = 1;
    for (std::size_t i = 0; i < boards.size(); ++i) {
      if (have[i] == 0) continue;
      FilledBoard board{i, Counts(left.size(), 0)};
      Ticks room = boards[i].capacity, sound_room = room - boards[i].bad_end;
      for (std::size_t k = kind; k < left.size(); ++k) {
        const Ticks free = pieces.is_sound(k) ? std::min(room, sound_room) : room;
        board.pieces[k] = static_cast<int>(std::clamp<Ticks>(free / pieces.sizes[k], 0, left[k]));
        room -= board.pieces[k] * pieces.sizes[k];
        if (pieces.is_sound(k)) sound_room -= board.pieces[k] * pieces.sizes[k];
      }
      if (board.pieces[kind] == 0) continue;
      const Ticks used = boards[i].capacity - room;
      if (!best || boards[i].price * best_used < boards[best->kind].price * used) {
        best = board;
        best_used = used;
      }
    }
    if (!best) {
      std::swap(choice.left_out[kind], left[kind]);
      continue;
    }
    --have[best->kind];
    choice.cost += boards[best->kind].price;
    for (std::size_t k = 0; k < left.size(); ++k) left[k] -= best->pieces[k];
    choice.boards.push_back(*best);
  }
  return choice;
}

class Search {
 public:
  /// `first`: an order to start from; `by_length`: what the lengths prove. REQUIRES that pieces and boards outlive it.
  Search(const Pieces& pieces, const std::vector<BoardKind>& boards, BoardChoice first, Proof by_length, Work work)
      : pieces_(pieces),
        boards_(boards),
        program_(pieces, boards),
        packer_(pieces, boards, proofs_, &program_),
        list_(pieces, boards, program_, proofs_),
        best_(std::move(first)),
        work_(work) {
    proofs_.push_back(std::move(by_length));
  }

  BoardChoice run(Effort effort) {
    const bool holds = std::ranges::all_of(best_.left_out, [](int n) { return n == 0; });
    Counts limits;
    std::int64_t ceiling = best_.cost;
    if (!holds) ceiling = 1;
    for (const BoardKind& board : boards_) {
      limits.push_back(board.limit);
      if (!holds) ceiling += board.price * board.limit;
    }
    // One price asks only for how many: the length answers that nearly always.
    if (std::ranges::count_if(boards_, [](const BoardKind& b) { return b.price > 0 && b.limit > 0; }) != 1) {
      const PatternProgram::Answer answer =
          program_.solve(pieces_.counts, limits, PatternProgram::Goal::least_cost, work_);
      proofs_.push_back(program_.proof(work_));
      if (answer == PatternProgram::Answer::too_few_boards) return best_;
    }
    list_.begin();
    const std::int64_t proven = climb(ceiling);
    best_.bound = holds || packed_ ? std::min(proven, best_.cost) : 0;
    if (effort == Effort::tidy && best_.bound == best_.cost) tidy();
    return best_;
  }

 private:
  /// Looks for an order cheaper than `ceiling`. RETURNS a cost that no order undercuts.
  std::int64_t climb(std::int64_t ceiling) {
    const std::int64_t step = std::max<std::int64_t>(list_.coin(), 1);
    std::vector<CountList::Found> open;  // undecided, by cost
    std::int64_t low = list_.bound(ceiling), width = step;
    while (low < ceiling) {
      const CountList::Found found = list_.cheapest(low, std::min(low + width, ceiling) - 1, work_);
      if (work_.done()) break;
      if (found.count.empty()) {
        low += width;
        width *= 2;
        continue;
      }
      low = found.cost;
      const Fits fits = look(found.count);
      if (fits == Fits::yes) break;
      if (fits == Fits::no) {
        list_.refute(found.count);
      } else {
        list_.set_aside(found.count);
        open.push_back(found);
      }
    }
    const std::int64_t reached = std::min(low, ceiling);
    for (const CountList::Found& found : open) {
      if (list_.rejects(found.count)) continue;
      const Fits fits = pack(found.count, kRoundings, kMoreRoundings, work_);
      if (fits != Fits::no) return found.cost;
    }
    return reached;
  }

  void take() {
    packed_ = true;
    best_.boards = packer_.boards();
    best_.left_out.assign(pieces_.sizes.size(), 0);
    best_.cost = 0;
    for (const FilledBoard& board : best_.boards) best_.cost += boards_[board.kind].price;
  }

  /// RETURNS whether the pieces fit, and takes them so: by rounding in so many ways from that one on, then by search.
  Fits pack(const Counts& count, int attempt, int attempts, Work& work) {
    Fits fits = Fits::gave_up;
    for (; attempts > 0 && fits != Fits::yes && !work.done(); --attempts) {
      fits = packer_.round(count, attempt++, work);
    }
    if (fits != Fits::yes) fits = packer_.search(count, work);
    if (fits == Fits::yes) take();
    return fits;
  }

  /// As pack(), within the work of a first look.
  Fits look(const Counts& count) {
    Work work{std::min(work_.left, kFirstLook + kFirstLookPerCell * cells_of(pieces_, boards_))};
    const std::int64_t given = work.left;
    const Fits fits = pack(count, 0, kRoundings, work);
    work_.left -= given - work.left;
    return fits;
  }

  /// Among equally cheap orders: the fewest kinds of board, then the longest left-over.
  void tidy() {
    work_.left = kTidying;
    Counts own(boards_.size(), 0);
    for (const FilledBoard& board : best_.boards) ++own[board.kind];
    for (std::size_t i = 0; i < boards_.size(); ++i) {
      if (boards_[i].price == 0) own[i] = boards_[i].limit;
    }
    const auto kinds_of = [&](const Counts& count) {
      int kinds = 0;
      for (std::size_t i = 0; i < count.size(); ++i) kinds += count[i] > 0 && boards_[i].price > 0;
      return kinds;
    };
    const auto length_of = [&](const Counts& count) {
      Ticks length = 0;
      for (std::size_t i = 0; i < count.size(); ++i) length += boards_[i].capacity * count[i];
      return length;
    };
    std::vector<Counts> ties{own};
    list_.set_aside(own);
    while (ties.size() < kTies) {
      CountList::Found found = list_.cheapest(best_.cost, best_.cost, work_);
      if (found.count.empty()) break;
      list_.set_aside(found.count);
      ties.push_back(std::move(found.count));
    }
    sort_stably(ties, [&](const Counts& p, const Counts& q) {
      const int more = kinds_of(p) - kinds_of(q);
      return more != 0 ? more < 0 : length_of(p) > length_of(q);
    });
    int kinds = kinds_of(own);
    Ticks longest = longest_left_over(pieces_, boards_, best_.boards);
    for (const Counts& count : ties) {
      if (kinds_of(count) > kinds || work_.done()) break;
      if (kinds_of(count) < kinds) {
        if (pack(count, 0, 1, work_) != Fits::yes) continue;
        kinds = kinds_of(count);
        longest = longest_left_over(pieces_, boards_, best_.boards);
      }
      lengthen_left_over(pieces_, boards_, proofs_, count, best_.boards, longest, work_);
    }
  }

  const Pieces& pieces_;
  const std::vector<BoardKind>& boards_;
  std::vector<Proof> proofs_;
  PatternProgram program_;
  Packer packer_;
  CountList list_;
  BoardChoice best_;
  bool packed_ = false;
  Work work_;
};

}  // namespace

BoardChoice choose_boards(const Pieces& pieces, const std::vector<BoardKind>& stock, Effort effort) {
  const std::vector<BoardKind> boards = limited(pieces, stock);
  BoardChoice first = fill_greedily(pieces, boards);
  Work work{std::min(kWork + kWorkPerCell * cells_of(pieces, boards), kMostWork)};
  BestFill fill;
  Proof by_length = proof_by(pieces, boards, {pieces.sizes.begin(), pieces.sizes.end()}, fill, work);
  // Mostly the lengths prove that nothing is cheaper.
  const bool holds = std::ranges::all_of(first.left_out, [](int n) { return n == 0; });
  if (effort == Effort::cost_only && holds && cost_by(by_length, boards, first.cost) == first.cost) {
    first.bound = first.cost;
    return first;
  }
  return Search(pieces, boards, std::move(first), std::move(by_length), work).run(effort);
}

const BoardChoice& BoardMemory::cheapest(const Pieces& pieces, const std::vector<BoardKind>& boards) {
  Question question;
  question.figures.reserve(1 + pieces.sizes.size() * 3 + boards.size() * 4);
  const auto put = [&](std::int64_t figure) {
    question.sum = (question.sum + static_cast<std::uint64_t>(figure)) * 0x9E3779B97F4A7C15;
    question.figures.push_back(figure);
  };
  put(static_cast<std::int64_t>(pieces.sizes.size()));  // where the pieces end and the boards begin
  for (std::size_t kind = 0; kind < pieces.sizes.size(); ++kind) {
    put(pieces.sizes[kind]);
    put(pieces.counts[kind]);
    put(pieces.is_sound(kind));
  }
  for (const BoardKind& board : boards) {
    put(board.capacity);
    put(board.price);
    put(board.limit);
    put(board.bad_end);
  }
  const auto [answer, unknown] = known_.try_emplace(std::move(question));
  BoardChoice& choice = answer->second;
  if (unknown) {
    choice = choose_boards(pieces, boards, Effort::cost_only);
    for (FilledBoard& board : choice.boards) board.pieces = {};
  }
  return choice;
}

}  // namespace pitchboard
