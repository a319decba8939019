// Stringers, what their heads hang on, and what their feet stand against.

#include <algorithm>
#include <cmath>

#include "engine/frame/layout.hpp"
#include "engine/frame/trade_sizes.hpp"

namespace pitchboard {
namespace {

constexpr Direction kInward{-1, 0, 0}, kDown{0, 0, -1};
/// Screws in each leg of a stringer connector; where it is short, and between solid stringers, where the highest
/// tread's angle needs the room of two, fewer. SOURCE common practice, no source.
constexpr int kConnectorScrews = 6, kFewConnectorScrews = 4;
constexpr Length kRoomForAllScrews = inches(3.5);

Direction across(bool to_right) { return {0, to_right ? 1.0 : -1.0, 0}; }

/// The sawtooth outline, from the foot's front up the steps, down the plumb cut and back along the lower edge.
Polygon cut_outline(const Layout& l, Length y) {
  Polygon out;
  out.push_back({l.cut_face(1), l.foot_z(l.cut_face(1), y)});
  for (int k = 1; k <= l.treads; ++k) {
    out.push_back({l.cut_face(k), l.level_cut(k)});
    if (k < l.treads) out.push_back({l.cut_face(k + 1), l.level_cut(k)});
  }
  Length head_z = l.level_cut(l.treads);
  if (l.flight.top == TopMode::full_tread && head_z > l.rim.top) {
    // Thin treads under thicker decking: the head ducks under the deck boards' overhang.
    out.push_back({Length(), head_z});
    out.push_back({Length(), l.rim.top});
    head_z = l.rim.top;
  }
  out.push_back({l.head_x, head_z});
  const Length heel = l.heel_x(y);
  if (heel > l.head_x) {
    out.push_back({l.head_x, l.lower_edge(l.head_x)});
    out.push_back({heel, l.foot_z(heel, y)});
  } else {
    out.push_back({l.head_x, l.foot_z(l.head_x, y)});
  }
  // Notch over the kicker, in the level cut of the foot.
  const Length from = l.kicker_from, to = from + l.kicker.width, top = l.kicker_top();
  if (l.has_kicker()) {
    out.push_back({from, l.foot_z(from, y)});
    out.push_back({from, top});
    out.push_back({to, top});
    if (to < l.cut_face(1) - kTouch) {
      out.push_back({to, l.foot_z(to, y)});
    } else {
      out.front() = {to, top};  // the notch opens to the front
      out.pop_back();
    }
  }
  return out;
}

/// An uncut stringer: a sloping board trimmed plumb at head and front, level under the deck and on the landing.
Polygon solid_outline(const Layout& l, Length y) {
  const Length far = l.nosing_x(1) + l.going;
  const auto upper = [&](Length x) { return l.nosing_line(x) + kSolidAboveNosings / l.cosine; };
  Polygon band{
      {l.head_x, l.lower_edge(l.head_x)}, {far, l.lower_edge(far)}, {far, upper(far)}, {l.head_x, upper(l.head_x)}};
  const Length ceiling = l.rim.top;
  band = clip_b(clip_a(band, {l.head_x, std::max(l.nosing_x(1) + inches(1.0), l.riser_face(1) + inches(1.8))}),
                {l.lower_edge(far), ceiling});
  // The foot follows the fall of the landing: turn it level, cut, turn back.
  const double fall = l.flight.landing.fall, slant = std::sqrt(1.0 + fall * fall);
  const Length at_origin = l.foot_z(Length(), y);
  band = clip_b(turned(band, 1.0 / slant, -fall / slant), {at_origin / slant, inches(1e6)});
  return turned(band, 1.0 / slant, fall / slant);
}

/// Bolts through a hanger board on the rim's face stand over the highest tread, clear of it by the washer.
Length lowest_face_bolt(const Layout& l) { return -l.rise + inches(1.0); }

void add_rims(Frame& frame, const Layout& l, StringerParts& parts) {
  const auto rim = std::ranges::find(frame.parts, std::string("rim"), &Part::mark);
  parts.rims.push_back(static_cast<std::size_t>(rim - frame.parts.begin()));
  if (!l.hanger_under && !l.hanger_on_face) return;
  const Length ground = std::max(l.foot_z(l.head_x, Length()), l.foot_z(l.head_x, l.width()));
  const Length plumb_bottom = std::max(l.lower_edge(l.head_x), ground + inches(0.5));
  const Interval across_stair{Length(), l.width()};
  // As thick as the rim, so that what lies behind both bears on both.
  if (l.hanger_under) {
    const Section board = narrowest("dimension", l.rim.thickness, l.rim.bottom - plumb_bottom);
    const Interval up{l.rim.bottom - board.width, l.rim.bottom};
    Part hanger = wood(l.job, PartKind::hanger_board, "H1", "hanger board, under the rim", board, Axis::x,
                       {l.rim.face - board.thickness, l.rim.face}, rectangle(across_stair, up));
    parts.rims.push_back(add(frame, std::move(hanger)));
  } else {
    const Section board = narrowest("dimension", l.rim.thickness, l.rim.top - plumb_bottom);
    // High enough for bolts over the highest tread, if no board reaches from there to the foot of the plumb cut.
    const Length low = std::max(plumb_bottom, lowest_face_bolt(l) + kDowelEdge * inches(0.5) - board.width);
    Part hanger = wood(l.job, PartKind::hanger_board, "H1", "hanger board, on the rim's face", board, Axis::x,
                       {l.rim.face, l.rim.face + board.thickness},
                       rectangle(across_stair, {low, std::min(low + board.width, l.rim.top)}));
    parts.rims.push_back(add(frame, std::move(hanger)));
  }
}

/// A board behind rim and hanger board that carries the one on the other.
Section drop_block(const Layout& l) { return narrowest("dimension", l.rim.thickness, inches(5.5)); }

/// Middles of the hanger board's bolts across the stair: beside each stringer, clear of it by washer and socket.
std::vector<Length> bolt_places(const Layout& l) {
  std::vector<Length> out;
  const Length half = l.stringer.thickness / 2.0;
  for (std::size_t i = 0; i + 1 < l.stringer_y.size(); ++i) {
    const Length left = l.stringer_y[i] + half, right = l.stringer_y[i + 1] + half;
    const Length off = kBoltFromStringer + inches(0.75);
    if (right - left > off * 2.0 + drop_block(l).width * 2.0) {  // two blocks, and a block's width between them
      out.push_back(left + off);
      out.push_back(right - off);
    } else {
      out.push_back((left + right) / 2.0);
    }
  }
  return out;
}

void hang_hanger_board(Frame& frame, const Layout& l, const StringerParts& parts) {
  if (parts.rims.size() < 2) return;
  const std::size_t rim = parts.rims[0], hanger = parts.rims[1];
  const Interval board = extent_b(frame.parts[hanger].solid.outline);
  int number = 0;
  for (const Length middle : bolt_places(l)) {
    // Rows loaded across the grain stand (5 l + 10 D) / 8 apart at least: 1 9/16 in. SOURCE NDS 2018 Table 12.5.1D.
    const Length stagger = inches(l.hanger_on_face ? 0.8125 : 0.75);
    if (l.hanger_on_face) {
      // One row high on the rim: above the highest tread, clear of it by the washer.
      const Length z = std::max(board.to - kBoltEdge, lowest_face_bolt(l));
      for (const Length y : {middle - stagger, middle + stagger}) {
        const HardwareRow& item = l.job.deck.behind == BehindRim::house_band
                                      ? hardware("lag-1/2x4")
                                      : bolt_for(l.rim.thickness * 2.0, kRimBolt);
        fasten(frame, item, {l.head_x, y, z}, kInward, {hanger, rim}, "holds the hanger board to the rim");
      }
      continue;
    }
    // A drop block behind rim and hanger board, bolted to both, carries the one on the other.
    const Section block = drop_block(l);
    Part part = wood(l.job, PartKind::block, "D" + std::to_string(++number), "drop block behind rim and hanger board",
                     block, Axis::x, {l.rim.face - l.rim.thickness - block.thickness, l.rim.face - l.rim.thickness},
                     rectangle({middle - block.width / 2.0, middle + block.width / 2.0}, {board.from, l.rim.top}));
    part.grain_a = 0;
    part.grain_b = 1;
    const std::size_t drop = add(frame, std::move(part));
    const HardwareRow& bolt = bolt_for(l.rim.thickness + block.thickness, kRimBolt);
    // On the rim clear of the highest tread by the washer; on the hanger board spread over its depth.
    const bool above_tread = l.flight.top == TopMode::deck_edge;
    const Interval free{above_tread ? -l.rise : l.rim.bottom,
                        above_tread ? l.rim.top : std::min(l.rim.top, l.level_cut(l.treads))};
    const Length rim_low = std::max(free.from + inches(0.8), free.to - inches(5.0));
    const Length rim_high =
        std::min(free.to - inches(0.8), std::max(free.to - kBoltEdge, rim_low + kRimBolt * kBoltApart));
    fasten(frame, bolt, {l.rim.face, middle - stagger, rim_high}, kInward, {rim, drop},
           "carries the drop block on the rim");
    fasten(frame, bolt, {l.rim.face, middle + stagger, rim_low}, kInward, {rim, drop},
           "carries the drop block on the rim");
    const Length edge = std::min(kBoltEdge, board.size() / 2.0 - kRimBolt * kBoltApart / 4.0);
    for (const bool upper : {true, false}) {
      fasten(frame, bolt,
             {l.rim.face, upper ? middle - stagger : middle + stagger, upper ? board.to - edge : board.from + edge},
             kInward, {hanger, drop}, "carries the hanger board on the drop block");
    }
  }
}

/// Sloped connectors: one a stringer, on its inner side (outer where treads hang between solid ones), screwed to the
/// stringer and to whatever stands behind it.
void hang_heads(Frame& frame, const Layout& l, const StringerParts& parts) {
  for (std::size_t i = 0; i < parts.stringers.size(); ++i) {
    const bool on_right = (i + 1 < parts.stringers.size()) != l.solid();  // which side its leg lies on
    const Length face = on_right ? l.stringer_y[i] + l.stringer.thickness : l.stringer_y[i];
    const double way = on_right ? 1 : -1;
    const std::vector<Interval> plumb =
        slice_at_a(frame.parts[parts.stringers[i]].solid.outline, l.head_x + inches(0.01));
    if (plumb.empty()) continue;
    // The connector sits low on the plumb cut, all of it on wood behind.
    Interval behind_head = extent_b(frame.parts[parts.rims.back()].solid.outline);
    if (!l.hanger_on_face) behind_head.to = l.rim.top;
    const Length bottom = std::max(plumb.front().from, behind_head.from) + inches(0.375);
    // Below the screws that come down through the highest tread.
    const Length top = std::min(plumb.front().to - inches(l.solid() ? 0.375 : 1.75), behind_head.to - inches(0.375));
    const Interval up{bottom, std::min(top, bottom + inches(5.0))};
    const std::size_t connector = add_angle(frame, hardware("stringer-connector"), {"C", std::to_string(i + 1)},
                                            {"stringer connector, head of ", frame.parts[parts.stringers[i]].mark},
                                            Axis::z, up, {{l.head_x, face}, 1, way});
    const int screws = l.solid() || up.size() < kRoomForAllScrews ? kFewConnectorScrews : kConnectorScrews;
    for (int j = 0; j < screws; ++j) {
      const Length z = up.from + up.size() * ((j + 0.5) / screws);
      fasten(frame, hardware("screw-10x1-1/2"),
             {l.head_x + inches(j % 2 == 0 ? 0.75 : 1.15), face + inches(0.07) * way, z}, across(!on_right),
             {connector, parts.stringers[i]}, "holds the stringer head in its connector");
      for (const std::size_t behind : parts.rims) {
        const Prism& solid = frame.parts[behind].solid;
        const Interval board = extent_b(solid.outline);
        const bool touches = abs(solid.span.to - l.head_x) < kTouch;
        if (!touches || z < board.from + inches(0.5) || z > board.to - inches(0.5)) continue;
        fasten(frame, hardware("screw-10x1-1/2"),
               {l.head_x + inches(0.07), face + inches(j % 2 == 0 ? 0.6 : 1.1) * way, z}, kInward, {connector, behind},
               behind == parts.rims[0] ? "holds the stringer connector to the rim"
               : l.hanger_under        ? "holds the stringer connector to hanger board, under the rim"
                                       : "holds the stringer connector to hanger board, on the rim's face");
      }
    }
  }
}

/// Without a kicker: an angle at each foot, on its inner side, straight to the landing.
void fix_feet(Frame& frame, const Layout& l, const StringerParts& parts) {
  for (std::size_t i = 0; i < parts.stringers.size(); ++i) {
    const bool on_right = i + 1 < parts.stringers.size();
    const double way = on_right ? 1 : -1;
    const Length face = on_right ? l.stringer_y[i] + l.stringer.thickness : l.stringer_y[i];
    const Length x =
        l.solid() ? l.riser_face(1) + inches(0.8)
                  : std::max({l.heel_x(face) + inches(1.0), l.head_x + inches(2.5), l.cut_face(1) - inches(7.0)});
    const Length z = std::max(l.foot_z(x, face), l.foot_z(x - inches(0.75), face));
    const std::size_t angle = add_angle(frame, hardware("angle-2"), {"A", std::to_string(i + 1)},
                                        {"angle, ", frame.parts[parts.stringers[i]].mark, " to landing"}, Axis::x,
                                        {x - inches(0.75), x + inches(0.75)}, {{face, z}, way, 1});
    for (const double dx : {-0.4, 0.4}) {
      fasten(frame, hardware("screw-10x1-1/2"), {x + inches(dx), face + inches(0.1) * way, z + inches(1.4)},
             across(!on_right), {angle, parts.stringers[i]}, "holds the stringer foot to the landing");
    }
    pin_to_landing(frame, l, {x, face + inches(1.3) * way, z + inches(0.1)}, angle, parts.ground,
                   "keeps the stringer foot from sliding out");
  }
}

void set_kicker(Frame& frame, const Layout& l, StringerParts& parts) {
  const Length from = l.kicker_from, to = from + l.kicker.width, top = l.kicker_top();
  if (!l.has_kicker()) {
    fix_feet(frame, l, parts);
    return;
  }
  Part part =
      wood(l.job, PartKind::kicker, "K1", "kicker, flat on the landing", l.kicker, Axis::y, {Length(), l.width()},
           {{from, top - l.kicker.thickness}, {to, top - l.kicker.thickness}, {to, top}, {from, top}});
  part.across_outline = true;
  parts.kicker = add(frame, std::move(part));
  const Length middle = from + (l.job.rails.hold_downs && l.post_at_foot ? kOnKicker : l.kicker.width / 2.0);
  for (std::size_t i = 0; i + 1 < l.stringer_y.size(); ++i) {
    const Length y = (l.stringer_y[i] + l.stringer_y[i + 1] + l.stringer.thickness) / 2.0;
    pin_to_landing(frame, l, {middle, y, top}, *parts.kicker, parts.ground,
                   "keeps the kicker, and with it the stringer feet, from sliding out");
  }
  for (std::size_t i = 0; i < parts.stringers.size(); ++i) {
    const bool on_right = i + 1 < parts.stringers.size();
    const double way = on_right ? 1 : -1;
    const Length face = on_right ? l.stringer_y[i] + l.stringer.thickness : l.stringer_y[i];
    const std::size_t angle = add_angle(frame, hardware("angle-2"), {"A", std::to_string(i + 1)},
                                        {"angle, ", frame.parts[parts.stringers[i]].mark, " to kicker"}, Axis::x,
                                        {middle - inches(0.75), middle + inches(0.75)}, {{face, top}, way, 1});
    for (const double dx : {-0.4, 0.4}) {
      fasten(frame, hardware("screw-10x1-1/2"), {middle + inches(dx), face + inches(0.1) * way, top + inches(1.4)},
             across(!on_right), {angle, parts.stringers[i]}, "holds the stringer foot to the kicker");
      fasten(frame, hardware("screw-10x1-1/2"), {middle + inches(dx), face + inches(1.4) * way, top + inches(0.1)},
             kDown, {angle, *parts.kicker}, "holds the stringer foot to the kicker");
    }
  }
}

/// Short blocks between the stringers behind the foot, so that a post cannot roll its stringer.
void block_feet(Frame& frame, const Layout& l, const StringerParts& parts) {
  if (!l.post_at_foot || l.solid()) return;
  const Section block = section_of(l.job.rails.rail);
  // Behind the kicker, above the lower edge of the stringers where the furthest block stands.
  const Length furthest = l.kicker_from - inches(0.25) - block.thickness * 2.25;
  const Length low =
      std::max({l.foot_z(furthest, Length()), l.foot_z(furthest, l.width()), l.lower_edge(furthest) - inches(0.25)}) +
      kOffGround;
  if (furthest < l.head_x + inches(1.75) || l.level_cut(1) - low < block.width + inches(0.125)) {
    frame.notes.push_back("No room for blocking between the stringers at the foot: the rise is too low for it.");
    return;
  }
  for (std::size_t i = 0; i + 1 < parts.stringers.size(); ++i) {
    // Neighbouring blocks stand off each other so that both can be screwed straight through the stringer between them.
    const Length x = l.kicker_from - inches(0.25) - block.thickness * (i % 2 == 0 ? 1.0 : 2.25);
    const Interval between{l.stringer_y[i] + l.stringer.thickness, l.stringer_y[i + 1]};
    Part part = wood(l.job, PartKind::block, "B" + std::to_string(i + 1), "block between stringers at the foot", block,
                     Axis::x, {x, x + block.thickness}, rectangle(between, {low, low + block.width}));
    const std::size_t index = add(frame, std::move(part));
    for (const bool left : {true, false}) {
      for (const double up : {1.0, block.width.raw() - 1.0}) {
        const Length y = left ? l.stringer_y[i] : l.stringer_y[i + 1] + l.stringer.thickness;
        fasten(frame, hardware("screw-10x3"), {x + block.thickness / 2.0, y, low + inches(up)}, across(left),
               {parts.stringers[left ? i : i + 1], index},
               "holds the block that keeps the post from rolling its stringer");
      }
    }
  }
}

}  // namespace

void pin_to_landing(Frame& frame, const Layout& l, Point3 head, std::size_t part,
                    const std::vector<std::size_t>& ground, std::string_view reason) {
  const HardwareRow& item = l.job.pad.make == PadMake::concrete ? hardware("anchor-1/2x4") : hardware("spike-3/8x12");
  Joined joins{part};
  for (const std::size_t layer : ground) {
    if (frame.counted) break;  // nothing is asked of it but that it is there
    if (!inside(frame.parts[layer].solid, head, kDown, inches(item.length)).empty()) joins.push_back(layer);
  }
  fasten(frame, item, head, kDown, joins, reason);
}

HeadBearing head_bearing(Layout& l) {
  HeadBearing head;
  const auto measure = [&] {
    const Length top = std::min(l.solid() ? l.rim.top : l.level_cut(l.treads), l.rim.top);
    const Length bottom = std::max(l.lower_edge(l.head_x), l.foot_z(l.head_x, l.width() / 2.0));
    head.plumb_cut = top - bottom;
    head.contact = std::max(overlap({bottom, top}, {l.rim.bottom, l.rim.top}), Length());
    head.needed = head.plumb_cut * l.job.stringers.bearing_share;
  };
  measure();
  head.hanger_board = head.wants_board(l.job.stringers.bearing_share);
  if (head.hanger_board) {
    l.hanger_under = l.job.deck.behind == BehindRim::joists;
    l.hanger_on_face = !l.hanger_under;
    if (l.hanger_on_face) l.head_x = l.rim.face + l.rim.thickness;
    const HeadBearing on_rim = head;
    measure();
    head.contact = on_rim.contact;
  }
  return head;
}

StringerParts add_stringers(Frame& frame, const Layout& l, const std::vector<std::size_t>& ground) {
  StringerParts parts;
  parts.ground = ground;
  add_rims(frame, l, parts);
  const std::size_t count = l.stringer_y.size();
  for (std::size_t i = 0; i < count; ++i) {
    const Length y = l.stringer_y[i], middle = y + l.stringer.thickness / 2.0;
    const std::string where = i == 0 ? "left" : i + 1 == count ? "right" : "middle";
    Part part = wood(l.job, PartKind::stringer, "S" + std::to_string(i + 1), "stringer, " + where, l.stringer, Axis::y,
                     {y, y + l.stringer.thickness}, l.solid() ? solid_outline(l, middle) : cut_outline(l, middle));
    part.grain_a = l.cosine;  // the board runs down the slope
    part.grain_b = -l.sine;
    parts.stringers.push_back(add(frame, std::move(part)));
  }
  frame.stringer_spacing = count > 1 ? l.stringer_y[1] - l.stringer_y[0] : Length();
  // Least wood square to the lower edge: depth - R G / sqrt(R² + G²); one tread has no inner corner but the head.
  const Length corner = l.treads > 1 ? l.stringer.width - l.rise * l.going / l.step
                                     : std::min(l.stringer.width, frame.head.plumb_cut * l.cosine);
  frame.throat = l.solid() ? l.stringer.width : corner;
  return parts;
}

void hold_stringers(Frame& frame, const Layout& l, StringerParts& parts) {
  hang_hanger_board(frame, l, parts);
  hang_heads(frame, l, parts);
  set_kicker(frame, l, parts);
  block_feet(frame, l, parts);
}

}  // namespace pitchboard
