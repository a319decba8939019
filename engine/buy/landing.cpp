// Landing material by the bag and the piece, and what cut wood needs against rot.

#include <algorithm>

#include "engine/base/catalog.hpp"
#include "engine/buy/lines.hpp"
#include "engine/buy/materials.hpp"

namespace pitchboard {
namespace {

double square_feet(Area area) { return area.raw() / 144.0; }

struct Layer {
  const Part& part;  ///< the layer, or the first footing
  Volume volume;
  bool footings = false;  ///< they are in the volume
  [[nodiscard]] std::string_view material() const { return part.section.nominal; }
  [[nodiscard]] Interval out() const { return box(part.solid)[0]; }
  [[nodiscard]] Interval across() const { return box(part.solid)[1]; }
  [[nodiscard]] Area area() const { return out().size() * across().size(); }
  [[nodiscard]] std::string use() const {
    std::string words = part.kind == PartKind::pad_layer ? part.use : "";
    if (footings) add_words(words, plural(PartKind::footing));
    return words;
  }
};

std::vector<Layer> layers_of(const Frame& frame) {
  std::vector<Layer> layers;
  for (const Part& part : frame.parts) {
    if (part.kind == PartKind::pad_layer) layers.push_back({part, volume(part.solid)});
  }
  // Footings are cast from the same concrete as a slab: one line, one bag to spare.
  for (const Part& part : frame.parts) {
    if (part.kind != PartKind::footing) continue;
    Volume concrete = volume(part.solid);
    for (const Part& post : frame.parts) {
      if (post.kind == PartKind::post && footing_of(post.mark) == part.mark)
        concrete -= shared_volume(post.solid, part.solid, Length());
    }
    const auto slab = std::ranges::find(layers, part.section.nominal, &Layer::material);
    if (slab == layers.end()) {
      layers.push_back({part, concrete, true});
    } else {
      slab->volume += concrete;
      slab->footings = true;
    }
  }
  return layers;
}

/// `use`: gives what it is for, in words.
void add_material(Bill& bill, std::string_view key, double amount, const auto& use, std::string_view note = {}) {
  const MaterialRow* row = find_material(key, bill.job().about.units);
  if (!row || amount <= 0.0) return;
  const int needed = packages_for(*row, amount);
  bill.add(needed + row->spare, bill.price_of(row->key, {row->price_cents}), [&] {
    OrderLine line{.group = std::string(row->group),
                   .item = std::string(row->words),
                   .key = std::string(row->key),
                   .use = std::string(use()),
                   .needed = needed,
                   .package = std::string(row->package),
                   .weight = pounds(row->weight),
                   .note = std::string(note)};
    if (row->spare > 0) add_words(line.note, "one spare for an uneven dig");
    if (row->unit == "cu ft" && amount * row->factor >= buying_figure("bulk-from").value) {
      add_words(line.note, "over a cubic yard: ask for a bulk load");
    }
    return line;
  });
}

/// Ends, notches and slants: every face that a saw has opened, ripped edges apart.
Area cut_faces(const Part& part) {
  const Polygon& outline = part.solid.outline;
  if (part.across_outline) return area(outline) * 2.0;
  // The corners of board_outline(), but no outline is made: this is asked of every part of thousands of stairs.
  const auto along_board = [&](std::size_t i) { return turned(outline[i], part.grain_a, part.grain_b); };
  Point low;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point p = along_board(i);
    low = i == 0 ? p : Point{std::min(low.a, p.a), std::min(low.b, p.b)};
  }
  Area sum;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point p = along_board(i) - low, q = along_board(i + 1 < outline.size() ? i + 1 : 0) - low;
    if (abs(p.b - q.b) > kTouch) sum += distance(p, q) * part.solid.span.size();
  }
  return sum;
}

}  // namespace

void add_landing(Bill& bill, const Frame& frame) {
  const bool there = bill.job().pad.existing;
  for (const Layer& layer : layers_of(frame)) {
    const auto use = [&] { return layer.use(); };
    if (layer.material() == "pavers") {
      if (there) {
        bill.note("The pavers that are there are taken up and laid again: none to buy.");
      } else {
        add_material(bill, "pavers", square_feet(layer.area()), use);
        add_material(bill, "edge-restraint", in_inches(layer.out().size() + layer.across().size()) * 2.0 / 12.0,
                     [] { return "landing edge"; });
      }
      add_material(bill, "joint-sand", square_feet(layer.area()), [] { return "joints between pavers"; });
      continue;
    }
    add_material(bill, layer.material(), in_cubic_feet(layer.volume), use);
    if ((layer.material() == "base" || layer.material() == "gravel") && !there) {
      add_material(
          bill, "geotextile", square_feet(layer.area()), [&] { return "under the " + layer.use(); },
          "on clay or wet soil");
    }
  }
}

void add_care(Bill& bill, const Flight& flight, const Frame& frame) {
  Area cut;
  const TreatmentRow* treatment = nullptr;  // of the last part: neighbours are mostly alike
  for (const Part& part : frame.parts) {
    if (!is_cut_from_board(part.kind)) continue;
    if (!treatment || treatment->key != part.treatment) treatment = find_treatment(part.treatment);
    const bool brushed = treatment && treatment->corrosive;
    if (brushed && !(part.kind == PartKind::stringer && flight.kind == StringerKind::ready_cut))
      cut += cut_faces(part) * part.pieces;
  }
  add_material(
      bill, "end-cut", square_feet(cut), [] { return "cut ends, notches, holes"; }, "copper-treated wood only");
}

}  // namespace pitchboard
