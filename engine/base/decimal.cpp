#include "engine/base/decimal.hpp"

#include <cerrno>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <string>

namespace pitchboard {

std::optional<double> decimal_in(std::string_view text) {
  if (text.empty() || text.find_first_not_of("0123456789.-") != std::string_view::npos) return std::nullopt;
#ifdef __cpp_lib_to_chars
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc() && end == text.data() + text.size() ? std::optional(value) : std::nullopt;
#else  // WebAssembly's library has no from_chars for doubles, and no locale that could disturb strtod
  const std::string digits(text);
  char* end = nullptr;
  errno = 0;
  const double value = std::strtod(digits.c_str(), &end);
  const bool within = errno != ERANGE || (value != 0 && std::isfinite(value));  // it objects to subnormals too
  return within && end == digits.c_str() + digits.size() ? std::optional(value) : std::nullopt;
#endif
}

}  // namespace pitchboard
