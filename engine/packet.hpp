#pragma once
// The packet: what a plan is handed over as, file by file.

#include <map>
#include <string>
#include <vector>

#include "engine/plan.hpp"

namespace pitchboard {

/// The bytes of each file by its name inside the packet.
using Packet = std::map<std::string, std::string>;

/// RETURNS every file that the engine makes of the plan: these sheets as SVG, model, plan, job, lists and checks.
[[nodiscard]] Packet packet_files(const Plan& plan, const std::vector<Sheet>& sheets,
                                  const std::vector<Sheet>& calculation);

}  // namespace pitchboard
