#pragma once
// The printed set: every sheet of one plan, each with its title block.

#include <string_view>
#include <vector>

#include "engine/buy/buy.hpp"
#include "engine/choose/search.hpp"
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

/// What is drawn: the parts of a plan. The caller keeps them alive.
struct DrawInput {
  const Job& job;
  const Site& site;
  const Flight& flight;
  const Frame& frame;
  const std::vector<Finding>& findings;
  const Strength& strength;
  const CutPlan& cuts;
  const Marks& marks;
  const Order& order;
};

constexpr std::string_view kWhoDecides =
    "Your local building department and licensed practice decide what is allowed. This paper helps you to measure, "
    "mark and ask.";

/// RETURNS the printed set: summary first, then drawings, lists, checks, and the story pole at true height.
[[nodiscard]] std::vector<Sheet> draw_sheets(const DrawInput& input, Paper paper);
/// RETURNS the calculation of strength, figure by figure: a set of its own.
[[nodiscard]] std::vector<Sheet> draw_calculation_sheets(const DrawInput& input, Paper paper);

/// RETURNS the side view to scale, every part with its mark and step; house, ground and readings alone where `input`
/// has a flight without nosings and a frame without a stair.
[[nodiscard]] Sheet draw_screen_side(const DrawInput& input, const ScreenView& view);

/// RETURNS the front of a search as a sheet of its own: cost against comfort, options numbered from 1.
/// REQUIRES a front that is not empty.
[[nodiscard]] Sheet draw_options(const Job& job, const Search& search, Paper paper);

}  // namespace pitchboard
