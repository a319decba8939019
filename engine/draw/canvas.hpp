#pragma once
// A sheet in the making: paper, scale, shapes and labels that find their own free place.
//
// UNITS  points on paper, y down. A View carries inches of the model onto it.

#include <string>
#include <string_view>
#include <vector>

#include "engine/base/geometry.hpp"
#include "engine/base/tape.hpp"
#include "engine/draw/sheet.hpp"

namespace pitchboard {

constexpr double kMargin = 36;      ///< half an inch: every printer reaches that far
constexpr double kTitleBlock = 50;  ///< height of the strip at the foot of every sheet
constexpr double kDimensionText = 7.5, kNoteText = 8;

// Light fills from the palette; each shape keeps its outline and hatch, so nothing rests on them.
constexpr const char* kCedarTint = "#F3E4D7";
constexpr const char* kWeatheredTint = "#EEF0EC";
constexpr const char* kEarthTint = "#F1EEE7";
constexpr const char* kStoneTint = "#F0F0EE";
constexpr const char* kPaperTint = "#FFFFFF";

struct Box {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  [[nodiscard]] double width() const { return x1 - x0; }
  [[nodiscard]] double height() const { return y1 - y0; }
};

struct Scale {
  double points_per_inch = 1;
  std::string_view words;
};
/// RETURNS the largest standard scale at which that much of the model fits the room; the smallest one when none does.
[[nodiscard]] Scale scale_to_fit(Length width, Length height, double room_x, double room_y, UnitSystem units);

/// Model plane to paper: first axis to the right, second axis up.
class View {
 public:
  View(Scale scale, Point model, SheetPoint paper) : scale_(scale), model_(model), paper_(paper) {}
  [[nodiscard]] SheetPoint at(Point p) const { return {x(p.a), y(p.b)}; }
  [[nodiscard]] double x(Length a) const { return paper_.x + (a - model_.a).raw() * scale_.points_per_inch; }
  [[nodiscard]] double y(Length b) const { return paper_.y - (b - model_.b).raw() * scale_.points_per_inch; }
  [[nodiscard]] double size(Length length) const { return length.raw() * scale_.points_per_inch; }
  [[nodiscard]] std::vector<SheetPoint> track(const Polygon& polygon) const;
  [[nodiscard]] std::string_view words() const { return scale_.words; }

 private:
  Scale scale_;
  Point model_;
  SheetPoint paper_;
};

/// Where a label is looked for first.
enum class Toward { right, left, up };

class Canvas {
 public:
  Canvas(std::string title, std::string name, Paper paper, bool landscape);
  /// A screen of that many points: all of it is body.
  Canvas(std::string title, std::string name, double width, double height);

  /// The room inside the margins, over the title block.
  [[nodiscard]] const Box& body() const { return body_; }
  [[nodiscard]] const Sheet& sheet() const { return sheet_; }
  [[nodiscard]] Sheet& sheet() { return sheet_; }
  void set_scale(std::string_view words) { scale_ = words; }
  [[nodiscard]] const std::string& scale() const { return scale_; }

  void add(SheetPath path) { sheet_.paths.push_back(std::move(path)); }
  void line(SheetPoint from, SheetPoint to, Pen pen = Pen::thin);
  void circle(SheetPoint middle, double radius, Pen pen = Pen::thin, const char* tint = "");
  void cross(SheetPoint middle, double reach);
  void arrow(SheetPoint from, SheetPoint to, Pen pen = Pen::thin);
  /// Writes where it is told.
  void text(SheetText text) { sheet_.texts.push_back(std::move(text)); }
  /// True when the text would lie inside the body and on no other text.
  [[nodiscard]] bool is_free(const SheetText& text) const;
  /// The same, on a scrap of paper that keeps lines and hatches off the words.
  void text_on_paper(SheetText text);
  /// Writes beside `target`, on its right unless told otherwise, close to it where no text and no line is in the way,
  /// else further off with a leader that crosses no other leader.
  void label(SheetPoint target, const std::string& words, double size = kNoteText, bool mono = false,
             Toward toward = Toward::right);
  /// True when no stroke runs through the text's box.
  [[nodiscard]] bool is_off_lines(const SheetText& text) const;
  /// Writes lines of text from the upper left corner down, broken to the width. RETURNS the y under the last line.
  double note(SheetPoint corner, double width, const std::vector<std::string>& lines, double size = kNoteText);
  [[nodiscard]] static double note_height(double width, const std::vector<std::string>& lines, double size = kNoteText);

 private:
  struct Leader {
    SheetPoint from, to;
  };
  Sheet sheet_;
  Box body_;
  std::string scale_ = "–";
  std::vector<Leader> leaders_;
};

/// RETURNS the places moved apart as little as possible so that neighbours are `gap` apart and all lie within
/// low..high, as far as there is room. REQUIRES sorted places.
[[nodiscard]] std::vector<double> spread(const std::vector<double>& places, double gap, double low, double high);

}  // namespace pitchboard
