#pragma once
// Stringers whose deflection and stress are known from elsewhere.

#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "engine/strength/sawtooth.hpp"

namespace pitchboard {

struct Stringer {
  int steps = 7;
  double rise = 7.25, going = 10, depth = 11.25;
  bool kicker = false;  ///< a notch for a 2x4 in the level cut
  double prop = 0;      ///< level from the foot's front to the middle of a beam under the lower edge; 0: none
};

inline Point at(double x, double y) { return {inches(x), inches(y)}; }

/// The reference model: foot at the origin, level cuts under every tread, plumb cut after the last one; 40 psf on 16 in
/// and the wood's own 32 pcf; E_L 1.4e6 psi; the foot held both ways, the head upright, each by its mean.
inline SawtoothModel model_of(const Stringer& s) {
  const double step = std::sqrt(s.rise * s.rise + s.going * s.going), plumb = s.depth * step / s.going;
  const double heel = (plumb - s.rise) * s.going / s.rise;
  const Point head{inches(s.going * s.steps), inches(s.rise * (s.steps + 1) - plumb)};
  SawtoothModel model;
  model.outline.push_back(at(0, 0));
  for (int k = 1; k <= s.steps; ++k) {
    const Point from = at((k - 1) * s.going, k * s.rise), to = at(k * s.going, k * s.rise);
    model.outline.push_back(from);
    model.outline.push_back(to);
    model.loads.push_back({from, to, 40.0 / 144.0 * 16.0 * s.going});
  }
  const Point top = model.outline.back();
  model.outline.push_back(head);
  model.outline.push_back(at(heel, 0));
  Point foot = at(0, 0);
  if (s.kicker) {
    foot = at(4.0, 0);
    for (const Point p : {at(4.0, 0), at(4.0, 1.5), at(0.5, 1.5), at(0.5, 0)}) model.outline.push_back(p);
  }
  model.thickness = 1.5;
  model.wood = plane_wood(1.4e6, s.going / step, s.rise / step);
  model.weight_per_cubic_inch = 32.0 / 1728.0;
  model.supports = {{foot, at(heel, 0), 0, 1}, {foot, at(heel, 0), 1, 0}, {head, top, 0, 1}};
  if (s.prop > 0) {
    const auto below = [&](double x) { return at(x, (x - heel) * s.rise / s.going); };
    model.supports.push_back({below(s.prop - 0.75), below(s.prop + 0.75), 0, 1});
  }
  return model;
}

}  // namespace pitchboard
