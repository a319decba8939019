// Posts, rails, balusters, cap and handrail, measured on the finished parts.

#include <gtest/gtest.h>

#include <cmath>
#include <tuple>

#include "tests/frame_fixture.hpp"

namespace pitchboard {
namespace {

constexpr double kExact = 1e-9;

/// Height over the nosing line of a part's lower or upper edge at `x`, plumb.
double over_line(const Standing& s, const Part& part, Length x, bool top) {
  const auto slices = slice_at_a(part.solid.outline, x);
  EXPECT_FALSE(slices.empty()) << part.mark;
  if (slices.empty()) return 0;
  return in_inches((top ? slices.back().to : slices.front().from) - s.line_at(x));
}

/// Clear gaps between balusters and posts of one bay, level.
std::vector<double> gaps(const Standing& s, Line side, Interval clear) {
  std::vector<Interval> there;
  for (const Part& part : s.all(PartKind::baluster)) {
    const Interval x = extent_a(part.solid.outline);
    if (part.side == side && clear.contains(x.middle())) there.push_back(x);
  }
  std::ranges::sort(there, {}, &Interval::from);
  std::vector<double> out;
  Length from = clear.from;
  for (const Interval& x : there) {
    out.push_back(in_inches(x.from - from));
    from = x.to;
  }
  out.push_back(in_inches(clear.to - from));
  return out;
}

TEST(Rails, RunBetweenThePostsParallelToTheSlope) {
  for (const Job& job : good_jobs()) {
    const Standing s = stand(job);
    int rails = 0;
    for (const Part& part : s.frame.parts) {
      if (part.kind != PartKind::top_rail && part.kind != PartKind::bottom_rail) continue;
      ++rails;
      const Interval x = extent_a(part.solid.outline);
      const Length in = inches(0.01);
      EXPECT_NEAR(over_line(s, part, x.from + in, true), over_line(s, part, x.to - in, true), kExact);
      EXPECT_NEAR(over_line(s, part, x.from + in, false), over_line(s, part, x.to - in, false), kExact);
      // Square to the slope it is as deep as its board.
      EXPECT_NEAR(in_inches(extent_b(board_outline(part)).to), in_inches(part.section.width), kExact);
      int met = 0;
      for (const Part& post : s.all(PartKind::post)) {
        if (post.side != part.side) continue;
        const Interval p = extent_a(post.solid.outline);
        met += abs(p.to - x.from) < kTouch || abs(p.from - x.to) < kTouch;
      }
      EXPECT_EQ(met, 2) << part.mark;
    }
    EXPECT_GE(rails, 4);
  }
}

TEST(Rails, TheCapsTopIsAtTheAskedHeightOverTheNosings) {
  for (const double height : {34.0, 36.0, 42.0}) {
    Job job = steps(6, 7.25);
    job.rails.height = inches(height);
    const Standing s = stand(job);
    ASSERT_EQ(s.all(PartKind::cap).size(), 2u);
    for (const Part& cap : s.all(PartKind::cap)) {
      EXPECT_NEAR(over_line(s, cap, s.nosing_x(3), true), height, kExact);
    }
  }
}

TEST(Rails, TheCapOverhangsThePostsOnBothSides) {
  for (const double overhang : {0.0, 0.375, 0.75}) {
    Job job = steps(6, 7.25);
    job.rails.cap_overhang = inches(overhang);
    const Standing s = stand(job);
    for (const Part& cap : s.all(PartKind::cap)) {
      for (const Part& post : s.all(PartKind::post)) {
        if (post.side != cap.side) continue;
        EXPECT_NEAR(in_inches(post.solid.span.from - cap.solid.span.from), overhang, kExact);
        EXPECT_NEAR(in_inches(cap.solid.span.to - post.solid.span.to), overhang, kExact);
      }
    }
  }
}

TEST(Rails, PostsStandNoFurtherApartThanAsked) {
  for (const int risers : {6, 9, 14, 18}) {
    for (const double apart : {72.0, 60.0, 48.0}) {
      Job job = steps(risers, 7.25);
      job.rails.post_spacing_at_most = inches(apart);
      const Standing s = stand(job);
      std::vector<Length> middles;
      for (const Part& post : s.all(PartKind::post)) {
        if (post.side == Line::left) middles.push_back(extent_a(post.solid.outline).middle());
      }
      std::ranges::sort(middles);
      ASSERT_GE(middles.size(), 2u);
      for (std::size_t i = 1; i < middles.size(); ++i) {
        EXPECT_LE(in_inches(middles[i] - middles[i - 1]), apart + kExact) << risers << " risers, " << apart << " in";
      }
    }
  }
}

TEST(Rails, OnlyTheAskedSidesGetARail) {
  Job job = steps(6, 7.25);
  job.rails.left = SideRail::none;
  const Standing s = stand(job);
  EXPECT_FALSE(s.frame.guard_left);
  for (const Part& part : s.all(PartKind::post)) EXPECT_EQ(part.side, Line::right);
  job.rails.right = SideRail::none;
  EXPECT_TRUE(stand(job).all(PartKind::post).empty());
}

TEST(Balusters, GapsAreEvenNoneIsWiderThanAskedAndNoBalusterIsOneTooMany) {
  for (const int risers : {5, 6, 8, 11}) {
    for (const double asked : {3.0, 3.5, 3.75, 4.0}) {
      for (const BalusterKind kind : {BalusterKind::wood_2x2, BalusterKind::round_metal}) {
        Job job = steps(risers, 7.25);
        job.rails.baluster_gap_at_most = inches(asked);
        job.rails.balusters = kind;
        const Standing s = stand(job);
        for (const Part& rail : s.all(PartKind::top_rail)) {
          const Interval clear = extent_a(rail.solid.outline);
          const std::vector<double> all = gaps(s, rail.side, clear);
          ASSERT_GT(all.size(), 1u);
          for (const double gap : all) {
            EXPECT_NEAR(gap, all[0], kExact);
            EXPECT_LE(gap, asked + kExact);
          }
          const double thick = kind == BalusterKind::wood_2x2 ? 1.5 : 0.75;
          const auto fewer = static_cast<double>(all.size()) - 2;
          EXPECT_GT((in_inches(clear.size()) - fewer * thick) / (fewer + 1), asked) << "one less would do";
        }
      }
    }
  }
}

TEST(Balusters, A48InBayTakesEightAtExactlyFourInchesAndNineAtThreeAndThreeQuarters) {
  // SOURCE arithmetic of the trade, n = ceil((L - g) / (b + g)): L = 48, 2x2: 8 pieces at 4.000; a 4 in ball touches.
  Job job = steps(7, 7.25);
  job.rails.top_posts = TopPosts::existing;
  // 61 1/2 run, less nosing 1, riser 3/4, 2 1/2 to the post's middle and 1 3/4 to its face: 55 1/2; 48 in to 7 1/2.
  job.rails.existing_post_out = inches(7.5);
  for (const auto& [asked, pieces, gap] : {std::tuple{4.0, 8, 4.0}, std::tuple{3.75, 9, 3.45}}) {
    job.rails.baluster_gap_at_most = inches(asked);
    const Standing s = stand(job);
    const Interval clear{inches(7.5), inches(55.5)};
    const std::vector<double> all = gaps(s, Line::left, clear);
    ASSERT_EQ(all.size(), static_cast<std::size_t>(pieces + 1)) << asked;
    for (const double each : all) EXPECT_NEAR(each, gap, kExact);
  }
}

TEST(Balusters, StandPlumbFromTheBottomRailToTheCap) {
  const Standing s = stand(steps(8, 7.25));
  const Part bottom = s.part("BRL1"), top = s.part("TRL1");
  int seen = 0;
  for (const Part& baluster : s.all(PartKind::baluster)) {
    if (baluster.side != Line::left) continue;
    const Length x = extent_a(baluster.solid.outline).middle();
    if (!extent_a(bottom.solid.outline).contains(x)) continue;
    ++seen;
    EXPECT_NEAR(over_line(s, baluster, x, false), over_line(s, bottom, x, false), kExact);
    EXPECT_NEAR(over_line(s, baluster, x, true), over_line(s, top, x, true), kExact);
    EXPECT_EQ(baluster.solid.span.to, bottom.solid.span.from) << "on the rails' outer face";
  }
  EXPECT_GT(seen, 5);
}

TEST(BottomRail, ASixInchBallDoesNotPassUnderIt) {
  // Independent: the inscribed circle of tread, riser and the rail's underside, grown by halving. SOURCE IRC R312.1.3.
  for (const double rise : {6.5, 7.0, 7.25, 7.75}) {
    for (const double going : {10.0, 10.5, 11.0}) {
      const Standing s = stand(steps(6, rise, going));
      const Part rail = s.part("BRL1");
      const double above = over_line(s, rail, extent_a(rail.solid.outline).middle(), false);
      EXPECT_GT(above, 0.0);
      // Tread along +x from the riser's face, nosings of the riser above at (set_back, rise).
      const double back = in_inches(s.flight.nosing), slope = std::hypot(rise, going);
      const auto fits = [&](double radius) {
        // The ball touches tread and riser; the rail's line is z = rise + above - (x - back) rise / going.
        const double gap = (rise + above - (radius - back) * rise / going - radius) * going / slope;
        return gap >= radius;
      };
      double low = 0, high = 12;
      for (int i = 0; i < 60; ++i) (fits((low + high) / 2) ? low : high) = (low + high) / 2;
      EXPECT_LT(2 * low, 6.0) << rise << " x " << going;
    }
  }
}

TEST(Handrail, ItsTopIs34To38InOverTheNosingsFromTheLowestToTheTop) {
  // SOURCE IRC R311.7.8.1 and R311.7.8.2.
  for (const int risers : {4, 6, 9, 14}) {
    const Standing s = stand(steps(risers, 7.25));
    EXPECT_TRUE(s.frame.handrail_left != s.frame.handrail_right);
    const std::vector<Part> rails = s.all(PartKind::handrail);
    ASSERT_FALSE(rails.empty());
    Interval reach{inches(1e9), inches(-1e9)};
    for (const Part& rail : rails) {
      const Interval x = extent_a(rail.solid.outline);
      reach = {std::min(reach.from, x.from), std::max(reach.to, x.to)};
    }
    EXPECT_LE(reach.from, s.nosing_x(risers));
    EXPECT_GE(reach.to, s.nosing_x(1));
    for (int k = 1; k <= risers; ++k) {
      const Length x = std::min(s.nosing_x(k), reach.to - inches(1e-6));
      for (const Part& rail : rails) {
        if (!extent_a(rail.solid.outline).contains(x)) continue;
        const double height = over_line(s, rail, x, true) - in_inches(s.nosing_z(k) - s.line_at(s.nosing_x(k)));
        EXPECT_GE(height, 34.0);
        EXPECT_LE(height, 38.0);
      }
    }
  }
}

TEST(Handrail, StandsClearOfTheCapByAHandsRoomAndIsHeldWithinFourFeet) {
  const Standing s = stand(steps(12, 7.25));
  const std::vector<Part> caps = s.all(PartKind::cap);
  for (const Part& rail : s.all(PartKind::handrail)) {
    for (const Part& cap : caps) {
      if (cap.side != rail.side) continue;
      // SOURCE IRC R311.7.8.3: 1 1/2 in clear.
      EXPECT_LE(in_inches(overlap(rail.solid.span, cap.solid.span)), -1.5);
    }
  }
  std::vector<Length> held;
  for (const Part& part : s.all(PartKind::connector)) {
    if (part.section.nominal == "handrail-bracket") held.push_back(extent_a(part.solid.outline).middle());
  }
  std::ranges::sort(held);
  ASSERT_GE(held.size(), 3u);
  for (std::size_t i = 1; i < held.size(); ++i) EXPECT_LE(in_inches(held[i] - held[i - 1]), 50.0);
}

TEST(Handrail, IsThereWhenNeededOrAskedAndNotWhenRefused) {
  Job job = steps(4, 7.25);
  EXPECT_FALSE(stand(job, true).all(PartKind::handrail).empty());
  EXPECT_TRUE(stand(job, false).all(PartKind::handrail).empty());
  job.rails.handrail = HandrailWish::yes;
  EXPECT_FALSE(stand(job, false).all(PartKind::handrail).empty());
  job.rails.handrail = HandrailWish::no;
  EXPECT_TRUE(stand(job, true).all(PartKind::handrail).empty());
}

}  // namespace
}  // namespace pitchboard
