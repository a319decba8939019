#include "engine/cut/fill.hpp"

#include <algorithm>
#include <utility>

namespace pitchboard {

void BestFill::grow(Fills& best, std::size_t kind, Ticks size, Worth worth, int copies, Ticks largest) {
  // Only fills that took the last copy can take one more: the others have already been tried with it.
  fresh_ = best;
  for (int copy = 0; copy < copies && !fresh_.empty(); ++copy) {
    merged_.clear();
    kept_.clear();
    Worth highest = -1;
    std::size_t old = 0;
    for (const Fill& base : fresh_) {
      Fill grown{base.size + size, base.worth + worth, static_cast<int>(kind), base.place, 0};
      if (grown.size > largest) break;
      for (; old < best.size() &&
             (best[old].size < grown.size || (best[old].size == grown.size && best[old].worth >= grown.worth));
           ++old) {
        if (best[old].worth <= highest) continue;
        highest = best[old].worth;
        merged_.push_back(best[old]);
      }
      if (grown.worth <= highest) continue;
      highest = grown.worth;
      grown.place = static_cast<int>(grown_.size());
      grown_.push_back(grown);
      merged_.push_back(grown);
      kept_.push_back(grown);
    }
    for (; old < best.size(); ++old) {
      if (best[old].worth <= highest) continue;
      highest = best[old].worth;
      merged_.push_back(best[old]);
    }
    best.swap(merged_);
    fresh_.swap(kept_);
  }
}

void BestFill::find(const Pieces& pieces, const Counts& counts, const std::vector<Worth>& worth, Ticks largest,
                    Work& work) {
  grown_.assign(1, {});
  fills_.assign(1, {});
  has_sound_ = std::ranges::find(pieces.sound, true) != pieces.sound.end();
  const auto add = [&](Fills& fills, std::size_t kind) {
    if (worth[kind] == 0 || counts[kind] == 0) return;
    const int copies = static_cast<int>(std::min<Ticks>(counts[kind], largest / pieces.sizes[kind]));
    grow(fills, kind, pieces.sizes[kind], worth[kind], copies, largest);
    work.spend(4 * fills.size() * static_cast<std::size_t>(copies));
  };
  if (has_sound_) {
    others_.assign(1, {});
    for (std::size_t kind = 0; kind < counts.size(); ++kind) add(pieces.is_sound(kind) ? fills_ : others_, kind);
    sound_fills_ = fills_;
  }
  for (std::size_t kind = 0; kind < counts.size(); ++kind) {
    if (!has_sound_ || !pieces.is_sound(kind)) add(fills_, kind);
  }
}

std::size_t BestFill::at(const Fills& fills, Ticks capacity) {
  const auto after = std::ranges::upper_bound(fills, std::max<Ticks>(capacity, 0), {}, &Fill::size);
  return static_cast<std::size_t>(after - fills.begin()) - 1;
}

std::pair<std::size_t, std::size_t> BestFill::split(const BoardKind& board) const {
  std::pair<std::size_t, std::size_t> best{0, at(others_, board.capacity)};
  std::size_t other = best.second;
  for (std::size_t i = 0; i < sound_fills_.size() && sound_fills_[i].size <= board.capacity - board.bad_end; ++i) {
    while (others_[other].size > board.capacity - sound_fills_[i].size) --other;
    if (sound_fills_[i].worth + others_[other].worth > sound_fills_[best.first].worth + others_[best.second].worth) {
      best = {i, other};
    }
  }
  return best;
}

Worth BestFill::most_on(const BoardKind& board) const {
  if (!has_sound_ || board.bad_end == 0) return most(board.capacity);
  const auto [sound, other] = split(board);
  return sound_fills_[sound].worth + others_[other].worth;
}

void BestFill::count(int fill, Counts& counts) const {
  for (; grown_[static_cast<std::size_t>(fill)].last >= 0; fill = grown_[static_cast<std::size_t>(fill)].before) {
    ++counts[static_cast<std::size_t>(grown_[static_cast<std::size_t>(fill)].last)];
  }
}

void BestFill::pieces_on(const BoardKind& board, Counts& counts) const {
  std::ranges::fill(counts, 0);
  if (!has_sound_ || board.bad_end == 0) return count(fills_[at(fills_, board.capacity)].place, counts);
  const auto [sound, other] = split(board);
  count(sound_fills_[sound].place, counts);
  count(others_[other].place, counts);
}

}  // namespace pitchboard
