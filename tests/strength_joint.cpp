// Joints read from small frames built by hand, and from a whole stair.

#include <gtest/gtest.h>

#include <cmath>

#include "engine/frame/layout.hpp"
#include "engine/strength/dowel.hpp"
#include "engine/strength/frame_joint.hpp"
#include "tests/frame_fixture.hpp"

namespace pitchboard {
namespace {

constexpr Direction kInwards{-1, 0, 0};

/// Two boards face to face: the side one at x 0 to its thickness, the main one behind it. Outlines in (y, z), 48 in
/// long along y and 24 in high, the middle at 0.
struct Boards {
  Job job;
  Frame frame;
  Boards(double side, double main) {
    add_board("A", {inches(0), inches(side)});
    add_board("B", {inches(-main), inches(0)});
  }
  void add_board(const std::string& mark, Interval x) {
    Part part;
    part.mark = mark;
    part.use = "board " + mark;
    part.section = {"2x12", inches(1.5), inches(11.25)};
    part.species = "southern-pine";
    part.grade = "no2";
    part.solid = {Axis::x, x, rectangle({inches(-24), inches(24)}, {inches(-12), inches(12)})};
    frame.parts.push_back(part);
  }
  void turn_grain(std::size_t part) {
    frame.parts[part].grain_a = 0;
    frame.parts[part].grain_b = 1;
  }
  void drive(const char* item, double y = 0, double z = 0) {
    fasten(frame, *find_hardware(item), {frame.parts[0].solid.span.to, inches(y), inches(z)}, kInwards, {0, 1},
           "holds A to B");
  }
  [[nodiscard]] Check pull(ForceVector force, std::size_t loaded = 0, double duration = 1.0) const {
    JointDuty duty;
    for (std::size_t i = 0; i < frame.fasteners.size(); ++i) duty.fasteners.push_back(i);
    duty.loaded = loaded;
    duty.forces = {force};
    duty.load_duration = duration;
    JointedFrame jointed(job, frame);
    return check_joint(jointed, duty);
  }
};

bool says(const Check& check, const std::string& words) { return check.note.find(words) != std::string::npos; }

// SOURCE from memory: NDS 2018 Table 12A, 1/2 in bolt, 1-1/2 and 1-1/2 in, G 0.55: 530, 330, 330, 250 lb; wet 0.7.
TEST(Joints, OneBoltCarriesTheTablesValue) {
  Boards boards(1.5, 1.5);
  boards.drive("bolt-1/2x4");
  const Check along = boards.pull({0, 100, 0});
  EXPECT_NEAR(along.capacity / 0.7, 530, 5);
  EXPECT_NEAR(along.ratio, 100 / along.capacity, 1e-12);
  EXPECT_EQ(along.verdict, Verdict::pass);
  EXPECT_NEAR(boards.pull({0, 0, 100}).capacity / 0.7, 250, 5);
  boards.turn_grain(1);
  EXPECT_NEAR(boards.pull({0, 100, 0}).capacity / 0.7, 330, 5);
  EXPECT_NEAR(boards.pull({0, 0, 100}).capacity / 0.7, 330, 5);
  EXPECT_EQ(boards.pull({0, 1000, 0}).verdict, Verdict::fail);
}

// SOURCE NDS 2018 11.3.2, 11.3.3, Table 2.3.2: CD at most 1.6; dry in service with one fastener CM 1.
TEST(Joints, TakeDurationAndMoistureOnce) {
  Boards boards(1.5, 1.5);
  boards.drive("bolt-1/2x4");
  const double normal = boards.pull({0, 100, 0}).capacity;
  EXPECT_NEAR(boards.pull({0, 100, 0}, 0, 1.6).capacity, 1.6 * normal, 1e-9);
  EXPECT_NEAR(boards.pull({0, 100, 0}, 0, 2.0).capacity, 1.6 * normal, 1e-9);
  boards.job.wood.wet = false;
  EXPECT_NEAR(boards.pull({0, 100, 0}).capacity, normal / 0.7, 1e-9);
}

// SOURCE from memory: NDS 2018 Table 12F, 1/2 in bolt, main and sides 1-1/2 in, G 0.55, along the grain: 1150 lb.
TEST(Joints, ABoltThroughThreeBoardsIsShearedTwice) {
  Boards boards(1.5, 1.5);
  boards.add_board("C", {inches(-3), inches(-1.5)});
  fasten(boards.frame, hardware("bolt-1/2x6"), {inches(1.5), inches(0), inches(0)}, kInwards, {0, 1, 2}, "");
  EXPECT_NEAR(boards.pull({0, 100, 0}, 1).capacity / 0.7, 1150, 5);
}

// SOURCE NDS 2018 Table 12L: No. 10 screw, side 1-1/2 in; 128 lb at G 0.55 computed by another code that reproduces the
// table.
TEST(Joints, AScrewCarriesTheTablesValueInEveryDirectionOfTheFace) {
  Boards boards(1.5, 3.5);
  boards.drive("screw-10x3-1/2");
  for (const ForceVector force : {ForceVector{0, 100, 0}, {0, 0, -100}, {0, 60, 80}}) {
    const Check check = boards.pull(force);
    EXPECT_NEAR(check.capacity / 0.7, 128, 0.5);
    EXPECT_TRUE(says(check, "the report of the screw"));
  }
}

// SOURCE NDS 2018 12.2.2: 2850 G^2 D an inch of thread; 12.2.5: 1725 pi DH^2 G^2; by hand.
TEST(Joints, APulledScrewGivesWayAtItsThreadOrItsHead) {
  Boards boards(1.5, 3.5);
  boards.drive("screw-10x3-1/2");
  const double thread = 2850 * 0.55 * 0.55 * 0.19 * 2.0 * 0.7, head = 1725 * kPi * 0.363 * 0.363 * 0.55 * 0.55 * 0.7;
  const Check check = boards.pull({100, 0, 0});
  EXPECT_NEAR(value_of(check.figures, "W'p"), thread, 1e-6);
  EXPECT_NEAR(value_of(check.figures, "W'H"), head, 1e-6);
  EXPECT_NEAR(check.capacity, std::min(thread, head), 1e-6);
  EXPECT_NEAR(boards.pull({-100, 0, 0}, 1).capacity, check.capacity, 1e-9);  // the other part pulled the other way
  EXPECT_EQ(boards.pull({-100, 0, 0}).verdict, Verdict::not_checked);        // pressed together
  EXPECT_EQ(boards.pull({100, 0, 0}, 1).verdict, Verdict::not_checked);
}

// SOURCE NDS 2018 12.4.1.
TEST(Joints, PullAndShearTogetherFollowTheInteraction) {
  Boards boards(1.5, 3.5);
  boards.drive("screw-10x3-1/2");
  const double z = boards.pull({0, 1, 0}).capacity, w = boards.pull({1, 0, 0}).capacity;
  const double c2 = 0.64, s2 = 0.36;  // 3-4-5 triangle
  EXPECT_NEAR(boards.pull({60, 80, 0}).capacity, w * z / (w * c2 + z * s2), 1e-6);
  // Pressed together, only the shear is asked of the screw.
  EXPECT_NEAR(boards.pull({-60, 80, 0}).ratio, 80 / z, 1e-9);
}

// SOURCE NDS 2018 11.2.3; washer 1-3/8 in with a 9/16 in hole from memory; Fc_perp 565 psi, wet 0.67: 468 lb.
TEST(Joints, APulledBoltBearsOnItsWashers) {
  Boards boards(1.5, 1.5);
  boards.drive("bolt-1/2x4");
  EXPECT_NEAR(boards.pull({100, 0, 0}).capacity, 468, 1);
  EXPECT_TRUE(boards.pull({100, 0, 0}).from_memory());  // the washer's size is
  const double z = boards.pull({0, 1, 0}).capacity;
  EXPECT_NEAR(boards.pull({60, 80, 0}).capacity, std::min(468.0 / 0.6, z / 0.8), 1);
}

// SOURCE NDS 2018 11.2.3; Fc_perp 425 psi of spruce-pine-fir (NDS Supplement Table 4A), wet 0.67.
TEST(Joints, TheWasherOnTheSofterWoodGivesWayFirst) {
  for (const std::size_t softer : {std::size_t{0}, std::size_t{1}}) {
    Boards boards(1.5, 1.5);
    boards.frame.parts[softer].species = "spf";
    boards.drive("bolt-1/2x4");
    EXPECT_NEAR(boards.pull({100, 0, 0}).capacity, 468.0 * 425 / 565, 1) << softer;
  }
}

/// The main board stands on edge behind: its grain runs along the screw.
Boards into_end_grain() {
  Boards boards(1.5, 24);
  boards.frame.parts[1].solid = {
      Axis::y, {inches(-0.75), inches(0.75)}, rectangle({inches(-24), inches(0)}, {inches(-5.625), inches(5.625)})};
  return boards;
}

// SOURCE NDS 2018 12.2.2.2 for withdrawal, 12.5.2.2 for Ceg 0.67.
TEST(Joints, EndGrainHoldsAScrewAcrossButNotAlong) {
  Boards boards = into_end_grain();
  boards.drive("screw-10x3-1/2");
  const Check pulled = boards.pull({100, 0, 0});
  EXPECT_EQ(pulled.verdict, Verdict::fail);
  EXPECT_TRUE(says(pulled, "end grain")) << pulled.note;
  EXPECT_EQ(boards.pull({1, 100, 0}).verdict, Verdict::fail);
  EXPECT_NEAR(boards.pull({0, 0, 10}).capacity / 0.7 / 0.67, 128, 0.5);
}

// SOURCE NDS 2018 12.3.3.4: dowel bearing across the grain in end grain when D >= 1/4.
TEST(Joints, ALagInEndGrainBearsAcrossIt) {
  Boards boards = into_end_grain();
  boards.frame.parts[1].solid.span = {inches(-3), inches(3)};
  boards.drive("lag-1/2x6");
  const Check check = boards.pull({0, 0, 10});
  EXPECT_EQ(value_of(check.figures, "Fem"), 3650);  // NDS 2018 Table 12.3.3, G 0.55
  EXPECT_EQ(value_of(check.figures, "Ceg"), 0.67);
  EXPECT_GT(check.capacity, 0);
}

// SOURCE NDS 2018 Table 12.5.1A and C.
TEST(Joints, ShortDistancesTakeTheirShareOrFail) {
  const auto at = [](double y, double z, ForceVector force) {
    Boards boards(1.5, 1.5);
    boards.drive("bolt-1/2x4", y, z);
    return boards.pull(force);
  };
  const double whole = at(0, 0, {0, 100, 0}).capacity, across = at(0, 0, {0, 0, 100}).capacity;
  // Board A is pulled to +y, so the bolt pushes A towards -y and B towards +y: 7 D there, 4 D on the other side.
  EXPECT_NEAR(at(24 - 1.75, 0, {0, 100, 0}).capacity, 0.5 * whole, 1e-6);
  EXPECT_NEAR(at(24 - 3.5, 0, {0, 100, 0}).capacity, whole, 1e-6);
  const Check end = at(24 - 1.5, 0, {0, 100, 0});
  EXPECT_EQ(end.verdict, Verdict::fail);
  EXPECT_TRUE(says(end, "end distance") && says(end, "0.25 in short")) << end.note;
  EXPECT_NEAR(at(0, 12 - 2.0, {0, 0, 100}).capacity, across, 1e-6);  // the loaded edge asks 4 D
  EXPECT_TRUE(says(at(0, 12 - 1.9, {0, 0, 100}), "loaded edge"));
  EXPECT_NEAR(at(0, 12 - 0.75, {0, 100, 0}).capacity, whole, 1e-6);  // 1.5 D along the grain
  EXPECT_EQ(at(0, 12 - 0.7, {0, 100, 0}).verdict, Verdict::fail);
  // A part with its end cut away from the bolt alone: no other end is near.
  Boards one_end(1.5, 1.5);
  one_end.drive("bolt-1/2x4", 24 - 1.75, 0);
  one_end.frame.parts[1].solid.outline = rectangle({inches(-24), inches(40)}, {inches(-12), inches(12)});
  EXPECT_NEAR(one_end.pull({0, 100, 0}).capacity, 0.875 * whole, 1e-6);  // pushed away from the end: 3.5 of 4 D
}

// SOURCE NDS 2018 Table 12.5.1B for CDelta 0.75 at 3 D; 11.3.6 for Cg.
TEST(Joints, TwoBoltsShareTheForce) {
  Boards one(1.5, 1.5), far(1.5, 1.5), near(1.5, 1.5), crowded(1.5, 1.5);
  one.drive("bolt-1/2x4");
  for (Boards* two : {&far, &near, &crowded}) two->drive("bolt-1/2x4");
  far.drive("bolt-1/2x4", 4, 0);
  near.drive("bolt-1/2x4", 1.5, 0);
  crowded.drive("bolt-1/2x4", 1.4, 0);
  const double z = one.pull({0, 100, 0}).capacity;
  const Check apart = far.pull({0, 100, 0});
  const double cg = group_action(0.5, 2, 4, 1.4e6, 16.875, 1.4e6, 16.875, false);
  EXPECT_NEAR(apart.capacity, 2 * z * cg, 0.01 * z);
  EXPECT_NEAR(near.pull({0, 100, 0}).capacity, 2 * z * 0.75 * value_of(near.pull({0, 100, 0}).figures, "Cg"), 1e-6);
  EXPECT_TRUE(says(crowded.pull({0, 100, 0}), "spacing in the row"));
  EXPECT_GT(apart.capacity, 1.9 * z);
}

// SOURCE NDS 2018 11.3.6.2: staggered rows nearer than a quarter of their spacing count as one; 11.3.6.3: across the
// grain the area is the thickness times the row's least spacing along the grain, 3 D.
TEST(Joints, StaggeredBoltsCountAsOneRowWhenTheirRowsAreNear) {
  const auto row = [](double y, double z, ForceVector force) {
    Boards boards(1.5, 1.5);
    boards.drive("bolt-1/2x4");
    boards.drive("bolt-1/2x4", y, z);
    return value_of(boards.pull(force).figures, "Cg");
  };
  const double one_row = row(4, 0, {0, 100, 0});
  EXPECT_LT(one_row, 1.0);
  EXPECT_NEAR(row(4, 0.9, {0, 100, 0}), one_row, 1e-12);
  EXPECT_EQ(row(4, 1.1, {0, 100, 0}), 1.0);
  const double e = 1.4e6;
  EXPECT_NEAR(row(0, 4, {0, 0, 100}), group_action(0.5, 2, 4, e, 1.5 * 1.5, e, 1.5 * 1.5, false), 1e-12);
}

// SOURCE NDS 2018 12.1.4.6, 12.1.5.6.
TEST(Joints, AFastenerTooShortForTheJointFails) {
  Boards lag(1.5, 1.5);
  lag.drive("lag-1/2x4");
  const Check check = lag.pull({0, 10, 0});
  EXPECT_EQ(check.verdict, Verdict::fail);
  EXPECT_TRUE(says(check, "4 D")) << check.note;
  Boards screw(1.5, 1.5);
  screw.drive("screw-10x2-1/2");
  EXPECT_TRUE(says(screw.pull({0, 10, 0}), "6 D"));
}

// SOURCE TR12: spacers weaken a joint.
TEST(Joints, AGapWeakensTheJoint) {
  Boards tight(1.5, 1.5), open(1.5, 1.5);
  tight.drive("bolt-1/2x5");
  open.frame.parts[1].solid.span = {inches(-2), inches(-0.5)};
  open.drive("bolt-1/2x5");
  EXPECT_LT(open.pull({0, 100, 0}).capacity, 0.95 * tight.pull({0, 100, 0}).capacity);
}

// SOURCE NDS 2018 12.3.7.2: the root bears where threads take more than a quarter of a member.
TEST(Joints, ABoltBearsOnItsRootWhereItsThreadsStandInTheWood) {
  Boards threads(1.5, 2.3), shank(1.5, 2.3);
  threads.drive("bolt-1/2x4");
  shank.drive("bolt-1/2x6");
  EXPECT_EQ(value_of(threads.pull({0, 100, 0}).figures, "D"), 0.406);  // NDS 2018 Table L1
  EXPECT_EQ(value_of(shank.pull({0, 100, 0}).figures, "D"), 0.5);
  EXPECT_LT(threads.pull({0, 100, 0}).capacity, shank.pull({0, 100, 0}).capacity);
}

// SOURCE NDS 2018 12.2.1, Table 12.5.1E: 1800 G^1.5 D^0.75 an inch, 352 lb at 3/8 in and G 0.55 (from memory: Table
// 12.2A); end 4 D, edge 1.5 D.
TEST(Joints, APulledLagHoldsByItsThreadAwayFromEnds) {
  const auto pulled = [](double y, double z) {
    Boards boards(1.5, 3.5);
    boards.drive("lag-3/8x4", y, z);
    return boards.pull({10, 0, 0});
  };
  const Check check = pulled(0, 0);
  const double thread = 4.0 - 0.083 - 7.0 / 32.0 - 1.5;  // length less washer, tip and side member
  EXPECT_NEAR(value_of(check.figures, "W'p") / 0.7 / thread, 352, 0.5);
  EXPECT_NEAR(check.capacity, 240, 1);  // the 1 in washer on wet southern pine gives way before
  EXPECT_NEAR(pulled(24 - 1.5, 0).capacity, check.capacity, 1e-9);
  EXPECT_TRUE(says(pulled(24 - 1.4, 0), "pulled"));
  EXPECT_EQ(pulled(0, 12 - 0.5).verdict, Verdict::fail);
}

// SOURCE NDS 2018 Table 12.5.1C: the notch of a sawtooth counts as an edge.
TEST(Joints, ANotchNearABoltIsAnEdge) {
  Boards boards(1.5, 1.5);
  // A corner is cut out above and to the right of (0.4, 0.4): no ray along or across the grain from the bolt meets it.
  boards.frame.parts[1].solid.outline = {{inches(-24), inches(-12)}, {inches(24), inches(-12)},
                                         {inches(24), inches(0.4)},  {inches(0.4), inches(0.4)},
                                         {inches(0.4), inches(12)},  {inches(-24), inches(12)}};
  boards.drive("bolt-1/2x4");
  EXPECT_EQ(boards.pull({0, -100, 0}).verdict, Verdict::fail);
}

TEST(Joints, WithoutAValueAreNotCheckedAndSayWhatToEnter) {
  Boards boards(1.5, 1.5);
  boards.drive("anchor-1/2x4");
  const Check anchor = boards.pull({0, 100, 0});
  EXPECT_EQ(anchor.verdict, Verdict::not_checked);
  EXPECT_TRUE(says(anchor, "maker's report"));
  Boards metal(1.5, 1.5);
  metal.drive("screw-10x3");
  metal.frame.parts[0].species = "";
  EXPECT_EQ(metal.pull({0, 100, 0}).verdict, Verdict::not_checked);
  JointDuty none;
  none.forces = {{0, 0, 100}};
  JointedFrame jointed(metal.job, metal.frame);
  EXPECT_EQ(check_joint(jointed, none).verdict, Verdict::fail);
}

/// The whole frame turned by 90 degrees about z: x' = -y, y' = x.
Frame turned_about_z(Frame frame) {
  for (Part& part : frame.parts) {
    Prism& solid = part.solid;
    if (solid.normal == Axis::y) {
      solid.normal = Axis::x;
      solid.span = {-solid.span.to, -solid.span.from};
    } else if (solid.normal == Axis::x) {
      solid.normal = Axis::y;
      for (Point& p : solid.outline) p.a = -p.a;
      part.grain_a = -part.grain_a;
    } else {
      for (Point& p : solid.outline) p = {-p.b, p.a};
      const double a = part.grain_a;
      part.grain_a = -part.grain_b;
      part.grain_b = a;
    }
  }
  for (Fastener& f : frame.fasteners) {
    f.head = {-f.head.y, f.head.x, f.head.z};
    f.direction = {-f.direction.y, f.direction.x, f.direction.z};
  }
  return frame;
}

/// Joints of a real stair: every set of fasteners that passes through the same parts in the same order.
std::vector<JointDuty> joints_of(const Frame& frame) {
  std::vector<JointDuty> out;
  std::vector<Joined> seen;
  for (const Fastener& f : frame.fasteners) {
    if (std::ranges::find(seen, f.joins) != seen.end()) continue;
    seen.push_back(f.joins);
    JointDuty duty;
    duty.loaded = f.joins.front();
    for (std::size_t i = 0; i < frame.fasteners.size(); ++i) {
      if (frame.fasteners[i].joins == f.joins) duty.fasteners.push_back(i);
    }
    out.push_back(duty);
  }
  return out;
}

TEST(Joints, OfAWholeStairAreAllRead) {
  int weighed_joints = 0, failing = 0;
  for (const Job& job : good_jobs()) {
    const Standing stair = stand(job);
    const Frame turned = turned_about_z(stair.frame);
    JointedFrame as_it_stands(job, stair.frame), to_the_north(job, turned);
    for (JointDuty duty : joints_of(stair.frame)) {
      for (const ForceVector force : {ForceVector{100, 0, 0},
                                      {-100, 0, 0},
                                      {0, 100, 0},
                                      {0, -100, 0},
                                      {0, 0, 100},
                                      {0, 0, -100},
                                      {30, 40, 120}}) {
        duty.forces = {force};
        const Check check = check_joint(as_it_stands, duty);
        ASSERT_TRUE(std::isfinite(check.ratio) && std::isfinite(check.capacity)) << check.where;
        if (check.verdict == Verdict::not_checked) {
          EXPECT_FALSE(check.note.empty()) << check.where;
          continue;
        }
        ++weighed_joints;
        EXPECT_FALSE(check.figures.empty()) << check.where;
        for (const Figure& figure : check.figures) {
          EXPECT_TRUE(std::isfinite(figure.value)) << check.where << " " << figure.symbol.view();
          EXPECT_FALSE(figure.source.empty()) << check.where << " " << figure.symbol.view();
        }
        if (check.capacity <= 0) {
          ++failing;
          EXPECT_FALSE(check.note.empty()) << check.where;
        }
        // Twice the force is twice the ratio, and a stair turned to the north carries the same.
        JointDuty twice = duty;
        twice.forces = {{2 * force.x, 2 * force.y, 2 * force.z}};
        EXPECT_NEAR(check_joint(as_it_stands, twice).ratio, 2 * check.ratio, 1e-9) << check.where;
        JointDuty north = duty;
        north.forces = {{-force.y, force.x, force.z}};
        const Check there = check_joint(to_the_north, north);
        EXPECT_NEAR(there.ratio, check.ratio, 1e-6) << check.where << " " << check.note << " | " << there.note;
        EXPECT_EQ(there.verdict, check.verdict) << check.where;
      }
    }
  }
  EXPECT_GT(weighed_joints, 1000);
  EXPECT_GT(failing, 0);  // screws pulled from end grain are among them
}

}  // namespace
}  // namespace pitchboard
