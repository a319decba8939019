// The search as canonical JSON: keys sorted, so that equal searches give equal bytes.

#include <nlohmann/json.hpp>

#include "engine/base/canonical.hpp"
#include "engine/choose/explain.hpp"
#include "engine/choose/front.hpp"
#include "engine/frame/frame.hpp"
#include "engine/job/words.hpp"

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

}  // namespace

std::string search_json(const Job& job, const Search& search) {
  json options = json::array(), dropped = json::array(), pick;
  for (std::size_t i = 0; i < search.front.size(); ++i) options.push_back(option_json(job, search, i));
  if (!search.front.empty()) pick = search.pick + 1;
  for (const Rejected& group : rejected(search)) {
    json families = json::array();
    for (const std::size_t i : group.families) families.push_back(family_words(job, search.space.families[i]));
    dropped.push_back({{"fault", group.fault}, {"families", families}});
  }
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
                    {"rejected", dropped}};
  return out.dump(1, ' ', false, json::error_handler_t::replace) + "\n";
}

}  // namespace pitchboard
