// How long a plan takes, stage by stage, for the demo job; a search over stairs, for the examples; and plans without
// drawings, for all of them by turns. `times_reading` is the ratio to reading the demo job's file in the same run, so
// that figures of different machines can be compared.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include "cli/job_file.hpp"
#include "engine/choose/search.hpp"
#include "engine/plan.hpp"
#include "paper/pdf.hpp"

namespace pitchboard {
namespace {

constexpr const char* kDemo = SOURCE_DIR "/examples/schoolhouse-side-door.toml";
constexpr int kReferenceRuns = 200;

Job job_in(const std::string& path) {
  Result<Job> read = read_job_file(path);
  if (!read) {
    std::fprintf(stderr, "%s cannot be read\n", path.c_str());
    std::exit(1);
  }
  return *read;
}
const Job& demo_job() {
  static const Job job = job_in(kDemo);
  return job;
}

const Plan& demo_plan() {
  static const Plan plan = [] {
    Result<Plan> made = make_plan(demo_job());
    if (!made) {
      std::fprintf(stderr, "%s cannot be planned\n", kDemo);
      std::exit(1);
    }
    return *made;
  }();
  return plan;
}

/// Seconds that reading the demo job's file takes, measured once.
double reading_seconds() {
  static const double seconds = [] {
    const auto start = std::chrono::steady_clock::now();
    for (int i = 0; i < kReferenceRuns; ++i) benchmark::DoNotOptimize(read_job_file(kDemo));
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count() / kReferenceRuns;
  }();
  return seconds;
}

/// Runs one stage and reports it against the reading of the job.
template <class Stage>
void time(benchmark::State& state, Stage stage) {
  const double reading = reading_seconds();
  const auto start = std::chrono::steady_clock::now();
  for (auto _ : state) benchmark::DoNotOptimize(stage());
  const double all = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  state.counters["times_reading"] = all / static_cast<double>(state.iterations()) / reading;
}

void read_job(benchmark::State& state) {
  time(state, [] { return read_job_file(kDemo); });
}
void plan(benchmark::State& state) {
  time(state, [] { return make_plan(demo_job()); });
}
void strength(benchmark::State& state) {
  time(state, [] { return check_strength(demo_plan().job, demo_plan().flight, demo_plan().frame, Depth::quick); });
}
void strength_with_plate(benchmark::State& state) {
  time(state, [] { return check_strength(demo_plan().job, demo_plan().flight, demo_plan().frame, Depth::full); });
}
void sheets(benchmark::State& state) {
  time(state, [] { return draw_sheets(demo_plan(), Paper::letter); });
}
void pdf(benchmark::State& state) {
  const std::vector<Sheet> drawn = draw_sheets(demo_plan(), Paper::letter);
  time(state, [&] { return to_pdf(drawn, {}); });
}
void json(benchmark::State& state) {
  time(state, [] { return plan_json(demo_plan()); });
}

/// The search of an example. harbour-office is left out: it has no stair that can be built, and looks at every one.
void search(benchmark::State& state, const char* example) {
  const Job job = job_in(std::string(SOURCE_DIR "/examples/") + example + ".toml");
  const Site site(job);
  Search found;
  time(state, [&] {
    found = search_stairs(job, site);
    return found.front.size();
  });
  state.counters["stairs"] = static_cast<double>(found.space.size());
  state.counters["priced"] = static_cast<double>(found.priced);
  state.counters["checked"] = static_cast<double>(found.evaluated);
  state.counters["front"] = static_cast<double>(found.front.size());
}

/// The plans of all examples, whole but for the drawings, as `pitchboard batch` makes them: `sites` is how many a
/// second of one core.
void batch_plans(benchmark::State& state) {
  std::vector<std::string> paths;
  for (const auto& entry : std::filesystem::directory_iterator(SOURCE_DIR "/examples")) {
    if (entry.path().extension() == ".toml") paths.push_back(entry.path().string());
  }
  std::ranges::sort(paths);
  std::vector<Job> jobs;
  for (const std::string& path : paths) jobs.push_back(job_in(path));
  time(state, [&] {
    for (const Job& job : jobs) benchmark::DoNotOptimize(make_plan(job));
    return jobs.size();
  });
  state.counters["sites"] =
      benchmark::Counter(static_cast<double>(jobs.size()), benchmark::Counter::kIsIterationInvariantRate);
}

BENCHMARK(read_job)->Unit(benchmark::kMillisecond);
BENCHMARK(plan)->Unit(benchmark::kMillisecond);
BENCHMARK(strength)->Unit(benchmark::kMillisecond);
BENCHMARK(strength_with_plate)->Unit(benchmark::kMillisecond);
BENCHMARK(sheets)->Unit(benchmark::kMillisecond);
BENCHMARK(pdf)->Unit(benchmark::kMillisecond);
BENCHMARK(json)->Unit(benchmark::kMillisecond);
BENCHMARK(batch_plans)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(search, low_farmhouse_step, "low-farmhouse-step")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(search, schoolhouse_side_door, "schoolhouse-side-door")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(search, garden_studio, "garden-studio")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(search, lake_cabin, "lake-cabin")->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace pitchboard

BENCHMARK_MAIN();
