#include "engine/rules/quantities.hpp"

#include <algorithm>
#include <iterator>

namespace pitchboard {
namespace {

constexpr QuantityInfo kQuantities[] = {
    // Steps
    {"riser_height", Kind::length, "riser height", "take one riser more, or raise the landing",
     "take one riser fewer, or lower the landing", ""},
    {"riser_variation", Kind::length, "difference between the highest and the lowest riser",
     "set the landing to the planned level, level across, and cut the stringer feet to it", "", ""},
    {"riser_neighbour_variation", Kind::length, "difference between two neighbouring risers",
     "set the landing to the planned level, level across, and cut the stringer feet to it", "", ""},
    {"riser_slope", Kind::angle, "lean of the riser boards", "set the riser boards plumb", "", ""},
    {"risers", Kind::count, "number of risers", "break the flight with a landing", "take one riser more", ""},
    {"closed_risers", Kind::yes_no, "closed risers", "close every riser with a board", "", ""},
    {"open_riser_gap", Kind::length, "ball that passes an open riser", "close the risers, or narrow them with a board",
     "", ""},
    {"going", Kind::length, "going (run)", "choose a shorter going", "choose a longer going, with deeper treads", ""},
    {"going_variation", Kind::length, "difference between the longest and the shortest going",
     "make all goings alike, the one at the deck too", "", ""},
    {"going_neighbour_variation", Kind::length, "difference between two neighbouring goings",
     "make all goings alike, the one at the deck too", "", ""},
    {"twice_rise_plus_going", Kind::length, "twice the rise plus the going", "take lower risers or shorter goings",
     "take higher risers or longer goings", ""},
    {"rise_plus_going", Kind::length, "rise plus going", "take lower risers or shorter goings",
     "take higher risers or longer goings", ""},
    {"going_minus_rise", Kind::length, "going less rise", "take higher risers or shorter goings",
     "take lower risers or longer goings", ""},
    {"pitch", Kind::angle, "pitch", "take longer goings or lower risers", "take shorter goings or higher risers", ""},
    {"nosing", Kind::length, "nosing projection", "take narrower treads, or move the riser or the deck's edge",
     "take deeper treads, or let the deck's edge reach out further", ""},
    {"nosing_variation", Kind::length, "difference between the nosing projections",
     "let the deck's edge project past its riser as the treads do", "", ""},
    {"nosing_edge", Kind::length, "rounding of the front edges", "", "",
     "The carpenter: round or bevel the front edges within this."},
    {"tread_overlap", Kind::length, "overlap of treads", "take narrower treads", "take deeper treads", ""},
    {"tread_slope", Kind::slope, "slope of the treads", "set the treads level", "", ""},
    {"tread_thickness", Kind::length, "thickness of the treads", "take thinner treads", "take thicker treads", ""},
    {"flight_rise", Kind::length, "rise of the flight", "break the flight with a landing", "", ""},
    {"headroom", Kind::length, "headroom", "", "move the stair, or raise what is overhead", ""},
    {"clear_width", Kind::length, "clear width between the handrails", "", "make the stair wider", ""},
    {"clear_width_above_rail", Kind::length, "clear width above the handrail", "", "make the stair wider", ""},
    {"composite_tread", Kind::yes_no, "listing of composite treads", "take treads with a listing", "", ""},
    {"slip_resistance", Kind::yes_no, "slip resistance of the treads", "", "",
     "Whoever buys the treads: ask for the class."},
    {"drainage", Kind::yes_no, "water running off", "", "",
     "The carpenter: pour water on treads and landing and watch it run off."},
    // Landing
    {"landing", Kind::yes_no, "landing at the foot", "build a landing at the foot", "", ""},
    {"landing_depth", Kind::length, "landing along the way of travel", "", "make the landing longer", ""},
    {"landing_depth_over_width", Kind::length, "landing along the way of travel", "", "make the landing longer", ""},
    {"landing_width", Kind::length, "width of the landing", "", "make the landing wider", ""},
    {"landing_fall", Kind::slope, "fall of the landing along the way of travel", "lay the landing flatter", "", ""},
    {"landing_cross_fall", Kind::slope, "fall of the landing across", "lay the landing level across", "", ""},
    {"top_landing", Kind::yes_no, "landing at the top", "", "",
     "The carpenter: the deck at the stair's head is not part of the job; see that it is as deep as a landing."},
    {"door_landing", Kind::yes_no, "landing at the door", "", "",
     "The carpenter: measure deck and threshold at the door."},
    // Handrail
    {"handrail_sides", Kind::count, "sides with a handrail", "", "add a handrail", ""},
    {"handrail_height", Kind::length, "handrail height above the line of nosings", "set the handrail lower",
     "set the handrail higher", ""},
    {"handrail_projection", Kind::length, "reach of the handrail into the stair",
     "set the handrail nearer to the guard", "", ""},
    {"handrail_clearance", Kind::length, "free space beside the handrail", "",
     "set the handrail further from the guard", ""},
    {"handrail_past_foot", Kind::length, "handrail past the lowest nosing", "", "let the handrail run on at the foot",
     ""},
    {"handrail_past_head", Kind::length, "handrail past the top nosing", "", "let the handrail run on at the head", ""},
    {"handrail_breaks", Kind::count, "breaks in the handrail", "join the pieces of the handrail", "", ""},
    {"handrail_diameter", Kind::length, "thickness of the handrail", "take a thinner handrail",
     "take a thicker handrail", ""},
    {"handrail_perimeter", Kind::length, "distance around the handrail", "take a slimmer handrail",
     "take a thicker handrail", ""},
    {"handrail_cross_section", Kind::length, "handrail across its widest", "take a slimmer handrail", "", ""},
    {"handrail_ends", Kind::yes_no, "ends of the handrail", "", "",
     "The carpenter: return both ends to the guard or a post."},
    {"handrail_edges", Kind::length, "eased edges of the handrail", "", "",
     "The carpenter: ease every edge of the handrail."},
    // Guard
    {"guard", Kind::yes_no, "guard on the open side", "add a guard on that side", "", ""},
    {"guard_height", Kind::length, "guard height above the line of nosings", "", "set the guard higher", ""},
    {"guard_opening", Kind::length, "widest gap in the guard", "set the balusters closer together", "", ""},
    {"guard_triangle", Kind::length, "ball that passes under the bottom rail",
     "set the bottom rail nearer to the nosings", "", ""},
    {"guard_bottom_gap", Kind::length, "gap between the line of nosings and the bottom rail",
     "set the bottom rail nearer to the nosings", "", ""},
    {"guard_post_fixing", Kind::yes_no, "fixing of the guard posts", "", "",
     "The building inspector, or an engineer: look at how the posts are tied into the frame."},
    {"climbable_guard", Kind::yes_no, "a guard that is no ladder", "", "",
     "The carpenter: see that nothing in the guard gives a foothold."},
    // Stringers
    {"throat", Kind::length, "wood left under the notches", "", "take deeper stringers, or a flatter step", ""},
    {"stringer_depth", Kind::length, "depth of the stringer board", "", "take deeper stringers", ""},
    {"stringer_thickness", Kind::length, "thickness of the stringers", "", "take thicker stringers", ""},
    {"stringer_spacing", Kind::length, "stringers apart, middle to middle", "add a stringer", "", ""},
    {"stringer_span", Kind::length, "clear level span of a stringer",
     "prop the stringers in the middle, or break the flight", "", ""},
    // Wood, metal, strength and light
    {"decay_resistance", Kind::yes_no, "wood that lasts outdoors", "take treated wood or a durable species", "", ""},
    {"ground_contact", Kind::yes_no, "wood treated for ground contact", "take wood treated for ground contact", "", ""},
    {"fastener_coating", Kind::yes_no, "coating of the fasteners", "", "",
     "Whoever buys the hardware: the label has to say hot-dip galvanized or stainless."},
    {"stainless", Kind::yes_no, "stainless fasteners and connectors", "", "",
     "Whoever buys the hardware: the label has to say stainless."},
    {"stair_load", Kind::load, "load on the stair", "", "",
     "Computed under strength, not measured here: see its ratios, and ask the building department."},
    {"tread_load", Kind::load, "load on a tread", "", "",
     "Computed under strength, not measured here: see its ratios, and ask the building department."},
    {"deck_load", Kind::load, "load on the deck", "", "",
     "Computed under strength, not measured here: see its ratios, and ask the building department."},
    {"guard_load", Kind::load, "load on guard and handrail", "", "",
     "Computed under strength, not measured here: see its ratios, and ask the building department."},
    {"infill_load", Kind::load, "load on what fills the guard", "", "",
     "Computed under strength, not measured here: see its ratios, and ask the building department."},
    {"anchorage", Kind::yes_no, "anchorage of the stair", "", "",
     "The building inspector: look at the head and the foot before they are covered."},
    {"head_support", Kind::yes_no, "what carries the stringer heads", "", "",
     "The building inspector, or an engineer: the rim takes the stair's load on top of the deck's."},
    {"footing_depth", Kind::length, "depth of the footing", "", "",
     "The building department: ask whether the landing counts as a footing, and how deep it has to go."},
    {"light", Kind::yes_no, "light at the stair", "", "",
     "The owner or an electrician: see that a light shines on the stair."},
};

}  // namespace

std::span<const QuantityInfo> quantities() { return kQuantities; }

const QuantityInfo* find_quantity(std::string_view name) {
  const auto found = std::ranges::find(kQuantities, name, &QuantityInfo::name);
  return found == std::end(kQuantities) ? nullptr : found;
}

}  // namespace pitchboard
