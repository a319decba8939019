// Reference design values, their factors, and the sentences where there are none.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "engine/base/catalog.hpp"
#include "engine/strength/hand_sheet.hpp"
#include "engine/strength/tables.hpp"
#include "engine/strength/wood_values.hpp"
#include "tests/rules_table.hpp"

namespace pitchboard {
namespace {

using std::string;

const std::map<string, Value> kValues{
    {"bending", Value::bending},           {"tension", Value::tension},         {"shear", Value::shear},
    {"across", Value::compression_across}, {"compression", Value::compression}, {"stiffness", Value::stiffness},
    {"least", Value::least_stiffness}};

Member board(const string& species, const string& nominal, double thickness, double width) {
  return {.species = species, .grade = "no2", .nominal = nominal, .thickness = thickness, .width = width};
}

ReferenceValues values_of(const Member& member, const Wood& wood = {}) {
  string why_not;
  const auto values = reference_values(wood, member, why_not);
  EXPECT_TRUE(values) << why_not;
  return values.value_or(ReferenceValues{});
}

string why_none(const Member& member, const Wood& wood = {}) {
  string why_not;
  EXPECT_FALSE(reference_values(wood, member, why_not));
  return why_not;
}

Wood wood_of(const string& species, double bending, double compression, bool size_factor) {
  Wood wood;
  wood.own_values.push_back({.species = species,
                             .grade = "no2",
                             .gravity = 0.44,
                             .bending = bending,
                             .tension = 700,
                             .shear = 150,
                             .compression_across = 400,
                             .compression = compression,
                             .stiffness = 1500000,
                             .least_stiffness = 550000,
                             .size_factor = size_factor,
                             .source = "a mill's sheet"});
  return wood;
}

double last(const std::vector<Figure>& figures) { return figures.back().value; }

std::vector<Figure> adjusted(const ReferenceValues& values, const Member& member, const Service& service, Value which) {
  HandSheet sheet, unread(false);
  const double value = adjusted(sheet, values, member, service, which);
  EXPECT_EQ(value, last(sheet.figures()));
  EXPECT_EQ(value, adjusted(unread, values, member, service, which));
  return std::move(sheet).take();
}
std::vector<Figure> beam_stability(const UnbracedBeam& beam) {
  HandSheet sheet;
  beam_stability(sheet, beam);
  return std::move(sheet).take();
}

const Figure& figure(const std::vector<Figure>& figures, const string& symbol) {
  const auto at = std::ranges::find_if(figures, [&](const Figure& f) { return f.symbol.view() == symbol; });
  EXPECT_NE(at, figures.end()) << symbol;
  return at == figures.end() ? figures.front() : *at;
}

TEST(StrengthWood, AdjustedValuesAgreeWithPublishedAndHandResults) {
  for (const TableRow& row : table("strength_wood.csv")) {
    const Member member{.species = row.at("species"),
                        .grade = row.at("grade"),
                        .nominal = row.at("nominal"),
                        .thickness = number(row, "thickness"),
                        .width = number(row, "width")};
    const Service service{.wet = row.at("wet") == "yes",
                          .incised = row.at("incised") == "yes",
                          .load_duration = number(row, "duration"),
                          .flat = row.at("use") == "flat",
                          .repetitive = row.at("use") == "repetitive"};
    const auto figures = adjusted(values_of(member), member, service, kValues.at(row.at("value")));
    EXPECT_NEAR(value_of(figures, row.at("symbol")), number(row, "reference"), number(row, "step") / 2 + 1e-9)
        << row.at("id");
  }
}

TEST(StrengthWood, BeamStabilityAgreesWithPublishedExamples) {
  const std::map<string, BeamLoad> loads{
      {"any", BeamLoad::any}, {"middle", BeamLoad::at_middle}, {"braced", BeamLoad::at_middle_braced}};
  for (const TableRow& row : table("strength_beam_stability.csv")) {
    const auto figures = beam_stability({.depth = number(row, "depth"),
                                         .breadth = number(row, "breadth"),
                                         .unbraced_length = number(row, "unbraced"),
                                         .fb_star = 1000,
                                         .e_min = number(row, "e_min"),
                                         .load = loads.at(row.at("load"))});
    EXPECT_NEAR(value_of(figures, row.at("symbol")), number(row, "reference"), number(row, "step") / 2 + 1e-9)
        << row.at("id");
  }
}

TEST(StrengthWood, SpansOfTheUsualThroatAgreeWithTheHandCheck) {
  constexpr double kThroat = 5.124, kPerFoot = 75;
  const double modulus = 1.5 * kThroat * kThroat / 6;
  for (const TableRow& row : table("strength_throat_spans.csv")) {
    Member member = board(row.at("species"), "2x12", 1.5, 11.25);
    member.grade = row.at("grade");
    const Service service{.incised = row.at("incised") == "yes"};
    const double bending = last(adjusted(values_of(member), member, service, Value::bending));
    EXPECT_NEAR(std::sqrt(8 * bending * modulus / 12 / kPerFoot), number(row, "span_ft"),
                number(row, "step") / 2 + 1e-3)
        << row.at("species");
  }
}

// SOURCE NDS 2018 Supplement Table 4A, wet service: a step at 1150 and 750 (wording from memory).
TEST(StrengthWood, WetServiceIsAStepAndGoesByTheSizedValue) {
  const Member member = board("trap", "2x12", 1.5, 11.25);
  const auto wet = [&](double fb, double fc, Value which) {
    return last(adjusted(values_of(member, wood_of("trap", fb, fc, false)), member, {}, which));
  };
  EXPECT_DOUBLE_EQ(wet(1150, 800, Value::bending), 1150);
  EXPECT_NEAR(wet(1151, 800, Value::bending), 978.35, 1e-9);
  EXPECT_DOUBLE_EQ(wet(1150, 750, Value::compression), 750);
  EXPECT_NEAR(wet(1150, 751, Value::compression), 600.8, 1e-9);
  // Below the step by itself, above it with CF 1.3.
  const Member six = board("trap", "2x6", 1.5, 5.5);
  const auto figures = adjusted(values_of(six, wood_of("trap", 900, 800, true)), six, {}, Value::bending);
  EXPECT_DOUBLE_EQ(value_of(figures, "CM"), 0.85);
  // CD does not count for the step.
  const auto guard =
      adjusted(values_of(member, wood_of("trap", 1150, 800, false)), member, {.load_duration = 1.6}, Value::bending);
  EXPECT_DOUBLE_EQ(last(guard), 1840);
}

// SOURCE NDS 2018 Table 4.3.1.
TEST(StrengthWood, EveryValueShowsEveryFactorThatItTakesAlsoThoseThatAreOne) {
  const std::map<Value, std::vector<string>> takes{
      {Value::bending, {"Fb", "CD", "CF", "CM", "Ct", "Ci", "Cr", "CL", "Cfu", "F'b"}},
      {Value::tension, {"Ft", "CD", "CF", "CM", "Ct", "Ci", "F't"}},
      {Value::shear, {"Fv", "CD", "CM", "Ct", "Ci", "F'v"}},
      {Value::compression_across, {"Fc_perp", "CM", "Ct", "Ci", "Cb", "F'c_perp"}},
      {Value::compression, {"Fc", "CD", "CF", "CM", "Ct", "Ci", "CP", "F'c"}},
      {Value::stiffness, {"E", "CM", "Ct", "Ci", "E'"}},
      {Value::least_stiffness, {"Emin", "CM", "Ct", "Ci", "CT", "E'min"}}};
  for (const char* nominal : {"2x4", "2x12", "4x4", "6x6", "5/4x6"}) {
    const SectionRow* section = find_section(nominal);
    ASSERT_NE(section, nullptr);
    const Member member = board("douglas-fir", nominal, section->thickness, section->width);
    for (const auto& [which, symbols] : takes) {
      const auto figures = adjusted(values_of(member), member, {.incised = true, .load_duration = 1.15}, which);
      std::vector<string> shown;
      double product = 1;
      for (const Figure& f : figures) {
        shown.push_back(f.symbol.str());
        EXPECT_FALSE(f.source.empty()) << f.symbol.view();
        EXPECT_FALSE(f.words.empty()) << f.symbol.view();
        if (&f != &figures.back()) product *= f.value;
      }
      EXPECT_EQ(shown, symbols) << nominal;
      EXPECT_NEAR(last(figures), product, 1e-9 * product) << nominal;
    }
  }
}

TEST(StrengthWood, FiguresBehindStabilityStandBeforeTheFactorAndMultiplyUp) {
  const Member member = board("southern-pine", "2x12", 1.5, 11.25);
  const auto beam = adjusted(values_of(member), member, {.unbraced_length = 96}, Value::bending);
  for (const char* symbol : {"F*b", "E'min", "CM_E", "l_u", "l_e", "RB", "FbE", "CL"}) figure(beam, symbol);
  EXPECT_NEAR(last(beam), value_of(beam, "F*b") * value_of(beam, "CL"), 1e-9);
  EXPECT_LT(value_of(beam, "CL"), 1.0);
  EXPECT_DOUBLE_EQ(value_of(beam, "E'min"), 459000);
  EXPECT_DOUBLE_EQ(value_of(beam, "CM"), 1.0) << "the strength's own CM must stay the one found by that symbol";
  const auto column = adjusted(values_of(member), member, {.column_length = 48}, Value::compression);
  for (const char* symbol : {"F*c", "E'min", "l_e/d", "FcE", "CP"}) figure(column, symbol);
  EXPECT_NEAR(last(column), value_of(column, "F*c") * value_of(column, "CP"), 1e-9);
  EXPECT_TRUE(figure(column, "CP").from_memory);
}

// The root of the interaction (F - C)(1 - C) = (1 - c) C^2 is what both equations solve. SOURCE NDS
// 2018 3.3.3.8, 3.7.1.
TEST(StrengthWood, StabilityFactorsSolveTheirInteraction) {
  const Member member = board("douglas-fir", "2x12", 1.5, 11.25);
  double before_beam = 1, before_column = 1;
  for (double length = 6; length <= 72; length += 6) {
    const auto beam = adjusted(values_of(member), member, {.unbraced_length = length}, Value::bending);
    const double cl = value_of(beam, "CL"), f = value_of(beam, "FbE") / value_of(beam, "F*b");
    EXPECT_NEAR((f - cl) * (1 - cl), 0.05 * cl * cl, 1e-9 * f);
    EXPECT_LT(cl, before_beam);
    before_beam = cl;
    const auto column = adjusted(values_of(member), member, {.column_length = length}, Value::compression);
    const double cp = value_of(column, "CP"), g = value_of(column, "FcE") / value_of(column, "F*c");
    EXPECT_NEAR((g - cp) * (1 - cp), 0.2 * cp * cp, 1e-9 * g);
    EXPECT_LT(cp, before_column);
    EXPECT_LT(cp, g) << "no column carries more than it buckles at";
    before_column = cp;
  }
}

// SOURCE NDS 2018 3.3.3.7, 3.7.1.4: neither slenderness may pass 50.
TEST(StrengthWood, TooSlenderMembersHaveNoValue) {
  const Member member = board("southern-pine", "2x12", 1.5, 11.25);
  EXPECT_GT(last(adjusted(values_of(member), member, {.column_length = 75}, Value::compression)), 0);
  EXPECT_EQ(last(adjusted(values_of(member), member, {.column_length = 75.1}, Value::compression)), 0);
  EXPECT_GT(last(adjusted(values_of(member), member, {.unbraced_length = 270}, Value::bending)), 0);
  EXPECT_EQ(last(adjusted(values_of(member), member, {.unbraced_length = 280}, Value::bending)), 0);
}

// SOURCE NDS 2018 3.3.3.1, 4.4.1.
TEST(StrengthWood, StockyAndFlatMembersDoNotTurnOver) {
  for (const auto& [nominal, thickness, width] :
       {std::tuple{"4x4", 3.5, 3.5}, std::tuple{"2x4", 1.5, 3.5}, std::tuple{"4x6", 3.5, 5.5}}) {
    const Member member = board("southern-pine", nominal, thickness, width);
    EXPECT_EQ(value_of(adjusted(values_of(member), member, {.unbraced_length = 72}, Value::bending), "CL"), 1.0);
  }
  const Member plank = board("southern-pine", "2x12", 1.5, 11.25);
  EXPECT_EQ(value_of(adjusted(values_of(plank), plank, {.flat = true, .unbraced_length = 72}, Value::bending), "CL"),
            1.0);
}

// SOURCE NDS Supplement: Emin = E (1 - 1.645 x 0.25) 1.03 / 1.66, rounded to 10 000.
TEST(StrengthWoodTables, LeastStiffnessFollowsFromStiffnessInEveryRow) {
  ASSERT_FALSE(design_values().empty());
  for (const DesignValueRow& row : design_values()) {
    const double exact = row.e * (1 - 1.645 * 0.25) * 1.03 / 1.66;
    EXPECT_EQ(std::round(exact / 10000) * 10000, row.e_min) << row.species << " " << row.grade << " " << row.table;
  }
}

TEST(StrengthWoodTables, RowsAreWellFormed) {
  std::set<std::tuple<std::string_view, std::string_view, std::string_view, double>> seen;
  const DesignValueRow* before = nullptr;
  for (const DesignValueRow& row : design_values()) {
    EXPECT_TRUE(seen.insert({row.species, row.grade, row.table, row.width_from}).second) << row.species << row.grade;
    EXPECT_NE(find_species(row.species), nullptr) << row.species;
    EXPECT_EQ(grade_key(row.grade), row.grade);
    EXPECT_TRUE(row.confidence == "seen" || row.confidence == "memory") << row.confidence;
    EXPECT_EQ(row.source.contains("from memory"), is_from_memory(row.confidence)) << row.source;
    // Wider boards of a grade are never stronger.
    if (before && before->species == row.species && before->grade == row.grade && before->table == row.table) {
      EXPECT_LT(before->width_from, row.width_from);
      EXPECT_GE(before->fb, row.fb);
      EXPECT_GE(before->ft, row.ft);
      EXPECT_GE(before->fc, row.fc);
    }
    before = &row;
  }
  for (const std::string_view table : {"4A", "4B"}) {
    for (const double width : {2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0}) {
      EXPECT_EQ(size_factor_row(table, width).table, table);
      EXPECT_LE(size_factor_row(table, width).width_from, width);
    }
  }
  for (const auto& [symbol, condition] :
       {std::pair{"CM", "dimension"}, {"CM", "timber"}, {"Ci", "incised"}, {"Ct", "hot, dry"}, {"Ct", "hot, wet"}}) {
    EXPECT_EQ(value_factor_row(symbol, condition).symbol, symbol);
    EXPECT_EQ(value_factor_row(symbol, condition).condition, condition);
  }
}

// SOURCE NDS 2018 Supplement Table 4A size factors: steps, and both sides of each.
TEST(StrengthWoodTables, SizeFactorsAreSteps) {
  EXPECT_EQ(size_factor_row("4A", 4).fb_thin, 1.5);
  EXPECT_EQ(size_factor_row("4A", 5).fb_thin, 1.4);
  EXPECT_EQ(size_factor_row("4A", 6).fb_thin, 1.3);
  EXPECT_EQ(size_factor_row("4A", 7).fb_thin, 1.3);
  EXPECT_EQ(size_factor_row("4A", 8).fb_thin, 1.2);
  EXPECT_EQ(size_factor_row("4A", 8).fb_thick, 1.3);
  EXPECT_EQ(size_factor_row("4A", 12).fc, 1.0);
  EXPECT_EQ(size_factor_row("4A", 14).fc, 0.9);
  EXPECT_EQ(size_factor_row("4A", 3).flat_thin, 1.0);
  EXPECT_EQ(size_factor_row("4A", 4).flat_thin, 1.1);
}

TEST(StrengthWoodTables, GradesMayBeSpeltAsPeopleWriteThem) {
  for (const char* two :
       {"no2", "No.2", "No. 2", "NO 2", "#2", "2", "no2-btr", "#2 & Better", "No.2 Prime", "no1/no2", "No.1/No.2"})
    EXPECT_EQ(grade_key(two), "no2") << two;
  for (const char* better : {"no1-btr", "No.1&Btr", "No. 1 & Btr", "#1 and better", "1 btr", "No.1 and Btr"})
    EXPECT_EQ(grade_key(better), "no1btr") << better;
  for (const char* select : {"ss", "SS", "Select Structural", "select-structural"}) EXPECT_EQ(grade_key(select), "ss");
  EXPECT_EQ(grade_key("No.1"), "no1");
  EXPECT_EQ(grade_key("C24"), "c24");
}

TEST(StrengthWood, WhatIsNotInTheTablesSaysWhatToEnter) {
  Member member = board("european-redwood", "45x145", 1.771654, 5.708661);
  member.grade = "c24";
  EXPECT_NE(why_none(member).find("european-redwood"), string::npos);
  EXPECT_NE(why_none(member).find("wood.own_values"), string::npos);
  for (const auto& [species, nominal, thickness, width, names] :
       {std::tuple{"spf", "45x145", 1.771654, 5.708661, "45x145"}, std::tuple{"spf", "1x6", 0.75, 5.5, "1x6"},
        std::tuple{"spf", "6x6", 5.5, 5.5, "posts 5x5"}, std::tuple{"spf", "custom", 1.25, 5.5, "custom"},
        std::tuple{"douglas-fir", "6x10", 5.5, 9.25, "6x10"}}) {
    const string why = why_none(board(species, nominal, thickness, width));
    EXPECT_NE(why.find(names), string::npos) << why;
    EXPECT_NE(why.find("wood.own_values"), string::npos) << why;
  }
  Member stud = board("hem-fir", "2x4", 1.5, 3.5);
  stud.grade = "stud";
  EXPECT_NE(why_none(stud).find("ss, no1btr, no1, no2"), string::npos) << why_none(stud);
}

TEST(StrengthWood, TheJobsOwnValuesComeFirst) {
  const Member member = board("southern-pine", "2x12", 1.5, 11.25);
  const ReferenceValues own = values_of(member, wood_of("southern-pine", 1111, 999, false));
  EXPECT_EQ(own.fb, 1111);
  EXPECT_EQ(own.fc, 999);
  EXPECT_EQ(own.gravity, 0.44);
  EXPECT_FALSE(own.from_memory);
  EXPECT_NE(own.source.view().find("a mill's sheet"), string::npos);
  EXPECT_EQ(values_of(member, wood_of("spf", 1111, 999, false)).fb, 750) << "another species' values do not count";
  Member named = member;
  named.grade = "No. 2";
  EXPECT_EQ(values_of(named, wood_of("southern-pine", 1111, 999, false)).fb, 1111);
}

// SOURCE common practice, no source: the nearest nominal size by PS 20's dressed sizes.
TEST(StrengthWood, MetricBoardsWithOwnValuesTakeTheNearestWidthsSizeFactor) {
  const Wood wood = wood_of("european-redwood", 1000, 900, true);
  for (const auto& [nominal, thickness, width, factor] :
       {std::tuple{"45x95", 45, 95, 1.5}, std::tuple{"45x145", 45, 145, 1.3}, std::tuple{"20x195", 20, 195, 1.2},
        std::tuple{"36x250", 36, 250, 1.1}, std::tuple{"45x295", 45, 295, 1.0}, std::tuple{"95x95", 95, 95, 1.5},
        std::tuple{"95x195", 95, 195, 1.3}}) {
    const Member member = board("european-redwood", nominal, thickness / 25.4, width / 25.4);
    const auto figures = adjusted(values_of(member, wood), member, {.wet = false}, Value::bending);
    EXPECT_EQ(value_of(figures, "CF"), factor) << nominal;
    EXPECT_NE(figure(figures, "CF").words.view().find("nearest"), string::npos);
    EXPECT_NEAR(last(figures), 1000 * factor, 1e-9);
  }
  const Member post = board("european-redwood", "145x145", 145 / 25.4, 145 / 25.4);
  EXPECT_TRUE(values_of(post, wood).timber);
  EXPECT_EQ(last(adjusted(values_of(post, wood), post, {.wet = false}, Value::bending)), 1000);
}

TEST(StrengthWood, WhatRestsOnMemoryIsMarked) {
  const auto bending = [](const Member& member, const Service& service) {
    return adjusted(values_of(member), member, service, Value::bending);
  };
  const Member stringer = board("southern-pine", "2x12", 1.5, 11.25);
  EXPECT_TRUE(std::ranges::none_of(bending(stringer, {.wet = false}), &Figure::from_memory));
  EXPECT_TRUE(figure(bending(stringer, {}), "CM").from_memory) << "the exception's wording";
  const Member joist = board("douglas-fir", "2x6", 1.5, 5.5);
  EXPECT_TRUE(std::ranges::none_of(bending(joist, {}), &Figure::from_memory));
  EXPECT_TRUE(figure(bending(joist, {.hot = true}), "Ct").from_memory);
  EXPECT_TRUE(figure(bending(board("redwood", "6x6", 5.5, 5.5), {}), "Fb").from_memory);
  EXPECT_FALSE(figure(bending(board("douglas-fir", "6x6", 5.5, 5.5), {}), "Fb").from_memory);
  const Figure deck = figure(bending(board("redwood", "5/4x6", 1, 5.5), {}), "Fb");
  EXPECT_TRUE(deck.from_memory);
  EXPECT_NE(deck.words.view().find("2x6"), string::npos) << deck.words.view();
}

// SOURCE from memory: NDS 2018 Table 2.3.3.
TEST(StrengthWood, HeatTakesMoreFromWetWood) {
  const Member member = board("southern-pine", "2x12", 1.5, 11.25);
  EXPECT_NEAR(last(adjusted(values_of(member), member, {.wet = false, .hot = true}, Value::bending)), 600, 1e-9);
  EXPECT_NEAR(last(adjusted(values_of(member), member, {.wet = true, .hot = true}, Value::bending)), 525, 1e-9);
  EXPECT_NEAR(last(adjusted(values_of(member), member, {.wet = true, .hot = true}, Value::stiffness)), 1134000, 1e-6);
}

// SOURCE from memory: NDS 2018 3.10.4.
TEST(StrengthWood, ShortBearingsGainByTheWoodBesideThem) {
  const Member member = board("southern-pine", "2x12", 1.5, 11.25);
  const auto factor = [&](double length) {
    return value_of(adjusted(values_of(member), member, {.bearing_length = length}, Value::compression_across), "Cb");
  };
  EXPECT_DOUBLE_EQ(factor(1.5), 1.25);
  EXPECT_DOUBLE_EQ(factor(5.625), 6 / 5.625);
  EXPECT_DOUBLE_EQ(factor(6), 1);
  EXPECT_DOUBLE_EQ(factor(0), 1);
}

// SOURCE from memory: NDS 2018 3.10.3 (Hankinson).
TEST(StrengthWood, BearingAtAnAngleLiesBetweenAlongAndAcross) {
  EXPECT_DOUBLE_EQ(bearing_at_angle(1200, 400, 0), 1200);
  EXPECT_NEAR(bearing_at_angle(1200, 400, 90), 400, 1e-9);
  EXPECT_NEAR(bearing_at_angle(1200, 400, 45), 600, 1e-9) << "half way: the harmonic mean";
  EXPECT_NEAR(bearing_at_angle(1200, 400, 30), 800, 1e-9) << "1200 x 400 / (1200/4 + 400 x 3/4)";
}

// SOURCE from memory: treaters' practice.
TEST(StrengthWood, IncisingIsUsualForSpeciesThatTakeLittlePreservative) {
  for (const char* species : {"douglas-fir", "hem-fir", "spf", "spf-s"}) {
    EXPECT_TRUE(usually_incised(species, "copper-uc4a")) << species;
    EXPECT_TRUE(usually_incised(species, "copper-uc3b")) << species;
    EXPECT_FALSE(usually_incised(species, "durable-heartwood")) << species;
  }
  for (const char* species : {"southern-pine", "redwood", "western-cedar", "european-redwood"})
    EXPECT_FALSE(usually_incised(species, "copper-uc4a")) << species;
}

}  // namespace
}  // namespace pitchboard
