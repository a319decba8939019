// Frames as the engine builds them, measured a second time by walking along them point by point.

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <tuple>

#include "engine/rules/measured.hpp"
#include "engine/rules/rules.hpp"

using namespace pitchboard;

namespace {

struct Built {
  Job job;
  Flight flight;
  Frame frame;
};

/// Jobs of every make, from a fixed seed; only those that fit.
std::vector<Built> built_stairs(int wanted) {
  std::mt19937 random(20260509);
  const auto pick = [&](int from, int to) { return std::uniform_int_distribution<int>(from, to)(random); };
  std::vector<Built> out;
  for (int tries = 0; tries < 40 * wanted && static_cast<int>(out.size()) < wanted; ++tries) {
    Job job;
    const double down = pick(14 * 16, 110 * 16) / 16.0, fall = pick(0, 5) / 100.0;
    job.ground.tolerance = inches(0);
    job.ground.lines = {{Line::middle, {{inches(0), inches(down)}, {inches(300), inches(down + 300 * fall)}}}};
    job.pad.raise_at_most = inches(8);
    job.pad.fall = pick(0, 2) / 100.0;
    job.stair.width = inches(pick(36, 60));
    job.stair.top = pick(0, 3) == 0 ? TopMode::full_tread : TopMode::deck_edge;
    job.stair.treads = static_cast<TreadMake>(pick(0, 1));
    job.stair.riser_boards = pick(0, 3) == 0 ? Risers::open : Risers::closed;
    job.stringers.kind = pick(0, 4) == 0 ? StringerKind::solid : StringerKind::cut;
    job.rails.baluster_gap_at_most = inches(pick(24, 34) / 8.0);
    const Site site(job);
    const std::vector<Flight> flights = shape_flights(job, site, shape_limits(job.place));
    if (flights.empty()) continue;
    const Flight& flight = flights.front();
    out.push_back({job, flight, build_frame(job, site, flight, handrail_needed(job.place, flight.risers))});
  }
  return out;
}

/// Highest walking surface at `x`.
double surface(const Built& b, double x) {
  double top = -1e9;
  for (const Part& part : b.frame.parts) {
    const bool walked =
        part.kind == PartKind::tread || part.kind == PartKind::pad_layer || part.mark == "deck" || part.mark == "pad";
    if (!walked) continue;
    // Three inches in is tread on every stair: between uncut stringers the middle may be a stringer.
    const Length y = inches(3.0);
    if (part.solid.normal == Axis::z) {
      if (contains(part.solid.outline, {inches(x), y})) top = std::max(top, part.solid.span.to.raw());
    } else {
      double low = -300, high = 60;  // the upper edge of a layer, by halving
      const Polygon& o = part.solid.outline;
      const Interval reach = extent_a(o), height = extent_b(o);
      if (x <= reach.from.raw() || x >= reach.to.raw()) continue;
      low = height.from.raw() + 1.0;
      high = height.to.raw() + 1.0;
      if (!contains(o, {inches(x), inches(low)})) continue;
      for (int i = 0; i < 50; ++i) (contains(o, {inches(x), inches((low + high) / 2)}) ? low : high) = (low + high) / 2;
      top = std::max(top, low);
    }
  }
  return top;
}

struct Walked {
  std::vector<double> rises, nosings;  ///< lowest first
};

/// Walks from the far end of the landing to the house; every step up is a riser, its place the nosing.
Walked walk(const Built& b) {
  Walked out;
  double height = -1e9;
  double x = b.flight.landing.out.to.raw() - 0.5;
  constexpr double kPace = 0.05;
  for (height = surface(b, x); x > -2.0; x -= kPace) {
    const double next = surface(b, x - kPace);
    if (next < height + 0.5) {  // level, the landing's slope, or a gap between boards
      height = std::max(height, next);
      continue;
    }
    double outer = x, inner = x - kPace;
    for (int i = 0; i < 40; ++i) (surface(b, (outer + inner) / 2) < height + 0.5 ? outer : inner) = (outer + inner) / 2;
    height = std::max(height, surface(b, outer));
    out.rises.push_back(next - height);
    out.nosings.push_back(inner);
    height = next;
  }
  return out;
}

const std::vector<Built>& stairs() {
  static const std::vector<Built> all = built_stairs(150);
  return all;
}

}  // namespace

TEST(RealFrames, RisersAndGoingsAreThoseFeltWhenWalkingUp) {
  ASSERT_EQ(stairs().size(), 150u);
  for (const Built& b : stairs()) {
    const Measured measured = measure(b.job, Site(b.job), b.flight, b.frame);
    const Walked walked = walk(b);
    SCOPED_TRACE(std::to_string(b.flight.risers) + " risers");
    const std::vector<Sample>& risers = find_measure(measured, "riser_height")->samples;
    ASSERT_EQ(walked.rises.size(), risers.size());
    for (std::size_t i = 0; i < risers.size(); ++i) EXPECT_NEAR(walked.rises[i], risers[i].value, 1e-5);
    const std::vector<Sample>& goings = find_measure(measured, "going")->samples;
    for (std::size_t i = 0; i + 1 < walked.nosings.size(); ++i) {
      EXPECT_NEAR(walked.nosings[i] - walked.nosings[i + 1], goings[i].value, 1e-5);
    }
  }
}

TEST(RealFrames, ThroatIsTheLeastWoodBehindAnInnerCorner) {
  int cut = 0;
  for (const Built& b : stairs()) {
    if (b.job.stringers.kind == StringerKind::solid || b.flight.treads() < 2) continue;
    ++cut;
    const Measured measured = measure(b.job, Site(b.job), b.flight, b.frame);
    const Polygon& o = std::ranges::find(b.frame.parts, PartKind::stringer, &Part::kind)->solid.outline;
    // The lower edge is the longest edge that is neither level nor plumb.
    Point p, q;
    for (std::size_t i = 0; i < o.size(); ++i) {
      const Point u = o[i], v = o[(i + 1) % o.size()];
      const bool sloped = abs(u.a - v.a) > inches(0.5) && abs(u.b - v.b) > inches(0.5);
      if (sloped && distance(u, v) > distance(p, q)) {
        p = u;
        q = v;
      }
    }
    if (p == q) continue;  // so short that the foot cuts the lower edge away
    // An inner corner has wood on three sides of it and none up and outwards.
    double least = 1e9;
    for (const Point v : o) {
      const auto wood = [&](double dx, double dz) { return contains(o, v + Point{inches(dx), inches(dz)}); };
      if (wood(0.01, 0.02) || !wood(-0.01, 0.02) || !wood(-0.01, -0.02) || !wood(0.01, -0.02)) continue;
      const double cross = (q.a - p.a).raw() * (v.b - p.b).raw() - (q.b - p.b).raw() * (v.a - p.a).raw();
      least = std::min(least, std::abs(cross) / distance(p, q).raw());
    }
    EXPECT_NEAR(find_measure(measured, "throat")->samples.front().value, least, 1e-6);
  }
  EXPECT_GT(cut, 80);
}

TEST(RealFrames, WidestGapIsTheLongestWayAlongTheGuardThroughAir) {
  int guarded = 0;
  for (std::size_t n = 0; n < stairs().size(); n += 5) {
    const Built& b = stairs()[n];
    const Measured measured = measure(b.job, Site(b.job), b.flight, b.frame);
    const Measure* gaps = find_measure(measured, "guard_opening");
    if (gaps->samples.empty()) continue;
    ++guarded;
    std::vector<const Part*> uprights;
    double last = 0;
    for (const Part& part : b.frame.parts) {
      if (part.side != Line::left || (part.kind != PartKind::post && part.kind != PartKind::baluster)) continue;
      uprights.push_back(&part);
      last = std::max(last, box(part.solid)[0].to.raw());
    }
    // In the plane of the balusters, 18 in above the line of nosings: posts and balusters both cross it.
    double longest = 0, air = 0;
    for (double x = 0; x < last; x += 0.01) {
      const Point3 p{inches(x), inches(-2.25),
                     inches(18.0) - inches(x) * (b.flight.unit_rise / b.flight.going) +
                         (b.flight.top == TopMode::full_tread ? b.flight.unit_rise : Length())};
      const bool solid = std::ranges::any_of(uprights, [&](const Part* part) { return contains(part->solid, p); });
      air = solid ? 0 : air + 0.01;
      longest = std::max(longest, air);
    }
    double widest = 0;
    for (const Sample& s : gaps->samples) {
      if (s.where.starts_with("left")) widest = std::max(widest, s.value);
    }
    EXPECT_NEAR(widest, longest, 0.03);
  }
  EXPECT_GT(guarded, 10);
}

TEST(RealFrames, NoRuleOfTheStepsFailsOnAStairShapedToTheRules) {
  for (const Built& b : stairs()) {
    for (const Finding& f : judge(b.job, Site(b.job), b.flight, b.frame)) {
      for (const char* quantity : {"riser_height", "riser_variation", "going", "going_variation", "flight_rise",
                                   "landing_depth", "handrail_height", "handrail_clearance", "guard", "guard_height"}) {
        if (f.quantity == quantity) {
          EXPECT_NE(f.verdict, Verdict::fail) << f.change;
        }
      }
    }
  }
}

TEST(RealFrames, OfTheStepsAloneTheFindingsAreThoseOfAllRules) {
  std::size_t found = 0, failing = 0;
  for (const Built& b : stairs()) {
    const std::vector<Finding> all = judge(b.job, Site(b.job), b.flight, b.frame, false);
    for (const Finding& f : judge_steps(b.job, Site(b.job), b.flight, b.frame)) {
      const auto same = std::ranges::find_if(all, [&](const Finding& g) {
        return std::tie(g.pack, g.clause, g.quantity, g.sentence, g.compare) ==
               std::tie(f.pack, f.clause, f.quantity, f.sentence, f.compare);
      });
      ASSERT_NE(same, all.end()) << f.clause;
      ++found;
      failing += f.verdict == Verdict::fail;
      // What hangs on more than the steps is left open; nothing fails that holds.
      const bool open = f.verdict == Verdict::too_close || f.verdict == Verdict::not_checked;
      if (!open) {
        EXPECT_EQ(f.verdict, same->verdict) << f.clause << " " << f.quantity;
      }
    }
  }
  EXPECT_GT(found, 50u);
  EXPECT_GT(failing, 0u);
}

TEST(RealFrames, FindingsThatNobodyReadsAreTheSameInAllButWords) {
  for (const Built& b : stairs()) {
    const std::vector<Finding> told = judge(b.job, Site(b.job), b.flight, b.frame),
                               untold = judge(b.job, Site(b.job), b.flight, b.frame, false);
    ASSERT_EQ(untold.size(), told.size());
    for (std::size_t i = 0; i < told.size(); ++i) {
      const Finding &f = told[i], &g = untold[i];
      EXPECT_EQ(std::tie(g.clause, g.quantity, g.sentence, g.verdict, g.measured, g.limit, g.margin, g.applies),
                std::tie(f.clause, f.quantity, f.sentence, f.verdict, f.measured, f.limit, f.margin, f.applies));
      if (f.verdict == Verdict::fail) {
        EXPECT_EQ(g.change, f.change);
      }
    }
  }
}

TEST(RealFrames, WidthIsHowFarAHandReachesToBothGuards) {
  int guarded = 0;
  for (const Built& b : stairs()) {
    const auto post = std::ranges::find(b.frame.parts, PartKind::post, &Part::kind);
    if (post == b.frame.parts.end()) continue;
    ++guarded;
    // From the middle sideways, knee-high over the foot of a post, until wood is met on either side.
    const auto [px, py, pz] = box(post->solid);
    const double middle = b.job.stair.width.raw() / 2;
    double reached = 0;
    for (const double way : {-1.0, 1.0}) {
      double y = 0;
      const auto met = [&] {
        const Point3 hand{px.middle(), inches(middle + way * y), pz.to - inches(12)};
        return std::ranges::any_of(b.frame.parts,
                                   [&](const Part& p) { return p.kind == PartKind::post && contains(p.solid, hand); });
      };
      while (y < 100 && !met()) y += 0.01;
      reached += y;
    }
    const Measured measured = measure(b.job, Site(b.job), b.flight, b.frame);
    EXPECT_NEAR(find_measure(measured, "clear_width_above_rail")->samples.front().value, reached, 0.03);
  }
  EXPECT_GT(guarded, 100);
}

TEST(RealFrames, EqualJobsGiveEqualFindings) {
  const Built& b = stairs().front();
  const auto once = judge(b.job, Site(b.job), b.flight, b.frame), twice = judge(b.job, Site(b.job), b.flight, b.frame);
  ASSERT_EQ(once.size(), twice.size());
  for (std::size_t i = 0; i < once.size(); ++i) {
    EXPECT_EQ(once[i].change, twice[i].change);
    EXPECT_EQ(once[i].measured, twice[i].measured);
  }
}
