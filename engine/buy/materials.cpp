#include "engine/buy/materials.hpp"

#include <algorithm>
#include <cmath>

#include "data/buying.hpp"

namespace pitchboard {

const MaterialRow* find_material(std::string_view key, UnitSystem units) {
  const MaterialRow* out = nullptr;
  for (const MaterialRow& row : materials()) {
    const bool fits = row.system.empty() || (row.system == "metric" && units == UnitSystem::metric);
    if (row.key == key && fits && (!out || out->system.empty())) out = &row;
  }
  return out;
}

const FigureRow& buying_figure(std::string_view key) {
  const FigureRow* row = find_figure(kBuyingFigures, key);
  return row ? *row : kBuyingFigures[0];
}

int packages_for(const MaterialRow& material, double amount) {
  // A package more for the last bit of a double would be a package too many.
  constexpr double kRounding = 1e-6;
  return static_cast<int>(std::ceil(amount * material.factor / material.yield - kRounding));
}

}  // namespace pitchboard
