#include "engine/choose/matter.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace pitchboard {
namespace {

using enum Matter;

/// Quantities that rails, more stringers and supports have no part in. The board on the rim, which a hanger board takes
/// the place of, is a part of the steps.
constexpr std::string_view kOfTheSteps[] = {"riser_height",
                                            "riser_variation",
                                            "riser_neighbour_variation",
                                            "riser_slope",
                                            "risers",
                                            "closed_risers",
                                            "open_riser_gap",
                                            "going",
                                            "going_variation",
                                            "going_neighbour_variation",
                                            "twice_rise_plus_going",
                                            "rise_plus_going",
                                            "going_minus_rise",
                                            "pitch",
                                            "tread_overlap",
                                            "tread_slope",
                                            "flight_rise",
                                            "headroom"};
constexpr std::string_view kOfTheNosing[] = {"nosing", "nosing_variation"};
constexpr std::string_view kOfTheWidth[] = {"clear_width", "clear_width_above_rail"};
constexpr std::string_view kOfTheRail[] = {"rail", "cap", "baluster", "handrail"};

constexpr Matters kFlight = matters({top, kind, treads, riser_boards, risers, going});
/// How stringers are cut and where posts stand: whether a tread is one board or two has no part in it.
constexpr Matters kSetOut = matters({top, kind, riser_boards, risers, going, hanger, rise, nosing, thickness});

bool among(const auto& words, std::string_view word) { return std::ranges::find(words, word) != std::end(words); }

/// Posts and their footings may be in the way of mid supports.
bool supports_may_stand(const Space& space, const Choice& choice) {
  return space.additions.mid_supports[choice.mid_supports] != 0;
}

/// The lowest posts' bolts say where the kicker is let in and, between solid stringers, their hold-downs whether thick
/// bolts have room.
std::size_t foot_of(const StringerMake& make, const RailScheme& rails) {
  return static_cast<std::size_t>(rails.bolt) + (make.kind == StringerKind::solid && rails.hold_downs ? 2 : 0);
}

}  // namespace

const Matters kSteps = kFlight | matters({hanger});
const Matters kWidth = matters({kind, Matter::rails}), kHandrails = matters({risers, Matter::rails});
const Matters kTreadBoards = matters({top, kind, treads, going, stringers, hanger});
const Matters kRails = kSetOut | matters({Matter::rails});  // where the heads hang from a board upper posts stand out
const Matters kPosts = kSetOut | matters({board, Matter::rails});
const Matters kStringers = kEveryMatter & ~matters({treads, Matter::rails});

Key key_of(const Space& space, const Choice& choice, bool hanger) {
  const Family& family = space.families[choice.family];
  const Flight& flight = family.flights[choice.flight];
  const StringerMake& make = family.stringers;
  const auto number = [](auto value) { return static_cast<std::uint16_t>(value); };
  const auto length = [&](Length value) { return number(std::lround(value / inches(1.0 / 1024.0))); };
  return {number(family.top), number(static_cast<std::size_t>(make.kind) + 3 * make.ready_cut.value_or(0)),
          number(family.board), number(family.treads), number(family.riser_boards), number(family.risers),
          length(flight.going), number(choice.stringers), number(hanger), number(choice.mid_supports),
          number(choice.rails), length(flight.unit_rise), length(flight.nosing), length(flight.tread_thickness),
          // Its stringers have no notch between head and foot: the head's cut is the least wood.
          number(flight.treads() > 1
                     ? 0
                     : 1 + 4 * static_cast<int>(family.treads) + 2 * static_cast<int>(family.riser_boards) + hanger),
          number(supports_may_stand(space, choice) ? 4 + choice.rails
                                                   : foot_of(make, space.additions.rails[choice.rails]))};
}

Key about(Key key, Matters of) {
  for (std::size_t i = 0; i < kMatters; ++i) {
    key[i] = static_cast<std::uint16_t>(key[i] * ((of >> i) & 1u));
  }
  return key;
}

Matters matters_of(const Finding& finding) {
  const std::string_view what = finding.quantity;
  if (among(kOfTheNosing, what)) return matters({top, kind, riser_boards, going, nosing, hanger});
  if (among(kOfTheSteps, what)) return kSteps;
  if (among(kOfTheWidth, what)) return kWidth;
  if (what == "handrail_sides") return kHandrails;
  if (what.starts_with("guard") || what.starts_with("handrail")) return kSteps | matters({rails});
  return kEveryMatter;
}

Matters matters_of(const Check& check, bool hold_downs) {
  const std::string_view what = check.what;
  if (check.member == "tread") {
    if (what.starts_with("screws of the tread angle")) return matters({kind, treads});
    return kTreadBoards;
  }
  if (check.member == "stringer") {
    if (what.starts_with("wood left")) return matters({top, kind, board, risers, rise, going, lone_tread});
    if (what.starts_with("stringers, middle to middle")) return matters({kind, treads, stringers});
    const Matters span = kSetOut | matters({board, mid_supports, at_foot});
    return what.starts_with("level span") ? span : span | matters({stringers});
  }
  if (among(kOfTheRail, check.member)) return kRails;
  if (check.member == "post") {
    // What keeps the stringer from rolling, and whether a hold-down finds room, depends on the bay behind the post and
    // on the treads over that; the post, its bolts without a hold-down and its footing do not.
    const bool bolts = what == "upper bolt, pulled" || what == "bolts, pressed down";
    const bool itself = what.starts_with("bending") || what.starts_with("shear") || what.starts_with("depth of");
    return itself || (bolts && !hold_downs) ? kPosts : kPosts | matters({treads, stringers, mid_supports});
  }
  return kStringers;
}

}  // namespace pitchboard
