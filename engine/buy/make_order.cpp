#include <algorithm>
#include <optional>
#include <utility>

#include "engine/buy/lines.hpp"
#include "engine/buy/materials.hpp"

namespace pitchboard {

std::string_view plural(PartKind kind) {
  switch (kind) {
    case PartKind::stringer:
      return "stringers";
    case PartKind::hanger_board:
      return "hanger board";
    case PartKind::block:
      return "blocks";
    case PartKind::riser:
      return "risers";
    case PartKind::tread:
      return "treads";
    case PartKind::kicker:
      return "kicker";
    case PartKind::post:
      return "posts";
    case PartKind::top_rail:
      return "top rails";
    case PartKind::bottom_rail:
      return "bottom rails";
    case PartKind::cap:
      return "caps";
    case PartKind::handrail:
      return "handrail";
    case PartKind::baluster:
      return "balusters";
    case PartKind::support_beam:
      return "support beam";
    case PartKind::support_post:
      return "support posts";
    case PartKind::connector:
      return "connectors";
    case PartKind::pad_layer:
      return "landing";
    case PartKind::footing:
      return "footings";
    case PartKind::existing:
      break;
  }
  return "what is there";
}

void add_words(std::string& list, std::string_view words) {
  for (std::size_t at = list.find(words); at != std::string::npos; at = list.find(words, at + 1)) {
    const std::string_view before = std::string_view(list).substr(0, at),
                           behind = std::string_view(list).substr(at + words.size());
    if ((before.empty() || before.ends_with(", ")) && (behind.empty() || behind.starts_with(","))) return;
  }
  if (!list.empty()) list += ", ";
  list += words;
}

bool in_demo_currency(const Job& job) { return job.yard.currency == buying_figure("demo-currency").words; }

UnitPrice Bill::price_of(std::string_view item, Money demo, std::optional<Length> length) const {
  const ItemPrice* own = own_price(job_, item, length);
  if (own) return {own->price};
  return demo_currency_ ? UnitPrice{demo} : UnitPrice{.known = false};
}

void Bill::put(OrderLine line, int packages, UnitPrice price) {
  if (in_pounds(line.weight) > buying_figure("one-person-lift").value) add_words(line.note, "two-person carry");
  if (!price.known) add_words(line.note, "no price in " + job_.yard.currency);
  line.quantity = packages;
  line.unit_price = price.money;
  line.price = price.money * packages;
  line.weight = line.weight * packages;
  order_->lines.push_back(std::move(line));
}

namespace {

Money add_all(Bill bill, const Flight& flight, const Frame& frame, const CutPlan& cuts) {
  add_lumber(bill, flight, frame, cuts);
  add_hardware(bill, frame);
  add_landing(bill, frame);
  add_care(bill, flight, frame);
  return bill.total();
}

}  // namespace

Money order_total(const Job& job, const Flight& flight, const Frame& frame, const CutPlan& cuts) {
  return add_all(Bill(job, nullptr), flight, frame, cuts);
}

Order make_order(const Job& job, const Flight& flight, const Frame& frame, const CutPlan& cuts) {
  const std::string_view demo_date = buying_figure("demo-prices").words;
  Order order{.price_date = job.yard.price_date.empty() ? std::string(demo_date) : job.yard.price_date,
              .currency = job.yard.currency};
  order.total = add_all(Bill(job, &order), flight, frame, cuts);
  for (const OrderLine& line : order.lines) order.weight += line.weight;
  if (!in_demo_currency(job)) {
    const auto unpriced = std::ranges::count(order.lines, Money{}, &OrderLine::unit_price);
    if (unpriced > 0) {
      order.notes.push_back("The total is without " + std::to_string(unpriced) + " lines that have no price in " +
                            order.currency + ": demo prices are in " +
                            std::string(buying_figure("demo-currency").words) + ", put in your own.");
    }
    return order;
  }
  order.notes.push_back("Prices that the job does not give are demo prices of an invented yard, as of " +
                        std::string(demo_date) + ".");
  return order;
}

}  // namespace pitchboard
