// Every cut that is not square to its board, read off the outlines. A saw's scale counts from square: a cut along (a,
// b) in board axes stands atan(|a| / |b|) from square.

#include <algorithm>
#include <cmath>

#include "engine/cut/mark_out.hpp"

namespace pitchboard {
namespace {

// Branches go by whole hundredths of a degree, so that the last bit of an arc tangent decides nothing.
int hundredths(Angle angle) { return static_cast<int>(std::lround(in_degrees(angle) * 100.0)); }
constexpr int kSquare = 10, kAlong = 8990;

/// A setting with what tells it from others.
struct Row {
  SawSetting setting;
  PartKind kind;
  std::string section;
};

std::string_view end_words(const Part& part, bool at_far_end) {
  if (part.solid.normal != Axis::z && std::abs(part.grain_b) > 0.01) {
    return at_far_end == (part.grain_b > 0) ? "upper end" : "lower end";
  }
  if (part.solid.normal == Axis::y) return at_far_end == (part.grain_a > 0) ? "far end" : "house end";
  const bool along_y = part.solid.normal == Axis::x ? part.grain_a != 0 : part.grain_b != 0;
  const double way = part.solid.normal == Axis::x ? part.grain_a : part.grain_b;
  if (!along_y) return at_far_end == (part.grain_a > 0) ? "far end" : "house end";
  return at_far_end == (way > 0) ? "right end" : "left end";
}

std::string degrees_words(int hundredths_of_degree) {
  const int tenths = (hundredths_of_degree + 5) / 10;
  return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + "°";
}

SawSetting setting_of(const Part& part, std::string cut, Angle from_square, double limit_degrees) {
  SawSetting setting{.mark = part.mark, .cut = std::move(cut), .from_square = from_square};
  const int from = hundredths(from_square);
  if (part.kind == PartKind::stringer) {
    setting.how = "Circular saw along the line, blade square to the face; finish the corners by hand.";
    return setting;
  }
  const bool bevel = extent_b(board_outline(part)).size() < part.section.width - kTouch && !part.across_outline &&
                     abs(extent_b(board_outline(part)).size() - part.section.thickness) < kTouch;
  setting.beyond_saw = from > static_cast<int>(std::lround(limit_degrees * 100.0));
  if (setting.beyond_saw) {
    setting.how = "Clamp a square block to the fence, hold the piece along the block and set " +
                  degrees_words(9000 - from) + "; or mark the line and saw by hand.";
  } else if (bevel) {
    setting.how = "Across the thickness: stand the board on its edge against the fence, or tilt the blade.";
  }
  return setting;
}

void add(std::vector<Row>& rows, const Part& part, SawSetting setting) {
  const auto row = std::ranges::find_if(rows, [&](const Row& r) {
    return r.kind == part.kind && r.section == part.section.nominal && r.setting.cut == setting.cut &&
           r.setting.how == setting.how && hundredths(r.setting.from_square) == hundredths(setting.from_square);
  });
  if (row == rows.end()) {
    rows.push_back({std::move(setting), part.kind, part.section.nominal});
  } else {
    ++row->setting.count;
  }
}

}  // namespace

std::vector<SawSetting> saw_settings(const Job& job, const Frame& frame) {
  std::vector<Row> rows;
  for (const Part& part : frame.parts) {
    if (!is_cut_from_board(part.kind) || part.across_outline) continue;
    if (part.kind == PartKind::stringer && job.stringers.kind == StringerKind::ready_cut) continue;
    const Polygon board = board_outline(part);
    const Length middle = extent_a(board).size() / 2.0;
    for (std::size_t i = 0; i < board.size(); ++i) {
      const std::size_t next = (i + 1) % board.size();
      const Point run = board[next] - board[i];
      const Angle from_square = Angle::from_raw(std::atan2(std::abs(run.a.raw()), std::abs(run.b.raw())));
      if (distance(board[i], board[next]) < kTouch || hundredths(from_square) < kSquare ||
          hundredths(from_square) > kAlong)
        continue;
      const Point world = part.solid.outline[next] - part.solid.outline[i];
      const bool upright = part.solid.normal != Axis::z;
      const std::string_view way = upright && abs(world.a) < kTouch   ? "plumb cut"
                                   : upright && abs(world.b) < kTouch ? "level cut"
                                                                      : "";
      std::string cut;
      if (part.kind == PartKind::stringer) {
        cut = way == "plumb cut"   ? "head and riser cuts, plumb"
              : way == "level cut" ? "foot and tread cuts, level"
                                   : "foot, to the landing's fall";
      } else {
        cut = std::string(end_words(part, (board[i].a + board[next].a) / 2.0 > middle));
        if (!way.empty()) cut += ", " + std::string(way);
      }
      add(rows, part, setting_of(part, std::move(cut), from_square, job.saw.mitre_limit_degrees));
    }
  }
  std::vector<SawSetting> settings;
  for (Row& row : rows) settings.push_back(std::move(row.setting));
  return settings;
}

}  // namespace pitchboard
