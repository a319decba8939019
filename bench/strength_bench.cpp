// How long the reference stringer of seven steps takes by finite elements: its mesh, its solution, and both together.

#include <benchmark/benchmark.h>

#include "tests/sawtooth_fixture.hpp"

namespace pitchboard {
namespace {

void sawtooth_mesh(benchmark::State& state) {
  const SawtoothModel model = model_of({});
  for (auto _ : state) benchmark::DoNotOptimize(mesh_sawtooth(model));
}
void sawtooth_solve(benchmark::State& state) {
  const SawtoothModel model = model_of({});
  const SawtoothMesh mesh = mesh_sawtooth(model);
  for (auto _ : state) benchmark::DoNotOptimize(solve_sawtooth(model, mesh));
}
void sawtooth(benchmark::State& state) {
  const SawtoothModel model = model_of({});
  for (auto _ : state) benchmark::DoNotOptimize(solve_sawtooth(model, mesh_sawtooth(model)));
}

BENCHMARK(sawtooth_mesh)->Unit(benchmark::kMillisecond);
BENCHMARK(sawtooth_solve)->Unit(benchmark::kMillisecond);
BENCHMARK(sawtooth)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace pitchboard

BENCHMARK_MAIN();
