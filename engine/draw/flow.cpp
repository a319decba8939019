#include "engine/draw/flow.hpp"

#include <algorithm>

#include "engine/base/sort.hpp"
#include "engine/draw/text_metrics.hpp"

namespace pitchboard {
namespace {

constexpr double kCellText = 7.5, kLeading = 1.35, kColumnGap = 8, kHeadingText = 11;

double line_height(double size) { return size * kLeading; }

/// Widths of the columns: what their text needs. Where that is too much, the flexible columns share what is left
/// evenly, and one that needs less than its share leaves the rest to the others.
std::vector<double> column_widths(const Table& table, double room) {
  std::vector<double> widths;
  std::vector<std::size_t> flexible;
  double left = room - kColumnGap * static_cast<double>(table.columns.size() - 1);
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    const Column& column = table.columns[c];
    double width = std::max(column.width, text_width(column.head, kCellText, true));
    for (const auto& row : table.rows) width = std::max(width, text_width(row[c], kCellText, false, column.mono));
    widths.push_back(std::min(width + 0.5, column.flexible ? column.most : width + 0.5));
    if (column.flexible) {
      flexible.push_back(c);
    } else {
      left -= widths.back();
    }
  }
  sort_stably(flexible, {}, [&](std::size_t c) { return widths[c]; });
  for (std::size_t i = 0; i < flexible.size(); ++i) {
    const double share = left / static_cast<double>(flexible.size() - i);
    const bool last = i + 1 == flexible.size();
    widths[flexible[i]] = last ? share : std::min(widths[flexible[i]], share);
    left -= widths[flexible[i]];
  }
  return widths;
}

}  // namespace

Flow::Flow(std::string title, std::string name, Paper paper, bool landscape)
    : title_(std::move(title)), name_(std::move(name)), paper_(paper), landscape_(landscape) {
  turn();
}

void Flow::turn() {
  const std::size_t number = pages_.size() + 1;
  const std::string suffix = number == 1 ? "" : std::to_string(number);
  pages_.emplace_back(number == 1 ? title_ : title_ + ", page " + suffix, number == 1 ? name_ : name_ + "-" + suffix,
                      paper_, landscape_);
  y_ = page().body().y0;
}

void Flow::keep(double height) {
  if (room() < height) turn();
}

void Flow::gap(double height) { y_ += height; }

void Flow::line(double x, const std::string& text, double size, bool bold) {
  keep(line_height(size));
  y_ += line_height(size);
  page().text({.at = {x, y_ - kTailDepth * size - 1}, .text = text, .size = size, .bold = bold});
}

void Flow::heading(const std::string& text) {
  keep(line_height(kHeadingText) + 40);
  if (y_ > page().body().y0) y_ += 8;
  line(page().body().x0, text, kHeadingText, true);
  y_ += 3;
}

void Flow::paragraph(const std::string& text, double size, bool bold) {
  for (const std::string& part : wrapped(text, page().body().width(), size, bold))
    line(page().body().x0, part, size, bold);
}

void Flow::bullet(const std::string& text) {
  constexpr double kSize = 8.5, kIndent = 12;
  bool first = true;
  for (const std::string& part : wrapped(text, page().body().width() - kIndent, kSize)) {
    line(page().body().x0 + kIndent, part, kSize, false);
    if (first) page().circle({page().body().x0 + 4, y_ - 5}, 1.3, Pen::thin, "#20282D");
    first = false;
  }
}

void Flow::table(const Table& table) {
  if (table.rows.empty()) return;
  const double left = page().body().x0, right = page().body().x1, pad = table.close ? 1 : 3;
  const std::vector<double> widths = column_widths(table, right - left);
  const auto write_row = [&](const std::vector<std::vector<std::string>>& cells, bool bold) {
    double x = left;
    for (std::size_t c = 0; c < cells.size(); ++c) {
      const Column& column = table.columns[c];
      const double at = column.anchor == Anchor::start ? x
                        : column.anchor == Anchor::end ? x + widths[c]
                                                       : x + widths[c] / 2;
      double y = y_ + pad + kCapHeight * kCellText;
      for (const std::string& part : cells[c]) {
        if (!part.empty()) {
          page().text({.at = {at, y},
                       .text = part,
                       .size = kCellText,
                       .anchor = column.anchor,
                       .bold = bold,
                       .mono = column.mono && !bold});
        }
        y += line_height(kCellText);
      }
      x += widths[c] + kColumnGap;
    }
  };
  const auto height_of = [pad](const std::vector<std::vector<std::string>>& cells) {
    std::size_t most = 1;
    for (const auto& cell : cells) most = std::max(most, cell.size());
    return static_cast<double>(most) * line_height(kCellText) + 2 * pad - 2;
  };
  const auto broken = [&](const auto& texts, bool bold) {
    std::vector<std::vector<std::string>> cells;
    for (std::size_t c = 0; c < widths.size(); ++c) {
      cells.push_back(wrapped(texts(c), widths[c], kCellText, bold, table.columns[c].mono && !bold));
    }
    return cells;
  };
  const auto head = broken([&](std::size_t c) { return table.columns[c].head; }, true);
  const auto write_head = [&] {
    write_row(head, true);
    y_ += height_of(head);
    page().line({left, y_}, {right, y_}, Pen::medium);
    if (table.close) y_ += 2;
  };
  keep(height_of(head) + 30);
  write_head();
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    const auto cells = broken([&](std::size_t c) { return table.rows[r][c]; }, false);
    const double height = height_of(cells);
    if (room() < height) {
      turn();
      write_head();
    }
    write_row(cells, false);
    double x = left;
    for (std::size_t c = 0; c < widths.size(); ++c) {
      if (table.picture && table.rows[r][c].empty()) table.picture(page(), r, c, {x, y_, x + widths[c], y_ + height});
      x += widths[c] + kColumnGap;
    }
    y_ += height;
    if (!table.close) page().line({left, y_}, {right, y_}, Pen::thin);
  }
  y_ += 6;
}

std::vector<Canvas> Flow::take() { return std::move(pages_); }

}  // namespace pitchboard
