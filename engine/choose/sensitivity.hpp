#pragma once
// Which reading, off by as much as its way of measuring allows, would change the choice: what to measure again.
//
// METHOD  Every reading with an uncertainty is moved by it, up and down, all others as they are, and the cheap
//         questions come first: does the picked stair still fit there; has it a fault; is another of the front worth
//         more. Only where none of them changes the choice, and it is asked for, is the whole search run again.

#include <string>
#include <string_view>
#include <vector>

#include "engine/choose/search.hpp"

namespace pitchboard {

/// What comes of it, the gravest first.
enum class Upset {
  does_not_fit,   ///< no flight of that count and going, or ready-cut stringer
  fails,          ///< a rule, a check of strength, a clash or a board that fails
  can_be_built,   ///< some stair passes where none did
  another_stair,  ///< another is picked
};

/// A reading that is worth measuring again.
struct Doubt {
  std::string key;  ///< in the job file: "ground.left[2].down"
  Length out;       ///< where it was taken, from the deck edge
  Length down;      ///< what was read
  Length off;       ///< what it was moved by: its uncertainty, below 0 for less
  Upset upset = Upset::does_not_fit;
  std::string words;  ///< the fault, or the other stair
  Length landing;     ///< how far the landing moves with it
};

enum class Again { cheap_questions, whole_search };

/// RETURNS the readings that would change the choice of the search, the gravest upset first, then by how far the
/// landing moves; each reading at most once up and once down. A job whose front is empty is only searched again.
[[nodiscard]] std::vector<Doubt> doubts_of(const Job& job, const Search& search, Again again);
/// RETURNS the same for the stair that a plan of the job takes: whether that flight still comes first, and has no fault
/// that it has not now. REQUIRES a job that some flight fits.
[[nodiscard]] std::vector<Doubt> doubts_of(const Job& job);

/// RETURNS "does_not_fit", for JSON.
[[nodiscard]] std::string_view upset_key(Upset upset);
/// RETURNS it in a sentence: "Measure 78 3/4" down at 24" out again: were it 1/8" more, ...".
[[nodiscard]] std::string doubt_words(const Job& job, const Doubt& doubt);

}  // namespace pitchboard
