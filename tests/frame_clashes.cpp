// The clash test can fail: a good frame is spoilt in one way at a time, and each way is named.

#include <gtest/gtest.h>

#include "tests/frame_fixture.hpp"

namespace pitchboard {
namespace {

const Standing& good() {
  static const Standing standing = stand(steps(6, 7.25));
  return standing;
}

std::size_t index_of(const Frame& frame, const std::string& mark) {
  const auto found = std::ranges::find(frame.parts, mark, &Part::mark);
  EXPECT_NE(found, frame.parts.end()) << mark;
  return static_cast<std::size_t>(found - frame.parts.begin());
}

/// First fastener that joins exactly those kinds, head first.
std::size_t fastener(const Frame& frame, PartKind first, PartKind last, std::size_t nth = 0) {
  for (std::size_t i = 0; i < frame.fasteners.size(); ++i) {
    const Fastener& f = frame.fasteners[i];
    if (frame.parts[f.joins.front()].kind == first && frame.parts[f.joins.back()].kind == last && nth-- == 0) return i;
  }
  ADD_FAILURE() << "no such fastener";
  return 0;
}

bool has(const std::vector<Clash>& clashes, const std::string& kind, const std::string& first,
         const std::string& second = "") {
  return std::ranges::any_of(clashes, [&](const Clash& c) {
    const bool pair = c.first == first && (second.empty() || c.second == second);
    const bool other_way = kind == "overlap" && c.second == first && c.first == second;
    return c.kind == kind && (pair || other_way) && !c.note.empty();
  });
}

std::string told(const std::vector<Clash>& clashes) {
  std::string out = std::to_string(clashes.size()) + " clashes:";
  for (std::size_t i = 0; i < clashes.size() && i < 8; ++i) {
    out += "\n" + clashes[i].kind + " " + clashes[i].first + " " + clashes[i].second + ": " + clashes[i].note;
  }
  return out;
}

void shift(Part& part, Length a, Length b, Length along) {
  for (Point& p : part.solid.outline) p = {p.a + a, p.b + b};
  part.solid.span = {part.solid.span.from + along, part.solid.span.to + along};
}

TEST(Clashes, AGoodFrameHasNone) {
  for (const Job& job : good_jobs()) {
    const Standing s = stand(job);
    EXPECT_TRUE(s.frame.clashes.empty()) << told(s.frame.clashes);
    EXPECT_EQ(find_clashes(s.frame).size(), s.frame.clashes.size()) << "the frame carries its own test";
  }
}

TEST(Clashes, ATreadPushedBackOverlapsTheRiserAbove) {
  Frame frame = good().frame;
  shift(frame.parts[index_of(frame, "T2b")], inches(-0.25), {}, {});
  const auto found = find_clashes(frame);
  EXPECT_TRUE(has(found, "overlap", "T2b", "R3")) << told(found);
}

TEST(Clashes, AStringerRaisedOverlapsItsTreads) {
  Frame frame = good().frame;
  shift(frame.parts[index_of(frame, "S1")], {}, inches(0.25), {});
  const auto found = find_clashes(frame);
  for (const char* tread : {"T1a", "T3b", "T5a"}) EXPECT_TRUE(has(found, "overlap", "S1", tread)) << told(found);
}

TEST(Clashes, APostGrownInwardsOverlapsStringerAndTread) {
  Frame frame = good().frame;
  Part& post = frame.parts[index_of(frame, "PL1")];
  post.solid.span.to += inches(0.5);
  const auto found = find_clashes(frame);
  EXPECT_TRUE(has(found, "overlap", "PL1", "S1")) << told(found);
  EXPECT_TRUE(has(found, "overlap", "PL1", "T1a")) << told(found);
}

TEST(Clashes, AnythingBuiltTwiceOverlapsItself) {
  for (const Job& job : good_jobs()) {
    const Standing s = stand(job);
    for (std::size_t i = 0; i < s.frame.parts.size(); ++i) {
      if (s.frame.parts[i].kind == PartKind::existing) continue;
      Frame frame = s.frame;
      frame.fasteners.clear();
      Part copy = frame.parts[i];
      copy.mark = "copy";
      frame.parts.push_back(copy);
      const auto found = find_clashes(frame);
      ASSERT_TRUE(has(found, "overlap", frame.parts[i].mark, "copy")) << frame.parts[i].mark;
    }
  }
}

TEST(Clashes, AShavingIsNoOverlap) {
  Frame frame = good().frame;
  shift(frame.parts[index_of(frame, "T2b")], inches(-1.0 / 128.0), {}, {});
  EXPECT_TRUE(find_clashes(frame).empty()) << told(find_clashes(frame));
}

TEST(Clashes, APartFloatsWhenItsFastenersAreTakenAway) {
  for (const Job& job : good_jobs()) {
    const Standing s = stand(job);
    for (std::size_t i = 0; i < s.frame.parts.size(); ++i) {
      const PartKind kind = s.frame.parts[i].kind;
      if (kind == PartKind::existing || kind == PartKind::pad_layer || kind == PartKind::footing) continue;
      Frame frame = s.frame;
      std::erase_if(frame.fasteners, [&](const Fastener& f) { return std::ranges::find(f.joins, i) != f.joins.end(); });
      ASSERT_LT(frame.fasteners.size(), s.frame.fasteners.size()) << frame.parts[i].mark;
      ASSERT_TRUE(has(find_clashes(frame), "floating", frame.parts[i].mark)) << frame.parts[i].mark;
    }
  }
}

TEST(Clashes, ABoltMovedToAnEdgeIsTooNearIt) {
  Frame frame = good().frame;
  Fastener& bolt = frame.fasteners[fastener(frame, PartKind::post, PartKind::stringer)];
  const Part& stringer = frame.parts[bolt.joins[1]];
  const auto wood = slice_at_a(stringer.solid.outline, bolt.head.x);
  ASSERT_FALSE(wood.empty());
  bolt.head.z = wood.back().to - inches(0.75);  // 1.5 diameters of a 1/2 in bolt: NDS 2018 Table 12.5.1C
  EXPECT_FALSE(has(find_clashes(frame), "edge", bolt.mark)) << told(find_clashes(frame));
  bolt.head.z = wood.back().to - inches(0.7);
  const auto found = find_clashes(frame);
  EXPECT_TRUE(has(found, "edge", bolt.mark, stringer.mark)) << told(found);
}

TEST(Clashes, AScrewMovedToTheSideOfAStringerIsTooNearItsFace) {
  Frame frame = good().frame;
  Fastener& screw = frame.fasteners[fastener(frame, PartKind::tread, PartKind::stringer)];
  const Part& stringer = frame.parts[screw.joins[1]];
  screw.head.y = stringer.solid.span.from + inches(0.25);  // a #10 wants 2.5 x 0.19
  const auto found = find_clashes(frame);
  EXPECT_TRUE(has(found, "edge", screw.mark, stringer.mark)) << told(found);
}

TEST(Clashes, AScrewTooLongComesOutOfTheLastPart) {
  Frame frame = good().frame;
  Fastener& screw = frame.fasteners[fastener(frame, PartKind::baluster, PartKind::top_rail)];
  screw.length += inches(1.0);
  const auto found = find_clashes(frame);
  EXPECT_TRUE(has(found, "outside", screw.mark, frame.parts[screw.joins[1]].mark)) << told(found);
}

TEST(Clashes, AScrewTooShortDoesNotReachTheLastPart) {
  Frame frame = good().frame;
  Fastener& screw = frame.fasteners[fastener(frame, PartKind::tread, PartKind::stringer)];
  screw.length = inches(1.25);
  const auto found = find_clashes(frame);
  EXPECT_TRUE(has(found, "outside", screw.mark, frame.parts[screw.joins[1]].mark)) << told(found);
}

TEST(Clashes, AHeadHeldOffItsPartIsTold) {
  Frame frame = good().frame;
  Fastener& screw = frame.fasteners[fastener(frame, PartKind::tread, PartKind::stringer)];
  screw.head.z += inches(0.25);
  const auto found = find_clashes(frame);
  EXPECT_TRUE(has(found, "outside", screw.mark, frame.parts[screw.joins[0]].mark)) << told(found);
}

TEST(Clashes, ABoltTooShortForItsNutIsTold) {
  Frame frame = good().frame;
  Fastener& bolt = frame.fasteners[fastener(frame, PartKind::post, PartKind::stringer)];
  bolt.length -= inches(0.5);
  const auto found = find_clashes(frame);
  EXPECT_TRUE(has(found, "outside", bolt.mark, frame.parts[bolt.joins[1]].mark)) << told(found);
}

TEST(Clashes, AFastenerThroughAPartItDoesNotJoinCrossesIt) {
  Frame frame = good().frame;
  const std::size_t stray = fastener(frame, PartKind::tread, PartKind::stringer);
  Fastener& screw = frame.fasteners[stray];
  const std::string stringer = frame.parts[screw.joins[1]].mark;
  screw.joins = {screw.joins[0]};
  const auto found = find_clashes(frame);
  EXPECT_TRUE(has(found, "crossing", screw.mark, stringer)) << told(found);
}

TEST(Clashes, TwoFastenersInOnePlaceMeet) {
  for (const double apart : {0.0, 0.1, 0.24}) {  // two #10 and 1/16 between them take 0.2525
    Frame frame = good().frame;
    Fastener twin = frame.fasteners[fastener(frame, PartKind::tread, PartKind::stringer)];
    const std::string first = twin.mark;
    twin.mark = "twin";
    twin.head.x += inches(apart);
    frame.fasteners.push_back(twin);
    const auto found = find_clashes(frame);
    EXPECT_TRUE(has(found, "crossing", first, "twin")) << apart << " " << told(found);
  }
  Frame frame = good().frame;
  Fastener twin = frame.fasteners[fastener(frame, PartKind::tread, PartKind::stringer)];
  const std::string first = twin.mark;
  twin.mark = "twin";
  twin.head.x += inches(0.26);
  frame.fasteners.push_back(twin);
  EXPECT_FALSE(has(find_clashes(frame), "crossing", first, "twin"));
}

/// A block in the air, `from` to `to` out from a bolt's head against the bolt's way.
Frame with_block_at_head(double from, double to) {
  Frame frame = good().frame;
  const Fastener& bolt = frame.fasteners[fastener(frame, PartKind::post, PartKind::stringer)];
  const double way = -bolt.direction.y;
  Part block;
  block.mark = "X";
  block.use = "block in the way";
  block.kind = PartKind::block;
  const Length p = bolt.head.y + inches(from * way), q = bolt.head.y + inches(to * way);
  block.solid = {Axis::y,
                 {std::min(p, q), std::max(p, q)},
                 rectangle({bolt.head.x - inches(2), bolt.head.x + inches(2)},
                           {bolt.head.z - inches(2), bolt.head.z + inches(2)})};
  frame.parts.push_back(block);
  return frame;
}

TEST(Clashes, ABoltsHeadAndItsWrenchWantRoom) {
  const std::string bolt = good().frame.fasteners[fastener(good().frame, PartKind::post, PartKind::stringer)].mark;
  const auto touching = find_clashes(with_block_at_head(0.1, 1.0));
  EXPECT_TRUE(has(touching, "head", bolt, "X")) << told(touching);
  const auto near = find_clashes(with_block_at_head(1.0, 2.0));
  EXPECT_FALSE(has(near, "head", bolt, "X")) << told(near);
  EXPECT_TRUE(has(near, "tool", bolt, "X")) << told(near);
  const auto far = find_clashes(with_block_at_head(12.0, 13.0));
  EXPECT_FALSE(has(far, "tool", bolt, "X")) << told(far);
  EXPECT_TRUE(has(far, "floating", "X")) << "nothing holds the block itself";
}

TEST(Clashes, ANutWantsRoomBehindTheLastPart) {
  Frame frame = good().frame;
  const Fastener& bolt = frame.fasteners[fastener(frame, PartKind::post, PartKind::stringer)];
  const Part& stringer = frame.parts[bolt.joins[1]];
  ASSERT_GT(bolt.direction.y, 0.0) << "on the left the nut comes out on the right of the stringer";
  Part block;
  block.mark = "X";
  block.use = "block in the way";
  block.kind = PartKind::block;
  block.solid = {Axis::y,
                 {stringer.solid.span.to, stringer.solid.span.to + inches(0.5)},
                 rectangle({bolt.head.x + inches(0.3), bolt.head.x + inches(1)},
                           {bolt.head.z - inches(1), bolt.head.z + inches(1)})};
  frame.parts.push_back(block);
  const auto found = find_clashes(frame);
  EXPECT_TRUE(has(found, "head", bolt.mark, "X")) << told(found);
}

}  // namespace
}  // namespace pitchboard
