#include "engine/choose/labour.hpp"

#include <algorithm>
#include <cmath>

#include "data/choosing.hpp"

namespace pitchboard {
namespace {

/// RETURNS the row that counts a part of that kind; empty for parts that are no work of their own.
std::string_view work_of(const Part& part, StringerKind stringers) {
  switch (part.kind) {
    case PartKind::stringer:
      return stringers == StringerKind::ready_cut ? "stringer ready-cut"
             : stringers == StringerKind::solid   ? "stringer solid"
                                                  : "stringer cut";
    case PartKind::hanger_board:
      return "hanger board";
    case PartKind::block:
      return "block";
    case PartKind::riser:
      return "riser";
    case PartKind::tread:
      return "tread";
    case PartKind::kicker:
      return "kicker";
    case PartKind::post:
      return "post";
    case PartKind::top_rail:
    case PartKind::bottom_rail:
      return "rail";
    case PartKind::cap:
      return "cap";
    case PartKind::handrail:
      return "handrail";
    case PartKind::baluster:
      return "baluster";
    case PartKind::support_beam:
      return "support beam";
    case PartKind::support_post:
      return "support post";
    case PartKind::footing:
      return "footing";
    case PartKind::connector:
      return part.section.nominal.starts_with("hold-down") ? "hold-down" : "";
    case PartKind::pad_layer:
    case PartKind::existing:
      break;
  }
  return "";
}

}  // namespace

double choosing_figure(std::string_view key) {
  return std::ranges::find(kChoosingFigures, key, &ChoosingFigure::key)->value;
}

double frame_minutes(const Flight& flight, const Frame& frame) {
  double minutes = choosing_figure("set-up") + choosing_figure("hang") + choosing_figure("finish");
  // The first stringer is the pattern of the others.
  if (flight.kind == StringerKind::cut) minutes += choosing_figure("first stringer") - choosing_figure("stringer cut");
  for (const Part& part : frame.parts) {
    if (const std::string_view work = work_of(part, flight.kind); !work.empty()) minutes += choosing_figure(work);
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
