// Fasteners and connectors, in a metal that lasts where the stair stands and in the wood it goes into.

#include <algorithm>
#include <cmath>

#include "engine/base/catalog.hpp"
#include "engine/buy/lines.hpp"
#include "engine/buy/materials.hpp"

namespace pitchboard {
namespace {

bool is_stainless(const Job& job) {
  return job.place.salt_water && *job.place.salt_water <= feet(buying_figure("stainless-within").value);
}

bool wood_is_corrosive(const Frame& frame) {
  for (const Part& part : frame.parts) {
    const TreatmentRow* treatment = find_treatment(part.treatment);
    if (treatment && treatment->corrosive) return true;
  }
  return false;
}

/// How many of one item, and for parts of which kinds.
struct Count {
  int needed = 0;
  std::vector<PartKind> kinds;
  void add(PartKind kind) {
    if (std::ranges::find(kinds, kind) == kinds.end()) kinds.push_back(kind);
  }
};

/// RETURNS one for each row of hardware().
std::vector<Count> counts_of(const Frame& frame) {
  std::vector<Count> out(hardware().size());
  const HardwareRow* row = nullptr;  // the last one: neighbours are mostly alike
  const auto one_more = [&](std::string_view item) -> Count* {
    if (!row || row->key != item) row = find_hardware(item);
    if (!row) return nullptr;
    Count& count = out[static_cast<std::size_t>(row - hardware().data())];
    ++count.needed;
    return &count;
  };
  for (const Fastener& fastener : frame.fasteners) {
    Count* count = one_more(fastener.item);
    if (!count) continue;
    for (const std::size_t part : fastener.joins) {
      const PartKind kind = frame.parts[part].kind;
      if (kind != PartKind::existing && kind != PartKind::pad_layer) {
        count->add(kind);
        break;
      }
    }
  }
  for (std::size_t i = 0; i < frame.parts.size(); ++i) {
    Count* count = frame.parts[i].kind == PartKind::connector ? one_more(frame.parts[i].section.nominal) : nullptr;
    if (!count) continue;
    for (const Fastener& fastener : frame.fasteners) {
      if (fastener.joins.empty() || fastener.joins.front() != i) continue;
      for (const std::size_t part : fastener.joins) {
        const PartKind kind = frame.parts[part].kind;
        if (part != i && kind != PartKind::existing && kind != PartKind::pad_layer) count->add(kind);
      }
    }
  }
  return out;
}

}  // namespace

void add_hardware(Order& order, const Job& job, const Frame& frame) {
  const bool stainless = is_stainless(job);
  bool any = false;
  const std::vector<Count> counts = counts_of(frame);
  for (std::size_t i = 0; i < counts.size(); ++i) {
    if (counts[i].needed == 0) continue;
    const HardwareRow& row = hardware()[i];
    OrderLine line{.group = "hardware",
                   .key = std::string(row.key),
                   .needed = counts[i].needed,
                   .package = std::string(row.package.empty() ? "piece" : row.package)};
    any = true;
    for (const PartKind kind : counts[i].kinds) add_words(line.use, plural(kind));
    const double spare = row.kind == "screw" ? buying_figure("screw-spare").value : 0.0;
    const double pieces = std::ceil(line.needed * (1.0 + spare) - 1e-9);
    line.quantity = static_cast<int>(std::ceil(pieces / row.per_package - 1e-9));
    line.item = std::string(row.words) + (stainless ? ", stainless 316" : ", hot-dip galvanized");
    if (stainless) {
      line.note = "stainless: salt water within " +
                  std::to_string(static_cast<int>(buying_figure("stainless-within").value)) + " ft";
    }
    const double cents = row.price_cents * (stainless ? row.stainless_factor : 1.0);
    demo_price_line(line, job, {std::llround(cents)}, pounds(row.weight * row.per_package));
    order.lines.push_back(std::move(line));
  }
  if (!any) return;
  order.notes.push_back(
      "One metal in a joint: no stainless fastener in a galvanized connector, nor the other way round.");
  if (!stainless && wood_is_corrosive(frame)) {
    order.notes.push_back(
        "Copper in treated wood eats thin zinc: fasteners hot-dip galvanized to ASTM A153, connectors to A653 G185. "
        "Electroplated "
        "ones, bright or yellow, are not.");
  }
  if (wood_is_corrosive(frame)) {
    order.notes.push_back(
        "Aluminium must not touch wood treated with copper: barrier tape between them, flashing and balusters too.");
  }
}

}  // namespace pitchboard
