#pragma once
// How much work a stair is: minutes of one person, counted off its parts. Figures: data/choosing.toml.

#include <string_view>

#include "engine/frame/frame.hpp"
#include "engine/job/job.hpp"

namespace pitchboard {

/// RETURNS the value of the row of data/choosing.toml; 0 where there is none of that key.
[[nodiscard]] double choosing_figure(std::string_view key);

/// RETURNS person-minutes to build the frame, rails included: a practised carpenter with helpers, without errands and
/// waiting.
[[nodiscard]] double frame_minutes(const Flight& flight, const Frame& frame);
/// RETURNS the same for the landing; none where today's pad stays as it is.
[[nodiscard]] double landing_minutes(const Job& job, const Landing& landing);

}  // namespace pitchboard
