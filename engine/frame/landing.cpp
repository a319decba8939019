// What is there already (rim, deck boards, an old landing) and the layers of a new or relaid landing.

#include <algorithm>

#include "engine/frame/layout.hpp"
#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {
namespace {

/// How far the drawn part of the deck reaches beside the stair.
constexpr Length kDeckShown = inches(24.0);

Part existing(std::string mark, std::string use, Axis normal, Interval span, Polygon outline) {
  Part part;
  part.mark = std::move(mark);
  part.kind = PartKind::existing;
  part.use = std::move(use);
  part.solid = {normal, span, std::move(outline)};
  return part;
}

/// One layer of the landing, its top `down` below the surface, following the surface's fall.
std::size_t add_layer(Frame& frame, const Layout& l, std::string_view material, std::string use, Length down,
                      Length thickness, Length beyond) {
  const Landing& landing = l.flight.landing;
  const Interval out{std::max(landing.out.from - beyond, Length()), landing.out.to + beyond};
  // A cross fall cannot be shown by one prism: the layer is drawn at its lowest side, and the feet are scribed to the
  // high side.
  const auto surface = [&](Length x) { return std::min(l.foot_z(x, Length()), l.foot_z(x, l.width())) - down; };
  Part part;
  part.mark = "L" + std::to_string(1 + std::ranges::count(frame.parts, PartKind::pad_layer, &Part::kind));
  part.kind = PartKind::pad_layer;
  part.use = std::move(use);
  part.section = {std::string(material), thickness, thickness};
  part.across_outline = true;
  part.solid = {Axis::y,
                {landing.across.from - beyond, landing.across.to + beyond},
                {{out.from, surface(out.from)},
                 {out.to, surface(out.to)},
                 {out.to, surface(out.to) - thickness},
                 {out.from, surface(out.from) - thickness}}};
  return add(frame, std::move(part));
}

std::string lift_note(const Landing& landing, UnitSystem units) {
  const Length lift = landing.lift;
  const std::string much = tape_plain(abs(lift), units);
  if (lift < Length()) return "Dig the landing down " + much + " below today's level.";
  if (lift <= kSandLift) return "Raise the landing " + much + ": bedding sand alone may do that.";
  if (lift <= kBaseLift)
    return "Raise the landing " + much + " with compacted base in one lift; the sand bed stays 1 in.";
  return "Raise the landing " + much +
         " with compacted base in lifts of at most 4 in, each compacted, with an edge restraint.";
}

/// Where a new landing's edge stands far above or below the ground around it.
void note_edges(Frame& frame, const Layout& l) {
  const Landing& landing = l.flight.landing;
  const UnitSystem units = l.job.about.units;
  Length above, below;
  for (const Length x : {landing.out.from, landing.out.to}) {
    for (const Length y : {landing.across.from, landing.across.to}) {
      const Length over = landing.z_at(x, y) - l.site.ground(x, y).z;
      above = std::max(above, over);
      below = std::max(below, -over);
    }
  }
  if (above > l.job.pad.raise_at_most) {
    frame.notes.push_back("A corner of the landing stands " + tape_plain(above, units) +
                          " above the ground: hold the base with an edge there and bank the ground up to it.");
  }
  if (below > kGroundOver) {
    frame.notes.push_back("The ground stands up to " + tape_plain(below, units) +
                          " above the landing's edge: grade it back, so that no earth lies against the stringers.");
  }
}

}  // namespace

Frame house_side(const Job& job) {
  Frame frame;
  const Rim rim(job);
  const Interval across{-kDeckShown, job.stair.width + kDeckShown};
  add(frame, existing("rim", "the rim", Axis::x, {rim.face - rim.thickness, rim.face},
                      rectangle(across, {rim.bottom, rim.top})));
  add(frame, existing("deck", "deck boards", Axis::z, {rim.top, Length()}, rectangle({-kDeckShown, Length()}, across)));
  return frame;
}

std::vector<std::size_t> add_landing(Frame& frame, const Layout& l) {
  const Landing& landing = l.flight.landing;
  std::vector<std::size_t> layers;
  const Length lift = landing.lift;
  if (l.job.pad.existing && lift == Length()) {
    Part pad;
    pad = existing("pad", "the landing that is there", Axis::y, landing.across, {});
    const auto low = [&](Length x) { return std::min(l.foot_z(x, Length()), l.foot_z(x, l.width())); };
    pad.solid.outline = {{landing.out.from, low(landing.out.from)},
                         {landing.out.to, low(landing.out.to)},
                         {landing.out.to, low(landing.out.to) - kSlab},
                         {landing.out.from, low(landing.out.from) - kSlab}};
    layers.push_back(add(frame, std::move(pad)));
    return layers;
  }
  if (lift != Length()) frame.notes.push_back(lift_note(landing, l.job.about.units));
  if (!l.job.pad.existing) note_edges(frame, l);
  const Length raised = std::max(lift, Length());
  switch (l.job.pad.make) {
    case PadMake::pavers:
      layers.push_back(
          add_layer(frame, l, "pavers", l.job.pad.existing ? "pavers, taken up and relaid" : "pavers", {}, kPaver, {}));
      layers.push_back(add_layer(frame, l, "sand", "bedding sand", kPaver, kBedding, {}));
      // Relaid pavers keep their old base: only what lifts them is new.
      if (const Length base = l.job.pad.existing ? (raised > kSandLift ? raised : Length()) : kBase + raised;
          base > Length()) {
        layers.push_back(add_layer(frame, l, "base", "compacted base", kPaver + kBedding, base,
                                   l.job.pad.existing ? Length() : kBaseBeyond));
      }
      break;
    case PadMake::concrete:
      layers.push_back(add_layer(frame, l, "concrete", "concrete slab", {}, kSlab, {}));
      layers.push_back(add_layer(frame, l, "base", "compacted base", kSlab, kBase + raised, kBaseBeyond));
      break;
    case PadMake::gravel:
      layers.push_back(add_layer(frame, l, "gravel", "compacted gravel", {}, kGravelTop + raised, {}));
      break;
  }
  return layers;
}

}  // namespace pitchboard
