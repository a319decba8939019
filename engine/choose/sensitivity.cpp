#include "engine/choose/sensitivity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "engine/base/sort.hpp"
#include "engine/base/tape.hpp"
#include "engine/choose/explain.hpp"
#include "engine/job/words.hpp"
#include "engine/rules/rules.hpp"

namespace pitchboard {
namespace {

/// The job with one reading moved.
struct Moved {
  Doubt doubt;
  Job job;
};

std::vector<Moved> moved_readings(const Job& job) {
  const Site site(job);
  std::vector<Moved> out;
  const auto move = [&](const std::string& key, Length at, Length down, auto set) {
    const Length off = site.reading_uncertainty(at);
    if (off <= kTouch) return;
    for (const Length by : {off, -off}) {
      out.push_back({{.key = key, .out = at, .down = down, .off = by}, job});
      set(out.back().job, down + by);
    }
  };
  for (std::size_t i = 0; i < job.ground.lines.size(); ++i) {
    const ReadingLine& line = job.ground.lines[i];
    for (std::size_t k = 0; k < line.readings.size(); ++k) {
      const Reading& reading = line.readings[k];
      move(fmt::format("ground.{}[{}].down", word(line.line), k), reading.out, reading.down,
           [=](Job& j, Length to) { j.ground.lines[i].readings[k].down = to; });
    }
  }
  if (job.pad.existing && job.pad.from && job.pad.down)
    move("pad.down", *job.pad.from, *job.pad.down, [](Job& j, Length to) { j.pad.down = to; });
  return out;
}

std::optional<Flight> flight_of(const Job& stair, const Site& site, std::optional<std::size_t> ready_cut) {
  for (Flight& flight : shape_flights(stair, site, shape_limits(stair.place))) {
    if (flight.ready_cut == ready_cut) return std::move(flight);
  }
  return std::nullopt;
}

std::string flight_words(const Job& job, const Flight& flight) {
  return fmt::format("{} risers of {} with goings of {}", flight.risers, tape(flight.unit_rise, job.about.units),
                     tape(flight.going, job.about.units));
}

/// RETURNS that choice of the search at the moved site; no value where its flight does not fit there.
std::optional<Evaluation> evaluated(const Job& moved, const Space& space, const Choice& choice) {
  const Site site(moved);
  const Job stair = chosen(moved, space, choice);
  const auto flight = flight_of(stair, site, space.families[choice.family].stringers.ready_cut);
  return flight ? std::optional(evaluate(stair, site, *flight)) : std::nullopt;
}

std::string pick_words(const Job& job, const Search& search) {
  return stair_words(job, search.space, search.front[search.pick].choice);
}
/// RETURNS what makes two choices of different searches the same stair.
auto stair_of(const Search& search) {
  const Choice& c = search.front[search.pick].choice;
  const Family& f = search.space.families[c.family];
  const Additions& add = search.space.additions;
  const RailScheme& rails = add.rails[c.rails];
  return std::tuple(f.top, f.stringers.kind, f.stringers.board, f.stringers.ready_cut, f.treads, f.riser_boards,
                    f.risers, f.flights[c.flight].going, add.stringers[c.stringers], add.bearing_shares[c.bearing],
                    add.mid_supports[c.mid_supports], rails.foot_posts, rails.hold_downs, rails.bolt);
}

/// What becomes of the search's pick.
std::optional<std::pair<Upset, std::string>> upset_of(const Moved& moved, const Search& search, Again again) {
  const auto searched = [&] { return search_stairs(moved.job, Site(moved.job)); };
  if (search.front.empty()) {
    if (again == Again::cheap_questions) return std::nullopt;
    const Search now = searched();
    return now.front.empty() ? std::nullopt : std::optional(std::pair(Upset::can_be_built, pick_words(moved.job, now)));
  }
  const std::optional<Evaluation> pick = evaluated(moved.job, search.space, search.front[search.pick].choice);
  if (!pick) return std::pair(Upset::does_not_fit, pick_words(moved.job, search));
  if (!pick->faults.empty()) return std::pair(Upset::fails, pick->faults.front().words);
  const double least = worth(moved.job, score_of(pick->figures));
  for (std::size_t i = 0; i < search.front.size(); ++i) {
    if (i == search.pick) continue;
    const std::optional<Evaluation> other = evaluated(moved.job, search.space, search.front[i].choice);
    if (other && other->faults.empty() && worth(moved.job, score_of(other->figures)) < least)
      return std::pair(Upset::another_stair, stair_words(moved.job, search.space, search.front[i].choice));
  }
  if (again == Again::cheap_questions) return std::nullopt;
  const Search now = searched();
  if (now.front.empty() || stair_of(now) == stair_of(search)) return std::nullopt;
  return std::pair(Upset::another_stair, pick_words(moved.job, now));
}

/// Keeps the readings of which something comes, the gravest first.
std::vector<Doubt> doubts(const Job& job, Length run, const auto& upset_of) {
  const Site site(job);
  std::vector<Doubt> out;
  for (Moved& moved : moved_readings(job)) {
    auto upset = upset_of(moved);
    if (!upset) continue;
    Doubt& doubt = out.emplace_back(std::move(moved.doubt));
    doubt.upset = upset->first;
    doubt.words = std::move(upset->second);
    doubt.landing = doubt.key == "pad.down" ? abs(doubt.off) : abs(Site(moved.job).ground(run).z - site.ground(run).z);
  }
  sort_stably(out, [](const Doubt& a, const Doubt& b) {
    return a.upset != b.upset ? a.upset < b.upset : a.landing > b.landing;
  });
  return out;
}

struct Told {
  std::string_view key, words;
};
constexpr Told kUpsets[] = {{"does_not_fit", "this would not fit"},
                            {"fails", "this would fail"},
                            {"can_be_built", "this could be built"},
                            {"another_stair", "this would be chosen"}};
const Told& told(Upset upset) { return kUpsets[static_cast<std::size_t>(upset)]; }

}  // namespace

std::vector<Doubt> doubts_of(const Job& job, const Search& search, Again again) {
  Length run;
  if (!search.front.empty()) {
    const Choice& pick = search.front[search.pick].choice;
    run = search.space.families[pick.family].flights[pick.flight].run;
  }
  return doubts(job, run, [&](const Moved& moved) { return upset_of(moved, search, again); });
}

std::vector<Doubt> doubts_of(const Job& job) {
  const auto first = [](const Job& j) {
    std::vector<Flight> flights = shape_flights(j, Site(j), shape_limits(j.place));
    return flights.empty() ? std::nullopt : std::optional(std::move(flights.front()));
  };
  const Flight flight = first(job).value_or(Flight{});
  const std::vector<Fault> before = evaluate(job, Site(job), flight).faults;
  return doubts(job, flight.run, [&](const Moved& moved) -> std::optional<std::pair<Upset, std::string>> {
    const std::optional<Flight> now = first(moved.job);
    if (!now) return std::pair(Upset::does_not_fit, flight_words(job, flight));
    if (now->risers != flight.risers || now->ready_cut != flight.ready_cut || abs(now->going - flight.going) > kTouch)
      return std::pair(Upset::another_stair, flight_words(job, *now));
    for (const Fault& fault : evaluate(moved.job, Site(moved.job), *now).faults) {
      if (std::ranges::find(before, fault.kind, &Fault::kind) == before.end())
        return std::pair(Upset::fails, fault.words);
    }
    return std::nullopt;
  });
}

std::string_view upset_key(Upset upset) { return told(upset).key; }

std::string doubt_words(const Job& job, const Doubt& doubt) {
  const UnitSystem units = job.about.units;
  return fmt::format("Measure {} ({} down at {} out) again. Were it {} {}, {}: {}", doubt.key,
                     tape_plain(doubt.down, units), tape_plain(doubt.out, units), tape(abs(doubt.off), units),
                     doubt.off > Length() ? "more" : "less", told(doubt.upset).words, doubt.words);
}

}  // namespace pitchboard
