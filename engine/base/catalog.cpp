#include "engine/base/catalog.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <functional>
#include <iterator>
#include <numeric>

#include "data/hardware.hpp"
#include "data/materials.hpp"
#include "data/sections.hpp"
#include "data/span_limits.hpp"
#include "data/species.hpp"
#include "data/stock.hpp"
#include "data/treatments.hpp"

namespace pitchboard {
namespace {

/// By the order of their keys, worked out when this is compiled, so that few of the rows are looked at.
template <const auto& rows, auto key>
auto find(std::string_view wanted) -> decltype(&rows[0]) {
  using Number = std::uint8_t;
  static constexpr auto kKey = [](Number i) { return rows[i].*key; };
  static constexpr auto kOrder = [] {
    std::array<Number, std::size(rows)> order{};
    std::iota(order.begin(), order.end(), Number{0});
    std::ranges::sort(order, {}, kKey);
    return order;
  }();
  static_assert(std::ranges::adjacent_find(kOrder, std::equal_to(), kKey) == kOrder.end(), "two rows of one key");
  const auto at = std::ranges::lower_bound(kOrder, wanted, {}, kKey);
  return at == kOrder.end() || kKey(*at) != wanted ? nullptr : &rows[*at];
}

}  // namespace

const FigureRow* find_figure(std::span<const FigureRow> rows, std::string_view key) {
  const auto at = std::ranges::find(rows, key, &FigureRow::key);
  return at == rows.end() ? nullptr : &*at;
}
std::span<const SectionRow> sections() { return kSections; }
std::span<const StockRow> demo_stock() { return kStock; }
std::span<const HardwareRow> hardware() { return kHardware; }
std::span<const MaterialRow> materials() { return kMaterials; }
std::span<const SpeciesRow> species() { return kSpecies; }
std::span<const TreatmentRow> treatments() { return kTreatments; }
const SectionRow* find_section(std::string_view nominal) { return find<kSections, &SectionRow::nominal>(nominal); }
const HardwareRow* find_hardware(std::string_view key) { return find<kHardware, &HardwareRow::key>(key); }
const SpeciesRow* find_species(std::string_view key) { return find<kSpecies, &SpeciesRow::key>(key); }
const TreatmentRow* find_treatment(std::string_view key) { return find<kTreatments, &TreatmentRow::key>(key); }
const SpanLimitRow* find_span_limit(std::string_view key) { return find<kSpanLimits, &SpanLimitRow::key>(key); }

}  // namespace pitchboard
