#pragma once
// The text of a table of truth in tests/tables, empty where there is none. By C streams, because the tables are read in
// WebAssembly as well, whose C++ library has no file streams.

#include <cstdio>
#include <sstream>
#include <string>

inline std::istringstream table_text(const std::string& name) {
  std::string text;
  if (std::FILE* file = std::fopen((std::string(SOURCE_DIR "/tests/tables/") + name).c_str(), "r")) {
    for (int c = std::fgetc(file); c != EOF; c = std::fgetc(file)) text += static_cast<char>(c);
    std::fclose(file);
  }
  return std::istringstream(text);
}
