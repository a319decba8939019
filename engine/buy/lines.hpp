#pragma once
// The groups of an order, one a file. Internal to buy.

#include "engine/buy/buy.hpp"

namespace pitchboard {

/// RETURNS "treads", "top rails": what parts of that kind are called in an order.
[[nodiscard]] std::string_view plural(PartKind kind);
/// Adds the words with a comma unless they are there already.
void add_words(std::string& list, std::string_view words);
/// Sets price and weight of the line from those of one package; a heavy one gets a note.
void price_line(OrderLine& line, Money unit_price, Force unit_weight);

/// The same at the job's own price of the line's key, or else at a demo price: none where the job reckons in another
/// currency, and the line's note says so.
void demo_price_line(OrderLine& line, const Job& job, Money unit_price, Force unit_weight);

void add_lumber(Order& order, const Job& job, const Flight& flight, const Frame& frame, const CutPlan& cuts);
void add_hardware(Order& order, const Job& job, const Frame& frame);
void add_landing(Order& order, const Job& job, const Frame& frame);
void add_care(Order& order, const Job& job, const Flight& flight, const Frame& frame);

}  // namespace pitchboard
