#pragma once
// How many boards of each kind: the counts that may hold the pieces, from the cheapest up.
//
// METHOD  The cost depends only on the counts, and of them there are few kinds. They are listed by branch and bound; a
//         proof (piece_worth.hpp) rejects most branches at sight. Counts that no proof rejects are covered by fractions
//         of patterns, which they pass or which yields the next proof; so does a branch that lets many counts through.
//         J. Benders, "Partitioning procedures for solving mixed-variables programming problems" (1962).

#include "engine/cut/piece_worth.hpp"

namespace pitchboard {

/// RETURNS a cost that no boards undercut that hold the pieces, by that proof alone. At most `ceiling`.
[[nodiscard]] std::int64_t cost_by(const Proof& proof, const std::vector<BoardKind>& boards, std::int64_t ceiling);

class CountList {
 public:
  /// REQUIRES that all arguments outlive it. Free boards are all taken.
  CountList(const Pieces& pieces, const std::vector<BoardKind>& boards, PatternProgram& program,
            std::vector<Proof>& proofs);
  /// Takes the last of `proofs` for the one that bounds the cost. Call once, before the rest.
  void begin();
  /// RETURNS a cost that nothing undercuts, by the proofs so far. At most `ceiling`.
  [[nodiscard]] std::int64_t bound(std::int64_t ceiling) const;

  struct Found {
    std::int64_t cost = 0;
    Counts count;  ///< empty: none
  };
  /// RETURNS the cheapest counts of cost `low` up to `high` that fractions of patterns cover and that are not set
  /// aside; none also when the work is done.
  [[nodiscard]] Found cheapest(std::int64_t low, std::int64_t high, Work& work);
  /// RETURNS whether the proofs reject the counts.
  [[nodiscard]] bool rejects(const Counts& count) const;
  /// Leaves these counts out from now on.
  void set_aside(const Counts& count) { aside_.push_back(count); }
  /// Leaves out these counts, which do not hold the pieces, and all that are no more.
  void refute(const Counts& count) { refuted_.push_back(count); }
  /// Greatest common divisor of the prices; 0: all boards are free.
  [[nodiscard]] std::int64_t coin() const { return coin_; }

 private:
  enum class Listing { go_on, skip, skip_dearer };
  void sort_values();
  [[nodiscard]] Worth lacking(const Proof& proof, const Counts& count) const;
  void list_remainders(Work& work);
  [[nodiscard]] bool divides(std::size_t turn, std::int64_t money, Worth missing) const;
  Listing ask_proofs(std::size_t turn, std::int64_t rest, Work& work);
  bool ask_programme(std::size_t turn, Work& work);
  void drop_last_proof();
  bool list(std::size_t turn, std::int64_t rest, Work& work);
  [[nodiscard]] bool is_known() const;

  const Pieces& pieces_;
  const std::vector<BoardKind>& boards_;
  PatternProgram& program_;
  std::vector<Proof>& proofs_;
  std::vector<std::size_t> buying_;               // kinds with a price; those of the worst value first
  std::vector<std::size_t> turn_of_;              // of each kind, in `buying_`
  std::vector<std::vector<std::size_t>> values_;  // of each proof: the kinds bought, best value first
  std::vector<std::size_t> asked_;                // proofs in the order in which they are asked
  std::vector<std::vector<Worth>> remainders_;    // by turn and remainder
  std::int64_t modulus_ = 0, coin_ = 0;
  std::size_t cost_proof_ = 0;
  Counts count_;
  std::vector<Counts> aside_, refuted_;
  Found found_;
  std::int64_t low_ = 0, high_ = 0;
  int branches_ = 0;
  int unasked_ = 0;  // branches since the programme was asked
};

}  // namespace pitchboard
