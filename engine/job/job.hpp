#pragma once
// The Job: everything a carpenter tells the program. Plain values with the defaults that `fields.hpp` documents.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/geometry.hpp"
#include "engine/base/tape.hpp"
#include "engine/base/units.hpp"

namespace pitchboard {

struct About {
  std::string name;   ///< what the job is called on every paper
  std::string place;  ///< where the house stands, in words
  std::string date;   ///< ISO date of the readings; the engine reads no clock
  UnitSystem units = UnitSystem::imperial;
};

enum class BehindRim { joists, solid_blocking, house_band, unknown };

struct Deck {
  Length board_thickness = inches(1.0);
  Length overhang = inches(1.0);  ///< deck board past the rim's outer face
  std::string rim_size = "2x10";  ///< nominal section of the rim
  Length fascia_thickness;        ///< 0: the rim is bare
  Length fascia_below;            ///< how far a fascia hangs below the rim: trim that carries nothing
  BehindRim behind = BehindRim::joists;
};

enum class Method { line_level, water_level, laser, long_level };
enum class Line { left, middle, right };

struct Reading {
  Length out;   ///< from the deck edge, level
  Length down;  ///< from the deck surface, plumb
};
struct ReadingLine {
  Line line = Line::middle;
  std::vector<Reading> readings;
};
struct Ground {
  Method method = Method::long_level;
  std::optional<Length> tolerance;  ///< own tolerance of one reading, instead of the method's
  std::vector<ReadingLine> lines;
};

enum class PadMake { pavers, concrete, gravel };
struct Pad {
  bool existing = false;
  PadMake make = PadMake::pavers;
  Length raise_at_most = inches(4.0);  ///< landing surface above the ground (new) or above today's surface (existing)
  Length dig_at_most = inches(2.0);    ///< the same, below
  Length length = inches(36.0);        ///< clear landing along the way of travel, in front of the lowest riser
  double fall = 0.0;                   ///< slope of the surface away from the house, rise over run; positive falls away
  double cross_fall = 0.0;             ///< slope across, existing pads; positive falls to the right
  std::optional<Length> from;          ///< existing: near edge, out from the deck edge
  std::optional<Length> down;          ///< existing: surface below the deck surface at the near edge, on the left
  Length later_finish;                 ///< thickness laid on the landing after the stringers stand
};

struct Obstacle {
  std::string name;
  Interval out;     ///< from the deck edge
  Interval across;  ///< from the stair's left edge
};
struct Overhead {
  std::string name;
  Interval out;
  Length above;  ///< underside above the deck surface
};
struct Room {
  std::optional<Length> run_at_most;  ///< deck edge to the far end of the landing
  std::vector<Obstacle> obstacles;
  std::vector<Overhead> overheads;
};

enum class TopMode { deck_edge, full_tread };
enum class TreadMake { one_2x12, two_2x6, two_5_4x6, custom };
enum class Risers { closed, open };

struct Stair {
  Length width = inches(36.0);  ///< outside to outside of the outer stringers: clear width between the posts
  TopMode top = TopMode::deck_edge;
  std::optional<int> risers;    ///< this many risers, if the carpenter has decided
  std::optional<Length> going;  ///< this going, if the carpenter has decided
  TreadMake treads = TreadMake::two_2x6;
  Length tread_thickness = inches(1.5);      ///< custom treads
  Length tread_board_width = inches(5.5);    ///< custom treads
  int tread_boards = 2;                      ///< custom treads
  std::optional<Length> tread_span_at_most;  ///< custom treads: greatest spacing of stringers, from their maker
  Length board_gap = inches(0.25);
  Length side_overhang = inches(0.5);
  Length nosing = inches(1.0);  ///< wanted projection past the riser below, cut and solid stringers
  Risers riser_boards = Risers::closed;
  Length riser_thickness = inches(0.75);
};

enum class StringerKind { cut, ready_cut, solid };
/// As many mid supports as a job may ask for.
inline constexpr int kMostSupports = 3;
struct Stringers {
  StringerKind kind = StringerKind::cut;
  std::string board = "2x12";
  std::optional<int> count;
  Length spacing_at_most = inches(18.0);  ///< centre to centre; 5/4 treads never more than 16 in
  std::optional<int> mid_supports;        ///< empty: one where the span passes the prescriptive limit
  double bearing_share = 0.5;             ///< of the plumb cut that has to lie on the rim; under it: a hanger board
  Length over_cut;                        ///< how far the saw runs past the inner corners of the notches
  std::optional<double> connector_value;  ///< lb: what the head's connector carries down, from its maker's report
};

enum class SideRail { none, guard };
enum class BalusterKind { wood_2x2, round_metal, none };
enum class HandrailWish { as_required, yes, no };
enum class TopPosts { fresh, existing };
enum class FootPosts { bolted, footing };
enum class BoltSize { half_inch, five_eighths };
struct Rails {
  SideRail left = SideRail::guard;
  SideRail right = SideRail::guard;
  BalusterKind balusters = BalusterKind::wood_2x2;
  Length baluster_gap_at_most = inches(3.75);
  HandrailWish handrail = HandrailWish::as_required;
  TopPosts top_posts = TopPosts::fresh;
  Length existing_post_out;      ///< existing top posts: their outer face, out from the deck edge
  Length height = inches(36.0);  ///< top of the cap above the nosing line
  Length cap_overhang = inches(0.375);
  Length post_spacing_at_most = inches(72.0);  ///< level, centre to centre
  std::string post = "4x4";                    ///< nominal sections
  std::string rail = "2x4";                    ///< top and bottom rail, on edge; kicker and short blocks too
  std::string cap = "2x6";                     ///< ripped to the post's width plus its overhangs
  BoltSize post_bolt = BoltSize::half_inch;    ///< diameter of the posts' bolts
  bool hold_downs = false;                     ///< a hold-down at the upper bolt of every new post
  std::optional<double> hold_down_value;       ///< lb: its tension, from its maker's report
  FootPosts foot_posts = FootPosts::bolted;    ///< the lowest post: on the stringer alone, or in concrete too
};

struct Place {
  std::string pack = "irc-2021";
  std::vector<std::string> amendments;
  std::optional<Length> salt_water;  ///< distance to salt water; empty: far
  std::optional<Length> frost_depth;
  std::optional<double> latitude, longitude;  ///< degrees, north and east positive
};

/// Reference design values of one species and grade, lb per sq in, where the tables have none or others are known.
struct OwnValues {
  std::string species, grade;                                                           ///< as the job names them
  double gravity = 0.42;                                                                ///< G
  double bending = 0, tension = 0, shear = 0, compression_across = 0, compression = 0;  ///< Fb Ft Fv Fc_perp Fc
  double stiffness = 0, least_stiffness = 0;                                            ///< E and Emin
  bool size_factor = true;                                                              ///< CF still to be applied
  std::string source;                                                                   ///< where they are printed
};
struct Wood {
  std::string species = "southern-pine";
  std::string grade = "no2";
  std::string treatment = "copper-uc4a";  ///< key in data/treatments
  std::string rail_species;               ///< empty: as the stringers
  bool wet = true;                        ///< stays above 19 % moisture in service
  std::optional<bool> incised;            ///< empty: as the treatment of that species usually is
  std::vector<OwnValues> own_values;      ///< design values that replace or add to the tables
};

/// What the stair has to carry. Empty: what the code pack asks.
struct Loads {
  std::optional<double> live;    ///< lb per sq ft, level
  std::optional<double> dead;    ///< the same: the stair's own weight
  std::optional<double> tread;   ///< lb on 2 x 2 in anywhere on a tread
  std::optional<double> rail;    ///< lb in any direction at the top of a guard or on a handrail
  std::optional<double> infill;  ///< lb on 1 sq ft of what fills the guard
  double soil = 1500;            ///< lb per sq ft that the ground bears
};

struct StockLength {
  std::string section;  ///< nominal: "2x12"
  Length length;
  Money price;                   ///< one board
  std::optional<int> available;  ///< empty: as many as wanted
};
struct ReadyCut {
  std::string name;
  int risers = 3;  ///< risers the stringer makes, the one up to the deck included
  Length unit_rise, unit_going;
  bool dropped = true;  ///< foot already shortened by the tread thickness
  Length dropped_by = inches(1.5);
  Money price;
};
struct Offcut {
  std::string section;
  Length length;
  int count = 1;
  Money scrap_value;  ///< of one
};
/// What one package of an item, or one board, costs at the yard.
struct ItemPrice {
  std::string item;              ///< key in data/hardware or data/materials; of a board, its section
  std::optional<Length> length;  ///< of a board
  Money price;
};
struct Yard {
  std::string price_date;  ///< ISO date of these prices; empty: the demo prices' own date
  std::string currency = "USD";
  std::vector<StockLength> stock;  ///< replaces the demo stock of every section it names
  std::vector<ReadyCut> ready_cut;
  std::vector<Offcut> offcuts;
  std::vector<ItemPrice> prices;  ///< in place of demo prices
  Length kerf = inches(0.125);
  Length end_trim = inches(0.5);  ///< cut off each end of a new board
  Length bad_end;                 ///< beyond the trim at one end of a new board: nothing that carries is cut from it
};
struct Saw {
  double mitre_limit_degrees = 50.0;  ///< furthest the saw's scale goes from square
};

/// What the search over stairs may change, and what the default pick weighs.
struct Choose {
  std::vector<std::string> keep;       ///< choices that stay as this job says, see kSearchedChoices
  std::optional<Money> hour_worth;     ///< of an hour of work saved
  std::optional<Money> comfort_worth;  ///< of an inch of 2R + G nearer to comfortable
};
/// Choices that the search makes unless the job keeps them. Risers and going are searched where `stair` leaves them
/// out, the number of stringers and mid supports where `stringers` does.
inline constexpr std::string_view kSearchedChoices[] = {"top",     "treads",       "riser boards", "stringers",
                                                        "spacing", "mid supports", "head",         "rails"};

struct Job {
  About about;
  Deck deck;
  Ground ground;
  Pad pad;
  Room room;
  Stair stair;
  Stringers stringers;
  Rails rails;
  Place place;
  Wood wood;
  Loads loads;
  Yard yard;
  Saw saw;
  Choose choose;
};

}  // namespace pitchboard
