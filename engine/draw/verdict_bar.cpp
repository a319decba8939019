#include "engine/draw/verdict_bar.hpp"

namespace pitchboard {

void draw_verdict_bar(Canvas& canvas, const Box& room, Verdict verdict) {
  const double y = room.y0 + 7.5, left = room.x0, limit = left + kVerdictBarWidth * 0.65,
               right = left + kVerdictBarWidth;
  const auto bar = [&](double from, double to, double half, const char* tint) {
    canvas.add(
        {.points = {{from, y - half}, {to, y - half}, {to, y + half}, {from, y + half}}, .closed = true, .tint = tint});
  };
  switch (verdict) {
    case Verdict::pass:
      canvas.line({left, y}, {limit - 8, y});
      break;
    case Verdict::fail:
      bar(left, right - 4, 2.2, "#20282D");
      break;
    case Verdict::too_close:
      bar(limit - 6, limit + 6, 2.2, kPaperTint);
      break;
    case Verdict::warn:
    case Verdict::not_checked:
      for (double x = left; x < right - 4; x += 4) canvas.circle({x + 1, y}, 0.6, Pen::thin, "#20282D");
      break;
  }
  canvas.line({limit, y - 5}, {limit, y + 5}, Pen::medium);
}

}  // namespace pitchboard
