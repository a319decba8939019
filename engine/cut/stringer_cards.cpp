// SYMBOLS  R unit rise, G going, step = sqrt(R² + G²). The tips of the teeth lie on the board's notched edge, one step
// apart, so
//          tip k is at k step from the lowest: one tape, hooked once, and no rounding adds up.

#include <algorithm>

#include "engine/cut/mark_out.hpp"

namespace pitchboard {
namespace {

bool same_shape(const Part& p, const Part& q) {
  const Polygon a = board_outline(p), b = board_outline(q);
  return p.section.nominal == q.section.nominal &&
         std::ranges::equal(a, b, [](Point u, Point v) { return distance(u, v) < kTouch; });
}

StringerCard card_of(const Part& part, const Job& job, const Flight& flight, const Frame& frame) {
  StringerCard card{.mark = part.mark, .risers = flight.risers, .unit_rise = flight.unit_rise, .going = flight.going};
  card.step_length = hypotenuse(flight.unit_rise, flight.going);
  for (int k = 0; k < flight.treads(); ++k) card.marks.push_back(card.step_length * k);
  card.overall = card.marks.empty() ? Length() : card.marks.back();
  card.throat = frame.throat;
  card.drop = flight.unit_rise - flight.first_riser_cut;
  card.slope = flight.slope;
  card.square_tongue = flight.unit_rise;
  card.square_body = flight.going;

  const Polygon& outline = part.solid.outline;  // (x, z)
  const Polygon board = board_outline(part);
  const Length head = extent_a(outline).from, front = extent_a(outline).to, upper_edge = extent_b(board).to;
  Length heel = head, tread_cut = extent_b(outline).from, lowest_tip = extent_b(outline).to;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const std::size_t next = (i + 1) % outline.size();
    const Point p = outline[i], q = outline[next];
    if (abs(p.a - head) < kTouch && abs(q.a - head) < kTouch) card.plumb_cut += abs(q.b - p.b);
    if (board[i].b < kTouch) heel = std::max(heel, p.a);
    if (abs(p.a - front) < kTouch && board[i].b > upper_edge - kTouch) lowest_tip = p.b;
    const bool at_tip = board[i].b > upper_edge - kTouch || board[next].b > upper_edge - kTouch;
    if (at_tip && abs(p.b - q.b) < kTouch && p.b > tread_cut) {
      tread_cut = p.b;
      card.top_going_cut = abs(q.a - p.a);
    }
  }
  card.foot_cut = front - heel;
  // Each foot meets the landing where it stands: a cross fall makes the lowest riser cuts differ. A solid stringer has
  // none.
  const Length landing = flight.landing.z_at(front, part.solid.span.middle()) - job.pad.later_finish;
  card.first_riser_cut = flight.kind == StringerKind::solid ? flight.first_riser_cut : lowest_tip - landing;
  return card;
}

}  // namespace

std::vector<StringerCard> stringer_cards(const Job& job, const Flight& flight, const Frame& frame) {
  std::vector<StringerCard> cards;
  std::vector<const Part*> patterns;
  for (const Part& part : frame.parts) {
    if (part.kind != PartKind::stringer) continue;
    const auto pattern = std::ranges::find_if(patterns, [&](const Part* p) { return same_shape(*p, part); });
    const auto at = static_cast<std::size_t>(pattern - patterns.begin());
    if (pattern == patterns.end()) {
      patterns.push_back(&part);
      cards.push_back(card_of(part, job, flight, frame));
    }
    cards[at].same.push_back(part.mark);
  }
  return cards;
}

Marks mark_out(const Job& job, const Flight& flight, const Frame& frame) {
  return {stringer_cards(job, flight, frame), saw_settings(job, frame), hole_rows(frame)};
}

}  // namespace pitchboard
