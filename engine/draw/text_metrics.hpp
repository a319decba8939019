#pragma once
// How much room text takes, from the font's own widths, so that a sheet is laid out without opening a font file.
//
// UNITS  points. SOURCE  B612, see data/font_widths.toml; the renderers draw without kerning so that the widths hold.

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "engine/draw/sheet.hpp"

namespace pitchboard {

struct GlyphRow {
  int code = 0;               ///< Unicode
  int regular = 0, bold = 0;  ///< thousandths of the text size
  std::string_view source;
};

/// Height of capitals and figures, and depth of tails, over the text size. SOURCE B612: OS/2 sCapHeight; hhea descent.
constexpr double kCapHeight = 0.75;
constexpr double kTailDepth = 0.25;

[[nodiscard]] double text_width(std::string_view text, double size, bool bold = false, bool mono = false);
[[nodiscard]] double text_width(const SheetText& text);
/// RETURNS the corners of the box that the text covers, capitals to tails, turned as the text is.
[[nodiscard]] std::array<SheetPoint, 4> text_box(const SheetText& text);
/// RETURNS true when two convex boxes share more than a touch.
[[nodiscard]] bool boxes_overlap(const std::array<SheetPoint, 4>& p, const std::array<SheetPoint, 4>& q);
/// RETURNS the text broken at spaces into lines no wider than `width`; a word wider than that is broken inside.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view text, double width, double size, bool bold = false,
                                               bool mono = false);

}  // namespace pitchboard
