// Fasteners and connectors, in a metal that lasts where the stair stands and in the wood it goes into.

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

/// How many of the item, and what for.
void count(const Frame& frame, const HardwareRow& item, OrderLine& line) {
  for (const Fastener& fastener : frame.fasteners) {
    if (fastener.item != item.key) continue;
    ++line.needed;
    for (const std::size_t part : fastener.joins) {
      const PartKind kind = frame.parts[part].kind;
      if (kind != PartKind::existing && kind != PartKind::pad_layer) {
        add_words(line.use, plural(kind));
        break;
      }
    }
  }
  for (std::size_t i = 0; i < frame.parts.size(); ++i) {
    if (frame.parts[i].kind != PartKind::connector || frame.parts[i].section.nominal != item.key) continue;
    ++line.needed;
    for (const Fastener& fastener : frame.fasteners) {
      for (const std::size_t part : fastener.joins) {
        const bool held = fastener.joins.front() == i && part != i && frame.parts[part].kind != PartKind::existing;
        if (held && frame.parts[part].kind != PartKind::pad_layer) add_words(line.use, plural(frame.parts[part].kind));
      }
    }
  }
}

}  // namespace

void add_hardware(Order& order, const Job& job, const Frame& frame) {
  const bool stainless = is_stainless(job);
  bool any = false;
  for (const HardwareRow& row : hardware()) {
    OrderLine line{.group = "hardware",
                   .key = std::string(row.key),
                   .package = std::string(row.package.empty() ? "piece" : row.package)};
    count(frame, row, line);
    if (line.needed == 0) continue;
    any = true;
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
