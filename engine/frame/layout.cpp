#include "engine/frame/layout.hpp"

#include <algorithm>
#include <cmath>

#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {
namespace {

/// Left faces of the stringers, evenly spaced, the outer ones flush with the stair's width.
std::vector<Length> stringer_places(const Job& job, Length thickness) {
  const Length span = job.stair.width - thickness;
  const int count = stringer_count(job);
  std::vector<Length> out;
  for (int i = 0; i < count; ++i) out.push_back(span * (static_cast<double>(i) / (count - 1)));
  return out;
}

}  // namespace

int stringer_count(const Job& job) {
  if (job.stringers.kind == StringerKind::solid) return 2;  // treads hang between two solid ones
  const Length span = job.stair.width - section_of(job.stringers.board).thickness;
  const Length furthest = tread_thickness(job.stair) < kThinBoard
                              ? std::min(job.stringers.spacing_at_most, kThinBoardSpan)
                              : job.stringers.spacing_at_most;
  return std::max(job.stringers.count.value_or(1 + static_cast<int>(std::ceil(span / furthest - 1e-9))), 2);
}

PostBolt::PostBolt(BoltSize size)
    : diameter(size == BoltSize::five_eighths ? inches(0.625) : inches(0.5)),
      least_edge(diameter * kDowelEdge),
      least_end(diameter * kDowelEnd),
      apart(diameter * kBoltApart),
      nut_radius(inches(bolt_for({}, diameter).nut_radius)) {}

Length PostBolt::under_tread() const { return nut_radius + kNutClear; }

Length PostBolt::nut_room() const { return kBoltStagger + nut_radius + kNutClear; }

Rim::Rim(const Job& job) {
  const Section board = section_of(job.deck.rim_size);
  face = -job.deck.overhang;
  top = -job.deck.board_thickness;
  bottom = top - board.width;
  thickness = board.thickness;
}

Layout::Layout(const Job& job_, const Site& site_, const Flight& flight_)
    : job(job_),
      site(site_),
      flight(flight_),
      rise(flight_.unit_rise),
      going(flight_.going),
      step(hypotenuse(rise, going)),
      rake(rise / going),
      sine(rise / step),
      cosine(going / step),
      treads(flight_.treads()),
      tread_thickness(flight_.tread_thickness),
      riser_thickness(closed() ? job_.stair.riser_thickness : Length()),
      stringer(section_of(job_.stringers.board)),
      stringer_y(stringer_places(job_, stringer.thickness)),
      rim(job_),
      head_x(rim.face),
      post_at_foot(job_.rails.left == SideRail::guard || job_.rails.right == SideRail::guard),
      kicker(section_of(job_.rails.rail)),
      bolt(job_.rails.post_bolt) {
  if (!foot_takes(bolt)) bolt = PostBolt(BoltSize::half_inch);
  const Length front = solid() ? nosing_x(1) : cut_face(1);
  // A post's bolts need the wood in front of the kicker.
  const Length behind_bolts = kPostBehindCut + kBoltStagger + bolt.least_edge + kOverLeastEdge;
  kicker_from = post_at_foot && !solid() ? front - behind_bolts - kicker.width : front - kicker.width;
}

bool Layout::board_on_rim() const {
  if (!closed() || solid() || hanger_under || hanger_on_face || flight.top != TopMode::deck_edge) return false;
  const bool rim_closes = rim.bottom <= level_cut(treads) + tread_thickness;
  return !rim_closes || job.deck.overhang - riser_thickness >= kLeastNosing;
}

bool Layout::foot_takes(const PostBolt& bolts) const {
  const Length x = cut_face(1) - (solid() ? kPostBehindSolidRiser : kPostBehindCut);
  const Length foot = std::max(foot_z(x, Length()), foot_z(x, width()));
  const Length over =
      solid() ? std::max(bolts.under_tread(), job.rails.hold_downs ? kHoldDownUnderTread : Length()) : bolts.least_edge;
  const Length under = kOffGround + bolts.least_end + kOverLeastEnd;
  return level_cut(1) - foot >= over + bolts.apart + under;
}

Length Layout::bottom_rail_gap() const {
  // A ball of diameter B rests on tread and riser and under the rail. With C = sqrt(R² + G²) and the riser set back by
  // e from the nosing above it, it just passes when the rail is cos(slope) R (B / (R + G - C) - 1 - e / G) above the
  // nosing line, square to it.
  Length set_back;
  if (closed()) {
    const Length at_top = board_on_rim() ? job.deck.overhang - riser_thickness : -head_x;
    set_back = std::max(flight.nosing, flight.top == TopMode::deck_edge ? at_top : Length());
  }
  const Length ball_limit = rise * cosine * (kTriangleBall / (rise + going - step) - 1.0 - set_back / going);
  return std::clamp(ball_limit - kTriangleMargin, kTriangleMargin, kBottomRailGap);
}

Length Layout::kicker_top() const {
  return std::max(foot_z(kicker_from, Length()), foot_z(kicker_from, width())) + kicker.thickness;
}

bool Layout::has_kicker() const {
  const Length behind = head_x + (hanger_under || hanger_on_face ? kWrenchRoom : kBehindKicker);
  return !solid() && kicker_from > std::max({heel_x(Length()), heel_x(width()), behind}) &&
         level_cut(1) - kicker_top() > kRoomOverKicker;
}

Length Layout::heel_x(Length y) const {
  // lower_edge(x) = foot_z(x): both are straight lines in x.
  const Length at0 = lower_edge(Length()) - foot_z(Length(), y);
  const Length at1 = lower_edge(inches(1.0)) - foot_z(inches(1.0), y);
  return inches(at0 / (at0 - at1));
}

Length Layout::lower_edge(Length x) const {
  if (solid()) return nosing_line(x) + (kSolidAboveNosings - stringer.width) / cosine;
  return level_cut(1) + (cut_face(1) - x) * rake - stringer.width / cosine;
}

Section section_of(std::string_view nominal) {
  const SectionRow* row = find_section(nominal);
  return {std::string(nominal), inches(row ? row->thickness : 0.0), inches(row ? row->width : 0.0)};
}

Section narrowest(std::string_view kind, Length thickness, Length width) {
  const SectionRow* best = nullptr;
  for (const SectionRow& row : sections()) {
    if (row.kind != kind || abs(inches(row.thickness) - thickness) > inches(0.02)) continue;
    const bool fits = inches(row.width) + kTouch >= width;
    const bool best_fits = best && inches(best->width) + kTouch >= width;
    if (!best || (fits && (!best_fits || row.width < best->width)) || (!fits && !best_fits && row.width > best->width))
      best = &row;
  }
  if (best) return {std::string(best->nominal), inches(best->thickness), inches(best->width)};
  return {"custom", thickness, width};
}

Length longest_board(const Job& job, std::string_view nominal) {
  Length longest;
  for (const StockLength& stock : job.yard.stock) {
    if (stock.section == nominal) longest = std::max(longest, stock.length);
  }
  if (longest == Length()) {
    for (const StockRow& row : demo_stock()) {
      if (row.section == nominal) longest = std::max(longest, feet(row.length_feet));
    }
  }
  return (longest > Length() ? longest : feet(16)) - job.yard.end_trim * 2.0;
}

std::size_t add(Frame& frame, Part&& part) {
  frame.parts.push_back(std::move(part));
  return frame.parts.size() - 1;
}

Part wood(const Job& job, PartKind kind, std::string mark, std::string use, Section section, Axis normal, Interval span,
          Polygon outline) {
  Part part;
  part.mark = std::move(mark);
  part.kind = kind;
  part.use = std::move(use);
  part.section = std::move(section);
  part.solid = {normal, span, std::move(outline)};
  part.species = job.wood.species;
  part.grade = job.wood.grade;
  part.treatment = job.wood.treatment;
  return part;
}

void count(Frame& frame, const HardwareRow& item, int pieces) {
  // Keys of rows are equal where they lie in the same place.
  auto at = std::ranges::find(frame.items, item.key.data(), [](const ItemCount& i) { return i.item.data(); });
  if (at == frame.items.end()) at = frame.items.insert(at, {item.key, 0});
  at->count += pieces;
}

void fasten(Frame& frame, const HardwareRow& item, Point3 head, Direction direction, const Joined& joins,
            std::string_view reason) {
  if (frame.counted && reason != kHoldsPost) return count(frame, item, 1);
  Fastener& f = frame.fasteners.emplace_back();
  f.item = item.key;
  f.mark = "F" + std::to_string(frame.fasteners.size());
  f.head = head;
  f.direction = direction;
  f.length = inches(item.length);
  f.diameter = inches(item.diameter);
  f.head_radius = inches(item.head_radius);
  f.head_height = inches(item.head_height);
  f.tool_radius = inches(item.tool_radius);
  f.tool_reach = inches(item.tool_reach);
  f.nut_radius = inches(item.nut_radius);
  f.nut_height = inches(item.nut_height);
  f.joins = joins;
  f.reason = reason;
}

void fasten_clear(Frame& frame, Shelves& rods, const HardwareRow& item, Point3 head, Direction direction,
                  const Joined& joins, std::string_view reason, Direction slide) {
  if (frame.counted) {
    fasten(frame, item, head, direction, joins, reason);
    return;
  }
  while (rods.size() < frame.fasteners.size()) rods.add(box_of(frame.fasteners[rods.size()]));
  const auto clear = [&](Point3 at) {
    const Point3 tip = moved(at, direction, inches(item.length));
    bool out = true;
    rods.visit_meeting(box_of(at, tip, inches(item.diameter) / 2.0 + kBetweenFasteners + kTouch), 0,
                       [&](std::size_t i) {
                         const Fastener& f = frame.fasteners[i];
                         const Length least = (f.diameter + inches(item.diameter)) / 2.0 + kBetweenFasteners;
                         if (distance(at, tip, f.head, tip_of(f)) < least) out = false;
                       });
    return out;
  };
  for (const double by : {0.0, 0.5, -0.5, 0.875, -0.875, 1.25, -1.25}) {
    const Point3 at = moved(head, slide, inches(by));
    if (!clear(at)) continue;
    fasten(frame, item, at, direction, joins, reason);
    return;
  }
  fasten(frame, item, head, direction, joins, reason);  // the clash test says what it meets
}

const HardwareRow& bolt_for(Length grip, Length diameter) {
  const HardwareRow* best = nullptr;
  for (const HardwareRow& row : hardware()) {
    if (row.kind != "bolt" || abs(inches(row.diameter) - diameter) > kTouch) continue;
    const Length needed = grip + kHeadWasher + inches(row.nut_height);
    const bool fits = inches(row.length) >= needed, best_fits = best && inches(best->length) >= needed;
    if (!best || (fits && (!best_fits || row.length < best->length)) ||
        (!fits && !best_fits && row.length > best->length))
      best = &row;
  }
  return *best;
}

const HardwareRow& screw_for(Length thickness) {
  if (thickness > inches(1.2)) return hardware("screw-10x3");
  return thickness > inches(0.9) ? hardware("screw-8x2-1/2") : hardware("screw-8x2");
}

std::size_t add_angle(Frame& frame, const HardwareRow& item, WordsOf mark, WordsOf use, Axis normal, Interval span,
                      AngleIron angle) {
  if (frame.counted) {
    count(frame, item, 1);
    return frame.parts.size();
  }
  const Length leg = inches(item.head_radius), metal = inches(item.diameter);
  const auto at = [&](Length a, Length b) {
    return Point{angle.corner.a + a * angle.leg_a, angle.corner.b + b * angle.leg_b};
  };
  Part part;
  for (const std::string_view word : mark) part.mark += word;
  part.kind = PartKind::connector;
  for (const std::string_view word : use) part.use += word;
  part.section = {std::string(item.key), metal, leg};
  part.solid = {normal, span, {at({}, {}), at(leg, {}), at(leg, metal), at(metal, metal), at(metal, leg), at({}, leg)}};
  part.across_outline = true;
  part.step = angle.step;
  part.side = angle.side;
  return add(frame, std::move(part));
}

}  // namespace pitchboard
