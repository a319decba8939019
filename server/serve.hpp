#pragma once
// The built page on this machine alone.

#include <filesystem>
#include <functional>
#include <optional>
#include <string>

#include "engine/base/problem.hpp"

namespace pitchboard {

/// Serves the files of the folder on 127.0.0.1 until the program is ended, and calls `ready` with the page's address
/// once it answers. `port` 0: any that is free. Only requests for this very host are answered; nothing is written, no
/// folder is listed, and the page may load from nowhere else.
/// RETURNS what is wrong with the folder or the port.
[[nodiscard]] std::optional<Problem> serve(const std::filesystem::path& page, int port,
                                           const std::function<void(const std::string&)>& ready);

}  // namespace pitchboard
