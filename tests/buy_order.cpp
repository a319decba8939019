#include <algorithm>
#include <cmath>

#include "engine/base/catalog.hpp"
#include "engine/buy/buy.hpp"
#include "engine/buy/materials.hpp"
#include "engine/cut/board_search.hpp"
#include "tests/cut_fixture.hpp"

namespace pitchboard {
namespace {

double number(const std::string& text) { return std::stod(text); }

Order order_of(const Built& b) { return make_order(b.job, b.flight, b.frame, plan_cuts(b.job, b.frame)); }

const OrderLine* line_with(const Order& order, const std::string& words) {
  const auto at =
      std::ranges::find_if(order.lines, [&](const OrderLine& l) { return l.item.find(words) != std::string::npos; });
  return at == order.lines.end() ? nullptr : &*at;
}

/// A landing layer `length` x `width` in plan.
Part layer(std::string material, Length length, Length width, Length thickness) {
  Part part;
  part.mark = "L-" + material;
  part.kind = PartKind::pad_layer;
  part.use = material;
  part.section = {std::move(material), thickness, thickness};
  part.solid = {Axis::y, {Length(), width}, rectangle({Length(), length}, {-thickness, Length()})};
  return part;
}

Order order_of_layers(std::vector<Part> layers, const Job& job = {}) {
  Frame frame;
  frame.parts = std::move(layers);
  return make_order(job, Flight{}, frame, CutPlan{});
}

TEST(Order, BagsAgreeWithTheBagTable) {
  for (const auto& row : table_rows("buy_bags.csv")) {
    const Order order =
        order_of_layers({layer(row[3], feet(number(row[0])), feet(number(row[1])), inches(number(row[2])))});
    const MaterialRow* material = find_material(row[3], UnitSystem::imperial);
    ASSERT_NE(material, nullptr);
    const OrderLine* line = line_with(order, std::string(material->words));
    ASSERT_NE(line, nullptr);
    EXPECT_EQ(line->needed, static_cast<int>(number(row[4]))) << row[0] << "x" << row[1] << " " << row[3];
    EXPECT_EQ(line->quantity, line->needed + material->spare);
  }
}

// SOURCE geometry: 12 x 12 x 54 in are 4.5 cu ft; 24 in of a 3 1/2 in post in it take 0.170 away; 0.6 cu ft a bag: 8.
TEST(Order, ConcreteRoundAPostIsBoughtByItsVolumeLessThePost) {
  Part post = sample_part("PL1", PartKind::post, "4x4", rectangle({Length(), inches(3.5)}, {inches(-24), inches(60)}));
  post.solid.span = {Length(), inches(3.5)};
  Part footing;
  footing.mark = "PL1F";
  footing.kind = PartKind::footing;
  footing.section.nominal = "concrete";  // as the frame names it
  const Interval square{inches(-4.25), inches(7.75)};
  footing.solid = {Axis::z, {inches(-54), Length()}, rectangle(square, square)};
  const std::string concrete(find_material("concrete", UnitSystem::imperial)->words);
  EXPECT_EQ(line_with(order_of_layers({post, footing}), concrete)->needed, 8);
  EXPECT_EQ(line_with(order_of_layers({post}), concrete), nullptr);
  footing.mark = "PL2F";  // no post stands in it
  footing.solid.span.from = inches(-57.6 - 0.5);
  EXPECT_EQ(line_with(order_of_layers({post, footing}), concrete)->needed, 9) << "4.84 cu ft";
  footing.mark = "PL1F";
  EXPECT_EQ(line_with(order_of_layers({post, footing}), concrete)->needed, 8) << "4.67 cu ft";
}

// SOURCE geometry: a 4 x 8 in paver covers 2/9 sq ft, so 12 sq ft take 54, and 5 % more for cuts 56.7.
TEST(Order, PaversAndTheirEdgeAreCountedByAreaAndPerimeter) {
  const Order order = order_of_layers({layer("pavers", feet(3), feet(4), inches(2.375))});
  EXPECT_EQ(line_with(order, "paver 4 x 8")->quantity, 57);
  EXPECT_EQ(line_with(order, "edge restraint")->quantity, 2);  // 14 ft in 8 ft lengths
}

TEST(Order, PaversThatAreThereAreNotBought) {
  Job job;
  job.pad.existing = true;
  const Order order = order_of_layers(
      {layer("pavers", feet(3), feet(4), inches(2.375)), layer("sand", feet(3), feet(4), inches(1))}, job);
  EXPECT_EQ(line_with(order, "paver 4 x 8"), nullptr);
  EXPECT_NE(line_with(order, "concrete sand"), nullptr);
}

TEST(Order, TotalIsTheExactSumAndEveryLineIsRoundedUp) {
  for (const Job& job : cut_jobs()) {
    const Order order = order_of(built(job));
    std::int64_t cents = 0;
    double weight = 0;
    for (const OrderLine& line : order.lines) {
      cents += line.price.cents;
      weight += in_pounds(line.weight);
      EXPECT_EQ(line.price.cents, line.unit_price.cents * line.quantity) << line.item;
      EXPECT_GT(line.quantity, 0) << line.item;
      EXPECT_GT(line.unit_price.cents, 0) << line.item;
      EXPECT_GT(line.weight, Force()) << line.item;
      EXPECT_FALSE(line.package.empty()) << line.item;
      EXPECT_FALSE(line.use.empty()) << line.item;
    }
    EXPECT_EQ(order.total.cents, cents);
    EXPECT_NEAR(in_pounds(order.weight), weight, 1e-6);
  }
}

TEST(Order, TheTotalAloneIsThatOfTheOrderWhateverWasAskedBefore) {
  BoardMemory memory;
  for (int round = 0; round < 2; ++round) {
    for (Job job : cut_jobs()) {
      if (round == 1) job.yard.offcuts = {{"2x6", inches(50), 2}};
      const Built b = built(job);
      const CutPlan alone = plan_cuts(b.job, b.frame, &memory);
      EXPECT_EQ(order_total(b.job, b.flight, b.frame, alone), order_of(b).total);
      EXPECT_EQ(alone.impossible.size(), plan_cuts(b.job, b.frame).impossible.size());
    }
  }
}

TEST(Order, LumberCostsWhatTheCutPlanCosts) {
  for (const Job& job : cut_jobs()) {
    const Built b = built(job);
    const CutPlan cuts = plan_cuts(b.job, b.frame);
    std::int64_t planned = 0, ordered = 0;
    for (const SectionProof& proof : cuts.proofs) planned += proof.cost.cents;
    for (const OrderLine& line : make_order(b.job, b.flight, b.frame, cuts).lines) {
      if (line.group == "lumber") ordered += line.price.cents;
    }
    EXPECT_EQ(ordered, planned);
  }
}

TEST(Order, EveryFastenerAndConnectorIsBought) {
  for (const Job& job : cut_jobs()) {
    const Built b = built(job);
    std::ptrdiff_t counted = static_cast<std::ptrdiff_t>(b.frame.fasteners.size());
    counted += std::ranges::count(b.frame.parts, PartKind::connector, &Part::kind);
    int needed = 0;
    for (const OrderLine& line : order_of(b).lines) needed += line.group == "hardware" ? line.needed : 0;
    EXPECT_EQ(needed, counted);
  }
}

// SOURCE the deck guide's two #8 or #10 screws a board and stringer: 36 in, 3 stringers, 2 boards: 12 a tread, 6 a
// riser.
TEST(Order, ScrewsOfATreadAndARiserAreTwoAStringer) {
  Job job = stair_down(inches(22));
  job.rails.left = job.rails.right = SideRail::none;
  job.stringers.count = 3;
  const Built b = built(job);
  ASSERT_EQ(b.flight.risers, 3);
  const Order order = order_of(b);
  EXPECT_EQ(line_with(order, "#10 x 3 in")->needed, 2 * 12);
  EXPECT_EQ(line_with(order, "#8 x 2 in")->needed % 6, 0);
}

// SOURCE geometry: two piers 12 in square and 50 in high hold 8.33 cu ft, at 0.6 cu ft a bag 13.9; a slab 3 x 4 ft of 4
// in holds 4 cu ft more, together 20.6 bags.
TEST(Order, PiersAreBoughtInBagsWithTheSlabAndWithOneBagToSpare) {
  std::vector<Part> parts;
  for (int i = 0; i < 2; ++i) {
    Part pier;
    pier.mark = "PF" + std::to_string(i + 1);
    pier.kind = PartKind::footing;
    pier.section = {"concrete", inches(12), inches(12)};
    pier.solid = {Axis::z, {inches(-130), inches(-80)}, rectangle({inches(40), inches(52)}, {Length(), inches(12)})};
    parts.push_back(pier);
  }
  const Order piers = order_of_layers(parts);
  ASSERT_NE(line_with(piers, "concrete mix"), nullptr);
  EXPECT_EQ(line_with(piers, "concrete mix")->needed, 14);
  EXPECT_EQ(line_with(piers, "concrete mix")->quantity, 15);
  EXPECT_EQ(line_with(piers, "concrete mix")->use, "footings");
  parts.push_back(layer("concrete", feet(3), feet(4), inches(4)));
  const Order both = order_of_layers(parts);
  EXPECT_EQ(std::ranges::count_if(both.lines, [](const OrderLine& l) { return l.item.starts_with("concrete"); }), 1);
  EXPECT_EQ(line_with(both, "concrete mix")->needed, 21);
}

/// An order of `count` of one fastener, nothing else.
Order order_of_fasteners(int count, const std::string& item, const Job& job = {}) {
  Frame frame;
  frame.parts = {
      sample_part("TR1", PartKind::top_rail, "2x4", rectangle({Length(), inches(40)}, {Length(), inches(3.5)}))};
  for (int i = 0; i < count; ++i) frame.fasteners.push_back({.item = item, .joins = {0}});
  return make_order(job, Flight{}, frame, CutPlan{});
}

TEST(Order, ScrewsAreBoughtByTheBoxWithATenthMoreAndBoltsAreNot) {
  EXPECT_EQ(line_with(order_of_fasteners(90, "screw-10x3"), "#10 x 3")->quantity, 1);  // 99 of 100
  EXPECT_EQ(line_with(order_of_fasteners(91, "screw-10x3"), "#10 x 3")->quantity, 2);  // 100.1
  EXPECT_EQ(line_with(order_of_fasteners(11, "bolt-1/2x6"), "1/2 x 6")->quantity, 11);
}

// SOURCE from memory: IRC Table R507.2.3: stainless within 300 ft of salt water.
TEST(Order, StainlessWithinThreeHundredFeetOfSaltWaterAndGalvanizedBeyond) {
  Job job;
  job.place.salt_water = feet(300);
  const Order near = order_of_fasteners(4, "bolt-1/2x6", job);
  EXPECT_NE(line_with(near, "stainless 316"), nullptr);
  const HardwareRow* bolt = find_hardware("bolt-1/2x6");
  EXPECT_EQ(near.lines[0].unit_price.cents, std::llround(bolt->price_cents * bolt->stainless_factor));
  job.place.salt_water = feet(301);
  EXPECT_EQ(line_with(order_of_fasteners(4, "bolt-1/2x6", job), "stainless"), nullptr);
  EXPECT_NE(line_with(order_of_fasteners(4, "bolt-1/2x6"), "hot-dip galvanized"), nullptr);
}

TEST(Order, MetalsAreNeverMixed) {
  for (Job job : cut_jobs()) {
    for (const bool salt : {false, true}) {
      job.place.salt_water = salt ? std::optional(feet(100)) : std::nullopt;
      for (const OrderLine& line : order_of(built(job)).lines) {
        if (line.group != "hardware") continue;
        EXPECT_EQ(line.item.find("stainless") != std::string::npos, salt) << line.item;
        EXPECT_EQ(line.item.find("galvanized") == std::string::npos, salt) << line.item;
      }
    }
  }
}

TEST(Order, UntreatedHeartwoodNeedsNoCopperPreservative) {
  Job job = stair_down(inches(35));
  EXPECT_NE(line_with(order_of(built(job)), "copper naphthenate"), nullptr);
  job.wood = {"western-cedar", "no2", "durable-heartwood", ""};
  EXPECT_EQ(line_with(order_of(built(job)), "copper naphthenate"), nullptr);
}

// SOURCE a lumber table: a wet treated 2x12 weighs about 6.6 lb a foot, so 12 ft about 80; common practice: two people
// over 50 lb.
TEST(Order, AWetTwelveFootTwoByTwelveIsATwoPersonCarry) {
  Frame frame;
  frame.parts = {
      sample_part("S1", PartKind::stringer, "2x12", rectangle({Length(), inches(130)}, {Length(), inches(11.25)}))};
  frame.parts[0].section = {"2x12", inches(1.5), inches(11.25)};
  const Order order = make_order(Job{}, Flight{}, frame, plan_cuts(Job{}, frame));
  const OrderLine* line = line_with(order, "2x12 x 12 ft, No.2 southern pine, ground contact");
  ASSERT_NE(line, nullptr);
  EXPECT_NEAR(in_pounds(line->weight), 6.6 * 12, 12);
  EXPECT_NE(line->note.find("two-person carry"), std::string::npos);
  EXPECT_EQ(line->use, "stringers");
}

TEST(Order, ReadyCutStringersAreBoughtByThePieceAndNotAsBoards) {
  Job job = stair_down(inches(35));
  job.stringers.kind = StringerKind::ready_cut;
  job.yard.ready_cut = {{"five", 5, inches(7), inches(10.5), true, inches(1.5), {2750}}};
  const Built b = built(job);
  const Order order = order_of(b);
  const OrderLine* line = line_with(order, "five");
  ASSERT_NE(line, nullptr);
  EXPECT_EQ(line->group, "stringers");
  EXPECT_EQ(line->quantity, std::ranges::count(b.frame.parts, PartKind::stringer, &Part::kind));
  EXPECT_EQ(line->unit_price.cents, 2750);
  EXPECT_EQ(line_with(order, "2x12"), nullptr);
}

TEST(Order, DemoPricesAreCalledSoAndCarryADate) {
  Job job = stair_down(inches(22));
  const Order demo = order_of(built(job));
  EXPECT_FALSE(demo.price_date.empty());
  EXPECT_TRUE(
      std::ranges::any_of(demo.notes, [](const std::string& n) { return n.find("demo prices") != std::string::npos; }));
  job.yard.price_date = "2026-05-04";
  EXPECT_EQ(order_of(built(job)).price_date, "2026-05-04");
}

TEST(Order, DemoPricesAreNotPrintedInAnotherCurrency) {
  Job job = stair_down(inches(22));
  job.yard.currency = "GBP";
  job.yard.stock = {{"2x12", feet(12), {4100}}};
  const Order order = order_of(built(job));
  std::int64_t priced = 0;
  std::ptrdiff_t without = 0;
  for (const OrderLine& line : order.lines) {
    const bool own = line.item.starts_with("2x12");
    EXPECT_EQ(line.unit_price.cents, own ? 4100 : 0) << line.item;
    EXPECT_EQ(line.note.find("no price in GBP") == std::string::npos, own) << line.item;
    EXPECT_GT(line.weight, Force()) << line.item;
    priced += line.price.cents;
    without += own ? 0 : 1;
  }
  EXPECT_GT(priced, 0);
  EXPECT_EQ(order.total.cents, priced);
  EXPECT_TRUE(std::ranges::any_of(order.notes, [&](const std::string& n) {
    return n.find("without " + std::to_string(without) + " lines that have no price in GBP") != std::string::npos;
  }));
}

TEST(Order, APriceOfOnesOwnYardStandsInForTheDemoPriceInAnyCurrency) {
  Job job = stair_down(inches(22));
  const Order demo = order_of(built(job));
  for (const char* currency : {"USD", "GBP"}) {
    job.yard.currency = currency;
    for (const OrderLine& one : demo.lines) {
      if (one.group == "lumber") continue;
      job.yard.prices = {{one.key, {}, {12345}}};
      const Order order = order_of(built(job));
      ASSERT_EQ(order.lines.size(), demo.lines.size());
      for (std::size_t i = 0; i < order.lines.size(); ++i) {
        const bool own = order.lines[i].key == one.key;
        const std::int64_t otherwise = job.yard.currency == demo.currency ? demo.lines[i].unit_price.cents : 0;
        EXPECT_EQ(order.lines[i].unit_price.cents, own ? 12345 : otherwise) << order.lines[i].item;
        const bool unpriced = order.lines[i].note.find("no price") != std::string::npos;
        EXPECT_EQ(unpriced, order.lines[i].unit_price.cents == 0) << order.lines[i].item;
      }
    }
  }
}

TEST(Order, APriceOfABoardIsThatOfItsLengthAlone) {
  Job job = stair_down(inches(22));
  const Order demo = order_of(built(job));
  const auto first = std::ranges::find(demo.lines, "lumber", &OrderLine::group);
  ASSERT_NE(first, demo.lines.end());
  job.yard.prices = {{first->key, first->length, {first->unit_price.cents - 1}}};
  const Order cheaper = order_of(built(job));
  const auto line = std::ranges::find(cheaper.lines, first->item, &OrderLine::item);
  ASSERT_NE(line, cheaper.lines.end());
  EXPECT_EQ(line->unit_price.cents, first->unit_price.cents - 1);
  EXPECT_LT(cheaper.total, demo.total);
  for (const OrderLine& other : cheaper.lines) {
    const auto before = std::ranges::find(demo.lines, other.item, &OrderLine::item);
    if (before == demo.lines.end()) continue;
    EXPECT_EQ(other.unit_price.cents, before->unit_price.cents - (other.item == first->item ? 1 : 0)) << other.item;
  }
  // A length that nobody sells: it is no price of the others.
  job.yard.prices = {{first->key, feet(11), {1}}};
  const Order same = order_of(built(job));
  ASSERT_EQ(same.lines.size(), demo.lines.size());
  for (std::size_t i = 0; i < same.lines.size(); ++i)
    EXPECT_EQ(same.lines[i].unit_price, demo.lines[i].unit_price) << same.lines[i].item;
  job.yard.prices = {{first->key, first->length, {first->unit_price.cents - 1}}};
  job.yard.currency = "GBP";
  for (const OrderLine& other : order_of(built(job)).lines) {
    const bool own = other.key == first->key && other.length == first->length;
    EXPECT_EQ(other.unit_price.cents, own ? first->unit_price.cents - 1 : 0) << other.item;
  }
}

TEST(Order, EveryLineSaysWhatItsPriceIsKeptUnder) {
  for (const Job& job : cut_jobs()) {
    for (const OrderLine& line : order_of(built(job)).lines) {
      const bool board = line.group == "lumber", stringer = line.group == "stringers";
      EXPECT_EQ(find_section(line.key) != nullptr, board) << line.item;
      EXPECT_EQ(line.length > Length(), board) << line.item;
      const bool item = find_hardware(line.key) || find_material(line.key, job.about.units);
      EXPECT_EQ(item, !board && !stringer) << line.item;
    }
  }
}

// SOURCE geometry: 3 x 3 ft x 4 in of sand is 3 cu ft; a 25 kg bag is 1.1023 of a 50 lb one, so 0.551 cu ft: 5.44 bags.
TEST(Order, MetricJobsBuyMetricBags) {
  Job job;
  job.about.units = UnitSystem::metric;
  const Order order = order_of_layers({layer("sand", feet(3), feet(3), inches(4))}, job);
  ASSERT_EQ(order.lines.size(), 1u);
  EXPECT_EQ(order.lines[0].package, "25 kg bag");
  EXPECT_EQ(order.lines[0].needed, 6);
  EXPECT_EQ(find_material("sand", UnitSystem::imperial)->package, "50 lb bag, 0.5 cu ft");
}

TEST(Order, NothingIsBoughtThatTheFrameHasNoRoomFor) {
  // The feet are cut tight to the landing: a strip under them would make the first riser too high.
  for (const Job& job : cut_jobs()) EXPECT_EQ(line_with(order_of(built(job)), "gasket"), nullptr);
}

TEST(Order, WhatCannotBeCutIsSaidToBeMissing) {
  Job job = stair_down(inches(35));
  job.yard.stock = {{"2x12", feet(3), {900}}};
  const Order order = order_of(built(job));
  EXPECT_TRUE(
      std::ranges::any_of(order.notes, [](const std::string& n) { return n.find("short") != std::string::npos; }));
}

TEST(Catalog, EveryPieceOfHardwareAndMaterialCanBePriced) {
  for (const HardwareRow& row : hardware()) {
    EXPECT_GT(row.price_cents, 0) << row.key;
    EXPECT_GT(row.per_package, 0) << row.key;
    EXPECT_GT(row.weight, 0) << row.key;
  }
  ASSERT_FALSE(materials().empty());
  for (const MaterialRow& row : materials()) {
    EXPECT_GT(row.price_cents, 0) << row.key;
    EXPECT_GT(row.yield, 0) << row.key;
    EXPECT_GE(row.factor, 1) << row.key;
    EXPECT_FALSE(row.source.empty()) << row.key;
  }
  for (const SectionRow& row : sections()) {
    EXPECT_TRUE(std::ranges::any_of(demo_stock(), [&](const StockRow& s) { return s.section == row.nominal; }))
        << row.nominal;
  }
}

}  // namespace
}  // namespace pitchboard
