#include "engine/strength/joint_reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/catalog.hpp"
#include "engine/base/sort.hpp"

namespace pitchboard {
namespace {

/// Further than any part reaches. UNITS inches.
constexpr double kFar = 1000.0;
/// A fastener counts as standing in end grain when its axis runs nearer than this to the grain. UNITS degrees. SOURCE
/// own judgement: the standard knows only side grain and end grain.
constexpr double kEndGrain = 45.0;

Vector vector_of(Direction d) { return {d.x, d.y, d.z}; }
Direction direction_of(Vector v) { return {v.x, v.y, v.z}; }

/// (a, b) of the outline's plane in space.
Vector in_space(Axis normal, double a, double b) {
  if (normal == Axis::x) return {0, a, b};
  return normal == Axis::y ? Vector{a, 0, b} : Vector{a, b, 0};
}
Vector normal_of(Axis normal) {
  return {normal == Axis::x ? 1.0 : 0.0, normal == Axis::y ? 1.0 : 0.0, normal == Axis::z ? 1.0 : 0.0};
}

Vector grain_of(const Part& part) {
  if (part.kind == PartKind::existing) {  // known by its shape alone: the grain runs along the longest side
    const auto extents = box(part.solid);
    const double x = extents[0].size().raw(), y = extents[1].size().raw(), z = extents[2].size().raw();
    if (x >= y && x >= z) return {1, 0, 0};
    return y >= z ? Vector{0, 1, 0} : Vector{0, 0, 1};
  }
  if (part.across_outline) return normal_of(part.solid.normal);
  return in_space(part.solid.normal, part.grain_a, part.grain_b);
}

std::optional<LegInFrame> leg_in(JointedFrame& jointed, const Fastener& f, std::size_t index) {
  const Part& part = jointed.frame.parts[index];
  const std::vector<Interval> way = inside(part.solid, f.head, f.direction, inches(kFar));
  if (way.empty()) return {};
  LegInFrame leg;
  leg.part = index;
  leg.from = way.front().from.raw();
  leg.to = way.front().to.raw();
  leg.material = &jointed.material_of(index);
  leg.grain = grain_of(part);
  leg.end_grain = !leg.material->metal && degrees_between(leg.grain, vector_of(f.direction)) < kEndGrain;
  if (leg.material->metal) leg.to = std::min(leg.to, leg.from + part.section.thickness.raw());
  return leg;
}

std::optional<DowelKind> kind_of(const HardwareRow& row) {
  if (row.kind == "bolt") return DowelKind::bolt;
  if (row.kind == "lag") return DowelKind::lag;
  if (row.kind == "screw") return DowelKind::wood_screw;
  return {};
}

}  // namespace

double dot(Vector p, Vector q) { return p.x * q.x + p.y * q.y + p.z * q.z; }
Vector cross(Vector p, Vector q) { return {p.y * q.z - p.z * q.y, p.z * q.x - p.x * q.z, p.x * q.y - p.y * q.x}; }
Vector scaled(Vector p, double by) { return {p.x * by, p.y * by, p.z * by}; }
Vector sum(Vector p, Vector q) { return {p.x + q.x, p.y + q.y, p.z + q.z}; }
double length_of(Vector p) { return std::sqrt(dot(p, p)); }
double degrees_between(Vector p, Vector q) {
  return std::atan2(length_of(cross(p, q)), std::abs(dot(p, q))) * 180.0 / kPi;
}

namespace {

LegMaterial material(const Job& job, Woods& woods, const Part& part) {
  LegMaterial out;
  if (part.kind == PartKind::connector) {
    out.metal = out.known = true;
    return out;
  }
  const bool there_already = part.kind == PartKind::existing;
  if (part.kind == PartKind::pad_layer || (part.species.empty() && !there_already)) {
    out.note = part.use + " is no wood: read its maker's report for what a fastener holds in it";
    return out;
  }
  out.member = {part.species, part.grade, part.section.nominal, part.section.thickness.raw(), part.section.width.raw()};
  if (there_already) {
    out.member.species = "spf";
    out.member.grade = "no2";
    if (out.member.nominal.empty()) out.member.nominal = job.deck.rim_size;
    out.taken_as = "Taken as spruce-pine-fir No. 2, look at its stamp: " + part.use;
  }
  if (out.member.thickness <= 0) {
    if (const SectionRow* row = find_section(out.member.nominal)) {
      out.member.thickness = row->thickness;
      out.member.width = row->width;
    }
  }
  const Woods::Known& wood = woods.of(out.member);
  out.values = wood.values;
  if (out.values && !there_already) {
    out.gravity = out.values->gravity;
    out.source = out.values->source;
    out.from_memory = out.values->from_memory;
  } else if (there_already) {
    const Figure gravity = joint_value("unknown-gravity", "G");
    out.gravity = gravity.value;
    out.source = gravity.source;
    out.from_memory = gravity.from_memory;
  } else if (const SpeciesRow* row = find_species(part.species)) {
    out.gravity = row->gravity;
    out.source = Text::lasting(row->source);
    out.from_memory = row->source.starts_with("from memory");
  }
  if (!out.values && !wood.why_not.empty()) out.note = wood.why_not;
  out.known = out.gravity > 0;
  return out;
}

/// `before`: the dowel read before, or nullptr.
void read_dowel(StandingDowel& out, JointedFrame& jointed, const Fastener& f, std::size_t loaded,
                const StandingDowel* before) {
  const Frame& frame = jointed.frame;
  out.fastener = &f;
  out.axis = vector_of(f.direction);
  if (std::ranges::find(f.joins, loaded) == f.joins.end()) {
    out.why_not = fmt::format("{} does not hold {}", f.mark, frame.parts[loaded].mark);
    return;
  }
  if (before && before->fastener->item == f.item) {
    out.dowel = before->dowel;
  } else {
    const HardwareRow* row = find_hardware(f.item);
    const std::optional<DowelKind> kind = row ? kind_of(*row) : std::nullopt;
    if (!kind) {
      out.why_not = fmt::format("{} ({}): no table holds a value for it, read its maker's report", f.mark,
                                row ? row->words : f.item);
      return;
    }
    out.dowel = dowel_of(*kind, row->diameter, row->length);
    out.dowel.length -= out.dowel.washer;
    if (out.dowel.root <= 0 || out.dowel.yield_strength <= 0) {
      out.why_not = fmt::format("{} ({}): no table holds this size", f.mark, row->words);
      return;
    }
  }
  std::vector<LegInFrame> legs;
  legs.reserve(f.joins.size());
  for (const std::size_t part : f.joins) {
    std::optional<LegInFrame> leg = leg_in(jointed, f, part);
    if (!leg || leg->from >= out.dowel.length) {
      out.why_not = fmt::format("{} does not reach {}", f.mark, frame.parts[part].mark);
      return;
    }
    if (!leg->material->known) {
      out.why_not = leg->material->note.view();
      return;
    }
    legs.push_back(*leg);
  }
  if (legs.size() < 2) {
    out.why_not = f.mark + " joins nothing to anything";
    return;
  }
  const bool double_shear = out.dowel.kind == DowelKind::bolt && legs.size() == 3 && legs[1].part == loaded;
  if (double_shear) out.far_side = legs[2];
  out.main = double_shear ? legs[1] : legs.back();
  out.side = legs.front();
  if (out.main.material->metal) out.why_not = f.mark + " ends in metal: read the maker's report";
}

/// How far the part reaches from a point inside it.
double reach(const Part& part, Point3 from, Vector towards) {
  const std::vector<Interval> way = inside(part.solid, from, direction_of(towards), inches(kFar));
  return way.empty() || way.front().from > inches(1e-6) ? 0.0 : way.front().to.raw();
}

Point3 middle_of(const StandingDowel& d, const LegInFrame& leg) {
  const double until = std::min(leg.to, std::max(d.dowel.length, leg.from));
  return moved(d.fastener->head, d.fastener->direction, inches((leg.from + until) / 2.0));
}

/// Direction of the grain as it shows in the plane across the fastener; in end grain any direction is across it.
Vector grain_across_axis(const StandingDowel& d, const LegInFrame& leg) {
  const Vector flat = sum(leg.grain, scaled(d.axis, -dot(leg.grain, d.axis)));
  const double size = length_of(flat);
  return size > 1e-9 ? scaled(flat, 1.0 / size) : Vector{};
}

/// `mark`: makes the words for where it is.
void weigh(GeometryRead& out, double there, const DistanceAsked& asked, const auto& mark) {
  const double factor = geometry_factor(there, asked);
  if (out.written && factor <= 0 && out.falls_short.empty()) {
    out.falls_short = fmt::format("{}, {}: {:.2f} in, at least {:.2f} in are asked, {:.2f} in short", mark(),
                                  asked.words, there, asked.least, asked.least - there);
  }
  if (out.written && factor < out.factor) {
    out.words = fmt::format("{}: {}, {:.2f} in of {:.2f} in", mark(), asked.words, there, asked.full);
    out.source = asked.source;
  }
  out.factor = std::min(out.factor, factor);
}

Vector between(const StandingDowel& p, const StandingDowel& q) {
  const Point3 d = q.fastener->head - p.fastener->head;
  return {d.x.raw(), d.y.raw(), d.z.raw()};
}

}  // namespace

const LegMaterial& JointedFrame::material_of(std::size_t part) {
  std::unique_ptr<const LegMaterial>& there = materials_[part];
  if (!there) there = std::make_unique<const LegMaterial>(material(job, woods, frame.parts[part]));
  return *there;
}

std::vector<StandingDowel> read_dowels(JointedFrame& jointed, std::span<const std::size_t> fasteners,
                                       std::size_t loaded) {
  std::vector<StandingDowel> out;
  out.reserve(fasteners.size());
  for (const std::size_t fastener : fasteners) {
    const StandingDowel* before = out.empty() ? nullptr : &out.back();  // stays where it is: there is room for all
    read_dowel(out.emplace_back(), jointed, jointed.frame.fasteners[fastener], loaded, before);
    if (!out.back().why_not.empty()) break;
  }
  return out;
}

GeometryRead read_geometry(const Frame& frame, std::span<const StandingDowel> group, LegOf leg_of, Vector push,
                           double slenderness, bool written) {
  GeometryRead out{1.0, "every distance gives the whole value", "NDS 2018 12.5.1", "", written};
  const double size = length_of(push);
  if (group.empty() || size <= 0) return out;
  const RowRead in_rows = read_rows(group, push);
  const double rows_apart = in_rows.rows > 1 ? in_rows.group_width : 0.0;
  for (std::size_t i = 0; i < group.size(); ++i) {
    const StandingDowel& d = group[i];
    const LegInFrame& leg = leg_of(d);
    const Part& part = frame.parts[leg.part];
    const auto mark = [&] { return d.fastener->mark + " in " + part.mark; };
    const Point3 at = middle_of(d, leg);
    const double diameter = d.dowel.diameter;
    Vector along = grain_across_axis(d, leg);
    if (leg.end_grain || length_of(along) == 0) {
      // Only edges lie round a fastener in end grain; all of them carry the load across the grain.
      const Vector u = scaled(push, 1.0 / size), v = cross(d.axis, u);
      weigh(out, reach(part, at, u), edge_distance(diameter, 90, true, slenderness, 0), mark);
      for (const Vector way : {scaled(u, -1), v, scaled(v, -1)})
        weigh(out, reach(part, at, way), edge_distance(diameter, 90, false, slenderness, 0), mark);
      continue;
    }
    const double angle = degrees_between(push, along);
    if (dot(push, along) < 0) along = scaled(along, -1);
    Vector across = cross(d.axis, along);
    if (dot(push, across) < 0) across = scaled(across, -1);
    weigh(out, reach(part, at, along), end_distance(diameter, angle, true), mark);
    weigh(out, reach(part, at, scaled(along, -1)), end_distance(diameter, angle, false), mark);
    weigh(out, reach(part, at, across), edge_distance(diameter, angle, true, slenderness, rows_apart), mark);
    weigh(out, reach(part, at, scaled(across, -1)), edge_distance(diameter, angle, false, slenderness, rows_apart),
          mark);
    // A notch can come nearer than the rays along and across the grain tell.
    const bool through_face = std::abs(dot(d.axis, normal_of(part.solid.normal))) > 1.0 - 1e-9;
    if (through_face) {
      weigh(out, distance_to_outline(part.solid.outline, in_plane_of(part.solid, at)).raw(),
            edge_distance(diameter, 90, false, slenderness, 0), mark);
    }
    for (std::size_t j = i + 1; j < group.size(); ++j) {
      // Rows run along the grain or across it, whichever the load is nearer to. Two fasteners are short of each other
      // only when they are near both along the row and from row to row: staggered ones may stand in nearer rows.
      const Vector apart = between(d, group[j]);
      const bool rows_along = angle <= 45.0;
      const double in_row = std::abs(dot(apart, rows_along ? along : across));
      const double beside = std::abs(dot(apart, rows_along ? across : along));
      const DistanceAsked spacing = spacing_in_row(diameter, rows_along ? 0.0 : 90.0);
      const DistanceAsked rows = row_spacing(diameter, rows_along ? 0.0 : 90.0, slenderness);
      const auto pair = [&] {
        return fmt::format("{} to {} in {}", d.fastener->mark, group[j].fastener->mark, part.mark);
      };
      if (beside < diameter) {
        weigh(out, in_row, spacing, pair);
      } else if (in_row < spacing.full) {
        weigh(out, beside, rows, pair);
      }
    }
  }
  return out;
}

GeometryRead read_pulled_lags(const Frame& frame, std::span<const StandingDowel> group, bool written) {
  GeometryRead out{1.0, "every distance gives the whole value", "NDS 2018 Table 12.5.1E", "", written};
  for (std::size_t i = 0; i < group.size(); ++i) {
    const StandingDowel& d = group[i];
    const LegInFrame& leg = d.main;
    if (d.dowel.kind != DowelKind::lag) continue;
    const Part& part = frame.parts[leg.part];
    const auto mark = [&] { return d.fastener->mark + " in " + part.mark; };
    const Point3 at = middle_of(d, leg);
    const Vector along = grain_across_axis(d, leg);
    if (!leg.end_grain && length_of(along) > 0) {
      const Vector across = cross(d.axis, along);
      for (const double way : {1.0, -1.0}) {
        weigh(out, reach(part, at, scaled(along, way)), pulled_lag(d.dowel.diameter, PulledLag::end), mark);
        weigh(out, reach(part, at, scaled(across, way)), pulled_lag(d.dowel.diameter, PulledLag::edge), mark);
      }
    }
    for (std::size_t j = i + 1; j < group.size(); ++j) {
      weigh(out, length_of(between(d, group[j])), pulled_lag(d.dowel.diameter, PulledLag::spacing),
            [&] { return fmt::format("{} to {}", d.fastener->mark, group[j].fastener->mark); });
    }
  }
  return out;
}

RowRead read_rows(std::span<const StandingDowel> group, Vector along) {
  RowRead out;
  const double size = length_of(along);
  if (group.size() < 2 || size <= 0) return out;
  struct Stand {
    double in_row, beside;
  };
  std::vector<Stand> places;
  const Vector u = scaled(along, 1.0 / size), v = cross(group.front().axis, u);
  for (const StandingDowel& d : group) {
    const Vector at = between(group.front(), d);
    places.push_back({dot(at, u), dot(at, v)});
  }
  sort_stably(places, {}, &Stand::beside);
  out.group_width = places.back().beside - places.front().beside;
  // Staggered fasteners count as one row when the rows are nearer than a quarter of the spacing in them (11.3.6.2).
  std::vector<std::vector<double>> rows{{places.front().in_row}};
  for (std::size_t i = 1; i < places.size(); ++i) {
    const double beside = places[i].beside - places[i - 1].beside;
    const double in_row = std::abs(places[i].in_row - places[i - 1].in_row);
    if (beside > group.front().dowel.diameter / 2.0 && beside >= in_row / 4.0) rows.emplace_back();
    rows.back().push_back(places[i].in_row);
  }
  out.rows = static_cast<int>(rows.size());
  for (std::vector<double>& row : rows) {
    if (static_cast<int>(row.size()) <= out.most) continue;
    sort_stably(row);
    out.most = static_cast<int>(row.size());
    out.spacing = kFar;
    for (std::size_t i = 1; i < row.size(); ++i) out.spacing = std::min(out.spacing, row[i] - row[i - 1]);
  }
  return out;
}

}  // namespace pitchboard
