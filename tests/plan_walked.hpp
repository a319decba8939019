#pragma once
// The steps of a planned stair, found again from its parts: level boards are treads, the landing is what lies lowest.

#include <map>

#include "engine/plan.hpp"
#include "tests/plan_own_geometry.hpp"

namespace pitchboard {

struct WalkedTread {
  double back = 1e9, front = -1e9, top = 0, under = 0;
  double left = 1e9, right = -1e9;
};

struct Walked {
  std::vector<WalkedTread> treads;  ///< lowest first
  std::vector<double> nosings;      ///< x of every nosing, lowest first
  std::vector<double> nosing_tops;  ///< z of them
  std::vector<double> rises;        ///< lowest first
  double landing = 0;               ///< z of the finished landing under the lowest nosing, mid-width
  double deck_edge = 0;

  explicit Walked(const Plan& plan) {
    std::map<long, WalkedTread> levels;
    double surface = -1e9;
    for (const Part& part : plan.frame.parts) {
      const own::Solid s(part.solid);
      if (part.mark == "deck") deck_edge = s.high[0];
      if (part.kind != PartKind::tread) continue;
      WalkedTread& t = levels[std::lround(s.high[2] * 1000)];
      t.back = std::min(t.back, s.low[0]);
      t.front = std::max(t.front, s.high[0]);
      t.left = std::min(t.left, s.low[1]);
      t.right = std::max(t.right, s.high[1]);
      t.top = s.high[2];
      t.under = s.low[2];
    }
    for (const auto& [level, tread] : levels) {
      treads.push_back(tread);
      nosings.push_back(tread.front);
      nosing_tops.push_back(tread.top);
    }
    if (treads.empty() || treads.back().top < -1e-3) {
      nosings.push_back(deck_edge);
      nosing_tops.push_back(0.0);
    }
    for (const Part& part : plan.frame.parts) {
      if (part.kind == PartKind::pad_layer || part.mark == "pad") {
        surface = std::max(surface, own::Solid(part.solid).top_at(nosings.front()));
      }
    }
    landing = surface + plan.job.pad.later_finish.raw();
    // A pad that falls across is drawn at its lower side: mid-width lies half the fall higher.
    const bool untouched = plan.job.pad.existing && plan.flight.landing.lift == Length();
    if (untouched) landing += std::abs(plan.job.pad.cross_fall) * plan.job.stair.width.raw() / 2;
    double below = landing;
    for (const double top : nosing_tops) {
      rises.push_back(top - below);
      below = top;
    }
  }
};

}  // namespace pitchboard
