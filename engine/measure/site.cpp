#include "engine/measure/site.hpp"

#include <algorithm>
#include <iterator>
#include <string_view>

#include "data/methods.hpp"
#include "engine/base/sort.hpp"
#include "engine/measure/methods.hpp"

namespace pitchboard {
namespace {

Length across_of(Line line, Length width) {
  return line == Line::left ? Length() : line == Line::right ? width : width / 2.0;
}

/// Height of the ground on one line: straight between readings, at the last slope beyond them.
Level level_on(const GroundLine& line, Length out) {
  const std::vector<Reading>& r = line.readings;
  const bool beyond = out < r.front().out || out > r.back().out;
  if (r.size() == 1) return {-r[0].down, Length(), beyond};
  std::size_t i = 0;
  while (i + 2 < r.size() && out > r[i + 1].out) ++i;
  const double share = (out - r[i].out) / (r[i + 1].out - r[i].out);
  return {-(r[i].down + (r[i + 1].down - r[i].down) * share), Length(), beyond};
}

/// A reading further than this from where its neighbours put the ground is worth a second look. SOURCE own judgement.
constexpr Length kOddReading = inches(6.0);

std::string_view line_words(Line line) {
  return line == Line::left ? "left" : line == Line::right ? "right" : "middle";
}

}  // namespace

const MethodRow& method_row(Method method) {
  static_assert(std::size(kMethods) == 4, "one row for each Method");
  return kMethods[static_cast<std::size_t>(method)];
}

Site::Site(const Job& job) : width_(job.stair.width), method_(job.ground.method), tolerance_(job.ground.tolerance) {
  for (const ReadingLine& line : job.ground.lines) {
    if (line.readings.empty()) continue;
    GroundLine& added = lines_.emplace_back(line.line, across_of(line.line, width_), line.readings);
    sort_stably(added.readings, {}, &Reading::out);
    if (added.readings.size() == 1) {
      assumptions_.push_back("one reading on a line: the ground along it is taken as level");
    }
  }
  sort_stably(lines_, {}, &GroundLine::across);
  if (lines_.size() == 1) assumptions_.push_back("one line of readings: the ground is taken as level across the stair");
}

Level Site::ground(Length out, Length across) const {
  if (lines_.empty()) return {Length(), Length(), true};
  Level found;
  if (lines_.size() == 1 || across <= lines_.front().across) {
    found = level_on(lines_.front(), out);
  } else if (across >= lines_.back().across) {
    found = level_on(lines_.back(), out);
  } else {
    std::size_t i = 0;
    while (across > lines_[i + 1].across) ++i;
    const Level a = level_on(lines_[i], out), b = level_on(lines_[i + 1], out);
    const double share = (across - lines_[i].across) / (lines_[i + 1].across - lines_[i].across);
    found = {a.z + (b.z - a.z) * share, Length(), a.beyond || b.beyond};
  }
  found.uncertainty = reading_uncertainty(out);
  return found;
}

double Site::fall(Length out) const { return out > Length() ? (ground(Length()).z - ground(out).z) / out : 0.0; }

double Site::cross_fall(Length out) const { return (ground(out, Length()).z - ground(out, width_).z) / width_; }

Length Site::reading_uncertainty(Length out) const {
  if (tolerance_) return *tolerance_;
  const MethodRow& row = method_row(method_);
  return inches(row.fixed) + out * row.per_inch;
}

std::vector<std::string> Site::odd_readings(UnitSystem units) const {
  std::vector<std::string> out;
  const auto tell = [&](const GroundLine& line, const Reading& reading, Length off, const char* from) {
    out.push_back("The reading " + tape_plain(reading.down, units) + " down at " + tape_plain(reading.out, units) +
                  " out on the " + std::string(line_words(line.line)) + " line is " + tape_plain(abs(off), units) +
                  " off " + from + ": measure it again.");
  };
  for (const GroundLine& line : lines_) {
    GroundLine rest = line;
    for (std::size_t i = 0; i < line.readings.size(); ++i) {
      const Reading& reading = line.readings[i];
      if (i > 0 && i + 1 < line.readings.size()) {
        rest.readings = {line.readings[i - 1], line.readings[i + 1]};
        const Length off = -reading.down - level_on(rest, reading.out).z;
        if (abs(off) > kOddReading) {
          tell(line, reading, off, "the line through its neighbours");
          continue;
        }
      }
      // Against the other lines' mean at the same place, where they reach it.
      Length sum;
      int others = 0;
      for (const GroundLine& other : lines_) {
        if (&other == &line) continue;
        const Level level = level_on(other, reading.out);
        if (level.beyond) continue;
        sum += level.z;
        ++others;
      }
      if (others < 2) continue;
      const Length off = -reading.down - sum / others;
      if (abs(off) > kOddReading) tell(line, reading, off, "the other lines");
    }
  }
  return out;
}

Length Site::furthest_reading() const {
  Length furthest;
  for (const GroundLine& line : lines_) furthest = std::max(furthest, line.readings.back().out);
  return furthest;
}

}  // namespace pitchboard
