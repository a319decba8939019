#pragma once
// Which limits leave no flight together, and by how little each would have to give way.

#include <optional>
#include <string>
#include <vector>

#include "engine/shape/flight.hpp"

namespace pitchboard {

/// One limit of a collision.
struct CollidingLimit {
  std::string place;  ///< in the job file; "place.pack" for what the code pack asks
  std::string words;  ///< "a riser of at most 7 3/4"
  /// What frees the job, this limit alone changed and by the least step that does: "a riser of at most 8"". Empty where
  /// no change of this one is enough.
  std::string freed_by;
};

/// RETURNS a smallest set of limits under which no flight fits, whatever all others are: each is needed for it. Empty
/// when a flight fits, and when not even a job without limits has one.
/// METHOD  Deletion filter: a limit without which the rest still collide is left out. Freeing changes: doubling, then
///         halving, on a line of the tape; every step shapes the flights anew.
/// SOURCE  J. Chinneck, E. Dravnieks 1991 (irreducible infeasible sets), from memory.
[[nodiscard]] std::vector<CollidingLimit> collision_of(const Job& job, const Site& site, const ShapeLimits& limits);

}  // namespace pitchboard
