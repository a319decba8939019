#include "engine/job/read_job.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/job/inputs.hpp"
#include "engine/job/job_text.hpp"
#include "engine/job/nearest.hpp"

namespace pitchboard {
namespace {

using nlohmann::json;

/// Whole numbers outside this are no count of anything here; checked before the cast, which is undefined beyond int.
constexpr double kLargestCount = 1e9;
/// Prices beyond this could not be held in whole cents by a double.
constexpr double kLargestPrice = 1e12;

std::string joined(std::string_view place, std::string_view key) {
  return place.empty() ? std::string(key) : fmt::format("{}.{}", place, key);
}

/// Fills one group of the job from one JSON object.
class Reader {
 public:
  Reader(const json& object, std::string place, Problems& problems)
      : object_(object), place_(std::move(place)), problems_(problems) {}

  template <class Member>
  void operator()(const Input& input, Member& member) {
    if (const json* value = find(input)) read(*value, joined(place_, input.key), member);
  }
  void operator()(const Input& input, ReadingsOf<Ground> line) {
    const json* value = find(input);
    if (!value) return;
    ReadingLine readings{line.line, {}};
    read(*value, joined(place_, input.key), readings.readings);
    if (value->is_array() && value->empty()) {
      wrong(joined(place_, input.key), "a line without readings", "give at least one reading, or leave the line out");
    }
    if (!readings.readings.empty()) line.ground.lines.push_back(std::move(readings));
  }
  template <class Group>
  void group(const Input& input, Group& member) {
    const json* value = find(input);
    if (value) read_group(*value, joined(place_, input.key), member);
  }

  template <class Group>
  void read_group(const json& value, const std::string& place, Group& member) {
    if (!value.is_object()) return wrong(place, "this should be a group of keys", "see docs/job-file.md for its keys");
    Reader inner(value, place, problems_);
    inputs(inner, member);
    inner.report_unknown_keys();
  }

  void report_unknown_keys() {
    for (const auto& [key, value] : object_.items()) {
      if (std::ranges::find(known_, key) != known_.end()) continue;
      const std::string_view meant = nearest(key, known_);
      wrong(joined(place_, key), "there is no such key",
            meant.empty() ? fmt::format("the keys here are {}", fmt::join(known_, ", "))
                          : fmt::format("did you mean {}?", meant));
    }
  }

 private:
  void wrong(std::string place, std::string what, std::string remedy) {
    problems_.push_back({std::move(place), std::move(what), std::move(remedy)});
  }

  const json* find(const Input& input) {
    known_.push_back(input.key);
    const auto at = object_.find(input.key);
    if (at != object_.end()) return &*at;
    if (input.required) wrong(joined(place_, input.key), "this is missing", std::string(input.sentence));
    return nullptr;
  }

  void read(const json& value, const std::string& place, Length& member) {
    if (!value.is_string()) {
      return wrong(place, "a length is text with its unit", "write it like \"47 3/8 in\" or \"1203 mm\"");
    }
    const Result<Length> length = read_length(value.get_ref<const std::string&>());
    if (length)
      member = *length;
    else
      for (const Problem& problem : length.error()) wrong(place, problem.wrong, problem.remedy);
  }
  void read(const json& value, const std::string& place, double& member) {
    if (!value.is_number()) return wrong(place, "this should be a number", "write it without quotes, like 0.02");
    member = value.get<double>();
  }
  void read(const json& value, const std::string& place, int& member) {
    const double number = value.is_number() ? value.get<double>() : 0.5;
    if (number != std::floor(number) || std::abs(number) > kLargestCount) {
      return wrong(place, "this should be a whole number", "write it without quotes, like 3");
    }
    member = static_cast<int>(number);
  }
  void read(const json& value, const std::string& place, bool& member) {
    if (!value.is_boolean()) return wrong(place, "this should be yes or no", "write true or false, without quotes");
    member = value.get<bool>();
  }
  void read(const json& value, const std::string& place, std::string& member) {
    if (!value.is_string()) return wrong(place, "this should be text", "put it in quotes");
    member = value.get<std::string>();
  }
  void read(const json& value, const std::string& place, Money& member) {
    const double price = value.is_number() ? value.get<double>() : HUGE_VAL;
    const double cents = std::round(price * 100.0);
    if (std::abs(price) > kLargestPrice ||
        std::abs(price * 100.0 - cents) > 1e-6 * std::max(1.0, std::abs(cents) * 1e-6)) {
      return wrong(place, "a price is a number with at most two decimals",
                   "write it without quotes or sign, like 12.50");
    }
    member.cents = static_cast<std::int64_t>(cents);
  }
  template <class Choice>
    requires std::is_enum_v<Choice>
  void read(const json& value, const std::string& place, Choice& member) {
    const std::span<const Word> words = words_of(member);
    std::vector<std::string_view> known;
    for (const Word& each : words) known.push_back(each.word);
    const std::string_view written = value.is_string() ? std::string_view(value.get_ref<const std::string&>()) : "";
    const auto at = std::ranges::find(known, written);
    if (at != known.end()) {
      member = static_cast<Choice>(at - known.begin());
      return;
    }
    const std::string_view meant = nearest(written, known);
    wrong(place, "there is no such choice",
          meant.empty() ? fmt::format("choose one of \"{}\"", fmt::join(known, "\", \""))
                        : fmt::format("did you mean \"{}\"?", meant));
  }
  template <class Value>
  void read(const json& value, const std::string& place, std::optional<Value>& member) {
    Value inner{};
    const std::size_t before = problems_.size();
    read(value, place, inner);
    if (problems_.size() == before) member = inner;
  }
  template <class Item>
  void read(const json& value, const std::string& place, std::vector<Item>& member) {
    if (!value.is_array()) return wrong(place, "this should be a list", "put its items in [ ]");
    for (std::size_t i = 0; i < value.size(); ++i) {
      Item item{};
      const std::string item_place = fmt::format("{}[{}]", place, i);
      if constexpr (std::is_same_v<Item, std::string>)
        read(value[i], item_place, item);
      else
        read_group(value[i], item_place, item);
      member.push_back(std::move(item));
    }
  }

  const json& object_;
  std::string place_;
  Problems& problems_;
  std::vector<std::string_view> known_;
};

/// True when one place is the other or lies inside it.
bool touches(std::string_view p, std::string_view q) {
  if (p.size() > q.size()) std::swap(p, q);
  return q.starts_with(p) && (q.size() == p.size() || q[p.size()] == '.' || q[p.size()] == '[');
}

}  // namespace

Result<Job> read_job_json(std::string_view text) {
  Problems problems = check_json_text(text);
  if (!problems.empty()) return std::unexpected(std::move(problems));
  const json parsed = json::parse(text, nullptr, false);
  Job job;
  Reader(json::object(), "", problems).read_group(parsed, "", job);
  // What could not be read is still at its default: judging it, or what depends on it, would only repeat the problem.
  const Problems unread = problems;
  for (Problem& problem : check_job(job)) {
    const bool repeats = std::ranges::any_of(unread, [&](const Problem& p) { return touches(p.place, problem.place); });
    if (!repeats) problems.push_back(std::move(problem));
  }
  if (!problems.empty()) return std::unexpected(std::move(problems));
  return job;
}

}  // namespace pitchboard
