#include <gtest/gtest.h>

#include <algorithm>
#include <optional>
#include <random>
#include <tuple>

#include "engine/cut/left_over.hpp"
#include "tests/cutting_checker.hpp"

namespace pitchboard {
namespace {

struct Small {
  Pieces pieces;
  std::vector<BoardKind> boards;
};

/// Up to seven pieces and four kinds of board: with limits, free and scrap offcuts, bad ends, and prices that tie.
Small small_section(unsigned seed) {
  std::mt19937 random(seed);
  const auto between = [&](int low, int high) {
    return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
  };
  Small made;
  const bool coarse = between(0, 1) == 0;  // many equal sums
  const int step = coarse ? 10 : 1;
  std::vector<std::pair<int, bool>> pieces;
  const bool bad_ends = between(0, 2) == 0;
  for (int n = between(1, 7); n > 0; --n) {
    pieces.emplace_back(between(10 / step, 70 / step) * step, bad_ends && between(0, 1) == 0);
  }
  std::ranges::sort(pieces, std::greater{});
  for (const auto& [size, sound] : pieces) {
    const bool same = !made.pieces.sizes.empty() && made.pieces.sizes.back() == size &&
                      (!bad_ends || made.pieces.sound.back() == sound);
    if (same) {
      ++made.pieces.counts.back();
      continue;
    }
    made.pieces.sizes.push_back(size);
    made.pieces.counts.push_back(1);
    if (bad_ends) made.pieces.sound.push_back(sound);
  }
  const bool linear = between(0, 1) == 0;
  int length = 60;
  for (int kinds = between(1, 3); kinds > 0; --kinds) {
    length += between(1, 4) * 10;
    const int price = linear ? length * 2 : length * between(15, 25) / 10;
    made.boards.push_back({length, price, between(0, 3) == 0 ? between(0, 2) : 9, bad_ends ? between(0, 2) * 10 : 0});
  }
  for (int offcuts = between(0, 1); offcuts > 0; --offcuts) {
    made.boards.push_back({between(20, 59), between(0, 1) == 0 ? 0 : between(5, 40), between(1, 2), 0});
  }
  return made;
}

/// Every piece on every board, one after the other: nothing is clever here.
class BruteForce {
 public:
  /// Cost, kinds of board that cost something, and the longest left-over on one of those, negative: less is better.
  using Value = std::tuple<std::int64_t, int, Ticks>;
  explicit BruteForce(const Small& section) : section_(section) {
    for (std::size_t kind = 0; kind < section.pieces.sizes.size(); ++kind) {
      for (int n = 0; n < section.pieces.counts[kind]; ++n) pieces_.push_back(kind);
    }
    place(0);
  }
  [[nodiscard]] const std::optional<Value>& best() const { return best_; }

 private:
  struct Open {
    std::size_t kind;
    Ticks room, sound_room;
  };

  void place(std::size_t next) {
    if (next == pieces_.size()) return weigh();
    const Ticks size = section_.pieces.sizes[pieces_[next]];
    const bool sound = section_.pieces.is_sound(pieces_[next]);
    const auto on = [&](std::size_t at) {
      if (size > open_[at].room || (sound && size > open_[at].sound_room)) return;
      open_[at].room -= size;
      if (sound) open_[at].sound_room -= size;
      place(next + 1);
      open_[at].room += size;
      if (sound) open_[at].sound_room += size;
    };
    for (std::size_t at = 0; at < open_.size(); ++at) on(at);
    for (std::size_t kind = 0; kind < section_.boards.size(); ++kind) {
      const BoardKind& board = section_.boards[kind];
      if (std::ranges::count(open_, kind, &Open::kind) >= board.limit) continue;
      open_.push_back({kind, board.capacity, board.capacity - board.bad_end});
      on(open_.size() - 1);
      open_.pop_back();
    }
  }

  void weigh() {
    Value value{0, 0, 0};
    std::vector<bool> seen(section_.boards.size(), false);
    for (const Open& open : open_) {
      const std::int64_t price = section_.boards[open.kind].price;
      if (price == 0) continue;
      std::get<0>(value) += price;
      std::get<1>(value) += seen[open.kind] ? 0 : 1;
      std::get<2>(value) = std::min(std::get<2>(value), -open.room);
      seen[open.kind] = true;
    }
    if (!best_ || value < *best_) best_ = value;
  }

  const Small& section_;
  std::vector<std::size_t> pieces_;
  std::vector<Open> open_;
  std::optional<Value> best_;
};

BruteForce::Value value_of(const Small& section, const BoardChoice& choice) {
  std::vector<bool> seen(section.boards.size(), false);
  int kinds = 0;
  for (const FilledBoard& board : choice.boards) {
    if (section.boards[board.kind].price == 0 || seen[board.kind]) continue;
    seen[board.kind] = true;
    ++kinds;
  }
  return {choice.cost, kinds, -longest_left_over(section.pieces, section.boards, choice.boards)};
}

TEST(ChooseBoards, AgreesWithBruteForceOnEverySmallSection) {
  int fitting = 0, with_left_out = 0, tied = 0;
  BoardMemory memory;
  for (unsigned seed = 1; seed <= 3000; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Small section = small_section(seed);
    const BruteForce brute(section);
    const BoardChoice choice = choose_boards(section.pieces, section.boards);
    EXPECT_EQ(fault_of(section.pieces, section.boards, choice), "");
    const bool holds = std::ranges::all_of(choice.left_out, [](int n) { return n == 0; });
    ASSERT_EQ(holds, brute.best().has_value());
    if (!holds) {
      ++with_left_out;
      continue;
    }
    ++fitting;
    EXPECT_EQ(choice.bound, choice.cost);
    EXPECT_EQ(value_of(section, choice), *brute.best());
    const BoardChoice quick = choose_boards(section.pieces, section.boards, Effort::cost_only);
    EXPECT_EQ(quick.cost, choice.cost);
    // The second answer is the remembered one.
    for (int time = 0; time < 2; ++time) {
      const BoardChoice& known = memory.cheapest(section.pieces, section.boards);
      EXPECT_TRUE(std::ranges::equal(known.boards, quick.boards, {}, &FilledBoard::kind, &FilledBoard::kind));
      EXPECT_EQ(known.left_out, quick.left_out);
    }
    tied += value_of(section, quick) != value_of(section, choice);
  }
  EXPECT_GT(fitting, 1500);
  EXPECT_GT(with_left_out, 100);
  EXPECT_GT(tied, 100);
}

}  // namespace
}  // namespace pitchboard
