#include "engine/base/catalog.hpp"

#include <algorithm>

#include "data/hardware.hpp"
#include "data/materials.hpp"
#include "data/sections.hpp"
#include "data/span_limits.hpp"
#include "data/species.hpp"
#include "data/stock.hpp"
#include "data/treatments.hpp"

namespace pitchboard {
namespace {

template <class Row>
const Row* find(std::span<const Row> rows, std::string_view Row::* key, std::string_view wanted) {
  const auto at = std::ranges::find(rows, wanted, key);
  return at == rows.end() ? nullptr : &*at;
}

}  // namespace

const FigureRow* find_figure(std::span<const FigureRow> rows, std::string_view key) {
  return find(rows, &FigureRow::key, key);
}
std::span<const SectionRow> sections() { return kSections; }
std::span<const StockRow> demo_stock() { return kStock; }
std::span<const HardwareRow> hardware() { return kHardware; }
std::span<const MaterialRow> materials() { return kMaterials; }
std::span<const SpeciesRow> species() { return kSpecies; }
std::span<const TreatmentRow> treatments() { return kTreatments; }
const SectionRow* find_section(std::string_view nominal) { return find(sections(), &SectionRow::nominal, nominal); }
const HardwareRow* find_hardware(std::string_view key) { return find(hardware(), &HardwareRow::key, key); }
const SpeciesRow* find_species(std::string_view key) { return find(species(), &SpeciesRow::key, key); }
const TreatmentRow* find_treatment(std::string_view key) { return find(treatments(), &TreatmentRow::key, key); }
const SpanLimitRow* find_span_limit(std::string_view key) {
  return find(std::span<const SpanLimitRow>(kSpanLimits), &SpanLimitRow::key, key);
}

}  // namespace pitchboard
