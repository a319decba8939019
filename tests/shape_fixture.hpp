#pragma once
// Jobs to shape flights from.

#include <random>
#include <string>

#include "engine/shape/flight.hpp"

namespace pitchboard {

/// Level ground `down` below the deck.
inline Job level_job(double down) {
  Job job;
  job.ground.lines = {{Line::middle, {{inches(0), inches(down)}, {inches(400), inches(down)}}}};
  return job;
}

inline std::vector<Flight> shaped(const Job& job, const ShapeLimits& limits = {}) {
  return shape_flights(job, Site(job), limits);
}

/// Jobs that differ in all that a flight depends on.
class RandomJobs {
 public:
  double between(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }
  bool one_in(int n) { return std::uniform_int_distribution<int>(1, n)(random_) == 1; }

  Job next() {
    Job job = level_job(between(12, 140));
    Reading& far = job.ground.lines[0].readings[1];
    far.down += inches(between(-6, 20));
    if (one_in(3)) {
      job.ground.lines.push_back(job.ground.lines[0]);
      job.ground.lines[0].line = Line::left;
      job.ground.lines[1].line = Line::right;
      job.ground.lines[1].readings[1].down += inches(between(-2, 2));
    }
    job.stair.top = one_in(2) ? TopMode::deck_edge : TopMode::full_tread;
    job.stair.treads = one_in(2) ? TreadMake::two_2x6 : TreadMake::two_5_4x6;
    job.stair.board_gap = inches(between(0.125, 0.375));
    if (one_in(3)) job.stair.going = inches(between(10, 12));
    if (one_in(4)) job.room.run_at_most = inches(between(40, 200));
    job.pad.raise_at_most = inches(between(0, 8));
    job.pad.dig_at_most = inches(between(0, 4));
    if (one_in(4)) {
      job.stringers.kind = StringerKind::ready_cut;
      for (int risers = 2; risers <= 16; ++risers) {
        job.yard.ready_cut.push_back({.name = "stock",
                                      .risers = risers,
                                      .unit_rise = inches(one_in(2) ? 7.0 : 7.25),
                                      .unit_going = inches(10.5)});
      }
    }
    return job;
  }

 private:
  std::mt19937_64 random_{2026};
};

}  // namespace pitchboard
