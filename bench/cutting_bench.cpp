// How long the cheapest boards take and how many are proven cheapest, family by family. CPU time of one thread.
//
//   cutting_bench [SEEDS [PER_SEED]]       the table
//   cutting_bench --write FILE SEED COUNT  plain sections as JSON for other solvers, with what this one finds

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string_view>

#include "bench/cutting_instances.hpp"
#include "tests/cutting_checker.hpp"

namespace pitchboard {
namespace {

double cpu_ms() {
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) * 1e-6;
}

struct Timed {
  BoardChoice choice;
  double ms = 0.0;
};
Timed timed(const CuttingInstance& instance) {
  const double start = cpu_ms();
  BoardChoice choice = choose_boards(instance.pieces, instance.boards);
  const double ms = cpu_ms() - start;
  const std::string fault = fault_of(instance.pieces, instance.boards, choice);
  if (!fault.empty()) {
    fmt::print(stderr, "{}: {}\n", instance.name, fault);
    std::exit(1);
  }
  return {std::move(choice), ms};
}

void row(const std::string& name, const std::vector<CuttingInstance>& instances, bool each) {
  std::vector<double> ms;
  std::size_t proven = 0, within_second = 0;
  double gap = 0.0;
  for (const CuttingInstance& instance : instances) {
    const Timed t = timed(instance);
    ms.push_back(t.ms);
    const bool is_proven = t.choice.cost == t.choice.bound;
    proven += is_proven;
    within_second += is_proven && t.ms < 1000.0;
    const double own = 100.0 * static_cast<double>(t.choice.cost - t.choice.bound) / static_cast<double>(t.choice.cost);
    gap = std::max(gap, own);
    if (each)
      fmt::print("  {:10} {:8.2f} ms  {} .. {}  {:.3f} %\n", instance.name, t.ms, t.choice.bound, t.choice.cost, own);
  }
  std::ranges::sort(ms);
  const std::size_t n = ms.size();
  fmt::print("{:30} {:4}/{:<4} {:5} {:8.3f} {:9.3f} {:9.3f} {:9.3f}\n", name, proven, n, within_second, gap, ms[n / 2],
             ms[std::min(n - 1, n * 95 / 100)], ms.back());
  std::fflush(stdout);
}

nlohmann::json json_of(const CuttingInstance& instance) {
  const Timed t = timed(instance);
  nlohmann::json boards = nlohmann::json::array();
  for (const BoardKind& b : instance.boards) boards.push_back({b.capacity, b.price, b.limit});
  return {{"name", instance.name},
          {"sizes", instance.pieces.sizes},
          {"counts", instance.pieces.counts},
          {"boards", boards},
          {"ms", t.ms},
          {"cost", t.choice.cost},
          {"bound", t.choice.bound}};
}

int run(int argc, char** argv) {
  if (argc == 5 && std::string_view(argv[1]) == "--write") {
    nlohmann::json all = nlohmann::json::array();
    for (const CuttingInstance& instance :
         job_size_sections(Variant::plain, static_cast<std::uint64_t>(std::atoll(argv[3])), std::atoi(argv[4]))) {
      all.push_back(json_of(instance));
    }
    return std::ofstream(argv[2]) << all << '\n' ? 0 : 1;
  }
  const int seeds = argc > 1 ? std::atoi(argv[1]) : 3;
  const int count = argc > 2 ? std::atoi(argv[2]) : 100;
  const std::string only = argc > 3 ? argv[3] : "";
  fmt::print("{:30} {:>9} {:>5} {:>8} {:>9} {:>9} {:>9}\n", "", "proven", "<1 s", "gap %", "median ms", "p95 ms",
             "worst ms");
  for (const auto& [variant, words] : kVariants) {
    if (!only.empty() && only != words) continue;
    for (int seed = 1; seed <= seeds; ++seed) {
      row(fmt::format("{}, seed {}", words, seed), job_size_sections(variant, static_cast<std::uint64_t>(seed), count),
          !only.empty());
    }
  }
  const auto one_length = [&](const char* words, auto make, int pieces) {
    if (!only.empty() && only != words) return;
    std::vector<CuttingInstance> instances;
    for (int seed = 1; seed <= count / 5; ++seed) instances.push_back(make(pieces, static_cast<std::uint64_t>(seed)));
    row(fmt::format("{}, {} pieces", words, pieces), instances, !only.empty());
  };
  for (const int pieces : {120, 250, 501}) one_length("uniform", falkenauer_uniform, pieces);
  for (const int pieces : {60, 120, 249, 501}) one_length("triplets", falkenauer_triplets, pieces);
  return 0;
}

}  // namespace
}  // namespace pitchboard

int main(int argc, char** argv) { return pitchboard::run(argc, argv); }
