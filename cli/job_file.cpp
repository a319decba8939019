#include "cli/job_file.hpp"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "engine/job/read_job.hpp"

namespace pitchboard {
namespace {

using nlohmann::json;

json json_of(const toml::node& node) {
  if (const toml::table* table = node.as_table()) {
    json out = json::object();
    for (const auto& [key, value] : *table) out[std::string(key.str())] = json_of(value);
    return out;
  }
  if (const toml::array* array = node.as_array()) {
    json out = json::array();
    for (const toml::node& value : *array) out.push_back(json_of(value));
    return out;
  }
  if (const auto* value = node.as_string()) return value->get();
  if (const auto* value = node.as_integer()) return value->get();
  if (const auto* value = node.as_floating_point()) return value->get();
  if (const auto* value = node.as_boolean()) return value->get();
  if (const auto* value = node.as_date()) {
    const toml::date date = value->get();
    return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
  }
  return nullptr;  // a time of day: no input takes one, so the reader refuses it in its place
}

}  // namespace

Result<std::string> json_of_toml(std::string_view toml) {
  try {
    const toml::table table = toml::parse(toml);
    return json_of(table).dump(2, ' ', false, json::error_handler_t::replace);
  } catch (const toml::parse_error& error) {
    const toml::source_position at = error.source().begin;
    return std::unexpected(
        Problems{{fmt::format("line {}, column {}", at.line, at.column), std::string(error.description()),
                  "mend the line; a value is text in quotes, a number, true, false or a list in [ ]"}});
  }
}

Result<Job> read_job_file(const std::filesystem::path& path) {
  std::error_code error;
  std::ifstream file(path, std::ios::binary);
  if (!file || std::filesystem::is_directory(path, error)) {
    return std::unexpected(Problems{{path.string(), "this file cannot be read", "check its name and who may read it"}});
  }
  std::ostringstream whole;
  whole << file.rdbuf();
  const std::string text = whole.str();
  if (path.extension() == ".json") return read_job_json(text);
  const Result<std::string> json = json_of_toml(text);
  if (!json) return std::unexpected(json.error());
  return read_job_json(*json);
}

}  // namespace pitchboard
