#include "engine/choose/memory.hpp"

#include <algorithm>

namespace pitchboard {

std::size_t Memory::KeyHash::operator()(const Key& key) const {
  std::uint64_t hash = 0;
  for (const std::uint16_t value : key) hash = (hash ^ value) * 0x100000001b3u + (hash >> 29);
  return static_cast<std::size_t>(hash);
}

void Memory::remember(const Key& key, const Evaluation& evaluation) {
  for (const Worst& worst : evaluation.worst) {
    auto at = std::ranges::find(seen_, worst.of, &Seen::of);
    if (at == seen_.end()) at = seen_.insert(at, {worst.of, {}});
    Remembered& now = at->found[about(key, worst.of)];
    now.ratio = std::max(now.ratio, worst.ratio);
    if (worst.fault) now.fault = evaluation.faults[*worst.fault].kind;
  }
}

void Memory::visit(const Key& key, const auto& take) const {
  for (const Seen& seen : seen_) {
    if (const auto at = seen.found.find(about(key, seen.of)); at != seen.found.end()) take(at->second);
  }
}

Memory::Known Memory::of(const Key& key) const {
  Known out;
  visit(key, [&](const Remembered& found) {
    out.ratio = std::max(out.ratio, found.ratio);
    if (!found.fault.empty()) out.fault = &found.fault;
  });
  return out;
}

std::set<std::string> Memory::kinds_of(const Key& key) const {
  std::set<std::string> out;
  visit(key, [&](const Remembered& found) {
    if (!found.fault.empty()) out.insert(found.fault);
  });
  return out;
}

}  // namespace pitchboard
