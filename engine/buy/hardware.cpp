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

/// RETURNS how many the frame takes of each row of hardware().
std::vector<int> counts_of(const Frame& frame) {
  std::vector<int> out(hardware().size());
  const HardwareRow* row = nullptr;  // the last one: neighbours are mostly alike
  const auto more = [&](std::string_view item, int count) {
    if (!row || row->key != item) row = find_hardware(item);
    if (row) out[static_cast<std::size_t>(row - hardware().data())] += count;
  };
  for (const Fastener& fastener : frame.fasteners) more(fastener.item, 1);
  for (const auto& [item, count] : frame.items) more(item, count);
  for (const Part& part : frame.parts) {
    if (part.kind == PartKind::connector) more(part.section.nominal, 1);
  }
  return out;
}

/// RETURNS what the item is for: of a fastener the first part that it joins, of a connector all that are fastened to
/// it.
std::string use_of(std::string_view item, const Frame& frame) {
  std::string out;
  const auto add = [&](std::size_t part) {
    const PartKind kind = frame.parts[part].kind;
    if (kind == PartKind::existing || kind == PartKind::pad_layer) return false;
    add_words(out, plural(kind));
    return true;
  };
  for (const Fastener& fastener : frame.fasteners) {
    if (fastener.item != item) continue;
    for (const std::size_t part : fastener.joins) {
      if (add(part)) break;
    }
  }
  for (std::size_t i = 0; i < frame.parts.size(); ++i) {
    if (frame.parts[i].kind != PartKind::connector || frame.parts[i].section.nominal != item) continue;
    for (const Fastener& fastener : frame.fasteners) {
      if (fastener.joins.empty() || fastener.joins.front() != i) continue;
      for (const std::size_t part : fastener.joins) {
        if (part != i) add(part);
      }
    }
  }
  return out;
}

}  // namespace

void add_hardware(Bill& bill, const Frame& frame) {
  const bool stainless = is_stainless(bill.job());
  const std::vector<int> counts = counts_of(frame);
  for (std::size_t i = 0; i < counts.size(); ++i) {
    if (counts[i] == 0) continue;
    const HardwareRow& row = hardware()[i];
    const double spare = row.kind == "screw" ? buying_figure("screw-spare").value : 0.0;
    const double pieces = std::ceil(counts[i] * (1.0 + spare) - 1e-9);
    const double cents = row.price_cents * (stainless ? row.stainless_factor : 1.0);
    bill.add(static_cast<int>(std::ceil(pieces / row.per_package - 1e-9)),
             bill.price_of(row.key, {std::llround(cents)}), [&] {
               OrderLine line{.group = "hardware",
                              .item = std::string(row.words) + (stainless ? ", stainless 316" : ", hot-dip galvanized"),
                              .key = std::string(row.key),
                              .use = use_of(row.key, frame),
                              .needed = counts[i],
                              .package = std::string(row.package.empty() ? "piece" : row.package),
                              .weight = pounds(row.weight * row.per_package)};
               if (stainless) {
                 line.note = "stainless: salt water within " +
                             std::to_string(static_cast<int>(buying_figure("stainless-within").value)) + " ft";
               }
               return line;
             });
  }
  if (!bill.is_read() || std::ranges::count(counts, 0) == std::ssize(counts)) return;
  bill.note("One metal in a joint: no stainless fastener in a galvanized connector, nor the other way round.");
  if (!wood_is_corrosive(frame)) return;
  if (!stainless) {
    bill.note(
        "Copper in treated wood eats thin zinc: fasteners hot-dip galvanized to ASTM A153, connectors to A653 G185. "
        "Electroplated "
        "ones, bright or yellow, are not.");
  }
  bill.note(
      "Aluminium must not touch wood treated with copper: barrier tape between them, flashing and balusters too.");
}

}  // namespace pitchboard
