// Every board as a bar: its pieces, kerfs and trims, and what is left over.

#include <fmt/format.h>

#include <algorithm>

#include "engine/draw/dimension.hpp"
#include "engine/draw/parts.hpp"
#include "engine/draw/sheet_words.hpp"
#include "engine/draw/text_metrics.hpp"

namespace pitchboard {
namespace {

constexpr double kBarHeight = 20, kHeadHeight = 14, kLeaders = 18, kRowGap = 7;

/// Boards cut alike.
struct Alike {
  const Board* first = nullptr;
  std::vector<const Board*> boards;
};

bool cut_alike(const Board& p, const Board& q) {
  if (p.section != q.section || p.length != q.length || p.offcut != q.offcut || p.pieces.size() != q.pieces.size())
    return false;
  for (std::size_t i = 0; i < p.pieces.size(); ++i) {
    if (abs(p.pieces[i].from - q.pieces[i].from) > kTouch || abs(p.pieces[i].to - q.pieces[i].to) > kTouch)
      return false;
  }
  return true;
}

std::vector<Alike> grouped(const CutPlan& cuts) {
  std::vector<Alike> out;
  for (const Board& board : cuts.boards) {
    auto group = std::ranges::find_if(out, [&](const Alike& g) { return cut_alike(*g.first, board); });
    if (group == out.end()) group = out.insert(out.end(), {&board, {}});
    group->boards.push_back(&board);
  }
  return out;
}

/// Where each piece ends, and where the first begins.
std::vector<Length> cut_places(const Board& board) {
  std::vector<Length> out;
  if (!board.pieces.empty() && board.pieces.front().from > kTouch) out.push_back(board.pieces.front().from);
  for (const PlacedPiece& piece : board.pieces) out.push_back(piece.to);
  return out;
}

/// Room under the bar: the longest figure stands upright there.
double figure_room(const Board& board, UnitSystem units) {
  double room = 0;
  for (const Length place : cut_places(board)) room = std::max(room, text_width(tape(place, units), kDimensionText));
  return room + kLeaders;
}

/// The pieces of boards cut alike: all of one length are named together, since any of them may come from any board.
std::vector<std::string> piece_lines(const Alike& group, double width, UnitSystem units) {
  if (group.boards.size() == 1) return {};
  struct Lot {
    Length length;
    std::vector<std::string> marks;
  };
  std::vector<Lot> lots;
  for (const Board* board : group.boards) {
    for (const PlacedPiece& piece : board->pieces) {
      const Length length = piece.to - piece.from;
      auto lot = std::ranges::find_if(lots, [&](const Lot& l) { return abs(l.length - length) < kTouch; });
      if (lot == lots.end()) lot = lots.insert(lots.end(), {length, {}});
      lot->marks.push_back(piece.mark);
    }
  }
  std::string text;
  for (Lot& lot : lots) {
    const std::size_t count = lot.marks.size();
    text += fmt::format("{}{} of {}: {}", text.empty() ? "" : ";  ", count, tape_plain(lot.length, units),
                        mark_ranges(sorted_marks(std::move(lot.marks))));
  }
  return wrapped(text, width, 7);
}

/// Boards cut alike share one picture: it says the lengths, the line over it the marks.
void write_in_piece(Canvas& canvas, const PlacedPiece& piece, bool shared, double from, double to, double middle_y,
                    UnitSystem units) {
  const std::string length = tape_plain(piece.to - piece.from, units);
  const std::string shortest = shared ? length : piece.mark;
  for (const std::string& words : {shared ? length : piece.mark + "   " + length, shortest}) {
    if (text_width(words, 7.5) > to - from - 4) continue;
    canvas.text({.at = {(from + to) / 2, middle_y + 3}, .text = words, .size = 7.5, .anchor = Anchor::middle});
    return;
  }
  canvas.label({(from + to) / 2, middle_y}, shortest, 7);
}

class BoardPages {
 public:
  BoardPages(const DrawInput& input, Paper paper, double points_per_inch)
      : in_(input), paper_(paper), scale_(points_per_inch) {
    turn();
  }

  void draw(const Alike& group) {
    const std::vector<std::string> lines = piece_lines(group, page().body().width(), in_.job.about.units);
    const Board& board = *group.first;
    const UnitSystem units = in_.job.about.units;
    const double under = kBarHeight + figure_room(board, units);
    if (y_ + kHeadHeight + static_cast<double>(lines.size()) * 9.5 + under > page().body().y1) turn();
    const double left = page().body().x0;
    std::string head = fmt::format("{} x {}", section_words(board.section), tape_feet(board.length, units));
    if (group.boards.size() > 1) head += fmt::format("   ×{}, cut alike", group.boards.size());
    if (board.offcut) head += "   offcut on hand";
    head += "   left over " + tape_plain(board.left_over, units);
    page().text({.at = {left, y_ + 10}, .text = head, .size = 9, .bold = true});
    y_ += kHeadHeight;
    for (const std::string& line : lines) {
      y_ += 9.5;
      page().text({.at = {left, y_ - 2}, .text = line, .size = 7});
    }
    draw_bar(board, group.boards.size() > 1, left, units);
    y_ += under + kRowGap;
  }

  std::vector<Canvas> take() { return std::move(pages_); }

 private:
  Canvas& page() { return pages_.back(); }

  void turn() {
    const std::size_t number = pages_.size() + 1;
    pages_.emplace_back(number == 1 ? "Boards and their cuts" : fmt::format("Boards and their cuts, page {}", number),
                        number == 1 ? "boards" : fmt::format("boards-{}", number), paper_, true);
    page().set_scale("lengths only");
    y_ = page().body().y0;
    if (number > 1) return;
    const std::vector<std::string> how{fmt::format(
        "Figures under a board run from its left end: set the tape once. A kerf of {} lies between pieces, {} is "
        "trimmed off each end of a "
        "new board. Lengths are tip to tip; sort the boards for crown and knots first, the straightest for stringers "
        "and rails.",
        tape_plain(in_.job.yard.kerf, in_.job.about.units), tape_plain(in_.job.yard.end_trim, in_.job.about.units))};
    y_ = page().note({page().body().x0, y_}, page().body().width(), how) + 8;
  }

  void draw_bar(const Board& board, bool shared, double left, UnitSystem units) {
    const double head = y_, foot = y_ + kBarHeight;
    const auto x = [&](Length along) { return left + along.raw() * scale_; };
    const auto block = [&](double from, double to, SheetPath path) {
      path.points = {{from, head}, {to, head}, {to, foot}, {from, foot}};
      path.closed = true;
      page().add(std::move(path));
    };
    block(x({}), x(board.length), {.pen = Pen::medium, .tint = kWeatheredTint});
    Running running{.along = Along::x, .line = foot + 4, .outward_positive = true};
    for (const PlacedPiece& piece : board.pieces) {
      block(x(piece.from), x(piece.to), {.pen = Pen::medium, .tint = kCedarTint});
    }
    for (const Length place : cut_places(board)) {
      running.at.push_back(x(place));
      running.feature.push_back(foot);
      running.figures.push_back(tape(place, units));
    }
    draw_running(page(), running);
    for (const PlacedPiece& piece : board.pieces)
      write_in_piece(page(), piece, shared, x(piece.from), x(piece.to), (head + foot) / 2, units);
  }

  const DrawInput& in_;
  Paper paper_;
  double scale_;
  double y_ = 0;
  std::vector<Canvas> pages_;
};

}  // namespace

std::vector<Canvas> draw_boards(const DrawInput& input, Paper paper) {
  if (input.cuts.boards.empty()) return {};
  Length longest;
  for (const Board& board : input.cuts.boards) longest = std::max(longest, board.length);
  const Canvas probe("", "", paper, true);
  BoardPages pages(input, paper, probe.body().width() / in_inches(longest));
  for (const Alike& group : grouped(input.cuts)) pages.draw(group);
  return pages.take();
}

}  // namespace pitchboard
