// Writes random jobs, their plans and models into a folder, N.job.json, N.plan.json and N.model.glb, for
// tests/wasm_test.mjs and tests/model_test.mjs.
//
//   random_plans COUNT FOLDER

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "engine/job/read_job.hpp"
#include "engine/plan.hpp"
#include "tests/plan_random_job.hpp"

int main(int argc, char** argv) {
  using namespace pitchboard;
  if (argc != 3) return 2;
  const std::filesystem::path folder = argv[2];
  const auto write = [&](unsigned number, const char* what, const std::string& text) {
    std::ofstream(folder / (std::to_string(number) + what), std::ios::binary) << text;
  };
  for (unsigned i = 0; i < std::strtoul(argv[1], nullptr, 10); ++i) {
    const Job job = random_job(i);
    const Result<Plan> plan = make_plan(job);
    write(i, ".job.json", job_json(job));
    write(i, ".plan.json", plan ? plan_json(*plan) : no_flight_json(job));
    if (plan) write(i, ".model.glb", plan_glb(*plan));
  }
}
