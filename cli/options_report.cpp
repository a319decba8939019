#include "cli/options_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "cli/report.hpp"
#include "cli/terminal.hpp"
#include "engine/base/text_table.hpp"
#include "engine/choose/explain.hpp"
#include "engine/draw/finding_words.hpp"
#include "engine/draw/sheet_words.hpp"
#include "engine/draw/strength_words.hpp"
#include "engine/job/read_job.hpp"
#include "engine/strength/calculation.hpp"

namespace pitchboard {
namespace {

using nlohmann::json;

/// Checks that are told of one option; `check` has them all.
constexpr std::size_t kWeakestShown = 5;

std::string signed_money(std::int64_t cents) {
  return fmt::format("{}{}", cents < 0 ? "-" : "+", money_text({std::abs(cents)}));
}
std::string signed_length(Length length, UnitSystem units) {
  return abs(length) < kSixteenth / 2.0 ? "same" : (length < Length() ? "-" : "+") + tape_plain(abs(length), units);
}
std::string signed_hours(double minutes) {
  const double tenths = std::round(minutes / 6.0);
  return fmt::format("{:+.1f}", tenths == 0 ? 0.0 : tenths / 10.0);  // no -0.0
}
std::string hours(double minutes) { return fmt::format("{:.1f}", minutes / 60.0); }

std::string heading(const std::string& text, bool colour) { return "\n" + inked(text, Ink::bold, colour) + "\n"; }

/// What is too close to tell or has no value, and the weakest checks.
std::string checks_of(const Plan& plan, bool colour) {
  const UnitSystem units = plan.job.about.units;
  const std::vector<AlikeChecks> checks = weakest_first(plan.strength.checks);
  TextTable weakest{{{"ratio", true}, {"where"}, {"what"}}, {}};
  for (const auto& [check, where] : checks) {
    if (weakest.rows.size() == kWeakestShown || ratio_words(*check).empty()) break;
    weakest.rows.push_back({ratio_words(*check), where, fmt::format("{}: {}", check->member, check->what)});
  }
  std::string out = heading("Weakest checks", colour) + lined_up(weakest, 2);
  const auto is_open = [](Verdict v) { return v == Verdict::too_close || v == Verdict::not_checked; };
  TextTable open{{{"verdict"}, {"what"}, {"figure"}}, {}};
  for (const Finding& finding : plan.findings) {
    if (is_open(finding.verdict))
      open.rows.push_back(
          {verdict_words(finding), fmt::format("{}: {}", finding.clause, finding.sentence),
           (finding.measured ? measured_words(finding, units) + ", " : "") + "limit: " + limit_words(finding, units)});
  }
  for (const auto& [check, where] : checks) {
    if (is_open(check->verdict))
      open.rows.push_back({verdict_words(check->verdict), fmt::format("{}, {}: {}", where, check->member, check->what),
                           demand_words(*check)});
  }
  out += heading("Too close to tell, or not checked", colour);
  return out + (open.rows.empty() ? "  nothing\n" : lined_up(open, 2));
}

std::string what_if_text(const Job& job, const Search& search, std::size_t option, const Site& site, bool colour) {
  const UnitSystem units = job.about.units;
  const Figures& now = search.front[option].figures;
  TextTable table{{{"change"},
                   {job.yard.currency, true},
                   {"hours", true},
                   {"room", true},
                   {"2R + G off", true},
                   {"ratio", true},
                   {"then"}},
                  {}};
  for (const WhatIf& other : what_ifs(job, site, search, option)) {
    const Figures& then = other.result.figures;
    table.rows.push_back({other.change, signed_money(then.cents - now.cents), signed_hours(then.minutes - now.minutes),
                          signed_length(other.run, units), tape_plain(then.comfort, units),
                          then.ratio < kCarriesNothing ? fmt::format("{:.2f}", then.ratio) : "–",
                          !other.result.faults.empty() ? "cannot be built: " + other.result.faults.front().words
                          : other.result.open > 0      ? fmt::format("can be built, {} open", other.result.open)
                                                       : "can be built"});
  }
  return heading("What if", colour) + lined_up(table, 2);
}

/// The kinds of stairs of which none can be built, by what is in their way.
std::string rejected_text(const Job& job, const Search& search, bool colour) {
  const std::vector<Rejected> groups = rejected(search);
  if (groups.empty()) return "";
  TextTable table{{{"kinds", true}, {"first fault of the one that comes nearest"}, {"such as"}}, {}};
  for (const Rejected& group : groups)
    table.rows.push_back({std::to_string(group.families.size()), group.fault,
                          family_words(job, search.space.families[group.families.front()])});
  return heading("Kinds of stairs of which none can be built", colour) + lined_up(table, 2);
}

std::string doubts_text(const Job& job, const std::vector<Doubt>& doubts, bool colour) {
  std::string out = heading("Measure again before you buy", colour);
  for (const Doubt& doubt : doubts) out += "  " + doubt_words(job, doubt) + "\n";
  return out + (doubts.empty() ? "  nothing: no reading, off by its own uncertainty, would change the pick\n" : "");
}

/// RETURNS the value as TOML writes it, on one line.
std::string toml_value(const json& value) {
  if (!value.is_structured()) return value.dump();
  std::vector<std::string> parts;
  for (const auto& [key, part] : value.items())
    parts.push_back(value.is_object() ? fmt::format("{} = {}", key, toml_value(part)) : toml_value(part));
  const std::string list = fmt::format("{}", fmt::join(parts, ", "));
  return value.is_object() ? "{ " + list + " }" : "[" + list + "]";
}

}  // namespace

std::vector<std::string> changed_inputs(const Job& from, const Job& to) {
  const json before = json::parse(job_json(from)), after = json::parse(job_json(to));
  std::vector<std::string> out;
  for (const auto& [group, inputs] : after.items()) {
    for (const auto& [key, value] : inputs.items()) {
      if (!before.contains(group) || before[group].value(key, json()) != value)
        out.push_back(fmt::format("{}.{} = {}", group, key, toml_value(value)));
    }
  }
  return out;
}

std::string front_text(const Job& job, const Search& search, const std::vector<Doubt>& doubts, bool colour) {
  const UnitSystem units = job.about.units;
  TextTable table{{{"no.", true},
                   {job.yard.currency, true},
                   {"hours", true},
                   {"2R + G off", true},
                   {"ratio", true},
                   {"weakest check"},
                   {"landing"},
                   {"going", true},
                   {"out", true},
                   {"open", true},
                   {"best at"},
                   {"stair"}},
                  {}};
  for (std::size_t i = 0; i < search.front.size(); ++i) {
    const Option& option = search.front[i];
    const Flight& flight = search.space.families[option.choice.family].flights[option.choice.flight];
    const Figures& figures = option.figures;
    table.rows.push_back({std::to_string(i + 1), money_text({figures.cents}), hours(figures.minutes),
                          tape_plain(figures.comfort, units), fmt::format("{:.2f}", figures.ratio), figures.weakest,
                          landing_words(flight, job), tape_plain(flight.going, units), tape_feet(flight.run, units),
                          std::to_string(option.open), fmt::format("{}", fmt::join(marks_of(search, i), ", ")),
                          stair_words(job, search.space, option.choice)});
  }
  std::string out = inked(job.about.name, Ink::bold, colour) + "\n\n";
  out += lined_up(table, 0, [&](std::size_t column, const std::string& cell) {
    return column == 10 && cell.find("pick") != std::string::npos ? inked(cell, Ink::bold, colour) : cell;
  });
  out += fmt::format("\n  pick      {}: {}\n", search.pick + 1, rule_words(job));
  out += fmt::format("  searched  {} stairs of {} kinds; {} priced, {} checked whole\n", search.space.size(),
                     search.space.families.size(), search.priced, search.evaluated);
  out +=
      "  ratio     the weakest check's demand over what it carries; open: too close to tell or not checked, which "
      "--why names\n";
  return out + doubts_text(job, doubts, colour) + rejected_text(job, search, colour);
}

std::string why_text(const Job& job, const Search& search, std::size_t option, const Plan& plan, bool colour) {
  const Option& chosen_one = search.front[option];
  const std::vector<std::string_view> marks = marks_of(search, option);
  std::string out = inked(fmt::format("Option {} of {}: {}", option + 1, search.front.size(),
                                      stair_words(job, search.space, chosen_one.choice)),
                          Ink::bold, colour) +
                    "\n";
  out +=
      fmt::format("  {} {}, {} hours, ratio {:.2f} ({})\n", job.yard.currency, money_text({chosen_one.figures.cents}),
                  hours(chosen_one.figures.minutes), chosen_one.figures.ratio, chosen_one.figures.weakest);
  out += fmt::format("  On the front: {}.\n", why_on_front(search, option));
  if (!marks.empty()) out += fmt::format("  It is: {}.\n", fmt::join(marks, ", "));
  if (option == search.pick) out += fmt::format("  Picked as {}.\n", rule_words(job));
  out += checks_of(plan, colour) + what_if_text(job, search, option, plan.site, colour);
  out += heading("To keep it, write this into the job file", colour);
  for (const std::string& line : changed_inputs(job, plan.job)) out += "  " + line + "\n";
  return out;
}

}  // namespace pitchboard
