#pragma once
// What a landing and the care of cut wood take, and the figures that ordering goes by. The rows live in data/.

#include <span>
#include <string_view>

#include "engine/base/catalog.hpp"
#include "engine/base/tape.hpp"

namespace pitchboard {

struct MaterialRow {
  std::string_view key;    ///< a pad layer's section: "sand"
  std::string_view group;  ///< "landing", "care"
  std::string_view words, package;
  std::string_view unit;  ///< of `yield`: "cu ft", "sq ft", "ft"
  double yield = 1.0;     ///< what one package gives
  double factor = 1.0;    ///< loose or uncut material for one placed
  int spare = 0;          ///< packages kept in hand
  int price_cents = 0;
  double weight = 0.0;      ///< pounds, one package
  std::string_view system;  ///< "metric": stands in for the key's other row where the job is metric
  std::string_view source;
};

[[nodiscard]] std::span<const MaterialRow> materials();
/// RETURNS the row of that key as it is sold in `units`, or nullptr when there is none of that key.
[[nodiscard]] const MaterialRow* find_material(std::string_view key, UnitSystem units);
/// REQUIRES a key of data/buying.toml.
[[nodiscard]] const FigureRow& buying_figure(std::string_view key);
/// RETURNS how many packages hold `amount` of the row's unit once it is placed.
[[nodiscard]] int packages_for(const MaterialRow& material, double amount);

}  // namespace pitchboard
