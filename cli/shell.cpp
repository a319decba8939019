#include "cli/shell.hpp"

#include <unistd.h>

#include <cstdio>

#include "cli/terminal.hpp"

namespace pitchboard {

void complain(const std::string& subject, const Problems& problems) {
  const bool colour = takes_colour(STDERR_FILENO);
  std::fprintf(stderr, "%s\n", inked(subject, Ink::bold, colour).c_str());
  for (const Problem& problem : problems) {
    std::fprintf(stderr, "  %s: %s\n      %s\n", inked(problem.place, Ink::red, colour).c_str(), problem.wrong.c_str(),
                 problem.remedy.c_str());
  }
}

int print(const std::string& text) {
  const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0;
  return written ? kDone : kUnexpected;
}

}  // namespace pitchboard
