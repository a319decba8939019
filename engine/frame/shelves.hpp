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

/// Boxes on shelves: stretches of x, y and z that each reaches into.
class Shelves {
 public:
  [[nodiscard]] std::size_t size() const { return boxes_.size(); }
  [[nodiscard]] const Box& operator[](std::size_t i) const { return boxes_[i]; }
  void add(const Box& box) {
    if (boxes_.size() % kRow == 0) rows_.emplace_back();
    for (std::size_t axis = 0; axis < kAxes; ++axis) {
      const auto [from, to] = reach(box, axis);
      for (std::size_t s = from; s <= to; ++s) rows_.back()[axis][s] |= std::uint64_t{1} << boxes_.size() % kRow;
    }
    boxes_.push_back(box);
  }
  /// Takes away all but the first `count`.
  void keep(std::size_t count) {
    if (count == boxes_.size()) return;
    boxes_.resize(count);
    rows_.resize((count + kRow - 1) / kRow);
    if (count % kRow == 0) return;
    for (auto& shelves : rows_.back()) {
      for (std::uint64_t& shelf : shelves) shelf &= (std::uint64_t{1} << count % kRow) - 1;
    }
  }
  /// Visits each from `first` on that meets the box, in order.
  void visit_meeting(const Box& box, std::size_t first, const auto& visit) const {
    for (std::size_t row = first / kRow; row < rows_.size(); ++row) {
      std::uint64_t there = row == first / kRow ? ~std::uint64_t{0} << first % kRow : ~std::uint64_t{0};
      for (std::size_t axis = 0; axis < kAxes; ++axis) {
        const auto [from, to] = reach(box, axis);
        std::uint64_t reached = 0;
        for (std::size_t s = from; s <= to; ++s) reached |= rows_[row][axis][s];
        there &= reached;
      }
      for (; there != 0; there &= there - 1) {
        const std::size_t i = row * kRow + static_cast<std::size_t>(std::countr_zero(there));
        if (meet(box, boxes_[i])) visit(i);
      }
    }
  }

 private:
  static constexpr std::size_t kRow = 64;  ///< boxes that one word of bits tells of
  static constexpr std::size_t kAxes = 2, kShelves = 64;
  /// The first and the last shelf take in all beyond them.
  static constexpr Length kShelf = inches(4.0);
  static constexpr std::array<Length, 3> kFirst{Length(), inches(-64.0), inches(-160.0)};
  struct Reach {
    std::size_t from, to;
  };
  static Reach reach(const Box& box, std::size_t axis) {
    const auto shelf = [&](Length v) {
      return static_cast<std::size_t>(
          std::max(0.0, std::min(static_cast<double>(kShelves - 1), (v - kFirst[axis]) / kShelf)));
    };
    return {shelf(box[axis].from), shelf(box[axis].to)};
  }

  std::vector<Box> boxes_;
  std::vector<std::array<std::array<std::uint64_t, kShelves>, kAxes>> rows_;  ///< a word for each shelf of each axis
};

}  // namespace pitchboard
