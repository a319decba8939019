#include "engine/draw/dimension.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/sort.hpp"
#include "engine/draw/text_metrics.hpp"

namespace pitchboard {
namespace {

constexpr double kGap = 2.5;       ///< between the shape and its extension line
constexpr double kOvershoot = 3;   ///< of the extension line past the dimension line
constexpr double kTick = 2.6;      ///< half a tick's width and height
constexpr double kOverLine = 2.4;  ///< between line and figure
constexpr double kRow = kDimensionText * 1.25;
constexpr int kRows = 14;  ///< further out a figure is no longer looked for

// A cell of the mark grid holds `107 15/16" strong` in the size of a dimension.
constexpr double kCellWidth = 74, kCellHeight = 22;

std::size_t grid_columns(double width) {
  return static_cast<std::size_t>(std::max(1.0, std::floor(width / kCellWidth)));
}

SheetPoint place(Along along, double at, double across) {
  return along == Along::x ? SheetPoint{at, across} : SheetPoint{across, at};
}

void extension(Canvas& canvas, Along along, double at, double feature, double line) {
  const double way = line > feature ? 1 : -1;
  if (std::abs(line - feature) <= kGap) return;
  canvas.line(place(along, at, feature + way * kGap), place(along, at, line + way * kOvershoot));
}

void tick(Canvas& canvas, SheetPoint p) {
  canvas.line({p.x - kTick, p.y + kTick}, {p.x + kTick, p.y - kTick}, Pen::medium);
}

/// Places where a figure may stand, the best first: over its line, then beyond the line in ever further rows.
std::vector<SheetText> spots(const Chain& chain, std::size_t i, bool turned, double way) {
  const double from = std::min(chain.at[i], chain.at[i + 1]), to = std::max(chain.at[i], chain.at[i + 1]);
  const double middle = (from + to) / 2;
  const bool upright = chain.along == Along::y;
  SheetText text{
      .text = chain.figures[i], .size = kDimensionText, .anchor = Anchor::middle, .upwards = upright && turned};
  std::vector<SheetText> out;
  if (upright && !turned) {
    text.anchor = way > 0 ? Anchor::start : Anchor::end;
    for (int row = 0; row < kRows; ++row) {
      text.at = {chain.line + way * (kOverLine + 3 + row * 6), middle + kCapHeight * text.size / 2};
      out.push_back(text);
    }
    return out;
  }
  if (text_width(text) + 4 <= to - from) {
    text.at = place(chain.along, middle, chain.line - kOverLine);
    out.push_back(text);
  }
  for (int row = 0; row < kRows; ++row) {
    // Text stands up from its baseline, so on the growing side its height comes on top.
    const double step = kOverLine + 2 + row * kRow + (way > 0 ? kCapHeight * text.size : 0);
    text.at = place(chain.along, middle, chain.line + way * step);
    out.push_back(text);
  }
  return out;
}

void place_figure(Canvas& canvas, const Chain& chain, std::size_t i, bool turned, double way) {
  if (chain.figures[i].empty()) return;
  const std::vector<SheetText> choices = spots(chain, i, turned, way);
  const auto is_roomy = [&](SheetText text) {
    // A blank on both sides keeps neighbouring figures apart.
    text.text = " " + text.text + " ";
    return canvas.is_free(text);
  };
  const auto found = std::ranges::find_if(choices, is_roomy);
  const double middle = (chain.at[i] + chain.at[i + 1]) / 2;
  if (found == choices.end()) {
    // Every place of its own is taken: it stands wherever the paper is free, with a leader.
    canvas.label(place(chain.along, middle, chain.line), chain.figures[i], kDimensionText);
    return;
  }
  const SheetText& text = *found;
  canvas.text(text);
  const double across = chain.along == Along::x ? text.at.y : text.at.x;
  const bool beyond = (across - chain.line) * way > kOverLine + 4;
  if (!beyond) return;
  const double height = chain.along == Along::x || text.upwards ? (way > 0 ? kCapHeight * text.size : 0) : 0;
  canvas.line(place(chain.along, middle, chain.line), place(chain.along, middle, across - way * (height + 1)));
}

}  // namespace

void draw_chain(Canvas& canvas, const Chain& chain) {
  if (chain.at.size() < 2) return;
  const double way = chain.line >= chain.feature.front() ? 1 : -1;
  for (std::size_t i = 0; i < chain.at.size(); ++i) {
    extension(canvas, chain.along, chain.at[i], chain.feature[i], chain.line);
    tick(canvas, place(chain.along, chain.at[i], chain.line));
  }
  canvas.line(place(chain.along, chain.at.front(), chain.line), place(chain.along, chain.at.back(), chain.line));
  // One way of reading for the whole chain: turned only when every figure fits so.
  bool turned = true;
  for (std::size_t i = 0; i + 1 < chain.at.size(); ++i) {
    turned = turned && text_width(chain.figures[i], kDimensionText) + 4 <= std::abs(chain.at[i + 1] - chain.at[i]);
  }
  for (std::size_t i = 0; i + 1 < chain.at.size(); ++i) place_figure(canvas, chain, i, turned, way);
}

void draw_dimension(Canvas& canvas, Along along, double line, double from, double to, double feature_from,
                    double feature_to, const std::string& figure) {
  draw_chain(
      canvas,
      {.along = along, .line = line, .at = {from, to}, .feature = {feature_from, feature_to}, .figures = {figure}});
}

void draw_running(Canvas& canvas, const Running& running) {
  if (running.at.empty()) return;
  std::vector<std::size_t> order(running.at.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  sort_stably(order, {}, [&](std::size_t i) { return running.at[i]; });
  std::vector<double> places;
  for (const std::size_t i : order) places.push_back(running.at[i]);
  const Box& body = canvas.body();
  const double half = kRow / 2;
  const double low = (running.along == Along::x ? body.x0 : body.y0) + half,
               high = (running.along == Along::x ? body.x1 : body.y1) - half;
  const std::vector<double> spots = spread(places, kRow, low, high);
  const double way = running.outward_positive ? 1 : -1;
  constexpr double kJog = 7;
  for (std::size_t n = 0; n < order.size(); ++n) {
    const std::size_t i = order[n];
    const double at = running.at[i], spot = spots[n];
    canvas.line(place(running.along, at, running.feature[i] + way * kGap), place(running.along, at, running.line));
    canvas.line(place(running.along, at, running.line), place(running.along, spot, running.line + way * kJog));
    SheetText text{.text = running.figures[i], .size = kDimensionText, .upwards = running.along == Along::x};
    const double middle = spot + kCapHeight * text.size / 2;
    text.at = place(running.along, middle, running.line + way * (kJog + 2));
    // Upward text runs towards smaller y, so on the lower side it ends at the line.
    const bool ends_at_line = running.along == Along::x ? way > 0 : way < 0;
    text.anchor = ends_at_line ? Anchor::end : Anchor::start;
    canvas.text(std::move(text));
  }
}

double draw_mark_grid(Canvas& canvas, SheetPoint corner, double width, const std::vector<std::string>& figures) {
  const std::size_t columns = grid_columns(width);
  for (std::size_t i = 0; i < figures.size(); ++i) {
    const double x = corner.x + static_cast<double>(i % columns) * kCellWidth;
    const double y = corner.y + static_cast<double>(i / columns) * kCellHeight;
    canvas.add({.points = {{x, y}, {x + kCellWidth, y}, {x + kCellWidth, y + kCellHeight}, {x, y + kCellHeight}},
                .closed = true});
    canvas.text({.at = {x + 3, y + 8}, .text = std::to_string(i + 1), .size = 6, .mono = true});
    canvas.text(
        {.at = {x + kCellWidth - 3, y + 18.5}, .text = figures[i], .size = kDimensionText, .anchor = Anchor::end});
  }
  return corner.y + mark_grid_height(width, figures.size());
}

double mark_grid_height(double width, std::size_t count) {
  const std::size_t columns = grid_columns(width);
  return static_cast<double>((count + columns - 1) / columns) * kCellHeight;
}

}  // namespace pitchboard
