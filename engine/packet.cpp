#include "engine/packet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "engine/base/text_table.hpp"
#include "engine/checks_text.hpp"
#include "engine/draw/sheet_words.hpp"
#include "engine/draw/sheets.hpp"
#include "engine/job/read_job.hpp"

namespace pitchboard {
namespace {

/// Exact length, where tape text is too coarse.
std::string decimal(Length length, UnitSystem units) {
  return units == UnitSystem::metric ? fmt::format("{:.2f}", in_millimetres(length))
                                     : fmt::format("{:.3f}", in_inches(length));
}

std::string unit_of(UnitSystem units) { return units == UnitSystem::metric ? "mm" : "in"; }

TextTable order_table(const Order& order) {
  TextTable table{{{"group"},
                   {"item"},
                   {"for"},
                   {"needed"},
                   {"buy"},
                   {"package"},
                   {"each, " + order.currency},
                   {"price, " + order.currency},
                   {"weight, lb"},
                   {"note"},
                   {"key"}},
                  {}};
  for (const OrderLine& line : order.lines) {
    table.rows.push_back({line.group, line.item, line.use, std::to_string(line.needed), std::to_string(line.quantity),
                          line.package, money_text(line.unit_price), money_text(line.price),
                          fmt::format("{:.1f}", in_pounds(line.weight)), line.note, line.key});
  }
  return table;
}

TextTable cut_list_table(const Plan& plan) {
  const UnitSystem units = plan.job.about.units;
  TextTable table{{{"board"},
                   {"section"},
                   {"board length"},
                   {"offcut"},
                   {"piece"},
                   {"length"},
                   {"rip to"},
                   {"besides"},
                   {"from, " + unit_of(units)},
                   {"to, " + unit_of(units)}},
                  {}};
  int number = 0;
  for (const Board& board : plan.cuts.boards) {
    ++number;
    for (const PlacedPiece& piece : board.pieces) {
      const auto part = std::ranges::find(plan.frame.parts, piece.mark, &Part::mark);
      const bool known = part != plan.frame.parts.end();
      const std::optional<Length> rip = known ? ripped_to(*part) : std::nullopt;
      table.rows.push_back({std::to_string(number), board.section, tape_feet(board.length, units),
                            board.offcut ? "yes" : "no", piece.mark, tape(piece.to - piece.from, units),
                            rip ? tape(*rip, units) : "", known ? notch_words(*part, units) : "",
                            decimal(piece.from, units), decimal(piece.to, units)});
    }
  }
  return table;
}

TextTable holes_table(const Plan& plan) {
  const UnitSystem units = plan.job.about.units;
  TextTable table{{{"part"},
                   {"hole for"},
                   {"fastener"},
                   {"face"},
                   {"kind"},
                   {"drill"},
                   {"along"},
                   {"across"},
                   {"depth"},
                   {"along and across from"},
                   {"along, " + unit_of(units)},
                   {"across, " + unit_of(units)}},
                  {}};
  for (const HoleRow& hole : plan.marks.holes) {
    table.rows.push_back({hole.part, hole.mark, hole.fastener, hole.face,
                          hole.kind == HoleKind::clearance ? "clearance" : "pilot", drill_words(hole.diameter, units),
                          tape(hole.along, units), tape(hole.across, units), tape(hole.depth, units), hole.from,
                          decimal(hole.along, units), decimal(hole.across, units)});
  }
  return table;
}

}  // namespace

Packet packet_files(const Plan& plan, const std::vector<Sheet>& sheets, const std::vector<Sheet>& calculation) {
  Packet packet;
  const auto add = [&](const std::vector<Sheet>& set, const char* folder) {
    for (std::size_t i = 0; i < set.size(); ++i)
      packet[fmt::format("{}/{:02}-{}.svg", folder, i + 1, set[i].name)] = to_svg(set[i]);
  };
  add(sheets, "sheets");
  add(calculation, "calculation");
  packet["model.glb"] = plan_glb(plan);
  packet["plan.json"] = plan_json(plan);
  packet["job.json"] = job_json(plan.job);
  packet["order.csv"] = csv(order_table(plan.order));
  packet["cut-list.csv"] = csv(cut_list_table(plan));
  packet["holes.csv"] = csv(holes_table(plan));
  packet["checks.txt"] = checks_text(plan);
  return packet;
}

}  // namespace pitchboard
