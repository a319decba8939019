#pragma once
// Strength: every member and every joint on the way from the foot to the ground, and from the hand on a rail.

#include <optional>
#include <string>
#include <vector>

#include "engine/frame/frame.hpp"
#include "engine/job/job.hpp"
#include "engine/shape/flight.hpp"
#include "engine/strength/calculation.hpp"
#include "engine/strength/sawtooth.hpp"

namespace pitchboard {

/// The way of one load to the ground. SOURCE of the links: statics of the frame, docs/strength.md.
struct LoadPath {
  std::string from;                    ///< "300 lb on tread 5", "200 lb outwards at the top of the left guard"
  std::vector<std::size_t> links;      ///< indices in Strength::checks, from the load to the ground
  std::optional<std::size_t> weakest;  ///< of those checked, the one with the highest ratio
  int not_checked = 0;
};

/// What the guides print for such a stringer, beside the computed result; the worse of the two decides.
struct SpanLimit {
  std::string what;  ///< "span of a cut stringer"
  double is = 0, limit = 0;
  std::string unit, compare, source;  ///< compare: "at_most" or "at_least"
  bool from_memory = false;
  [[nodiscard]] bool kept() const { return compare == "at_most" ? is <= limit + 1e-9 : is >= limit - 1e-9; }
};

struct Strength {
  std::vector<Figure> loads;  ///< what is carried, with its source
  std::vector<Check> checks;  ///< worst first within a member; see LoadPath for their order to the ground
  std::vector<LoadPath> paths;
  std::vector<Check> other_ways;  ///< what is not relied on here: other ways to hang the head, a flight that leans
  std::vector<SpanLimit> limits;
  /// The worst cut stringer as a plate under people on any of its spans and the own weight, each figure at its worst;
  /// the sum of reactions is that of all spans loaded.
  std::optional<SawtoothResult> sawtooth;
  std::optional<SawtoothResult> throat_beam;  ///< the same figures of a beam as deep as the throat: no nodes
  std::vector<std::string> notes;             ///< assumptions, and when an engineer is needed
};

/// `quick` leaves out the finite elements: the throat beam stands alone. `verdicts` leaves out all but the checks, and
/// of these their figures and notes. `skeleton` is what `check_skeleton` gives.
enum class Depth { skeleton, verdicts, quick, full };

/// RETURNS the calculation of the whole frame. Never fails: what has no value is `not_checked` and says so.
[[nodiscard]] Strength check_strength(const Job& job, const Flight& flight, const Frame& frame, Depth depth);
/// Which posts of a frame cannot do without a hold-down.
struct HoldDownNeed {
  std::vector<std::size_t> posts;  ///< 0 the first of the frame
  Check without;                   ///< what fails at the first of these if it gets none
  double moment = 0;               ///< the least that turns a hold-down's block there, lb in: its ends carry it, plumb
};
struct CountedPosts {
  std::vector<Check> checks;
  std::optional<HoldDownNeed> need;  ///< of posts that pass
};
/// RETURNS of those verdicts the ones of what guides print, the level span's as far as it is certain. `frame`: a
/// counted one, which may be its stringers alone.
[[nodiscard]] std::vector<Check> check_guides(const Job& job, const Flight& flight, const Frame& frame);
/// RETURNS of those verdicts the ones of the posts themselves as far as the first that fails; of posts that may get
/// hold-downs those that are certain. `frame`: one with counted posts.
[[nodiscard]] CountedPosts check_counted_posts(const Job& job, const Flight& flight, const Frame& frame);
/// RETURNS the most that an end of a hold-down's block carries plumb without a long angle, lb; nothing where that is
/// not known.
[[nodiscard]] std::optional<double> short_tie_capacity(const Job& job, const Flight& flight);
/// RETURNS of those verdicts the ones of tread boards. `frame`: the least one, see counted_stringers.
[[nodiscard]] std::vector<Check> check_counted_treads(const Job& job, const Flight& flight, const Frame& frame);
/// RETURNS of those verdicts the ones that treads and hold-downs have no part in, but for posts and, if not asked for,
/// rails; as far as the first group of them in which one fails. `frame`: one without treads and hold-downs.
[[nodiscard]] std::vector<Check> check_skeleton(const Job& job, const Flight& flight, const Frame& frame, bool rails);
/// RETURNS the verdicts on posts and what ties them alone, as far as the first post that fails: those that
/// `check_strength` has too.
[[nodiscard]] std::vector<Check> check_posts(const Job& job, const Flight& flight, const Frame& frame);

}  // namespace pitchboard
