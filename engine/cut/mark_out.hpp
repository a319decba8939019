#pragma once
// The three parts of marking out, one a file. Internal to cut.

#include "engine/cut/cut.hpp"

namespace pitchboard {

[[nodiscard]] std::vector<StringerCard> stringer_cards(const Job& job, const Flight& flight, const Frame& frame);
[[nodiscard]] std::vector<SawSetting> saw_settings(const Job& job, const Frame& frame);
[[nodiscard]] std::vector<HoleRow> hole_rows(const Frame& frame);

}  // namespace pitchboard
