#pragma once
// The groups of an order, one a file. Internal to buy.

#include "engine/buy/buy.hpp"

namespace pitchboard {

/// RETURNS "treads", "top rails": what parts of that kind are called in an order.
[[nodiscard]] std::string_view plural(PartKind kind);
/// Adds the words with a comma unless they are there already.
void add_words(std::string& list, std::string_view words);

/// Of one package.
struct UnitPrice {
  Money money;
  bool known = true;  ///< false: there is none in the job's currency
};

/// What an order comes to, line by line, and the order itself where somebody reads it.
class Bill {
 public:
  /// `order`: what lines and notes are written to; nullptr: only the total is wanted.
  Bill(const Job& job, Order* order) : job_(job), order_(order), demo_currency_(in_demo_currency(job)) {}

  [[nodiscard]] const Job& job() const { return job_; }
  [[nodiscard]] bool is_read() const { return order_ != nullptr; }
  [[nodiscard]] Money total() const { return total_; }
  /// RETURNS the job's own price of the item, of a board that of its `length`, or else the demo price: none where the
  /// job reckons in another currency.
  [[nodiscard]] UnitPrice price_of(std::string_view item, Money demo, std::optional<Length> length = {}) const;
  /// Adds a line of so many packages. `words` gives its words, what is needed, and the weight of one package; they are
  /// asked for only where the order is read.
  void add(int packages, UnitPrice price, const auto& words) {
    total_ += price.money * packages;
    if (is_read()) put(words(), packages, price);
  }
  void note(std::string_view words) {
    if (is_read()) order_->notes.emplace_back(words);
  }

 private:
  void put(OrderLine line, int packages, UnitPrice price);
  const Job& job_;
  Order* order_;
  bool demo_currency_;
  Money total_;
};

void add_lumber(Bill& bill, const Flight& flight, const Frame& frame, const CutPlan& cuts);
void add_hardware(Bill& bill, const Frame& frame);
void add_landing(Bill& bill, const Frame& frame);
void add_care(Bill& bill, const Flight& flight, const Frame& frame);

}  // namespace pitchboard
