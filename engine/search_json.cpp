// The search as canonical JSON: keys sorted, so that equal searches give equal bytes.

#include <nlohmann/json.hpp>

#include "engine/advice.hpp"
#include "engine/base/canonical.hpp"
#include "engine/choose/explain.hpp"
#include "engine/choose/front.hpp"
#include "engine/frame/frame.hpp"
#include "engine/job/words.hpp"
#include "engine/plan.hpp"

namespace pitchboard {
namespace {

using nlohmann::json;

json length(Length value) { return canonical(in_inches(value)); }

json score_of_json(const Score& s) {
  return {{"cost", s.cost}, {"work", s.work}, {"comfort", s.comfort}, {"ratio", s.ratio}, {"earth", s.earth}};
}

json option_json(const Job& job, const Search& search, std::size_t at) {
  const Option& option = search.front[at];
  const Figures& figures = option.figures;
  const Family& family = search.space.families[option.choice.family];
  const Flight& flight = family.flights[option.choice.flight];
  const Job stair = chosen(job, search.space, option.choice);
  json ready_cut, mid_supports;
  if (family.stringers.ready_cut) ready_cut = job.yard.ready_cut[*family.stringers.ready_cut].name;
  if (stair.stringers.mid_supports) mid_supports = *stair.stringers.mid_supports;
  return {{"number", at + 1},
          {"stair", stair_words(job, search.space, option.choice)},
          {"why", why_on_front(search, at)},
          {"marks", marks_of(search, at)},
          {"cost", figures.cents},
          {"hours", canonical(figures.minutes / 60.0)},
          {"comfort_off", length(figures.comfort)},
          {"ratio", canonical(figures.ratio)},
          {"weakest", figures.weakest},
          {"lift", length(figures.lift)},
          {"open", option.open},
          {"score", score_of_json(option.score)},
          {"worth", canonical(worth(job, option.score))},
          {"risers", flight.risers},
          {"unit_rise", length(flight.unit_rise)},
          {"going", length(flight.going)},
          {"run", length(flight.run)},
          {"top", word(family.top)},
          {"treads", word(family.treads)},
          {"riser_boards", word(family.riser_boards)},
          {"stringers",
           {{"kind", word(family.stringers.kind)},
            {"board", family.stringers.board},
            {"ready_cut", ready_cut},
            {"count", stringer_count(stair)},
            {"bearing_share", canonical(stair.stringers.bearing_share)},
            {"mid_supports", mid_supports}}},
          {"rails",
           {{"foot_posts", word(stair.rails.foot_posts)},
            {"hold_downs", stair.rails.hold_downs},
            {"post_bolt", word(stair.rails.post_bolt)}}}};
}

json doubt_json(const Job& job, const Doubt& doubt) {
  return {{"input", doubt.key},
          {"out", length(doubt.out)},
          {"down", length(doubt.down)},
          {"off", length(doubt.off)},
          {"upset", upset_key(doubt.upset)},
          {"landing", length(doubt.landing)},
          {"words", doubt_words(job, doubt)}};
}

json faulty_json(const Job& job, const Space& space, const FaultyStair& stair) {
  json faults = json::array();
  for (const Fault& fault : stair.faults) faults.push_back(fault.words);
  return {{"stair", stair_words(job, space, stair.choice)}, {"faults", faults}};
}
json in_the_way_json(const Job& job, const Advice& advice) {
  const Conflict& conflict = advice.conflict;
  if (conflict.kinds.empty()) return {};
  json kinds = json::array(), least;
  for (const InTheWay& in_the_way : conflict.kinds)
    kinds.push_back({{"kind", in_the_way.kind}, {"witness", faulty_json(job, conflict.space, in_the_way.witness)}});
  if (advice.freed) {
    json changes = json::array();
    for (const Change& change : advice.freed->remedy.changes)
      changes.push_back({{"input", change.key}, {"value", change.value}});
    least = {{"stair", stair_words(job, conflict.space, advice.freed->choice)}, {"changes", changes}};
  }
  return {{"kinds", kinds}, {"nearest", faulty_json(job, conflict.space, conflict.nearest)}, {"least_change", least}};
}

}  // namespace

std::string search_json(const Job& job, const Search& search, const Advice& advice) {
  json options = json::array(), dropped = json::array(), doubts = json::array(), pick, no_flight;
  for (std::size_t i = 0; i < search.front.size(); ++i) options.push_back(option_json(job, search, i));
  if (!search.front.empty()) pick = search.pick + 1;
  for (const Rejected& group : rejected(search)) {
    json families = json::array();
    for (const std::size_t i : group.families) families.push_back(family_words(job, search.space.families[i]));
    dropped.push_back({{"fault", group.fault}, {"families", families}});
  }
  for (const Doubt& doubt : advice.doubts) doubts.push_back(doubt_json(job, doubt));
  if (search.space.families.empty()) no_flight = json::parse(no_flight_json(job));
  const PickRule rule = pick_rule(job);
  const json out = {{"format", "pitchboard options 1"},
                    {"units", {{"length", "in"}, {"money", "cent"}, {"work", "h"}}},
                    {"currency", job.yard.currency},
                    {"searched",
                     {{"stairs", search.space.size()},
                      {"families", search.space.families.size()},
                      {"priced", search.priced},
                      {"checked", search.evaluated}}},
                    {"rule", {{"hour_worth", rule.hour.cents}, {"comfort_worth", rule.comfort.cents}}},
                    {"pick", pick},
                    {"options", options},
                    {"measure_again", doubts},
                    {"in_the_way", in_the_way_json(job, advice)},
                    {"no_flight", no_flight},
                    {"rejected", dropped}};
  return out.dump(1, ' ', false, json::error_handler_t::replace) + "\n";
}

}  // namespace pitchboard
