// A text that reads as a length is written and read back to the very same length, in every form that is meant to be
// exact.

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "engine/base/tape.hpp"

using pitchboard::Length;
using pitchboard::Result;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const Result<Length> length = pitchboard::read_length(text);
  if (!length) {
    const bool told =
        length.error().size() == 1 && !length.error()[0].wrong.empty() && !length.error()[0].remedy.empty();
    if (!told) std::abort();
    return 0;
  }
  if (!(*length >= Length())) std::abort();
  if (pitchboard::read_length(pitchboard::exact_text(*length)) != *length) std::abort();
  const Length on_tape = pitchboard::round_to(*length, pitchboard::kSixteenth);
  if (pitchboard::read_length(pitchboard::tape_plain(*length)) != on_tape) std::abort();
  if (pitchboard::read_length(pitchboard::tape_feet(*length)) != on_tape) std::abort();
  return 0;
}
