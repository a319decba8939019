#include "engine/cut/pack.hpp"

#include <algorithm>
#include <numeric>

#include "engine/base/sort.hpp"

namespace pitchboard {
namespace {

constexpr std::size_t kTightProofs = 3;  // that limit the waste on each board; all are asked between boards
constexpr std::size_t kChildren = 1500;  // ways to fill one board that are looked at
constexpr std::size_t kProofsKept = 60;
constexpr int kFewPieces = 24;  // a rest that is searched without the programme
constexpr std::int64_t kFewPiecesWork = 300'000;
constexpr int kFewestCovered = 3;  // fewer are not worth a question to the programme
constexpr double kNearlyWhole = 1e-6;

}  // namespace

void Packer::begin(const Counts& count) {
  left_ = pieces_.counts;
  count_ = count;
  filled_.clear();
  failed_.clear();
  arena_.clear();
  taken_.assign(left_.size(), 0);
  // The proofs with the least to waste, as a part of what they need.
  std::vector<std::pair<double, std::size_t>> spare;
  for (std::size_t p = 0; p < proofs_.size(); ++p) {
    Worth held = -proofs_[p].need;
    for (std::size_t i = 0; i < boards_.size(); ++i) held += proofs_[p].most[i] * count[i];
    spare.emplace_back(static_cast<double>(held) / static_cast<double>(std::max<Worth>(proofs_[p].need, 1)), p);
  }
  sort_stably(spare);
  tight_.clear();
  for (std::size_t i = 0; i < std::min(kTightProofs, spare.size()); ++i) tight_.push_back(spare[i].second);
}

int Packer::pieces_left() const { return std::accumulate(left_.begin(), left_.end(), 0); }

Worth Packer::spare(const Proof& proof) const {
  Worth held = 0;
  for (std::size_t i = 0; i < boards_.size(); ++i) held += proof.most[i] * count_[i];
  for (std::size_t k = 0; k < left_.size(); ++k) held -= proof.worth[k] * left_[k];
  return held;
}

void Packer::put(std::size_t board, const Counts& wanted) {
  filled_.push_back({board, wanted});
  --count_[board];
  for (std::size_t kind = 0; kind < wanted.size(); ++kind) left_[kind] -= wanted[kind];
}

void Packer::take_back() {
  for (std::size_t kind = 0; kind < left_.size(); ++kind) left_[kind] += filled_.back().pieces[kind];
  ++count_[filled_.back().kind];
  filled_.pop_back();
}

/// Cuts a board by the pattern, less what is not left, and fills what room that gives.
void Packer::cut(std::size_t pattern) {
  const std::size_t board = program_->board_of(pattern);
  if (count_[board] == 0) return;
  Counts wanted(left_.size(), 0);
  Ticks room = boards_[board].capacity, sound_room = room - boards_[board].bad_end;
  const auto take = [&](std::size_t kind, int most) {
    const Ticks fits = (pieces_.is_sound(kind) ? std::min(room, sound_room) : room) / pieces_.sizes[kind];
    const int n = static_cast<int>(std::clamp<Ticks>(fits, 0, std::min(most, left_[kind] - wanted[kind])));
    wanted[kind] += n;
    room -= n * pieces_.sizes[kind];
    if (pieces_.is_sound(kind)) sound_room -= n * pieces_.sizes[kind];
  };
  for (const PatternProgram::Entry& entry : program_->entries(pattern)) take(entry.kind, entry.count);
  for (std::size_t kind = 0; kind < left_.size(); ++kind) take(kind, left_[kind]);
  if (std::ranges::any_of(wanted, [](int n) { return n > 0; })) put(board, wanted);
}

Fits Packer::round(const Counts& count, int attempt, Work& work) {
  begin(count);
  guided_ = false;
  for (std::size_t turn = 0; pieces_left() > 0; ++turn) {
    if (work.done()) return Fits::gave_up;
    if (pieces_left() <= kFewPieces) {
      Work few{std::min(work.left, kFewPiecesWork)};
      const std::int64_t given = few.left;
      const Fits fits = place(few);
      work.left -= given - few.left;
      if (fits != Fits::gave_up) return fits;
    }
    if (program_->solve(left_, count_, PatternProgram::Goal::fewest_missing, work) != PatternProgram::Answer::covered) {
      return Fits::no;
    }
    const std::vector<PatternProgram::Use>& used = program_->used();
    if (used.empty()) return Fits::no;
    bool whole = false;
    for (const PatternProgram::Use& use : used) {
      for (int n = static_cast<int>(use.times + kNearlyWhole); n > 0; --n) {
        cut(use.pattern);
        whole = true;
      }
    }
    if (whole) continue;
    // The first attempt takes what is nearest to whole; the others pick among the next as well, each in its own way.
    const std::size_t mixed = static_cast<std::size_t>(attempt) * 7919U + turn * 104729U;
    cut(used[attempt == 0 ? 0 : mixed / 13U % std::min<std::size_t>(used.size(), 3)].pattern);
  }
  return Fits::yes;
}

Fits Packer::search(const Counts& count, Work& work) {
  begin(count);
  guided_ = program_ != nullptr;
  return place(work);
}

Fits Packer::place(Work& work) {
  const auto longest = std::ranges::find_if(left_, [](int n) { return n > 0; });
  if (longest == left_.end()) return Fits::yes;
  work.spend(proofs_.size() * left_.size() + 100);
  if (work.done()) return Fits::gave_up;
  if (std::ranges::any_of(proofs_, [&](const Proof& proof) { return spare(proof) < 0; })) return Fits::no;
  std::vector<int> state = left_;
  state.insert(state.end(), count_.begin(), count_.end());
  if (failed_.contains(state)) return Fits::no;
  std::vector<PatternProgram::Use> used;
  if (guided_ && pieces_left() > kFewestCovered) {
    const PatternProgram::Answer answer = program_->solve(left_, count_, PatternProgram::Goal::fewest_missing, work);
    if (answer == PatternProgram::Answer::gave_up) return Fits::gave_up;
    if (answer == PatternProgram::Answer::too_few_boards) {
      if (proofs_.size() < kProofsKept) {
        Proof proof = program_->proof(work);
        if (spare(proof) < 0) proofs_.push_back(std::move(proof));
      }
      failed_.insert(std::move(state));
      return Fits::no;
    }
    used = program_->used();
  }
  const std::size_t arena_was = arena_.size();
  const std::vector<Child> ways = children(static_cast<std::size_t>(longest - left_.begin()), used, work);
  Fits answer = truncated_ ? Fits::gave_up : Fits::no;
  for (const Child& child : ways) {
    const auto at = arena_.begin() + static_cast<std::ptrdiff_t>(child.at);
    put(static_cast<std::size_t>(*at), Counts(at + 1, at + 1 + static_cast<std::ptrdiff_t>(left_.size())));
    const Fits fits = place(work);
    if (fits == Fits::yes) return fits;
    take_back();
    // Whatever was not looked at for want of work is not refuted.
    if (fits == Fits::gave_up || work.done()) answer = Fits::gave_up;
    if (work.done()) break;
  }
  arena_.resize(arena_was);
  if (answer == Fits::no) failed_.insert(std::move(state));
  return answer;
}

/// RETURNS every way to fill a board round that piece, the best to try first. Sets `truncated_` if there are more.
std::vector<Packer::Child> Packer::children(std::size_t kind, const std::vector<PatternProgram::Use>& used,
                                            Work& work) {
  const std::size_t first = arena_.size(), stride = left_.size() + 1;
  must_ = kind;
  child_count_ = 0;
  truncated_ = false;
  for (std::size_t board = 0; board < boards_.size(); ++board) {
    if (count_[board] == 0) continue;
    lowest_.clear();
    for (const std::size_t p : tight_) lowest_.push_back(proofs_[p].most[board] - spare(proofs_[p]));
    fill(board, kind, boards_[board].capacity, boards_[board].capacity - boards_[board].bad_end, work);
  }
  std::vector<Child> order;
  for (std::size_t c = 0; c < child_count_; ++c) {
    const int* at = arena_.data() + first + c * stride;
    Child child{times_used(at, used), boards_[static_cast<std::size_t>(at[0])].capacity, first + c * stride};
    for (std::size_t k = 0; k < left_.size(); ++k) child.waste -= at[k + 1] * pieces_.sizes[k];
    order.push_back(child);
  }
  sort_stably(
      order, [](const Child& p, const Child& q) { return p.times != q.times ? p.times > q.times : p.waste < q.waste; });
  work.spend(child_count_ * (left_.size() + used.size() * 8));
  return order;
}

/// RETURNS how often the cover uses just that board so filled.
double Packer::times_used(const int* child, const std::vector<PatternProgram::Use>& used) const {
  int held = 0;
  for (std::size_t k = 0; k < left_.size(); ++k) held += child[k + 1];
  for (const PatternProgram::Use& use : used) {
    if (program_->board_of(use.pattern) != static_cast<std::size_t>(child[0])) continue;
    int same = 0;
    for (const PatternProgram::Entry& entry : program_->entries(use.pattern)) {
      if (child[entry.kind + 1] != entry.count) {
        same = -1;
        break;
      }
      same += entry.count;
    }
    if (same == held) return use.times;
  }
  return 0.0;
}

/// A board need not be tried if a piece that is left has room on it, or if one on it can be changed for a longer one
/// that is left: the same boards with that piece here do as well.
bool Packer::fully_filled(Ticks room, Ticks sound_room) const {
  for (std::size_t kind = 0; kind < left_.size(); ++kind) {
    if (left_[kind] - taken_[kind] <= 0) continue;
    const Ticks free = pieces_.is_sound(kind) ? std::min(room, sound_room) : room;
    if (pieces_.sizes[kind] <= free) return false;
    for (std::size_t on = kind + 1; on < left_.size(); ++on) {
      if (taken_[on] > 0 && pieces_.is_sound(on) == pieces_.is_sound(kind) &&
          pieces_.sizes[kind] - pieces_.sizes[on] <= free) {
        return false;
      }
    }
  }
  return true;
}

void Packer::fill(std::size_t board, std::size_t kind, Ticks room, Ticks sound_room, Work& work) {
  work.spend(20);
  if (child_count_ == kChildren || work.done()) {
    truncated_ = true;
    return;
  }
  for (std::size_t i = 0; i < tight_.size(); ++i) {
    const Proof& proof = proofs_[tight_[i]];
    Worth best = proof.held.on(room);
    for (std::size_t k = must_; k < kind; ++k) best += proof.worth[k] * taken_[k];
    if (best < lowest_[i]) return;
  }
  while (kind < left_.size() && (left_[kind] == 0 || pieces_.sizes[kind] > room ||
                                 (pieces_.is_sound(kind) && pieces_.sizes[kind] > sound_room))) {
    if (kind == must_) return;
    ++kind;
  }
  if (kind == left_.size()) {
    work.spend(left_.size() * 4);
    if (!fully_filled(room, sound_room)) return;
    arena_.push_back(static_cast<int>(board));
    arena_.insert(arena_.end(), taken_.begin(), taken_.end());
    ++child_count_;
    return;
  }
  const Ticks free = pieces_.is_sound(kind) ? std::min(room, sound_room) : room;
  const int most = static_cast<int>(std::min<Ticks>(left_[kind], free / pieces_.sizes[kind]));
  for (int n = most; n >= (kind == must_ ? 1 : 0); --n) {
    taken_[kind] = n;
    const Ticks size = n * pieces_.sizes[kind];
    fill(board, kind + 1, room - size, pieces_.is_sound(kind) ? sound_room - size : sound_room, work);
  }
  taken_[kind] = 0;
}

}  // namespace pitchboard
