#include "engine/base/text_table.hpp"

#include <algorithm>

#include "engine/base/decimal.hpp"

namespace pitchboard {
namespace {

constexpr std::size_t kColumnGap = 2;

/// Characters that a terminal shows: all bytes but the continuation bytes of UTF-8.
std::size_t shown_width(const std::string& text) {
  return static_cast<std::size_t>(
      std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string csv_cell(std::string cell) {
  const bool formula = !cell.empty() && std::string_view("=+-@\t\r").find(cell.front()) != std::string_view::npos;
  if (formula && !decimal_in(cell)) cell.insert(0, 1, '\'');
  if (cell.find_first_of(",\"\n\r") == std::string::npos) return cell;
  std::string quoted = "\"";
  for (const char c : cell) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::vector<std::string> heads(const TextTable& table) {
  std::vector<std::string> out;
  for (const TextColumn& column : table.columns) out.push_back(column.head);
  return out;
}

}  // namespace

std::string lined_up(const TextTable& table, int indent,
                     const std::function<std::string(std::size_t, const std::string&)>& dress) {
  std::vector<std::size_t> widths;
  for (const TextColumn& column : table.columns) widths.push_back(shown_width(column.head));
  for (const auto& row : table.rows)
    for (std::size_t c = 0; c < widths.size(); ++c) widths[c] = std::max(widths[c], shown_width(row[c]));

  std::string out;
  const auto write = [&](const std::vector<std::string>& row, bool dressed) {
    std::string line(static_cast<std::size_t>(indent), ' ');
    for (std::size_t c = 0; c < widths.size(); ++c) {
      const std::string pad(widths[c] - shown_width(row[c]), ' ');
      const std::string cell = dressed && dress ? dress(c, row[c]) : row[c];
      line += table.columns[c].figures ? pad + cell : cell + pad;
      line.append(kColumnGap, ' ');
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out += line + '\n';
  };
  write(heads(table), false);
  for (const auto& row : table.rows) write(row, true);
  return out;
}

std::string csv(const TextTable& table) {
  std::string out;
  const auto write = [&out](const std::vector<std::string>& row) {
    for (std::size_t c = 0; c < row.size(); ++c) out += (c == 0 ? "" : ",") + csv_cell(row[c]);
    out += '\n';
  };
  write(heads(table));
  for (const auto& row : table.rows) write(row);
  return out;
}

}  // namespace pitchboard
