#pragma once
// How much a landing and the care of cut wood take, and the figures that ordering goes by.

#include <string_view>

#include "engine/base/catalog.hpp"
#include "engine/base/tape.hpp"

namespace pitchboard {

/// RETURNS the row of that key as it is sold in `units`, or nullptr when there is none of that key.
[[nodiscard]] const MaterialRow* find_material(std::string_view key, UnitSystem units);
/// REQUIRES a key of data/buying.toml.
[[nodiscard]] const FigureRow& buying_figure(std::string_view key);
/// RETURNS how many packages hold `amount` of the row's unit once it is placed.
[[nodiscard]] int packages_for(const MaterialRow& material, double amount);

}  // namespace pitchboard
