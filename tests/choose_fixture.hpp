#pragma once
// Small spaces of stairs, and what is wrong with a stair by code that the search has no part in.

#include <fmt/format.h>

#include <algorithm>
#include <random>
#include <set>
#include <string>

#include "engine/choose/search.hpp"
#include "engine/rules/rules.hpp"
#include "engine/strength/strength.hpp"
#include "tests/frame_fixture.hpp"

namespace pitchboard {

/// A few risers and choices, taken from a number.
inline Job small_space(std::uint32_t seed) {
  std::mt19937 random(seed);
  const auto below = [&](std::uint32_t n) { return random() % n; };
  const int risers = 2 + static_cast<int>(below(4));
  Job job = steps(risers, 6.5 + static_cast<double>(below(10)) / 8.0);
  job.about.name = "small space";
  if (below(2) == 0) job.rails.left = job.rails.right = SideRail::none;
  job.stair.width = inches(36.0 + static_cast<double>(below(12)));
  for (const std::string_view choice : kSearchedChoices) {
    if (below(3) > 0) job.choose.keep.emplace_back(choice);
  }
  return job;
}

/// RETURNS the kinds of all faults of the stair, as Fault::kind has them.
inline std::set<std::string> faults_of(const Job& stair, const Flight& flight) {
  const Site site(stair);
  const Frame frame = build_frame(stair, site, flight, handrail_needed(stair.place, flight.risers));
  std::set<std::string> out;
  for (const Finding& f : judge(stair, site, flight, frame)) {
    if (f.verdict == Verdict::fail) out.insert(fmt::format("{}: {}", f.clause, f.sentence));
  }
  for (const Check& c : check_strength(stair, flight, frame, Depth::quick).checks) {
    if (c.verdict == Verdict::fail) out.insert(fmt::format("{}: {} ({})", c.member, c.what, c.clause));
  }
  for (const Clash& c : frame.clashes) out.insert("parts in each other's way: " + c.kind);
  if (!plan_cuts(stair, frame).impossible.empty()) out.insert("a piece that no board is long enough for");
  return out;
}

/// Hands every choice of the space to `visit`.
template <class Visit>
void for_each_stair(const Space& space, Visit visit) {
  const Additions& add = space.additions;
  Choice c;
  for (c.family = 0; c.family < space.families.size(); ++c.family)
    for (c.flight = 0; c.flight < space.families[c.family].flights.size(); ++c.flight)
      for (c.stringers = 0; c.stringers < space.stringer_steps(space.families[c.family]); ++c.stringers)
        for (c.bearing = 0; c.bearing < add.bearing_shares.size(); ++c.bearing)
          for (c.mid_supports = 0; c.mid_supports < add.mid_supports.size(); ++c.mid_supports)
            for (c.rails = 0; c.rails < add.rails.size(); ++c.rails)
              visit(c, space.families[c.family].flights[c.flight]);
}

}  // namespace pitchboard
