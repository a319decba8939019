#pragma once
// The order: lumber, hardware, landing material, with packages, weights and prices.

#include <string>
#include <vector>

#include "engine/cut/cut.hpp"
#include "engine/frame/frame.hpp"
#include "engine/job/job.hpp"

namespace pitchboard {

struct OrderLine {
  std::string group;    ///< "lumber", "stringers", "hardware", "landing", "care"
  std::string item;     ///< "2x12 x 12 ft, No.2 southern pine, ground contact"
  std::string key;      ///< of the row in data/hardware or data/materials; of boards, their section
  Length length;        ///< of one board; 0 where it is none
  std::string use;      ///< "stringers"
  int needed = 0;       ///< pieces (screws, boards, bags) that the job uses
  int quantity = 0;     ///< packages to buy, rounded up
  std::string package;  ///< "board", "box of 100", "bag 0.5 cu ft"
  Money unit_price, price;
  Force weight;      ///< of the whole line
  std::string note;  ///< "two-person carry", "stainless: salt water within 300 ft"
};
struct Order {
  std::vector<OrderLine> lines;
  Money total;
  Force weight;
  std::string price_date, currency;
  std::vector<std::string> notes;  ///< metals that must not meet, prices are demo prices, ...
};
/// True when the job reckons in the currency of the demo prices, so that they can stand in for its own.
[[nodiscard]] bool in_demo_currency(const Job& job);
/// RETURNS everything to buy for the frame: boards as the cut plan asks, the rest counted off the parts, rounded up to
/// packages.
/// 1. The lines cover every part and fastener once.  2. total is the exact sum of the lines.
[[nodiscard]] Order make_order(const Job& job, const Flight& flight, const Frame& frame, const CutPlan& cuts);
/// RETURNS the total of that order alone; `cuts` may be those of plan_cuts for the cost alone.
[[nodiscard]] Money order_total(const Job& job, const Flight& flight, const Frame& frame, const CutPlan& cuts);

}  // namespace pitchboard
