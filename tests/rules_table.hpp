#pragma once
// Reads a table of truth from tests/tables: the first line names the columns, no cell holds a comma, every row has a
// source.

#include <gtest/gtest.h>

#include <cstdlib>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "tests/table_text.hpp"

using TableRow = std::map<std::string, std::string>;

inline std::vector<TableRow> table(const std::string& name) {
  std::istringstream file = table_text(name);
  std::vector<std::string> columns;
  std::vector<TableRow> rows;
  std::string line, cell;
  while (std::getline(file, line)) {
    std::vector<std::string> cells;
    std::istringstream in(line);
    while (std::getline(in, cell, ',')) cells.push_back(cell);
    if (columns.empty()) {
      columns = cells;
      continue;
    }
    EXPECT_EQ(cells.size(), columns.size()) << line;
    TableRow row;
    for (std::size_t i = 0; i < columns.size() && i < cells.size(); ++i) row[columns[i]] = cells[i];
    EXPECT_FALSE(row["source"].empty()) << line;
    rows.push_back(row);
  }
  EXPECT_FALSE(rows.empty()) << name;
  return rows;
}

inline double number(const TableRow& row, const std::string& column) {
  return std::strtod(row.at(column).c_str(), nullptr);
}
