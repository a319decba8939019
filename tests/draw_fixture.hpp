#pragma once
// Whole plans to draw, made by the stages themselves from jobs that differ in everything that changes a sheet.

#include <gtest/gtest.h>

#include <memory>
#include <string>
#include <vector>

#include "engine/draw/sheets.hpp"
#include "engine/draw/text_metrics.hpp"

namespace pitchboard {

/// Everything that a DrawInput points at. Never copied or moved once made, so that the references hold.
struct DrawnPlan {
  Job job;
  Site site;
  Flight flight;
  Frame frame;
  std::vector<Finding> findings;
  Strength strength;
  CutPlan cuts;
  Marks marks;
  Order order;
  explicit DrawnPlan(const Job& j, const Flight& f)
      : job(j),
        site(job),
        flight(f),
        frame(build_frame(job, site, flight, handrail_needed(job.place, flight.risers))),
        findings(judge(job, site, flight, frame)),
        strength(check_strength(job, flight, frame, Depth::full)),
        cuts(plan_cuts(job, frame)),
        marks(mark_out(job, flight, frame)),
        order(make_order(job, flight, frame, cuts)) {}
  DrawnPlan(const DrawnPlan&) = delete;
  DrawnPlan& operator=(const DrawnPlan&) = delete;
  [[nodiscard]] DrawInput input() const { return {job, site, flight, frame, findings, strength, cuts, marks, order}; }
};

/// Nothing comes nearer to the paper's edge: every printer reaches that far.
constexpr double kHalfInch = 36;
/// Expects that the sheet keeps its margins and that no text lies on another.
inline void expect_legible(const Sheet& sheet) {
  for (std::size_t i = 0; i < sheet.texts.size(); ++i) {
    const auto box = text_box(sheet.texts[i]);
    for (const SheetPoint p : box) {
      EXPECT_GE(p.x, kHalfInch - 0.01) << sheet.name << ": " << sheet.texts[i].text;
      EXPECT_GE(p.y, kHalfInch - 0.01) << sheet.name << ": " << sheet.texts[i].text;
      EXPECT_LE(p.x, sheet.width - kHalfInch + 0.01) << sheet.name << ": " << sheet.texts[i].text;
      EXPECT_LE(p.y, sheet.height - kHalfInch + 0.01) << sheet.name << ": " << sheet.texts[i].text;
    }
    for (std::size_t j = 0; j < i; ++j) {
      EXPECT_FALSE(boxes_overlap(box, text_box(sheet.texts[j])))
          << sheet.name << ": '" << sheet.texts[i].text << "' on '" << sheet.texts[j].text << "'";
    }
  }
  for (const SheetPath& path : sheet.paths) {
    for (const SheetPoint p : path.points) {
      EXPECT_TRUE(p.x > kHalfInch - 6 && p.x < sheet.width - kHalfInch + 6 && p.y > kHalfInch - 6 &&
                  p.y < sheet.height - kHalfInch + 6)
          << sheet.name << " " << p.x << " " << p.y;
    }
  }
}

/// Three risers, one line of readings, pavers.
inline Job low_step() {
  Job job;
  job.about = {"Low back step", "Elder Lane", "2026-05-02", UnitSystem::imperial};
  job.ground.lines = {
      {Line::middle, {{inches(12), inches(21.5)}, {inches(36), inches(22)}, {inches(72), inches(22.5)}}}};
  job.rails.left = job.rails.right = SideRail::none;
  job.stringers.spacing_at_most = inches(18);
  return job;
}

/// Twelve risers, three lines on falling ground.
inline Job long_flight() {
  Job job;
  job.about = {"Cabin stair", "Upper Lake Road", "2026-06-11", UnitSystem::imperial};
  job.ground.method = Method::laser;
  for (const Line line : {Line::left, Line::middle, Line::right}) {
    const Length tilt = inches(line == Line::left ? -0.5 : line == Line::right ? 0.5 : 0.0);
    job.ground.lines.push_back({line,
                                {{inches(24), inches(80) + tilt},
                                 {inches(60), inches(83.25) + tilt},
                                 {inches(96), inches(85.5) + tilt},
                                 {inches(120), inches(86.5) + tilt},
                                 {inches(168), inches(87.25) + tilt}}});
  }
  return job;
}

/// Millimetres, open risers, solid stringers, a rail on one side, concrete.
inline Job garden_studio() {
  Job job;
  job.about = {"Garden studio & \"shed\" <east>", "Mill Field", "2026-04-20", UnitSystem::metric};
  job.ground.lines = {{Line::left, {{millimetres(300), millimetres(880)}, {millimetres(2200), millimetres(930)}}},
                      {Line::right, {{millimetres(300), millimetres(890)}, {millimetres(2200), millimetres(940)}}}};
  job.stringers.kind = StringerKind::solid;
  job.stair.riser_boards = Risers::open;
  job.stair.width = millimetres(1000);
  job.rails.left = SideRail::none;
  job.pad.make = PadMake::concrete;
  job.place.pack = "uk-adk-2013";
  return job;
}

/// A long name, a full tread at the top, a rim too shallow for the heads.
inline Job side_door() {
  Job job;
  job.about = {"Side door of the old schoolhouse, north end, second attempt after the survey", "Schoolhouse Hill", "",
               UnitSystem::imperial};
  job.ground.lines = {
      {Line::left,
       {{inches(10), inches(34)}, {inches(30), inches(35)}, {inches(50), inches(36.5)}, {inches(90), inches(38)}}}};
  job.stair.top = TopMode::full_tread;
  job.deck.rim_size = "2x8";
  job.pad.make = PadMake::gravel;
  return job;
}

/// Stringers that the yard has cut, a tub in the way and an eave overhead.
inline Job yard_stringers() {
  Job job;
  job.about = {"Kitchen door", "Orchard Row", "2026-05-20", UnitSystem::imperial};
  job.ground.lines = {{Line::middle, {{inches(12), inches(36)}, {inches(48), inches(36.5)}, {inches(96), inches(37)}}}};
  job.stringers.kind = StringerKind::ready_cut;
  job.yard.ready_cut = {{"five-step", 5, inches(7), inches(10.5), true, inches(1.0), {4100}}};
  job.room.obstacles = {{"rain tub", {inches(60), inches(80)}, {inches(44), inches(60)}}};
  job.room.overheads = {{"eave", {inches(0), inches(14)}, inches(84)}};
  return job;
}

inline std::vector<Job> drawn_jobs() {
  return {low_step(), long_flight(), garden_studio(), side_door(), yard_stringers()};
}

/// RETURNS the plan of the best flight. REQUIRES a job that some flight fits.
inline std::unique_ptr<DrawnPlan> drawn(const Job& job) {
  const Shapes shapes = shape_flights(job, Site(job), shape_limits(job.place));
  EXPECT_FALSE(shapes.flights.empty()) << job.about.name;
  if (shapes.flights.empty()) return nullptr;
  return std::make_unique<DrawnPlan>(job, shapes.flights.front());
}

}  // namespace pitchboard
