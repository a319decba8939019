// The engine as a browser calls it: text in, text out, nothing kept but the last answer.
//
// A call: `room(bytes)` gives the place to write the question to, then one of the calls below with its length. The
// answer stands at `answer()`, `answer_size()` bytes long, until the next call.

#include <cstddef>
#include <string>

#include "engine/advice.hpp"
#include "engine/choose/search.hpp"
#include "engine/job/read_job.hpp"
#include "engine/plan.hpp"

#define EXPORTED(name) extern "C" __attribute__((export_name(#name)))

namespace {

using namespace pitchboard;

std::string question, answered;

/// What every call comes to.
enum Outcome { kDone, kBadInput, kImpossible };

template <class Answer>
int answer_for(Answer answer) {
  const Result<Job> job = read_job_json(question);
  if (!job) {
    answered = problems_json(job.error());
    return kBadInput;
  }
  return answer(*job);
}

}  // namespace

/// RETURNS where the question goes, all of those bytes.
EXPORTED(room) char* room(std::size_t bytes) {
  question.resize(bytes);
  return question.data();
}
EXPORTED(answer) const char* answer() { return answered.data(); }
EXPORTED(answer_size) std::size_t answer_size() { return answered.size(); }

/// Answers the job's plan as `plan --json`, or what collides where no flight fits.
EXPORTED(plan) int plan() {
  return answer_for([](const Job& job) {
    const Result<Plan> made = make_plan(job);
    answered = made ? plan_json(*made) : no_flight_json(job);
    return made ? kDone : kImpossible;
  });
}

/// Answers the job's search as `options --json`.
EXPORTED(options) int options() {
  return answer_for([](const Job& job) {
    const Search search = search_stairs(job, Site(job));
    answered = search_json(job, search, advice_on(job, search));
    return search.front.empty() ? kImpossible : kDone;
  });
}
