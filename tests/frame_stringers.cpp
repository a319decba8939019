// Stringers, treads and what they hang on, measured on the finished parts.

#include <gtest/gtest.h>

#include <cmath>

#include "tests/frame_fixture.hpp"
#include "tests/rules_table.hpp"

namespace pitchboard {
namespace {

constexpr double kExact = 1e-9;

/// Upper side of a part's outline, just house-side (-) or just outside (+) of `x`.
double upper(const Part& part, Length x, double side) {
  const auto slices = slice_at_a(part.solid.outline, x + inches(side * 1e-6));
  EXPECT_FALSE(slices.empty()) << part.mark;
  return slices.empty() ? 0 : in_inches(slices.back().to);
}

TEST(Head, ContactWithTheRimIsItsDepthLessTheUnitRise) {
  for (const TableRow& row : table("frame_rim_contact.csv")) {
    Job job = steps(5, number(row, "rise"), 10.5);
    job.deck.board_thickness = inches(1.5);  // as thick as the treads
    job.deck.rim_size = row.at("rim");
    const Standing s = stand(job);
    EXPECT_NEAR(in_inches(s.frame.head.contact), number(row, "contact"), kExact)
        << row.at("rim") << " " << row.at("rise");
    EXPECT_EQ(s.frame.head.hanger_board, s.frame.head.contact < s.frame.head.needed);
  }
}

TEST(Head, ThinnerDeckingUnderTheSameTreadsLosesTheDifference) {
  // SOURCE derived: 2x treads under 5/4 decking have 1/2 in less.
  Job job = steps(5, 7.0, 10.5);
  job.deck.board_thickness = inches(1.0);
  EXPECT_NEAR(in_inches(stand(job).frame.head.contact), 2.25 - 0.5, kExact);
}

TEST(Head, AFasciaBelowTheRimCarriesNothing) {
  Job job = steps(5, 7.0, 10.5);
  const Length bare = stand(job).frame.head.contact;
  job.deck.fascia_thickness = inches(0.75);
  job.deck.fascia_below = inches(3);
  EXPECT_EQ(stand(job).frame.head.contact, bare);
}

TEST(Head, TheHangerBoardGoesWhereWhatIsBehindTheRimAllows) {
  Job job = steps(6, 7.25);
  job.deck.rim_size = "2x8";
  job.deck.behind = BehindRim::joists;
  const Standing under = stand(job);
  const Length rim_face = -job.deck.overhang;
  EXPECT_EQ(under.part("H1").solid.span.to, rim_face) << "under the rim, flush with it";
  EXPECT_EQ(extent_b(under.part("H1").solid.outline).to, extent_b(under.part("rim").solid.outline).from);
  EXPECT_FALSE(under.between(PartKind::hanger_board, PartKind::block).empty()) << "carried by blocks behind";
  for (const BehindRim behind : {BehindRim::solid_blocking, BehindRim::house_band, BehindRim::unknown}) {
    job.deck.behind = behind;
    const Standing face = stand(job);
    EXPECT_EQ(face.part("H1").solid.span.from, rim_face) << "on the face of the rim";
    const auto held = face.between(PartKind::hanger_board, PartKind::existing);
    ASSERT_FALSE(held.empty());
    for (const Fastener& f : held) {
      EXPECT_EQ(f.item.starts_with("lag"), behind == BehindRim::house_band) << f.item;
      EXPECT_EQ(f.item.starts_with("bolt"), behind != BehindRim::house_band) << f.item;
    }
  }
  job = steps(6, 6.5);
  job.deck.rim_size = "2x12";
  EXPECT_TRUE(stand(job).all(PartKind::hanger_board).empty()) << "a deep rim takes the head alone";
}

TEST(Stringer, TheWoodUnderItsNotchesAndItsPlumbCut) {
  for (const TableRow& row : table("frame_throats.csv")) {
    Job job = steps(6, number(row, "rise"), number(row, "going"));
    job.stringers.board = row.at("board");
    job.stair.riser_boards = Risers::open;  // a plain plumb cut at the head
    job.deck.overhang = job.stair.nosing = inches(11.25 - number(row, "going"));
    const Standing s = stand(job);
    EXPECT_NEAR(in_inches(s.frame.throat), number(row, "throat"), 0.0051) << row.at("rise");
    // Measured on the part: the inner corners over the lower edge of the board.
    const Part stringer = s.part("S1");
    const Polygon board = board_outline(stringer);
    EXPECT_LE(extent_b(board).to, stringer.section.width + inches(kExact));
    for (int k = 1; k < s.flight.treads(); ++k) {
      const Length corner = board[static_cast<std::size_t>(2 * k)].b;
      EXPECT_NEAR(in_inches(corner), number(row, "throat"), 0.0051) << "step " << k;
    }
    if (row.at("plumb_cut").empty()) continue;
    EXPECT_NEAR(in_inches(s.frame.head.plumb_cut), number(row, "plumb_cut"), 0.0051) << row.at("rise");
    const auto cut = slice_at_a(stringer.solid.outline, -job.deck.overhang + inches(1e-7));
    ASSERT_EQ(cut.size(), 1u);
    EXPECT_NEAR(in_inches(cut[0].size()), number(row, "plumb_cut"), 0.0051);
  }
}

TEST(Stringer, LevelCutsLieUnderTheTreadsAndPlumbCutsBehindTheRisers) {
  for (const Length later : {Length(), inches(0.75)}) {
    Job job = steps(6, 7.25);
    job.pad.later_finish = later;
    const Standing s = stand(job);
    for (const Part& stringer : s.all(PartKind::stringer)) {
      for (int k = 1; k <= s.flight.treads(); ++k) {
        const Length face = s.nosing_x(k) - s.flight.nosing, cut = face - job.stair.riser_thickness;
        EXPECT_NEAR(upper(stringer, cut, -1), in_inches(s.nosing_z(k) - s.flight.tread_thickness), kExact) << k;
        if (k > 1) {
          EXPECT_NEAR(upper(stringer, cut, 1), in_inches(s.nosing_z(k - 1) - s.flight.tread_thickness), kExact) << k;
        }
        const Part riser = s.part("R" + std::to_string(k));
        EXPECT_EQ(riser.solid.span.to, face);
        EXPECT_NEAR(in_inches(riser.solid.span.size()), 0.75, kExact);
      }
      // The foot stands on the landing as it is before the later finish.
      const Length first = s.nosing_x(1) - s.flight.nosing - job.stair.riser_thickness;
      const double foot = in_inches(s.flight.landing.z - later);
      EXPECT_NEAR(upper(stringer, first, -1) - foot, 7.25 - 1.5 + in_inches(later), kExact) << "first riser cut";
      EXPECT_NEAR(in_inches(extent_b(stringer.solid.outline).from), foot, kExact);
      const auto front = slice_at_a(stringer.solid.outline, first - inches(1e-6));
      ASSERT_EQ(front.size(), 1u);
      EXPECT_NEAR(in_inches(front[0].from), foot, kExact) << "the foot's front stands on the landing";
      EXPECT_EQ(extent_a(stringer.solid.outline).to, first);
    }
  }
}

TEST(Stringer, TheTopGoingIsShorterByTheRiserBoardWhenTheDeckOverhangsLikeATread) {
  // SOURCE classic practice: shorten the top going by the riser board, so that all goings match once risers are on.
  Job job = steps(6, 7.25);
  job.deck.overhang = job.stair.nosing = inches(1.0);
  const Standing s = stand(job);
  const Polygon outline = s.part("S1").solid.outline;
  const Length top_cut = s.nosing_x(5) - s.flight.nosing - job.stair.riser_thickness;
  EXPECT_NEAR(in_inches(top_cut - extent_a(outline).from), 10.25 - 0.75, kExact);
  EXPECT_NEAR(in_inches(outline[3].a - outline[4].a), 10.25, kExact) << "the others are whole";
}

TEST(Stringer, TheyAreEvenlySpacedFlushWithTheWidthAndNoFurtherApartThanAsked) {
  for (const double width : {30.0, 36.0, 48.0, 60.0}) {
    for (const TreadMake make : {TreadMake::two_2x6, TreadMake::two_5_4x6}) {
      Job job = steps(5, 7.25);
      job.stair.width = inches(width);
      job.stair.treads = make;
      const Standing s = stand(job);
      const std::vector<Part> all = s.all(PartKind::stringer);
      EXPECT_EQ(all.front().solid.span.from, Length());
      EXPECT_NEAR(in_inches(all.back().solid.span.to), width, kExact);
      // SOURCE IRC Table R507.7: 5/4 boards span 16 in.
      const double most = make == TreadMake::two_5_4x6 ? 16.0 : 18.0;
      for (std::size_t i = 1; i < all.size(); ++i) {
        const Length apart = all[i].solid.span.from - all[i - 1].solid.span.from;
        EXPECT_NEAR(in_inches(apart), in_inches(s.frame.stringer_spacing), kExact);
        EXPECT_LE(in_inches(apart), most + kExact);
      }
    }
  }
}

TEST(Tread, OverhangsTheStringersAndButtsTheRiserAbove) {
  Job job = steps(6, 7.25);
  job.rails.left = job.rails.right = SideRail::none;
  const Standing s = stand(job);
  EXPECT_EQ(s.all(PartKind::tread).size(), 10u) << "two boards on each of five treads";
  for (int k = 1; k <= 5; ++k) {
    const Part front = s.part("T" + std::to_string(k) + "a"), back = s.part("T" + std::to_string(k) + "b");
    EXPECT_EQ(extent_a(front.solid.outline).to, s.nosing_x(k));
    EXPECT_EQ(front.solid.span.to, s.nosing_z(k));
    EXPECT_NEAR(in_inches(extent_a(front.solid.outline).from - extent_a(back.solid.outline).to), 0.25, kExact);
    for (const Part& board : {front, back}) {
      EXPECT_EQ(extent_b(board.solid.outline).from, -job.stair.side_overhang);
      EXPECT_EQ(extent_b(board.solid.outline).to, job.stair.width + job.stair.side_overhang);
      EXPECT_EQ(board.solid.outline.size(), 4u) << "no post, no notch";
    }
    if (k < 5) {
      EXPECT_NEAR(in_inches(extent_a(back.solid.outline).from),
                  in_inches(s.part("R" + std::to_string(k + 1)).solid.span.to), kExact);
    }
  }
}

TEST(Tread, IsNotchedRoundThePostsWithAnEighthOfClearance) {
  const Standing s = stand(steps(6, 7.25));
  int notched = 0;
  for (const Part& tread : s.all(PartKind::tread)) {
    if (tread.solid.outline.size() > 4) ++notched;
    for (const Part& post : s.all(PartKind::post)) {
      const auto b = box(post.solid);
      if (overlap(b[2], tread.solid.span) <= Length()) continue;
      const auto shared = [&](double clear) {
        return shared_area(tread.solid.outline, rectangle({b[0].from - inches(clear), b[0].to + inches(clear)}, b[1]))
            .raw();
      };
      EXPECT_LT(shared(0.1249), 1e-6) << tread.mark << " " << post.mark;
      const Interval x = extent_a(tread.solid.outline);
      if (overlap(x, b[0]) > inches(0.01) && b[0].to + inches(0.2) < x.to) {
        EXPECT_GT(shared(0.1251), 1e-6) << "cut away more than it needs: " << tread.mark;
      }
    }
  }
  EXPECT_EQ(notched, 3) << "both boards by the foot, the back one of the highest tread by the deck";
}

TEST(Foot, TheKickerLiesBehindThePostsBolts) {
  const Standing s = stand(steps(6, 7.25));
  const Interval kicker = extent_a(s.part("K1").solid.outline);
  int bolts = 0;
  for (const Fastener& f : s.between(PartKind::post, PartKind::stringer)) {
    if (s.frame.parts[f.joins[0]].mark.back() != '1') continue;
    ++bolts;
    EXPECT_GE(f.head.x, kicker.to + inches(0.75)) << "1.5 diameters of wood between notch and bolt";
  }
  EXPECT_EQ(bolts, 4);
  EXPECT_EQ(s.part("K1").solid.span.size(), s.job.stair.width);
}

TEST(Foot, AReadyCutStringersFootIsTrimmedByWhatIsMissing) {
  Job job = steps(5, 7.0);
  job.stair.risers = std::nullopt;
  job.stringers.kind = StringerKind::ready_cut;
  job.yard.ready_cut = {
      {.name = "stock", .risers = 5, .unit_rise = inches(7), .unit_going = inches(10.25), .dropped = false}};
  const auto noted = [](const Standing& s, const std::string& words) {
    return std::ranges::any_of(s.frame.notes, [&](const std::string& n) { return n.find(words) != std::string::npos; });
  };
  EXPECT_TRUE(noted(stand(job), "Take 1 1/2\" more off the foot"));
  job.yard.ready_cut[0].dropped = true;
  EXPECT_FALSE(noted(stand(job), "foot of each ready-cut"));
  job.yard.ready_cut[0].dropped_by = inches(2.0);
  EXPECT_TRUE(noted(stand(job), "up by 1/2\""));
}

TEST(Part, ABoardOutlineLiesAlongItsLengthFromZero) {
  // A rail of 3 1/2 in on a slope of 7.25 in 10.5, cut square at both ends, 60 in long.
  const double step = std::hypot(10.5, 7.25), c = 10.5 / step, s = 7.25 / step;
  const auto at = [&](double along, double up) {
    return Point{inches(30 + along * c + up * s), inches(-20 - along * s + up * c)};
  };
  Part part;
  part.solid = {Axis::y, {Length(), inches(1.5)}, {at(0, 0), at(60, 0), at(60, 3.5), at(0, 3.5)}};
  part.grain_a = c;
  part.grain_b = -s;
  const Polygon outline = board_outline(part);
  EXPECT_NEAR(in_inches(extent_a(outline).from), 0.0, 1e-12);
  EXPECT_NEAR(in_inches(extent_b(outline).from), 0.0, 1e-12);
  EXPECT_NEAR(in_inches(extent_a(outline).to), 60.0, kExact);
  EXPECT_NEAR(in_inches(extent_b(outline).to), 3.5, kExact);
  EXPECT_NEAR(in_inches(board_length(part)), 60.0, kExact);
  part.across_outline = true;
  EXPECT_EQ(board_length(part), inches(1.5)) << "end grain in the outline: the length runs across it";
}

}  // namespace
}  // namespace pitchboard
