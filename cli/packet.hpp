#pragma once
// The packet in a folder, its PDFs too.

#include <filesystem>
#include <optional>
#include <string>

#include "engine/base/problem.hpp"
#include "engine/packet.hpp"

namespace pitchboard {

/// RETURNS every file of the packet, `packet.json` included, which lists the others with a checksum each.
/// ERRORS  what the PDF writer says.
[[nodiscard]] Result<Packet> make_packet(const Plan& plan, Paper paper);

/// Writes the packet as `folder`, all of it or nothing.
/// 1. Replaces a folder only when that is an earlier packet in which nothing was added or changed; else it says what is
/// in the
///    way.  2. What is under the folder's name is at every moment the whole old packet or the whole new one, save for
///    the blink between two renames.
/// RETURNS nothing when it is done.
[[nodiscard]] std::optional<Problem> write_packet(const std::filesystem::path& folder, const Packet& packet);

/// Writes one file whole or not at all; one of that name is replaced.
/// RETURNS nothing when it is done.
[[nodiscard]] std::optional<Problem> write_whole(const std::filesystem::path& path, const std::string& bytes);

}  // namespace pitchboard
