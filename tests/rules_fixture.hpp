#pragma once
// A stair sketched by hand, prism by prism, without any of the engine's own set-out: what the rules measure on it is
// known beforehand.

#include <cmath>
#include <string>
#include <vector>

#include "engine/rules/rules.hpp"

namespace pitchboard {

struct Sketch {
  int risers = 4;
  double rise = 7.0, going = 10.5;
  double nosing = 1.0, deck_nosing = 1.0;
  double tread_thickness = 1.5, board_depth = 11.25;
  double width = 36.0, overhang = 0.0;
  bool open = false;
  double first_riser_less = 0.0;  ///< landing higher than planned by this
  double cross_fall = 0.0, fall = 0.0;
  double landing_depth = 36.0;
  double ground_below = 0.0;  ///< ground lower than the landing by this
  bool guard = false, handrail = false;
  double guard_height = 36.0, rail_gap = 0.5,
         baluster_gap = 3.5;  ///< rail_gap: plumb, from the nosing line to the bottom rail
  double handrail_height = 35.0, handrail_past_foot = 0.0, handrail_size = 1.5, handrail_gap = 2.0;
  double tread_shift = 0.0;  ///< all treads too high by this: a stringer that was not dropped
};

/// All that `judge` takes.
struct Case {
  Job job;
  Flight flight;
  Frame frame;
  [[nodiscard]] std::vector<Finding> judged() const { return judge(job, Site(job), flight, frame); }
};

namespace sketching {

inline Part part(PartKind kind, std::string mark, Axis normal, double from, double to, Polygon outline) {
  Part p;
  p.kind = kind;
  p.mark = std::move(mark);
  p.use = p.mark;
  p.solid = {normal, {inches(from), inches(to)}, std::move(outline)};
  if (kind != PartKind::existing && kind != PartKind::pad_layer) {
    p.species = "southern-pine";
    p.treatment = "copper-uc4a";
  }
  return p;
}
inline Polygon box(double a0, double a1, double b0, double b1) {
  return rectangle({inches(a0), inches(a1)}, {inches(b0), inches(b1)});
}
inline Polygon points(std::initializer_list<std::pair<double, double>> list) {
  Polygon out;
  for (const auto& [a, b] : list) out.push_back({inches(a), inches(b)});
  return out;
}

}  // namespace sketching

/// Draws the sketch with the deck's edge at the origin; readings are exact unless `tolerance` says otherwise.
inline Case draw(const Sketch& s, const std::string& pack = "irc-2021", std::vector<std::string> amendments = {},
                 double tolerance = 0.0) {
  using namespace sketching;
  Case out;
  const int treads = s.risers - 1;
  const double run = treads * s.going, total = s.risers * s.rise - s.first_riser_less;
  const double rake = s.rise / s.going, step = std::hypot(s.rise, s.going), cosine = s.going / step;
  const double landing = -total;
  out.job.place = {.pack = pack, .amendments = std::move(amendments)};
  out.job.stair.width = inches(s.width);
  out.job.ground.method = Method::line_level;
  out.job.ground.tolerance = inches(tolerance);
  out.job.ground.lines = {
      {Line::middle, {{inches(0), inches(total + s.ground_below)}, {inches(400), inches(total + s.ground_below)}}}};
  Landing& pad = out.flight.landing;
  pad.z = inches(landing);
  pad.nosing_x = inches(run);
  pad.middle_y = inches(s.width / 2);
  pad.cross_fall = s.cross_fall;
  pad.fall = s.fall;
  pad.out = {inches(run - 12), inches(run + s.landing_depth)};

  std::vector<Part>& parts = out.frame.parts;
  parts.push_back(part(PartKind::existing, "deck", Axis::z, -1, 0, box(-24, 0, -24, s.width + 24)));
  parts.push_back(part(PartKind::existing, "rim", Axis::x, -s.deck_nosing - 1.5, -s.deck_nosing,
                       box(-24, s.width + 24, -12.25, -1)));
  const double far = run + s.landing_depth, near = run - 12;
  const auto pad_z = [&](double x) { return landing - (x - run) * s.fall; };
  parts.push_back(
      part(PartKind::pad_layer, "L1", Axis::y, -4, s.width + 4,
           points({{near, pad_z(near)}, {far, pad_z(far)}, {far, pad_z(far) - 4}, {near, pad_z(near) - 4}})));
  const auto nose_x = [&](int k) { return (s.risers - k) * s.going; };
  const auto top = [&](int k) { return -(s.risers - k) * s.rise + s.tread_shift; };
  const double riser = s.open ? 0.0 : 0.75;
  const auto cut = [&](int k) { return nose_x(k) - s.nosing - riser; };
  for (int k = 1; k <= treads; ++k) {
    const double back = k < treads ? nose_x(k + 1) - s.nosing : -s.deck_nosing;
    parts.push_back(part(PartKind::tread, "T" + std::to_string(k), Axis::z, top(k) - s.tread_thickness, top(k),
                         box(back, nose_x(k), -s.overhang, s.width + s.overhang)));
    if (s.open) continue;
    const double bottom = k == 1 ? landing + 0.25 : top(k - 1) - s.tread_thickness;
    parts.push_back(part(PartKind::riser, "R" + std::to_string(k), Axis::x, cut(k), cut(k) + riser,
                         box(0, s.width, bottom, top(k) - s.tread_thickness)));
  }
  if (treads > 0) {
    // Teeth, then the plumb cut at the deck, the lower edge and the foot.
    Polygon outline;
    const auto at = [&](double x, double z) { outline.push_back({inches(x), inches(z)}); };
    at(cut(1), landing);
    for (int k = 1; k <= treads; ++k) {
      at(cut(k), top(k) - s.tread_thickness);
      at(k < treads ? cut(k + 1) : -s.deck_nosing, top(k) - s.tread_thickness);
    }
    const auto lower = [&](double x) {
      return top(1) - s.tread_thickness + (cut(1) - x) * rake - s.board_depth / cosine;
    };
    const double heel = cut(1) + (top(1) - s.tread_thickness - s.board_depth / cosine - landing) / rake;
    if (heel > -s.deck_nosing) {
      at(-s.deck_nosing, lower(-s.deck_nosing));
      at(heel, landing);
    } else {
      at(-s.deck_nosing, landing);
    }
    for (const double y : {0.0, s.width / 2 - 0.75, s.width - 1.5}) {
      Part stringer = part(PartKind::stringer, "S" + std::to_string(parts.size()), Axis::y, y, y + 1.5, outline);
      stringer.grain_a = cosine;
      stringer.grain_b = -s.rise / step;
      parts.push_back(stringer);
    }
  }
  const auto line = [&](double x) { return -x * rake; };
  const auto strip = [&](PartKind kind, const std::string& mark, double y0, double y1, double x0, double x1, double z0,
                         double z1) {
    Part p = part(kind, mark, Axis::y, y0, y1,
                  points({{x0, line(x0) + z0}, {x1, line(x1) + z0}, {x1, line(x1) + z1}, {x0, line(x0) + z1}}));
    p.grain_a = cosine;
    p.grain_b = -s.rise / step;
    parts.push_back(p);
  };
  if (s.guard) {
    for (const bool left : {true, false}) {
      const auto y = [&](double inner) { return left ? -inner : s.width + inner; };
      const std::string side = left ? "L" : "R";
      const double y0 = std::min(y(0), y(3.5)), y1 = std::max(y(0), y(3.5));
      strip(PartKind::post, "P1" + side, y0, y1, 0.25, 3.75, -20, s.guard_height - 1.5);
      strip(PartKind::post, "P2" + side, y0, y1, run - 6, run - 2.5, -20, s.guard_height - 1.5);
      strip(PartKind::cap, "C" + side, y0 - 0.25, y1 + 0.25, 0.25, run - 2.5, s.guard_height - 1.5, s.guard_height);
      const double r0 = std::min(y(0), y(1.5)), r1 = std::max(y(0), y(1.5));
      strip(PartKind::top_rail, "TR" + side, r0, r1, 3.75, run - 6, s.guard_height - 5, s.guard_height - 1.5);
      strip(PartKind::bottom_rail, "BR" + side, r0, r1, 3.75, run - 6, s.rail_gap, s.rail_gap + 3.5);
      const double b0 = std::min(y(1.5), y(3.0)), b1 = std::max(y(1.5), y(3.0));
      int number = 0;
      for (double x = 3.75 + s.baluster_gap; x < run - 6 - 1.5; x += 1.5 + s.baluster_gap) {
        strip(PartKind::baluster, "b" + side + std::to_string(++number), b0, b1, x, x + 1.5, s.rail_gap,
              s.guard_height - 1.5);
      }
    }
  }
  if (s.handrail) {
    const double depth = s.handrail_size / cosine;
    strip(PartKind::handrail, "HR", s.handrail_gap, s.handrail_gap + s.handrail_size, -1, run + s.handrail_past_foot,
          s.handrail_height - depth, s.handrail_height);
  }
  return out;
}

/// RETURNS the finding for that quantity and comparison; the test fails when there is none.
inline Finding finding(const std::vector<Finding>& findings, std::string_view quantity, std::string_view compare) {
  for (const Finding& f : findings) {
    if (f.quantity == quantity && f.compare == compare) return f;
  }
  ADD_FAILURE() << "no finding for " << quantity << " " << compare;
  return {};
}

}  // namespace pitchboard
