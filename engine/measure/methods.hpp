#pragma once
// How good each way of measuring is; the rows live in data/methods.toml, in the order of `Method`.

#include <string_view>

#include "engine/job/job.hpp"

namespace pitchboard {

struct MethodRow {
  std::string_view words;
  double fixed = 0;     ///< inches
  double per_inch = 0;  ///< inches of error for each inch out from the deck edge
  std::string_view source;
};
[[nodiscard]] const MethodRow& method_row(Method method);

}  // namespace pitchboard
