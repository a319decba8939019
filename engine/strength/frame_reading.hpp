#pragma once
// What the calculation reads out of the frame: spans, shares of the load, the wood of a part, who is fixed to whom.
// Internal to strength.

#include <optional>
#include <string>
#include <vector>

#include "engine/frame/frame.hpp"
#include "engine/job/job.hpp"
#include "engine/strength/wood_values.hpp"

namespace pitchboard {

/// A stringer as a beam, its places measured level, inches out from the deck edge.
struct StringerReading {
  std::size_t part = 0;
  double head_x = 0;                  ///< the plumb cut
  double foot_from = 0, foot_to = 0;  ///< where the foot bears, level
  std::vector<Interval> props;        ///< where mid supports bear under it, house outwards
  std::vector<double> spans;          ///< level, house outwards: head, props, foot
  double tributary = 0;               ///< width of stair that it carries
  double head_height = 0;             ///< of the plumb cut
};
[[nodiscard]] std::vector<StringerReading> stringers_of(const Frame& frame);

/// How far a part of that kind reaches between what holds it: the greatest distance between neighbouring stringers,
/// clear and middle to middle, inches.
struct TreadSpan {
  double clear = 0, middles = 0;
};
[[nodiscard]] TreadSpan tread_span(const Frame& frame);

[[nodiscard]] Member member_of(const Part& part);
/// The service that every wooden part of this job works in: wet or not, incised or not.
[[nodiscard]] Service service_of(const Job& job, const Part& part);

[[nodiscard]] std::vector<std::size_t> parts_of(const Frame& frame, PartKind kind);
[[nodiscard]] std::optional<std::size_t> part_named(const Frame& frame, const std::string& mark);
/// RETURNS the parts that a fastener holds to `part` directly.
[[nodiscard]] std::vector<std::size_t> fixed_to(const Frame& frame, std::size_t part);
/// RETURNS the marks joined for people: "T1a, T1b" or "T1a to T9b (18)" where there are many.
[[nodiscard]] std::string marks_of(const Frame& frame, const std::vector<std::size_t>& parts);

}  // namespace pitchboard
