#pragma once
// The space of stairs that a job allows: every choice that is open, and its values.

#include <optional>
#include <string>
#include <vector>

#include "engine/job/job.hpp"
#include "engine/measure/site.hpp"
#include "engine/shape/flight.hpp"

namespace pitchboard {

struct StringerMake {
  StringerKind kind = StringerKind::cut;
  std::string board;                     ///< nominal
  std::optional<std::size_t> ready_cut;  ///< index in yard.ready_cut
};
struct RailScheme {
  FootPosts foot_posts = FootPosts::bolted;
  bool hold_downs = false;
  BoltSize bolt = BoltSize::half_inch;
  friend bool operator==(const RailScheme&, const RailScheme&) = default;
};

/// What decides the shape of the flight, but for its going.
struct Family {
  TopMode top = TopMode::deck_edge;
  StringerMake stringers;
  std::size_t board = 0;  ///< the first family whose stringers are of the same board
  TreadMake treads = TreadMake::two_2x6;
  Risers riser_boards = Risers::closed;
  int risers = 0;
  std::vector<Flight> flights;  ///< one a going that fits, the shortest first
};

/// What can be added to any family. Of each list the first is the least work.
struct Additions {
  std::vector<int> stringers;                    ///< beyond as many as the spacing asks for
  std::vector<double> bearing_shares;            ///< of the head's plumb cut
  std::vector<std::optional<int>> mid_supports;  ///< empty: as many as the guides print
  std::vector<RailScheme> rails;                 ///< the job's own first
};

/// One stair of the space.
struct Choice {
  std::size_t family = 0, flight = 0;                                   ///< index in Space::families, Family::flights
  std::size_t stringers = 0, bearing = 0, mid_supports = 0, rails = 0;  ///< indices in Additions
  friend auto operator<=>(const Choice&, const Choice&) = default;
};
struct Space {
  std::vector<Family> families;
  Additions additions;
  /// Stringers that can be added to those of that family: solid ones are always two.
  [[nodiscard]] std::size_t stringer_steps(const Family& family) const {
    return family.stringers.kind == StringerKind::solid ? 1 : additions.stringers.size();
  }
  [[nodiscard]] std::size_t size() const;
};

/// RETURNS every stair that the job allows and whose flight fits the site and the shape limits of the code pack: going
/// in steps of 1/8 in, the landing's lift derived.
[[nodiscard]] Space space_of(const Job& job, const Site& site);
/// Writes that choice of the job's space into `stair`: a copy of the job, which may have another choice written into
/// it.
void choose(Job& stair, const Job& job, const Space& space, const Choice& choice);
/// RETURNS the job with that choice written into it.
[[nodiscard]] Job chosen(const Job& job, const Space& space, const Choice& choice);

}  // namespace pitchboard
