#include "cli/options.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <fstream>

#include "cli/options_report.hpp"
#include "cli/packet.hpp"
#include "cli/shell.hpp"
#include "cli/terminal.hpp"
#include "engine/choose/explain.hpp"
#include "engine/draw/sheets.hpp"
#include "paper/pdf.hpp"

namespace pitchboard {
namespace {

Search searched(const Job& job) {
  const Progress progress("searching stairs for " + job.about.name);
  return search_stairs(job, Site(job));
}

/// Says why nothing can be built.
int nothing_fits(const Job& job, const Search& search, const std::string& subject) {
  complain(subject + ": no stair that this job allows can be built", why_none(job, search));
  return kImpossible;
}

bool is_on_front(const Search& search, std::size_t number, const char* flag, const std::string& subject) {
  if (number >= 1 && number <= search.front.size()) return true;
  complain(subject, {{flag, fmt::format("there is no option {}", number),
                      fmt::format("name one from 1 to {}: 'pitchboard options' lists them", search.front.size())}});
  return false;
}

std::optional<Problem> write_picture(const std::filesystem::path& path, const Job& job, const Search& search,
                                     Paper paper) {
  const Sheet sheet = draw_options(job, search, paper);
  std::string bytes = to_svg(sheet);
  if (path.extension() == ".pdf") {
    auto pdf = to_pdf({sheet}, {.title = job.about.name, .date = job.about.date});
    if (!pdf) return Problem{path.string(), pdf.error(), "run script/setup: it installs the font"};
    bytes = std::move(*pdf);
  }
  return write_whole(path, bytes);
}

}  // namespace

int options_command(const Job& job, Paper paper, const OptionsArguments& arguments) {
  const Search search = searched(job);
  if (search.front.empty()) {
    if (arguments.json) {
      if (const int code = print(search_json(job, search)); code != kDone) return code;
    }
    return nothing_fits(job, search, arguments.subject);
  }
  if (arguments.why > 0 && !is_on_front(search, arguments.why, "--why", arguments.subject)) return kBadInput;
  if (!arguments.picture.empty()) {
    if (const auto problem = write_picture(arguments.picture, job, search, paper)) {
      complain(arguments.picture + ": nothing was written", {*problem});
      return kUnexpected;
    }
  }
  if (arguments.json) return print(search_json(job, search));
  if (arguments.why == 0) return print(front_text(job, search, takes_colour(STDOUT_FILENO)));
  const std::size_t option = arguments.why - 1;
  const Result<Plan> plan = make_plan(job_of(job, search, option), Depth::quick);
  if (!plan) {
    complain(arguments.subject + ": this option cannot be planned", plan.error());
    return kUnexpected;
  }
  return print(why_text(job, search, option, *plan, takes_colour(STDOUT_FILENO)));
}

Problems why_none(const Job& job, const Search& search) {
  if (search.space.families.empty()) {
    if (const Result<Plan> plan = make_plan(job); !plan) return plan.error();
  }
  Problems out;
  for (const Rejected& group : rejected(search)) {
    const std::string one = family_words(job, search.space.families[group.families.front()]);
    out.push_back(
        {group.families.size() == 1 ? one : fmt::format("{} kinds of stairs, such as {}", group.families.size(), one),
         group.fault, "change what the job fixes; 'check --fix' proposes what would mend its own stair"});
  }
  return out;
}

std::expected<Job, int> chosen_option(const Job& job, std::size_t number, const std::string& subject) {
  const Search search = searched(job);
  if (search.front.empty()) return std::unexpected(nothing_fits(job, search, subject));
  if (!is_on_front(search, number, "--option", subject)) return std::unexpected(kBadInput);
  return job_of(job, search, number - 1);
}

}  // namespace pitchboard
