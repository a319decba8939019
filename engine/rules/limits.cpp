// What the stages before the check need from the rules in force.

#include <algorithm>

#include "engine/rules/condition.hpp"
#include "engine/rules/rules.hpp"

namespace pitchboard {
namespace {

/// A flight is never shaped taller than this where no rule ends it sooner. SOURCE own judgement: beyond it a landing is
/// wanted anyway.
constexpr Length kTallest = feet(20.0);

/// RETURNS the tightest limit of that quantity and comparison, lengths in inches.
std::optional<double> limit_of(const std::vector<RuleRow>& rules, std::string_view quantity, std::string_view compare) {
  std::optional<double> out;
  for (const RuleRow& row : rules) {
    if (row.quantity != quantity || row.compare != compare || row.advice) continue;
    const double limit = row.limit * inches_in(row.unit).value_or(1.0);
    out = !out ? limit : compare == "at_most" ? std::min(*out, limit) : std::max(*out, limit);
  }
  return out;
}

/// True when some row of that quantity holds, or may hold, with only these facts known.
bool asked_for(const Place& place, std::string_view quantity, const Facts& facts) {
  return std::ranges::any_of(rules_in_force(place, quantity),
                             [&](const RuleRow& row) { return holds(row.when, facts) != Truth::no; });
}

}  // namespace

ShapeLimits shape_limits(const Place& place) {
  const std::vector<RuleRow> rules = rules_in_force(place);
  const auto set = [&](Length& into, std::string_view quantity, std::string_view compare) {
    if (const std::optional<double> limit = limit_of(rules, quantity, compare)) into = inches(*limit);
  };
  ShapeLimits out;
  set(out.rise_min, "riser_height", "at_least");
  set(out.rise_max, "riser_height", "at_most");
  set(out.going_min, "going", "at_least");
  set(out.going_max, "going", "at_most");
  out.flight_rise_max = kTallest;
  if (const std::optional<double> risers = limit_of(rules, "risers", "at_most"))
    out.flight_rise_max = out.rise_max * *risers;
  set(out.flight_rise_max, "flight_rise", "at_most");
  const std::optional<double> least = limit_of(rules, "twice_rise_plus_going", "at_least");
  const std::optional<double> most = limit_of(rules, "twice_rise_plus_going", "at_most");
  if (least && most) out.twice_rise_plus_going = Interval{inches(*least), inches(*most)};
  if (const std::optional<double> pitch = limit_of(rules, "pitch", "at_most")) out.pitch_max = degrees(*pitch);
  return out;
}

bool handrail_needed(const Place& place, int risers) {
  return asked_for(place, "handrail_sides", {{"risers", static_cast<double>(risers)}});
}

bool guard_needed(const Place& place, Length drop) { return asked_for(place, "guard", {{"drop", in_inches(drop)}}); }

bool stainless_required(const Place& place) {
  if (!place.salt_water) return false;
  const Facts facts{{"salt_water", in_inches(*place.salt_water)}};
  Place known = place;
  // A pack that says nothing about salt air does not make it milder: the one published distance is taken.
  if (rules_in_force(place, "stainless").empty()) known = {.pack = "irc-2021"};
  return asked_for(known, "stainless", facts);
}

}  // namespace pitchboard
