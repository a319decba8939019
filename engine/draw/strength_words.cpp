#include "engine/draw/strength_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/sort.hpp"
#include "engine/draw/sheet_words.hpp"

namespace pitchboard {
namespace {

std::string grouped(double whole) {
  std::string digits = fmt::format("{:.0f}", std::abs(whole));
  for (std::size_t at = digits.size(); at > 3; at -= 3) digits.insert(at - 3, ",");
  return (whole < 0 ? "-" : "") + digits;
}

std::string with_unit(double value, const std::string& unit) {
  return number_words(value) + (unit.empty() ? "" : " " + unit);
}

/// Figures that differ in the last bits only, as the two sides of a stair give them.
bool same_number(double a, double b) { return std::abs(a - b) <= 1e-9 * std::max(std::abs(a), std::abs(b)); }

bool alike(const Check& a, const Check& b) {
  const auto same_figure = [](const Figure& f, const Figure& g) {
    return f.symbol == g.symbol && same_number(f.value, g.value);
  };
  return a.member == b.member && a.what == b.what && a.verdict == b.verdict && same_number(a.demand, b.demand) &&
         same_number(a.capacity, b.capacity) && std::ranges::equal(a.figures, b.figures, same_figure);
}

}  // namespace

std::string number_words(double value) {
  if (std::abs(value) >= 999.5) return grouped(std::round(value));
  return fmt::format("{:.4g}", std::abs(value) < 1e-9 ? 0.0 : value);
}

std::string demand_words(const Check& check) {
  return check.demand == 0 && check.unit.empty() ? "" : with_unit(check.demand, check.unit);
}

std::string capacity_words(const Check& check) {
  return check.verdict == Verdict::not_checked ? "not known" : with_unit(check.capacity, check.unit);
}

std::string ratio_words(const Check& check) {
  if (check.verdict == Verdict::not_checked) return "";
  return check.capacity > 0 ? fmt::format("{:.2f}", check.ratio) : "none";
}

std::string memory_words(const Check& check) {
  std::vector<std::string_view> symbols;
  for (const Figure& figure : check.figures) {
    if (figure.from_memory && std::ranges::find(symbols, figure.symbol.view()) == symbols.end())
      symbols.push_back(figure.symbol);
  }
  return symbols.empty() ? "" : fmt::format("From memory: {}.", fmt::join(symbols, ", "));
}

std::vector<AlikeChecks> weakest_first(const std::vector<Check>& checks) {
  std::vector<AlikeChecks> out;
  for (const Check& check : checks) {
    const auto same = std::ranges::find_if(out, [&](const AlikeChecks& other) { return alike(*other.check, check); });
    if (same == out.end()) {
      out.push_back({&check, check.where});
    } else if (same->where != check.where && !same->where.ends_with(", " + check.where)) {
      same->where += ", " + check.where;
    }
  }
  sort_stably(out, std::ranges::greater(), [](const AlikeChecks& a) { return weakness(*a.check); });
  return out;
}

std::vector<VerdictCount> strength_counts(const Strength& strength) {
  std::vector<VerdictCount> out;
  for (const Verdict verdict : {Verdict::fail, Verdict::not_checked, Verdict::pass}) {
    const auto count = std::ranges::count(strength.checks, verdict, &Check::verdict);
    if (count > 0) out.push_back({verdict, fmt::format("{} {}", count, verdict_words(verdict))});
  }
  return out;
}

std::string links_words(const Strength& strength, const LoadPath& path) {
  struct Stage {
    std::string member;
    double ratio = -1;
    int open = 0;
  };
  std::vector<Stage> stages;
  for (const std::size_t link : path.links) {
    const Check& check = strength.checks[link];
    if (stages.empty() || stages.back().member != check.member) stages.push_back({check.member});
    Stage& stage = stages.back();
    stage.open += check.verdict == Verdict::not_checked;
    stage.ratio = std::max(stage.ratio, weakness(check));
  }
  std::string out;
  for (const Stage& stage : stages) {
    const std::string ratio = stage.ratio < 0                  ? ""
                              : stage.ratio == kCarriesNothing ? " carries nothing"
                                                               : fmt::format(" {:.2f}", stage.ratio);
    out += fmt::format("{}{}{}{}", out.empty() ? "" : " > ", stage.member, ratio,
                       stage.open > 0 ? fmt::format(" ({} not checked)", stage.open) : "");
  }
  return out;
}

std::string weakest_words(const Strength& strength, const LoadPath& path) {
  if (!path.weakest) return "nothing on this way could be checked";
  const Check& check = strength.checks[*path.weakest];
  return fmt::format("{}, {}: {}", check.where, check.what, ratio_words(check));
}

}  // namespace pitchboard
