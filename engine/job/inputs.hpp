#pragma once
// One record per input of the Job, bound to its member. Reading, writing, checking and describing a job are visitors of
// this list, so there is no second one. A visitor is called with a record and the member, once per input:
//
//   visit(Input, member)              a value, an optional value, or a list of groups
//   visit(Input, ReadingsOf{...})     one line of ground readings
//   visit.group(Input, member)        a group of inputs
//
// UNITS   ranges of lengths are in inches, of prices in the job's currency.
// SOURCE  `why` is the source of the default, or what leaving the input out means.

#include <concepts>
#include <optional>
#include <string_view>
#include <type_traits>

#include "engine/job/fields.hpp"
#include "engine/job/job.hpp"

namespace pitchboard {

struct Input {
  std::string_view key;
  std::string_view sentence;
  std::optional<Range> range = {};
  std::string_view why = {};
  bool required = false;
  std::string_view unit = {};
  std::string_view text_form = {};
  bool may_be_empty = false;  ///< texts only
};

/// One line of readings inside a Ground, const or not.
template <class GroundRef>
struct ReadingsOf {
  GroundRef& ground;
  Line line;
};
template <class GroundRef>
ReadingsOf(GroundRef&, Line) -> ReadingsOf<GroundRef>;

template <class T, class U>
concept Is = std::same_as<std::remove_const_t<T>, U>;

constexpr std::string_view kPractice = "common practice, no source";

void inputs(auto& visit, Is<About> auto& about) {
  visit(Input{.key = "name", .sentence = "What the job is called on every paper.", .required = true}, about.name);
  visit(Input{.key = "place", .sentence = "Where the house stands, in words.", .why = "left off the papers"},
        about.place);
  visit(Input{.key = "date",
              .sentence = "Day of the readings, year-month-day.",
              .why = "left off the papers",
              .text_form = "date",
              .may_be_empty = true},
        about.date);
  visit(Input{.key = "units", .sentence = "Units that the papers speak; a job file may mix both.", .why = kPractice},
        about.units);
}

void inputs(auto& visit, Is<Deck> auto& deck) {
  visit(Input{"board_thickness", "Thickness of the deck boards.", Range{0.5, 4}, "5/4 decking, dressed"},
        deck.board_thickness);
  visit(Input{"overhang", "How far the deck boards pass the outer face of the rim.", Range{0, 12}, kPractice},
        deck.overhang);
  visit(Input{.key = "rim_size",
              .sentence = "Section of the rim, by its nominal size.",
              .why = kPractice,
              .text_form = "section"},
        deck.rim_size);
  visit(Input{"fascia_thickness", "Thickness of the trim board on the rim; 0 in: the rim is bare.", Range{0, 3},
              "bare rim"},
        deck.fascia_thickness);
  visit(Input{"fascia_below", "How far that trim hangs below the rim. It carries nothing.", Range{0, 24}, "bare rim"},
        deck.fascia_below);
  visit(Input{.key = "behind", .sentence = "What is behind the rim where the stair hangs.", .why = kPractice},
        deck.behind);
}

void inputs(auto& visit, Is<Reading> auto& reading) {
  visit(Input{.key = "out", .sentence = "From the deck edge, level.", .range = Range{0, 600}, .required = true},
        reading.out);
  visit(Input{.key = "down", .sentence = "From the deck surface, plumb.", .range = Range{0, 240}, .required = true},
        reading.down);
}

void inputs(auto& visit, Is<Ground> auto& ground) {
  visit(Input{.key = "method",
              .sentence = "What the readings were levelled with; it sets how sure they are.",
              .why = kPractice},
        ground.method);
  visit(Input{"tolerance", "Your own tolerance of one reading.", Range{0, 6}, "that of the method"}, ground.tolerance);
  visit(Input{.key = word(Line::left),
              .sentence = "Readings under the left edge of the stair, seen from the ground, facing the house.",
              .why = "not read"},
        ReadingsOf{ground, Line::left});
  visit(
      Input{
          .key = word(Line::middle), .sentence = "Readings under the middle of the stair's width.", .why = "not read"},
      ReadingsOf{ground, Line::middle});
  visit(Input{.key = word(Line::right), .sentence = "Readings under the right edge of the stair.", .why = "not read"},
        ReadingsOf{ground, Line::right});
}

void inputs(auto& visit, Is<Pad> auto& pad) {
  visit(Input{.key = "existing", .sentence = "Whether the landing pad is there already.", .why = "a new pad"},
        pad.existing);
  visit(Input{.key = "make", .sentence = "What the pad is made of.", .why = kPractice}, pad.make);
  visit(Input{"raise_at_most",
              "How far the landing may come up: above the ground, or above today's surface of an existing pad.",
              Range{0, 48}, kPractice},
        pad.raise_at_most);
  visit(Input{"dig_at_most", "How far the landing may go down, measured the same way.", Range{0, 48}, kPractice},
        pad.dig_at_most);
  visit(Input{"length", "Clear landing along the way of travel, in front of the lowest riser.", Range{12, 240},
              "IRC R311.7.6: 36 in"},
        pad.length);
  visit(Input{.key = "fall",
              .sentence = "Slope of the landing away from the house; 0.02 falls 1/4 in a foot.",
              .range = Range{-0.25, 0.25},
              .why = "level",
              .unit = "rise over run"},
        pad.fall);
  visit(Input{.key = "cross_fall",
              .sentence = "Slope of an existing pad across the stair; positive falls to the right.",
              .range = Range{-0.25, 0.25},
              .why = "level",
              .unit = "rise over run"},
        pad.cross_fall);
  visit(Input{"from", "Near edge of an existing pad, out from the deck edge.", Range{0, 600},
              "needed for an existing pad only"},
        pad.from);
  visit(Input{"down", "Surface of an existing pad below the deck surface, at its near edge, on the left.",
              Range{0, 240}, "needed for an existing pad only"},
        pad.down);
  visit(Input{"later_finish", "Thickness laid on the landing after the stringers stand.", Range{0, 6},
              "nothing laid later"},
        pad.later_finish);
}

void inputs(auto& visit, Is<Obstacle> auto& obstacle) {
  visit(Input{.key = "name", .sentence = "What it is: a downspout, a window well.", .required = true}, obstacle.name);
  visit(Input{.key = "out_from",
              .sentence = "Where it begins, out from the deck edge.",
              .range = Range{0, 1200},
              .required = true},
        obstacle.out.from);
  visit(Input{.key = "out_to",
              .sentence = "Where it ends, out from the deck edge.",
              .range = Range{0, 1200},
              .required = true},
        obstacle.out.to);
  visit(Input{.key = "across_from",
              .sentence = "Where it begins, across from the stair's left edge.",
              .range = Range{0, 600},
              .required = true},
        obstacle.across.from);
  visit(Input{.key = "across_to",
              .sentence = "Where it ends, across from the stair's left edge.",
              .range = Range{0, 600},
              .required = true},
        obstacle.across.to);
}

void inputs(auto& visit, Is<Overhead> auto& overhead) {
  visit(Input{.key = "name", .sentence = "What it is: an eave, a balcony.", .required = true}, overhead.name);
  visit(Input{.key = "out_from",
              .sentence = "Where it begins, out from the deck edge.",
              .range = Range{0, 1200},
              .required = true},
        overhead.out.from);
  visit(Input{.key = "out_to",
              .sentence = "Where it ends, out from the deck edge.",
              .range = Range{0, 1200},
              .required = true},
        overhead.out.to);
  visit(Input{.key = "above",
              .sentence = "Its underside, above the deck surface.",
              .range = Range{0, 480},
              .required = true},
        overhead.above);
}

void inputs(auto& visit, Is<Room> auto& room) {
  visit(Input{"run_at_most", "Greatest reach from the deck edge to the far end of the landing.", Range{24, 1200},
              "as far as it needs"},
        room.run_at_most);
  visit(Input{.key = "obstacles",
              .sentence = "What stands on the ground where neither stair nor landing can go.",
              .why = "none"},
        room.obstacles);
  visit(Input{.key = "overheads", .sentence = "What hangs over the stair and may cost headroom.", .why = "none"},
        room.overheads);
}

void inputs(auto& visit, Is<Stair> auto& stair) {
  visit(Input{"width", "Outside to outside of the outer stringers.", Range{18, 144}, "IRC R311.7.1: 36 in"},
        stair.width);
  visit(Input{.key = "top", .sentence = "How the stair meets the deck.", .why = kPractice}, stair.top);
  visit(Input{"risers", "How many risers, if you have decided.", Range{2, 40}, "the best count is found"},
        stair.risers);
  visit(Input{"going", "The going (run) of every step, nosing to nosing, if you have decided.", Range{6, 24},
              "the best going is found"},
        stair.going);
  visit(Input{.key = "treads", .sentence = "What a tread is made of.", .why = kPractice}, stair.treads);
  visit(Input{"tread_thickness", "Custom treads: thickness of a board.", Range{0.5, 4}, "2x6"}, stair.tread_thickness);
  visit(Input{"tread_board_width", "Custom treads: width of a board.", Range{1, 16}, "2x6"}, stair.tread_board_width);
  visit(Input{"tread_boards", "Custom treads: boards in a tread.", Range{1, 8}, "two 2x6"}, stair.tread_boards);
  visit(Input{"tread_span_at_most", "Custom treads: greatest spacing of the stringers that their maker allows.",
              Range{6, 60}, "checked as the wood of the frame"},
        stair.tread_span_at_most);
  visit(Input{"board_gap", "Gap between the boards of a tread.", Range{0, 1}, kPractice}, stair.board_gap);
  visit(Input{"side_overhang", "How far the treads pass the outer stringers at each side.", Range{0, 3}, kPractice},
        stair.side_overhang);
  visit(Input{"nosing", "How far a tread should pass the riser below it, where the stringers are yours to cut.",
              Range{0, 2}, "IRC R311.7.5.3: 3/4 in to 1 1/4 in"},
        stair.nosing);
  visit(Input{.key = "riser_boards", .sentence = "Whether riser boards close the steps.", .why = kPractice},
        stair.riser_boards);
  visit(Input{"riser_thickness", "Thickness of the riser boards.", Range{0.25, 2}, "1x boards, dressed"},
        stair.riser_thickness);
}

void inputs(auto& visit, Is<Stringers> auto& stringers) {
  visit(Input{.key = "kind", .sentence = "What the stringers are.", .why = kPractice}, stringers.kind);
  visit(Input{.key = "board",
              .sentence = "Section of the stringers, by its nominal size.",
              .why = kPractice,
              .text_form = "section"},
        stringers.board);
  visit(Input{"count", "How many stringers, if you have decided.", Range{2, 12}, "as many as the spacing asks for"},
        stringers.count);
  visit(Input{"spacing_at_most", "Greatest spacing of the stringers, centre to centre.", Range{6, 48},
              "common practice, no source: three under a 36 in stair; 5/4 treads never more than 16 in"},
        stringers.spacing_at_most);
  visit(Input{"mid_supports", "Posts and a beam under the stringers between head and foot: how many such lines.",
              Range{0, kMostSupports}, "one where the span passes the prescriptive limit"},
        stringers.mid_supports);
  visit(Input{.key = "bearing_share",
              .sentence =
                  "Share of the head's plumb cut that has to lie on the rim; where less does, a hanger board is added.",
              .range = Range{0.3, 1.0},
              .why = "common practice, no source: a 2x10 rim leaves a third, which splits heads"},
        stringers.bearing_share);
  visit(Input{"over_cut", "How far the saw runs past the inner corners of the notches; 0 in: finished with a handsaw.",
              Range{0, 3}, kPractice},
        stringers.over_cut);
  visit(Input{.key = "connector_value",
              .sentence = "What one head connector carries downwards, from its maker's report.",
              .range = Range{1, 20000},
              .why = "computed from its screws alone",
              .unit = "lb"},
        stringers.connector_value);
}

void inputs(auto& visit, Is<Rails> auto& rails) {
  visit(Input{.key = "left", .sentence = "The left side, seen from the ground, facing the house.", .why = kPractice},
        rails.left);
  visit(Input{.key = "right", .sentence = "The right side.", .why = kPractice}, rails.right);
  visit(Input{.key = "balusters", .sentence = "What fills the guard.", .why = kPractice}, rails.balusters);
  visit(Input{"baluster_gap_at_most", "Greatest clear gap between balusters.", Range{0.5, 12},
              "common practice, no source: 1/4 in inside the usual 4 in sphere"},
        rails.baluster_gap_at_most);
  visit(Input{.key = "handrail", .sentence = "Whether a graspable handrail is built.", .why = "by the code pack"},
        rails.handrail);
  visit(Input{.key = "top_posts", .sentence = "Whether the posts at the deck are new.", .why = kPractice},
        rails.top_posts);
  visit(Input{"existing_post_out", "Outer face of the deck's own posts, out from the deck edge.", Range{0, 48},
              "needed for existing top posts only"},
        rails.existing_post_out);
  visit(Input{"height", "Top of the cap above the nosing line.", Range{24, 60},
              "common practice, no source: inside the usual 34 in to 38 in"},
        rails.height);
  visit(Input{"cap_overhang", "How far the cap passes the posts at each side.", Range{0, 3}, kPractice},
        rails.cap_overhang);
  visit(Input{"post_spacing_at_most", "Greatest spacing of the posts, level, centre to centre.", Range{24, 120},
              kPractice},
        rails.post_spacing_at_most);
  visit(Input{.key = "post",
              .sentence = "Section of the posts, by its nominal size.",
              .why = kPractice,
              .text_form = "section"},
        rails.post);
  visit(Input{.key = "rail",
              .sentence =
                  "Section of the top and bottom rails, on edge; the kicker and short blocks are cut from it too.",
              .why = kPractice,
              .text_form = "section"},
        rails.rail);
  visit(Input{.key = "cap",
              .sentence = "Section of the cap; it is ripped to the post's width plus its overhangs.",
              .why = kPractice,
              .text_form = "section"},
        rails.cap);
  visit(Input{.key = "post_bolt", .sentence = "Diameter of the bolts that hold the posts.", .why = kPractice},
        rails.post_bolt);
  visit(Input{.key = "hold_downs",
              .sentence = "Whether a hold-down at the upper bolt ties every new post back to blocking.",
              .why = "the check says what the posts carry without"},
        rails.hold_downs);
  visit(Input{.key = "hold_down_value",
              .sentence = "Tension that one hold-down carries, from its maker's report.",
              .range = Range{1, 20000},
              .why = "the check says what to look for",
              .unit = "lb"},
        rails.hold_down_value);
  visit(Input{.key = "foot_posts", .sentence = "What the lowest posts stand in.", .why = kPractice}, rails.foot_posts);
}

void inputs(auto& visit, Is<Place> auto& place) {
  visit(Input{.key = "pack",
              .sentence = "Code pack in force where the house stands; `pitchboard packs` lists them.",
              .why = "the model residential code"},
        place.pack);
  visit(Input{.key = "amendments", .sentence = "Local amendments laid over the pack.", .why = "none"},
        place.amendments);
  visit(Input{"salt_water", "Distance to salt water; it decides which hardware lasts.", {}, "far away"},
        place.salt_water);
  visit(Input{"frost_depth", "How deep the ground freezes.", Range{0, 120}, "not known, so not checked"},
        place.frost_depth);
  visit(Input{.key = "latitude",
              .sentence = "North positive; for daylight.",
              .range = Range{-90, 90},
              .why = "not known",
              .unit = "degrees"},
        place.latitude);
  visit(Input{.key = "longitude",
              .sentence = "East positive; for daylight.",
              .range = Range{-180, 180},
              .why = "not known",
              .unit = "degrees"},
        place.longitude);
}

void inputs(auto& visit, Is<OwnValues> auto& own) {
  constexpr Range kStress{1, 20000};
  visit(Input{.key = "species", .sentence = "The species as the job names it.", .required = true}, own.species);
  visit(Input{.key = "grade", .sentence = "The grade as the job names it.", .required = true}, own.grade);
  visit(Input{.key = "gravity",
              .sentence = "Specific gravity G, oven-dry.",
              .range = Range{0.31, 0.73},
              .why = "a light softwood"},
        own.gravity);
  const auto stress = [&](std::string_view key, std::string_view sentence, auto& member) {
    visit(Input{.key = key, .sentence = sentence, .range = kStress, .required = true, .unit = "lb per sq in"}, member);
  };
  stress("bending", "Fb.", own.bending);
  stress("tension", "Ft.", own.tension);
  stress("shear", "Fv.", own.shear);
  stress("compression_across", "Fc across the grain.", own.compression_across);
  stress("compression", "Fc along the grain.", own.compression);
  visit(Input{.key = "stiffness",
              .sentence = "E.",
              .range = Range{100000, 4000000},
              .required = true,
              .unit = "lb per sq in"},
        own.stiffness);
  visit(Input{.key = "least_stiffness",
              .sentence = "Emin, for stability.",
              .range = Range{50000, 2000000},
              .required = true,
              .unit = "lb per sq in"},
        own.least_stiffness);
  visit(Input{.key = "size_factor",
              .sentence = "Whether the size factor still has to be applied to these values.",
              .why = "most tables print base values"},
        own.size_factor);
  visit(Input{.key = "source", .sentence = "Where these values are printed.", .required = true}, own.source);
}

void inputs(auto& visit, Is<Loads> auto& loads) {
  constexpr std::string_view kByPack = "what the code pack asks";
  visit(Input{.key = "live",
              .sentence = "Live load on the level area of the stair.",
              .range = Range{1, 1000},
              .why = kByPack,
              .unit = "lb per sq ft"},
        loads.live);
  visit(Input{.key = "dead",
              .sentence = "The stair's own weight on the same area.",
              .range = Range{1, 200},
              .why = kByPack,
              .unit = "lb per sq ft"},
        loads.dead);
  visit(Input{.key = "tread",
              .sentence = "Load on 2 x 2 in anywhere on a tread.",
              .range = Range{1, 5000},
              .why = kByPack,
              .unit = "lb"},
        loads.tread);
  visit(Input{.key = "rail",
              .sentence = "Push in any direction at the top of a guard or on a handrail.",
              .range = Range{1, 5000},
              .why = kByPack,
              .unit = "lb"},
        loads.rail);
  visit(Input{.key = "infill",
              .sentence = "Push on 1 sq ft of what fills the guard.",
              .range = Range{1, 1000},
              .why = kByPack,
              .unit = "lb"},
        loads.infill);
  visit(Input{.key = "soil",
              .sentence = "What the ground bears.",
              .range = Range{100, 12000},
              .why = "from memory: IRC Table R401.4.1, the weakest soils listed",
              .unit = "lb per sq ft"},
        loads.soil);
}

void inputs(auto& visit, Is<Wood> auto& wood) {
  visit(Input{.key = "species", .sentence = "Species of the frame.", .why = kPractice, .text_form = "species"},
        wood.species);
  visit(Input{.key = "grade", .sentence = "Grade as stamped or ordered.", .why = kPractice}, wood.grade);
  visit(Input{.key = "treatment", .sentence = "Treatment of the wood.", .why = kPractice, .text_form = "treatment"},
        wood.treatment);
  visit(Input{.key = "rail_species",
              .sentence = "Species of posts, rails and balusters.",
              .why = "as the frame",
              .text_form = "species",
              .may_be_empty = true},
        wood.rail_species);
  visit(Input{.key = "wet",
              .sentence = "Whether the wood stays wetter than 19 % in service.",
              .why = "out in the weather: common practice, no source"},
        wood.wet);
  visit(Input{.key = "incised",
              .sentence = "Whether the treated boards are incised (rows of small slits).",
              .why = "as boards of that species and treatment usually are"},
        wood.incised);
  visit(Input{.key = "own_values",
              .sentence = "Design values of your own, in place of the tables' or beside them.",
              .why = "the tables' values"},
        wood.own_values);
}

void inputs(auto& visit, Is<StockLength> auto& stock) {
  visit(Input{.key = "section", .sentence = "Section, by its nominal size.", .required = true, .text_form = "section"},
        stock.section);
  visit(Input{.key = "length", .sentence = "Length of one board.", .range = Range{12, 480}, .required = true},
        stock.length);
  visit(Input{.key = "price", .sentence = "Price of one board.", .range = Range{0, 100000}, .required = true},
        stock.price);
  visit(Input{"available", "How many the yard has.", Range{0, 1000}, "as many as wanted"}, stock.available);
}

void inputs(auto& visit, Is<ReadyCut> auto& ready) {
  visit(Input{.key = "name", .sentence = "What the yard calls it.", .required = true}, ready.name);
  visit(Input{.key = "risers",
              .sentence = "Risers that the stringer makes, the one up to the deck included.",
              .range = Range{2, 20},
              .required = true},
        ready.risers);
  visit(Input{.key = "unit_rise",
              .sentence = "Rise of one step, measured on the stringer.",
              .range = Range{3, 12},
              .required = true},
        ready.unit_rise);
  visit(Input{.key = "unit_going",
              .sentence = "Going (run) of one step, measured on the stringer.",
              .range = Range{6, 20},
              .required = true},
        ready.unit_going);
  visit(Input{.key = "dropped",
              .sentence = "Whether its foot is shortened already by the thickness of a tread.",
              .why = kPractice},
        ready.dropped);
  visit(Input{"dropped_by", "How much its foot is shortened, when it is.", Range{0, 4}, "a 2x tread"},
        ready.dropped_by);
  visit(Input{.key = "price", .sentence = "Price of one stringer.", .range = Range{0, 100000}, .required = true},
        ready.price);
}

void inputs(auto& visit, Is<Offcut> auto& offcut) {
  visit(Input{.key = "section", .sentence = "Section, by its nominal size.", .required = true, .text_form = "section"},
        offcut.section);
  visit(Input{.key = "length", .sentence = "Sound length of one.", .range = Range{1, 480}, .required = true},
        offcut.length);
  visit(Input{"count", "How many of them.", Range{1, 1000}, "one"}, offcut.count);
  visit(Input{"scrap_value", "What one could be sold for instead.", Range{0, 100000}, "nothing: it is used first"},
        offcut.scrap_value);
}

void inputs(auto& visit, Is<ItemPrice> auto& price) {
  visit(Input{.key = "item",
              .sentence = "The item, by the key that the order gives it: `bolt-1/2x7`, or `2x6` for a board.",
              .required = true,
              .text_form = "item"},
        price.item);
  visit(Input{"length", "Length of the board.", Range{12, 480}, "needed for a board only"}, price.length);
  visit(Input{.key = "price",
              .sentence = "Price of one package of it, or of one board.",
              .range = Range{0, 100000},
              .required = true},
        price.price);
}

void inputs(auto& visit, Is<Yard> auto& yard) {
  visit(Input{.key = "price_date",
              .sentence = "Day of these prices, year-month-day.",
              .why = "the demo prices' own day",
              .text_form = "date",
              .may_be_empty = true},
        yard.price_date);
  visit(Input{.key = "currency",
              .sentence = "Currency of every price, three letters.",
              .why = "that of the demo prices",
              .text_form = "currency"},
        yard.currency);
  visit(Input{.key = "stock",
              .sentence = "Boards the yard has; they replace the demo stock of every section named.",
              .why = "the demo stock"},
        yard.stock);
  visit(Input{.key = "ready_cut", .sentence = "Ready-cut stringers the yard has.", .why = "none"}, yard.ready_cut);
  visit(Input{.key = "offcuts",
              .sentence =
                  "Offcuts on hand: used before a board is bought, or where that saves more than their scrap value.",
              .why = "none"},
        yard.offcuts);
  visit(Input{.key = "prices",
              .sentence = "Prices at the yard in place of demo prices: of boards, of hardware in the metal that the "
                          "order asks for, of landing material and care.",
              .why = "the demo prices"},
        yard.prices);
  visit(Input{"kerf", "Wood that one saw cut eats.", Range{0, 0.5}, kPractice}, yard.kerf);
  visit(Input{"end_trim", "Cut off each end of a new board.", Range{0, 12}, kPractice}, yard.end_trim);
  visit(Input{"bad_end", "Beyond the trim at one end of a new board, kept for parts that carry nothing.", Range{0, 48},
              "both ends are good"},
        yard.bad_end);
}

void inputs(auto& visit, Is<Saw> auto& saw) {
  visit(Input{.key = "mitre_limit_degrees",
              .sentence = "Furthest that the saw's scale goes from a square cut.",
              .range = Range{0, 89},
              .why = kPractice,
              .unit = "degrees"},
        saw.mitre_limit_degrees);
}

void inputs(auto& visit, Is<Choose> auto& choose) {
  visit(
      Input{.key = "keep",
            .sentence = "Choices that stay as this job says when stairs are searched: `top`, `treads`, `riser boards`, "
                        "`stringers` (kind and board), `spacing`, `mid supports`, `head`, `rails`.",
            .why = "everything is searched",
            .text_form = "searched choice"},
      choose.keep);
  visit(Input{.key = "hour_worth",
              .sentence = "What the default pick gives for an hour of work saved.",
              .range = Range{0, 1000},
              .why = "data/choosing.toml where prices are in its currency, else nothing"},
        choose.hour_worth);
  visit(Input{.key = "comfort_worth",
              .sentence = "What the default pick gives for an inch of 2R + G nearer to 24 to 25 in.",
              .range = Range{0, 10000},
              .why = "the same"},
        choose.comfort_worth);
}

void inputs(auto& visit, Is<Job> auto& job) {
  visit.group(Input{.key = "about", .sentence = "What the papers say at their head.", .required = true}, job.about);
  visit.group(Input{.key = "deck", .sentence = "The deck or porch that the stair hangs on."}, job.deck);
  visit.group(Input{.key = "ground",
                    .sentence = "Tape readings of the ground on one to three lines, from the deck outwards. Read past "
                                "the place where the landing will end.",
                    .required = true},
              job.ground);
  visit.group(Input{.key = "pad", .sentence = "The landing pad at the foot."}, job.pad);
  visit.group(Input{.key = "room", .sentence = "What the stair has to keep clear of."}, job.room);
  visit.group(Input{.key = "stair", .sentence = "The stair that is wanted; leave out what may be found."}, job.stair);
  visit.group(Input{.key = "stringers", .sentence = "What carries the treads."}, job.stringers);
  visit.group(Input{.key = "rails", .sentence = "Guards, posts and handrail."}, job.rails);
  visit.group(Input{.key = "place", .sentence = "What the place asks of the stair."}, job.place);
  visit.group(
      Input{.key = "wood",
            .sentence = "The wood it is built of; `data/species.toml` and `data/treatments.toml` list the names."},
      job.wood);
  visit.group(Input{.key = "loads", .sentence = "What the stair has to carry."}, job.loads);
  visit.group(Input{.key = "yard", .sentence = "What can be bought, and what is on hand."}, job.yard);
  visit.group(Input{.key = "saw", .sentence = "The saw that cuts it."}, job.saw);
  visit.group(Input{.key = "choose", .sentence = "What the search over stairs may change, and what the pick weighs."},
              job.choose);
}

}  // namespace pitchboard
