#include "engine/cut/fill.hpp"

#include <algorithm>

namespace pitchboard {

BestFill::BestFill(const Pieces& pieces, const std::vector<Worth>& worth, Ticks largest) : kinds_(pieces.sizes.size()) {
  grown_.push_back({});
  std::vector<int> best{0}, merged, kept;
  for (std::size_t kind = 0; kind < kinds_; ++kind) {
    if (worth[kind] == 0) continue;
    // Only fills that took the last copy can take one more: the others have already been tried with it.
    std::vector<int> fresh = best;
    for (int copy = 0; copy < pieces.counts[kind] && !fresh.empty(); ++copy) {
      merged.clear();
      kept.clear();
      Worth highest = -1;
      std::size_t old = 0, added = 0;
      while (old < best.size() || added < fresh.size()) {
        Fill grown;
        if (added < fresh.size()) {
          const Fill& base = grown_[static_cast<std::size_t>(fresh[added])];
          grown = {base.size + pieces.sizes[kind], base.worth + worth[kind], static_cast<int>(kind), fresh[added]};
          if (grown.size > largest) {
            added = fresh.size();
            continue;
          }
        }
        const bool take_old = added == fresh.size() || (old < best.size() && [&] {
                                const Fill& have = grown_[static_cast<std::size_t>(best[old])];
                                return have.size < grown.size || (have.size == grown.size && have.worth >= grown.worth);
                              }());
        if (take_old) {
          const int have = best[old++];
          if (grown_[static_cast<std::size_t>(have)].worth > highest) {
            highest = grown_[static_cast<std::size_t>(have)].worth;
            merged.push_back(have);
          }
        } else {
          ++added;
          if (grown.worth > highest) {
            highest = grown.worth;
            grown_.push_back(grown);
            merged.push_back(static_cast<int>(grown_.size()) - 1);
            kept.push_back(merged.back());
          }
        }
      }
      best.swap(merged);
      fresh.swap(kept);
    }
  }
  place_ = best;
  for (const int index : best) fills_.push_back(grown_[static_cast<std::size_t>(index)]);
}

std::size_t BestFill::at(Ticks capacity) const {
  const auto after = std::ranges::upper_bound(fills_, std::max<Ticks>(capacity, 0), {}, &Fill::size);
  return static_cast<std::size_t>(after - fills_.begin()) - 1;
}

Counts BestFill::pieces(Ticks capacity) const {
  Counts counts(kinds_, 0);
  for (int i = place_[at(capacity)]; grown_[static_cast<std::size_t>(i)].last >= 0;) {
    const Fill& fill = grown_[static_cast<std::size_t>(i)];
    ++counts[static_cast<std::size_t>(fill.last)];
    i = fill.before;
  }
  return counts;
}

}  // namespace pitchboard
