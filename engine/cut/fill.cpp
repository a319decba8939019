#include "engine/cut/fill.hpp"

#include <algorithm>
#include <limits>
#include <utility>

#include "engine/base/sort.hpp"

namespace pitchboard {
namespace {

constexpr std::size_t kStepsPerFill = 4;
constexpr Worth kRateParts = 1024;
constexpr int kQuickSteps = 600;

/// Kinds that are there and worth something, best value first: what the rest of a board can still be worth is then
/// known best.
void by_value(const Pieces& pieces, const Counts& counts, const std::vector<Worth>& worth,
              std::vector<std::size_t>& order) {
  order.clear();
  for (std::size_t kind = 0; kind < counts.size(); ++kind) {
    if (worth[kind] > 0 && counts[kind] > 0) order.push_back(kind);
  }
  sort_stably(order,
              [&](std::size_t i, std::size_t j) { return worth[i] * pieces.sizes[j] > worth[j] * pieces.sizes[i]; });
}

/// RETURNS worth per tick, rounded up, in parts of 1 / kRateParts.
Worth rate_of(Worth worth, Ticks size) { return (worth * kRateParts + size - 1) / size; }

}  // namespace

void BestFill::start() {
  origins_.assign(1, {});
  most_.all_.assign(1, {});
  most_.sound_.clear();
  most_.others_.clear();
}

void BestFill::grow(Fills& best, std::size_t kind, Ticks size, Worth worth, int copies, Ticks largest) {
  // Only fills that took the last copy can take one more: the others have already been tried with it.
  fresh_.assign(best.begin(), best.end());
  for (int copy = 0; copy < copies && !fresh_.empty(); ++copy) {
    merged_.resize(std::max(merged_.size(), best.size() + fresh_.size()));
    kept_.resize(std::max(kept_.size(), fresh_.size()));
    Fill* merged = merged_.data();
    Fill* kept = kept_.data();
    const Fill* old = best.data();
    const Fill* const end = old + best.size();
    Worth highest = -1;
    auto place = static_cast<std::int32_t>(origins_.size());
    for (const Fill& base : fresh_) {
      const Ticks grown_size = base.size + size;
      const Worth grown_worth = base.worth + worth;
      if (grown_size > largest) break;
      for (; old != end && (old->size < grown_size || (old->size == grown_size && old->worth >= grown_worth)); ++old) {
        if (old->worth <= highest) continue;
        highest = old->worth;
        *merged++ = *old;
      }
      if (grown_worth <= highest) continue;
      highest = grown_worth;
      *merged = {static_cast<std::int32_t>(grown_size), place++, grown_worth};
      *kept++ = *merged++;
      origins_.push_back({static_cast<std::int32_t>(kind), base.place});
    }
    for (; old != end; ++old) {
      if (old->worth <= highest) continue;
      highest = old->worth;
      *merged++ = *old;
    }
    best.assign(merged_.data(), merged);
    fresh_.assign(kept_.data(), kept);
  }
}

void BestFill::find(const Pieces& pieces, const Counts& counts, const std::vector<Worth>& worth, Ticks largest,
                    Work& work) {
  start();
  const bool has_sound = std::ranges::find(pieces.sound, true) != pieces.sound.end();
  const auto add = [&](Fills& fills, std::size_t kind) {
    const int copies = static_cast<int>(std::min<Ticks>(counts[kind], largest / pieces.sizes[kind]));
    grow(fills, kind, pieces.sizes[kind], worth[kind], copies, largest);
    work.spend(kStepsPerFill * fills.size() * static_cast<std::size_t>(copies));
  };
  // Best value first keeps the lists short.
  by_value(pieces, counts, worth, order_);
  if (has_sound) {
    most_.others_.assign(1, {});
    for (const std::size_t kind : order_) add(pieces.is_sound(kind) ? most_.all_ : most_.others_, kind);
    most_.sound_ = most_.all_;
  }
  for (const std::size_t kind : order_) {
    if (!has_sound || !pieces.is_sound(kind)) add(most_.all_, kind);
  }
}

void BestFill::find_above(const Pieces& pieces, const Counts& counts, const std::vector<Worth>& worth,
                          const std::vector<Target>& targets, Work& work) {
  if (std::ranges::find(pieces.sound, true) != pieces.sound.end()) {
    return find(pieces, counts, worth, targets.back().capacity, work);
  }
  start();
  by_value(pieces, counts, worth, order_);
  const Ticks largest = targets.back().capacity;
  for (const std::size_t kind : order_) {
    drop_hopeless(most_.all_, targets, pieces.sizes[kind], worth[kind]);
    const int copies = static_cast<int>(std::min<Ticks>(counts[kind], largest / pieces.sizes[kind]));
    grow(most_.all_, kind, pieces.sizes[kind], worth[kind], copies, largest);
    work.spend(kStepsPerFill * most_.all_.size() * static_cast<std::size_t>(copies));
  }
}

/// Drops fills that reach no target even if all room left is worth as much as on a piece of that size and worth.
void BestFill::drop_hopeless(Fills& best, const std::vector<Target>& targets, Ticks size, Worth worth) {
  const Worth rate = rate_of(worth, size);
  asked_.assign(targets.size() + 1, std::numeric_limits<Worth>::max());
  for (std::size_t i = targets.size(); i-- > 0;) {
    asked_[i] = std::min(asked_[i + 1], targets[i].worth * kRateParts - targets[i].capacity * rate);
  }
  std::size_t target = 0, kept = 0;
  for (const Fill& fill : best) {
    while (target < targets.size() && targets[target].capacity < fill.size) ++target;
    if (target == targets.size()) break;
    if (fill.size == 0 || fill.worth * kRateParts - fill.size * rate >= asked_[target]) best[kept++] = fill;
  }
  best.resize(kept);
}

std::size_t MostWorth::at(const Fills& fills, Ticks capacity) {
  const auto after = std::ranges::upper_bound(fills, std::max<Ticks>(capacity, 0), {}, &Fill::size);
  return static_cast<std::size_t>(after - fills.begin()) - 1;
}

std::pair<const MostWorth::Fill*, const MostWorth::Fill*> MostWorth::split(const BoardKind& board) const {
  std::size_t other = at(others_, board.capacity);
  std::pair<const Fill*, const Fill*> best{sound_.data(), &others_[other]};
  for (const Fill& fill : sound_) {
    if (fill.size > board.capacity - board.bad_end) break;
    while (others_[other].size > board.capacity - fill.size) --other;
    if (fill.worth + others_[other].worth > best.first->worth + best.second->worth) best = {&fill, &others_[other]};
  }
  return best;
}

Worth MostWorth::on(const BoardKind& board) const {
  if (sound_.empty() || board.bad_end == 0) return on(board.capacity);
  const auto [sound, other] = split(board);
  return sound->worth + other->worth;
}

void BestFill::count(std::int32_t fill, Counts& counts) const {
  for (const Origin* at = &origins_[static_cast<std::size_t>(fill)]; at->last >= 0;
       at = &origins_[static_cast<std::size_t>(at->before)]) {
    ++counts[static_cast<std::size_t>(at->last)];
  }
}

void BestFill::pieces_on(const BoardKind& board, Counts& counts) const {
  std::ranges::fill(counts, 0);
  if (most_.sound_.empty() || board.bad_end == 0) {
    return count(most_.all_[MostWorth::at(most_.all_, board.capacity)].place, counts);
  }
  const auto [sound, other] = most_.split(board);
  count(sound->place, counts);
  count(other->place, counts);
}

void QuickFill::begin(const Pieces& pieces, const Counts& counts, const std::vector<Worth>& worth) {
  pieces_ = &pieces;
  counts_ = &counts;
  worth_ = &worth;
  by_value(pieces, counts, worth, order_);
  rate_.clear();
  for (const std::size_t kind : order_) rate_.push_back(rate_of(worth[kind], pieces.sizes[kind]));
  taken_.assign(counts.size(), 0);
}

bool QuickFill::better_than(Worth target, const BoardKind& board, Counts& counts, Work& work) {
  best_ = target;
  found_ = &counts;
  steps_ = kQuickSteps;
  dig(0, board.capacity, board.capacity - board.bad_end, 0);
  work.spend(static_cast<std::size_t>(kQuickSteps - std::max(steps_, 0)) * 8);
  return best_ > target;
}

void QuickFill::dig(std::size_t turn, Ticks room, Ticks sound_room, Worth so_far) {
  if (so_far > best_) {
    best_ = so_far;
    *found_ = taken_;
  }
  if (turn == order_.size() || (so_far - best_) * kRateParts + room * rate_[turn] <= 0 || --steps_ < 0) return;
  const std::size_t kind = order_[turn];
  const Ticks size = pieces_->sizes[kind];
  const bool sound = pieces_->is_sound(kind);
  const Ticks fits = std::max<Ticks>(sound ? std::min(room, sound_room) : room, 0) / size;
  for (Ticks n = std::min<Ticks>(fits, (*counts_)[kind]); n >= 0 && steps_ >= 0; --n) {
    taken_[kind] = static_cast<int>(n);
    dig(turn + 1, room - n * size, sound ? sound_room - n * size : sound_room, so_far + n * (*worth_)[kind]);
  }
  taken_[kind] = 0;
}

}  // namespace pitchboard
