#pragma once
// Which boards to buy, how to cut them, and what to mark on them.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/frame/frame.hpp"
#include "engine/job/job.hpp"

namespace pitchboard {

class BoardMemory;

/// One piece on a board.
struct PlacedPiece {
  std::string mark;  ///< Part::mark
  Length from, to;   ///< along the board from its left end, trim and kerfs already stepped over
};
struct Board {
  std::string section;  ///< "2x12"
  Length length;
  Money price;  ///< of an offcut: what it is worth as scrap
  bool offcut = false;
  std::vector<PlacedPiece> pieces;
  Length left_over;  ///< usable length that remains
};
struct SectionProof {
  std::string section;
  Money cost;            ///< of the boards bought and, as scrap, of the offcuts used
  Money bound;           ///< no order can be cheaper than this
  bool optimal = false;  ///< cost == bound
};
struct CutPlan {
  std::vector<Board> boards;
  std::vector<SectionProof> proofs;
  Problems impossible;  ///< pieces longer than any board of their section
};

/// A board that can be had, or an offcut on hand. An offcut has true ends: it is not trimmed and has no bad end.
struct StockItem {
  Length length;
  Money price;
  std::optional<int> available;  ///< empty: as many as wanted
  bool offcut = false;
};
struct Demand {
  std::string mark;
  Length length;
  bool sound = false;  ///< must stay out of a board's bad end
  int pieces = 1;
};
/// RETURNS the cheapest boards for pieces of one section: exact, with the lower bound that proves it.
/// A board of length L with trim t each end and kerf k holds pieces with sum(length + k) <= L - 2t + k, and sound ones
/// with sum(length + k) <= L - 2t - bad end + k. Sound pieces come first on their
/// board; the bad end is its far one.
/// `memory`: for the cost alone. The boards are then as cheap, but nothing is laid on them or checked again.
/// REQUIRES demands of one piece each.
[[nodiscard]] CutPlan cheapest_boards(const std::string& section, const std::vector<Demand>& demands,
                                      const std::vector<StockItem>& stock, Length kerf, Length end_trim,
                                      Length bad_end = Length(), BoardMemory* memory = nullptr);
/// RETURNS the bound of that plan's proof alone.
[[nodiscard]] Money least_cost(const std::vector<Demand>& demands, const std::vector<StockItem>& stock, Length kerf,
                               Length end_trim, Length bad_end, BoardMemory& memory);
/// RETURNS the nominal size in a board's section, without what tells that from another of the size.
[[nodiscard]] std::string_view nominal_of(std::string_view section);
/// RETURNS whether the job lists what its yard has of that nominal size.
[[nodiscard]] bool has_own_stock(const Job& job, std::string_view nominal);
/// RETURNS the job's own price of the item, of a board that of its `length`, or nullptr.
[[nodiscard]] const ItemPrice* own_price(const Job& job, std::string_view item, std::optional<Length> length = {});
/// RETURNS the boards of every section and treatment the frame is cut from, with a `memory` for the cost alone.
/// Ready-cut stringers are bought, not cut.
[[nodiscard]] CutPlan plan_cuts(const Job& job, const Frame& frame, BoardMemory* memory = nullptr);
/// What the boards of one nominal size and wood cost at the least.
struct LeastCost {
  std::string_view nominal;
  Money money;
};
/// RETURNS no more than the boards of that plan cost: pieces longer than `step` are taken as short as whole steps of
/// it, so that more lists of pieces are alike.
[[nodiscard]] std::vector<LeastCost> least_costs(const Job& job, const Frame& frame, Length step, BoardMemory& memory);

/// Everything that is marked on a cut stringer, or checked on a ready-cut one.
struct StringerCard {
  std::string mark;               ///< of the first that it is for
  std::vector<std::string> same;  ///< every stringer of that shape, the first one too
  int risers = 0;
  Length unit_rise, going, step_length;  ///< step_length: sqrt(R² + G²) along the edge
  std::vector<Length> marks;             ///< one a tread: cumulative, from the lowest mark, along the notched edge
  Length first_riser_cut;                ///< plumb height of the lowest riser cut, down to the landing it stands on
  Length top_going_cut;                  ///< level length of the highest tread cut
  Length throat, drop;                   ///< drop: taken off the foot
  Length plumb_cut, foot_cut;            ///< height of the head; level length of the foot, a kicker's notch included
  Angle slope;                           ///< level cut from the board's edge; the plumb cut is 90° less
  Length square_tongue, square_body;     ///< framing square: rise on the tongue, going on the body
  Length overall;                        ///< first to last mark: the sum check
};
struct SawSetting {
  std::string mark;   ///< of the part, or the first of equals
  int count = 1;      ///< cuts of that setting
  std::string cut;    ///< "both ends, plumb cut"
  Angle from_square;  ///< what the saw's scale is set to
  bool beyond_saw = false;
  std::string how;  ///< what to do, in words, when beyond the saw or not a plain mitre
};
struct HoleRow {
  std::string part;
  std::string fastener;  ///< key in data/hardware
  std::string mark;      ///< of the fastener: "F12"
  std::string face;      ///< as the stair stands: "left", "right", "front", "back", "top", "underside"; or "end"
  /// Where `along` and `across` count from, in that order, in words: "foot end, lower edge".
  std::string from;
  /// In a face: along the board and square to that. In an edge: along the board and over the thickness. In an end:
  /// over the width and over the thickness.
  Length along, across;
  Length diameter, depth;
  HoleKind kind = HoleKind::clearance;
};
/// What is taken out of a board's side so that it goes round a post.
struct Notch {
  Length from_front;     ///< from the board's front edge to where the notch begins
  Length length, depth;  ///< along the board's end, and into it
  bool left = false, right = false;
};
/// RETURNS the notches of a tread board, the foremost first; equal ones of both ends are one. Other parts have none.
[[nodiscard]] std::vector<Notch> notches(const Part& part);
/// RETURNS the width a piece is ripped to, where it is narrower than its stock. Stringers are not ripped.
[[nodiscard]] std::optional<Length> ripped_to(const Part& part);

struct Marks {
  std::vector<StringerCard> stringers;
  std::vector<SawSetting> saw;
  std::vector<HoleRow> holes;
};
/// RETURNS what is marked, sawn and drilled, all read off the parts' outlines.
[[nodiscard]] Marks mark_out(const Job& job, const Flight& flight, const Frame& frame);

}  // namespace pitchboard
