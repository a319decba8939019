#include "cli/terminal.hpp"

#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <utility>

namespace pitchboard {

bool takes_colour(int file_descriptor) {
  const char* no_colour = std::getenv("NO_COLOR");
  const char* kind = std::getenv("TERM");
  return isatty(file_descriptor) == 1 && (no_colour == nullptr || *no_colour == '\0') && kind != nullptr &&
         std::string_view(kind) != "dumb";
}

std::string inked(std::string_view text, Ink ink, bool colour) {
  if (!colour || ink == Ink::plain) return std::string(text);
  const char* code = ink == Ink::bold ? "1" : ink == Ink::red ? "1;31" : ink == Ink::yellow ? "33" : "2";
  return std::string("\033[") + code + "m" + std::string(text) + "\033[0m";
}

Progress::Progress(std::string what) : what_(std::move(what)), teller_([this] { tell(); }) {}

Progress::~Progress() {
  {
    const std::lock_guard lock(mutex_);
    done_ = true;
  }
  ended_.notify_all();
  teller_.join();
}

void Progress::say(std::string what) {
  const std::lock_guard lock(mutex_);
  what_ = std::move(what);
}

void Progress::tell() {
  const bool in_place = isatty(STDERR_FILENO) == 1;
  size_t told = 0;
  std::unique_lock lock(mutex_);
  for (int seconds = 1; !ended_.wait_for(lock, std::chrono::seconds(1), [this] { return done_; }); ++seconds) {
    const std::string line = what_ + ", " + std::to_string(seconds) + " s";
    if (in_place) {
      const std::string rest(told > line.size() ? told - line.size() : 0, ' ');
      std::fprintf(stderr, "\r%s%s", line.c_str(), rest.c_str());
      told = line.size();
    } else if (seconds == 1) {
      std::fprintf(stderr, "%s\n", what_.c_str());
    }
    std::fflush(stderr);
  }
  if (told > 0)
    std::fprintf(stderr, "\r%s\r", std::string(told, ' ').c_str());  // no escape: not every terminal knows one
}

}  // namespace pitchboard
