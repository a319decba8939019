#include <nlohmann/json.hpp>

#include "engine/job/inputs.hpp"
#include "engine/job/read_job.hpp"

namespace pitchboard {
namespace {

using nlohmann::json;

/// Builds one JSON object from one group of the job.
class Writer {
 public:
  template <class Member>
  void operator()(const Input& input, const Member& member) {
    put(input.key, member);
  }
  void operator()(const Input& input, ReadingsOf<const Ground> line) {
    for (const ReadingLine& each : line.ground.lines) {
      if (each.line == line.line) put(input.key, each.readings);
    }
  }
  template <class Group>
  void group(const Input& input, const Group& member) {
    object_[input.key] = written(member);
  }

  template <class Group>
  static json written(const Group& group) {
    Writer inner;
    inputs(inner, group);
    return std::move(inner.object_);
  }

 private:
  template <class Value>
  void put(std::string_view key, const Value& value) {
    object_[key] = value_of(value);
  }
  template <class Value>
  void put(std::string_view key, const std::optional<Value>& value) {
    if (value) put(key, *value);
  }

  static json value_of(Length value) { return exact_text(value); }
  static json value_of(double value) { return value; }
  static json value_of(int value) { return value; }
  static json value_of(bool value) { return value; }
  static json value_of(const std::string& value) { return value; }
  static json value_of(Money value) { return static_cast<double>(value.cents) / 100.0; }
  template <class Choice>
    requires std::is_enum_v<Choice>
  static json value_of(Choice value) {
    return word(value);
  }
  template <class Item>
  static json value_of(const std::vector<Item>& items) {
    json out = json::array();
    for (const Item& item : items) {
      if constexpr (std::is_same_v<Item, std::string>)
        out.push_back(item);
      else
        out.push_back(written(item));
    }
    return out;
  }

  json object_ = json::object();
};

}  // namespace

std::string job_json(const Job& job) {
  return Writer::written(job).dump(2, ' ', false, json::error_handler_t::replace) + "\n";
}

}  // namespace pitchboard
