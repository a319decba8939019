#include "engine/choose/front.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "engine/base/tape.hpp"

namespace pitchboard {
namespace {

struct Best {
  std::string_view words;
  double (*of)(const Figures&);  ///< less is better
};
constexpr Best kBests[] = {
    {"cheapest", [](const Figures& f) { return static_cast<double>(f.cents); }},
    {"least work", [](const Figures& f) { return f.minutes; }},
    {"most comfortable", [](const Figures& f) { return in_inches(f.comfort); }},
    {"strongest", [](const Figures& f) { return f.ratio; }},
    {"least earth moved", [](const Figures& f) { return in_inches(abs(f.lift)); }},
};

}  // namespace

PickRule pick_rule(const Job& job) {
  // An hour is four steps of work, an inch four of comfort.
  const auto weight = [&](const Score& score) { return Money{std::llround(worth(job, score))}; };
  return {weight({.work = 4}), weight({.comfort = 4})};
}

std::string rule_words(const Job& job) {
  const PickRule rule = pick_rule(job);
  const std::string& currency = job.yard.currency;
  if (rule.hour.cents == 0 && rule.comfort.cents == 0)
    return "the cheapest, since the job file says nothing of what an hour or comfort is worth (choose.hour_worth, "
           "choose.comfort_worth)";
  return fmt::format("the least of the cost, {0} {1} an hour of work and {0} {2} an inch that 2R + G is off {3} to {4}",
                     currency, money_text(rule.hour), money_text(rule.comfort),
                     tape(comfort_band().from, job.about.units), tape(comfort_band().to, job.about.units));
}

std::vector<std::string_view> marks_of(const Search& search, std::size_t option) {
  std::vector<std::string_view> out;
  if (option == search.pick) out.push_back("pick");
  for (const Best& best : kBests) {
    const auto value = [&](const Option& o) { return best.of(o.figures); };
    const auto [least, most] = std::ranges::minmax(search.front, {}, value);
    if (value(least) == value(most)) continue;
    const auto first = std::ranges::min_element(search.front, {}, value);
    if (first - search.front.begin() == static_cast<std::ptrdiff_t>(option)) out.push_back(best.words);
  }
  return out;
}

Job job_of(const Job& job, const Search& search, std::size_t option) {
  const Choice& choice = search.front[option].choice;
  Job out = chosen(job, search.space, choice);
  if (const auto line = search.space.families[choice.family].stringers.ready_cut)
    out.yard.ready_cut = {job.yard.ready_cut[*line]};
  return out;
}

}  // namespace pitchboard
