// How long a plan takes, stage by stage, for the demo job. `times_reading` is the ratio to reading that job's file in
// the same run, so that figures of different machines can be compared.

#include <benchmark/benchmark.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>

#include "cli/job_file.hpp"
#include "engine/plan.hpp"
#include "paper/pdf.hpp"

namespace pitchboard {
namespace {

constexpr const char* kDemo = SOURCE_DIR "/examples/schoolhouse-side-door.toml";
constexpr int kReferenceRuns = 200;

const Job& demo_job() {
  static const Job job = [] {
    Result<Job> read = read_job_file(kDemo);
    if (!read) {
      std::fprintf(stderr, "%s cannot be read\n", kDemo);
      std::exit(1);
    }
    return *read;
  }();
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

BENCHMARK(read_job)->Unit(benchmark::kMillisecond);
BENCHMARK(plan)->Unit(benchmark::kMillisecond);
BENCHMARK(strength)->Unit(benchmark::kMillisecond);
BENCHMARK(strength_with_plate)->Unit(benchmark::kMillisecond);
BENCHMARK(sheets)->Unit(benchmark::kMillisecond);
BENCHMARK(pdf)->Unit(benchmark::kMillisecond);
BENCHMARK(json)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace pitchboard

BENCHMARK_MAIN();
