#include "engine/cut/pack.hpp"

#include <algorithm>
#include <set>

namespace pitchboard {
namespace {

class Packer {
 public:
  Packer(const Pieces& pieces, const std::vector<Ticks>& capacities, const std::vector<Proof>& proofs, int& steps)
      : sizes_(pieces.sizes), capacities_(capacities), proofs_(proofs), steps_(steps), left_(pieces.counts) {
    for (std::size_t i = 0; i < capacities.size(); ++i) tightest_first_.push_back(i);
    std::ranges::stable_sort(tightest_first_, {}, [&](std::size_t i) { return capacities[i]; });
  }

  Packing run(const Counts& count) {
    boards_ = count;
    Packing packing{.fits = place_longest()};
    packing.boards = filled_;
    return packing;
  }

 private:
  /// What the boards that are left can waste, by each proof. RETURNS false when one of them is overdrawn.
  bool wastes(std::vector<Worth>& allowed) const {
    for (const Proof& proof : proofs_) {
      Worth held = 0;
      for (std::size_t i = 0; i < boards_.size(); ++i) {
        if (boards_[i] > 0) held += proof.fill.most(capacities_[i]) * boards_[i];
      }
      for (std::size_t kind = 0; kind < left_.size(); ++kind) held -= proof.worth[kind] * left_[kind];
      if (held < 0) return false;
      allowed.push_back(held);
    }
    return true;
  }

  Fits place_longest() {
    const auto longest = std::ranges::find_if(left_, [](int n) { return n > 0; });
    if (longest == left_.end()) return Fits::yes;
    const auto kind = static_cast<std::size_t>(longest - left_.begin());
    std::vector<Worth> allowed;
    if (!wastes(allowed)) return Fits::no;
    std::vector<int> state = left_;
    state.insert(state.end(), boards_.begin(), boards_.end());
    if (failed_.contains(state)) return Fits::no;
    for (const std::size_t board : tightest_first_) {
      if (boards_[board] == 0 || capacities_[board] < sizes_[kind]) continue;
      --boards_[board];
      filled_.push_back({board, Counts(left_.size(), 0)});
      const Fits fits = fill(kind, kind, capacities_[board], allowed);
      if (fits != Fits::no) return fits;
      filled_.pop_back();
      ++boards_[board];
    }
    failed_.insert(std::move(state));
    return Fits::no;
  }

  /// Adds pieces of `kind` and shorter ones to the board in hand, most of the longest first; `must` at least once.
  Fits fill(std::size_t must, std::size_t kind, Ticks room, const std::vector<Worth>& allowed) {
    if (--steps_ < 0) return Fits::gave_up;
    const std::size_t board = filled_.back().kind;
    for (std::size_t p = 0; p < proofs_.size(); ++p) {
      Worth best = proofs_[p].fill.most(room);
      for (std::size_t k = must; k < kind; ++k) best += proofs_[p].worth[k] * filled_.back().pieces[k];
      if (best < proofs_[p].fill.most(capacities_[board]) - allowed[p]) return Fits::no;
    }
    while (kind < left_.size() && (left_[kind] == 0 || sizes_[kind] > room)) ++kind;
    if (kind == left_.size()) {
      // A board with room for a piece that is left need not be tried: the same board with that piece is.
      for (std::size_t k = 0; k < left_.size(); ++k) {
        if (left_[k] > 0 && sizes_[k] <= room) return Fits::no;
      }
      return place_longest();
    }
    const int most = static_cast<int>(std::min<Ticks>(left_[kind], room / sizes_[kind]));
    for (int n = most; n >= (kind == must ? 1 : 0); --n) {
      left_[kind] -= n;
      filled_.back().pieces[kind] = n;
      const Fits fits = fill(must, kind + 1, room - n * sizes_[kind], allowed);
      if (fits != Fits::no) return fits;
      filled_.back().pieces[kind] = 0;
      left_[kind] += n;
    }
    return Fits::no;
  }

  const std::vector<Ticks>& sizes_;
  const std::vector<Ticks>& capacities_;
  const std::vector<Proof>& proofs_;
  int& steps_;
  Counts left_, boards_;
  std::vector<std::size_t> tightest_first_;
  std::vector<FilledBoard> filled_;
  std::set<std::vector<int>> failed_;
};

}  // namespace

Packing pack(const Pieces& pieces, const std::vector<Ticks>& capacities, const Counts& count,
             const std::vector<Proof>& proofs, int& steps) {
  return Packer(pieces, capacities, proofs, steps).run(count);
}

}  // namespace pitchboard
