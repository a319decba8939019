#pragma once
// The whole library in one call: a job goes in, a plan comes out.

#include <string>
#include <vector>

#include "engine/buy/buy.hpp"
#include "engine/cut/cut.hpp"
#include "engine/draw/screen.hpp"
#include "engine/draw/sheet.hpp"
#include "engine/frame/frame.hpp"
#include "engine/job/job.hpp"
#include "engine/measure/site.hpp"
#include "engine/rules/rules.hpp"
#include "engine/shape/flight.hpp"
#include "engine/strength/strength.hpp"

namespace pitchboard {

struct Plan {
  Job job;
  Site site;
  std::vector<Flight> options;  ///< every flight that fits, best first
  Flight flight;                ///< the one planned: options[0] unless the job says otherwise
  Frame frame;
  Strength strength;
  std::vector<Finding> findings;  ///< worst first
  CutPlan cuts;
  Marks marks;
  Order order;
};

/// RETURNS the plan, or the limits that collide and the smallest change that frees the job.
/// `depth`: how deep the strength goes.
/// 1. Equal jobs give equal plans, bit for bit.  2. Never aborts, prints or reads a file.
[[nodiscard]] Result<Plan> make_plan(const Job& job, Depth depth = Depth::full);

/// RETURNS the printed set, one sheet after another, for `paper`.
[[nodiscard]] std::vector<Sheet> draw_sheets(const Plan& plan, Paper paper);
/// RETURNS the calculation of strength, figure by figure.
[[nodiscard]] std::vector<Sheet> draw_calculation_sheets(const Plan& plan, Paper paper);

/// RETURNS the side view as a screen shows it, before anything is checked or priced: house, ground and readings alone
/// where no flight fits, or what is wrong with the job.
[[nodiscard]] Result<Sheet> draw_screen_side(const Job& job, const ScreenView& view);

/// RETURNS the planned stair as a 3-D model, binary glTF: see draw/model.hpp.
[[nodiscard]] std::string plan_glb(const Plan& plan);

/// RETURNS the plan as canonical JSON: keys sorted, lengths in inches to 1e-6, so that equal plans give equal bytes.
[[nodiscard]] std::string plan_json(const Plan& plan);
/// RETURNS why no flight fits, as canonical JSON: the limits that collide and the least changes. REQUIRES a job that
/// `make_plan` finds no flight for.
[[nodiscard]] std::string no_flight_json(const Job& job);
/// RETURNS the problems as canonical JSON: a list, each with `place`, `wrong` and `remedy`.
[[nodiscard]] std::string problems_json(const Problems& problems);

}  // namespace pitchboard
