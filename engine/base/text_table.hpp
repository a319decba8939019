#pragma once
// Tables of text: for a terminal, and as comma-separated values.

#include <functional>
#include <string>
#include <vector>

namespace pitchboard {

struct TextColumn {
  std::string head;
  bool figures = false;  ///< set to the right
};
struct TextTable {
  std::vector<TextColumn> columns;
  std::vector<std::vector<std::string>> rows;
};

/// RETURNS the table with its columns lined up, every line indented by `indent`; `dress` may colour a cell after it has
/// been padded.
[[nodiscard]] std::string lined_up(
    const TextTable& table, int indent = 0,
    const std::function<std::string(std::size_t column, const std::string&)>& dress = {});
/// RETURNS the table as CSV (RFC 4180, but with LF). A cell that a spreadsheet would take for a formula gets a leading
/// apostrophe.
[[nodiscard]] std::string csv(const TextTable& table);

}  // namespace pitchboard
