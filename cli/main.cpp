// The `pitchboard` program: commands, their options, and what the shell gets back.

#include <unistd.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <functional>
#include <optional>
#include <string>
#include <utility>

#include "cli/job_file.hpp"
#include "cli/packet.hpp"
#include "cli/report.hpp"
#include "cli/terminal.hpp"
#include "engine/job/fields.hpp"
#include "engine/plan.hpp"

namespace pitchboard {
namespace {

// What the shell gets back.
constexpr int kDone = 0, kUnexpected = 1, kBadInput = 2, kImpossible = 3, kFails = 4;

constexpr const char* kFooter = R"(Examples:
  pitchboard plan job.toml -o packet      the papers, into the folder 'packet'
  pitchboard options job.toml             every flight that fits, best first
  pitchboard check job.toml --metric      the rules, measured in millimetres
  pitchboard check job.toml --fix         the same, and the least change that would make it strong enough
  pitchboard fields --markdown            what a job file may hold

Exit codes:
  0  done
  1  a file cannot be written, or something unexpected
  2  the command or the job file is not right; nothing is written
  3  no stair fits the job; the limits that collide are named; nothing is written
  4  check only: a rule or a check of strength fails, parts clash, or no board is long enough

The local building department and licensed practice decide what is allowed.)";

struct Arguments {
  std::string job;
  std::string folder;
  std::string paper;
  bool json = false, metric = false, schema = false, markdown = false, fix = false;
};

/// Says on standard error what is wrong with `subject`, every problem with its remedy.
void complain(const std::string& subject, const Problems& problems) {
  const bool colour = takes_colour(STDERR_FILENO);
  std::fprintf(stderr, "%s\n", inked(subject, Ink::bold, colour).c_str());
  for (const Problem& problem : problems) {
    std::fprintf(stderr, "  %s: %s\n      %s\n", inked(problem.place, Ink::red, colour).c_str(), problem.wrong.c_str(),
                 problem.remedy.c_str());
  }
}

/// RETURNS kUnexpected when standard output took not all of it (a full disk, a closed pipe).
int print(const std::string& text) {
  const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0;
  return written ? kDone : kUnexpected;
}

Result<Job> load(const Arguments& arguments) {
  Result<Job> job = read_job_file(arguments.job);
  if (!job) return job;
  if (Problems problems = check_place(job->place); !problems.empty()) return std::unexpected(std::move(problems));
  if (arguments.metric) job->about.units = UnitSystem::metric;
  return job;
}

/// Reads the job, plans it and hands the plan on; says what is wrong with either.
int with_plan(const Arguments& arguments, const std::function<int(const Plan&)>& then) {
  const Result<Job> job = load(arguments);
  if (!job) {
    complain(arguments.job + ": this job file is not right", job.error());
    return kBadInput;
  }
  const Result<Plan> plan = [&] {
    const Progress progress("planning " + job->about.name);
    return make_plan(*job);
  }();
  if (!plan) {
    complain(arguments.job + ": no stair fits this job", plan.error());
    return kImpossible;
  }
  return then(*plan);
}

int write_papers(const Arguments& arguments, const Plan& plan) {
  const UnitSystem units = plan.job.about.units;
  const bool a4 = arguments.paper.empty() ? units == UnitSystem::metric : arguments.paper == "a4";
  const Result<Packet> packet = [&] {
    const Progress progress("drawing " + plan.job.about.name);
    return make_packet(plan, a4 ? Paper::a4 : Paper::letter);
  }();
  if (!packet) {
    complain(arguments.folder + ": the papers cannot be made", packet.error());
    return kUnexpected;
  }
  if (const auto problem = write_packet(arguments.folder, *packet)) {
    complain(arguments.folder + ": nothing was written", {*problem});
    return kUnexpected;
  }
  return kDone;
}

int plan_command(const Arguments& arguments) {
  if (arguments.folder.empty() && !arguments.json) {
    complain("pitchboard plan",
             {{"-o", "no folder is named for the papers", "add -o DIR, or --json to print the plan alone"}});
    return kBadInput;
  }
  return with_plan(arguments, [&](const Plan& plan) {
    if (!arguments.folder.empty()) {
      if (const int code = write_papers(arguments, plan); code != kDone) return code;
    }
    if (arguments.json) return print(plan_json(plan));
    const std::filesystem::path folder = arguments.folder;
    return print(summary(plan, takes_colour(STDOUT_FILENO)) + "  papers   " + (folder / "plan.pdf").string() +
                 ", and drawings, order, cut list, holes and checks beside it\n");
  });
}

int options_command(const Arguments& arguments) {
  return with_plan(arguments, [](const Plan& plan) { return print(options_text(plan.options, plan.job)); });
}

int check_command(const Arguments& arguments) {
  return with_plan(arguments, [&](const Plan& plan) {
    const bool colour = takes_colour(STDOUT_FILENO);
    std::string text = checks_text(plan, colour);
    if (arguments.fix) {
      const Progress progress("looking for the least change");
      text += remedy_text(plan, colour);
    }
    const int code = print(text);
    return code != kDone ? code : something_fails(plan) ? kFails : kDone;
  });
}

std::string fields_text() {
  TextTable table{{{"input"}, {"holds"}, {"range"}, {"left out"}, {"what it is"}}, {}};
  for (const Field& field : fields()) {
    table.rows.push_back({field.key, std::string(type_words(field.type)), range_words(field),
                          field.required ? "not allowed" : field.default_value, std::string(field.sentence)});
  }
  return lined_up(table);
}

int fields_command(const Arguments& arguments) {
  return print(arguments.schema ? schema_text() : arguments.markdown ? job_file_reference() : fields_text());
}

int run(int argc, char** argv) {
  Arguments arguments;
  CLI::App app("Plans an outdoor stair from tape readings: drawings, marks, cut list, order, code verdicts.",
               "pitchboard");
  app.set_help_flag("-h,--help", "Show this help");
  app.set_help_all_flag("--help-all", "Show the help of every command");
  app.set_version_flag("--version", "pitchboard " PITCHBOARD_VERSION, "Show the version");
  app.footer(kFooter);
  app.get_formatter()->label("SUBCOMMAND", "COMMAND");
  app.get_formatter()->label("Subcommands", "Commands");
  app.get_formatter()->label("Positionals", "Arguments");
  app.get_formatter()->label("TEXT", "");
  app.require_subcommand(1);

  const auto command = [&](const char* name, const char* sentence) {
    CLI::App* sub = app.add_subcommand(name, sentence);
    sub->set_help_flag("-h,--help", "Show this help");
    sub->set_help_all_flag("");
    return sub;
  };
  const auto job_command = [&](const char* name, const char* sentence) {
    CLI::App* sub = command(name, sentence);
    sub->add_option("JOB", arguments.job, "Job file, TOML or JSON")->required();
    sub->add_flag("--metric", arguments.metric, "Speak millimetres, whatever the job file says");
    return sub;
  };
  CLI::App* plan = job_command("plan", "Plan the stair and write its papers");
  plan->add_option("-o,--output", arguments.folder, "Folder for the papers; an earlier packet there is replaced");
  plan->add_option("--paper", arguments.paper, "Paper size (letter, or a4 for metric jobs)")
      ->check(CLI::IsMember({"letter", "a4"}));
  plan->add_flag("--json", arguments.json, "Print the plan as JSON instead of the summary");
  CLI::App* options = job_command("options", "List the flights that fit, best first");
  CLI::App* check = job_command("check", "Hold the plan against the code pack and its strength, worst first");
  check->add_flag("--fix", arguments.fix, "Propose the least change that makes it strong enough");
  CLI::App* fields = command("fields", "List what a job file may hold");
  CLI::Option* schema = fields->add_flag("--schema", arguments.schema, "As JSON Schema");
  fields->add_flag("--markdown", arguments.markdown, "As the page docs/job-file.md")->excludes(schema);
  command("packs", "List the code packs and local amendments");

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? kDone : kBadInput;
  }
  if (plan->parsed()) return plan_command(arguments);
  if (options->parsed()) return options_command(arguments);
  if (check->parsed()) return check_command(arguments);
  if (fields->parsed()) return fields_command(arguments);
  return print(packs_text());
}

}  // namespace
}  // namespace pitchboard

int main(int argc, char** argv) {
  try {
    return pitchboard::run(argc, argv);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "pitchboard: unexpected: %s\n", error.what());
    return pitchboard::kUnexpected;
  }
}
