#include "engine/strength/limits.hpp"

#include <algorithm>
#include <cassert>

#include "data/limits.hpp"

namespace pitchboard {

std::span<const LimitRow> limits() { return kLimits; }

const LimitRow& limit(std::string_view key, std::string_view pack) {
  const LimitRow* found = nullptr;
  for (const LimitRow& row : limits()) {
    if (row.key != key || !pack.starts_with(row.pack)) continue;
    if (!found || row.pack.size() > found->pack.size()) found = &row;
  }
  assert(found);
  return *found;
}

Figure figure_of(const LimitRow& row) {
  return {.symbol = Text::lasting(row.symbol),
          .words = Text::lasting(row.words),
          .value = row.value,
          .unit = Text::lasting(row.unit),
          .from = "",
          .source = Text::lasting(row.source),
          .from_memory = row.from_memory};
}

LoadSet loads_for(const Job& job, bool written) {
  LoadSet set;
  const auto carry = [&](double& value, std::string_view key, const std::optional<double>& own, const char* entry) {
    const LimitRow& row = limit(key, job.place.pack);
    value = own.value_or(row.value);
    if (!written) return;
    Figure figure = figure_of(row);
    if (own) {
      figure.value = *own;
      figure.source = entry;
      figure.from_memory = false;
    }
    set.figures.push_back(std::move(figure));
  };
  carry(set.live, "load.live", job.loads.live, "job: loads.live");
  carry(set.dead, "load.dead", job.loads.dead, "job: loads.dead");
  carry(set.tread, "load.tread", job.loads.tread, "job: loads.tread");
  carry(set.rail, "load.rail", job.loads.rail, "job: loads.rail");
  carry(set.rail_along, "load.rail_along", std::nullopt, "");
  carry(set.infill, "load.infill", job.loads.infill, "job: loads.infill");
  set.soil = job.loads.soil;
  if (!written) return set;
  set.figures.push_back(
      {.symbol = "q_s",
       .words = "pressure that the ground bears",
       .value = job.loads.soil,
       .unit = "psf",
       .from = "",
       .source = "job: loads.soil; 1500 psf unless entered, from memory: IRC Table R401.4.1, clay, silt",
       .from_memory = job.loads.soil == Loads{}.soil});
  return set;
}

}  // namespace pitchboard
