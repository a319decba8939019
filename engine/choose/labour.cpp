#include "engine/choose/labour.hpp"

#include <cmath>

#include "data/choosing.hpp"

namespace pitchboard {
namespace {

/// RETURNS the key of the row that counts the part, if it is work of its own.
std::string_view work_of(const Part& part, StringerKind stringers) {
  if (part.kind == PartKind::connector) return part.section.nominal.starts_with("hold-down") ? "hold-down" : "";
  if (part.kind != PartKind::stringer) return kind_words(part.kind);
  return stringers == StringerKind::ready_cut ? "stringer ready-cut"
         : stringers == StringerKind::solid   ? "stringer solid"
                                              : "stringer cut";
}

}  // namespace

double choosing_figure(std::string_view key) {
  const FigureRow* row = find_figure(kChoosingFigures, key);
  return row ? row->value : 0.0;
}

double frame_minutes(const Flight& flight, const Frame& frame) {
  double minutes = choosing_figure("set-up") + choosing_figure("hang") + choosing_figure("finish");
  // The first stringer is the pattern of the others.
  if (flight.kind == StringerKind::cut) minutes += choosing_figure("first stringer") - choosing_figure("stringer cut");
  std::string_view work;  // of the last part: neighbours are mostly alike
  double each = 0;
  for (const Part& part : frame.parts) {
    if (const std::string_view now = work_of(part, flight.kind); now != work) {
      work = now;
      each = choosing_figure(work);
    }
    minutes += each * part.pieces;
  }
  return minutes;
}

double landing_minutes(const Job& job, const Landing& landing) {
  const double area = in_inches(landing.out.size()) * in_inches(landing.across.size()) / 144.0;
  const double lift = std::abs(in_inches(landing.lift));
  if (job.pad.existing && lift == 0) return 0;
  const std::string_view surface = job.pad.make == PadMake::pavers     ? "pavers"
                                   : job.pad.make == PadMake::concrete ? "concrete"
                                                                       : "gravel";
  const double base = job.pad.existing ? 0 : choosing_figure("dig-and-base");
  return area * (base + choosing_figure(surface) + lift * choosing_figure("lift-or-dig"));
}

}  // namespace pitchboard
