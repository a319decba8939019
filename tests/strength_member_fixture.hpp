#pragma once
// Timbers with plain values, so that the tests of members do not hang on the tables of species.

#include <algorithm>
#include <string>
#include <vector>

#include "engine/strength/members.hpp"

namespace member_fixture {

using namespace pitchboard;

/// Southern pine no. 2 2x12 as NDS Table 4B has it, unless the caller changes it.
inline Timber pine(double thickness = 1.5, double width = 11.25, const std::string& nominal = "2x12") {
  Timber timber;
  timber.part = "member";
  timber.mark = "M1";
  timber.member = {
      .species = "southern-pine", .grade = "no2", .nominal = nominal, .thickness = thickness, .width = width};
  timber.values = ReferenceValues{.fb = 750,
                                  .ft = 450,
                                  .fv = 175,
                                  .fc_perp = 565,
                                  .fc = 1250,
                                  .e = 1.4e6,
                                  .e_min = 510000,
                                  .gravity = 0.55,
                                  .timber = false,
                                  .size_factor = false,
                                  .source = "NDS 2018 Supplement Table 4B",
                                  .from_memory = false};
  return timber;
}
inline Timber dry(Timber timber) {
  timber.service.wet = false;
  return timber;
}
inline const Check& check_with(const std::vector<Check>& checks, const std::string& words) {
  const auto found =
      std::ranges::find_if(checks, [&](const Check& c) { return c.what.find(words) != std::string::npos; });
  static const Check none{};
  return found == checks.end() ? none : *found;
}
inline StringerBeam stringer(double rise, double going, double span, double live, double dead, double point) {
  return {.board = pine(),
          .cut = true,
          .rise = rise,
          .going = going,
          .over_cut = 0,
          .spans = {span},
          .live = live,
          .dead = dead,
          .point = point};
}

}  // namespace member_fixture
