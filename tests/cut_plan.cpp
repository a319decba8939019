#include <map>

#include "engine/cut/board_search.hpp"
#include "tests/cut_fixture.hpp"

namespace pitchboard {
namespace {

/// Two rails alike, 40 in long.
Frame two_rails() {
  Frame frame;
  frame.parts = {
      sample_part("A", PartKind::top_rail, "2x4", rectangle({Length(), inches(40)}, {Length(), inches(3.5)})),
      sample_part("B", PartKind::top_rail, "2x4", rectangle({Length(), inches(40)}, {Length(), inches(3.5)}))};
  return frame;
}

TEST(PlanCuts, EveryPartCutFromABoardIsCutOnceAndToItsLength) {
  for (const Job& job : cut_jobs()) {
    const Built b = built(job);
    const CutPlan plan = plan_cuts(b.job, b.frame);
    EXPECT_TRUE(plan.impossible.empty());
    std::map<std::string, Length> cut;
    for (const Board& board : plan.boards) {
      for (const PlacedPiece& piece : board.pieces) {
        EXPECT_TRUE(cut.emplace(piece.mark, piece.to - piece.from).second) << piece.mark << " is cut twice";
      }
    }
    std::size_t wanted = 0;
    for (const Part& part : b.frame.parts) {
      if (part.kind == PartKind::connector || part.kind == PartKind::pad_layer || part.kind == PartKind::footing ||
          part.kind == PartKind::existing)
        continue;
      ++wanted;
      ASSERT_TRUE(cut.contains(part.mark)) << part.mark;
      EXPECT_NEAR(in_inches(cut[part.mark]), in_inches(board_length(part)), 1e-9) << part.mark;
    }
    EXPECT_EQ(cut.size(), wanted);
  }
}

TEST(PlanCuts, EverySectionOfAnOrdinaryStairIsProvenCheapest) {
  for (const Job& job : cut_jobs()) {
    const Built b = built(job);
    for (const SectionProof& proof : plan_cuts(b.job, b.frame).proofs) {
      EXPECT_TRUE(proof.optimal) << proof.section << " costs " << proof.cost.cents << ", bound " << proof.bound.cents;
    }
  }
}

TEST(PlanCuts, ShorterPiecesInWholeStepsBoundWhatTheBoardsCost) {
  int lower = 0, equal = 0;
  for (const Job& job : cut_jobs()) {
    const Built b = built(job);
    const std::vector<SectionProof> exact = plan_cuts(b.job, b.frame).proofs;
    for (const double step : {2.0, 30.0}) {
      BoardMemory memory;
      const std::vector<LeastCost> least = least_costs(b.job, b.frame, inches(step), memory);
      ASSERT_EQ(least.size(), exact.size());
      for (std::size_t i = 0; i < exact.size(); ++i) {
        EXPECT_EQ(least[i].nominal, nominal_of(exact[i].section));
        EXPECT_LE(least[i].money, exact[i].bound) << exact[i].section << ", steps of " << step;
        lower += least[i].money < exact[i].bound;
        equal += least[i].money == exact[i].bound;
      }
    }
  }
  EXPECT_GT(lower, 0);
  EXPECT_GT(equal, 10);
}

TEST(PlanCuts, PiecesKerfsAndTrimsFitTheirBoards) {
  for (const Job& job : cut_jobs()) {
    const Built b = built(job);
    for (const Board& board : plan_cuts(b.job, b.frame).boards) {
      Length taken;
      for (const PlacedPiece& piece : board.pieces) taken += piece.to - piece.from;
      taken += b.job.yard.kerf * (static_cast<double>(board.pieces.size()) - 1.0);
      const bool metal = board.section.starts_with("round");
      if (!board.offcut && !metal) taken += b.job.yard.end_trim * 2.0;
      EXPECT_LE(taken, board.length + kTouch) << board.section;
    }
  }
}

TEST(PlanCuts, ReadyCutStringersAreNotCutFromBoards) {
  Job job = stair_down(inches(35));
  job.stringers.kind = StringerKind::ready_cut;
  job.yard.ready_cut = {{"five", 5, inches(7), inches(10.5), true, inches(1.5), {2750}}};
  const Built b = built(job);
  for (const Board& board : plan_cuts(b.job, b.frame).boards) {
    for (const PlacedPiece& piece : board.pieces) EXPECT_FALSE(piece.mark.starts_with("S")) << piece.mark;
  }
}

TEST(PlanCuts, TheJobsOwnStockReplacesTheDemoStockOfThatSizeAlone) {
  Job job = stair_down(inches(35));
  job.yard.stock = {{"2x12", feet(18), {1}}};
  const Built b = built(job);
  bool others = false;
  for (const Board& board : plan_cuts(b.job, b.frame).boards) {
    if (board.section == "2x12") {
      EXPECT_EQ(board.length, feet(18));
    } else {
      others = others || board.price.cents > 1;
    }
  }
  EXPECT_TRUE(others);
}

TEST(PlanCuts, OneSizeInTwoWoodsIsTwoSections) {
  Frame frame = two_rails();
  const auto sections = [&] {
    std::vector<std::string> names;
    for (const SectionProof& proof : plan_cuts(Job{}, frame).proofs) names.push_back(proof.section);
    return names;
  };
  EXPECT_EQ(sections(), (std::vector<std::string>{"2x4"}));
  frame.parts[1].treatment = "copper-uc3b";
  EXPECT_EQ(sections(), (std::vector<std::string>{"2x4 ground contact", "2x4 above ground"}));
  frame.parts[1].treatment = "copper-uc4a";
  frame.parts[1].species = "western-cedar";
  EXPECT_EQ(sections(), (std::vector<std::string>{"2x4 southern pine", "2x4 western red cedar"}));
}

TEST(PlanCuts, AnOffcutIsGivenToOneWoodOnly) {
  Frame frame = two_rails();
  frame.parts[1].species = "western-cedar";
  Job job;
  job.yard.offcuts = {{"2x4", inches(40), 1}};
  int offcuts = 0;
  for (const Board& board : plan_cuts(job, frame).boards) offcuts += board.offcut;
  EXPECT_EQ(offcuts, 1);
}

TEST(PlanCuts, WhatTheYardHasOfASizeIsSharedByItsWoods) {
  Frame frame = two_rails();
  frame.parts[1].species = "western-cedar";
  Job job;
  job.yard.stock = {{"2x4", feet(8), {500}, 1}, {"2x4", feet(12), {900}, {}}};
  const CutPlan plan = plan_cuts(job, frame);
  ASSERT_EQ(plan.boards.size(), 2U);
  EXPECT_EQ(plan.boards[0].length, feet(8));
  EXPECT_EQ(plan.boards[1].length, feet(12));
  EXPECT_TRUE(plan.impossible.empty());
}

TEST(PlanCuts, RailsStayOutOfTheBadEndAndBlocksUseIt) {
  // 95 in of board, the last 10 bad: a rail of 80 in and a block of 14 in fit on one, two rails of 45 do not.
  const auto boards_for = [](PartKind kind, double first, double second) {
    Frame frame;
    frame.parts = {
        sample_part("A", PartKind::top_rail, "2x4", rectangle({Length(), inches(first)}, {Length(), inches(3.5)})),
        sample_part("B", kind, "2x4", rectangle({Length(), inches(second)}, {Length(), inches(3.5)}))};
    Job job;
    job.yard.stock = {{"2x4", feet(8), {500}, {}}};
    job.yard.bad_end = inches(10);
    return plan_cuts(job, frame).boards.size();
  };
  EXPECT_EQ(boards_for(PartKind::block, 80, 14), 1U);
  EXPECT_EQ(boards_for(PartKind::bottom_rail, 80, 14), 2U);
  EXPECT_EQ(boards_for(PartKind::bottom_rail, 42, 42), 1U);
  EXPECT_EQ(boards_for(PartKind::bottom_rail, 45, 45), 2U);
}

TEST(PlanCuts, APieceTooLongForTheYardIsAProblemThatNamesIt) {
  Job job = stair_down(inches(35));
  job.yard.stock = {{"2x12", feet(3), {900}}};
  const Built b = built(job);
  const CutPlan plan = plan_cuts(b.job, b.frame);
  ASSERT_EQ(plan.impossible.size(), 1U);
  EXPECT_NE(plan.impossible[0].wrong.find("S1"), std::string::npos) << plan.impossible[0].wrong;
}

}  // namespace
}  // namespace pitchboard
