// The driver: loads, the way of every load to the ground, what the guides print, and the plate beside the beam.

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <numeric>

#include "data/guide_limits.hpp"
#include "engine/base/catalog.hpp"
#include "engine/strength/calculator.hpp"

namespace pitchboard {
namespace {

/// Lengths of posts or spans that differ by less are one. UNITS inches. SOURCE far above the rounding of doubles.
constexpr double kRounding = 1e-9;

/// What a guide prints decides as well: a check of its own, so that the worse of both is seen.
void add_limit(Calculator& c, const GuideRow& row, double is) {
  const bool at_most = row.compare == "at_most";
  Check check;
  check.member = "stringer";
  check.where = "all stringers";
  check.what = row.words;
  check.what += ", as guides print it";
  check.clause = "prescriptive limit";
  check.demand = at_most ? is : row.limit;
  check.capacity = at_most ? row.limit : is;
  check.unit = "in";
  if (c.written()) {
    const std::string words(row.words), source(row.source);
    check.figures = {
        {"is", words, is, check.unit, "", "frame", false},
        {at_most ? "at most" : "at least", "the guide's limit", row.limit, check.unit, "", source, row.from_memory}};
    c.out.limits.push_back({words, is, row.limit, check.unit, std::string(row.compare), source, row.from_memory});
  }
  c.add(weighed(std::move(check)));
}

void add_guide(Calculator& c, std::string_view key, double is) {
  const auto row = std::ranges::find(kGuideRows, key, &GuideRow::key);
  if (row != std::end(kGuideRows)) add_limit(c, *row, is);
}

/// The longest span is no less than this, wherever the supports stand that the job asks for.
double least_span(const Calculator& c, const StringerReading& stringer) {
  if (!c.job.stringers.mid_supports) return 0;
  const double all = std::accumulate(stringer.spans.begin(), stringer.spans.end(), 0.0);
  return all / (*c.job.stringers.mid_supports + 1) - kRounding;
}

/// What guides print for such stringers, whatever the calculation says.
void add_guides(Calculator& c) {
  const bool solid = c.flight.kind == StringerKind::solid;
  double longest = 0;
  for (const StringerReading& stringer : stringers_of(c.frame)) {
    if (c.frame.counted) {
      longest = std::max(longest, least_span(c, stringer));
      continue;
    }
    for (const double span : stringer.spans) longest = std::max(longest, span);
  }
  if (const SpanLimitRow* row = find_span_limit(solid ? "solid" : "cut")) {
    add_limit(c,
              {.words = solid ? "level span of a solid stringer" : "level span of a cut stringer",
               .compare = "at_most",
               .limit = row->limit,
               .source = row->source},
              longest);
  }
  if (!solid) {
    add_guide(c, "throat", in_inches(c.frame.throat));
    add_guide(c, c.flight.tread_thickness < inches(1.25) ? "spacing-thin" : "spacing", tread_span(c.frame).middles);
  }
}

void add_notes(Calculator& c) {
  if (!c.job.place.pack.starts_with("irc-") && !c.job.place.pack.starts_with("ibc-")) {
    c.out.notes.push_back(
        "The method is the American one, and so are the loads unless the job gives its own: what the local standard "
        "asks decides.");
  }
  if (c.flight.kind != StringerKind::solid) {
    c.out.notes.push_back(
        "No laboratory tests of notched stringers of sawn lumber are known to this program. Lumber is graded for its "
        "whole width: a knot at a notch weakens it more than the figures tell. Choose boards without knots at the "
        "corners, and finish the inner corners with a handsaw.");
  }
  c.out.notes.push_back(
      "Not in these figures: rot, old cracks, boards worse than their stamp, wind and snow, and the house itself. Have "
      "an engineer look where rail posts are bolted to thin wood, where the house band is hidden, and where the ground "
      "is "
      "fill "
      "or wet.");
}

}  // namespace

Calculator::Calculator(const Job& job_, const Flight& flight_, const Frame& frame_, Depth depth_)
    : job(job_),
      flight(flight_),
      frame(frame_),
      depth(depth_),
      loads(loads_for(job_, written())),
      fastened(frame_),
      jointed(job_, frame_) {
  out.checks.reserve(64);  // as many as most stairs have: a check is costly to move
  if (written()) out.loads = loads.figures;
}

Timber Calculator::timber(std::size_t part, std::string member, std::string_view duration) {
  const Part& wood = frame.parts[part];
  Timber out_timber;
  out_timber.part = std::move(member);
  out_timber.mark = wood.mark;
  out_timber.member = member_of(wood);
  out_timber.service = service_of(job, wood);
  out_timber.service.written = written();
  const LimitRow& row = limit(duration, job.place.pack);
  out_timber.service.load_duration = row.value;
  out_timber.service.duration_words = Text::lasting(row.words);
  out_timber.service.duration_from_memory = row.from_memory;
  const Woods::Known& known = jointed.woods.of(out_timber.member);
  out_timber.values = known.values;
  out_timber.why_not = known.why_not;
  return out_timber;
}

bool Calculator::one_fails() const {
  return std::ranges::find(out.checks, Verdict::fail, &Check::verdict) != out.checks.end();
}

bool Calculator::no_worse(const GuardPost& post) {
  if (!frame.counted) return false;
  const auto as_bad = [&](const GuardPost& other) {
    return post.height <= other.height + kRounding && post.bolt_spacing >= other.bolt_spacing - kRounding;
  };
  if (std::ranges::any_of(asked, as_bad)) return true;
  asked.push_back(post);
  return false;
}

std::size_t Calculator::add(Check check) {
  if (!written()) check.figures.clear();
  out.checks.push_back(std::move(check));
  return out.checks.size() - 1;
}

void Calculator::lead_in(std::size_t check, std::vector<Figure> figures) {
  std::vector<Figure>& all = out.checks[check].figures;
  all.insert(all.begin(), std::make_move_iterator(figures.begin()), std::make_move_iterator(figures.end()));
}

Links Calculator::add(std::vector<Check> checks) {
  Links links;
  for (Check& check : checks) links.push_back(add(std::move(check)));
  return links;
}

std::size_t Calculator::joint(std::string member, std::string where, std::string what,
                              const std::vector<std::size_t>& fasteners, std::size_t loaded,
                              const std::vector<ForceVector>& forces, std::string_view duration) {
  const LimitRow& row = limit(duration, job.place.pack);
  Check worst;
  if (fasteners.empty()) {
    worst.note = "Nothing joins these parts.";
  } else {
    worst = check_joint(jointed, {fasteners, loaded, forces, row.value, Text::lasting(row.words), written()});
  }
  worst.member = std::move(member);
  worst.where = std::move(where);
  worst.what = std::move(what);
  return add(std::move(worst));
}

std::size_t Calculator::unknown(std::string member, std::string where, std::string what, double demand,
                                std::string note) {
  Check check;
  check.member = std::move(member);
  check.where = std::move(where);
  check.what = std::move(what);
  check.clause = "no published value";
  check.demand = demand;
  if (demand > 0) check.unit = "lb";
  check.note = std::move(note);
  return add(std::move(check));
}

std::size_t Calculator::reported(std::string member, std::string where, std::string what, double demand,
                                 std::optional<double> value, const std::string& input) {
  if (!value) {
    std::string note;
    if (written())
      note = fmt::format("Buy one whose maker's report gives at least {:.0f} lb, and write its value into {}.", demand,
                         input);
    return unknown(std::move(member), std::move(where), std::move(what), demand, std::move(note));
  }
  Check check;
  check.member = std::move(member);
  check.where = std::move(where);
  check.what = std::move(what);
  check.clause = "maker's report";
  check.demand = demand;
  check.capacity = *value;
  check.unit = "lb";
  if (written()) check.figures = {{"R", "allowable load in the maker's report", *value, "lb", "", "job: " + input}};
  return add(weighed(std::move(check)));
}

void Calculator::add_path(std::string from, const Links& links, const Links& below) {
  LoadPath way;
  way.from = std::move(from);
  way.links = links;
  way.links.insert(way.links.end(), below.begin(), below.end());
  for (const std::size_t link : way.links) {
    const Check& check = out.checks[link];
    if (check.verdict == Verdict::not_checked) {
      ++way.not_checked;
      continue;
    }
    if (!way.weakest || weakness(check) > weakness(out.checks[*way.weakest])) way.weakest = link;
  }
  out.paths.push_back(std::move(way));
}

Strength check_strength(const Job& job, const Flight& flight, const Frame& frame, Depth depth) {
  Calculator calculator(job, flight, frame, depth);
  const Links below = walk_paths(calculator);
  guard_paths(calculator, below);
  add_guides(calculator);
  if (depth == Depth::full) check_plate(calculator);
  if (calculator.written()) add_notes(calculator);
  return std::move(calculator.out);
}

std::vector<Check> check_guides(const Job& job, const Flight& flight, const Frame& frame) {
  Calculator calculator(job, flight, frame, Depth::skeleton);
  add_guides(calculator);
  return std::move(calculator.out.checks);
}

CountedPosts check_counted_posts(const Job& job, const Flight& flight, const Frame& frame) {
  if (!frame.guard_left && !frame.guard_right) return {.checks = {}, .need = HoldDownNeed{}};
  Calculator calculator(job, flight, frame, Depth::skeleton);
  post_paths(calculator);
  CountedPosts out;
  if (!calculator.one_fails()) out.need = std::move(calculator.need);
  out.checks = std::move(calculator.out.checks);
  return out;
}

std::vector<Check> check_counted_treads(const Job& job, const Flight& flight, const Frame& frame) {
  Calculator calculator(job, flight, frame, Depth::skeleton);
  tread_paths(calculator);
  return std::move(calculator.out.checks);
}

std::vector<Check> check_skeleton(const Job& job, const Flight& flight, const Frame& frame, bool rails) {
  Calculator calculator(job, flight, frame, Depth::skeleton);
  // The cheapest to compute first.
  add_guides(calculator);
  if (rails && !calculator.one_fails()) guard_paths(calculator, {});
  if (!calculator.one_fails()) walk_paths(calculator);
  return std::move(calculator.out.checks);
}

std::vector<Check> check_posts(const Job& job, const Flight& flight, const Frame& frame) {
  Calculator calculator(job, flight, frame, Depth::verdicts);
  post_paths(calculator);
  return std::move(calculator.out.checks);
}

}  // namespace pitchboard
