// Landing material by the bag and the piece, and what cut wood needs against rot.

#include <algorithm>

#include "engine/base/catalog.hpp"
#include "engine/buy/lines.hpp"
#include "engine/buy/materials.hpp"

namespace pitchboard {
namespace {

double square_feet(Area area) { return area.raw() / 144.0; }

struct Layer {
  std::string material, use;
  Interval out, across;
  Volume volume;
  [[nodiscard]] Area area() const { return out.size() * across.size(); }
};

std::vector<Layer> layers_of(const Frame& frame) {
  std::vector<Layer> layers;
  for (const Part& part : frame.parts) {
    if (part.kind != PartKind::pad_layer) continue;
    const auto [x, y, z] = box(part.solid);
    layers.push_back({part.section.nominal, part.use, x, y, volume(part.solid)});
  }
  // Footings are cast from the same concrete as a slab: one line, one bag to spare.
  for (const Part& part : frame.parts) {
    if (part.kind != PartKind::footing) continue;
    Volume concrete = volume(part.solid);
    for (const Part& post : frame.parts) {
      if (footing_of(post.mark) == part.mark) concrete -= shared_volume(post.solid, part.solid, Length());
    }
    const auto slab = std::ranges::find(layers, part.section.nominal, &Layer::material);
    if (slab == layers.end()) {
      const auto [x, y, z] = box(part.solid);
      layers.push_back({part.section.nominal, std::string(plural(part.kind)), x, y, concrete});
    } else {
      slab->volume += concrete;
      add_words(slab->use, plural(part.kind));
    }
  }
  return layers;
}

void add_material(Order& order, const Job& job, std::string_view key, double amount, std::string use,
                  std::string note = {}) {
  const MaterialRow* row = find_material(key, job.about.units);
  if (!row || amount <= 0.0) return;
  OrderLine line{.group = std::string(row->group),
                 .item = std::string(row->words),
                 .key = std::string(row->key),
                 .use = std::move(use),
                 .package = std::string(row->package),
                 .note = std::move(note)};
  line.needed = packages_for(*row, amount);
  line.quantity = line.needed + row->spare;
  if (row->spare > 0) add_words(line.note, "one spare for an uneven dig");
  if (row->unit == "cu ft" && amount * row->factor >= buying_figure("bulk-from").value) {
    add_words(line.note, "over a cubic yard: ask for a bulk load");
  }
  demo_price_line(line, job, {row->price_cents}, pounds(row->weight));
  order.lines.push_back(std::move(line));
}

/// Ends, notches and slants: every face that a saw has opened, ripped edges apart.
Area cut_faces(const Part& part) {
  if (part.across_outline) return area(part.solid.outline) * 2.0;
  const Polygon board = board_outline(part);
  Area sum;
  for (std::size_t i = 0; i < board.size(); ++i) {
    const Point p = board[i], q = board[(i + 1) % board.size()];
    if (abs(p.b - q.b) > kTouch) sum += distance(p, q) * part.solid.span.size();
  }
  return sum;
}

}  // namespace

void add_landing(Order& order, const Job& job, const Frame& frame) {
  const std::vector<Layer> layers = layers_of(frame);
  for (const Layer& layer : layers) {
    if (layer.material == "pavers") {
      if (job.pad.existing) {
        order.notes.push_back("The pavers that are there are taken up and laid again: none to buy.");
      } else {
        add_material(order, job, "pavers", square_feet(layer.area()), layer.use);
        add_material(order, job, "edge-restraint", in_inches(layer.out.size() + layer.across.size()) * 2.0 / 12.0,
                     "landing edge");
      }
      add_material(order, job, "joint-sand", square_feet(layer.area()), "joints between pavers");
      continue;
    }
    add_material(order, job, layer.material, in_cubic_feet(layer.volume), layer.use);
    if ((layer.material == "base" || layer.material == "gravel") && !job.pad.existing) {
      add_material(order, job, "geotextile", square_feet(layer.area()), "under the " + layer.use,
                   "on clay or wet soil");
    }
  }
}

void add_care(Order& order, const Job& job, const Flight& flight, const Frame& frame) {
  Area cut;
  for (const Part& part : frame.parts) {
    if (!is_cut_from_board(part.kind)) continue;
    const TreatmentRow* treatment = find_treatment(part.treatment);
    const bool brushed = treatment && treatment->corrosive;
    if (brushed && !(part.kind == PartKind::stringer && flight.kind == StringerKind::ready_cut)) cut += cut_faces(part);
  }
  add_material(order, job, "end-cut", square_feet(cut), "cut ends, notches, holes", "copper-treated wood only");
}

}  // namespace pitchboard
