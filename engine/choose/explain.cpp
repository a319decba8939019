#include "engine/choose/explain.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "engine/base/sort.hpp"
#include "engine/base/tape.hpp"
#include "engine/frame/frame.hpp"
#include "engine/job/words.hpp"

namespace pitchboard {
namespace {

std::string make_words(const Job& job, const StringerMake& make) {
  if (make.ready_cut) return fmt::format("ready-cut stringers ({})", job.yard.ready_cut[*make.ready_cut].name);
  return fmt::format("{} {} stringers", word(make.kind), make.board);
}

std::string boards_words(const Family& family) {
  return fmt::format("{}, {} risers{}", word(family.treads), word(family.riser_boards),
                     family.top == TopMode::full_tread ? ", full tread at the top" : "");
}

/// What stairs are compared by, and how the best of them is called.
struct Aim {
  std::int64_t Score::* value;
  std::string_view best, as_good;
};
constexpr std::array<Aim, 5> kAims{{{&Score::cost, "the cheapest", "as cheap"},
                                    {&Score::work, "the least work", "so little work"},
                                    {&Score::comfort, "the most comfortable", "as comfortable"},
                                    {&Score::ratio, "the strongest", "as strong"},
                                    {&Score::earth, "the least earth moved", "with so little earth moved"}}};

std::string listed(const std::vector<std::string_view>& words, std::string_view last) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    out += fmt::format("{}{}", i == 0 ? "" : i + 1 == words.size() ? fmt::format(" {} ", last) : ", ", words[i]);
  }
  return out;
}

/// Looks up neighbours of a choice in the space.
class Neighbours {
 public:
  Neighbours(const Job& job, const Site& site, const Search& search, const Option& from)
      : job_(job), site_(site), space_(search.space), from_(from), family_(space_.families[from.choice.family]) {}

  std::vector<WhatIf> all() {
    other_family("one riser fewer", [](Family& f) { --f.risers; });
    other_family("one riser more", [](Family& f) { ++f.risers; });
    step("a shorter going", &Choice::flight, -1, family_.flights.size());
    step("a longer going", &Choice::flight, 1, family_.flights.size());
    step("one stringer fewer", &Choice::stringers, -1, space_.stringer_steps(family_));
    step("one stringer more", &Choice::stringers, 1, space_.stringer_steps(family_));
    step("a mid support fewer", &Choice::mid_supports, -1, space_.additions.mid_supports.size());
    step("a mid support more", &Choice::mid_supports, 1, space_.additions.mid_supports.size());
    step("less of the plumb cut bearing", &Choice::bearing, -1, space_.additions.bearing_shares.size());
    step("a hanger board for the whole plumb cut", &Choice::bearing, 1, space_.additions.bearing_shares.size());
    const bool edge = family_.top == TopMode::deck_edge;
    other_family(edge ? "a full tread at the top" : "the deck's edge as the top step",
                 [&](Family& f) { f.top = edge ? TopMode::full_tread : TopMode::deck_edge; });
    const bool closed = family_.riser_boards == Risers::closed;
    other_family(closed ? "open risers" : "closed risers",
                 [&](Family& f) { f.riser_boards = closed ? Risers::open : Risers::closed; });
    for (const TreadMake treads : {TreadMake::one_2x12, TreadMake::two_2x6, TreadMake::two_5_4x6}) {
      if (treads != family_.treads)
        other_family(fmt::format("treads of {}", word(treads)), [&](Family& f) { f.treads = treads; });
    }
    std::vector<StringerMake> makes;
    for (const Family& f : space_.families) {
      if (same(f.stringers, family_.stringers) ||
          std::ranges::any_of(makes, [&](const StringerMake& m) { return same(m, f.stringers); }))
        continue;
      makes.push_back(f.stringers);
      other_family(make_words(job_, f.stringers), [&](Family& other) { other.stringers = f.stringers; });
    }
    return std::move(out_);
  }

 private:
  static bool same(const StringerMake& a, const StringerMake& b) {
    return a.kind == b.kind && a.board == b.board && a.ready_cut == b.ready_cut;
  }

  void step(std::string words, std::size_t Choice::* of, int way, std::size_t count) {
    const auto to = static_cast<std::ptrdiff_t>(from_.choice.*of) + way;
    if (to < 0 || to >= static_cast<std::ptrdiff_t>(count)) return;
    Choice choice = from_.choice;
    choice.*of = static_cast<std::size_t>(to);
    add(std::move(words), choice);
  }

  /// The family that differs in what `change` does to it, with the going nearest to today's.
  void other_family(std::string words, const auto& change) {
    Family wanted = family_;
    change(wanted);
    const auto at = std::ranges::find_if(space_.families, [&](const Family& f) {
      return f.top == wanted.top && same(f.stringers, wanted.stringers) && f.treads == wanted.treads &&
             f.riser_boards == wanted.riser_boards && f.risers == wanted.risers;
    });
    if (at == space_.families.end()) return;
    const Length going = family_.flights[from_.choice.flight].going;
    const auto flight =
        std::ranges::min_element(at->flights, {}, [&](const Flight& f) { return abs(f.going - going); });
    Choice choice = from_.choice;
    choice.family = static_cast<std::size_t>(at - space_.families.begin());
    choice.flight = static_cast<std::size_t>(flight - at->flights.begin());
    choice.stringers = std::min(choice.stringers, space_.stringer_steps(*at) - 1);
    add(std::move(words), choice);
  }

  void add(std::string words, const Choice& choice) {
    const Flight& flight = space_.families[choice.family].flights[choice.flight];
    out_.push_back({std::move(words), choice, evaluate(chosen(job_, space_, choice), site_, flight),
                    flight.run - family_.flights[from_.choice.flight].run});
  }

  const Job& job_;
  const Site& site_;
  const Space& space_;
  const Option& from_;
  const Family& family_;
  std::vector<WhatIf> out_;
};

}  // namespace

std::string family_words(const Job& job, const Family& family) {
  return fmt::format("{} risers, {}, {}", family.risers, make_words(job, family.stringers), boards_words(family));
}

std::string stair_words(const Job& job, const Space& space, const Choice& choice) {
  const Family& family = space.families[choice.family];
  const Flight& flight = family.flights[choice.flight];
  const UnitSystem units = job.about.units;
  const Job stair = chosen(job, space, choice);
  std::string out = fmt::format("{} risers of {}, going {}, {} {}, {}", flight.risers, tape(flight.unit_rise, units),
                                tape(flight.going, units), stringer_count(stair), make_words(job, family.stringers),
                                boards_words(family));
  if (const int supports = stair.stringers.mid_supports.value_or(0); supports > 0)
    out += fmt::format(", {} mid support{}", supports, supports == 1 ? "" : "s");
  if (choice.bearing > 0) out += ", whole plumb cut bearing";
  return out;
}

std::string why_on_front(const Search& search, std::size_t option) {
  const Score& score = search.front[option].score;
  std::vector<std::string_view> best, better;
  for (const Aim& aim : kAims) {
    bool least = true, beats_cheaper = aim.value != &Score::cost;
    for (std::size_t i = 0; i < search.front.size(); ++i) {
      const Score& other = search.front[i].score;
      if (i == option) continue;
      least = least && score.*aim.value < other.*aim.value;
      if (other.cost <= score.cost) beats_cheaper = beats_cheaper && score.*aim.value < other.*aim.value;
    }
    if (least && search.front.size() > 1) best.push_back(aim.best);
    if (beats_cheaper) better.push_back(aim.as_good);
  }
  if (search.front.size() == 1) return "no other stair is better in anything";
  if (!best.empty()) return fmt::format("{} of all", listed(best, "and"));
  if (!better.empty()) return fmt::format("no cheaper stair is {}", listed(better, "or"));
  return "every cheaper stair is worse in something else";
}

std::vector<WhatIf> what_ifs(const Job& job, const Site& site, const Search& search, std::size_t option) {
  return Neighbours(job, site, search, search.front[option]).all();
}

std::vector<Rejected> rejected(const Search& search) {
  std::vector<Rejected> out;
  for (std::size_t i = 0; i < search.families.size(); ++i) {
    const std::string& fault = search.families[i];
    if (fault.empty()) continue;
    auto at = std::ranges::find(out, fault, &Rejected::fault);
    if (at == out.end()) {
      out.push_back({fault, {}});
      at = std::prev(out.end());
    }
    at->families.push_back(i);
  }
  sort_stably(out, std::greater<>(), [](const Rejected& r) { return r.families.size(); });
  return out;
}

}  // namespace pitchboard
