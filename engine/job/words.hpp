#pragma once
// The words that a job file, a paper and a screen use for each choice: one word per thing, the same everywhere.

#include <cstddef>
#include <span>
#include <string_view>

#include "engine/job/job.hpp"

namespace pitchboard {

struct Word {
  std::string_view word;      ///< "full tread"
  std::string_view sentence;  ///< what choosing it means
};

/// RETURNS every word of the argument's type, in the order of its enumerators; the value itself does not matter.
[[nodiscard]] std::span<const Word> words_of(UnitSystem type);
[[nodiscard]] std::span<const Word> words_of(BehindRim type);
[[nodiscard]] std::span<const Word> words_of(Method type);
[[nodiscard]] std::span<const Word> words_of(Line type);
[[nodiscard]] std::span<const Word> words_of(PadMake type);
[[nodiscard]] std::span<const Word> words_of(TopMode type);
[[nodiscard]] std::span<const Word> words_of(TreadMake type);
[[nodiscard]] std::span<const Word> words_of(Risers type);
[[nodiscard]] std::span<const Word> words_of(StringerKind type);
[[nodiscard]] std::span<const Word> words_of(SideRail type);
[[nodiscard]] std::span<const Word> words_of(BalusterKind type);
[[nodiscard]] std::span<const Word> words_of(HandrailWish type);
[[nodiscard]] std::span<const Word> words_of(TopPosts type);
[[nodiscard]] std::span<const Word> words_of(FootPosts type);
[[nodiscard]] std::span<const Word> words_of(BoltSize type);

/// RETURNS the word of one choice: `word(TopMode::full_tread)` is "full tread".
template <class Choice>
[[nodiscard]] std::string_view word(Choice choice) {
  return words_of(choice)[static_cast<std::size_t>(choice)].word;
}

}  // namespace pitchboard
