// What a piece needs besides its length: a rip along the grain, notches round posts.

#include <algorithm>

#include "engine/base/sort.hpp"
#include "engine/cut/cut.hpp"

namespace pitchboard {
namespace {

/// A piece this much narrower than its stock is as good as the stock.
constexpr Length kAsBought = inches(1.0 / 64.0);

void add_notch(std::vector<Notch>& out, Length from_front, Length length, Length depth, bool left) {
  if (depth < kTouch) return;
  // A slice that goes on where the last one ended belongs to the same notch.
  const auto grown = std::ranges::find_if(out, [&](const Notch& n) {
    return n.left == left && abs(n.depth - depth) < kTouch && abs(n.from_front + n.length - from_front) < kTouch;
  });
  if (grown == out.end()) {
    out.push_back({from_front, length, depth, left, !left});
  } else {
    grown->length += length;
  }
}

}  // namespace

std::vector<Notch> notches(const Part& part) {
  if (part.kind != PartKind::tread) return {};
  const Polygon& outline = part.solid.outline;  // (x, y): the house at small x, left at small y
  const Interval whole = extent_b(outline);
  std::vector<Length> places;
  for (const Point p : outline) places.push_back(p.a);
  sort_stably(places, std::greater<>());
  std::vector<Notch> single;
  for (std::size_t i = 0; i + 1 < places.size(); ++i) {
    if (places[i] - places[i + 1] < kTouch) continue;
    const std::vector<Interval> slice = slice_at_a(outline, (places[i] + places[i + 1]) / 2.0);
    if (slice.empty()) continue;
    const Length from_front = places.front() - places[i], length = places[i] - places[i + 1];
    add_notch(single, from_front, length, slice.front().from - whole.from, true);
    add_notch(single, from_front, length, whole.to - slice.back().to, false);
  }
  std::vector<Notch> out;
  for (const Notch& notch : single) {
    const auto twin = std::ranges::find_if(out, [&](const Notch& n) {
      return n.left != notch.left && abs(n.from_front - notch.from_front) < kTouch &&
             abs(n.length - notch.length) < kTouch && abs(n.depth - notch.depth) < kTouch;
    });
    if (twin == out.end()) {
      out.push_back(notch);
    } else {
      twin->left = twin->right = true;
    }
  }
  return out;
}

std::optional<Length> ripped_to(const Part& part) {
  if (!is_cut_from_board(part.kind) || part.kind == PartKind::stringer) return std::nullopt;
  const Polygon board = board_outline(part);
  const Length width = std::max(extent_b(board).size(), part.solid.span.size());
  if (width > part.section.width - kAsBought) return std::nullopt;
  return width;
}

}  // namespace pitchboard
