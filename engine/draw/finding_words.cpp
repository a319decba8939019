#include "engine/draw/finding_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "engine/base/catalog.hpp"
#include "engine/draw/sheet_words.hpp"
namespace pitchboard {
namespace {

/// A margin smaller than the tape shows is written as a decimal, so that it never reads as nothing.
constexpr double kReadsAsNothing = 1.0 / 32.0;
/// Clashes of one group are named by their marks up to this many.
constexpr std::size_t kFewClashes = 2;

std::string decimal(double value, UnitSystem units) {
  return units == UnitSystem::metric ? fmt::format("{:.2f} mm", in_millimetres(inches(value)))
                                     : fmt::format("{:.3f} in", value);
}

bool is_strict(std::string_view compare) { return compare == "less_than" || compare == "more_than"; }

/// A rule known from memory is never passed or failed, but its figure tells which it would be.
bool would_fail(const Finding& finding) {
  if (finding.compare == "required") return finding.measured && *finding.measured == 0;
  return finding.margin && (*finding.margin < 0 || (*finding.margin == 0 && is_strict(finding.compare)));
}

struct FactWords {
  std::string_view name, words;
};
constexpr std::array kBareFacts{FactWords{"closed_risers", "the risers are closed"},
                                FactWords{"open_risers", "the risers are open"},
                                FactWords{"cut_stringers", "the stringers are cut"},
                                FactWords{"solid_stringers", "the stringers are solid"},
                                FactWords{"guard_needed", "a guard is needed"},
                                FactWords{"guard", "a guard is there or needed"},
                                FactWords{"handrail", "a handrail is there or needed"},
                                FactWords{"guard_or_handrail", "a guard or a handrail is there or needed"},
                                FactWords{"round_handrail", "the handrail is round"}};
constexpr std::array kFigureFacts{FactWords{"drop", "the fall beside it is"},
                                  FactWords{"going", "the going is"},
                                  FactWords{"risers", "the number of risers is"},
                                  FactWords{"width", "the width is"},
                                  FactWords{"total_rise", "the total rise is"},
                                  FactWords{"salt_water", "the distance to salt water is"},
                                  FactWords{"handrail_sides", "the number of sides with a handrail is"}};

std::string term_words(std::string_view term) {
  const std::string_view name = term.substr(0, term.find(' '));
  for (const FactWords& fact : kBareFacts) {
    if (name == fact.name) return std::string(fact.words);
  }
  const auto fact = std::ranges::find(kFigureFacts, name, &FactWords::name);
  const std::size_t sign = term.find_first_of("<>");
  if (fact == kFigureFacts.end() || sign == std::string_view::npos) return std::string(term);
  const bool or_equal = sign + 1 < term.size() && term[sign + 1] == '=';
  const bool upper = term[sign] == '<';
  std::string_view figure = term.substr(sign + (or_equal ? 2 : 1));
  figure.remove_prefix(std::min(figure.find_first_not_of(' '), figure.size()));
  if (or_equal) return fmt::format("{} {} or {}", fact->words, figure, upper ? "less" : "more");
  return fmt::format("{} {} {}", fact->words, upper ? "under" : "over", figure);
}

/// What a mark of a clash belongs to: a part's kind or a fastener's name.
std::string owner_words(const Frame& frame, const std::string& mark) {
  for (const Part& part : frame.parts) {
    if (part.mark == mark) return part.kind == PartKind::existing ? part.use : std::string(kind_words(part.kind));
  }
  for (const Fastener& fastener : frame.fasteners) {
    if (fastener.mark != mark) continue;
    const HardwareRow* row = find_hardware(fastener.item);
    return row ? std::string(row->words) : fastener.item;
  }
  return mark;
}

}  // namespace

std::string verdict_words(const Finding& finding) {
  if (!finding.applies) return "not asked";
  return finding.advice && finding.verdict == Verdict::warn ? "advice" : verdict_words(finding.verdict);
}

std::vector<VerdictCount> verdict_counts(const std::vector<Finding>& findings) {
  std::vector<VerdictCount> out;
  for (const Verdict verdict :
       {Verdict::fail, Verdict::too_close, Verdict::warn, Verdict::not_checked, Verdict::pass}) {
    int count = 0, failing = 0, advised = 0;
    for (const Finding& finding : findings) {
      if (!finding.applies || finding.verdict != verdict) continue;
      const bool warns = verdict == Verdict::warn;
      // Advice that is not kept warns like a rule from memory, but nobody has to look it up.
      advised += warns && finding.advice ? 1 : 0;
      count += warns && finding.advice ? 0 : 1;
      failing += warns && !finding.advice && would_fail(finding) ? 1 : 0;
    }
    if (count > 0) {
      out.push_back({verdict, fmt::format("{} {}", count, verdict_words(verdict))});
      if (failing > 0) out.back().words += fmt::format(", {} of {} would fail", failing, count == 1 ? "it" : "them");
    }
    if (advised > 0) out.push_back({verdict, fmt::format("{} advised otherwise", advised)});
  }
  return out;
}

std::vector<const Finding*> asked_first(const std::vector<Finding>& findings) {
  std::vector<const Finding*> out;
  for (const Finding& finding : findings) out.push_back(&finding);
  std::ranges::stable_partition(out, [](const Finding* finding) { return finding->applies; });
  return out;
}

std::string fine_figure_words(std::optional<double> value, std::string_view unit, UnitSystem units) {
  if (value && unit == "in" && *value != 0 && std::abs(*value) < kReadsAsNothing) return decimal(*value, units);
  return figure_words(value, unit, units);
}

std::string measured_words(const Finding& finding, UnitSystem units) {
  if (finding.compare == "required" && finding.measured) return *finding.measured != 0 ? "yes" : "no";
  std::string out = fine_figure_words(finding.measured, finding.unit, units);
  // Where tape text would read as the limit itself, the measure is written as a decimal.
  if (finding.measured && finding.margin && finding.unit == "in" && std::abs(*finding.margin) < kReadsAsNothing) {
    out = decimal(*finding.measured, units);
  }
  if (finding.measured && finding.uncertainty && *finding.uncertainty > 0) {
    out += " ±" + fine_figure_words(finding.uncertainty, finding.unit, units);
  }
  return out;
}

std::string limit_words(const Finding& finding, UnitSystem units) {
  if (finding.compare == "required" || finding.compare == "advice") return std::string(finding.compare);
  if (!finding.limit) return "–";
  std::string how(finding.compare);
  std::ranges::replace(how, '_', ' ');
  if (finding.advice) how = "advised " + how;
  return how + " " + fine_figure_words(finding.limit, finding.unit, units);
}

std::string change_words(const Finding& finding) {
  constexpr std::string_view kIdle = "Does not apply here: ", kOnlyWhere = "only where ";
  if (finding.applies || !finding.change.starts_with(kIdle)) return finding.change;
  // The verdict says already that the rule is not asked: what is left is why.
  std::string why = finding.change.substr(kIdle.size());
  if (!why.starts_with(kOnlyWhere)) return why;
  const std::string when = why.substr(kOnlyWhere.size(), why.find_last_not_of('.') + 1 - kOnlyWhere.size());
  return "Asked only where " + condition_words(when) + ".";
}

std::string condition_words(const std::string& when) {
  constexpr std::string_view kAnd = " and ";
  std::string out;
  for (std::string_view rest = when; !rest.empty();) {
    const std::size_t end = rest.find(kAnd);
    out += (out.empty() ? "" : std::string(kAnd)) + term_words(rest.substr(0, end));
    rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + kAnd.size());
  }
  return out;
}

std::vector<std::string> clash_lines(const Frame& frame) {
  struct Group {
    std::string kind, first, second;
    std::vector<const Clash*> clashes;
  };
  std::vector<Group> groups;
  for (const Clash& clash : frame.clashes) {
    const std::string first = owner_words(frame, clash.first), second = owner_words(frame, clash.second);
    auto group = std::ranges::find_if(
        groups, [&](const Group& g) { return g.kind == clash.kind && g.first == first && g.second == second; });
    if (group == groups.end()) group = groups.insert(groups.end(), {clash.kind, first, second, {}});
    group->clashes.push_back(&clash);
  }
  std::vector<std::string> out;
  for (const Group& group : groups) {
    std::string line = group.first + (group.second.empty() ? "" : " and " + group.second);
    if (group.clashes.size() <= kFewClashes) {
      std::string marks;
      for (const Clash* clash : group.clashes) {
        marks += (marks.empty() ? "" : ", ") + clash->first + (clash->second.empty() ? "" : "/" + clash->second);
      }
      line += fmt::format(" ({}): {}", marks, group.clashes.front()->note);
    } else {
      line += fmt::format(", {} places: for one, {}", group.clashes.size(), group.clashes.front()->note);
    }
    out.push_back(fmt::format("{}, {}", group.kind, line));
  }
  return out;
}

}  // namespace pitchboard
