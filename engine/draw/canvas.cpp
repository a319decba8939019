#include "engine/draw/canvas.hpp"

#include <algorithm>
#include <cmath>
#include <span>

#include "engine/draw/text_metrics.hpp"

namespace pitchboard {
namespace {

// SOURCE  architect's scales and ISO 5455 reductions; points per inch of the model.
constexpr Scale kImperialScales[] = {{18, "3\" = 1'-0\""},    {9, "1 1/2\" = 1'-0\""}, {6, "1\" = 1'-0\""},
                                     {4.5, "3/4\" = 1'-0\""}, {3, "1/2\" = 1'-0\""},   {2.25, "3/8\" = 1'-0\""},
                                     {1.5, "1/4\" = 1'-0\""}, {0.75, "1/8\" = 1'-0\""}};
constexpr Scale kMetricScales[] = {{72.0 / 5, "1:5"},   {72.0 / 10, "1:10"}, {72.0 / 20, "1:20"},
                                   {72.0 / 25, "1:25"}, {72.0 / 50, "1:50"}, {72.0 / 100, "1:100"}};

/// Baseline to baseline over text size.
constexpr double kNoteLeading = 1.3;
constexpr double kLetter[2] = {612, 792};
constexpr double kA4[2] = {595.28, 841.89};

bool cross_each_other(SheetPoint p, SheetPoint q, SheetPoint r, SheetPoint s) {
  const auto side = [](SheetPoint a, SheetPoint b, SheetPoint c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
  };
  return side(p, q, r) * side(p, q, s) < 0 && side(r, s, p) * side(r, s, q) < 0;
}

}  // namespace

Scale scale_to_fit(Length width, Length height, double room_x, double room_y, UnitSystem units) {
  const std::span<const Scale> scales =
      units == UnitSystem::metric ? std::span<const Scale>(kMetricScales) : std::span<const Scale>(kImperialScales);
  for (const Scale& scale : scales) {
    if (width.raw() * scale.points_per_inch <= room_x && height.raw() * scale.points_per_inch <= room_y) return scale;
  }
  return scales.back();
}

std::vector<SheetPoint> View::track(const Polygon& polygon) const {
  std::vector<SheetPoint> out;
  out.reserve(polygon.size());
  for (const Point p : polygon) out.push_back(at(p));
  return out;
}

Canvas::Canvas(std::string title, std::string name, Paper paper, bool landscape) {
  const double* size = paper == Paper::letter ? kLetter : kA4;
  sheet_.title = std::move(title);
  sheet_.name = std::move(name);
  sheet_.width = size[landscape ? 1 : 0];
  sheet_.height = size[landscape ? 0 : 1];
  body_ = {kMargin, kMargin, sheet_.width - kMargin, sheet_.height - kMargin - kTitleBlock - 8};
}

Canvas::Canvas(std::string title, std::string name, double width, double height) : body_{0, 0, width, height} {
  sheet_.title = std::move(title);
  sheet_.name = std::move(name);
  sheet_.width = width;
  sheet_.height = height;
}

void Canvas::line(SheetPoint from, SheetPoint to, Pen pen) { add({.points = {from, to}, .pen = pen}); }

void Canvas::circle(SheetPoint middle, double radius, Pen pen, const char* tint) {
  // 24 corners: at the sizes drawn here the eye sees a circle. Corners by repeated turning, no trigonometry.
  constexpr int kCorners = 24;
  constexpr double kCos = 0.96592582628906829, kSin = 0.25881904510252076;
  SheetPath path{.pen = pen, .closed = true, .tint = tint};
  double x = radius, y = 0;
  for (int i = 0; i < kCorners; ++i) {
    path.points.push_back({middle.x + x, middle.y + y});
    const double turned = x * kCos - y * kSin;
    y = x * kSin + y * kCos;
    x = turned;
  }
  add(std::move(path));
}

void Canvas::cross(SheetPoint middle, double reach) {
  line({middle.x - reach, middle.y}, {middle.x + reach, middle.y}, Pen::medium);
  line({middle.x, middle.y - reach}, {middle.x, middle.y + reach}, Pen::medium);
}

void Canvas::arrow(SheetPoint from, SheetPoint to, Pen pen) {
  line(from, to, pen);
  const double dx = to.x - from.x, dy = to.y - from.y, length = std::sqrt(dx * dx + dy * dy);
  if (length <= 0) return;
  const double ux = dx / length, uy = dy / length, head = pen == Pen::thin ? 5 : 9, half = head * 0.3;
  add({.points = {to,
                  {to.x - head * ux - half * uy, to.y - head * uy + half * ux},
                  {to.x - head * ux + half * uy, to.y - head * uy - half * ux}},
       .pen = pen,
       .closed = true,
       .tint = "#20282D"});
}

bool Canvas::is_free(const SheetText& text) const {
  const auto box = text_box(text);
  const bool within = std::ranges::all_of(
      box, [&](SheetPoint p) { return p.x >= body_.x0 && p.x <= body_.x1 && p.y >= body_.y0 && p.y <= body_.y1; });
  return within && std::ranges::none_of(sheet_.texts,
                                        [&](const SheetText& other) { return boxes_overlap(box, text_box(other)); });
}

void Canvas::text_on_paper(SheetText text) {
  const auto box = text_box(text);
  add({.points = {box.begin(), box.end()}, .closed = true, .stroked = false, .tint = kPaperTint});
  sheet_.texts.push_back(std::move(text));
}

bool Canvas::is_off_lines(const SheetText& text) const {
  const auto box = text_box(text);
  double x0 = box[0].x, x1 = x0, y0 = box[0].y, y1 = y0;
  for (const SheetPoint p : box) {
    x0 = std::min(x0, p.x);
    x1 = std::max(x1, p.x);
    y0 = std::min(y0, p.y);
    y1 = std::max(y1, p.y);
  }
  // A hair's breadth of white round the words.
  constexpr double kHair = 1;
  x0 -= kHair, y0 -= kHair, x1 += kHair, y1 += kHair;
  const auto runs_through = [&](SheetPoint p, SheetPoint q) {
    if (std::max(p.x, q.x) <= x0 || std::min(p.x, q.x) >= x1 || std::max(p.y, q.y) <= y0 || std::min(p.y, q.y) >= y1)
      return false;
    const bool end_inside = p.x > x0 && p.x < x1 && p.y > y0 && p.y < y1;
    return end_inside || cross_each_other(p, q, {x0, y0}, {x1, y1}) || cross_each_other(p, q, {x0, y1}, {x1, y0});
  };
  return std::ranges::none_of(sheet_.paths, [&](const SheetPath& path) {
    if (!path.stroked) return false;
    for (std::size_t i = 0; i + 1 < path.points.size(); ++i) {
      if (runs_through(path.points[i], path.points[i + 1])) return true;
    }
    return path.closed && path.points.size() > 2 && runs_through(path.points.back(), path.points.front());
  });
}

void Canvas::label(SheetPoint target, const std::string& words, double size, bool mono, Toward toward) {
  // Directions in the order of preference: right and left first, then the slants, then straight up and down.
  constexpr double kWays[][2] = {{1, -0.5},  {-1, -0.5}, {1, 0.6},  {-1, 0.6}, {0.4, -1},
                                 {-0.4, -1}, {0.4, 1},   {-0.4, 1}, {0, -1},   {0, 1}};
  constexpr double kUpWays[][2] = {{0, -1}, {0.4, -1}, {-0.4, -1}, {1, -1}, {-1, -1}, {1, -0.5}, {-1, -0.5}};
  const std::span<const double[2]> ways =
      toward == Toward::up ? std::span<const double[2]>(kUpWays) : std::span<const double[2]>(kWays);
  /// How far a label goes to keep off lines before it lies on one.
  constexpr double kFarEnough = 90;
  const auto put = [&](bool off_lines, double furthest) {
    for (double reach = 5; reach < furthest; reach += 4) {
      for (const auto& choice : ways) {
        const double way[2] = {toward == Toward::left ? -choice[0] : choice[0], choice[1]};
        SheetText text{
            .at = {target.x + way[0] * reach, target.y + way[1] * reach}, .text = words, .size = size, .mono = mono};
        text.anchor = way[0] > 0.5 ? Anchor::start : way[0] < -0.5 ? Anchor::end : Anchor::middle;
        const SheetPoint foot = text.at;
        text.at.y += way[1] > 0 ? kCapHeight * size : way[1] < -0.9 ? -kTailDepth * size : kCapHeight * size / 2;
        if (!is_free(text) || (off_lines && !is_off_lines(text))) continue;
        const bool led = reach > 9;
        const bool crosses = led && std::ranges::any_of(leaders_, [&](const Leader& other) {
                               return cross_each_other(target, foot, other.from, other.to);
                             });
        if (crosses) continue;
        if (led) {
          line(target, foot);
          leaders_.push_back({target, foot});
        }
        text_on_paper(std::move(text));
        return true;
      }
    }
    return false;
  };
  if (!put(true, kFarEnough)) put(false, sheet_.width);
}

double Canvas::note_height(double width, const std::vector<std::string>& lines, double size) {
  std::size_t count = 0;
  for (const std::string& line : lines) count += wrapped(line, width, size).size();
  return static_cast<double>(count) * size * kNoteLeading;
}

double Canvas::note(SheetPoint corner, double width, const std::vector<std::string>& lines, double size) {
  double y = corner.y;
  for (const std::string& line : lines) {
    for (const std::string& part : wrapped(line, width, size)) {
      y += size * kNoteLeading;
      text({.at = {corner.x, y - kTailDepth * size}, .text = part, .size = size});
    }
  }
  return y;
}

std::vector<double> spread(const std::vector<double>& places, double gap, double low, double high) {
  // With y_i = p_i - i gap, "gap apart" reads "y never falls": pool neighbours that break it into their mean (isotonic
  // regression).
  struct Pool {
    double sum;
    int count;
    [[nodiscard]] double mean() const { return sum / count; }
  };
  std::vector<Pool> pools;
  for (std::size_t i = 0; i < places.size(); ++i) {
    pools.push_back({places[i] - static_cast<double>(i) * gap, 1});
    while (pools.size() > 1 && pools[pools.size() - 2].mean() > pools.back().mean()) {
      const Pool last = pools.back();
      pools.pop_back();
      pools.back().sum += last.sum;
      pools.back().count += last.count;
    }
  }
  const double highest = high - static_cast<double>(places.size() - 1) * gap;
  std::vector<double> out;
  for (const Pool& pool : pools) {
    for (int i = 0; i < pool.count; ++i) {
      out.push_back(std::max(std::min(pool.mean(), highest), low) + static_cast<double>(out.size()) * gap);
    }
  }
  return out;
}

}  // namespace pitchboard
