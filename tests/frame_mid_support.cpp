// Supports under long stringers: when there is one, where it stands, that everything bears on what is below it.

#include <cmath>

#include "engine/base/catalog.hpp"
#include "tests/frame_fixture.hpp"

namespace pitchboard {
namespace {

/// Level distance from the head's plumb cut to the heel, by hand: cut stringers hang on a bare rim 1 in behind the
/// deck's edge; the lower edge lies `board` square to the notches' corners below them.
double span_by_hand(int risers, double rise, double going, double board = 11.25) {
  const double front = (risers - 1) * going - 1.0 - 0.75;             // lowest plumb cut: behind nosing and riser board
  const double plumb = board * std::hypot(rise, going) / going;       // plumb depth of the board
  const double heel = front - (plumb - (rise - 1.5)) * going / rise;  // the lowest riser cut is a tread short
  return heel + 1.0;
}

double x_of_beam(const Part& beam) { return in_inches(box(beam.solid)[0].middle()); }

bool noted(const Frame& frame, const std::string& words) {
  return std::ranges::any_of(frame.notes, [&](const std::string& n) { return n.find(words) != std::string::npos; });
}

TEST(SpanLimits, AreThoseOfTheGeorgiaAmendments) {
  // SOURCE Georgia 2015 prescriptive deck amendments fig. 33: 6 ft 0 in cut, 13 ft 3 in solid.
  ASSERT_NE(find_span_limit("cut"), nullptr);
  ASSERT_NE(find_span_limit("solid"), nullptr);
  EXPECT_EQ(find_span_limit("cut")->limit, 6 * 12);
  EXPECT_EQ(find_span_limit("solid")->limit, 13 * 12 + 3);
}

TEST(MidSupports, StandWhereTheSpanPassesTheLimitAndNowhereElse) {
  for (int risers = 4; risers <= 19; ++risers) {
    Job job = steps(risers, 7.25);
    job.deck.rim_size = "2x12";
    const Standing s = stand(job);
    const double span = span_by_hand(risers, 7.25, 10.25);
    const double parts = std::ceil(span / 72);
    EXPECT_EQ(s.all(PartKind::support_beam).size(), static_cast<std::size_t>(parts) - 1) << risers << " " << span;
    EXPECT_TRUE(s.frame.clashes.empty()) << risers << " " << s.frame.clashes.front().note;
  }
  // SOURCE fig. 33 again: an uncut stringer of the same flight carries on its own.
  Job solid = steps(14, 7.25);
  solid.stringers.kind = StringerKind::solid;
  EXPECT_TRUE(stand(solid).all(PartKind::support_beam).empty());
}

TEST(MidSupports, DivideTheSpanEvenlyToAQuarterInch) {
  for (const int risers : {10, 14, 19}) {
    Job job = steps(risers, 7.25);
    job.deck.rim_size = "2x12";
    const Standing s = stand(job);
    const std::vector<Part> beams = s.all(PartKind::support_beam);
    const double part = span_by_hand(risers, 7.25, 10.25) / (static_cast<double>(beams.size()) + 1);
    for (std::size_t i = 0; i < beams.size(); ++i) {
      EXPECT_NEAR(x_of_beam(beams[i]), -1.0 + part * (static_cast<double>(i) + 1), 0.125 + 1e-6) << risers;
    }
  }
}

TEST(MidSupports, AreAsManyAsTheJobAsksFor) {
  for (const int count : {0, 1, 2, 3}) {
    Job job = steps(14, 7.25);
    job.stringers.mid_supports = count;
    const Standing s = stand(job);
    EXPECT_EQ(s.all(PartKind::support_beam).size(), static_cast<std::size_t>(count));
    EXPECT_EQ(s.all(PartKind::support_post).size(), static_cast<std::size_t>(count) * 2);
    EXPECT_EQ(s.all(PartKind::footing).size(), static_cast<std::size_t>(count) * 2);
    EXPECT_TRUE(s.frame.clashes.empty());
  }
}

TEST(MidSupports, EveryStringerLiesOnTheBeamOverItsWholeThickness) {
  for (const StringerKind kind : {StringerKind::cut, StringerKind::solid}) {
    Job job = steps(14, 7.25);
    job.stringers.kind = kind;
    job.stringers.mid_supports = 1;
    const Standing s = stand(job);
    const Part beam = s.part("SB1");
    const auto [x, y, z] = box(beam.solid);
    EXPECT_EQ(y.from, Length());
    EXPECT_EQ(y.to, job.stair.width);
    EXPECT_TRUE(beam.across_outline);
    EXPECT_NEAR(in_inches(x.size()), 1.5, 1e-9);
    EXPECT_NEAR(in_inches(z.size()), 7.25, 1e-9) << "the side towards the house keeps the whole width of a 2x8";
    for (const Part& stringer : s.all(PartKind::stringer)) {
      for (const double share : {0.02, 0.5, 0.98}) {
        const Length at = x.from + x.size() * share;
        const auto wood = slice_at_a(stringer.solid.outline, at), under = slice_at_a(beam.solid.outline, at);
        ASSERT_EQ(wood.size(), 1u);
        ASSERT_EQ(under.size(), 1u);
        EXPECT_NEAR(in_inches(wood[0].from), in_inches(under[0].to), 1e-6) << stringer.mark;
      }
    }
  }
}

TEST(MidSupports, PostsStandNearTheOuterStringersAndAtMostFourFeetApart) {
  for (const double width : {30.0, 36.0, 55.0, 56.0, 72.0, 110.0}) {
    Job job = steps(12, 7.25);
    job.stair.width = inches(width);
    const Standing s = stand(job);
    const std::vector<Part> posts = s.all(PartKind::support_post);
    const double clear = width - 2 * (1.5 + 0.25 + 1.75);
    ASSERT_EQ(posts.size(), static_cast<std::size_t>(std::ceil(clear / 48)) + 1) << width << s.frame.notes.back();
    for (std::size_t i = 0; i < posts.size(); ++i) {
      const Interval y = posts[i].solid.span;
      if (i > 0) {
        EXPECT_LE((y.middle() - posts[i - 1].solid.span.middle()).raw(), 48 + 1e-9);
      }
      const auto [x, across, z] = box(posts[i].solid);
      const auto beam = box(s.part("SB1").solid);
      EXPECT_NEAR(x.to.raw(), beam[0].from.raw(), 1e-9) << "on the house side of the beam, against it";
      EXPECT_LE(z.to, beam[2].to) << "its top no higher than the beam's";
      for (const Part& stringer : s.all(PartKind::stringer)) {
        EXPECT_LE(overlap(y, stringer.solid.span).raw(), -0.25 + 1e-9) << "between the stringers: " << stringer.mark;
      }
    }
    EXPECT_NEAR(posts.front().solid.span.from.raw(), 1.75, 1e-9);
    EXPECT_NEAR(posts.back().solid.span.to.raw(), width - 1.75, 1e-9);
    EXPECT_TRUE(s.frame.clashes.empty());
  }
}

TEST(MidSupports, TwoBoltsHoldTheBeamToEachPostAwayFromTheEdgeTheyPushAt) {
  for (const double rise : {6.0, 7.25}) {
    const Standing s = stand(steps(12, rise));
    const Part beam = s.part("SB1");
    for (const Part& post : s.all(PartKind::support_post)) {
      std::vector<Fastener> bolts;
      for (const Fastener& f : s.between(PartKind::support_beam, PartKind::support_post)) {
        if (s.frame.parts[f.joins.back()].mark == post.mark) bolts.push_back(f);
      }
      ASSERT_EQ(bolts.size(), 2u);
      for (const Fastener& bolt : bolts) {
        EXPECT_EQ(bolt.diameter, inches(0.625));
        // The clash test sees a beam's ends alone: its bevelled edge is looked after here.
        const auto front = slice_at_a(beam.solid.outline, bolt.head.x - inches(0.001));
        // SOURCE NDS 2018 Table 12.5.1C: 4 diameters to the loaded edge, 1.5 to the other; 12.5.1A: 2 to the end.
        EXPECT_GE((front[0].to - bolt.head.z).raw(), 4 * 0.625 - 1e-2);
        EXPECT_GE((bolt.head.z - front[0].from).raw(), 1.5 * 0.625);
        EXPECT_GE((box(post.solid)[2].to - bolt.head.z).raw(), 2 * 0.625);
      }
      // SOURCE NDS 2018 Table 12.5.1B: 3 diameters apart.
      EXPECT_GE(std::abs((bolts[0].head.z - bolts[1].head.z).raw()), 3 * 0.625);
    }
  }
}

TEST(MidSupports, AnAngleTiesEveryStringerToTheBeam) {
  const Standing s = stand(steps(12, 7.25));
  for (std::size_t i = 0; i < s.frame.parts.size(); ++i) {
    if (s.frame.parts[i].kind != PartKind::stringer) continue;
    int to_stringer = 0, to_beam = 0;
    for (const Fastener& f : s.frame.fasteners) {
      if (!f.reason.starts_with("ties the stringer")) continue;
      const Part& angle = s.frame.parts[f.joins.front()];
      if (angle.use.find(s.frame.parts[i].mark + " to support beam") == std::string::npos) continue;
      EXPECT_EQ(angle.section.nominal, "angle-2");
      to_stringer += f.joins.back() == i;
      to_beam += s.frame.parts[f.joins.back()].kind == PartKind::support_beam;
    }
    EXPECT_EQ(to_stringer, 3) << s.frame.parts[i].mark;
    EXPECT_EQ(to_beam, 3) << s.frame.parts[i].mark;
  }
}

TEST(Piers, StandUnderTheirPostsAndGoBelowFrost) {
  for (const double frost : {0.0, 6.0, 12.0, 42.0}) {
    Job job = steps(12, 7.25);
    job.place.frost_depth = inches(frost);
    const Standing s = stand(job);
    const double ground = -12 * 7.25;
    const std::vector<Part> posts = s.all(PartKind::support_post), piers = s.all(PartKind::footing);
    ASSERT_EQ(posts.size(), piers.size());
    for (std::size_t i = 0; i < posts.size(); ++i) {
      const auto post = box(posts[i].solid), pier = box(piers[i].solid);
      EXPECT_NEAR(pier[0].middle().raw(), post[0].middle().raw(), 1e-9);
      EXPECT_NEAR(pier[1].middle().raw(), post[1].middle().raw(), 1e-9);
      EXPECT_NEAR(pier[2].from.raw(), ground - std::max(frost, 12.0), 1e-9);
      EXPECT_NEAR(pier[2].to.raw(), ground + 2, 1e-9);
      EXPECT_NEAR((post[2].from - pier[2].to).raw(), find_hardware("post-base")->head_radius, 1e-9)
          << "off the concrete";
    }
  }
}

TEST(Piers, OnASlopeGoAsDeepAtTheirLowestCorner) {
  Job job = steps(12, 7.25);
  job.stair.risers.reset();
  job.stair.going.reset();
  job.ground.lines = {{Line::left, {{inches(0), inches(70)}, {inches(200), inches(90)}}},
                      {Line::right, {{inches(0), inches(72)}, {inches(200), inches(92)}}}};
  job.place.frost_depth = inches(30);
  const Standing s = stand(job);
  const Site site(job);
  ASSERT_FALSE(s.all(PartKind::footing).empty());
  for (const Part& pier : s.all(PartKind::footing)) {
    const auto [x, y, z] = box(pier.solid);
    EXPECT_NEAR((site.ground(x.to, y.to).z - z.from).raw(), 30, 1e-9) << "the ground falls outwards and to the right";
    EXPECT_NEAR((z.to - site.ground(x.from, y.from).z).raw(), 2, 1e-9);
  }
}

TEST(Piers, AreAsWideAsLoadAndSoilAsk) {
  // By hand: 12 risers span 79.6 in and more; half of that by half a 36 in stair is under 5 sq ft, so at 50 psf and
  // 1500 psf 12 in are ample: common practice, no source.
  EXPECT_EQ(stand(steps(12, 7.25)).part("PF1").section.width, inches(12));
  Job heavy = steps(12, 7.25);
  heavy.deck.rim_size = "2x12";
  heavy.loads.live = 100;
  heavy.loads.dead = 20;
  heavy.loads.soil = 300;
  const Standing s = stand(heavy);
  // A row of two piers carries 10/8 of what lies between the middles of two equal spans, the whole width shared by two.
  const double load = 120.0 / 144 * 1.25 * (span_by_hand(12, 7.25, 10.25) / 2) * 36 / 2;
  EXPECT_EQ(s.part("PF1").section.width, inches(std::ceil(std::sqrt(load / 300 * 144))));
  EXPECT_GT(s.part("PF1").section.width, inches(12));
  const auto pier = box(s.part("PF1").solid);
  EXPECT_NEAR((pier[0].size() - s.part("PF1").section.width).raw(), 0, 1e-9);
  heavy.loads.soil = 100;
  const Standing soft = stand(heavy);
  EXPECT_TRUE(soft.all(PartKind::footing).empty());
  EXPECT_TRUE(noted(soft.frame, "engineer size one footing"));
}

TEST(MidSupports, AreLeftOutWithANoteWhereTheStairRunsTooLow) {
  // A bank as steep as the stair and close under it.
  Job job = steps(12, 7.25);
  job.ground.lines = {
      {Line::middle, {{inches(0), inches(16)}, {inches(12 * 10.25), inches(87)}, {inches(400), inches(87)}}}};
  const Standing s = stand(job);
  EXPECT_TRUE(s.all(PartKind::support_beam).empty());
  EXPECT_TRUE(s.all(PartKind::footing).empty());
  EXPECT_TRUE(noted(s.frame, "too low over the ground"));
  EXPECT_TRUE(s.frame.clashes.empty());
}

TEST(MidSupports, GiveWayTowardsTheHouseWhereTheGroundRisesUnderThem) {
  Job even = steps(11, 7.25);
  Job bank = even;
  const double edge = x_of_beam(stand(even).part("SB1"));
  // A ridge that leaves less than a beam and its foot under the stringers at the even place.
  bank.ground.lines = {{Line::middle,
                        {{inches(0), inches(79.75)},
                         {inches(edge - 14), inches(79.75)},
                         {inches(edge + 2), inches(54)},
                         {inches(edge + 40), inches(54)},
                         {inches(edge + 50), inches(79.75)},
                         {inches(400), inches(79.75)}}}};
  const Standing s = stand(bank);
  ASSERT_EQ(s.all(PartKind::support_beam).size(), 1u);
  EXPECT_LT(x_of_beam(s.part("SB1")), edge);
  EXPECT_LE(span_by_hand(11, 7.25, 10.25) - (x_of_beam(s.part("SB1")) + 1.0), 72)
      << "and keeps the limit on both sides";
  EXPECT_TRUE(s.frame.clashes.empty());
}

TEST(MidSupports, SayCallBeforeYouDig) {
  EXPECT_TRUE(noted(stand(steps(12, 7.25)).frame, "Call before you dig"));
  EXPECT_FALSE(noted(stand(steps(5, 7.25)).frame, "Call before you dig"));
  EXPECT_TRUE(noted(stand(steps(12, 7.25)).frame, "ground freezes is not given"));
  Job known = steps(12, 7.25);
  known.place.frost_depth = inches(20);
  EXPECT_FALSE(noted(stand(known).frame, "ground freezes is not given"));
}

}  // namespace
}  // namespace pitchboard
