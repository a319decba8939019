#include <algorithm>
#include <cmath>

#include "tests/cut_fixture.hpp"

namespace pitchboard {
namespace {

double number(const std::string& text) { return std::stod(text); }

Built with_steps(double rise, double going) {
  Job job = stair_down(inches(rise * 4));
  job.stringers.kind = StringerKind::ready_cut;  // the only kind whose rise and going are given
  job.yard.ready_cut = {{"four", 4, inches(rise), inches(going), true, inches(1.5), {2000}}};
  return built(job);
}

TEST(StringerCard, AgreesWithTheTableOfStepsThroatsAndAngles) {
  for (const auto& row : table_rows("cut_stringers.csv")) {
    const Built b = with_steps(number(row[0]), number(row[1]));
    const Marks marks = mark_out(b.job, b.flight, b.frame);
    ASSERT_FALSE(marks.stringers.empty());
    const StringerCard& card = marks.stringers[0];
    EXPECT_NEAR(in_degrees(card.slope), number(row[2]), 0.051) << row[0] << "/" << row[1];
    EXPECT_NEAR(90 - in_degrees(card.slope), number(row[3]), 0.051);
    EXPECT_NEAR(in_inches(card.step_length), number(row[4]), 0.00051);
    EXPECT_NEAR(in_inches(card.throat), number(row[5]), 0.0051);
    EXPECT_EQ(card.square_tongue, inches(number(row[0])));
    EXPECT_EQ(card.square_body, inches(number(row[1])));
  }
}

/// Corners of the outline on the board's upper edge, from the foot.
std::vector<Length> tips(const Part& part) {
  std::vector<Length> out;
  const Polygon board = board_outline(part);
  const Length upper = extent_b(board).to;
  for (const Point& p : board) {
    if (abs(p.b - upper) < kTouch) out.push_back(p.a);
  }
  std::ranges::sort(out, std::greater<>());
  return out;
}

TEST(StringerCard, MarksFallOnTheTipsOfTheOutlineThatIsBuilt) {
  for (const Job& job : cut_jobs()) {
    const Built b = built(job);
    if (b.flight.kind != StringerKind::cut) continue;
    for (const StringerCard& card : mark_out(b.job, b.flight, b.frame).stringers) {
      for (const std::string& mark : card.same) {
        const auto part = std::ranges::find(b.frame.parts, mark, &Part::mark);
        ASSERT_NE(part, b.frame.parts.end());
        const std::vector<Length> at = tips(*part);
        ASSERT_EQ(at.size(), card.marks.size()) << mark;
        for (std::size_t k = 0; k < at.size(); ++k)
          EXPECT_NEAR(in_inches(at[0] - at[k]), in_inches(card.marks[k]), 1e-6);
      }
    }
  }
}

TEST(StringerCard, EveryStringerHasOneCardAndItsLastMarkIsTheSum) {
  for (const Job& job : cut_jobs()) {
    const Built b = built(job);
    const Marks marks = mark_out(b.job, b.flight, b.frame);
    std::vector<std::string> carded;
    for (const StringerCard& card : marks.stringers) {
      EXPECT_EQ(card.mark, card.same.at(0));
      carded.insert(carded.end(), card.same.begin(), card.same.end());
      ASSERT_EQ(static_cast<int>(card.marks.size()), b.flight.treads());
      const double steps = b.flight.treads() - 1;
      EXPECT_NEAR(in_inches(card.overall), steps * std::hypot(in_inches(b.flight.unit_rise), in_inches(b.flight.going)),
                  1e-9);
    }
    const auto stringers = std::ranges::count(b.frame.parts, PartKind::stringer, &Part::kind);
    EXPECT_EQ(static_cast<std::ptrdiff_t>(carded.size()), stringers);
  }
}

// SOURCE common practice: the foot is dropped by the tread's thickness, less what is laid on the landing later.
TEST(StringerCard, TheFootIsDroppedByTheTreadLessTheLaterFinish) {
  Job job = stair_down(inches(36));
  job.pad.later_finish = inches(0.5);
  const Built b = built(job);
  const StringerCard card = mark_out(b.job, b.flight, b.frame).stringers.at(0);
  EXPECT_NEAR(in_inches(card.drop), 1.5 - 0.5, 1e-9);
  // Level landing: plumb height of the lowest riser cut by hand.
  EXPECT_NEAR(in_inches(card.first_riser_cut), in_inches(b.flight.unit_rise) - 1.5 + 0.5, 1e-6);
}

TEST(StringerCard, ACrossFallGivesEachStringerItsOwnFirstRiserCut) {
  Job job = cut_jobs().back();
  job.pad.existing = true;
  job.pad.make = PadMake::concrete;
  job.pad.cross_fall = 0.02;
  job.pad.from = inches(20);
  job.pad.length = inches(60);
  job.pad.down = inches(36);
  const Built b = built(job);
  const Marks marks = mark_out(b.job, b.flight, b.frame);
  ASSERT_GT(marks.stringers.size(), 1U);
  const double apart = in_inches(b.frame.stringer_spacing);
  EXPECT_NEAR(in_inches(marks.stringers[1].first_riser_cut - marks.stringers[0].first_riser_cut), 0.02 * apart, 1e-6);
}

TEST(SawSettings, TheScaleOfARailsPlumbCutReadsTheSlope) {
  const Built b = with_steps(7.25, 10.5);
  bool seen = false;
  for (const SawSetting& saw : mark_out(b.job, b.flight, b.frame).saw) {
    EXPECT_NEAR(in_degrees(saw.from_square), 34.6, 0.05) << saw.mark << " " << saw.cut;
    EXPECT_FALSE(saw.beyond_saw);
    seen = seen || saw.cut == "both ends, plumb cut";
  }
  EXPECT_TRUE(seen);
}

Frame one_rail(Polygon outline) {
  Frame frame;
  frame.parts = {sample_part("TR1", PartKind::top_rail, "2x4", std::move(outline))};
  return frame;
}

// A level seat on a rail at 7 1/4 in / 10 1/2 in stands 55.4° from square: common practice is a square block on the
// fence and the complement on the scale, 34.6°.
TEST(SawSettings, ALevelSeatIsBeyondTheSawAndTheComplementIsGiven) {
  const Length lean = inches(3.5 * 10.5 / 7.25);
  const Frame frame =
      one_rail({{Length(), Length()}, {inches(40), Length()}, {inches(40), inches(3.5)}, {lean, inches(3.5)}});
  const std::vector<SawSetting> saw = mark_out(Job{}, Flight{}, frame).saw;
  ASSERT_EQ(saw.size(), 1U);
  EXPECT_NEAR(in_degrees(saw[0].from_square), 55.38, 0.01);
  EXPECT_TRUE(saw[0].beyond_saw);
  EXPECT_NE(saw[0].how.find("34.6°"), std::string::npos) << saw[0].how;
  Job wide;
  wide.saw.mitre_limit_degrees = 60;
  EXPECT_FALSE(mark_out(wide, Flight{}, frame).saw.at(0).beyond_saw);
}

TEST(SawSettings, SquareEndsNeedNoneAndEqualCutsAreCounted) {
  EXPECT_TRUE(
      mark_out(Job{}, Flight{}, one_rail(rectangle({Length(), inches(40)}, {Length(), inches(3.5)}))).saw.empty());
  Frame frame =
      one_rail({{Length(), Length()}, {inches(40), Length()}, {inches(42), inches(3.5)}, {inches(2), inches(3.5)}});
  frame.parts.push_back(frame.parts[0]);
  frame.parts[1].mark = "TR2";
  const std::vector<SawSetting> saw = mark_out(Job{}, Flight{}, frame).saw;
  ASSERT_EQ(saw.size(), 1U);
  EXPECT_EQ(saw[0].count, 4);
  EXPECT_EQ(saw[0].cut.substr(0, 9), "both ends");
  EXPECT_NEAR(in_degrees(saw[0].from_square), in_degrees(Angle::from_raw(std::atan(2 / 3.5))), 1e-9);
  EXPECT_NE(saw[0].how.find("do not turn it over"), std::string::npos);
}

TEST(SawSettings, ACutAcrossTheThicknessSaysSo) {
  Frame frame =
      one_rail({{Length(), Length()}, {inches(40), Length()}, {inches(41), inches(1.5)}, {inches(1), inches(1.5)}});
  frame.parts[0].solid.span = {Length(), inches(3.5)};
  EXPECT_NE(mark_out(Job{}, Flight{}, frame).saw.at(0).how.find("thickness"), std::string::npos);
}

TEST(HoleRows, AHoleIsGivenFromThePartsEndAndLowerEdge) {
  Frame frame = one_rail(rectangle({inches(10), inches(50)}, {inches(-3.5), Length()}));
  const auto driven = [](const char* mark, const char* item, Point3 head, Direction direction) {
    return Fastener{
        .mark = mark, .item = item, .head = head, .direction = direction, .length = inches(4), .joins = {0}};
  };
  frame.fasteners = {driven("F1", "bolt-1/2x4", {inches(12), Length(), inches(-2.5)}, {0, 1, 0}),
                     driven("F2", "screw-10x3", {inches(20), inches(0.75), Length()}, {0, 0, -1}),
                     driven("F3", "screw-10x3", {inches(50), inches(0.5), inches(-1.5)}, {-1, 0, 0})};
  const std::vector<HoleRow> rows = mark_out(Job{}, Flight{}, frame).holes;
  ASSERT_EQ(rows.size(), 3U);
  EXPECT_EQ(rows[0].face, "left");
  EXPECT_NEAR(in_inches(rows[0].along), 2, 1e-9);
  EXPECT_NEAR(in_inches(rows[0].across), 1, 1e-9);
  EXPECT_EQ(rows[0].from, "house end, lower edge");
  EXPECT_EQ(rows[1].face, "top");
  EXPECT_NEAR(in_inches(rows[1].along), 10, 1e-9);
  EXPECT_NEAR(in_inches(rows[1].across), 0.75, 1e-9);
  EXPECT_EQ(rows[2].face, "end");
  EXPECT_NEAR(in_inches(rows[2].along), 2, 1e-9);
  EXPECT_NEAR(in_inches(rows[2].across), 0.5, 1e-9);
}

const HoleRow* row_of(const std::vector<HoleRow>& rows, const std::string& fastener, const std::string& part) {
  const auto row = std::ranges::find_if(rows, [&](const HoleRow& r) { return r.mark == fastener && r.part == part; });
  return row == rows.end() ? nullptr : &*row;
}

// Measured afresh in space: the distance of the hole from the part's lowest corner, along the slope.
TEST(HoleRows, SlopingBoardsCountFromTheEndThatTheirOwnSheetCountsFrom) {
  std::size_t stringers = 0, rails = 0, posts = 0;
  for (const Job& job : cut_jobs()) {
    const Built b = built(job);
    const double slope = std::atan2(in_inches(b.flight.unit_rise), in_inches(b.flight.going));
    const std::vector<HoleRow> rows = mark_out(b.job, b.flight, b.frame).holes;
    for (const Fastener& fastener : b.frame.fasteners) {
      for (const Hole& hole : holes(b.frame, fastener)) {
        const Part& part = b.frame.parts[hole.part];
        const bool is_rail = part.kind == PartKind::top_rail || part.kind == PartKind::bottom_rail;
        if (part.kind != PartKind::stringer && part.kind != PartKind::post && !is_rail) continue;
        const HoleRow* row = row_of(rows, fastener.mark, part.mark);
        ASSERT_NE(row, nullptr);
        if (row->face == "end") continue;
        double lowest = -1e9;  // down the slope, or down the post
        const auto down = [&](double x, double z) {
          return part.kind == PartKind::post ? -z : x * std::cos(slope) - z * std::sin(slope);
        };
        for (const Point p : part.solid.outline) lowest = std::max(lowest, down(in_inches(p.a), in_inches(p.b)));
        EXPECT_NEAR(in_inches(row->along), lowest - down(in_inches(hole.at.x), in_inches(hole.at.z)), 1e-6)
            << part.mark << " " << fastener.mark;
        const std::string end = part.kind == PartKind::stringer ? "foot end" : is_rail ? "lower end" : "foot";
        EXPECT_EQ(row->from.substr(0, row->from.find(',')), end) << part.mark;
        (part.kind == PartKind::stringer ? stringers : is_rail ? rails : posts) += 1;
      }
    }
  }
  EXPECT_GT(stringers, 0U);
  EXPECT_GT(rails, 0U);
  EXPECT_GT(posts, 0U);
}

TEST(HoleRows, TheRimCountsFromTheLeftStringerAndTheDeck) {
  std::size_t seen = 0;
  for (const Job& job : cut_jobs()) {
    const Built b = built(job);
    const std::vector<HoleRow> rows = mark_out(b.job, b.flight, b.frame).holes;
    for (const Fastener& fastener : b.frame.fasteners) {
      for (const Hole& hole : holes(b.frame, fastener)) {
        if (b.frame.parts[hole.part].mark != "rim") continue;
        const HoleRow* row = row_of(rows, fastener.mark, "rim");
        ASSERT_NE(row, nullptr);
        EXPECT_NEAR(in_inches(row->along), in_inches(hole.at.y), 1e-9);
        EXPECT_NEAR(in_inches(row->across), -in_inches(hole.at.z), 1e-9);
        EXPECT_EQ(row->from, "left stringer's outer face, deck surface down");
        ++seen;
      }
    }
  }
  EXPECT_GT(seen, 0U);
}

TEST(HoleRows, TreadsAndRisersCountFromTheLeft) {
  const Built b = built(stair_down(inches(36)));
  for (const HoleRow& row : mark_out(b.job, b.flight, b.frame).holes) {
    const auto part = std::ranges::find(b.frame.parts, row.part, &Part::mark);
    ASSERT_NE(part, b.frame.parts.end());
    if (part->kind != PartKind::tread && part->kind != PartKind::riser) continue;
    EXPECT_TRUE(row.face == "end" || row.from.starts_with("left end")) << row.part << ": " << row.from;
    EXPECT_TRUE(part->kind != PartKind::tread || row.face != "top" || row.from == "left end, front edge") << row.from;
  }
}

TEST(Shaping, ARiserBoardNarrowerThanItsStockIsRipped) {
  Frame frame = one_rail(rectangle({Length(), inches(36)}, {Length(), inches(2.75)}));
  EXPECT_NEAR(in_inches(ripped_to(frame.parts[0]).value_or(Length())), 2.75, 1e-9);
  frame = one_rail(rectangle({Length(), inches(36)}, {Length(), inches(3.5)}));
  EXPECT_FALSE(ripped_to(frame.parts[0]));
  // Seen on its flat the outline shows the thickness: the width is the span.
  frame = one_rail(rectangle({Length(), inches(36)}, {Length(), inches(1.5)}));
  frame.parts[0].solid.span = {Length(), inches(3.25)};
  EXPECT_NEAR(in_inches(ripped_to(frame.parts[0]).value_or(Length())), 3.25, 1e-9);
}

TEST(Shaping, ATreadsNotchIsGivenFromItsFrontEdge) {
  // A board 5 1/2 in deep and 37 in wide; both ends lose 3 3/4 in x 1/2 in, 1 in behind the front edge.
  Part tread = sample_part("T1a", PartKind::tread, "2x6", rectangle({Length(), inches(5.5)}, {Length(), inches(37)}));
  tread.solid.normal = Axis::z;
  EXPECT_TRUE(notches(tread).empty());
  const Length back = inches(0.75), front = inches(4.5), in = inches(0.5), right = inches(37);
  tread.solid.outline = {{Length(), Length()}, {back, Length()},        {back, in},           {front, in},
                         {front, Length()},    {inches(5.5), Length()}, {inches(5.5), right}, {front, right},
                         {front, right - in},  {back, right - in},      {back, right},        {Length(), right}};
  const std::vector<Notch> both = notches(tread);
  ASSERT_EQ(both.size(), 1U);
  EXPECT_NEAR(in_inches(both[0].from_front), 1, 1e-9);
  EXPECT_NEAR(in_inches(both[0].length), 3.75, 1e-9);
  EXPECT_NEAR(in_inches(both[0].depth), 0.5, 1e-9);
  EXPECT_TRUE(both[0].left && both[0].right);
}

TEST(HoleRows, EveryDrilledHoleOfAFrameIsListedInsideItsBoard) {
  for (const Job& job : cut_jobs()) {
    const Built b = built(job);
    std::size_t in_wood = 0;
    for (const Fastener& fastener : b.frame.fasteners) {
      for (const Hole& hole : holes(b.frame, fastener)) in_wood += is_cut_from_board(b.frame.parts[hole.part].kind);
    }
    std::size_t listed = 0;
    for (const HoleRow& row : mark_out(b.job, b.flight, b.frame).holes) {
      const auto part = std::ranges::find(b.frame.parts, row.part, &Part::mark);
      ASSERT_NE(part, b.frame.parts.end());
      if (!is_cut_from_board(part->kind)) continue;
      ++listed;
      EXPECT_GE(row.along, -kTouch) << row.part;
      EXPECT_GE(row.across, -kTouch) << row.part;
      EXPECT_LE(row.along, board_length(*part) + kTouch) << row.part;
      EXPECT_LE(row.across, part->section.width + kTouch) << row.part;
    }
    EXPECT_EQ(listed, in_wood);
  }
}

TEST(Saw, TheBeamUnderLongStringersIsBevelledByTheStairsSlopeAlongItsUpperEdge) {
  const Built b = built(stair_down(inches(86)));
  const Marks marks = mark_out(b.job, b.flight, b.frame);
  ASSERT_NE(std::ranges::find(b.frame.parts, PartKind::support_beam, &Part::kind), b.frame.parts.end());
  const auto row = std::ranges::find(marks.saw, std::string("SB1"), &SawSetting::mark);
  ASSERT_NE(row, marks.saw.end());
  // A blade stands square to the board's face: tilted by the slope it cuts the stringers' lower edge.
  EXPECT_NEAR(in_degrees(row->from_square), in_degrees(b.flight.slope), 1e-6);
  EXPECT_EQ(row->cut, "upper edge, ripped along the board");
  EXPECT_FALSE(row->beyond_saw);
  EXPECT_EQ(std::ranges::count(marks.saw, std::string("SB1"), &SawSetting::mark), 1) << "its ends are square";
}

}  // namespace
}  // namespace pitchboard
