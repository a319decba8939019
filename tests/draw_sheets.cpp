// Every sheet of whole plans: legible, complete, to scale, and the same bytes every time.

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>
#include <set>

#include "engine/draw/finding_words.hpp"
#include "engine/draw/sheet_words.hpp"
#include "engine/draw/text_metrics.hpp"
#include "tests/draw_fixture.hpp"

namespace pitchboard {
namespace {

const Sheet* sheet_named(const std::vector<Sheet>& sheets, std::string_view name) {
  const auto found = std::ranges::find(sheets, name, &Sheet::name);
  return found == sheets.end() ? nullptr : &*found;
}

bool has_text(const Sheet& sheet, const std::string& text) {
  return std::ranges::find(sheet.texts, text, &SheetText::text) != sheet.texts.end();
}

/// All words of the sheets whose name starts so, joined.
std::string words_of(const std::vector<Sheet>& sheets, const std::string& name) {
  std::string out;
  for (const Sheet& sheet : sheets) {
    if (!sheet.name.starts_with(name)) continue;
    for (const SheetText& text : sheet.texts) out += text.text + "\n";
  }
  return out;
}

/// Every mark in the words, ranges such as "BL3–BL19" spelled out.
std::set<std::string> marks_in(const std::string& words) {
  std::set<std::string> out;
  std::string token;
  const auto end_token = [&] {
    const std::size_t dash = token.find("–");
    const std::size_t digits = token.find_first_of("0123456789");
    if (dash == std::string::npos || digits == std::string::npos || digits > dash) {
      out.insert(token);
    } else {
      const std::string letters = token.substr(0, digits), last = token.substr(dash + std::string("–").size());
      if (last.starts_with(letters) && last.size() > digits) {
        for (int i = std::stoi(token.substr(digits)); i <= std::stoi(last.substr(digits)); ++i)
          out.insert(letters + std::to_string(i));
      }
    }
    token.clear();
  };
  for (const char c : words) {
    if (c == ' ' || c == '\n' || c == ',' || c == ';') {
      end_token();
    } else {
      token += c;
    }
  }
  end_token();
  return out;
}

class EverySheet : public testing::TestWithParam<std::tuple<std::size_t, Paper>> {
 protected:
  void SetUp() override {
    plan_ = drawn(drawn_jobs()[std::get<0>(GetParam())]);
    ASSERT_NE(plan_, nullptr);
    sheets_ = draw_sheets(plan_->input(), std::get<1>(GetParam()));
  }
  std::unique_ptr<DrawnPlan> plan_;
  std::vector<Sheet> sheets_;
};

TEST_P(EverySheet, KeepsItsMarginsAndNoTextLiesOnAnother) {
  for (const Sheet& sheet : sheets_) expect_legible(sheet);
}

TEST_P(EverySheet, HasATitleBlockThatSaysWhoDecides) {
  for (std::size_t i = 0; i < sheets_.size(); ++i) {
    const Sheet& sheet = sheets_[i];
    EXPECT_TRUE(has_text(sheet, std::to_string(i + 1) + " of " + std::to_string(sheets_.size()))) << sheet.name;
    EXPECT_NE(words_of({sheet}, "").find("local building department"), std::string::npos) << sheet.name;
    EXPECT_TRUE(has_text(sheet, plan_->job.about.units == UnitSystem::metric ? "mm" : "inches")) << sheet.name;
  }
}

TEST_P(EverySheet, HasANameOfItsOwn) {
  std::set<std::string> names;
  for (const Sheet& sheet : sheets_) EXPECT_TRUE(names.insert(sheet.name).second) << sheet.name;
  for (const char* wanted : {"summary", "elevation", "plan", "stringer", "heads", "boards", "cut-list", "holes",
                             "order", "checks", "pole"}) {
    EXPECT_TRUE(names.contains(wanted)) << wanted;
  }
}

TEST_P(EverySheet, NeverCallsAStairSafe) {
  for (const Sheet& sheet : sheets_) {
    for (const SheetText& text : sheet.texts) {
      std::string lower = text.text;
      std::ranges::transform(lower, lower.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
      EXPECT_EQ(lower.find("safe"), std::string::npos) << text.text;
    }
  }
}

TEST_P(EverySheet, IsTheSameBytesWhenDrawnAgain) {
  const std::vector<Sheet> again = draw_sheets(plan_->input(), std::get<1>(GetParam()));
  ASSERT_EQ(again.size(), sheets_.size());
  for (std::size_t i = 0; i < again.size(); ++i) EXPECT_EQ(to_svg(again[i]), to_svg(sheets_[i]));
}

TEST_P(EverySheet, IsWellFormedSvg) {
  for (const Sheet& sheet : sheets_) {
    const std::string svg = to_svg(sheet);
    for (const char* number : {"\"nan", ",nan", " nan,"}) EXPECT_EQ(svg.find(number), std::string::npos) << sheet.name;
    EXPECT_EQ(svg.find("inf"), std::string::npos) << sheet.name;
    // Every tag opened is closed, in order; no bare ampersand.
    std::vector<std::string> open;
    for (std::size_t at = svg.find('<'); at != std::string::npos; at = svg.find('<', at + 1)) {
      const std::size_t end = svg.find('>', at);
      ASSERT_NE(end, std::string::npos);
      const std::string tag = svg.substr(at + 1, end - at - 1);
      if (tag.ends_with('/')) continue;
      if (tag.starts_with('/')) {
        ASSERT_FALSE(open.empty());
        EXPECT_EQ(open.back(), tag.substr(1));
        open.pop_back();
      } else {
        open.push_back(tag.substr(0, tag.find(' ')));
      }
    }
    EXPECT_TRUE(open.empty()) << sheet.name;
    for (std::size_t at = svg.find('&'); at != std::string::npos; at = svg.find('&', at + 1)) {
      const std::string entity = svg.substr(at, svg.find(';', at) - at + 1);
      EXPECT_TRUE((std::set<std::string>{"&amp;", "&lt;", "&gt;", "&quot;"}.contains(entity))) << entity;
    }
  }
}

TEST_P(EverySheet, CountsOnlyTheRulesThatAreAsked) {
  // The first page against the findings, counted afresh.
  const auto passing =
      std::ranges::count_if(plan_->findings, [](const Finding& f) { return f.applies && f.verdict == Verdict::pass; });
  EXPECT_NE(words_of(sheets_, "summary").find(std::to_string(passing) + " pass"), std::string::npos);
  const std::string checks = words_of(sheets_, "checks");
  const auto idle = std::ranges::count(plan_->findings, false, &Finding::applies);
  std::ptrdiff_t not_asked = 0;
  for (std::size_t at = checks.find("not asked\n"); at != std::string::npos; at = checks.find("not asked\n", at + 1))
    ++not_asked;
  EXPECT_EQ(not_asked, idle);
  EXPECT_EQ(checks.find('_'), std::string::npos);
}

TEST_P(EverySheet, SaysHowThickTheLandingsLayersAre) {
  const std::string side = words_of(sheets_, "elevation");
  for (const Part& part : plan_->frame.parts) {
    if (part.kind != PartKind::pad_layer) continue;
    const Length thick = plan_->site.lines().empty()
                             ? Length()
                             : slice_at_a(part.solid.outline, extent_a(part.solid.outline).middle()).at(0).size();
    const std::string words = part.section.nominal + " " + tape_plain(thick, plan_->job.about.units);
    EXPECT_NE(side.find(words), std::string::npos) << words;
  }
}

/// SOURCE  architect's scales: the fraction is inches of paper to a foot of the model. Metric: one to so many.
double points_per_inch(const std::string& words) {
  static const std::map<std::string, double> kPaperPerFoot{{"3\"", 3},      {"1 1/2\"", 1.5}, {"1\"", 1},
                                                           {"3/4\"", 0.75}, {"1/2\"", 0.5},   {"3/8\"", 0.375},
                                                           {"1/4\"", 0.25}, {"1/8\"", 0.125}};
  if (words.starts_with("1:")) return 72.0 / std::stod(words.substr(2));
  return kPaperPerFoot.at(words.substr(0, words.find(" = "))) * 72 / 12;
}

TEST_P(EverySheet, DrawsTheStringerAtTheScaleItSays) {
  const Sheet* sheet = sheet_named(sheets_, "elevation");
  ASSERT_NE(sheet, nullptr);
  std::string scale;
  for (const SheetText& text : sheet->texts) {
    if (text.bold && (text.text.ends_with("1'-0\"") || text.text.starts_with("1:"))) scale = text.text;
  }
  ASSERT_FALSE(scale.empty());
  const auto stringer = std::ranges::find(plan_->frame.parts, PartKind::stringer, &Part::kind);
  const auto path =
      std::ranges::find_if(sheet->paths, [](const SheetPath& p) { return p.pen == Pen::thick && p.closed; });
  ASSERT_NE(path, sheet->paths.end());
  const auto [left, right] = std::ranges::minmax_element(path->points, {}, &SheetPoint::x);
  EXPECT_NEAR((right->x - left->x) / in_inches(extent_a(stringer->solid.outline).size()), points_per_inch(scale), 1e-6);
}

TEST_P(EverySheet, WritesEveryRiseAndGoingOnTheSideView) {
  const Sheet* sheet = sheet_named(sheets_, "elevation");
  ASSERT_NE(sheet, nullptr);
  const UnitSystem units = plan_->job.about.units;
  const Flight& flight = plan_->flight;
  const auto count = [&](Length length) {
    return std::ranges::count(sheet->texts, tape_plain(length, units), &SheetText::text);
  };
  EXPECT_GE(count(flight.unit_rise), flight.risers);
  EXPECT_GE(count(flight.going), flight.risers - 1);
  EXPECT_GE(count(flight.total_rise), 1);
  EXPECT_GE(count(flight.run), 1);
  for (const GroundLine& line : plan_->site.lines()) {
    for (std::size_t i = 0; i < line.readings.size(); ++i) {
      const std::string row =
          tape_plain(line.readings[i].out, units) + " / " + tape_plain(line.readings[i].down, units);
      EXPECT_NE(words_of(sheets_, "elevation").find(row), std::string::npos) << row;
    }
  }
}

TEST_P(EverySheet, ShowsSupportBeamsWithTheirDistanceAndThePiersDepth) {
  const UnitSystem units = plan_->job.about.units;
  const Sheet* side = sheet_named(sheets_, "elevation");
  const Sheet* above = sheet_named(sheets_, "plan");
  ASSERT_TRUE(side && above);
  for (const Part& part : plan_->frame.parts) {
    const auto [x, y, z] = box(part.solid);
    if (part.kind == PartKind::support_beam) {
      EXPECT_TRUE(has_text(*side, part.mark));
      EXPECT_TRUE(has_text(*above, part.mark));
      if (part.mark == "SB1") {
        EXPECT_TRUE(has_text(*side, tape_plain(x.middle(), units))) << "out from the deck edge";
      }
    }
    if (part.kind != PartKind::footing) continue;
    // Level ground or not: as deep as frost, or 12 in, at the lowest corner.
    const Length depth = std::max(plan_->job.place.frost_depth.value_or(Length()), inches(12));
    EXPECT_NE(words_of(sheets_, "elevation").find("pier " + tape_plain(depth, units) + " deep"), std::string::npos);
  }
  const bool long_flight = plan_->flight.risers >= 12;
  EXPECT_EQ(std::ranges::count(plan_->frame.parts, PartKind::support_beam, &Part::kind), long_flight ? 1 : 0)
      << "the long flight among the jobs has one";
}

TEST_P(EverySheet, ListsEveryPieceOnce) {
  // Counted afresh: pieces to cut, by what the list says in its column of numbers.
  int pieces = 0;
  for (const Part& part : plan_->frame.parts) pieces += is_cut_from_board(part.kind) ? 1 : 0;
  int listed = 0;
  bool ended = false;  // the saw settings may run on to further pages
  for (const Sheet& sheet : sheets_) {
    if (!sheet.name.starts_with("cut-list") || ended) continue;
    // Rows stand at one height: the number of pieces is the only bare integer beside a mono mark and a section.
    const auto saw = std::ranges::find(sheet.texts, std::string("Saw settings"), &SheetText::text);
    ended = saw != sheet.texts.end();
    const double end = ended ? saw->at.y : sheet.height;
    for (const SheetText& text : sheet.texts) {
      const bool integer = std::ranges::all_of(text.text, [](unsigned char c) { return std::isdigit(c); });
      if (integer && text.anchor == Anchor::end && text.at.y < end) listed += std::stoi(text.text);
    }
  }
  EXPECT_EQ(listed, pieces);
}

TEST_P(EverySheet, ShowsEveryPieceOnItsBoard) {
  const std::set<std::string> boards = marks_in(words_of(sheets_, "boards"));
  for (const Board& board : plan_->cuts.boards) {
    for (const PlacedPiece& piece : board.pieces) EXPECT_TRUE(boards.contains(piece.mark)) << piece.mark;
  }
}

TEST_P(EverySheet, PrintsEveryFinding) {
  const std::string checks = words_of(sheets_, "checks");
  ASSERT_FALSE(plan_->findings.empty());
  for (const Finding& finding : plan_->findings)
    EXPECT_NE(checks.find(finding.clause), std::string::npos) << finding.clause;
}

struct PaperBox {
  double x0, y0, x1, y1;
};

/// Heights of the pole's thick marks over the landing, read back from the strips.
std::vector<double> heights_on_pole(const std::vector<Sheet>& sheets, double strip) {
  std::vector<double> heights;
  double strips_before = 0;
  for (const Sheet& sheet : sheets) {
    if (!sheet.name.starts_with("pole")) continue;
    std::vector<PaperBox> boxes;
    for (const SheetPath& path : sheet.paths) {
      if (path.closed && path.pen == Pen::medium && path.points.size() == 4) {
        boxes.push_back({path.points[0].x, path.points[0].y, path.points[1].x, path.points[2].y});
      }
    }
    for (const SheetPath& path : sheet.paths) {
      if (path.pen != Pen::thick) continue;
      for (std::size_t i = 0; i < boxes.size(); ++i) {
        if (path.points[1].x > boxes[i].x0 && path.points[1].x < boxes[i].x1 + 0.01) {
          heights.push_back((strips_before + static_cast<double>(i)) * strip + (boxes[i].y1 - path.points[0].y) / 72);
        }
      }
    }
    strips_before += static_cast<double>(boxes.size());
  }
  return heights;
}

TEST_P(EverySheet, PrintsTheStoryPoleAtTrueHeight) {
  const bool metric = plan_->job.about.units == UnitSystem::metric;
  const std::vector<double> heights = heights_on_pole(sheets_, metric ? 200 / 25.4 : 8);
  const Flight& flight = plan_->flight;
  ASSERT_GE(heights.size(), static_cast<std::size_t>(flight.risers) + 1);
  for (int k = 0; k <= flight.risers; ++k) {
    const double wanted = in_inches(flight.unit_rise) * k;
    EXPECT_TRUE(std::ranges::any_of(heights, [&](double h) { return std::abs(h - wanted) < 0.005; })) << k;
  }
}

INSTANTIATE_TEST_SUITE_P(Jobs, EverySheet,
                         testing::Combine(testing::Range(std::size_t{0}, drawn_jobs().size()),
                                          testing::Values(Paper::letter, Paper::a4)));

TEST(FindingWords, EveryConditionIsSaidInPlainWords) {
  std::size_t said = 0;
  for (const RuleRow& row : all_rules()) {
    if (row.when.empty()) continue;
    const std::string words = condition_words(std::string(row.when));
    EXPECT_EQ(words.find_first_of("_<>="), std::string::npos) << words;
    ++said;
  }
  EXPECT_GT(said, 10U);
  EXPECT_EQ(condition_words("open_risers and drop > 30 in"),
            "the risers are open and the fall beside it is over 30 in");
}

TEST(FindingWords, SaysHowManyRulesFromMemoryWouldFail) {
  std::vector<Finding> findings(5);
  for (Finding& finding : findings) finding.verdict = Verdict::warn;
  findings[0].margin = -0.5;
  findings[1].margin = 0.5;
  findings[2].compare = "required";
  findings[2].measured = 1;
  findings[3].applies = false;
  findings[4].advice = true;
  const std::vector<VerdictCount> counts = verdict_counts(findings);
  ASSERT_EQ(counts.size(), 2U);
  EXPECT_EQ(counts[0].words, "3 from memory, 1 of them would fail");
  EXPECT_EQ(counts[1].words, "1 advised otherwise");
  EXPECT_EQ(verdict_words(findings[4]), "advice");
  EXPECT_EQ(measured_words(findings[2], UnitSystem::imperial), "yes");
}

TEST(SheetWords, MarksStandInTheOrderTheyAreBuilt) {
  EXPECT_EQ(mark_ranges(sorted_marks({"BR2", "T10a", "BR1", "T2b", "T2a"})), "BR1, BR2, T2a, T2b, T10a");
  EXPECT_EQ(mark_ranges(sorted_marks({"BL3", "BL10", "BL2", "BL1"})), "BL1–BL3, BL10");
}

TEST(FindingWords, ClashesOfOneKindAreOneLine) {
  Frame frame;
  frame.parts.resize(2);
  frame.parts[0].mark = "S1";
  frame.parts[1].mark = "T1";
  frame.parts[1].kind = PartKind::tread;
  for (int i = 0; i < 5; ++i) frame.clashes.push_back({"overlap", "S1", "T1", "by 1 in"});
  ASSERT_EQ(clash_lines(frame).size(), 1U);
  EXPECT_NE(clash_lines(frame)[0].find("5 places"), std::string::npos);
}

TEST(Sheets, AReadyCutStringerIsWorkedOnNotCutFromStock) {
  const auto plan = drawn(yard_stringers());
  ASSERT_NE(plan, nullptr);
  const std::vector<Sheet> sheets = draw_sheets(plan->input(), Paper::letter);
  const std::string stringer = words_of(sheets, "stringer"), list = words_of(sheets, "cut-list");
  EXPECT_NE(stringer.find("Do to each ready-cut stringer"), std::string::npos);
  EXPECT_NE(list.find("as bought"), std::string::npos);
  EXPECT_EQ(list.find("2x12"), std::string::npos);
  // Bought with 1 in off the foot, wanted with the treads' 1 1/2 in off: 1/2 in is left to cut.
  EXPECT_NE(stringer.find("Cut 1/2\" off the foot"), std::string::npos);
  EXPECT_NE(stringer.find("Notch the foot for the kicker"), std::string::npos);
}

TEST(Sheets, WhatIsInTheWayAndOverheadIsDrawn) {
  const auto plan = drawn(yard_stringers());
  ASSERT_NE(plan, nullptr);
  const std::vector<Sheet> sheets = draw_sheets(plan->input(), Paper::letter);
  for (const char* name : {"elevation", "plan"}) {
    EXPECT_NE(words_of(sheets, name).find("rain tub"), std::string::npos) << name;
    EXPECT_NE(words_of(sheets, name).find("eave"), std::string::npos) << name;
  }
}

TEST(Sheets, ALandingIsAsItIsOnlyWhereThereIsOne) {
  const auto plan = drawn(low_step());
  ASSERT_NE(plan, nullptr);
  plan->flight.landing.lift = Length();
  EXPECT_NE(words_of(draw_sheets(plan->input(), Paper::letter), "summary").find("new, level with the ground"),
            std::string::npos);
  plan->job.pad.existing = true;
  EXPECT_NE(words_of(draw_sheets(plan->input(), Paper::letter), "summary").find("as it is"), std::string::npos);
}

TEST(Sheets, TheDepthToDigReachesFromTheGroundToTheLowestLayer) {
  const auto plan = drawn(long_flight());
  ASSERT_NE(plan, nullptr);
  Length bottom;
  for (const Part& part : plan->frame.parts) {
    if (part.kind != PartKind::pad_layer) continue;
    bottom = std::min(bottom, slice_at_a(part.solid.outline, plan->flight.run).at(0).from);
  }
  ASSERT_LT(bottom, Length());
  const Length dig = plan->site.ground(plan->flight.run, plan->job.stair.width / 2.0).z - bottom;
  EXPECT_NE(words_of(draw_sheets(plan->input(), Paper::letter), "elevation").find("dig " + tape_plain(dig)),
            std::string::npos);
}

TEST(Sheets, AVerdictIsReadWithoutColour) {
  // Each verdict with its own word; none may lean on a tint alone, so no sheet has two shapes that differ by tint only.
  const auto plan = drawn(long_flight());
  ASSERT_NE(plan, nullptr);
  plan->findings.resize(4);
  const Verdict all[] = {Verdict::fail, Verdict::too_close, Verdict::not_checked, Verdict::pass};
  for (std::size_t i = 0; i < 4; ++i) {
    plan->findings[i].verdict = all[i];
    plan->findings[i].applies = true;
  }
  const std::vector<Sheet> sheets = draw_sheets(plan->input(), Paper::letter);
  const std::string words = words_of(sheets, "checks");
  for (const char* word : {"fail\n", "too close\n", "not checked\n", "pass\n"})
    EXPECT_NE(words.find(word), std::string::npos) << word;
}

TEST(Sheets, AJobsNameIsWrittenAsItIs) {
  const auto plan = drawn(garden_studio());
  ASSERT_NE(plan, nullptr);
  const std::vector<Sheet> sheets = draw_sheets(plan->input(), Paper::a4);
  EXPECT_NE(to_svg(sheets.front()).find("Garden studio &amp; &quot;shed&quot; &lt;east&gt;"), std::string::npos);
}

}  // namespace
}  // namespace pitchboard
