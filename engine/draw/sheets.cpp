#include "engine/draw/sheets.hpp"

#include <fmt/format.h>

#include "engine/draw/parts.hpp"
#include "engine/draw/text_metrics.hpp"

namespace pitchboard {
namespace {

/// RETURNS the text, cut with an ellipsis where it is wider than the room.
std::string shortened(const std::string& text, double room, double size, bool bold) {
  if (text_width(text, size, bold) <= room) return text;
  const std::string start = wrapped(text, room - text_width("…", size, bold), size, bold).front();
  return start + "…";
}

void add_title_block(Canvas& canvas, const Job& job, std::size_t number, std::size_t count) {
  Sheet& sheet = canvas.sheet();
  const double left = kMargin, right = sheet.width - kMargin, foot = sheet.height - kMargin, head = foot - kTitleBlock;
  canvas.line({left, head}, {right, head}, Pen::medium);
  struct Cell {
    double share;
    std::string name, value;
  };
  const Cell cells[] = {
      {0.27, job.about.place.empty() ? "Job" : job.about.place, job.about.name},
      {0.22, "Sheet", sheet.title},
      {0.17, "Scale", canvas.scale()},
      {0.13, "Readings", job.about.date.empty() ? "no date" : job.about.date},
      {0.09, "Units", job.about.units == UnitSystem::metric ? "mm" : "inches"},
      {0.12, "Page", fmt::format("{} of {}", number, count)},
  };
  double x = left;
  for (const Cell& cell : cells) {
    const double room = cell.share * (right - left) - 6;
    canvas.text({.at = {x, head + 11}, .text = shortened(cell.name, room, 6.5, false), .size = 6.5});
    canvas.text({.at = {x, head + 24}, .text = shortened(cell.value, room, 8.5, true), .size = 8.5, .bold = true});
    x += cell.share * (right - left);
  }
  double y = foot - 16;
  for (const std::string& line : wrapped(kWhoDecides, right - left, 6.5)) {
    canvas.text({.at = {left, y}, .text = line, .size = 6.5});
    y += 8.5;
  }
}

std::vector<Sheet> numbered(std::vector<Canvas> set, const Job& job) {
  std::vector<Sheet> sheets;
  for (std::size_t i = 0; i < set.size(); ++i) {
    add_title_block(set[i], job, i + 1, set.size());
    sheets.push_back(std::move(set[i].sheet()));
  }
  return sheets;
}

}  // namespace

std::vector<Sheet> draw_sheets(const DrawInput& input, Paper paper) {
  std::vector<Canvas> set;
  const auto append = [&](std::vector<Canvas> more) {
    for (Canvas& canvas : more) set.push_back(std::move(canvas));
  };
  append(draw_summary(input, paper));
  set.push_back(draw_elevation(input, paper));
  set.push_back(draw_plan_view(input, paper));
  append(draw_stringers(input, paper));
  set.push_back(draw_heads(input, paper));
  append(draw_rails(input, paper));
  append(draw_boards(input, paper));
  append(draw_lists(input, paper));
  append(draw_story_pole(input, paper));
  append(draw_strength(input, paper));
  return numbered(std::move(set), input.job);
}

std::vector<Sheet> draw_calculation_sheets(const DrawInput& input, Paper paper) {
  return numbered(draw_calculation(input, paper), input.job);
}

Sheet draw_options(const Job& job, const Search& search, Paper paper) {
  return numbered({draw_front(job, search, paper)}, job).front();
}

}  // namespace pitchboard
