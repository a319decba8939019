#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "engine/rules/measured.hpp"
#include "engine/rules/quantities.hpp"
#include "tests/rules_fixture.hpp"
#include "tests/rules_table.hpp"

using namespace pitchboard;

TEST(Judge, BoundariesOfRiserHandrailGuardAndFlight) {
  for (const TableRow& row : table("rules_boundaries.csv")) {
    const double total = number(row, "total_rise_in");
    const int risers = static_cast<int>(number(row, "risers"));
    SCOPED_TRACE(row.at("total_rise_in"));
    const auto findings = draw({.risers = risers, .rise = total / risers, .landing_depth = 40}, "irc-2018").judged();
    EXPECT_EQ(finding(findings, "riser_height", "at_most").verdict, Verdict::pass);
    const Finding handrail = finding(findings, "handrail_sides", "at_least");
    EXPECT_EQ(handrail.verdict, row.at("handrail") == "yes" ? Verdict::fail : Verdict::pass);
    EXPECT_EQ(handrail.applies, row.at("handrail") == "yes");
    const Finding guard = finding(findings, "guard", "required");
    EXPECT_EQ(guard.verdict, row.at("guard") == "yes" ? Verdict::fail : Verdict::pass);
    EXPECT_EQ(guard.applies, row.at("guard") == "yes");
    EXPECT_EQ(finding(findings, "flight_rise", "at_most").verdict,
              row.at("flight_2018") == "pass" ? Verdict::pass : Verdict::fail);
    // One riser fewer is never legal at these rises, but for the one that stops at 30 in exactly.
    if (risers > 1 && total / (risers - 1) > 7.75) {
      const auto fewer = draw({.risers = risers - 1, .rise = total / (risers - 1)}, "irc-2018").judged();
      EXPECT_EQ(finding(fewer, "riser_height", "at_most").verdict, Verdict::fail);
    }
  }
}

TEST(Judge, AnAmendmentOfEightAndAQuarterSparesTheHandrailAtTwentyFourInches) {
  const Sketch three{.risers = 3, .rise = 8.0};
  EXPECT_EQ(finding(draw(three).judged(), "riser_height", "at_most").verdict, Verdict::fail);
  const auto amended = draw(three, "irc-2021", {"us-pa"}).judged();
  EXPECT_EQ(finding(amended, "riser_height", "at_most").verdict, Verdict::pass);
  EXPECT_EQ(finding(amended, "riser_height", "at_most").clause, "34 Pa. Code 403.21(a)(1)");
  EXPECT_FALSE(finding(amended, "handrail_sides", "at_least").applies);
  EXPECT_EQ(finding(draw({.risers = 4, .rise = 6.0}).judged(), "handrail_sides", "at_least").verdict, Verdict::fail);
}

TEST(Judge, LandingLaidTooHighSpoilsTheFirstRiser) {
  const auto variation = [](double less) {
    return finding(draw({.rise = 7.5, .first_riser_less = less}).judged(), "riser_variation", "at_most");
  };
  EXPECT_EQ(variation(0.25).verdict, Verdict::pass);
  EXPECT_NEAR(*variation(0.25).measured, 0.25, 1e-9);
  EXPECT_EQ(variation(0.375).verdict, Verdict::pass);
  EXPECT_EQ(variation(0.376).verdict, Verdict::fail);
  EXPECT_EQ(variation(0.5).verdict, Verdict::fail);
  EXPECT_NE(variation(0.5).where.find("riser 1"), std::string::npos);
}

TEST(Judge, AStringerThatWasNotDroppedIsOutByTwiceTheTread) {
  // A 1 in tread on a stringer cut for none: first riser 1 in too high, last 1 in too low.
  const Finding f = finding(draw({.rise = 7.5, .tread_shift = 1.0}).judged(), "riser_variation", "at_most");
  EXPECT_EQ(f.verdict, Verdict::fail);
  EXPECT_NEAR(*f.measured, 2.0, 1e-9);
}

TEST(Judge, PitchIsThatOfThePublishedSlopeTable) {
  for (const TableRow& row : table("rules_slopes.csv")) {
    const Case drawn =
        draw({.risers = 5, .rise = number(row, "rise_in"), .going = number(row, "run_in")}, "uk-adk-2013");
    const double published = number(row, "degrees") + number(row, "minutes") / 60;
    EXPECT_NEAR(*finding(drawn.judged(), "pitch", "at_most").measured, published, 2.01 / 60) << row.at("rise_in");
  }
}

TEST(Judge, ThroatsAreThoseOfTheTable) {
  for (const TableRow& row : table("rules_throats.csv")) {
    SCOPED_TRACE(row.at("board_in") + " " + row.at("rise_in") + "/" + row.at("going_in"));
    const Sketch sketch{.risers = 5,
                        .rise = number(row, "rise_in"),
                        .going = number(row, "going_in"),
                        .board_depth = number(row, "board_in")};
    const Case drawn = draw(sketch, "irc-2021", {"us-deck-guide"});
    const Measured measured = measure(drawn.job, Site(drawn.job), drawn.flight, drawn.frame);
    EXPECT_NEAR(find_measure(measured, "throat")->samples.front().value, number(row, "throat_in"), 0.00051);
    // The guide's 5 in are from memory: they warn, and say which way.
    const Finding f = finding(drawn.judged(), "throat", "at_least");
    EXPECT_EQ(f.verdict, Verdict::warn);
    EXPECT_NE(f.change.find("would " + row.at("five_inch_rule")), std::string::npos) << f.change;
  }
}

TEST(Judge, CanadianThroatOfNinetyMillimetres) {
  // 38 x 235 at 175/255 leaves 90.7 mm, at 180/255 87.9 mm: derived.
  const auto throat = [](double rise) {
    return finding(
        draw({.risers = 5, .rise = rise / 25.4, .going = 255 / 25.4, .board_depth = 235 / 25.4}, "canada-nbc-9.8")
            .judged(),
        "throat", "at_least");
  };
  EXPECT_NEAR(*throat(175).measured, 90.7, 0.05);
  EXPECT_GT(*throat(175).margin, 0);
  EXPECT_NE(throat(175).change.find("would pass"), std::string::npos);
  EXPECT_NEAR(*throat(180).measured, 87.9, 0.05);
  EXPECT_NE(throat(180).change.find("would fail"), std::string::npos);
}

TEST(Judge, UkPitchOfFortyTwoDegrees) {
  const auto pitch = [](double rise, double going) {
    return finding(draw({.risers = 5, .rise = rise / 25.4, .going = going / 25.4}, "uk-adk-2013").judged(), "pitch",
                   "at_most")
        .verdict;
  };
  EXPECT_EQ(pitch(220, 220), Verdict::fail);
  EXPECT_EQ(pitch(220, 245), Verdict::pass);
}

TEST(Judge, AnExactLimitPassesWhenTheReadingsAreExactAndIsTooCloseOtherwise) {
  const Sketch sketch{.rise = 7.75};
  EXPECT_EQ(finding(draw(sketch).judged(), "riser_height", "at_most").verdict, Verdict::pass);
  const Finding close = finding(draw(sketch, "irc-2021", {}, 0.125).judged(), "riser_height", "at_most");
  EXPECT_EQ(close.verdict, Verdict::too_close);
  EXPECT_EQ(close.step, 1);
  EXPECT_NEAR(*close.uncertainty, 0.125, 1e-12);
  EXPECT_NE(close.change.find("Measure again"), std::string::npos);
  // The variation has 3/8 in in hand, so a reading good to 1/8 in leaves it a pass and one good to 1/2 in does not.
  EXPECT_EQ(finding(draw(sketch, "irc-2021", {}, 0.125).judged(), "riser_variation", "at_most").verdict, Verdict::pass);
  EXPECT_EQ(finding(draw(sketch, "irc-2021", {}, 0.5).judged(), "riser_variation", "at_most").verdict,
            Verdict::too_close);
}

TEST(Judge, WhetherAGuardIsNeededCanBeTooCloseToo) {
  const Sketch sketch{.risers = 4, .rise = 7.5};  // 30 in exactly
  EXPECT_FALSE(finding(draw(sketch).judged(), "guard", "required").applies);
  const Finding f = finding(draw(sketch, "irc-2021", {}, 0.25).judged(), "guard", "required");
  EXPECT_EQ(f.verdict, Verdict::too_close);
  Sketch guarded = sketch;
  guarded.guard = true;
  EXPECT_EQ(finding(draw(guarded, "irc-2021", {}, 0.25).judged(), "guard", "required").verdict, Verdict::pass);
}

TEST(Judge, ALandingThatFallsAcrossMakesTheFirstRiserDiffer) {
  // 1/4 in per ft across 36 in is 3/4 in from side to side: derived.
  const Finding f = finding(draw({.rise = 7.0, .cross_fall = 0.25 / 12}).judged(), "riser_variation", "at_most");
  EXPECT_NEAR(*f.measured, 0.75, 1e-9);
  EXPECT_EQ(f.verdict, Verdict::fail);
}

TEST(Judge, NosingsAreHeldToTheirBandOnlyWhereTheGoingIsUnderElevenInches) {
  const auto at_least = [](Sketch s, const char* pack = "irc-2021") {
    return finding(draw(s, pack).judged(), "nosing", "at_least");
  };
  EXPECT_EQ(at_least({.nosing = 0.75}).verdict, Verdict::pass);
  EXPECT_EQ(at_least({.nosing = 0.7}).verdict, Verdict::fail);
  EXPECT_FALSE(at_least({.going = 11, .nosing = 0.0, .deck_nosing = 0}).applies);
  // The deck's edge is the top nosing.
  const Finding top = at_least({.deck_nosing = 0.25});
  EXPECT_EQ(top.verdict, Verdict::fail);
  EXPECT_EQ(top.where, "deck edge");
  // Open risers: not in the 2015 text, measured to the plumb cut since.
  EXPECT_FALSE(at_least({.nosing = 0.5, .open = true}, "irc-2015").applies);
  EXPECT_EQ(at_least({.nosing = 0.5, .open = true}, "irc-2018").verdict, Verdict::fail);
  EXPECT_EQ(finding(draw({.nosing = 1.26}).judged(), "nosing", "at_most").verdict, Verdict::fail);
}

TEST(Judge, OpenRisersMatterOnlyMoreThanThirtyInchesUp) {
  const auto gap = [](Sketch s) { return finding(draw(s).judged(), "open_riser_gap", "less_than"); };
  // Underside of the highest tread: 28 - 7 - 1.5 = 19.5 in up; the rim closes the top.
  EXPECT_FALSE(gap({.risers = 4, .open = true}).applies);
  const Finding high = gap({.risers = 8, .open = true});
  EXPECT_EQ(high.verdict, Verdict::fail);
  EXPECT_NEAR(*high.measured, 5.5, 1e-9);
  EXPECT_FALSE(gap({.risers = 8}).applies);
  // 4 in exactly lets the ball pass.
  EXPECT_EQ(gap({.risers = 10, .rise = 5.5, .tread_thickness = 1.5, .open = true}).verdict, Verdict::fail);
  EXPECT_EQ(gap({.risers = 10, .rise = 5.4, .tread_thickness = 1.5, .open = true}).verdict, Verdict::pass);
}

TEST(Judge, GuardHeightAndGaps) {
  const Sketch sketch{.risers = 6, .guard = true};
  const auto findings = draw(sketch).judged();
  EXPECT_NEAR(*finding(findings, "guard_height", "at_least").measured, 36, 1e-9);
  EXPECT_EQ(finding(findings, "guard_opening", "less_than").verdict, Verdict::pass);
  EXPECT_NEAR(*finding(findings, "guard_opening", "less_than").measured, 3.5, 1e-9);
  const auto opening = [&](double gap) {
    Sketch s = sketch;
    s.baluster_gap = gap;
    return finding(draw(s).judged(), "guard_opening", "less_than").verdict;
  };
  EXPECT_EQ(opening(4.37), Verdict::pass);
  EXPECT_EQ(opening(4.375), Verdict::fail);
  Sketch low = sketch;
  low.guard_height = 33.9;
  EXPECT_EQ(finding(draw(low).judged(), "guard_height", "at_least").verdict, Verdict::fail);
  // A guard that nobody asks for is held to nothing.
  EXPECT_FALSE(
      finding(draw({.risers = 3, .guard = true, .guard_height = 20}).judged(), "guard_height", "at_least").applies);
}

TEST(Judge, BallUnderTheBottomRailIsThatOfTheGeometry) {
  // The circle that touches tread, riser face and rail: legs stretched by what the rail lies above the line of nosings
  // and by the nosing's own set-back. No nosing and h from N (6 / (R + T - C) - 1) gives 6 in exactly.
  for (const auto& [rise, going] : {std::pair{7.0, 11.0}, {7.5, 10.0}, {7.75, 10.0}}) {
    const double c = std::hypot(rise, going), n = rise * going / c;
    for (const double nosing : {0.0, 0.75}) {
      const double h = n * (6 / (rise + going - c) - 1);
      Sketch s{.risers = 8,
               .rise = rise,
               .going = going,
               .nosing = nosing,
               .deck_nosing = nosing,
               .guard = true,
               .rail_gap = h / (going / c)};
      const double stretch = (rise + s.rail_gap + nosing * rise / going) / rise;
      EXPECT_NEAR(*finding(draw(s).judged(), "guard_triangle", "less_than").measured, (rise + going - c) * stretch,
                  0.0005);
      if (nosing == 0) {
        EXPECT_NEAR((rise + going - c) * stretch, 6, 1e-9);
      }
    }
  }
}

TEST(Judge, Handrails) {
  const Sketch sketch{.risers = 6, .guard = true, .handrail = true};
  const auto findings = draw(sketch).judged();
  for (const auto& [quantity, compare] : {std::pair{"handrail_sides", "at_least"},
                                          {"handrail_height", "at_least"},
                                          {"handrail_height", "at_most"},
                                          {"handrail_past_foot", "at_least"},
                                          {"handrail_past_head", "at_least"},
                                          {"handrail_breaks", "at_most"},
                                          {"handrail_clearance", "at_least"},
                                          {"handrail_perimeter", "at_most"},
                                          {"handrail_cross_section", "at_most"}}) {
    const Finding f = finding(findings, quantity, compare);
    EXPECT_EQ(f.verdict, Verdict::pass) << quantity << ": " << f.change;
    EXPECT_TRUE(f.applies) << quantity;
  }
  EXPECT_NEAR(*finding(findings, "handrail_perimeter", "at_most").measured, 6, 1e-9);
  EXPECT_NEAR(*finding(findings, "handrail_cross_section", "at_most").measured, std::sqrt(4.5), 1e-9);
  // Cap reaches 1/4 in in: 2 in to the guard leave 1 3/4 in.
  EXPECT_NEAR(*finding(findings, "handrail_clearance", "at_least").measured, 1.75, 1e-9);
  EXPECT_NEAR(*finding(findings, "clear_width", "at_least").measured, 32.25, 1e-9);
  EXPECT_NEAR(*finding(findings, "clear_width_above_rail", "at_least").measured, 36, 1e-9);
  const auto with = [&](auto change, const char* quantity, const char* compare) {
    Sketch s = sketch;
    change(s);
    return finding(draw(s).judged(), quantity, compare).verdict;
  };
  EXPECT_EQ(with([](Sketch& s) { s.handrail_height = 33.9; }, "handrail_height", "at_least"), Verdict::fail);
  EXPECT_EQ(with([](Sketch& s) { s.handrail_height = 38.1; }, "handrail_height", "at_most"), Verdict::fail);
  EXPECT_EQ(with([](Sketch& s) { s.handrail_past_foot = -0.1; }, "handrail_past_foot", "at_least"), Verdict::fail);
  EXPECT_EQ(with([](Sketch& s) { s.handrail_gap = 1.7; }, "handrail_clearance", "at_least"), Verdict::fail);
  EXPECT_EQ(with([](Sketch& s) { s.handrail_size = 1.6; }, "handrail_perimeter", "at_most"), Verdict::fail);
  EXPECT_EQ(with([](Sketch& s) { s.width = 34; }, "clear_width_above_rail", "at_least"), Verdict::fail);
}

TEST(Judge, ACapOfTwoBySixIsNoHandrail) {
  EXPECT_EQ(finding(draw({.risers = 6, .guard = true}).judged(), "handrail_sides", "at_least").verdict, Verdict::fail);
}

TEST(Judge, HeadroomIsNotCheckedUntilSomethingOverheadIsRecorded) {
  Case drawn = draw({.risers = 6});
  const auto headroom = [&] { return finding(drawn.judged(), "headroom", "at_least"); };
  EXPECT_EQ(headroom().verdict, Verdict::not_checked);
  EXPECT_NE(headroom().change.find("look up"), std::string::npos);
  // Over the line of nosings from 21 in out: 80 in there, less nearer the deck, more further out.
  drawn.job.room.overheads = {{"balcony", {inches(21), inches(40)}, inches(80 - 14)}};
  EXPECT_EQ(headroom().verdict, Verdict::pass);
  EXPECT_NEAR(*headroom().measured, 80, 1e-9);
  drawn.job.room.overheads[0].above = inches(65.9);
  EXPECT_EQ(headroom().verdict, Verdict::fail);
  drawn.job.room.overheads = {{"eaves", {inches(60), inches(70)}, inches(40)}};
  EXPECT_NEAR(*headroom().measured, 82, 1e-9);  // 40 over the deck, landing 42 below it
}

TEST(Judge, TheLandingIsMeasuredOnItsSurface) {
  const auto findings = draw({.risers = 4, .fall = 0.02, .landing_depth = 35.9}).judged();
  EXPECT_EQ(finding(findings, "landing_depth", "at_least").verdict, Verdict::fail);
  EXPECT_NEAR(*finding(findings, "landing_fall", "at_most").measured, 0.02, 1e-9);
  EXPECT_EQ(finding(findings, "landing_fall", "at_most").verdict, Verdict::warn);  // 1 in 20: from memory
  const Finding width = finding(findings, "landing_width", "at_least");
  EXPECT_EQ(width.verdict, Verdict::pass);
  // As wide as the flight: the limit is the flight's own width.
  EXPECT_NEAR(*width.limit, 36, 1e-9);
  EXPECT_NEAR(*width.measured - *width.limit, *width.margin, 1e-9);
  EXPECT_GE(*width.measured, 36 - 1e-9);
}

TEST(Judge, RailRowsAreAskedOnlyWhereARailIsThereOrDue) {
  struct Asked {
    const char *quantity, *compare;
  };
  constexpr Asked kHandrail[] = {{"handrail_ends", "required"}, {"handrail_edges", "at_least"}};
  constexpr Asked kGuard[] = {{"guard_post_fixing", "required"}, {"infill_load", "at_least"}};
  const auto expect = [&](const Sketch& sketch, bool handrail, bool guard) {
    const auto findings = draw(sketch).judged();
    const auto is = [&](const Asked& a) { return finding(findings, a.quantity, a.compare); };
    for (const Asked& a : kHandrail) EXPECT_EQ(is(a).applies, handrail) << a.quantity;
    for (const Asked& a : kGuard) EXPECT_EQ(is(a).applies, guard) << a.quantity;
    EXPECT_EQ(is({"guard_load", "at_least"}).applies, handrail || guard);
    EXPECT_EQ(is(kHandrail[0]).verdict, handrail ? Verdict::not_checked : Verdict::pass);
    EXPECT_EQ(is(kGuard[0]).verdict, guard ? Verdict::not_checked : Verdict::pass);
  };
  expect({.risers = 3}, false, false);                // 21 in, nothing built
  expect({.risers = 3, .guard = true}, false, true);  // built though nobody asks
  expect({.risers = 4}, true, false);                 // 28 in: a handrail is due
  expect({.risers = 6}, true, true);                  // 42 in: both are due
}

TEST(Judge, TheDeckGuideAdvisesEveryIrcStairAndFailsNone) {
  // 10 risers of 7 in 10.5: a span over 6 ft; stringers 19 1/4 in apart.
  const auto findings = draw({.risers = 10, .width = 40}).judged();
  for (const auto& [quantity, compare] : {std::pair{"stringer_span", "at_most"}, {"stringer_spacing", "at_most"}}) {
    const Finding f = finding(findings, quantity, compare);
    EXPECT_TRUE(f.advice) << quantity;
    EXPECT_EQ(f.verdict, Verdict::warn) << quantity;
    EXPECT_LT(*f.margin, 0) << quantity;
    EXPECT_TRUE(f.change.starts_with("Advice only")) << f.change;
    EXPECT_NE(f.source.find("DCA 6"), std::string::npos);
  }
  EXPECT_NE(finding(findings, "stringer_span", "at_most").sentence.find("or an engineer"), std::string::npos);
  const auto kept = draw({.risers = 5, .width = 30}).judged();
  EXPECT_EQ(finding(kept, "stringer_span", "at_most").verdict, Verdict::pass);
  EXPECT_EQ(finding(kept, "stringer_spacing", "at_most").verdict, Verdict::pass);
  // A 2x10 keeps less than 5 in under the notches: 9.25 in less 7 x 10.5 over 12.62.
  EXPECT_EQ(finding(draw({.board_depth = 9.25}).judged(), "throat", "at_least").verdict, Verdict::warn);
  // Made a rule by the amendment, it is one again, and only once.
  const auto ruled = draw({.risers = 10, .width = 40}, "irc-2021", {"us-deck-guide"}).judged();
  EXPECT_EQ(finding(ruled, "stringer_span", "at_most").verdict, Verdict::fail);
  EXPECT_TRUE(std::ranges::none_of(ruled, &Finding::advice));
}

TEST(Judge, ATreadOutOfLevelAndALeaningRiserAreSeen) {
  Case drawn = draw({.risers = 4});
  const auto tread = std::ranges::find(drawn.frame.parts, PartKind::tread, &Part::kind);
  tread->solid = {
      Axis::y, {inches(0), inches(36)}, sketching::points({{20, -21}, {31.5, -21.5}, {31.5, -23}, {20, -22.5}})};
  EXPECT_NEAR(*finding(drawn.judged(), "tread_slope", "at_most").measured, 0.5 / 11.5, 1e-5);
  const auto riser = std::ranges::find(drawn.frame.parts, PartKind::riser, &Part::kind);
  riser->solid = {Axis::y, {inches(0), inches(36)}, sketching::points({{25, -27}, {26, -27}, {30, -23}, {29, -23}})};
  EXPECT_NEAR(*finding(drawn.judged(), "riser_slope", "at_most").measured, 45, 1e-6);
}

TEST(Judge, TheGroundBesideTheStairCountsNotThePad) {
  // 29 in to the landing, but the ground beside it lies 2 in lower.
  EXPECT_EQ(finding(draw({.risers = 4, .rise = 7.25, .ground_below = 2}).judged(), "guard", "required").verdict,
            Verdict::fail);
}

TEST(Judge, SpanAndSpacingOfStringers) {
  const auto findings = draw({.risers = 9, .width = 40}, "irc-2021", {"us-deck-guide"}).judged();
  EXPECT_NEAR(*finding(findings, "stringer_spacing", "at_most").measured, 19.25, 1e-9);
  EXPECT_EQ(finding(findings, "stringer_spacing", "at_most").verdict, Verdict::fail);
  // From the rim's face, 1 in behind the deck's edge, to the heel: cut face at 84 - 1.75 in, foot 11.25 / cos - 5.5 in
  // plumb over the slope of 7 in 10.5.
  const double heel = 84 - 1.75 - (11.25 / (10.5 / std::hypot(7, 10.5)) - 5.5) / (7 / 10.5);
  const Finding span = finding(findings, "stringer_span", "at_most");
  EXPECT_NEAR(*span.measured, heel + 1, 1e-6);
}

TEST(Judge, TheSpanIsMeasuredFromBearingToBearing) {
  Case drawn = draw({.risers = 12});
  const double whole = *finding(drawn.judged(), "stringer_span", "at_most").measured;
  const double heel = whole - 1;  // from the rim's face, 1 in behind the deck's edge
  Part beam;
  beam.mark = "SB1";
  beam.kind = PartKind::support_beam;
  // By hand: the lower edge falls 7 in 10.5 and meets the landing's level, 12 x 7 in below the deck, at the heel.
  const double x = 40, top = -12 * 7 + (heel - x) * 7 / 10.5;
  const auto set = [&](double z) {
    beam.solid = {Axis::y,
                  {inches(0), inches(36)},
                  sketching::points({{x - 0.75, z - 7}, {x + 0.75, z - 7}, {x + 0.75, z}, {x - 0.75, z}})};
  };
  set(top);
  drawn.frame.parts.push_back(beam);
  EXPECT_NEAR(*finding(drawn.judged(), "stringer_span", "at_most").measured, std::max(x - 0.75 + 1, heel - x - 0.75),
              1e-6);
  // One that hangs an inch under the stringers carries none of them.
  set(top - 1);
  drawn.frame.parts.back() = beam;
  EXPECT_NEAR(*finding(drawn.judged(), "stringer_span", "at_most").measured, whole, 1e-9);
}

TEST(Judge, EveryRowHasOneFindingAndTheWorstComeFirst) {
  for (const PackInfo& pack : packs()) {
    if (pack.kind != "pack") continue;
    const Case drawn = draw({.risers = 7, .rise = 8.1, .guard = true}, std::string(pack.key), {}, 0.125);
    const auto findings = drawn.judged();
    EXPECT_EQ(findings.size(), rules_in_force(drawn.job.place).size());
    EXPECT_TRUE(std::ranges::is_sorted(findings, {}, &Finding::verdict));
    for (std::size_t i = 1; i < findings.size(); ++i) {
      const Finding &p = findings[i - 1], &q = findings[i];
      if (p.verdict != q.verdict) continue;
      EXPECT_TRUE(p.applies || !q.applies) << q.clause;
      if (p.applies != q.applies || !p.margin || !q.margin || *p.limit == 0 || *q.limit == 0) continue;
      const double first = *p.margin / *p.limit, second = *q.margin / *q.limit;
      EXPECT_LE(first, second) << p.clause << " before " << q.clause;
      EXPECT_TRUE(first != second || p.clause <= q.clause);
    }
    for (const Finding& f : findings) {
      SCOPED_TRACE(std::string(f.pack) + " " + std::string(f.clause) + " " + std::string(f.quantity));
      EXPECT_FALSE(f.change.empty() || f.source.empty() || f.sentence.empty());
      if (f.confidence == "memory" && f.applies && !f.advice) {
        EXPECT_TRUE(f.verdict == Verdict::warn || f.verdict == Verdict::not_checked || f.verdict == Verdict::too_close);
        EXPECT_NE(f.change.find("from memory"), std::string::npos) << f.change;
      }
      if (f.verdict == Verdict::fail || f.verdict == Verdict::too_close) {
        EXPECT_TRUE(f.measured);
      }
      if (f.verdict == Verdict::not_checked) {
        EXPECT_FALSE(f.measured);
      }
      if (f.verdict == Verdict::pass && f.applies && f.margin && f.uncertainty) {
        EXPECT_GT(*f.margin, *f.uncertainty);
      }
      EXPECT_EQ(f.change.find("safe"), std::string::npos);
    }
  }
}

TEST(Judge, EveryRowSpeaksOfAKnownQuantityInAUnitOfItsKind) {
  const Case drawn = draw({.risers = 6, .guard = true, .handrail = true});
  const Measured measured = measure(drawn.job, Site(drawn.job), drawn.flight, drawn.frame);
  for (const RuleRow& row : all_rules()) {
    SCOPED_TRACE(std::string(row.pack) + " " + std::string(row.quantity));
    const QuantityInfo* info = find_quantity(row.quantity);
    ASSERT_TRUE(info);
    const bool is_measured = find_measure(measured, row.quantity) != nullptr;
    EXPECT_NE(is_measured, !info->look.empty()) << "either measured, or somebody has to look";
    const bool length = row.unit == "in" || row.unit == "mm",
               load = row.unit == "lb" || row.unit == "psf" || row.unit == "kPa";
    if (info->kind == Kind::length) {
      EXPECT_TRUE(length);
    }
    if (info->kind == Kind::angle) {
      EXPECT_EQ(row.unit, "deg");
    }
    if (info->kind == Kind::slope) {
      EXPECT_EQ(row.unit, "slope");
    }
    if (info->kind == Kind::count) {
      EXPECT_EQ(row.unit, "count");
    }
    if (info->kind == Kind::load) {
      EXPECT_TRUE(load);
    }
    EXPECT_EQ(info->kind == Kind::yes_no, row.compare == "required");
    // Whoever fails a rule is told what to do about it.
    const bool upper = row.compare == "at_most" || row.compare == "less_than" || row.compare == "required";
    if (is_measured && row.compare != "advice") {
      EXPECT_FALSE((upper ? info->less : info->more).empty());
    }
  }
  // Everything that is measured has words, and some rule asks for it.
  std::set<std::string_view> asked;
  for (const RuleRow& row : all_rules()) asked.insert(row.quantity);
  for (const Measure& m : measured.measures)
    EXPECT_TRUE(find_quantity(m.quantity) && asked.contains(m.quantity)) << m.quantity;
  for (const QuantityInfo& q : quantities()) EXPECT_TRUE(asked.contains(q.name)) << q.name;
}
