#pragma once
// Stairs to cut and buy: whole frames from small jobs, and parts made by hand.

#include <gtest/gtest.h>

#include <sstream>
#include <string>
#include <vector>

#include "engine/cut/cut.hpp"
#include "tests/table_text.hpp"

namespace pitchboard {

struct Built {
  Job job;
  Flight flight;
  Frame frame;
};

/// A stair down `drop` of level ground, 36 in wide, with rails.
inline Job stair_down(Length drop) {
  Job job;
  job.about.name = "test stair";
  job.ground.lines = {{Line::middle, {{inches(12), drop}, {inches(60), drop}, {inches(240), drop}}}};
  return job;
}

/// RETURNS the frame of the first flight that fits the job.
inline Built built(const Job& job) {
  const Site site(job);
  const std::vector<Flight> flights = shape_flights(job, site, ShapeLimits{});
  EXPECT_FALSE(flights.empty());
  if (flights.empty()) return {job, {}, {}};
  return {job, flights[0], build_frame(job, site, flights[0], flights[0].risers >= 4)};
}

/// Jobs that differ in everything that changes what is cut and bought.
inline std::vector<Job> cut_jobs() {
  std::vector<Job> jobs;
  for (const double drop : {15.0, 22.0, 35.0, 50.0, 86.0}) jobs.push_back(stair_down(inches(drop)));
  Job solid = stair_down(inches(40));
  solid.stringers.kind = StringerKind::solid;
  jobs.push_back(solid);
  Job metal = stair_down(inches(44));
  metal.rails.balusters = BalusterKind::round_metal;
  metal.stair.top = TopMode::full_tread;
  jobs.push_back(metal);
  Job sloping = stair_down(inches(36));
  sloping.ground.lines = {{Line::left, {{inches(0), inches(35)}, {inches(90), inches(38)}}},
                          {Line::right, {{inches(0), inches(36)}, {inches(90), inches(39.5)}}}};
  sloping.pad.fall = 0.02;
  sloping.wood.rail_species = "western-cedar";
  jobs.push_back(sloping);
  return jobs;
}

/// A board lying along x with the given side outline, length along x.
inline Part sample_part(std::string mark, PartKind kind, std::string nominal, Polygon outline) {
  Part part;
  part.mark = std::move(mark);
  part.kind = kind;
  part.section = {std::move(nominal), inches(1.5), inches(3.5)};
  part.solid = {Axis::y, {Length(), inches(1.5)}, std::move(outline)};
  part.species = "southern-pine";
  part.grade = "no2";
  part.treatment = "copper-uc4a";
  return part;
}

/// Rows of a table of truth without its header; fails on an empty or unreadable one, and on a row without a source.
inline std::vector<std::vector<std::string>> table_rows(const std::string& name) {
  std::istringstream file = table_text(name);
  std::vector<std::vector<std::string>> rows;
  std::string line;
  std::getline(file, line);
  EXPECT_TRUE(line.ends_with("source")) << name;
  while (std::getline(file, line)) {
    std::vector<std::string> cells;
    std::stringstream text(line);
    for (std::string cell; std::getline(text, cell, ',');) cells.push_back(cell);
    EXPECT_FALSE(cells.back().empty()) << name << ": a row without a source";
    rows.push_back(cells);
  }
  EXPECT_FALSE(rows.empty()) << name;
  return rows;
}

}  // namespace pitchboard
