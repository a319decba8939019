#pragma once
// Running text and tables that turn to a new page by themselves. Internal to drawing.

#include <functional>
#include <string>
#include <vector>

#include "engine/draw/canvas.hpp"

namespace pitchboard {

struct Column {
  std::string head;
  Anchor anchor = Anchor::start;
  bool flexible = false;  ///< takes the width that the others leave, and breaks its text
  bool mono = false;
  double width = 0;   ///< at least this wide
  double most = 1e9;  ///< flexible: no wider than this
};
struct Table {
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;
  /// Draws into a cell whose text is empty, if set: row, column, room.
  std::function<void(Canvas&, std::size_t, std::size_t, const Box&)> picture = {};
  bool close = false;  ///< rows close together and unruled, for a column of figures that is read downwards
};

class Flow {
 public:
  Flow(std::string title, std::string name, Paper paper, bool landscape = false);
  void heading(const std::string& text);
  void paragraph(const std::string& text, double size = 8.5, bool bold = false);
  void bullet(const std::string& text);
  void table(const Table& table);
  void gap(double height);
  /// Turns the page unless that much room is left.
  void keep(double height);
  /// RETURNS the pages; the second and later ones are numbered in title and name.
  [[nodiscard]] std::vector<Canvas> take();

 private:
  [[nodiscard]] Canvas& page() { return pages_.back(); }
  [[nodiscard]] double room() { return page().body().y1 - y_; }
  void turn();
  void line(double x, const std::string& text, double size, bool bold);

  std::string title_, name_;
  Paper paper_;
  bool landscape_;
  std::vector<Canvas> pages_;
  double y_ = 0;
};

}  // namespace pitchboard
