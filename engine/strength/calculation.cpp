#include "engine/strength/calculation.hpp"

#include <algorithm>
#include <utility>

namespace pitchboard {

bool Check::from_memory() const { return std::ranges::any_of(figures, &Figure::from_memory); }

double weakness(const Check& check) {
  if (check.verdict == Verdict::not_checked) return -1.0;
  return check.capacity > 0 ? check.ratio : kCarriesNothing;
}

Check weighed(Check&& check) {
  check.ratio = check.capacity > 0 ? check.demand / check.capacity : 0;
  check.verdict = check.capacity > 0 && check.ratio <= 1.0 ? Verdict::pass : Verdict::fail;
  return std::move(check);
}

double value_of(const std::vector<Figure>& figures, std::string_view symbol) {
  const auto last = std::find_if(figures.rbegin(), figures.rend(), [&](const Figure& f) { return f.symbol == symbol; });
  return last == figures.rend() ? 0.0 : last->value;
}

}  // namespace pitchboard
