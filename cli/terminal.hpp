#pragma once
// What a terminal gets and a file or pipe does not: colour, and word that work is going on.

#include <condition_variable>
#include <mutex>
#include <string>
#include <string_view>
#include <thread>

namespace pitchboard {

enum class Ink { plain, bold, red, yellow, dim };

/// True when the stream is a terminal that takes colours and the person has not set NO_COLOR.
[[nodiscard]] bool takes_colour(int file_descriptor);
/// RETURNS the text in that ink, or as it is when `colour` is false.
[[nodiscard]] std::string inked(std::string_view text, Ink ink, bool colour);

/// While it lives, and from the first second on, tells on standard error that `what` is going on: every second in place
/// on a terminal, once elsewhere.
class Progress {
 public:
  explicit Progress(std::string what);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  /// What is going on from now on.
  void say(std::string what);

 private:
  void tell();

  std::string what_;
  std::mutex mutex_;
  std::condition_variable ended_;
  bool done_ = false;
  std::thread teller_;
};

}  // namespace pitchboard
