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

constexpr const char* kSameLean = "Both cuts lean the same way: slide the piece along, do not turn it over.";

/// One edge of a board's outline that is neither square to its length nor along it.
struct AngledCut {
  Angle from_square;
  bool far_end = false;   // beyond the middle of the board
  bool leans_up = false;  // the cut runs forward as it climbs
  std::string_view way;   // "plumb cut", "level cut" or nothing, as the stair stands
};

std::vector<AngledCut> angled_cuts(const Part& part) {
  std::vector<AngledCut> cuts;
  const Polygon board = board_outline(part);
  const Length middle = extent_a(board).size() / 2.0;
  for (std::size_t i = 0; i < board.size(); ++i) {
    const std::size_t next = (i + 1) % board.size();
    const Point run = board[next] - board[i];
    const Angle from_square = Angle::from_raw(std::atan2(std::abs(run.a.raw()), std::abs(run.b.raw())));
    if (distance(board[i], board[next]) < kTouch) continue;
    if (hundredths(from_square) < kSquare || hundredths(from_square) > kAlong) continue;
    const Point world = part.solid.outline[next] - part.solid.outline[i];
    const bool upright = part.solid.normal != Axis::z;
    cuts.push_back({from_square, (board[i].a + board[next].a) / 2.0 > middle, (run.a > Length()) == (run.b > Length()),
                    upright && abs(world.a) < kTouch   ? "plumb cut"
                    : upright && abs(world.b) < kTouch ? "level cut"
                                                       : ""});
  }
  return cuts;
}

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

std::string words_of(const Part& part, const AngledCut& cut, bool both_ends) {
  if (part.kind == PartKind::stringer) {
    if (cut.way == "plumb cut") return "head and riser cuts, plumb";
    return cut.way == "level cut" ? "foot and tread cuts, level" : "foot, to the landing's fall";
  }
  std::string words(both_ends ? "both ends" : end_words(part, cut.far_end));
  if (!cut.way.empty()) words += ", " + std::string(cut.way);
  return words;
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

/// A board whose outline is its end grain: an edge of it that is not square is ripped along the board, blade tilted.
std::vector<SawSetting> bevels(const Part& part, double limit_degrees) {
  std::vector<SawSetting> out;
  const Polygon& end = part.solid.outline;
  const Point middle{extent_a(end).middle(), extent_b(end).middle()};
  for (std::size_t i = 0; i < end.size(); ++i) {
    const Point p = end[i], q = end[(i + 1) % end.size()], run = q - p;
    const Angle tilt = Angle::from_raw(std::atan2(std::abs(run.b.raw()), std::abs(run.a.raw())));
    if (distance(p, q) < kTouch || hundredths(tilt) < kSquare || hundredths(tilt) > kAlong) continue;
    const bool upper = (p.b + q.b) / 2.0 > middle.b;
    SawSetting setting{.mark = part.mark,
                       .cut = std::string(upper ? "upper" : "lower") + " edge, ripped along the board",
                       .from_square = tilt};
    setting.beyond_saw = hundredths(tilt) > static_cast<int>(std::lround(limit_degrees * 100.0));
    setting.how = setting.beyond_saw ? "Tilt the blade as far as it goes and plane the rest to the line."
                                     : "Tilt the blade; the side that faces the house keeps the board's whole width.";
    out.push_back(std::move(setting));
  }
  return out;
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
    if (!is_cut_from_board(part.kind)) continue;
    if (part.across_outline) {
      for (SawSetting& setting : bevels(part, job.saw.mitre_limit_degrees)) add(rows, part, std::move(setting));
      continue;
    }
    if (part.kind == PartKind::stringer && job.stringers.kind == StringerKind::ready_cut) continue;
    const std::vector<AngledCut> cuts = angled_cuts(part);
    const bool alike = part.kind != PartKind::stringer && cuts.size() == 2 && cuts[0].far_end != cuts[1].far_end &&
                       cuts[0].way == cuts[1].way && hundredths(cuts[0].from_square) == hundredths(cuts[1].from_square);
    for (const AngledCut& cut : cuts) {
      SawSetting setting = setting_of(part, words_of(part, cut, alike), cut.from_square, job.saw.mitre_limit_degrees);
      if (alike && cuts[0].leans_up == cuts[1].leans_up) {
        setting.how += setting.how.empty() ? kSameLean : " " + std::string(kSameLean);
      }
      add(rows, part, std::move(setting));
    }
  }
  std::vector<SawSetting> settings;
  for (Row& row : rows) settings.push_back(std::move(row.setting));
  return settings;
}

}  // namespace pitchboard
