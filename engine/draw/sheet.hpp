#pragma once
// Sheets: lines, areas, text and dimensions on paper, before they become SVG or PDF.
//
// UNITS  Places on a sheet are in points (1/72 in) from the paper's upper left corner, x right, y down.

#include <string>
#include <vector>

namespace pitchboard {

enum class Pen { thin, medium, thick };  ///< 0.18, 0.35, 0.7 mm
enum class Hatch { none, wood_end, earth, gravel, concrete, sand, solid_paper };
enum class Anchor { start, middle, end };
struct SheetPoint {
  double x = 0, y = 0;
};
struct SheetPath {
  std::vector<SheetPoint> points;
  Pen pen = Pen::thin;
  bool closed = false, dashed = false, hidden_line = false;
  Hatch hatch = Hatch::none;
  bool stroked = true;  ///< false: only hatch and tint
  std::string tint;     ///< "#B36B3C" or empty; never the only carrier of meaning
  std::string part;     ///< mark of the part that it shows, for screens; empty: none
  int step = 0;         ///< tread or riser number of that part, 1 lowest; 0: none
};
struct SheetText {
  SheetPoint at;
  std::string text;
  double size = 8;  ///< points
  Anchor anchor = Anchor::start;
  bool upwards = false;  ///< turned a quarter anticlockwise: read from the right
  bool bold = false, mono = false;
  std::string input;  ///< key of the job's input that it shows, for screens: "ground.middle[1].down"; empty: none
};
struct Sheet {
  std::string title;
  std::string name;                  ///< file stem: "elevation"
  double width = 612, height = 792;  ///< points
  std::vector<SheetPath> paths;
  std::vector<SheetText> texts;
};

enum class Paper { letter, a4 };

/// RETURNS the sheet as a stand-alone SVG document.
[[nodiscard]] std::string to_svg(const Sheet& sheet);

}  // namespace pitchboard
