#pragma once
// Boxes sorted by where they are, so that those that one meets are soon found. Internal to the frame.

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <vector>

#include "engine/frame/frame.hpp"

namespace pitchboard {

using Box = std::array<Interval, 3>;

/// REQUIRES boxes that are not flat.
[[nodiscard]] inline bool meet(const Box& p, const Box& q) {
  const auto meets = [](const Interval& a, const Interval& b) { return a.from < b.to && b.from < a.to; };
  return meets(p[0], q[0]) && meets(p[1], q[1]) && meets(p[2], q[2]);
}
[[nodiscard]] inline Box grown(Box b, Length by) {
  for (Interval& v : b) v = {v.from - by, v.to + by};
  return b;
}
/// RETURNS the box round a rod of that radius from one point to another.
[[nodiscard]] inline Box box_of(Point3 from, Point3 to, Length radius) {
  const auto span = [&](Length a, Length b) { return Interval{std::min(a, b) - radius, std::max(a, b) + radius}; };
  return {span(from.x, to.x), span(from.y, to.y), span(from.z, to.z)};
}
[[nodiscard]] inline Point3 tip_of(const Fastener& f) { return moved(f.head, f.direction, f.length); }
[[nodiscard]] inline Box box_of(const Fastener& f) { return box_of(f.head, tip_of(f), f.diameter / 2.0); }

/// Boxes on shelves: stretches of x and of y that each reaches into.
class Shelves {
 public:
  [[nodiscard]] std::size_t size() const { return boxes_.size(); }
  [[nodiscard]] const Box& operator[](std::size_t i) const { return boxes_[i]; }
  void add(const Box& box) {
    if (boxes_.size() % kRow == 0) rows_.emplace_back();
    const std::uint64_t bit = std::uint64_t{1} << boxes_.size() % kRow;
    const Reach x = reach_x(box), y = reach_y(box);
    for (std::size_t s = x.from; s <= x.to; ++s) rows_.back().x[s] |= bit;
    for (std::size_t s = y.from; s <= y.to; ++s) rows_.back().y[s] |= bit;
    boxes_.push_back(box);
  }
  /// Takes away all but the first `count`.
  void keep(std::size_t count) {
    if (count == boxes_.size()) return;
    boxes_.resize(count);
    rows_.resize((count + kRow - 1) / kRow);
    if (count % kRow == 0) return;
    const std::uint64_t kept = (std::uint64_t{1} << count % kRow) - 1;
    for (std::uint64_t& shelf : rows_.back().x) shelf &= kept;
    for (std::uint64_t& shelf : rows_.back().y) shelf &= kept;
  }
  /// Visits each from `first` on that meets the box, in order.
  void visit_meeting(const Box& box, std::size_t first, const auto& visit) const {
    const Reach x = reach_x(box), y = reach_y(box);
    std::uint64_t wanted = ~std::uint64_t{0} << first % kRow;
    for (std::size_t row = first / kRow; row < rows_.size(); ++row) {
      std::uint64_t there = wanted & any_of(rows_[row].x, x) & any_of(rows_[row].y, y);
      for (; there != 0; there &= there - 1) {
        const std::size_t i = row * kRow + static_cast<std::size_t>(std::countr_zero(there));
        if (meet(box, boxes_[i])) visit(i);
      }
      wanted = ~std::uint64_t{0};
    }
  }

 private:
  static constexpr std::size_t kRow = 64;  ///< boxes that one word of bits tells of
  static constexpr std::size_t kShelves = 64;
  /// The first and the last shelf take in all beyond them.
  static constexpr Length kShelf = inches(4.0), kFirstY = inches(-64.0);
  using Words = std::array<std::uint64_t, kShelves>;
  struct Row {
    Words x{}, y{};  ///< a word for each shelf
  };
  struct Reach {
    std::size_t from, to;
  };
  static std::size_t shelf_of(Length v) {
    return static_cast<std::size_t>(std::max(0.0, std::min(static_cast<double>(kShelves - 1), v / kShelf)));
  }
  static Reach reach_x(const Box& box) { return {shelf_of(box[0].from), shelf_of(box[0].to)}; }
  static Reach reach_y(const Box& box) { return {shelf_of(box[1].from - kFirstY), shelf_of(box[1].to - kFirstY)}; }
  static std::uint64_t any_of(const Words& words, Reach reach) {
    std::uint64_t out = 0;
    for (std::size_t s = reach.from; s <= reach.to; ++s) out |= words[s];
    return out;
  }

  std::vector<Box> boxes_;
  std::vector<Row> rows_;
};

}  // namespace pitchboard
