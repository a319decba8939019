#include "engine/choose/memory.hpp"

#include <algorithm>
#include <array>
#include <cstring>

namespace pitchboard {
namespace {

constexpr Key kAll = [] {
  Key out{};
  out.fill(0xffff);
  return out;
}();

}  // namespace

std::size_t Memory::KeyHash::operator()(const Key& key) const {
  std::array<std::uint64_t, kMatters / 4> words;
  static_assert(sizeof words == sizeof key);
  std::memcpy(words.data(), key.data(), sizeof words);
  std::uint64_t hash = 0;
  for (const std::uint64_t word : words) {
    hash = (hash ^ word) * 0x9e3779b97f4a7c15u;
    hash ^= hash >> 29;
  }
  return static_cast<std::size_t>(hash);
}

void Memory::remember(const Key& key, const Evaluation& evaluation) {
  for (const Worst& worst : evaluation.worst) {
    auto at = std::ranges::find(seen_, worst.of, &Seen::of);
    if (at == seen_.end()) at = seen_.insert(at, {.of = worst.of, .mask = about(kAll, worst.of), .found = {}});
    Remembered& now = at->found[about(key, worst.of)];
    now.ratio = std::max(now.ratio, worst.ratio);
    at->most = std::max(at->most, worst.ratio);
    if (!worst.fault) continue;
    now.fault = evaluation.faults[*worst.fault].kind;
    at->faults = true;
  }
}

const Memory::Remembered* Memory::Seen::look_up(const Key& key) const {
  Key masked = key;
  for (std::size_t i = 0; i < kMatters; ++i) masked[i] &= mask[i];
  const auto at = found.find(masked);
  return at == found.end() ? nullptr : &at->second;
}

Memory::Known Memory::of(const Key& key, Matters whatever) const {
  Known out;
  for (const Seen& seen : seen_) {
    if ((seen.of & whatever) != 0 || !(seen.faults || seen.most > out.ratio)) continue;
    const Remembered* found = seen.look_up(key);
    if (!found) continue;
    if (!found->fault.empty()) return {.fault = &found->fault};
    out.ratio = std::max(out.ratio, found->ratio);
  }
  return out;
}

bool Memory::has(const Key& key, Matters of) const {
  const auto at = std::ranges::find(seen_, of, &Seen::of);
  return at != seen_.end() && at->look_up(key) != nullptr;
}

std::set<std::string> Memory::kinds_of(const Key& key) const {
  std::set<std::string> out;
  for (const Seen& seen : seen_) {
    if (const Remembered* found = seen.look_up(key); found && !found->fault.empty()) out.insert(found->fault);
  }
  return out;
}

}  // namespace pitchboard
