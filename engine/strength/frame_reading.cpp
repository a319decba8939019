#include "engine/strength/frame_reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "engine/base/catalog.hpp"
#include "engine/base/sort.hpp"

namespace pitchboard {
namespace {

/// A member's span ends at most this far inside its bearing: half of the bearing that it needs.
/// SOURCE NDS 2018 3.2.1: clear span plus half the required bearing at each end.
constexpr double kHalfBearing = 1.5;

/// Where the stringer's outline runs level along its lowest edge or on a kicker: the foot.
std::optional<Interval> foot_of(const Part& stringer, double slope_share) {
  const Polygon& outline = stringer.solid.outline;
  const Interval height = extent_b(outline);
  std::optional<Interval> foot;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point& p = outline[i];
    const Point& q = outline[(i + 1) % outline.size()];
    const Length run = abs(p.a - q.a), fall = abs(p.b - q.b);
    const bool level = run > inches(0.25) && fall < run * slope_share;
    const Length low = height.from + std::max(height.size() * 0.1, inches(2.0));
    if (!level || p.b > low || q.b > low) continue;
    const Interval here{std::min(p.a, q.a), std::max(p.a, q.a)};
    foot = foot ? Interval{std::min(foot->from, here.from), std::max(foot->to, here.to)} : here;
  }
  return foot;
}

}  // namespace

std::vector<StringerReading> stringers_of(const Frame& frame) {
  std::vector<StringerReading> out;
  const std::vector<std::size_t> parts = parts_of(frame, PartKind::stringer);
  const std::vector<std::size_t> beams = parts_of(frame, PartKind::support_beam);
  for (const std::size_t index : parts) {
    const Part& part = frame.parts[index];
    StringerReading reading;
    reading.part = index;
    const Interval level = extent_a(part.solid.outline);
    reading.head_x = in_inches(level.from);
    for (const Interval& plumb : slice_at_a(part.solid.outline, level.from + inches(0.01)))
      reading.head_height = std::max(reading.head_height, in_inches(plumb.size()));
    // Half of the board's own slope: steeper than any landing, flatter than any stair.
    const Interval foot = foot_of(part, 0.5 * std::abs(part.grain_b) / std::max(std::abs(part.grain_a), 1e-9))
                              .value_or(Interval{level.to, level.to});
    reading.foot_from = in_inches(foot.from);
    reading.foot_to = in_inches(foot.to);
    for (const std::size_t beam : beams) reading.props.push_back(box(frame.parts[beam].solid)[0]);
    sort_stably(reading.props, {}, &Interval::from);
    double from = reading.head_x;
    for (const Interval& prop : reading.props) {
      reading.spans.push_back(in_inches(prop.middle()) - from);
      from = in_inches(prop.middle());
    }
    reading.spans.push_back(reading.foot_from + std::min(kHalfBearing, (reading.foot_to - reading.foot_from) / 2.0) -
                            from);
    const double middle = in_inches(part.solid.span.middle());
    double left = 1e9, right = 1e9;  // to the neighbours
    for (const std::size_t other : parts) {
      const double at = in_inches(frame.parts[other].solid.span.middle());
      if (at < middle - 0.01) left = std::min(left, middle - at);
      if (at > middle + 0.01) right = std::min(right, at - middle);
    }
    // An outer one carries what the treads pass it by.
    const double past = in_inches(part.solid.span.size()) / 2.0;
    reading.tributary = (left < 1e8 ? left / 2.0 : past) + (right < 1e8 ? right / 2.0 : past);
    out.push_back(std::move(reading));
  }
  return out;
}

TreadSpan tread_span(const Frame& frame) {
  TreadSpan out;
  std::vector<Interval> across;
  for (const std::size_t part : parts_of(frame, PartKind::stringer)) across.push_back(frame.parts[part].solid.span);
  sort_stably(across, {}, &Interval::from);
  for (std::size_t i = 0; i + 1 < across.size(); ++i) {
    out.clear = std::max(out.clear, in_inches(across[i + 1].from - across[i].to));
    out.middles = std::max(out.middles, in_inches(across[i + 1].middle() - across[i].middle()));
  }
  return out;
}

Member member_of(const Part& part) {
  Member out{part.species, part.grade, part.section.nominal, in_inches(part.section.thickness),
             in_inches(part.section.width)};
  // A milled handrail is graded as the lumber of its dressed size.
  if (const SectionRow* milled = find_section(out.nominal); milled && milled->kind == "handrail") {
    for (const SectionRow& row : sections()) {
      if (row.kind != "handrail" && row.thickness == milled->thickness && row.width == milled->width) {
        out.nominal = row.nominal;
        break;
      }
    }
  }
  return out;
}

Service service_of(const Job& job, const Part& part) {
  Service out;
  out.wet = job.wood.wet;
  out.incised = job.wood.incised.value_or(usually_incised(part.species, part.treatment));
  return out;
}

std::vector<std::size_t> parts_of(const Frame& frame, PartKind kind) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < frame.parts.size(); ++i) {
    if (frame.parts[i].kind == kind) out.push_back(i);
  }
  return out;
}

std::optional<std::size_t> part_named(const Frame& frame, const std::string& mark) {
  const auto part = std::ranges::find(frame.parts, mark, &Part::mark);
  if (part == frame.parts.end()) return std::nullopt;
  return static_cast<std::size_t>(part - frame.parts.begin());
}

Fastened::Fastened(const Frame& frame) : frame_(frame), of_part_(frame.parts.size()) {
  for (const Fastener& fastener : frame.fasteners)
    for (const std::size_t part : fastener.joins) ++of_part_[part].to;
  std::size_t from = 0;
  for (Range& range : of_part_) {
    const std::size_t size = range.to;
    range = {from, from};
    from += size;
  }
  fasteners_.resize(from);
  for (std::size_t i = 0; i < frame.fasteners.size(); ++i) {
    for (const std::size_t part : frame.fasteners[i].joins) {
      Range& range = of_part_[part];
      if (range.from == range.to || fasteners_[range.to - 1] != i) fasteners_[range.to++] = i;
    }
  }
}

std::span<const std::size_t> Fastened::by(std::size_t part) const {
  const Range& range = of_part_[part];
  return std::span(fasteners_).subspan(range.from, range.to - range.from);
}

std::vector<std::size_t> Fastened::between(std::size_t part, std::size_t other) const {
  if (by(other).size() < by(part).size()) std::swap(part, other);
  std::vector<std::size_t> out;
  for (const std::size_t fastener : by(part)) {
    const Joined& joins = frame_.fasteners[fastener].joins;
    if (std::ranges::find(joins, other) != joins.end()) out.push_back(fastener);
  }
  return out;
}

std::vector<std::size_t> Fastened::to(std::size_t part) const {
  std::vector<std::size_t> out;
  for (const std::size_t fastener : by(part)) {
    for (const std::size_t other : frame_.fasteners[fastener].joins) {
      const auto at = std::ranges::lower_bound(out, other);
      if (other != part && (at == out.end() || *at != other)) out.insert(at, other);
    }
  }
  return out;
}

std::string marks_of(const Frame& frame, const std::vector<std::size_t>& parts) {
  constexpr std::size_t kFew = 4;
  if (parts.size() > kFew) {
    return fmt::format("{} to {} ({})", frame.parts[parts.front()].mark, frame.parts[parts.back()].mark, parts.size());
  }
  std::string out;
  for (const std::size_t part : parts) out += (out.empty() ? "" : ", ") + frame.parts[part].mark;
  return out;
}

}  // namespace pitchboard
