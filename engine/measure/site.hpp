#pragma once
// Readings -> Site: where the ground is, how sure that is, and how it falls.
//
// METHOD  Between two readings of a line the ground is straight. Between two lines it is straight across. Beyond the
// last
//         reading it carries on at the last slope, and whoever asks is told so (`Level::beyond`).

#include <string>
#include <vector>

#include "engine/base/problem.hpp"
#include "engine/job/job.hpp"

namespace pitchboard {

struct Level {
  Length z;             ///< below the deck surface, so negative
  Length uncertainty;   ///< half-width of the band that the true level lies in
  bool beyond = false;  ///< no reading reaches this far out
};

struct GroundLine {
  Line line = Line::middle;
  Length across;                  ///< y of the line
  std::vector<Reading> readings;  ///< sorted by `out`
};

class Site {
 public:
  /// REQUIRES a job that `check_job` found no problem in.
  explicit Site(const Job& job);
  [[nodiscard]] Level ground(Length out, Length across) const;
  /// Ground at the middle of the stair's width.
  [[nodiscard]] Level ground(Length out) const { return ground(out, width_ / 2.0); }
  /// Fall away from the house between the deck edge and `out`, positive when the ground drops: drop over distance.
  [[nodiscard]] double fall(Length out) const;
  /// Fall across the stair's width at `out`, positive when the right side is lower: drop over distance.
  [[nodiscard]] double cross_fall(Length out) const;
  /// Half-width of the error of one reading taken `out` from the deck edge.
  [[nodiscard]] Length reading_uncertainty(Length out) const;
  [[nodiscard]] const std::vector<GroundLine>& lines() const { return lines_; }
  [[nodiscard]] Length furthest_reading() const;
  /// Readings that stand far off their neighbours, in words: a slip of the pen, or a ditch.
  [[nodiscard]] std::vector<std::string> odd_readings(UnitSystem units) const;
  /// Things taken for granted, in words: "one line only: ground taken as level across".
  [[nodiscard]] const std::vector<std::string>& assumptions() const { return assumptions_; }

 private:
  std::vector<GroundLine> lines_;
  std::vector<std::string> assumptions_;
  Length width_;
  Method method_ = Method::long_level;
  std::optional<Length> tolerance_;
};

}  // namespace pitchboard
