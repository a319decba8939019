#pragma once
// Whole frames from small jobs, and ways to look into them.

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "engine/frame/frame.hpp"

namespace pitchboard {

struct Standing {
  Job job;
  Flight flight;
  Frame frame;
  [[nodiscard]] std::vector<Part> all(PartKind kind) const {
    std::vector<Part> out;
    std::ranges::copy_if(frame.parts, std::back_inserter(out), [&](const Part& p) { return p.kind == kind; });
    return out;
  }
  [[nodiscard]] Part part(const std::string& mark) const {
    const auto found = std::ranges::find(frame.parts, mark, &Part::mark);
    if (found != frame.parts.end()) return *found;
    ADD_FAILURE() << "no part " << mark;
    return {};
  }
  /// Fasteners that join a part of this kind first and a part of that kind last.
  [[nodiscard]] std::vector<Fastener> between(PartKind first, PartKind last) const {
    std::vector<Fastener> out;
    for (const Fastener& f : frame.fasteners) {
      if (frame.parts[f.joins.front()].kind == first && frame.parts[f.joins.back()].kind == last) out.push_back(f);
    }
    return out;
  }
  [[nodiscard]] Length nosing_x(int k) const { return flight.nosings[static_cast<std::size_t>(k - 1)].a; }
  [[nodiscard]] Length nosing_z(int k) const { return flight.nosings[static_cast<std::size_t>(k - 1)].b; }
  /// Line through the nosings.
  [[nodiscard]] Length line_at(Length x) const {
    return nosing_z(1) + (nosing_x(1) - x) * (flight.unit_rise / flight.going);
  }
};

/// So many risers of `rise` down to level ground, 10 1/4 in going, a guard on both sides.
inline Job steps(int risers, double rise, double going = 10.25) {
  Job job;
  const Length down = inches(risers * rise);
  job.ground.lines = {{Line::middle, {{inches(0), down}, {inches(400), down}}}};
  job.stair.risers = risers;
  job.stair.going = inches(going);
  return job;
}

inline Standing stand(const Job& job, bool handrail = true) {
  const Site site(job);
  const std::vector<Flight> flights = shape_flights(job, site, {});
  EXPECT_FALSE(flights.empty());
  if (flights.empty()) return {job, {}, {}};
  return {job, flights[0], build_frame(job, site, flights[0], handrail)};
}

/// Stairs that differ in what the frame is made of; none of them has a clash.
inline std::vector<Job> good_jobs() {
  std::vector<Job> jobs;
  for (const int risers : {4, 6, 9}) {
    for (const StringerKind kind : {StringerKind::cut, StringerKind::solid}) {
      Job job = steps(risers, 7.25);
      job.stringers.kind = kind;
      jobs.push_back(job);
      job.deck.rim_size = "2x8";
      job.rails.balusters = BalusterKind::round_metal;
      jobs.push_back(job);
    }
  }
  Job full = steps(5, 7.0);
  full.stair.top = TopMode::full_tread;
  full.stair.treads = TreadMake::two_5_4x6;
  jobs.push_back(full);
  Job open = steps(6, 7.0, 10.5);
  open.stair.riser_boards = Risers::open;
  open.pad.make = PadMake::concrete;
  jobs.push_back(open);
  return jobs;
}

}  // namespace pitchboard
