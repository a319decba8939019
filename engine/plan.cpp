#include "engine/plan.hpp"

#include <algorithm>
#include <iterator>

#include "engine/draw/model.hpp"
#include "engine/draw/sheets.hpp"
#include "engine/job/read_job.hpp"
#include "engine/shape/collision.hpp"

namespace pitchboard {

namespace {

Problems wrong_with(const Job& job) {
  Problems wrong = check_job(job);
  std::ranges::move(check_place(job.place), std::back_inserter(wrong));
  return wrong;
}

}  // namespace

Result<Plan> make_plan(const Job& job, Depth depth) {
  if (Problems wrong = wrong_with(job); !wrong.empty()) return std::unexpected(std::move(wrong));
  Site site(job);
  const ShapeLimits limits = shape_limits(job.place);
  std::vector<Flight> flights = shape_flights(job, site, limits);
  if (flights.empty()) return std::unexpected(problems_of(job, limits, collide(job, site, limits)));
  const Flight flight = flights.front();
  Frame frame = build_frame(job, site, flight, handrail_needed(job.place, flight.risers));
  std::ranges::move(site.odd_readings(job.about.units), std::back_inserter(frame.notes));
  for (const std::string& assumption : site.assumptions())
    frame.notes.push_back("Taken for granted: " + assumption + ".");
  if (flight.landing.natural.beyond) {
    frame.notes.push_back("No reading reaches the landing at " + tape_plain(flight.run, job.about.units) +
                          " out: the ground is carried on at its last slope. Read it there before cutting.");
  }
  Strength strength = check_strength(job, flight, frame, depth);
  std::vector<Finding> findings = judge(job, site, flight, frame);
  CutPlan cuts = plan_cuts(job, frame);
  Marks marks = mark_out(job, flight, frame);
  Order order = make_order(job, flight, frame, cuts);
  return Plan{job,
              std::move(site),
              std::move(flights),
              flight,
              std::move(frame),
              std::move(strength),
              std::move(findings),
              std::move(cuts),
              std::move(marks),
              std::move(order)};
}

namespace {

DrawInput drawn(const Plan& plan) {
  return {plan.job,      plan.site, plan.flight, plan.frame, plan.findings,
          plan.strength, plan.cuts, plan.marks,  plan.order};
}

}  // namespace

std::vector<Sheet> draw_sheets(const Plan& plan, Paper paper) { return draw_sheets(drawn(plan), paper); }

std::vector<Sheet> draw_calculation_sheets(const Plan& plan, Paper paper) {
  return draw_calculation_sheets(drawn(plan), paper);
}

std::string plan_glb(const Plan& plan) { return to_glb(plan.frame, plan.site); }

Result<Sheet> draw_screen_side(const Job& job, const ScreenView& view) {
  if (Problems wrong = wrong_with(job); !wrong.empty()) return std::unexpected(std::move(wrong));
  const Site site(job);
  const std::vector<Flight> flights = shape_flights(job, site, shape_limits(job.place));
  const Flight flight = flights.empty() ? Flight{} : flights.front();
  const Frame frame =
      flights.empty() ? house_side(job) : untested_frame(job, site, flight, handrail_needed(job.place, flight.risers));
  return draw_screen_side({job, site, flight, frame, {}, {}, {}, {}, {}}, view);
}

}  // namespace pitchboard
