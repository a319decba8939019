#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <set>
#include <sstream>

#include "engine/rules/condition.hpp"
#include "engine/rules/rules.hpp"
#include "tests/rules_table.hpp"

using namespace pitchboard;

namespace {

const RuleRow* find(const std::vector<RuleRow>& rules, std::string_view quantity, std::string_view compare) {
  const auto found =
      std::ranges::find_if(rules, [&](const RuleRow& r) { return r.quantity == quantity && r.compare == compare; });
  return found == rules.end() ? nullptr : &*found;
}

std::vector<std::string> words(const std::string& text) {
  std::istringstream in(text);
  return {std::istream_iterator<std::string>(in), {}};
}

}  // namespace

TEST(Packs, EveryRowIsWellFormed) {
  const std::set<std::string_view> compares{"at_most", "at_least", "less_than", "more_than", "required", "advice"};
  const std::set<std::string_view> units{"in", "mm", "deg", "slope", "count", "none", "lb", "psf", "kPa"};
  ASSERT_GT(all_rules().size(), 200u);
  for (const RuleRow& row : all_rules()) {
    SCOPED_TRACE(std::string(row.pack) + " " + std::string(row.clause) + " " + std::string(row.quantity));
    EXPECT_TRUE(row.confidence == "seen" || row.confidence == "summary" || row.confidence == "memory");
    EXPECT_FALSE(row.source.empty());
    EXPECT_FALSE(row.clause.empty());
    EXPECT_TRUE(is_condition(row.when)) << row.when;
    EXPECT_TRUE(compares.contains(row.compare)) << row.compare;
    EXPECT_TRUE(units.contains(row.unit)) << row.unit;
    EXPECT_TRUE(row.sentence.ends_with('.')) << row.sentence;
    EXPECT_EQ(row.confidence == "memory", row.source.find("from memory") == 0) << row.source;
  }
}

TEST(Packs, EveryRowBelongsToAPackAndEveryPackHasRows) {
  std::set<std::string_view> families, rows;
  for (const PackInfo& pack : packs()) {
    families.insert(pack.family);
    EXPECT_FALSE(pack.title.empty() || pack.source.empty()) << pack.key;
    EXPECT_EQ(pack.kind == "amendment", !pack.applies_to.empty()) << pack.key;
  }
  for (const RuleRow& row : all_rules()) rows.insert(row.pack);
  EXPECT_EQ(families, rows);
}

TEST(Packs, NoPackHasTwoRowsForOneQuantityComparisonAndCondition) {
  for (const PackInfo& pack : packs()) {
    if (pack.kind != "pack") continue;
    std::set<std::string> seen;
    for (const RuleRow& row : rules_in_force({.pack = std::string(pack.key)})) {
      const std::string key = std::string(row.quantity) + " " + std::string(row.compare) + " " + std::string(row.when);
      EXPECT_TRUE(seen.insert(key).second) << pack.key << ": " << key;
    }
  }
}

TEST(Packs, LimitsForShapingAreThePublishedOnes) {
  for (const auto& row : table("rules_rise_limits.csv")) {
    const ShapeLimits limits = shape_limits({.pack = row.at("pack"), .amendments = words(row.at("amendments"))});
    SCOPED_TRACE(row.at("pack") + " " + row.at("amendments"));
    EXPECT_NEAR(in_inches(limits.rise_max), number(row, "rise_max_in"), 1e-9);
    EXPECT_NEAR(in_inches(limits.going_min), number(row, "going_min_in"), 1e-9);
    EXPECT_NEAR(in_inches(limits.flight_rise_max), number(row, "flight_rise_max_in"), 1e-9);
  }
}

TEST(Packs, UkHasABandForTwiceRisePlusGoingAndAPitch) {
  const ShapeLimits limits = shape_limits({.pack = "uk-adk-2013"});
  ASSERT_TRUE(limits.twice_rise_plus_going && limits.pitch_max);
  EXPECT_NEAR(in_millimetres(limits.twice_rise_plus_going->from), 550, 1e-9);
  EXPECT_NEAR(in_millimetres(limits.twice_rise_plus_going->to), 700, 1e-9);
  EXPECT_NEAR(in_degrees(*limits.pitch_max), 42, 1e-9);
  EXPECT_FALSE(shape_limits({.pack = "irc-2021"}).pitch_max);
}

TEST(Packs, EachEditionHasItsOwnClauseNumbers) {
  const auto clause = [](const char* pack, std::string_view quantity) {
    const std::vector<RuleRow> rules = rules_in_force({.pack = pack});
    const auto row = std::ranges::find(rules, quantity, &RuleRow::quantity);
    return row == rules.end() ? std::string() : std::string(row->clause);
  };
  EXPECT_EQ(clause("irc-2021", "riser_height"), "R311.7.5.1");
  EXPECT_EQ(clause("irc-2024", "riser_height"), "R318.7.5.1");
  EXPECT_EQ(clause("irc-2015", "handrail_breaks"), "R311.7.8.2");
  EXPECT_EQ(clause("irc-2018", "handrail_breaks"), "R311.7.8.4");
  EXPECT_EQ(clause("irc-2024", "handrail_breaks"), "R318.7.8.4");
  EXPECT_EQ(clause("irc-2024", "guard"), "R321.1.1");
  EXPECT_EQ(clause("irc-2015", "stainless"), "");
  EXPECT_EQ(clause("irc-2018", "stainless"), "Table R507.2.3");
}

TEST(Packs, NoRowOfAPackWithACaveatIsSeen) {
  for (const RuleRow& row : rules_in_force({.pack = "irc-2024"})) EXPECT_NE(row.confidence, "seen") << row.clause;
}

TEST(Packs, AnAmendmentReplacesTheRowsOfItsQuantityAndLeavesTheOthers) {
  const std::vector<RuleRow> model = rules_in_force({.pack = "irc-2021"});
  const std::vector<RuleRow> amended = rules_in_force({.pack = "irc-2021", .amendments = {"us-wi"}});
  ASSERT_TRUE(find(amended, "guard", "required"));
  EXPECT_EQ(find(amended, "guard", "required")->when, "drop > 24 in");
  EXPECT_EQ(find(amended, "handrail_height", "at_least")->limit, 30);
  EXPECT_EQ(find(amended, "riser_variation", "at_most")->limit, 0.375);
  EXPECT_EQ(model.size(), amended.size());
}

TEST(Packs, HandrailFromFourRisersOn) {
  // codes.md table of boundary cases; IRC R311.7.8.
  EXPECT_FALSE(handrail_needed({.pack = "irc-2021"}, 3));
  EXPECT_TRUE(handrail_needed({.pack = "irc-2021"}, 4));
  EXPECT_TRUE(handrail_needed({.pack = "irc-2021", .amendments = {"us-wi"}}, 4));
  EXPECT_FALSE(handrail_needed({.pack = "irc-2021", .amendments = {"us-wi"}}, 3));
  // Where the pack asks for more than the number of risers, a handrail that may be needed is needed.
  EXPECT_TRUE(handrail_needed({.pack = "australia-ncc-2022"}, 2));
}

TEST(Packs, GuardAboveThirtyInchesNotAtThirty) {
  const Place irc{.pack = "irc-2021"};
  EXPECT_FALSE(guard_needed(irc, inches(30)));
  EXPECT_TRUE(guard_needed(irc, inches(30.01)));
  EXPECT_TRUE(guard_needed({.pack = "irc-2021", .amendments = {"us-wi"}}, inches(24.5)));
  EXPECT_FALSE(guard_needed({.pack = "uk-adk-2013"}, millimetres(600)));
  EXPECT_TRUE(guard_needed({.pack = "uk-adk-2013"}, millimetres(601)));
  EXPECT_TRUE(guard_needed({.pack = "australia-ncc-2022"}, millimetres(1000)));
}

TEST(Packs, StainlessWithinThreeHundredFeetOfSaltWater) {
  EXPECT_FALSE(stainless_required({.pack = "irc-2021"}));
  EXPECT_TRUE(stainless_required({.pack = "irc-2021", .salt_water = feet(300)}));
  EXPECT_FALSE(stainless_required({.pack = "irc-2021", .salt_water = feet(301)}));
  EXPECT_TRUE(stainless_required({.pack = "irc-2015", .salt_water = feet(50)}));
  EXPECT_TRUE(stainless_required({.pack = "uk-adk-2013", .salt_water = millimetres(40000)}));
}

TEST(Packs, WrongNamesAreProblemsWithTheNearestNameBeside) {
  EXPECT_TRUE(check_place({.pack = "irc-2021", .amendments = {"us-pa", "us-deck-guide"}}).empty());
  const Problems problems = check_place({.pack = "irc-2012", .amendments = {"us-pp", "nowhere"}});
  ASSERT_EQ(problems.size(), 3u);
  EXPECT_EQ(problems[0].place, "place.pack");
  EXPECT_NE(problems[0].remedy.find("irc-2015"), std::string::npos);
  EXPECT_EQ(problems[1].place, "place.amendments[0]");
  EXPECT_NE(problems[1].remedy.find("us-pa"), std::string::npos);
  EXPECT_NE(problems[2].remedy.find("choose one of"), std::string::npos);
  EXPECT_EQ(check_place({.pack = "irc-2030"}).at(0).remedy, "did you mean irc-2024?");
  EXPECT_EQ(check_place({.pack = "irc-2019"}).at(0).remedy, "did you mean irc-2018?");
  EXPECT_EQ(check_place({.pack = "ibc-1999"}).at(0).remedy, "did you mean ibc-2021?");
  const Problems combos = check_place({.pack = "uk-adk-2013", .amendments = {"us-pa"}});
  ASSERT_EQ(combos.size(), 1u);
  EXPECT_NE(combos[0].wrong.find("does not amend"), std::string::npos);
  EXPECT_TRUE(rules_in_force({.pack = "nothing"}).empty());
}

TEST(Conditions, HoldBySizeUnitAndUncertainty) {
  const Facts facts{{"going", 10.25, 0}, {"drop", 30.0, 0}, {"total_rise", 40.0, 0.5}, {"closed_risers", 1.0, 0}};
  EXPECT_EQ(holds("", facts), Truth::yes);
  EXPECT_EQ(holds("going < 11 in", facts), Truth::yes);
  EXPECT_EQ(holds("going < 11 in and closed_risers", facts), Truth::yes);
  EXPECT_EQ(holds("going < 255 mm", facts), Truth::no);
  EXPECT_EQ(holds("drop > 30 in", facts), Truth::no);
  EXPECT_EQ(holds("drop >= 30 in", facts), Truth::yes);
  EXPECT_EQ(holds("drop > 2.5 ft", facts), Truth::no);
  EXPECT_EQ(holds("total_rise > 40 in", facts), Truth::maybe);
  EXPECT_EQ(holds("total_rise > 40.4 in", facts), Truth::maybe);
  EXPECT_EQ(holds("total_rise > 41 in", facts), Truth::no);
  EXPECT_EQ(holds("risers >= 4", facts), Truth::maybe);
  EXPECT_EQ(holds("risers >= 4 and drop > 30 in", facts), Truth::no);
}

TEST(Conditions, RefuseWhatTheGrammarDoesNotHave) {
  EXPECT_TRUE(is_condition("handrail_sides < 2"));
  for (const char* bad : {"goings < 11 in", "going < 11 yd", "going < eleven", "going = 11 in", "going <",
                          "going < 11 in and ", "closed_risers or going < 11 in", "and"}) {
    EXPECT_FALSE(is_condition(bad)) << bad;
  }
}
