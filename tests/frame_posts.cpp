// Three ways to hold a post better: thicker bolts, a hold-down at the upper one, and concrete round its foot.

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <optional>

#include "engine/base/catalog.hpp"
#include "engine/frame/post_ties.hpp"
#include "tests/frame_fixture.hpp"

namespace pitchboard {
namespace {

std::string told(const Frame& frame) {
  return frame.clashes.empty() ? ""
                               : frame.clashes[0].kind + " " + frame.clashes[0].first + ": " + frame.clashes[0].note;
}

bool noted(const Frame& frame, const std::string& words) {
  return std::ranges::any_of(frame.notes, [&](const std::string& n) { return n.find(words) != std::string::npos; });
}

/// Bolts of each post, the upper one first.
std::map<std::string, std::vector<Fastener>> bolts_of(const Frame& frame) {
  std::map<std::string, std::vector<Fastener>> out;
  for (const Fastener& f : frame.fasteners) {
    // Under a pulled head a plate comes first.
    const bool plate = frame.parts[f.joins.front()].section.nominal == "plate-washer";
    const Part& post = frame.parts[f.joins[plate ? 1 : 0]];
    if (post.kind == PartKind::post && f.item.starts_with("bolt")) out[post.mark].push_back(f);
  }
  for (auto& [mark, bolts] : out)
    std::ranges::sort(bolts, std::greater<>(), [](const Fastener& f) { return f.head.z; });
  return out;
}

TEST(PostBolts, OfFiveEighthsKeepThreeDiametersApartAndOneAndAHalfFromTheEdges) {
  for (Job job : good_jobs()) {
    job.rails.post_bolt = BoltSize::five_eighths;
    const Standing s = stand(job);
    EXPECT_EQ(told(s.frame), "");
    for (const auto& [mark, bolts] : bolts_of(s.frame)) {
      ASSERT_EQ(bolts.size(), 2u);
      // SOURCE NDS 2018 Tables 12.5.1B and 12.5.1C: 3D = 1.875 in, 1.5D = 0.9375 in.
      EXPECT_GE(in_inches(bolts[0].head.z - bolts[1].head.z), 1.875 - 1e-9) << mark;
      for (const Fastener& f : bolts) {
        EXPECT_EQ(in_inches(f.diameter), 0.625);
        for (const std::size_t p : f.joins) {
          const Prism& solid = s.frame.parts[p].solid;
          EXPECT_GE(in_inches(distance_to_outline(solid.outline, in_plane_of(solid, f.head))), 0.9375 - 1e-9) << mark;
        }
        for (const Hole& hole : holes(s.frame, f)) EXPECT_EQ(in_inches(hole.diameter), 0.65625);
      }
    }
  }
}

TEST(PostBolts, StandAsFarApartAsTheWoodLetsThemAndNoFurtherAcrossTheGrainThanFiveInches) {
  // SOURCE NDS 2018 12.5.1: outermost fasteners at most 5 in apart across the grain unless detailed for shrinkage.
  int at_the_limit = 0;
  for (const int risers : {6, 9, 14}) {
    const Standing s = stand(steps(risers, 7.25));
    const double cosine = 10.25 / std::hypot(10.25, 7.25);
    for (const auto& [mark, bolts] : bolts_of(s.frame)) {
      const double across = in_inches(bolts[0].head.z - bolts[1].head.z) * cosine;
      EXPECT_LE(across, 5.0 + 1e-9) << mark;
      at_the_limit += across > 5.0 - 1e-6;
      // At the foot the rise, less the tread, leaves 5 3/4 in of wood: 2 in over the upper bolt, 1.30 under the lower,
      // whose end distance in the post is 2 D. SOURCE NDS 2018 Table 12.5.1A.
      if (mark.back() == '1') {
        EXPECT_NEAR(in_inches(bolts[0].head.z - bolts[1].head.z), 5.75 - 2.0 - 1.30, 1e-9);
      }
    }
  }
  EXPECT_GE(at_the_limit, 4);
}

TEST(PostBolts, GiveWayToHalfInchWhereTheLowestRiseHasNoWoodForThickerOnes) {
  Job job = steps(4, 5.5, 11.0);
  job.rails.post_bolt = BoltSize::five_eighths;
  const Standing s = stand(job);
  EXPECT_EQ(told(s.frame), "");
  EXPECT_TRUE(noted(s.frame, "no wood for two 5/8 in bolts"));
  for (const auto& [mark, bolts] : bolts_of(s.frame)) EXPECT_EQ(in_inches(bolts[0].diameter), 0.5);
  EXPECT_FALSE(noted(stand(steps(4, 7.25)).frame, "5/8"));
}

TEST(HoldDowns, TieEveryPostsUpperBoltToABlockThatReachesTheNextStringer) {
  for (const BoltSize bolt : {BoltSize::half_inch, BoltSize::five_eighths}) {
    for (Job job : good_jobs()) {
      job.rails.hold_downs = true;
      job.rails.post_bolt = bolt;
      const Standing s = stand(job);
      EXPECT_EQ(told(s.frame), "");
      EXPECT_FALSE(noted(s.frame, "No room for a hold-down"));
      for (const auto& [mark, bolts] : bolts_of(s.frame)) {
        const Fastener& upper = bolts[0];
        // A plate under the head where the other bolt leaves it room.
        const bool plate = s.frame.parts[upper.joins.front()].section.nominal == "plate-washer";
        ASSERT_EQ(upper.joins.size(), plate ? 4u : 3u) << mark;
        EXPECT_EQ(bolts[1].joins.size(), 2u) << mark;
        const std::size_t hold_down = upper.joins.back();
        const std::string& item = s.frame.parts[hold_down].section.nominal;
        EXPECT_TRUE(item == "hold-down-low" || (item == "hold-down" && job.stringers.kind != StringerKind::solid))
            << item;
        EXPECT_TRUE(box(s.frame.parts[hold_down].solid)[2].contains(upper.head.z));
        // Long enough for the post, the stringer, the flange, two washers and the nut.
        EXPECT_GE(in_inches(upper.length), 3.5 + 1.5 + 0.1 + 0.109 + 0.75);
        std::optional<std::size_t> block;
        int screws = 0;
        for (const Fastener& f : s.frame.fasteners) {
          if (f.joins.front() != hold_down) continue;
          ++screws;
          block = f.joins.back();
        }
        ASSERT_TRUE(block) << mark;
        EXPECT_EQ(screws, item == "hold-down-low" ? 12 : 18) << mark;
        const Part& wood = s.frame.parts[*block];
        EXPECT_EQ(wood.kind, PartKind::block);
        EXPECT_EQ(wood.solid.normal, Axis::x) << "on edge, square to the stringers";
        int touched = 0;
        for (const Part& stringer : s.all(PartKind::stringer)) {
          touched += abs(stringer.solid.span.to - box(wood.solid)[1].from) < kTouch;
          touched += abs(stringer.solid.span.from - box(wood.solid)[1].to) < kTouch;
        }
        EXPECT_EQ(touched, 2) << wood.mark;
        std::map<std::string, int> ends;  // fasteners that tie the block's ends to a stringer
        for (std::size_t a = 0; a < s.frame.parts.size(); ++a) {
          bool on_block = false;
          std::string stringer;
          for (const Fastener& f : s.frame.fasteners) {
            const bool through = f.joins.size() == 2 && f.joins[1] == *block && f.joins[0] == a &&
                                 s.frame.parts[a].kind == PartKind::stringer;
            if (through) ++ends[s.frame.parts[a].mark];
            if (f.joins.front() != a || !s.frame.parts[a].section.nominal.starts_with("angle-")) continue;
            on_block = on_block || f.joins.back() == *block;
            if (s.frame.parts[f.joins.back()].kind == PartKind::stringer) stringer = s.frame.parts[f.joins.back()].mark;
          }
          if (on_block) ++ends[stringer];
        }
        EXPECT_EQ(ends.size(), 2u) << wood.mark << " is held at both ends";
      }
    }
  }
}

TEST(HoldDowns, AreNotThereUnlessAskedAndAPostWithoutRoomIsNamed) {
  for (const Part& part : stand(steps(6, 7.25)).frame.parts) EXPECT_NE(part.section.nominal, "hold-down");
  Job low = steps(4, 5.5, 11.0);
  low.rails.hold_downs = true;
  const Standing s = stand(low);
  EXPECT_EQ(told(s.frame), "");
  EXPECT_TRUE(noted(s.frame, "No room for a hold-down at PL1, PR1: have it looked at."));
}

TEST(HoldDowns, ABayShorterThanTheirLegsHasNoRoomForAny) {
  int with_room = 0, without = 0;
  for (const int stringers : {2, 3, 4, 5, 6}) {
    Job job = steps(6, 7.25);
    job.rails.hold_downs = true;
    job.stringers.count = stringers;
    const Standing s = stand(job);
    SCOPED_TRACE(stringers);
    const Site site(job);
    Skeleton counted = counted_stringers(job, site, s.flight);
    count_posts(counted);
    const bool room = count_hold_downs(counted, {0}, {"hold-down", "angle-2"});
    const bool stands =
        std::ranges::any_of(s.frame.parts, [](const Part& p) { return p.section.nominal.starts_with("hold-down"); });
    EXPECT_TRUE(room || !stands);  // room in the bay is not all that one needs
    (room ? with_room : without) += 1;
  }
  EXPECT_GT(with_room, 0);
  EXPECT_GT(without, 0);
}

TEST(PoleDepth, SolvesTheFormulaOfTheBuildingCode) {
  // SOURCE from memory: IBC 1807.3.2.1. With S1 = k d / 3, d = A/2 (1 + √(1 + 4.36 h/A)) becomes the cubic
  // k b d³ / (7.02 P) - d - 1.09 h = 0.
  for (const double push : {50.0, 200.0, 500.0}) {
    for (const double height : {24.0, 48.0, 60.0}) {
      for (const double width : {12.0, 16.0}) {
        const double d = in_inches(pole_depth(pounds(push), inches(height), inches(width), 100)) / 12;
        EXPECT_NEAR(100 * (width / 12) * d * d * d / (7.02 * push) - d - 1.09 * height / 12, 0, 1e-6);
      }
    }
  }
  // By hand, 200 lb 4 ft up on a 12 in footing: 0.071225 · 5.05³ - 5.05 - 4.36 = -0.24, at 5.12 ft +0.08.
  EXPECT_NEAR(in_inches(pole_depth(pounds(200), inches(48), inches(12), 100)) / 12, 5.10, 0.02);
}

Job in_concrete(PadMake make) {
  Job job = steps(6, 7.25);
  job.pad.make = make;
  job.rails.foot_posts = FootPosts::footing;
  return job;
}

TEST(Footings, HoldTheLowestPostsUnderTheLandingAndDeepEnoughForTheRailAndTheFrost) {
  for (const PadMake make : {PadMake::pavers, PadMake::concrete, PadMake::gravel}) {
    for (const double frost : {0.0, 90.0}) {
      Job job = in_concrete(make);
      if (frost > 0) job.place.frost_depth = inches(frost);
      const Standing s = stand(job);
      EXPECT_EQ(told(s.frame), "");
      EXPECT_EQ(s.all(PartKind::footing).size(), 2u);
      for (const std::string side : {"L", "R"}) {
        const auto footing = box(s.part("P" + side + "1F").solid), post = box(s.part("P" + side + "1").solid);
        for (const Part& layer : s.all(PartKind::pad_layer))
          EXPECT_LE(footing[2].to, box(layer.solid)[2].from + kTouch);
        EXPECT_NEAR(in_inches(footing[0].size()), 12, 1e-9);
        EXPECT_NEAR(in_inches(footing[1].size()), 12, 1e-9);
        EXPECT_NEAR(in_inches(footing[2].to - post[2].from), 24, 1e-9) << "embedded";
        EXPECT_GE(in_inches(post[2].from - footing[2].from), 3 - 1e-9) << "concrete under the foot";
        for (const std::size_t axis : {0u, 1u})
          EXPECT_TRUE(footing[axis].contains(post[axis].from) && footing[axis].contains(post[axis].to));
        const Length top = s.line_at(post[0].from + post[0].size() / 2.0) + job.rails.height;
        EXPECT_GE(footing[2].size() + inches(1e-6), pole_depth(pounds(200), top - footing[2].to, inches(12), 100));
        EXPECT_GE(in_inches(s.flight.landing.z - footing[2].from), frost - 0.5);
        EXPECT_TRUE(find_treatment(s.part("P" + side + "1").treatment)->ground_contact);
      }
      for (const Part& part : s.frame.parts) EXPECT_FALSE(part.mark.starts_with("AP")) << "no angle at the foot";
      EXPECT_TRUE(noted(s.frame, "utilities") && noted(s.frame, "concrete round the lowest posts set"));
    }
  }
}

TEST(Footings, LetNoPartIntoTheGroundButTheirOwnPost) {
  const Standing s = stand(in_concrete(PadMake::pavers));
  const auto overlaps = [](const Frame& frame) {
    int count = 0;
    for (const Clash& c : find_clashes(frame)) count += c.kind == "overlap";
    return count;
  };
  const auto at = [&](const std::string& mark) {
    return static_cast<std::size_t>(std::ranges::find(s.frame.parts, mark, &Part::mark) - s.frame.parts.begin());
  };
  EXPECT_EQ(overlaps(s.frame), 0);
  Frame other = s.frame;  // a footing of another name does not count
  other.parts[at("PL1F")].mark = "PL9F";
  EXPECT_GE(overlaps(other), 4) << "footing and three layers";
  Frame aside = s.frame;  // nor one that the foot does not stand in
  for (Point& p : aside.parts[at("PL1F")].solid.outline) p.a += inches(8.0);
  EXPECT_GE(overlaps(aside), 3) << "three layers";
  Frame block = s.frame;  // nor anything but a post
  block.parts[at("PL1")].kind = PartKind::block;
  EXPECT_GE(overlaps(block), 4);
}

TEST(Footings, ALandingThatIsThereIsNotBrokenOpen) {
  Job job = steps(6, 7.25);
  job.pad.existing = true;
  job.pad.make = PadMake::concrete;
  job.pad.from = inches(10);
  job.pad.down = inches(6 * 7.25);
  job.rails.foot_posts = FootPosts::footing;
  const Standing s = stand(job);
  EXPECT_EQ(told(s.frame), "");
  EXPECT_TRUE(s.all(PartKind::footing).empty());
  EXPECT_TRUE(noted(s.frame, "not broken open"));
}

}  // namespace
}  // namespace pitchboard
