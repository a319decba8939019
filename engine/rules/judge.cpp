// Each rule in force against what was measured.
//
// METHOD  A rule is held against every sample of its quantity; the worst verdict of all is the finding, and of equal
// verdicts the one
//         with the least margin after its uncertainty.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/sort.hpp"
#include "engine/rules/measured.hpp"
#include "engine/rules/quantities.hpp"
#include "engine/rules/rules.hpp"

namespace pitchboard {
namespace {

/// Degrees, slopes and counts closer than this are equal. SOURCE far above rounding of doubles, far below any
/// instrument.
constexpr double kSame = 1e-6;
/// Lengths smaller than this are said in decimals: no tape shows them. SOURCE common practice, no source.
constexpr Length kTapeShows = inches(1.0 / 32.0);

double same(std::string_view unit) {
  const std::optional<double> scale = inches_in(unit);
  return scale ? kTouch.raw() / *scale : kSame;
}

bool is_advice(const RuleRow& row) { return row.advice || row.compare == "advice"; }
bool is_upper(const RuleRow& row) { return row.compare == "less_than" || row.compare == "at_most"; }

/// A value in words: "7 3/4"", "220 mm", "42.0 degrees".
std::string say(double value, std::string_view unit, UnitSystem system) {
  if (const std::optional<double> scale = inches_in(unit)) {
    const Length length = inches(value * *scale);
    if (unit == "mm" || system == UnitSystem::metric) return fmt::format("{:.1f} mm", in_millimetres(length));
    return abs(length) < kTapeShows && abs(length) > kTouch ? fmt::format("{:.3f} in", in_inches(length))
                                                            : tape(length, system);
  }
  if (unit == "deg") return fmt::format("{:.1f} degrees", value);
  if (unit == "slope") return fmt::format("{:.1f} %", value * 100);
  return fmt::format("{:g}", value);
}

/// The order of findings of one verdict: those that apply first, then the least margin over its limit. What has no
/// margin counts as kept by a whole limit, unless it is missing altogether.
double badness(const Finding& finding) {
  if (!finding.applies) return 1e9;
  if (!finding.margin) return finding.compare == "required" && finding.measured == 0.0 ? -1.0 : 1.0;
  const double limit = std::abs(finding.limit.value_or(0));
  return *finding.margin / (limit > 0 ? limit : 1.0);
}

/// One sample held against one rule, in the rule's unit.
struct Held {
  const Sample* sample = nullptr;
  Verdict verdict = Verdict::pass;
  Truth applies = Truth::yes;
  double value = 0, uncertainty = 0, limit = 0;
  std::optional<double> margin;
  [[nodiscard]] double rest() const { return margin.value_or(0) - uncertainty; }
};

class Judge {
 public:
  Judge(const Job& job, std::vector<RuleRow> rules, Measured measured, bool written)
      : job_(job), rules_(std::move(rules)), measured_(std::move(measured)), written_(written) {}

  /// `measured_alone`: without rules on what was not measured at all.
  [[nodiscard]] std::vector<Finding> findings(bool measured_alone = false) const {
    std::vector<Finding> out;
    out.reserve(rules_.size());
    for (const RuleRow& row : rules_) {
      if (!measured_alone || find_measure(measured_, row.quantity)) out.push_back(finding(row));
    }
    sort_stably(out, [](const Finding& p, const Finding& q) {
      if (p.verdict != q.verdict) return p.verdict < q.verdict;
      const double a = badness(p), b = badness(q);
      return a != b ? a < b : p.clause < q.clause;
    });
    return out;
  }

 private:
  /// Whether the row applies at a sample: its own drop stands for the stair's, and so decides on the guard.
  [[nodiscard]] Truth applies(const RuleRow& row, const Sample* sample) const {
    if (row.when.empty()) return Truth::yes;
    const bool asks_for_rails =
        row.when.find("guard") != std::string_view::npos || row.when.find("handrail") != std::string_view::npos;
    const bool own_drop = sample && sample->drop;
    if (!asks_for_rails && !own_drop) return holds(row.when, measured_.facts);
    Facts facts = measured_.facts;
    const auto drop = std::ranges::find(facts, std::string_view("drop"), &Fact::name);
    if (own_drop) *drop = {"drop", sample->drop, sample->drop_uncertainty};
    if (!asks_for_rails) return holds(row.when, facts);
    const auto asked = [&](std::string_view quantity) {
      Truth out = Truth::no;
      for (const RuleRow& other : rules_) {
        if (other.quantity == quantity) out = std::max(out, holds(other.when, facts));
      }
      return out;
    };
    const Truth guard_needed = asked("guard");
    const Truth guard = is_there("guard") ? Truth::yes : guard_needed;
    const Truth handrail = is_there("handrail_sides") ? Truth::yes : asked("handrail_sides");
    facts.push_back(fact("guard_needed", guard_needed));
    facts.push_back(fact("guard", guard));
    facts.push_back(fact("handrail", handrail));
    facts.push_back(fact("guard_or_handrail", std::max(guard, handrail)));
    return holds(row.when, facts);
  }
  [[nodiscard]] static Fact fact(std::string_view name, Truth truth) {
    if (truth == Truth::maybe) return {name, std::nullopt};
    return {name, truth == Truth::yes ? 1.0 : 0.0};
  }
  [[nodiscard]] bool is_there(std::string_view quantity) const {
    const Measure* measure = find_measure(measured_, quantity);
    return measure && std::ranges::any_of(measure->samples, [](const Sample& s) { return s.value != 0; });
  }

  [[nodiscard]] static Held hold(const RuleRow& row, const Sample& sample, Truth applies) {
    const double scale = inches_in(row.unit).value_or(1.0);
    Held out{&sample,   Verdict::pass, applies, sample.value / scale, sample.uncertainty / scale,
             row.limit, std::nullopt};
    out.limit = row.limit + sample.limit_from / scale;
    if (out.applies == Truth::no || row.compare == "advice") return out;
    const double touch = same(row.unit);
    bool kept = false;
    if (row.compare == "required") {
      kept = sample.value != 0;
    } else {
      const bool upper = is_upper(row);
      const bool strict = row.compare == "less_than" || row.compare == "more_than";
      double margin = upper ? out.limit - out.value : out.value - out.limit;
      if (std::abs(margin) <= touch) {
        margin = 0;
        out.value = out.limit;
      }
      out.margin = margin;
      kept = strict ? margin > 0 : margin >= 0;
    }
    if (is_advice(row)) {
      out.verdict = kept ? Verdict::pass : Verdict::warn;
    } else if (!kept) {
      // Where the readings leave open whether the rule applies at all, more than "measure again" cannot be said.
      out.verdict = out.applies == Truth::maybe ? Verdict::too_close : Verdict::fail;
    } else if (out.uncertainty > touch && out.margin && *out.margin <= out.uncertainty) {
      out.verdict = Verdict::too_close;
    }
    return out;
  }

  [[nodiscard]] static auto only_where(const RuleRow& row) {
    return [&row] { return fmt::format("only where {}.", row.when); };
  }

  [[nodiscard]] Finding finding(const RuleRow& row) const {
    Finding out;
    out.pack = row.pack;
    out.clause = row.clause;
    out.quantity = row.quantity;
    out.sentence = row.sentence;
    out.confidence = row.confidence;
    if (written_) out.source = source_of(row);
    out.unit = row.unit;
    out.advice = is_advice(row);
    out.compare = row.compare;
    if (row.compare != "required") out.limit = row.limit;

    const Measure* measure = find_measure(measured_, row.quantity);
    if (!measure || measure->samples.empty()) return without_samples(row, measure, std::move(out));
    std::optional<Held> worst;
    Truth applies_here = Truth::no;
    const Sample* last = nullptr;
    for (const Sample& sample : measure->samples) {
      // Of a sample nothing but its drop decides whether the row applies.
      if (!last || sample.drop != last->drop || sample.drop_uncertainty != last->drop_uncertainty)
        applies_here = applies(row, &sample);
      last = &sample;
      const Held held = hold(row, sample, applies_here);
      if (held.applies == Truth::no) continue;
      const bool worse = !worst || held.verdict < worst->verdict ||
                         (held.verdict == worst->verdict && held.rest() < worst->rest() - same(row.unit));
      if (worse) worst = held;
    }
    if (!worst) return not_applying(std::move(out), only_where(row));
    out.verdict = worst->verdict;
    out.measured = worst->value;
    if (out.limit) out.limit = worst->limit;
    out.margin = worst->margin;
    if (worst->uncertainty > 0) out.uncertainty = worst->uncertainty;
    out.step = worst->sample->step;
    out.where = worst->sample->where;
    if (written_ || out.verdict == Verdict::fail) out.change = change(row, *worst);
    const bool told = out.advice && worst->margin;  // which way it is kept or not is said already
    if (row.confidence == "memory" && !told && (out.verdict == Verdict::pass || out.verdict == Verdict::fail)) {
      if (written_)
        out.change = fmt::format("This limit is from memory: look it up in the code book. By it the stair would {}. {}",
                                 out.verdict == Verdict::pass ? "pass" : "fail", out.change);
      out.verdict = Verdict::warn;
    }
    return out;
  }

  [[nodiscard]] static std::string source_of(const RuleRow& row) {
    std::string out(row.source);
    for (const PackInfo& pack : packs()) {
      if (pack.key == row.pack && !pack.caveat.empty()) out += ". " + std::string(pack.caveat);
    }
    return out;
  }

  /// `why`: makes the words.
  [[nodiscard]] Finding not_applying(Finding out, const auto& why) const {
    out.verdict = Verdict::pass;
    out.applies = false;
    if (written_) out.change = fmt::format("Does not apply here: {}", why());
    return out;
  }

  [[nodiscard]] Finding without_samples(const RuleRow& row, const Measure* measure, Finding out) const {
    if (applies(row, nullptr) == Truth::no) return not_applying(std::move(out), only_where(row));
    if (measure && measure->why_not.empty()) return not_applying(std::move(out), [&] { return measure->missing; });
    out.verdict = Verdict::not_checked;
    if (!written_) return out;
    const QuantityInfo* info = find_quantity(row.quantity);
    out.change = measure ? measure->why_not : info ? info->look : "";
    if (row.confidence == "memory") out.change += " The rule itself is from memory: look it up.";
    return out;
  }

  /// What would change the verdict, in words.
  [[nodiscard]] std::string change(const RuleRow& row, const Held& held) const {
    const UnitSystem units = job_.about.units;
    const auto text = [&](double value) { return say(value, row.unit, units); };
    const QuantityInfo* info = find_quantity(row.quantity);
    if (!info) return "";
    if (row.compare == "required") return change_required(row, held, *info);
    const std::string is = at_place(held, fmt::format("{} {}", info->words, text(held.value)));
    const bool upper = is_upper(row);
    if (is_advice(row)) {
      const char* how = row.compare == "advice" ? "" : upper ? "at most " : "at least ";
      return fmt::format("Advice only{}. {}, advised {}{}.", row.confidence == "memory" ? ", and from memory" : "", is,
                         how, text(held.limit));
    }
    const double margin = held.margin.value_or(0);
    switch (held.verdict) {
      case Verdict::fail: {
        const std::string by = margin == 0 ? fmt::format("which must be kept {}", upper ? "under" : "over")
                                           : fmt::format("{} too {}", text(-margin), upper ? "much" : "little");
        return fmt::format("{}, {}: {}.", is, by, upper ? info->less : info->more);
      }
      case Verdict::too_close:
        if (held.applies == Truth::maybe && margin < 0) return doubtful_drop(held, is);
        return fmt::format("{}, {} in hand, but the readings are only good to {} either way. {}", is, text(margin),
                           text(held.uncertainty), measure_again());
      default:
        return fmt::format("{}, {} in hand.", is, text(margin));
    }
  }

  [[nodiscard]] std::string change_required(const RuleRow& row, const Held& held, const QuantityInfo& info) const {
    const std::string missing = at_place(held, fmt::format("{} missing", info.words));
    if (held.verdict == Verdict::too_close) return doubtful_drop(held, missing);
    std::string out = held.verdict == Verdict::fail ? fmt::format("{}: {}.", missing, info.less)
                                                    : capital(fmt::format("{}: yes.", info.words));
    if (held.sample->drop) out += " " + drop_words(*held.sample);
    if (row.quantity == "guard") {
      out +=
          " The whole open side is judged by its greatest fall, the deck's edge at its head included; some inspectors "
          "take only the "
          "part above the limit.";
    }
    return out;
  }

  [[nodiscard]] static std::string at_place(const Held& held, const std::string& finding) {
    return capital(held.sample->where.empty() ? finding : fmt::format("{}: {}", held.sample->where, finding));
  }
  [[nodiscard]] std::string drop_words(const Sample& sample) const {
    return fmt::format("The greatest fall there is {}.", say(sample.drop.value_or(0), "in", job_.about.units));
  }
  [[nodiscard]] std::string doubtful_drop(const Held& held, const std::string& finding) const {
    return fmt::format("{}. {} With readings good to {} either way it is open whether the rule applies. {}",
                       capital(finding), drop_words(*held.sample),
                       say(held.sample->drop_uncertainty, "in", job_.about.units), measure_again());
  }
  [[nodiscard]] std::string measure_again() const {
    const bool good = job_.ground.method == Method::laser || job_.ground.method == Method::water_level;
    return good ? "Measure again there, twice, and give the tolerance that the two readings bear out."
                : "Measure again there with a laser or a water level.";
  }
  [[nodiscard]] static std::string capital(std::string text) {
    if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
      text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text;
  }

  const Job& job_;
  std::vector<RuleRow> rules_;
  Measured measured_;
  bool written_;
};

}  // namespace

std::vector<Finding> judge(const Job& job, const Site& site, const Flight& flight, const Frame& frame, bool written) {
  return Judge(job, rules_in_force(job.place), measure(job, site, flight, frame), written).findings();
}

std::vector<Finding> judge_steps(const Job& job, const Site& site, const Flight& flight, const Frame& frame) {
  return Judge(job, rules_in_force(job.place), measure_steps(job, site, flight, frame), false).findings(true);
}

}  // namespace pitchboard
