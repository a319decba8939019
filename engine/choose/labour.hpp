#pragma once
// How much work a stair is: minutes of one person, counted off its parts. Figures: data/choosing.toml.

#include <string_view>

#include "engine/frame/frame.hpp"
#include "engine/job/job.hpp"

namespace pitchboard {

/// One figure that choosing goes by; rows live in data/choosing.toml, each with its source.
struct ChoosingFigure {
  std::string_view key;
  double value = 0;
  std::string_view unit, words, source;
};
/// RETURNS the value of the row with that key. REQUIRES there is one.
[[nodiscard]] double choosing_figure(std::string_view key);

/// RETURNS person-minutes to build the frame, rails included: a practised carpenter with helpers, without errands and
/// waiting.
[[nodiscard]] double frame_minutes(const Flight& flight, const Frame& frame);
/// RETURNS the same for the landing; none where today's pad stays as it is.
[[nodiscard]] double landing_minutes(const Job& job, const Landing& landing);

}  // namespace pitchboard
