// Memory is bounded: no line is longer than kLongestLine, and no more than kWindow lines a thread are read ahead of the
// first whose record is not written yet.

#include "cli/batch.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <condition_variable>
#include <deque>
#include <exception>
#include <fstream>
#include <functional>
#include <iostream>
#include <mutex>
#include <nlohmann/json.hpp>
#include <optional>
#include <thread>
#include <vector>

#include "cli/job_file.hpp"
#include "cli/options.hpp"
#include "cli/shell.hpp"
#include "cli/terminal.hpp"
#include "engine/base/canonical.hpp"
#include "engine/choose/front.hpp"
#include "engine/draw/sheet_words.hpp"
#include "engine/job/read_job.hpp"
#include "engine/plan.hpp"
#include "engine/strength/calculation.hpp"

namespace pitchboard {
namespace {

using nlohmann::json;

constexpr std::size_t kLongestLine = 4'000'000;  ///< bytes; a job is a few thousand
constexpr std::size_t kWindow = 8;
/// Deeper than any job; what is nested deeper is not even read.
constexpr int kDeepest = 32;

struct Line {
  std::size_t number = 0;  ///< from 1
  std::string text;
  bool too_long = false;
};
struct Record {
  std::string text;
  int code = kDone;
};

/// RETURNS the next line that is not blank.
std::optional<Line> next_line(std::streambuf& in, std::size_t& number) {
  Line line;
  int c = 0;
  do {
    line = {.number = ++number};
    while ((c = in.sbumpc()) != EOF && c != '\n') {
      line.too_long = line.too_long || line.text.size() == kLongestLine;
      if (!line.too_long) line.text += static_cast<char>(c);
    }
    if (line.text.find_first_not_of(" \t\r") != std::string::npos) return line;
  } while (c != EOF);
  return std::nullopt;
}

Problems not_right(std::string place, std::string wrong, std::string remedy) {
  return {{std::move(place), std::move(wrong), std::move(remedy)}};
}

/// RETURNS the job of the line: a job object, or the path of a job file as a string. Takes `id` out of an object.
Result<Job> job_of_line(const Line& line, json& id) {
  if (line.too_long) return std::unexpected(not_right("line", "it is too long", "write one job a line"));
  bool deep = false;
  json value = json::parse(
      line.text,
      [&](int depth, json::parse_event_t, json&) {
        deep = deep || depth > kDeepest;
        return depth <= kDeepest;
      },
      false);
  if (deep || value.is_discarded()) {
    return std::unexpected(
        not_right("line", "this is not JSON of a job", "write a job object, or the path of a job file in quotes"));
  }
  Result<Job> job;
  if (value.is_object()) {
    if (const auto own = value.find("id"); own != value.end()) {
      id = *own;
      value.erase(own);
    }
    job = read_job_json(value.dump(-1, ' ', false, json::error_handler_t::replace));
  } else if (value.is_string()) {
    job = read_job_file(value.get<std::string>());
  } else {
    return std::unexpected(not_right("line", "this is neither an object nor a path", "write a job object, or a path"));
  }
  if (!job) return job;
  if (Problems problems = check_place(job->place); !problems.empty()) return std::unexpected(std::move(problems));
  return job;
}

bool is_asked(const Finding& finding) { return finding.applies; }
bool is_asked(const Check&) { return true; }

json counts_of(const auto& judged) {
  json out = json::object();
  for (const Verdict verdict :
       {Verdict::fail, Verdict::too_close, Verdict::not_checked, Verdict::warn, Verdict::pass}) {
    out[verdict_words(verdict)] =
        std::ranges::count_if(judged, [&](const auto& j) { return j.verdict == verdict && is_asked(j); });
  }
  return out;
}

json record_of(const Plan& plan) {
  const Flight& flight = plan.flight;
  double ratio = 0;
  for (const Check& check : plan.strength.checks) ratio = std::max(ratio, weakness(check));
  return {{"name", plan.job.about.name},
          {"flight",
           {{"risers", flight.risers},
            {"unit_rise", canonical(in_inches(flight.unit_rise))},
            {"going", canonical(in_inches(flight.going))},
            {"run", canonical(in_inches(flight.run))},
            {"total_rise", canonical(in_inches(flight.total_rise))},
            {"landing_lift", canonical(in_inches(flight.landing.lift))}}},
          {"rules", counts_of(plan.findings)},
          {"strength", counts_of(plan.strength.checks)},
          {"ratio", canonical(ratio)},
          {"clashes", plan.frame.clashes.size()},
          {"impossible_pieces", plan.cuts.impossible.size()},
          {"total", plan.order.total.cents},
          {"currency", plan.order.currency}};
}

/// RETURNS the record of the line, and the exit code that the line alone would give.
Record record_of(const Line& line, bool search) {
  json id, out;
  const auto failed = [&](const Problems& problems, int code) {
    json list = json::array();
    for (const Problem& p : problems) list.push_back({{"place", p.place}, {"wrong", p.wrong}, {"remedy", p.remedy}});
    out = {{"problems", list}};
    return code;
  };
  const auto plan_line = [&] {
    Result<Job> job = job_of_line(line, id);
    if (!job) return failed(job.error(), kBadInput);
    json searched;
    if (search) {
      const Search found = search_stairs(*job, Site(*job));
      if (found.front.empty()) return failed(why_none(*job, found), kImpossible);
      searched = json::parse(search_json(*job, found));
      job = job_of(*job, found, found.pick);
    }
    const Result<Plan> plan = make_plan(*job);
    if (!plan) return failed(plan.error(), kImpossible);
    out = record_of(*plan);
    if (search) out["search"] = searched;
    return kDone;
  };
  int code = kDone;
  try {
    code = plan_line();
  } catch (const std::exception& error) {
    code = failed(not_right("line", error.what(), "report it with this line"), kUnexpected);
  }
  out["line"] = line.number;
  out["id"] = id;
  return {out.dump(-1, ' ', false, json::error_handler_t::replace) + "\n", code};
}

/// Reads, works and writes at once: each record is written as soon as all before it are.
class Batch {
 public:
  Batch(std::streambuf& in, const BatchArguments& arguments, unsigned threads)
      : in_(in), arguments_(arguments), threads_(threads) {}

  int run() {
    std::vector<std::jthread> crew;
    crew.emplace_back([this] { read(); });
    for (unsigned i = 0; i < threads_; ++i) crew.emplace_back([this] { work(); });
    return write();
  }

 private:
  struct Slot {
    Line line;
    std::optional<Record> record;
  };

  void read() {
    std::size_t number = 0;
    std::optional<Line> line;
    while ((line = next_line(in_, number))) {
      std::unique_lock lock(mutex_);
      changed_.wait(lock, [this] { return stopped_ || slots_.size() < kWindow * threads_; });
      if (stopped_) return;
      slots_.push_back({std::move(*line), {}});
      changed_.notify_all();
    }
    const std::lock_guard lock(mutex_);
    read_all_ = true;
    changed_.notify_all();
  }

  void work() {
    std::unique_lock lock(mutex_);
    while (true) {
      changed_.wait(lock, [this] { return stopped_ || taken_ < slots_.size() || read_all_; });
      if (stopped_ || taken_ == slots_.size()) return;
      Slot& slot = slots_[taken_++];  // a deque's ends come and go without moving it
      lock.unlock();
      Record record = record_of(slot.line, arguments_.search);
      lock.lock();
      slot.record = std::move(record);
      changed_.notify_all();
    }
  }

  int write() {
    // On a terminal the records themselves show that work is going on.
    std::optional<Progress> progress;
    if (isatty(STDOUT_FILENO) == 0) progress.emplace("planning jobs");
    std::vector<int> codes;
    std::size_t done = 0;
    std::unique_lock lock(mutex_);
    while (true) {
      changed_.wait(lock, [this] { return slots_.empty() ? read_all_ : slots_.front().record.has_value(); });
      if (slots_.empty()) break;
      const Record record = std::move(*slots_.front().record);
      slots_.pop_front();
      --taken_;
      changed_.notify_all();
      lock.unlock();
      if (std::ranges::find(codes, record.code) == codes.end()) codes.push_back(record.code);
      const int printed = print(record.text);
      if (progress) progress->say(fmt::format("planning jobs, {} done", ++done));
      lock.lock();
      if (printed == kDone) continue;
      stopped_ = true;
      changed_.notify_all();
      return kUnexpected;
    }
    for (const int code : {kUnexpected, kBadInput, kImpossible}) {
      if (std::ranges::find(codes, code) != codes.end()) return code;
    }
    return kDone;
  }

  std::streambuf& in_;
  const BatchArguments& arguments_;
  const unsigned threads_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::deque<Slot> slots_;
  std::size_t taken_ = 0;  ///< slots that somebody works on or has done
  bool read_all_ = false, stopped_ = false;
};

}  // namespace

int batch_command(const BatchArguments& arguments) {
  const unsigned threads =
      arguments.threads > 0 ? arguments.threads : std::clamp(std::thread::hardware_concurrency(), 1U, kMostThreads);
  if (arguments.jobs == "-") return Batch(*std::cin.rdbuf(), arguments, threads).run();
  std::ifstream file(arguments.jobs, std::ios::binary);
  if (!file || std::filesystem::is_directory(arguments.jobs)) {
    complain(arguments.jobs,
             not_right(arguments.jobs, "this file cannot be read", "check its name and who may read it"));
    return kBadInput;
  }
  return Batch(*file.rdbuf(), arguments, threads).run();
}

}  // namespace pitchboard
