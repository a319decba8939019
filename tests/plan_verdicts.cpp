// A rule passes only where the parts, measured again by other code, keep its limit.

#include <gtest/gtest.h>

#include <map>

#include "tests/plan_shards.hpp"
#include "tests/plan_walked.hpp"

using namespace pitchboard;
using own::Solid;

namespace {

constexpr double kSame = 2e-4;  ///< in; two codes measure one place

struct Seen {
  double least = 1e9, most = -1e9;
  int count = 0;
  void see(double v) {
    least = std::min(least, v);
    most = std::max(most, v);
    ++count;
  }
};

/// What an inspector's tape finds on the parts, by the names that rules use; inches.
class Inspector {
 public:
  explicit Inspector(const Plan& plan) : plan_(plan), walked_(plan) {
    steps();
    nosings();
    rails();
    widths();
    stringers();
  }
  std::map<std::string, Seen> seen;

 private:
  void steps() {
    Seen rises, goings;
    for (const double rise : walked_.rises) rises.see(rise);
    // On a landing that falls across, the lowest riser differs from side to side.
    if (plan_.flight.landing.cross_fall != 0) {
      const double half = std::abs(plan_.flight.landing.cross_fall) * plan_.job.stair.width.raw() / 2;
      rises.see(walked_.rises.front() + half);
      rises.see(walked_.rises.front() - half);
    }
    for (std::size_t i = 0; i < walked_.treads.size(); ++i) {
      const double next = i + 1 < walked_.nosings.size() ? walked_.nosings[i + 1] : walked_.deck_edge;
      goings.see(walked_.nosings[i] - next);
    }
    seen["riser_height"] = rises;
    seen["riser_variation"].see(rises.most - rises.least);
    seen["going"] = goings;
  }

  /// Outermost wood of a stringer under a tread's front, felt for from the front inwards; far in where there is none.
  [[nodiscard]] double plumb_cut_under(const WalkedTread& tread) const {
    const auto part = std::ranges::find(plan_.frame.parts, PartKind::stringer, &Part::kind);
    const Solid s(part->solid);
    const auto wood = [&](double x) { return s.has({x, (s.from + s.to) / 2, tread.under - 0.25}); };
    for (double x = tread.front; x > tread.back; x -= 1.0 / 64.0) {
      if (!wood(x)) continue;
      double in = x, out = x + 1.0 / 64.0;
      for (int i = 0; i < 30; ++i) (wood((in + out) / 2) ? in : out) = (in + out) / 2;
      return in;
    }
    return -1e9;
  }

  /// How far each tread passes the riser board or plumb cut under it, and the deck's edge what stands below it.
  void nosings() {
    double below = walked_.landing;
    for (const WalkedTread& tread : walked_.treads) {
      double face = -1e9;
      for (const Part& part : plan_.frame.parts) {
        const Solid s(part.solid);
        const double middle = (s.low[2] + s.high[2]) / 2;
        if (part.kind == PartKind::riser && middle > below && middle < tread.top) face = std::max(face, s.high[0]);
      }
      if (face < -1e8 && plan_.flight.kind != StringerKind::solid) face = plumb_cut_under(tread);
      if (face > -1e8) seen["nosing"].see(tread.front - face);
      below = tread.top;
    }
    if (walked_.nosings.size() == walked_.treads.size()) return;
    double face = -1e9;
    for (const Part& part : plan_.frame.parts) {
      const Solid s(part.solid);
      const bool wall = part.kind == PartKind::riser || part.kind == PartKind::hanger_board || part.mark == "rim";
      if (wall && s.high[2] > below + 1e-3 && s.high[0] < walked_.deck_edge + 1e-3) face = std::max(face, s.high[0]);
    }
    seen["nosing"].see(walked_.deck_edge - face);
  }

  [[nodiscard]] double nosing_line(double x) const {
    const std::vector<double>&xs = walked_.nosings, &zs = walked_.nosing_tops;
    if (xs.size() < 2) return zs.front();
    const double slope = (zs.back() - zs.front()) / (xs.front() - xs.back());
    return zs.front() + (xs.front() - x) * slope;
  }

  [[nodiscard]] bool left(const Part& part) const {
    return (part.solid.normal == Axis::y
                ? part.solid.span.middle().raw()
                : (Solid(part.solid).low[1] + Solid(part.solid).high[1]) / 2) < plan_.job.stair.width.raw() / 2;
  }

  /// Heights over each nosing that a rail passes.
  void heights(const char* quantity, const Part& part) {
    const Solid s(part.solid);
    for (const double x : walked_.nosings) {
      if (x > s.low[0] && x < s.high[0]) seen[quantity].see(s.top_at(x) - nosing_line(x));
    }
  }

  void rails() {
    for (const Part& part : plan_.frame.parts) {
      if (part.kind == PartKind::handrail) heights("handrail_height", part);
      if (part.kind == PartKind::cap) heights("guard_height", part);
    }
    if (plan_.job.rails.balusters == BalusterKind::none) return;  // rails decide what passes then
    for (const bool on_left : {true, false}) {
      std::map<double, double> uprights;  // from, to
      for (const Part& part : plan_.frame.parts) {
        const bool post = part.kind == PartKind::post || part.mark.starts_with("post");
        if ((!post && part.kind != PartKind::baluster) || left(part) != on_left) continue;
        const Solid s(part.solid);
        uprights[s.low[0]] = s.high[0];
      }
      double reached = walked_.deck_edge;
      for (const auto& [from, to] : uprights) {
        if (from > reached + 1e-4) seen["guard_opening"].see(from - reached);
        reached = std::max(reached, to);
      }
    }
  }

  void widths() {
    double from = 1e9, to = -1e9;
    for (const WalkedTread& tread : walked_.treads) {
      from = std::min(from, tread.left);
      to = std::max(to, tread.right);
    }
    for (const Part& part : plan_.frame.parts) {
      const bool rail = part.kind == PartKind::post || part.mark.starts_with("post") ||
                        part.kind == PartKind::top_rail || part.kind == PartKind::bottom_rail ||
                        part.kind == PartKind::baluster || part.kind == PartKind::cap ||
                        part.kind == PartKind::handrail;
      if (!rail) continue;
      const Solid s(part.solid);
      if (left(part)) {
        from = std::max(from, s.high[1]);
      } else {
        to = std::min(to, s.low[1]);
      }
    }
    if (!walked_.treads.empty()) seen["clear_width"].see(to - from);
  }

  /// Longest level stretch under a stringer where a hand that slides along its lower edge feels no beam.
  [[nodiscard]] double unsupported(const Solid& s) const {
    const double rise = plan_.flight.unit_rise.raw(), going = plan_.flight.going.raw(), step = std::hypot(rise, going);
    const auto off = [&](own::Flat p) { return (p.a * rise + p.b * going) / step; };
    double lowest = 1e9, head = 1e9, heel = -1e9;
    for (const own::Flat p : s.outline) {
      lowest = std::min(lowest, off(p));
      head = std::min(head, p.a);
    }
    for (const own::Flat p : s.outline) {
      if (off(p) < lowest + 1e-4) heel = std::max(heel, p.a);
    }
    const auto edge = [&](double x) { return (lowest * step - x * rise) / going; };
    const auto on_beam = [&](double x) {
      return std::ranges::any_of(plan_.frame.parts, [&](const Part& part) {
        return part.kind == PartKind::support_beam && Solid(part.solid).has({x, (s.from + s.to) / 2, edge(x) - 1e-3});
      });
    };
    const auto change_between = [&](double in, double out) {
      const bool first = on_beam(in);
      for (int i = 0; i < 40; ++i) (on_beam((in + out) / 2) == first ? in : out) = (in + out) / 2;
      return in;
    };
    double longest = 0, from = head;
    constexpr double kFeel = 0.5;  // less than a beam is thick
    for (double x = head + kFeel; x < heel; x += kFeel) {
      if (on_beam(x) == on_beam(x - kFeel)) continue;
      const double at = change_between(x - kFeel, x);
      if (on_beam(x)) longest = std::max(longest, at - from);
      from = at;
    }
    return std::max(longest, heel - from);
  }

  void stringers() {
    std::vector<double> middles;
    for (const Part& part : plan_.frame.parts) {
      if (part.kind != PartKind::stringer) continue;
      const Solid s(part.solid);
      middles.push_back((s.from + s.to) / 2);
      seen["stringer_span"].see(unsupported(s));
      if (plan_.flight.kind == StringerKind::solid || walked_.treads.size() < 2) continue;
      // Wood square to the slope between an inner corner and the lower edge, the longest sloping edge.
      const double rise = plan_.flight.unit_rise.raw(), going = plan_.flight.going.raw();
      const double step = std::hypot(rise, going);
      const auto off = [&](own::Flat p) { return (p.a * rise + p.b * going) / step; };
      double longest = 0, lower = 0;
      for (std::size_t i = 0, j = s.outline.size() - 1; i < s.outline.size(); j = i++) {
        const own::Flat p = s.outline[j], q = s.outline[i];
        const double length = std::hypot(p.a - q.a, p.b - q.b);
        if (std::abs(off(p) - off(q)) < 1e-4 && length > longest) {
          longest = length;
          lower = off(p);
        }
      }
      for (const own::Flat p : s.outline) {
        const auto wood = [&](double da, double db) { return s.has({p.a + da, (s.from + s.to) / 2, p.b + db}); };
        if (longest > 0 && !wood(0.01, 0.02) && wood(-0.01, 0.02) && wood(-0.01, -0.02) && wood(0.01, -0.02)) {
          seen["throat"].see(off(p) - lower);
        }
      }
    }
    std::ranges::sort(middles);
    for (std::size_t i = 1; i < middles.size(); ++i) seen["stringer_spacing"].see(middles[i] - middles[i - 1]);
  }

  const Plan& plan_;
  Walked walked_;
};

double inches_of(std::string_view unit) { return unit == "mm" ? 1 / 25.4 : unit == "ft" ? 12.0 : 1.0; }

class Verdicts : public Shard {};
INSTANTIATE_TEST_SUITE_P(RandomJobs, Verdicts, ::testing::Range(0u, kShards));

}  // namespace

TEST_P(Verdicts, PassMeansThatTheTapeFindsTheLimitKept) {
  std::map<std::string, int> checked;
  plan_shard(GetParam(), [&](std::uint32_t, const Plan& plan) {
    Inspector inspector(plan);
    for (const Finding& f : plan.findings) {
      const auto seen = inspector.seen.find(std::string(f.quantity));
      if (f.verdict != Verdict::pass || !f.applies || !f.limit || seen == inspector.seen.end()) continue;
      if (seen->second.count == 0) continue;
      ++checked[std::string(f.quantity)];
      const double scale = inches_of(f.unit), limit = *f.limit * scale, sure = f.uncertainty.value_or(0) * scale;
      const bool upper = f.compare == "at_most" || f.compare == "less_than";
      const double worst = upper ? seen->second.most : seen->second.least;
      if (f.compare == "advice") continue;
      const double margin = upper ? limit - worst : worst - limit;
      EXPECT_GT(margin, -kSame) << f.clause << " " << f.quantity << " limit " << limit << " found " << worst;
      const bool strict = f.compare == "less_than" || f.compare == "more_than";
      EXPECT_TRUE(!strict || margin > 0) << f.clause << " " << f.quantity;
      // The worst place is the one that the finding speaks of, unless readings make another one less sure.
      EXPECT_NEAR(worst, *f.measured * scale, sure + kSame) << f.clause << " " << f.quantity;
    }
  });
  for (const char* quantity : {"riser_height", "riser_variation", "going", "nosing", "guard_height", "handrail_height",
                               "guard_opening", "clear_width", "throat", "stringer_spacing", "stringer_span"}) {
    RecordProperty(quantity, checked[quantity]);
  }
  EXPECT_GT(checked["riser_height"], 0);
  EXPECT_GT(checked["guard_height"], 0);
  EXPECT_GT(checked["handrail_height"], 0);
  EXPECT_GT(checked["stringer_span"], 0);
}

TEST_P(Verdicts, PassIsNeverSaidInsideTheReadingsOwnUncertaintyNorFromMemory) {
  plan_shard(GetParam(), [](std::uint32_t, const Plan& plan) {
    for (const Finding& f : plan.findings) {
      if (!f.applies) {
        EXPECT_EQ(f.verdict, Verdict::pass);
        continue;
      }
      if (f.verdict == Verdict::pass && f.margin && f.uncertainty) {
        EXPECT_GT(*f.margin, *f.uncertainty) << f.clause << " " << f.quantity;
      }
      if (f.confidence == "memory") {
        EXPECT_TRUE((f.verdict != Verdict::pass && f.verdict != Verdict::fail) ||
                    f.change.find("from memory") != std::string::npos)
            << f.clause << " " << f.quantity << ": " << f.change;
      }
      if (f.verdict == Verdict::pass || f.verdict == Verdict::fail) {
        EXPECT_TRUE(f.measured) << f.clause;
      }
      EXPECT_TRUE(f.verdict == Verdict::pass || !f.change.empty()) << f.clause << " says what would change it";
    }
  });
}
