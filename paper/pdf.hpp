#pragma once
// Sheets -> one PDF, one page a sheet, with the drawing font embedded.

#include <expected>
#include <string>
#include <vector>

#include "engine/draw/sheet.hpp"

namespace pitchboard {

struct PdfInfo {
  std::string title;
  std::string
      date;  ///< ISO date written into the file: the job's, since equal jobs give equal bytes; empty: 1970-01-01
};

/// RETURNS the bytes of the PDF. ERRORS  what Cairo or the font search says, in one sentence.
[[nodiscard]] std::expected<std::string, std::string> to_pdf(const std::vector<Sheet>& sheets, const PdfInfo& info);

}  // namespace pitchboard
