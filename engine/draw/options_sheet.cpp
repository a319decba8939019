// The front of a search: cost against comfort, a numbered mark for each stair, and the rest of its figures beside it.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/choose/front.hpp"
#include "engine/draw/parts.hpp"
#include "engine/draw/text_metrics.hpp"

namespace pitchboard {
namespace {

constexpr double kKeyWidth = 260, kKeyRow = 11, kTick = 4;
/// Between the frame of the plot and its outermost marks, so that no mark lies on the frame.
constexpr double kInset = 24;
constexpr double kDot = 3.2, kPickRing = 6.5;

/// Round figures from below the least to above the greatest.
struct Steps {
  double from = 0, step = 1;
  int steps = 1;
  [[nodiscard]] double to() const { return from + step * steps; }
};

/// RETURNS at most nine steps over those values: of `unit` times 1, 2, 5, 10, 20 and so on, or times 1, 2, 4, 8 as
/// inches are divided.
Steps steps_over(double low, double high, double unit, bool by_tens) {
  constexpr int kMostSteps = 8;
  double step = unit;
  for (int i = 0; (high - low) / step > kMostSteps; ++i) step *= by_tens && i % 3 == 1 ? 2.5 : 2.0;
  const double from = std::floor(low / step + 1e-9) * step;
  return {from, step, std::max(1, static_cast<int>(std::ceil((high - from) / step - 1e-9)))};
}

class FrontSheet {
 public:
  FrontSheet(const Job& job, const Search& search, Paper paper)
      : job_(job), search_(search), canvas_("Options: cost against comfort", "options", paper, true) {
    plot_ = canvas_.body();
    plot_.x0 += 58;
    plot_.x1 -= kKeyWidth + 24;
    plot_.y0 += 30;
    plot_.y1 -= 86;
  }

  Canvas draw() {
    canvas_.text({.at = {canvas_.body().x0, canvas_.body().y0 + 10},
                  .text = "Stairs that nothing beats: what is cheaper is worse in something else",
                  .size = 11,
                  .bold = true});
    set_axes();
    frame();
    marks();
    reading();
    key();
    return std::move(canvas_);
  }

 private:
  [[nodiscard]] bool metric() const { return job_.about.units == UnitSystem::metric; }
  [[nodiscard]] double comfort(const Option& o) const {
    return metric() ? in_millimetres(o.figures.comfort) : in_inches(o.figures.comfort);
  }
  [[nodiscard]] std::string comfort_words(double value) const {
    return tape_plain(metric() ? millimetres(value) : inches(value), job_.about.units);
  }
  static double price(const Option& o) { return static_cast<double>(o.figures.cents) / 100.0; }

  void set_axes() {
    const auto [near, far] = std::ranges::minmax(search_.front, {}, [&](const Option& o) { return comfort(o); });
    const auto [low, high] = std::ranges::minmax(search_.front, {}, price);
    across_ = steps_over(comfort(near), comfort(far), metric() ? 5.0 : 0.125, metric());
    up_ = steps_over(price(low), price(high), 1.0, true);
  }
  [[nodiscard]] double x(double value) const {
    return plot_.x0 + kInset + (value - across_.from) / (across_.to() - across_.from) * (plot_.width() - 2 * kInset);
  }
  [[nodiscard]] double y(double value) const {
    return plot_.y1 - kInset - (value - up_.from) / (up_.to() - up_.from) * (plot_.height() - 2 * kInset);
  }
  [[nodiscard]] SheetPoint place(const Option& o) const { return {x(comfort(o)), y(price(o))}; }

  void frame() {
    canvas_.line({plot_.x0, plot_.y0}, {plot_.x0, plot_.y1}, Pen::medium);
    canvas_.line({plot_.x0, plot_.y1}, {plot_.x1, plot_.y1}, Pen::medium);
    for (int i = 0; i <= across_.steps; ++i) {
      const double value = across_.from + across_.step * i;
      canvas_.line({x(value), plot_.y1}, {x(value), plot_.y1 + kTick});
      canvas_.text({.at = {x(value), plot_.y1 + 14}, .text = comfort_words(value), .anchor = Anchor::middle});
    }
    for (int i = 0; i <= up_.steps; ++i) {
      const double value = up_.from + up_.step * i;
      canvas_.line({plot_.x0 - kTick, y(value)}, {plot_.x0, y(value)});
      canvas_.text({.at = {plot_.x0 - 7, y(value) + 3}, .text = fmt::format("{:.0f}", value), .anchor = Anchor::end});
    }
    canvas_.text({.at = {(plot_.x0 + plot_.x1) / 2, plot_.y1 + 29},
                  .text = fmt::format("How far two rises and a going are off {} to {}: less is more comfortable",
                                      tape_plain(comfort_band().from, job_.about.units),
                                      tape_plain(comfort_band().to, job_.about.units)),
                  .size = 8.5,
                  .anchor = Anchor::middle});
    canvas_.text({.at = {canvas_.body().x0 + 8, (plot_.y0 + plot_.y1) / 2},
                  .text = fmt::format("Cost of the order, {}", job_.yard.currency),
                  .size = 8.5,
                  .anchor = Anchor::middle,
                  .upwards = true});
  }

  void marks() {
    for (const Option& option : search_.front)
      canvas_.circle(place(option), kDot, Pen::medium, option.open > 0 ? kPaperTint : "#20282D");
    canvas_.circle(place(search_.front[search_.pick]), kPickRing, Pen::medium);
    // Stairs at one place share a label, the pick's place first so that it stands close.
    std::vector<std::size_t> order(search_.front.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::ranges::stable_partition(order, [&](std::size_t i) { return i == search_.pick; });
    std::vector<bool> told(order.size());
    for (const std::size_t first : order) {
      if (told[first]) continue;
      const SheetPoint at = place(search_.front[first]);
      std::string words;
      for (std::size_t i = 0; i < order.size(); ++i) {
        const SheetPoint other = place(search_.front[i]);
        if (told[i] || std::hypot(other.x - at.x, other.y - at.y) > kDot) continue;
        told[i] = true;
        words += fmt::format("{}{}", words.empty() ? "" : "; ", i + 1);
        if (const auto marks = marks_of(search_, i); !marks.empty())
          words += fmt::format(" {}", fmt::join(marks, ", "));
      }
      canvas_.label(at, words);
    }
  }

  /// How to read the marks.
  void reading() {
    double y = plot_.y1 + 46;
    const double left = plot_.x0;
    const auto row = [&](bool ring, const char* tint, const std::string& words) {
      canvas_.circle({left + 7, y - 3}, kDot, Pen::medium, tint);
      if (ring) canvas_.circle({left + 7, y - 3}, kPickRing, Pen::medium);
      y = canvas_.note({left + 20, y - 8}, plot_.x1 - left - 20, {words}) + 10;
    };
    row(false, "#20282D", "everything was checked and nothing is too close to tell");
    row(false, kPaperTint, "something is too close to tell or not checked: column “open”");
    row(true, "", fmt::format("the pick: {}", rule_words(job_)));
  }

  /// The figures that the plot has no axis for.
  void key() {
    struct Cell {
      std::string head;
      double right;
    };
    const double left = canvas_.body().x1 - kKeyWidth, foot = canvas_.body().y1 - kKeyRow;
    const Cell heads[] = {{"no.", 20},    {job_.yard.currency, 66}, {"hours", 102},     {"off", 142},
                          {"ratio", 174}, {"landing", 226},         {"open", kKeyWidth}};
    double y = plot_.y0;
    const auto row = [&](const std::vector<std::string>& cells, bool bold) {
      for (std::size_t i = 0; i < cells.size(); ++i)
        canvas_.text({.at = {left + heads[i].right, y}, .text = cells[i], .anchor = Anchor::end, .bold = bold});
      y += kKeyRow;
    };
    std::vector<std::string> names;
    for (const Cell& cell : heads) names.push_back(cell.head);
    row(names, true);
    canvas_.line({left, y - 7.5}, {left + kKeyWidth, y - 7.5});
    y += 3;
    for (std::size_t i = 0; i < search_.front.size(); ++i) {
      const std::size_t more = search_.front.size() - i;
      if (y + kKeyRow > foot && more > 1) {
        canvas_.text({.at = {left, y}, .text = fmt::format("and {} more: 'pitchboard options' lists them", more)});
        return;
      }
      const Option& option = search_.front[i];
      const Figures& f = option.figures;
      const bool lifted = abs(f.lift) >= kSixteenth / 2.0;
      row({std::to_string(i + 1), money_text({f.cents}), fmt::format("{:.1f}", f.minutes / 60.0),
           tape_plain(f.comfort, job_.about.units), fmt::format("{:.2f}", f.ratio),
           lifted              ? (f.lift > Length() ? "up " : "dig ") + tape_plain(abs(f.lift), job_.about.units)
           : job_.pad.existing ? "as it is"
                               : "level",
           std::to_string(option.open)},
          i == search_.pick);
    }
    canvas_.note({left, y + 4}, kKeyWidth,
                 {"Ratio: the weakest check's demand over what it carries. Landing: lifted up or dug down from the "
                  "ground or today's pad."});
  }

  const Job& job_;
  const Search& search_;
  Canvas canvas_;
  Box plot_;
  Steps across_, up_;
};

}  // namespace

Canvas draw_front(const Job& job, const Search& search, Paper paper) { return FrontSheet(job, search, paper).draw(); }

}  // namespace pitchboard
