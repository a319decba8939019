#pragma once
// What the calculation reads out of the frame: spans, shares of the load, the wood of a part, who is fixed to whom.
// Internal to strength.

#include <optional>
#include <span>
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

/// Which fasteners hold which part of the frame, which has to outlive it.
class Fastened {
 public:
  explicit Fastened(const Frame& frame);
  /// RETURNS indices of the fasteners that hold the part, in their order.
  [[nodiscard]] std::span<const std::size_t> by(std::size_t part) const;
  /// RETURNS indices of the fasteners that join both parts, in their order.
  [[nodiscard]] std::vector<std::size_t> between(std::size_t part, std::size_t other) const;
  /// RETURNS the parts that a fastener holds to `part` directly, in their order.
  [[nodiscard]] std::vector<std::size_t> to(std::size_t part) const;

 private:
  struct Range {
    std::size_t from = 0, to = 0;
  };
  const Frame& frame_;
  std::vector<Range> of_part_;  // in `fasteners_`
  std::vector<std::size_t> fasteners_;
};

/// RETURNS the marks joined for people: "T1a, T1b" or "T1a to T9b (18)" where there are many.
[[nodiscard]] std::string marks_of(const Frame& frame, const std::vector<std::size_t>& parts);

}  // namespace pitchboard
