#include "cli/packet.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdint>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <system_error>
#include <utility>
#include <vector>

#include "paper/pdf.hpp"

namespace pitchboard {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

constexpr const char* kMarker = "packet.json";

/// Tells an edited file from an untouched one; it guards against mistakes, not against malice.
/// SOURCE FNV-1a, 64 bits: G. Fowler, L. Noll, K.-P. Vo (1991).
std::string checksum(const std::string& bytes) {
  std::uint64_t hash = 0xcbf29ce484222325U;
  for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3U;
  return fmt::format("{:016x}", hash);
}

std::string marker_text(const Packet& packet) {
  json files = json::object();
  for (const auto& [name, bytes] : packet) files[name] = checksum(bytes);
  const json out = {{"made_by", "pitchboard"}, {"files", files}};
  return out.dump(1) + "\n";
}

std::optional<std::string> bytes_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) return std::nullopt;
  std::string bytes{std::istreambuf_iterator<char>(file), {}};
  return file.bad() ? std::nullopt : std::optional(std::move(bytes));
}

Problem in_the_way(const fs::path& path, std::string wrong) {
  return {path.string(), std::move(wrong), "name another folder with -o, or move what is there"};
}

/// RETURNS why the folder may not be replaced, or nothing when it is empty or an untouched packet.
std::optional<Problem> why_not_replace(const fs::path& folder) {
  if (!fs::is_directory(folder)) return in_the_way(folder, "this is there already and is not a folder");
  if (fs::is_empty(folder)) return std::nullopt;
  const std::optional<std::string> marker = bytes_of(folder / kMarker);
  const json known = marker ? json::parse(*marker, nullptr, false) : json();
  if (!known.is_object() || !known.contains("files") || !known["files"].is_object()) {
    return in_the_way(folder, "this folder holds something other than a packet");
  }
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.is_directory() && !entry.is_symlink()) continue;
    const std::string name = entry.path().lexically_relative(folder).generic_string();
    if (name == kMarker) continue;
    const auto listed = known["files"].find(name);
    if (listed == known["files"].end()) return in_the_way(entry.path(), "this file is not from the earlier packet");
    const std::optional<std::string> bytes = bytes_of(entry.path());
    if (!bytes || *listed != json(checksum(*bytes))) {
      return in_the_way(entry.path(), "this file was changed since the earlier packet was written");
    }
  }
  return std::nullopt;
}

fs::path beside(const fs::path& folder, const char* what) {
  return folder.parent_path() / fmt::format(".{}.{}-{}", folder.filename().string(), what, getpid());
}

/// A new folder that is gone again when this object is, unless it was renamed by then.
class Scratch {
 public:
  explicit Scratch(fs::path path) : path_(std::move(path)) {
    if (!fs::create_directory(path_)) {
      throw fs::filesystem_error("", path_, std::make_error_code(std::errc::file_exists));
    }
  }
  ~Scratch() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  [[nodiscard]] const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

Problem problem_of(const fs::filesystem_error& error) {
  return {error.path1().string(), error.code().message(), "check who may write there and how much room is left"};
}

void write_file(const fs::path& path, const std::string& bytes) {
  fs::create_directories(path.parent_path());
  std::ofstream file(path, std::ios::binary);
  file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  file.close();
  if (!file) throw fs::filesystem_error("", path, std::make_error_code(std::errc::io_error));
}

}  // namespace

Result<Packet> make_packet(const Plan& plan, Paper paper) {
  const std::vector<Sheet> sheets = draw_sheets(plan, paper), calculation = draw_calculation_sheets(plan, paper);
  Packet packet = packet_files(plan, sheets, calculation);
  const std::pair<const char*, const std::vector<Sheet>&> sets[] = {{"plan.pdf", sheets},
                                                                    {"calculation.pdf", calculation}};
  for (const auto& [name, set] : sets) {
    auto pdf = to_pdf(set, {.title = plan.job.about.name, .date = plan.job.about.date});
    if (!pdf) {
      return std::unexpected(Problems{{name, pdf.error(), "run script/setup: it installs the font"}});
    }
    packet[name] = std::move(*pdf);
  }
  packet[kMarker] = marker_text(packet);
  return packet;
}

std::optional<Problem> write_packet(const fs::path& folder, const Packet& packet) {
  try {
    // "out/" and links: the folder itself is what is replaced.
    fs::path target = fs::weakly_canonical(fs::absolute(folder));
    if (!target.has_filename()) target = target.parent_path();
    const bool replaces = fs::exists(target);
    if (replaces) {
      if (auto problem = why_not_replace(target)) return problem;
    }
    fs::create_directories(target.parent_path());
    const Scratch fresh(beside(target, "new"));
    for (const auto& [name, bytes] : packet) write_file(fresh.path() / name, bytes);
    const fs::path old = beside(target, "old");
    if (replaces) fs::rename(target, old);
    try {
      fs::rename(fresh.path(), target);
    } catch (const fs::filesystem_error&) {
      if (replaces) fs::rename(old, target);
      throw;
    }
    if (replaces) fs::remove_all(old);
    return std::nullopt;
  } catch (const fs::filesystem_error& error) {
    return problem_of(error);
  }
}

std::optional<Problem> write_whole(const fs::path& path, const std::string& bytes) {
  const fs::path fresh = beside(fs::absolute(path), "new");
  try {
    write_file(fresh, bytes);
    fs::rename(fresh, path);
    return std::nullopt;
  } catch (const fs::filesystem_error& error) {
    std::error_code ignored;
    fs::remove(fresh, ignored);
    return problem_of(error);
  }
}

}  // namespace pitchboard
