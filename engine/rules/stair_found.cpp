#include "engine/rules/stair_found.hpp"

#include <algorithm>

#include "engine/base/sort.hpp"

namespace pitchboard {
namespace {

/// How far beyond an open edge the ground counts. SOURCE IRC R312.1.1: 36 in, the widest of the packs' numbers.
constexpr Length kBeyondEdge = inches(36.0);
/// Just under a tread, where the face behind its nosing is felt for. SOURCE own choice.
constexpr Length kUnderTread = inches(0.25);

/// Boards whose tops are level with each other are one tread.
std::vector<FoundTread> find_treads(const Frame& frame) {
  std::vector<const Part*> boards;
  for (const Part& part : frame.parts) {
    if (part.kind == PartKind::tread) boards.push_back(&part);
  }
  sort_stably(boards, [](const Part* p, const Part* q) { return z_of(*p).to < z_of(*q).to; });
  std::vector<FoundTread> out;
  for (const Part* board : boards) {
    const auto [x, y, z] = box(board->solid);
    if (out.empty() || z.to - out.back().z.to > kTouch) {
      out.push_back({x, y, z});
      continue;
    }
    FoundTread& tread = out.back();
    if (x.to > tread.x.to) tread.z = z;
    tread.x = {std::min(tread.x.from, x.from), std::max(tread.x.to, x.to)};
    tread.y = {std::min(tread.y.from, y.from), std::max(tread.y.to, y.to)};
  }
  return out;
}

}  // namespace

StairFound::StairFound(const Job& job_, const Site& site_, const Flight& flight_, const Frame& frame_)
    : job(job_), site(site_), flight(flight_), frame(frame_), treads(find_treads(frame_)) {
  for (const Part& part : frame.parts) {
    if (part.kind == PartKind::stringer) stringers.push_back(&part);
    if (part.mark == "deck") deck_edge = {x_of(part).to, z_of(part).to};
  }
  sort_stably(stringers, [](const Part* p, const Part* q) { return y_of(*p).from < y_of(*q).from; });
  for (const FoundTread& tread : treads) nosings.push_back({tread.x.to, tread.z.to});
  deck_is_nosing = nosings.empty() || deck_edge.b - nosings.back().b > kTouch;
  if (deck_is_nosing) nosings.push_back(deck_edge);
  if (nosings.size() > 1) {
    const Length run = nosings.front().a - nosings.back().a, rise = nosings.back().b - nosings.front().b;
    cosine = run / hypotenuse(run, rise);
  }
  const bool relaid = !job.pad.existing || flight.landing.lift != Length();
  landing_uncertainty = relaid ? site.reading_uncertainty(nosings.front().a) : flight.landing.natural.uncertainty;
  width = {Length(), job.stair.width};
  if (treads.empty()) return;
  width = treads.front().y;
  for (const FoundTread& tread : treads) width = {std::min(width.from, tread.y.from), std::max(width.to, tread.y.to)};
  // Between uncut stringers the treads lie lower than the stringer's upper edge; over cut ones they lie on it.
  const FoundTread& first = treads.front();
  solid = !stringers.empty() && z_at(*stringers.front(), first.x.middle()).to > first.z.from + kTouch;
  Length below = flight.landing.z_at(first.x.to, flight.landing.middle_y);
  for (FoundTread& tread : treads) {
    for (const Part& part : frame.parts) {
      if (part.kind != PartKind::riser) continue;
      const Length middle = z_of(part).middle();
      if (middle <= below || middle >= tread.z.to) continue;
      tread.face = tread.has_riser ? std::max(tread.face, x_of(part).to) : x_of(part).to;
      tread.has_riser = tread.has_face = true;
    }
    if (!tread.has_riser && !solid && !stringers.empty()) {
      const std::vector<Interval> cut = slice_at_b(stringers.front()->solid.outline, tread.z.from - kUnderTread);
      tread.has_face = !cut.empty();
      if (tread.has_face) tread.face = cut.back().to;
    }
    below = tread.z.to;
  }
}

Length StairFound::nosing_line(Length x) const {
  if (nosings.size() < 2) return nosings.front().b;
  // Nosings run inwards as they rise; beyond the ends the last two carry on.
  std::size_t i = 0;
  while (i + 2 < nosings.size() && x < nosings[i + 1].a) ++i;
  const Point low = nosings[i], high = nosings[i + 1];
  return low.b + (high.b - low.b) * ((low.a - x) / (low.a - high.a));
}

bool StairFound::is_left(const Part& part) const { return y_of(part).middle() < width.middle(); }

std::vector<const Part*> StairFound::side_parts(bool left, std::initializer_list<PartKind> kinds) const {
  std::vector<const Part*> out;
  for (const Part& part : frame.parts) {
    const PartKind kind = is_post(part) ? PartKind::post : part.kind;
    if (std::ranges::find(kinds, kind) != kinds.end() && is_left(part) == left) out.push_back(&part);
  }
  return out;
}

bool StairFound::has_guard(bool left) const { return !side_parts(left, {PartKind::top_rail, PartKind::cap}).empty(); }

Sample StairFound::drop(bool left) const {
  Sample worst{.where = left ? "left side" : "right side"};
  const Length edge = left ? width.from : width.to;
  std::vector<Length> across{edge, left ? edge - kBeyondEdge : edge + kBeyondEdge};
  for (const GroundLine& line : site.lines()) {
    if (overlap({line.across, line.across}, {std::min(across[0], across[1]), std::max(across[0], across[1])}) >=
        Length()) {
      across.push_back(line.across);
    }
  }
  const auto look = [&](Length x, Length surface, int step) {
    for (const Length y : across) {
      const Level ground = site.ground(x, y);
      const double fall = (surface - ground.z).raw();
      if (fall <= worst.value) continue;
      worst.value = fall;
      worst.uncertainty = ground.uncertainty.raw();
      worst.step = step;
    }
  };
  int step = 0;
  for (const FoundTread& tread : treads) {
    ++step;
    look(tread.x.from, tread.z.to, step);
    look(tread.x.to, tread.z.to, step);
    for (const GroundLine& line : site.lines()) {
      for (const Reading& reading : line.readings) {
        if (tread.x.contains(reading.out)) look(reading.out, tread.z.to, step);
      }
    }
  }
  look(deck_edge.a, deck_edge.b, 0);
  return worst;
}

Interval z_at(const Part& part, Length x) {
  if (part.solid.normal != Axis::y) return z_of(part);
  const Interval reach = extent_a(part.solid.outline);
  // Exactly at an end the slice may be empty: look a touch inside.
  const std::vector<Interval> cut =
      slice_at_a(part.solid.outline, std::clamp(x, reach.from + kTouch / 2.0, reach.to - kTouch / 2.0));
  return cut.empty() ? z_of(part) : Interval{cut.front().from, cut.back().to};
}

Polygon side_view(const Part& part) {
  return part.solid.normal == Axis::y ? part.solid.outline : rectangle(x_of(part), z_of(part));
}

bool is_post(const Part& part) {
  return part.kind == PartKind::post || (part.kind == PartKind::existing && part.mark.starts_with("post"));
}

}  // namespace pitchboard
