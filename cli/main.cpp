// The `pitchboard` program: commands, their options, and what the shell gets back.

#include <unistd.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <utility>

#include "cli/batch.hpp"
#include "cli/job_file.hpp"
#include "cli/options.hpp"
#include "cli/packet.hpp"
#include "cli/report.hpp"
#include "cli/shell.hpp"
#include "cli/terminal.hpp"
#include "engine/base/text_table.hpp"
#include "engine/job/fields.hpp"
#include "engine/plan.hpp"
#include "server/serve.hpp"

namespace pitchboard {
namespace {

constexpr const char* kFooter = R"(Examples:
  pitchboard plan job.toml -o packet      the papers, into the folder 'packet'
  pitchboard options job.toml             the stairs that nothing beats, and the one to pick
  pitchboard options job.toml --why 2     why the second is among them, and what would change it
  pitchboard check job.toml --option 2    the rules, held against that one
  pitchboard check job.toml --metric      the rules, measured in millimetres
  pitchboard check job.toml --fix         the same, and the least change that would make it strong enough
  pitchboard batch jobs.jsonl             many jobs, a line each
  pitchboard fields --markdown            what a job file may hold
  pitchboard serve                        the page: all of it in a browser, on this machine alone

Exit codes:
  0  done
  1  a file cannot be written, or something unexpected
  2  the command or the job file is not right; nothing is written; batch: so it is with a line
  3  no stair fits the job, or every one that the search may choose has a fault; what is in the way is named; nothing
     is written; batch: so it is with a line
  4  check only: a rule or a check of strength fails, parts clash, or no board is long enough

The local building department and licensed practice decide what is allowed.)";

struct Arguments {
  std::string job;
  std::string output;
  std::string paper;
  std::string jobs = "-";
  std::string page = "web/dist";
  int port = 0;
  std::size_t option = 0, why = 0;
  unsigned threads = 0;
  bool json = false, metric = false, schema = false, markdown = false, fix = false, search = false;
};

Result<Job> load(const Arguments& arguments) {
  Result<Job> job = read_job_file(arguments.job);
  if (!job) return job;
  if (Problems problems = check_place(job->place); !problems.empty()) return std::unexpected(std::move(problems));
  if (arguments.metric) job->about.units = UnitSystem::metric;
  return job;
}

/// Reads the job and hands it on; says what is wrong with it.
int with_job(const Arguments& arguments, const std::function<int(const Job&)>& then) {
  const Result<Job> job = load(arguments);
  if (job) return then(*job);
  complain(arguments.job + ": this job file is not right", job.error());
  return kBadInput;
}

/// The same with the plan of the job, or of the option of its front that is asked for.
int with_plan(const Arguments& arguments, const std::function<int(const Plan&)>& then) {
  return with_job(arguments, [&](const Job& read) {
    Job job = read;
    if (arguments.option > 0) {
      std::expected<Job, int> option = chosen_option(read, arguments.option, arguments.job);
      if (!option) return option.error();
      job = std::move(*option);
    }
    const Result<Plan> plan = [&] {
      const Progress progress("planning " + job.about.name);
      return make_plan(job);
    }();
    if (plan) return then(*plan);
    if (arguments.json) {
      if (const int code = print(no_flight_json(job)); code != kDone) return code;
    }
    complain(arguments.job + ": no stair fits this job", plan.error());
    return kImpossible;
  });
}

Paper paper_of(const Arguments& arguments, const Job& job) {
  const bool a4 = arguments.paper.empty() ? job.about.units == UnitSystem::metric : arguments.paper == "a4";
  return a4 ? Paper::a4 : Paper::letter;
}

int write_papers(const Arguments& arguments, const Plan& plan) {
  const Result<Packet> packet = [&] {
    const Progress progress("drawing " + plan.job.about.name);
    return make_packet(plan, paper_of(arguments, plan.job));
  }();
  if (!packet) {
    complain(arguments.output + ": the papers cannot be made", packet.error());
    return kUnexpected;
  }
  if (const auto problem = write_packet(arguments.output, *packet)) {
    complain(arguments.output + ": nothing was written", {*problem});
    return kUnexpected;
  }
  return kDone;
}

int plan_command(const Arguments& arguments) {
  if (arguments.output.empty() && !arguments.json) {
    complain("pitchboard plan",
             {{"-o", "no folder is named for the papers", "add -o DIR, or --json to print the plan alone"}});
    return kBadInput;
  }
  return with_plan(arguments, [&](const Plan& plan) {
    if (!arguments.output.empty()) {
      if (const int code = write_papers(arguments, plan); code != kDone) return code;
    }
    if (arguments.json) return print(plan_json(plan));
    const std::filesystem::path folder = arguments.output;
    return print(summary(plan, takes_colour(STDOUT_FILENO)) + "  papers   " + (folder / "plan.pdf").string() +
                 ", and drawings, order, cut list, holes and checks beside it\n");
  });
}

int options_command(const Arguments& arguments) {
  return with_job(arguments, [&](const Job& job) {
    return options_command(job, paper_of(arguments, job),
                           {arguments.job, arguments.output, arguments.why, arguments.json});
  });
}

int check_command(const Arguments& arguments) {
  return with_plan(arguments, [&](const Plan& plan) {
    const bool colour = takes_colour(STDOUT_FILENO);
    std::string text = checks_report(plan, colour);
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

int serve_command(const Arguments& arguments) {
  const std::optional<Problem> problem = serve(arguments.page, arguments.port, [](const std::string& address) {
    std::printf("The page is at %s  Stop it with Ctrl-C.\n", address.c_str());
    std::fflush(stdout);
  });
  if (!problem) return kDone;
  complain("pitchboard serve", {*problem});
  return kBadInput;
}

/// RETURNS what is wrong with the name of a picture; empty when nothing is.
std::string names_a_picture(const std::string& path) {
  const std::string kind = std::filesystem::path(path).extension().string();
  return kind == ".svg" || kind == ".pdf" ? "" : "name a file that ends in .svg or .pdf";
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
  plan->add_option("-o,--output", arguments.output, "Folder for the papers; an earlier packet there is replaced");
  plan->add_flag("--json", arguments.json, "Print the plan as JSON instead of the summary");
  CLI::App* options = job_command("options", "Search all stairs that the job allows; list those that nothing beats");
  options->add_option("-o,--output", arguments.output, "Plot of cost against comfort, .svg or .pdf; replaced if there")
      ->check(names_a_picture);
  CLI::Option* why = options->add_option("--why", arguments.why, "Explain that option: checks, what if, how to keep it")
                         ->option_text("N")
                         ->check(CLI::PositiveNumber);
  options->add_flag("--json", arguments.json, "Print the search as JSON instead of the table")->excludes(why);
  CLI::App* check = job_command("check", "Hold the plan against the code pack and its strength, worst first");
  for (CLI::App* sub : {plan, check}) {
    sub->add_option("--option", arguments.option, "That one of 'pitchboard options', instead of the job's own stair")
        ->option_text("N")
        ->check(CLI::PositiveNumber);
  }
  for (CLI::App* sub : {plan, options}) {
    sub->add_option("--paper", arguments.paper, "Paper size (letter, or a4 for metric jobs)")
        ->check(CLI::IsMember({"letter", "a4"}));
  }
  check->add_flag("--fix", arguments.fix, "Propose the least change that makes it strong enough");
  CLI::App* batch = command("batch", "Plan many jobs: JSON lines in, JSON lines out in the same order");
  batch->add_option("FILE", arguments.jobs, "Jobs, one a line: a job object or a path in quotes (- is standard input)");
  batch->add_flag("--search", arguments.search, "Search each job and plan its default pick");
  batch->add_option("--jobs", arguments.threads, "Jobs at a time (as many as the machine has cores)")
      ->option_text("N")
      ->check(CLI::Range(1U, kMostThreads));
  CLI::App* fields = command("fields", "List what a job file may hold");
  CLI::Option* schema = fields->add_flag("--schema", arguments.schema, "As JSON Schema");
  fields->add_flag("--markdown", arguments.markdown, "As the page docs/job-file.md")->excludes(schema);
  command("packs", "List the code packs and local amendments");
  CLI::App* serving = command("serve", "Serve the page on this machine: the whole job in a browser");
  serving->add_option("PAGE", arguments.page, "Folder of the built page")->capture_default_str();
  serving->add_option("--port", arguments.port, "Port on 127.0.0.1 (any that is free)")
      ->option_text("N")
      ->check(CLI::Range(1, 65535));

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? kDone : kBadInput;
  }
  if (plan->parsed()) return plan_command(arguments);
  if (options->parsed()) return options_command(arguments);
  if (check->parsed()) return check_command(arguments);
  if (batch->parsed()) return batch_command({arguments.jobs, arguments.search, arguments.threads});
  if (fields->parsed()) return fields_command(arguments);
  if (serving->parsed()) return serve_command(arguments);
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
