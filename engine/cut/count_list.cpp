#include "engine/cut/count_list.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
#include <utility>

#include "engine/base/sort.hpp"

namespace pitchboard {
namespace {

constexpr std::size_t kStepsPerProof = 12;
constexpr int kBranchesPerQuestion = 100;   // that no proof rejects, before the programme is asked
constexpr int kBranchesUndivided = 20;      // before the remainders are worth listing
constexpr std::int64_t kModulus = 100'000;  // beyond, money is not divided
constexpr std::int64_t kNever = std::numeric_limits<std::int64_t>::max();

/// True where the proof says that a board of kind `i` gives more worth for its price than one of `j`.
bool better_value(const Proof& by, const std::vector<BoardKind>& boards, std::size_t i, std::size_t j) {
  return by.most[i] * boards[j].price > by.most[j] * boards[i].price;
}

/// RETURNS the least that can be paid with coins of that worth and is no less than `cost`; 0: any cost can.
std::int64_t in_coins(std::int64_t cost, std::int64_t coin) {
  return coin > 0 ? (cost + coin - 1) / coin * coin : cost;
}

/// RETURNS what so much worth costs at least, from these kinds, best value first; `ceiling` if they do not hold it.
std::int64_t cost_of(Worth missing, const Proof& by, const std::vector<BoardKind>& boards,
                     const std::vector<std::size_t>& kinds, std::int64_t ceiling) {
  std::int64_t cost = 0;
  for (const std::size_t i : kinds) {
    const Worth most = by.most[i];
    const std::int64_t price = boards[i].price;
    if (missing <= 0 || most == 0) break;
    if (most * boards[i].limit >= missing)
      return cost + missing / most * price + (missing % most * price + most - 1) / most;
    cost += price * boards[i].limit;
    missing -= most * boards[i].limit;
  }
  return missing > 0 ? ceiling : cost;
}

}  // namespace

std::int64_t cost_by(const Proof& proof, const std::vector<BoardKind>& boards, std::int64_t ceiling) {
  std::vector<std::size_t> buying;
  Worth missing = proof.need;
  std::int64_t coin = 0;
  for (std::size_t i = 0; i < boards.size(); ++i) {
    coin = std::gcd(coin, boards[i].price);
    if (boards[i].price > 0) {
      buying.push_back(i);
    } else {
      missing -= proof.most[i] * boards[i].limit;
    }
  }
  sort_stably(buying, [&](std::size_t i, std::size_t j) { return better_value(proof, boards, i, j); });
  return std::min(ceiling, in_coins(cost_of(missing, proof, boards, buying, ceiling), coin));
}

CountList::CountList(const Pieces& pieces, const std::vector<BoardKind>& boards, PatternProgram& program,
                     std::vector<Proof>& proofs)
    : pieces_(pieces), boards_(boards), program_(program), proofs_(proofs) {
  for (std::size_t i = 0; i < boards.size(); ++i) {
    const bool free = boards[i].price == 0;
    count_.push_back(free ? boards[i].limit : 0);
    coin_ = std::gcd(coin_, boards[i].price);
    if (!free && boards[i].limit > 0) buying_.push_back(i);
  }
}

void CountList::begin() {
  cost_proof_ = proofs_.size() - 1;
  // The kinds that the bound likes least are counted first, since few of them can be in.
  sort_stably(buying_, [&](std::size_t i, std::size_t j) { return better_value(proofs_[cost_proof_], boards_, j, i); });
  turn_of_.assign(boards_.size(), boards_.size());
  for (std::size_t turn = 0; turn < buying_.size(); ++turn) turn_of_[buying_[turn]] = turn;
  sort_values();
}

/// Lists, for each new proof, the kinds that are bought, best value first.
void CountList::sort_values() {
  while (values_.size() < proofs_.size()) {
    const Proof& proof = proofs_[values_.size()];
    asked_.insert(asked_.begin(), values_.size());
    values_.push_back(buying_);
    sort_stably(values_.back(), [&](std::size_t i, std::size_t j) { return better_value(proof, boards_, i, j); });
  }
}

Worth CountList::lacking(const Proof& proof, const Counts& count) const {
  Worth lacking = proof.need;
  for (std::size_t i = 0; i < boards_.size(); ++i) lacking -= proof.most[i] * count[i];
  return lacking;
}

bool CountList::rejects(const Counts& count) const {
  return std::ranges::any_of(proofs_, [&](const Proof& proof) { return lacking(proof, count) > 0; });
}

std::int64_t CountList::bound(std::int64_t ceiling) const {
  std::int64_t low = 0;
  for (std::size_t p = 0; p < values_.size(); ++p) {
    low = std::max(low, cost_of(lacking(proofs_[p], count_), proofs_[p], boards_, values_[p], ceiling));
  }
  return std::min(ceiling, in_coins(low, coin_));
}

/// Money rarely divides into boards of the best value. Lists, by what is over when it is divided by the price of the
/// last kind, the least worth that has to be wasted on boards from each turn on, or on money kept: in worth times that
/// price, by the proof that bounds the cost. SOURCE R. Gomory, "On the relation between integer and noninteger
/// solutions to linear programs" (1965).
void CountList::list_remainders(Work& work) {
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
  work.spend(m * (buying_.size() + 1) * 8);
}

/// RETURNS false when the money cannot be spent so well that the boards from that turn on hold what is missing.
bool CountList::divides(std::size_t turn, std::int64_t money, Worth missing) const {
  if (remainders_.empty()) return true;
  const std::size_t last = buying_.back();
  const std::int64_t coins = money / coin_;
  return coins * coin_ * proofs_[cost_proof_].most[last] -
             remainders_[turn][static_cast<std::size_t>(coins % modulus_)] >=
         missing * boards_[last].price;
}

/// RETURNS whether a proof rejects all counts that the rest of the money can buy from that turn on; skip_dearer if more
/// of the kind before would not help.
CountList::Listing CountList::ask_proofs(std::size_t turn, std::int64_t rest, Work& work) {
  if (++branches_ == kBranchesUndivided) list_remainders(work);
  for (std::size_t at = 0; at < values_.size(); ++at) {
    const std::size_t p = asked_[at];
    const Proof& proof = proofs_[p];
    work.spend(kStepsPerProof);
    Worth missing = lacking(proof, count_);
    if (missing <= 0) continue;
    if (p == cost_proof_ && !divides(turn, rest, missing)) return Listing::skip;
    std::int64_t money = rest;
    std::size_t last = boards_.size();  // kind that the last of the money goes to
    for (const std::size_t i : values_[p]) {
      if (turn_of_[i] < turn) continue;
      const std::int64_t all = boards_[i].price * boards_[i].limit;
      if (all >= money) {
        missing -= money * proof.most[i] / boards_[i].price + 1;
        last = i;
        break;
      }
      missing -= proof.most[i] * boards_[i].limit;
      money -= all;
    }
    if (missing <= 0) continue;
    // What has just rejected something is asked first.
    std::rotate(asked_.begin(), asked_.begin() + static_cast<std::ptrdiff_t>(at),
                asked_.begin() + static_cast<std::ptrdiff_t>(at) + 1);
    const bool dearer = turn > 0 && last < boards_.size() && !better_value(proof, boards_, buying_[turn - 1], last);
    return dearer ? Listing::skip_dearer : Listing::skip;
  }
  return Listing::go_on;
}

/// Adds the proof that fits best where the kinds before that turn are counted already. RETURNS false if there is none.
bool CountList::ask_programme(std::size_t turn, Work& work) {
  Counts limits;
  std::vector<std::int64_t> prices;
  for (std::size_t i = 0; i < boards_.size(); ++i) {
    const bool counted = turn_of_[i] < turn;
    limits.push_back(counted ? count_[i] : boards_[i].limit);
    prices.push_back(counted ? 0 : boards_[i].price);
  }
  program_.set_prices(prices);
  if (program_.solve(pieces_.counts, limits, PatternProgram::Goal::least_cost, work) ==
      PatternProgram::Answer::gave_up) {
    return false;
  }
  proofs_.push_back(program_.proof(work));
  sort_values();
  return true;
}

void CountList::drop_last_proof() {
  std::erase(asked_, proofs_.size() - 1);
  proofs_.pop_back();
  values_.pop_back();
}

/// RETURNS whether the counts are set aside, or no more than counts that are refuted.
bool CountList::is_known() const {
  const auto no_more = [&](const Counts& than) {
    for (std::size_t i = 0; i < than.size(); ++i) {
      if (count_[i] > than[i]) return false;
    }
    return true;
  };
  return std::ranges::find(aside_, count_) != aside_.end() || std::ranges::any_of(refuted_, no_more);
}

/// Lists the counts of the kinds from that turn on that cost `rest`, or less down to `low_` in all. RETURNS false if a
/// proof rejects all of them, and more of the kind before would not help.
bool CountList::list(std::size_t turn, std::int64_t rest, Work& work) {
  Listing answer = ask_proofs(turn, rest, work);
  if (answer == Listing::go_on && turn > 0 && turn + 1 < buying_.size() && ++unasked_ > kBranchesPerQuestion) {
    unasked_ = 0;
    if (ask_programme(turn, work)) {
      answer = ask_proofs(turn, rest, work);
      if (answer == Listing::go_on) drop_last_proof();
    }
  }
  if (answer != Listing::go_on) return answer == Listing::skip;
  const std::int64_t spent = high_ - rest;
  if (turn == buying_.size()) {
    if (is_known()) return true;
    const PatternProgram::Answer cover =
        program_.solve(pieces_.counts, count_, PatternProgram::Goal::fewest_missing, work);
    if (cover == PatternProgram::Answer::too_few_boards) {
      proofs_.push_back(program_.proof(work));
      sort_values();
    } else {
      found_ = {spent, count_};
      high_ = spent - 1;  // from here on only cheaper ones are looked for
    }
    return true;
  }
  const std::size_t i = buying_[turn];
  const std::int64_t price = boards_[i].price;
  const bool last = turn + 1 == buying_.size();
  for (int n = last ? static_cast<int>(std::max<std::int64_t>(low_ - spent + price - 1, 0) / price) : 0;
       n <= boards_[i].limit && spent + n * price <= high_ && !work.done(); ++n) {
    count_[i] = n;
    if (!list(turn + 1, high_ - spent - n * price, work)) break;
  }
  count_[i] = 0;
  return true;
}

CountList::Found CountList::cheapest(std::int64_t low, std::int64_t high, Work& work) {
  sort_values();
  low_ = low;
  high_ = high;
  found_ = {};
  list(0, high_, work);
  return work.done() ? Found{} : found_;
}

}  // namespace pitchboard
