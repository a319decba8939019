// Fasteners: their sizes and holes as the data say, where they stand, and what they hold.

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>

#include "engine/base/catalog.hpp"
#include "tests/frame_fixture.hpp"

namespace pitchboard {
namespace {

/// Joined parts that the axis really runs through, measured by small steps along it.
Length run_inside(const Part& part, const Fastener& f) {
  constexpr int kSteps = 4000;
  int in = 0;
  for (int i = 0; i < kSteps; ++i) {
    in += contains(part.solid, moved(f.head, f.direction, f.length * ((i + 0.5) / kSteps)));
  }
  return f.length * (static_cast<double>(in) / kSteps);
}

TEST(Fasteners, AreOfTheSizesThatTheDataSay) {
  for (const Job& job : good_jobs()) {
    for (const Fastener& f : stand(job).frame.fasteners) {
      const HardwareRow* row = find_hardware(f.item);
      ASSERT_NE(row, nullptr) << f.item;
      EXPECT_EQ(f.length, inches(row->length));
      EXPECT_EQ(f.diameter, inches(row->diameter));
      EXPECT_EQ(f.head_radius, inches(row->head_radius));
      EXPECT_EQ(f.nut_height, inches(row->nut_height));
      EXPECT_NEAR(std::hypot(f.direction.x, f.direction.y, f.direction.z), 1.0, 1e-12);
      EXPECT_FALSE(f.reason.empty());
    }
  }
}

TEST(Fasteners, MarksAreUniqueOnFastenersAndParts) {
  for (const Job& job : good_jobs()) {
    const Standing s = stand(job);
    std::set<std::string> marks;
    for (const Fastener& f : s.frame.fasteners) EXPECT_TRUE(marks.insert(f.mark).second) << f.mark;
    marks.clear();
    for (const Part& part : s.frame.parts) EXPECT_TRUE(marks.insert(part.mark).second) << part.mark;
  }
}

TEST(Holes, AreClearanceInTheOuterPartsAndPilotInTheLastExceptForBolts) {
  for (const std::string species : {"southern-pine", "western-cedar"}) {
    const SpeciesRow* wood = find_species(species);
    ASSERT_NE(wood, nullptr);
    for (Job job : good_jobs()) {
      job.wood.species = species;
      const Standing s = stand(job);
      for (const Fastener& f : s.frame.fasteners) {
        const HardwareRow& row = *find_hardware(f.item);
        std::size_t bored = 0;
        for (const std::size_t part : f.joins) bored += s.frame.parts[part].kind != PartKind::connector;
        ASSERT_EQ(holes(s.frame, f).size(), bored) << f.item << " " << f.reason;
        for (const Hole& hole : holes(s.frame, f)) {
          const bool last = hole.part == f.joins.back() && row.kind != "bolt";
          EXPECT_EQ(hole.kind, last ? HoleKind::pilot : HoleKind::clearance) << f.reason;
          if (!last) {
            EXPECT_EQ(hole.diameter, inches(row.clearance_drill));
          } else if (!s.frame.parts[hole.part].species.empty()) {
            // SOURCE NDS 2018 12.1.4: lead holes are larger in wood denser than G 0.50.
            EXPECT_EQ(hole.diameter, inches(wood->gravity > 0.5 ? row.pilot_hard : row.pilot_soft)) << f.reason;
          }
        }
      }
    }
  }
  EXPECT_GT(find_species("southern-pine")->gravity, 0.5);
  EXPECT_LT(find_species("western-cedar")->gravity, 0.5);
}

TEST(Holes, LieInTheirPartAsDeepAsTheFastenerRunsThere) {
  const Standing s = stand(steps(6, 7.25));
  for (const Fastener& f : s.frame.fasteners) {
    for (const Hole& hole : holes(s.frame, f)) {
      const Part& part = s.frame.parts[hole.part];
      EXPECT_NEAR(in_inches(hole.depth), in_inches(run_inside(part, f)), 0.005) << f.reason;
      EXPECT_TRUE(contains(part.solid, moved(hole.at, f.direction, hole.depth / 2.0))) << f.reason;
      EXPECT_LT(in_inches(distance(hole.at, hole.at, f.head, moved(f.head, f.direction, f.length))), 1e-9);
    }
  }
}

TEST(Fasteners, RunThroughEveryPartTheyJoinAndNoScrewComesOut) {
  for (const Job& job : good_jobs()) {
    const Standing s = stand(job);
    for (const Fastener& f : s.frame.fasteners) {
      for (const std::size_t part : f.joins) EXPECT_GT(run_inside(s.frame.parts[part], f), Length()) << f.reason;
      if (!f.item.starts_with("screw")) continue;
      const Point3 tip = moved(f.head, f.direction, f.length - inches(0.02));
      EXPECT_TRUE(contains(s.frame.parts[f.joins.back()].solid, tip)) << f.item << " " << f.reason;
    }
  }
}

TEST(Bolts, StandTwoInchesFromTheEdgesWhereThereIsRoomAndThreeDiametersApart) {
  for (const int risers : {6, 9, 14}) {
    const Standing s = stand(steps(risers, 7.25));
    std::map<std::string, std::vector<Fastener>> posts;
    for (const Fastener& f : s.between(PartKind::post, PartKind::stringer)) {
      const Part &post = s.frame.parts[f.joins[0]], &stringer = s.frame.parts[f.joins[1]];
      posts[post.mark].push_back(f);
      const Length edge = distance_to_outline(stringer.solid.outline, in_plane_of(stringer.solid, f.head));
      // The lowest post stands by the kicker's notch: there it keeps what NDS asks of a dowel, 1.5 diameters.
      const bool foot = post.mark.back() == '1';
      EXPECT_GE(in_inches(edge), foot ? 0.75 : 2.0 - 1e-9) << post.mark;
      const auto wood = slice_at_a(stringer.solid.outline, f.head.x);
      ASSERT_FALSE(wood.empty());
      // SOURCE Wisconsin SPS 320-325 App. B s.13: bolts 2 in from the edges of the wood.
      EXPECT_GE(in_inches(wood.back().to - f.head.z), 2.0 - 1e-9) << post.mark;
    }
    ASSERT_GE(posts.size(), 4u);
    for (const auto& [mark, bolts] : posts) {
      ASSERT_EQ(bolts.size(), 2u) << mark;
      EXPECT_GE(in_inches(distance(bolts[0].head, bolts[0].head, bolts[1].head, bolts[1].head)), 1.5) << mark;
      EXPECT_NE(bolts[0].head.x, bolts[1].head.x) << "staggered, so that one check cannot cross both";
    }
  }
}

TEST(Bolts, OfAPostAreSixInchesLong) {
  // SOURCE arithmetic of the trade: a 4x4 of 3 1/2, a 2x of 1 1/2 and 1 in of washers and nut make 6 in; the washers
  // and the nut of 1/2 in hardware take 0.77, and 6 in is the next length sold.
  const Standing s = stand(steps(6, 7.25));
  for (const Fastener& f : s.between(PartKind::post, PartKind::stringer)) EXPECT_EQ(f.length, inches(6.0)) << f.item;
}

TEST(Screws, OfTreadsFindEveryStringerTwiceOnEachWholeBoard) {
  Job job = steps(6, 7.25);
  job.rails.left = job.rails.right = SideRail::none;
  const Standing s = stand(job);
  std::map<std::pair<std::string, std::string>, int> screws;
  for (const Fastener& f : s.between(PartKind::tread, PartKind::stringer)) {
    ++screws[{s.frame.parts[f.joins[0]].mark, s.frame.parts[f.joins[1]].mark}];
    EXPECT_EQ(f.item, "screw-10x3") << "a 2x tread takes a 3 in screw";
  }
  EXPECT_EQ(screws.size(), s.all(PartKind::tread).size() * s.all(PartKind::stringer).size());
  for (const auto& [pair, count] : screws) EXPECT_EQ(count, 2) << pair.first << " on " << pair.second;
}

TEST(Connectors, OneHangsEveryStringersHeadAndOneHoldsEveryFoot) {
  for (const int risers : {4, 6, 9}) {
    const Standing s = stand(steps(risers, 7.25));
    for (const Part& stringer : s.all(PartKind::stringer)) {
      int head = 0, foot = 0;
      for (std::size_t i = 0; i < s.frame.parts.size(); ++i) {
        const Part& connector = s.frame.parts[i];
        if (connector.kind != PartKind::connector) continue;
        bool to_stringer = false, to_other = false;
        for (const Fastener& f : s.frame.fasteners) {
          if (f.joins.front() != i) continue;
          to_stringer |= s.frame.parts[f.joins.back()].mark == stringer.mark;
          to_other |= s.frame.parts[f.joins.back()].mark != stringer.mark;
        }
        if (!to_stringer || !to_other) continue;
        head += connector.section.nominal == "stringer-connector";
        foot += connector.section.nominal == "angle-2";
      }
      EXPECT_EQ(head, 1) << stringer.mark;
      EXPECT_EQ(foot, 1) << stringer.mark;
    }
  }
}

TEST(Connectors, AreAllInTheHardwareData) {
  for (const Job& job : good_jobs()) {
    for (const Part& part : stand(job).all(PartKind::connector)) {
      EXPECT_NE(find_hardware(part.section.nominal), nullptr) << part.section.nominal;
    }
  }
}

}  // namespace
}  // namespace pitchboard
