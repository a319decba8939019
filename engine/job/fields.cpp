#include "engine/job/fields.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "engine/job/inputs.hpp"

namespace pitchboard {
namespace {

using nlohmann::json;

template <class Member>
constexpr FieldType type_of() {
  if constexpr (std::is_enum_v<Member>)
    return FieldType::choice;
  else if constexpr (std::is_same_v<Member, Length>)
    return FieldType::length;
  else if constexpr (std::is_same_v<Member, double>)
    return FieldType::number;
  else if constexpr (std::is_same_v<Member, int>)
    return FieldType::count;
  else if constexpr (std::is_same_v<Member, bool>)
    return FieldType::yes_no;
  else if constexpr (std::is_same_v<Member, Money>)
    return FieldType::price;
  else if constexpr (std::is_same_v<Member, std::string>)
    return FieldType::text;
  else if constexpr (std::is_same_v<Member, std::vector<std::string>>)
    return FieldType::texts;
  else
    return FieldType::list;
}

/// RETURNS `3/8 in`: the tape's own words where they are exact, which every default and limit is.
std::string length_words(Length length) {
  std::string words = tape_plain(length);
  words.pop_back();
  words += " in";
  const Result<Length> back = read_length(words);
  return back && *back == length ? words : exact_text(length);
}

json default_of(Length value) { return length_words(value); }
json default_of(double value) { return value; }
json default_of(int value) { return value; }
json default_of(bool value) { return value; }
json default_of(const std::string& value) { return value.empty() ? json() : json(value); }
template <class Choice>
  requires std::is_enum_v<Choice>
json default_of(Choice value) {
  return word(value);
}
json default_of(const std::vector<std::string>&) { return {}; }
json default_of(Money) { return {}; }  // a price has no default that could be right

/// Turns the records into plain values, with the defaults of the group it visits.
class Describer {
 public:
  Describer(std::string place, std::vector<Field>& out) : place_(std::move(place)), out_(out) {}

  template <class Member>
  void operator()(const Input& input, const Member& member) {
    Field& field = add(input, type_of<Member>());
    if constexpr (std::is_enum_v<Member>) field.words = words_of(member);
    const json value = default_of(member);
    if (!input.required && !value.is_null()) field.default_value = value.dump();
  }
  template <class Member>
  void operator()(const Input& input, const std::optional<Member>&) {
    add(input, type_of<Member>());
  }
  template <class Item>
    requires(!std::is_same_v<Item, std::string>)
  void operator()(const Input& input, const std::vector<Item>&) {
    list<Item>(input);
  }
  void operator()(const Input& input, ReadingsOf<const Ground>) { list<Reading>(input); }
  template <class Group>
  void group(const Input& input, const Group& member) {
    Describer inner(add(input, FieldType::group).key, out_);
    inputs(inner, member);
  }

 private:
  Field& add(const Input& input, FieldType type) {
    return out_.emplace_back(
        Field{.key = place_.empty() ? std::string(input.key) : fmt::format("{}.{}", place_, input.key),
              .type = type,
              .sentence = input.sentence,
              .unit = input.unit,
              .range = input.range,
              .required = input.required,
              .default_why = input.why,
              .text_form = input.text_form});
  }
  template <class Item>
  void list(const Input& input) {
    Describer inner(add(input, FieldType::list).key + "[]", out_);
    const Item item{};
    inputs(inner, item);
  }

  std::string place_;
  std::vector<Field>& out_;
};

/// RETURNS the part of the schema that describes one field, without what is inside it.
json schema_of(const Field& field) {
  json out{{"description", field.sentence}};
  switch (field.type) {
    case FieldType::group:
      out.update({{"type", "object"}, {"additionalProperties", false}, {"properties", json::object()}});
      break;
    case FieldType::list:
      out.update({{"type", "array"},
                  {"items", {{"type", "object"}, {"additionalProperties", false}, {"properties", json::object()}}}});
      break;
    case FieldType::texts:
      out.update({{"type", "array"}, {"items", {{"type", "string"}}}});
      break;
    case FieldType::yes_no:
      out["type"] = "boolean";
      break;
    case FieldType::count:
      out["type"] = "integer";
      break;
    case FieldType::number:
    case FieldType::price:
      out["type"] = "number";
      break;
    case FieldType::choice:
      out["enum"] = json::array();
      for (const Word& each : field.words) out["enum"].push_back(each.word);
      break;
    case FieldType::length:
      out["$ref"] = "#/$defs/length";
      break;
    case FieldType::text:
      out["type"] = "string";
      break;
  }
  if (field.range && field.type == FieldType::length) out["x-range"] = range_words(field);
  if (field.range && field.type != FieldType::length) {
    out["minimum"] = field.range->least;
    out["maximum"] = field.range->most;
  }
  if (!field.unit.empty()) out["x-unit"] = field.unit;
  if (!field.text_form.empty()) out["x-form"] = field.text_form;
  if (!field.default_value.empty()) out["default"] = json::parse(field.default_value, nullptr, false);
  return out;
}

}  // namespace

std::vector<Field> fields() {
  std::vector<Field> out;
  Describer describer("", out);
  const Job usual;
  inputs(describer, usual);
  return out;
}

std::string_view type_words(FieldType type) {
  switch (type) {
    case FieldType::group:
      return "group";
    case FieldType::list:
      return "list";
    case FieldType::length:
      return "length";
    case FieldType::number:
      return "number";
    case FieldType::count:
      return "whole number";
    case FieldType::yes_no:
      return "true or false";
    case FieldType::text:
      return "text";
    case FieldType::texts:
      return "list of texts";
    case FieldType::choice:
      return "choice";
    case FieldType::price:
      return "price";
  }
  return "";
}

std::string range_words(const Field& field) {
  if (!field.range) return "";
  if (field.type == FieldType::length) {
    return fmt::format("{} to {}", length_words(inches(field.range->least)), length_words(inches(field.range->most)));
  }
  return fmt::format("{} to {}", field.range->least, field.range->most);
}

std::string schema_text() {
  json schema{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
              {"title", "Pitchboard job"},
              {"type", "object"},
              {"additionalProperties", false},
              {"properties", json::object()},
              {"$defs",
               {{"length",
                 {{"type", "string"},
                  {"description", "A length with its unit: 47 3/8 in, 3' 11-3/8\", 1203 mm, 1.2 m"},
                  {"examples", {"47 3/8 in", "3' 11-3/8\"", "1203 mm", "1.2 m"}}}}}}};
  for (const Field& field : fields()) {
    json* owner = &schema;
    std::string_view rest = field.key;
    for (std::size_t dot = rest.find('.'); dot != std::string_view::npos; dot = rest.find('.')) {
      std::string_view step = rest.substr(0, dot);
      const bool item = step.ends_with("[]");
      if (item) step.remove_suffix(2);
      owner = &(*owner)["properties"][step];
      if (item) owner = &(*owner)["items"];
      rest.remove_prefix(dot + 1);
    }
    (*owner)["properties"][rest] = schema_of(field);
    if (field.required) (*owner)["required"].push_back(rest);
  }
  return schema.dump(2) + "\n";
}

}  // namespace pitchboard
