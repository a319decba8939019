// The engine as a browser calls it: text in, text or a file out, nothing kept but the last answer.
//
// A call: `room(bytes)` gives the place to write the question to, then one of the calls below with its length. The
// answer stands at `answer()`, `answer_size()` bytes long, until the next call.

#include <cstddef>
#include <nlohmann/json.hpp>
#include <string>

#include "engine/advice.hpp"
#include "engine/choose/search.hpp"
#include "engine/draw/sheets.hpp"
#include "engine/job/fields.hpp"
#include "engine/job/read_job.hpp"
#include "engine/packet.hpp"
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
  const Problems wrong = job ? check_place(job->place) : job.error();
  if (!wrong.empty()) {
    answered = problems_json(wrong);
    return kBadInput;
  }
  return answer(*job);
}

/// The same with the job's plan; where no flight fits, what collides is the answer.
template <class Text>
int answer_of_plan(Depth depth, Text text) {
  return answer_for([&](const Job& job) {
    const Result<Plan> made = make_plan(job, depth);
    answered = made ? text(*made) : no_flight_json(job);
    return made ? kDone : kImpossible;
  });
}

}  // namespace

/// RETURNS where the question goes, all of those bytes.
EXPORTED(room) char* room(std::size_t bytes) {
  question.resize(bytes);
  return question.data();
}
EXPORTED(answer) const char* answer() { return answered.data(); }
EXPORTED(answer_size) std::size_t answer_size() { return answered.size(); }

/// Answers whether the job can be asked about at all: no problem where it can.
EXPORTED(problems) int problems() {
  return answer_for([](const Job&) {
    answered = problems_json({});
    return kDone;
  });
}

/// Answers the job's plan as `plan --json`, or what collides where no flight fits.
EXPORTED(plan) int plan() { return answer_of_plan(Depth::full, plan_json); }

/// Answers the job's search as `options --json`.
EXPORTED(options) int options() {
  return answer_for([](const Job& job) {
    const Search search = search_stairs(job, Site(job));
    answered = search_json(job, search, advice_on(job, search));
    return search.front.empty() ? kImpossible : kDone;
  });
}

/// Answers the side view as a screen of that many points shows it, as SVG. `readings`: 0 the stair's dimensions, 1 to 3
/// those of the readings on the left, middle or right line.
EXPORTED(side) int side(double width, double height, int readings) {
  return answer_for([&](const Job& job) {
    ScreenView view{.width = width, .height = height, .readings = readings > 0};
    if (readings > 0) view.line = readings == 1 ? Line::left : readings == 2 ? Line::middle : Line::right;
    const Result<Sheet> sheet = draw_screen_side(job, view);
    answered = sheet ? to_svg(*sheet) : problems_json(sheet.error());
    return sheet ? kDone : kBadInput;
  });
}

/// Answers the packet: a line of JSON, its files' names with their sizes in bytes, and then the files one after another
/// in that order. `a4`: 0 for letter paper.
EXPORTED(packet) int packet(int a4) {
  return answer_of_plan(Depth::full, [a4](const Plan& made) {
    const Paper paper = a4 != 0 ? Paper::a4 : Paper::letter;
    nlohmann::json sizes = nlohmann::json::object();
    std::string files;
    for (const auto& [name, bytes] :
         packet_files(made, draw_sheets(made, paper), draw_calculation_sheets(made, paper))) {
      sizes[name] = bytes.size();
      files += bytes;
    }
    return sizes.dump() + "\n" + files;
  });
}

/// Answers the JSON Schema of a job, whatever the question.
EXPORTED(schema) int schema() {
  answered = schema_text();
  return kDone;
}

/// Answers the job's 3-D model as the packet's model.glb, or what collides where no flight fits.
EXPORTED(model) int model() { return answer_of_plan(Depth::quick, plan_glb); }
