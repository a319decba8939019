#pragma once
// A calculation that an engineer can follow by hand: every figure with its symbol, value, unit, origin and source.

#include <string>
#include <vector>

#include "engine/base/text.hpp"
#include "engine/base/verdict.hpp"

namespace pitchboard {

/// One line of a calculation.
struct Figure {
  Text symbol;               ///< "F'b"
  Text words;                ///< "adjusted bending value"
  double value = 0;          ///< in `unit`
  Text unit;                 ///< "psi", "lb", "in", "in-lb", "in3", "in4", "deg", "lb/in"; empty: a pure number
  Text from;                 ///< how it came about, in the symbols above it: "Fb CD CM CF"; empty: an input
  Text source;               ///< clause, table or input: "NDS 2018 Table 4.3.1", "job: wood.grade"
  bool from_memory = false;  ///< its source has not been read again: the check says so
};

/// One demand held against one capacity.
struct Check {
  std::string member;  ///< "tread", "stringer", "head", "post", "rail", "baluster", "hanger board", "foot", "ground"
  std::string where;   ///< mark of the part or joint: "T3a", "S1 head"
  std::string what;    ///< "bending under 300 lb"
  std::string clause;  ///< "NDS 2018 3.3"
  Verdict verdict = Verdict::not_checked;  ///< pass, fail or not_checked
  double demand = 0, capacity = 0;         ///< in `unit`; both 0: not checked
  std::string unit;
  double ratio = 0;             ///< demand over capacity; 0: not checked
  std::vector<Figure> figures;  ///< in the order of the hand calculation
  std::string note;             ///< what is assumed, or why it is not checked
  [[nodiscard]] bool from_memory() const;
};

/// A check that carries nothing at all counts as this weak.
constexpr double kCarriesNothing = 1e9;
/// RETURNS how weak a check is: its ratio, kCarriesNothing without capacity, -1 when it is not checked.
[[nodiscard]] double weakness(const Check& check);

/// RETURNS the check with its ratio and verdict set from demand and capacity. A capacity of 0 or less fails.
[[nodiscard]] Check weighed(Check&& check);

/// RETURNS the value of the figure with that symbol, the last one if there are several. REQUIRES there is one.
[[nodiscard]] double value_of(const std::vector<Figure>& figures, std::string_view symbol);

}  // namespace pitchboard
