#include "engine/advice.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "engine/choose/explain.hpp"
#include "engine/plan.hpp"

namespace pitchboard {
namespace {

std::string changes_words(const Remedy& remedy) {
  std::string out;
  for (const Change& change : remedy.changes)
    out += fmt::format("{}{} = {}", out.empty() ? "" : ", ", change.key, change.value);
  return out;
}

}  // namespace

Advice advice_on(const Job& job, const Search& search) {
  Advice out;
  if (search.front.empty()) {
    out.conflict = conflict_of(job, Site(job), search.known);
    out.freed = least_change(job, out.conflict);
  } else {
    out.doubts = doubts_of(job, search, Again::cheap_questions);
  }
  return out;
}

Problems why_none(const Job& job, const Search& search, const Advice& advice) {
  if (search.space.families.empty()) {
    if (const Result<Plan> plan = make_plan(job); !plan) return plan.error();
  }
  Problems out = problems_of(job, advice.conflict);
  if (advice.freed)
    out.push_back({"least change", stair_words(job, advice.conflict.space, advice.freed->choice),
                   "could be built with " + changes_words(advice.freed->remedy)});
  for (const Rejected& group : rejected(search)) {
    const std::string one = family_words(job, search.space.families[group.families.front()]);
    out.push_back(
        {group.families.size() == 1 ? one : fmt::format("{} kinds of stairs, such as {}", group.families.size(), one),
         group.fault, "change what the job fixes; 'check --fix' proposes what would mend its own stair"});
  }
  return out;
}

}  // namespace pitchboard
