#include "engine/job/job_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

namespace pitchboard {
namespace {

/// A job nests four deep: job, group, list, item.
constexpr std::size_t kDeepest = 16;

/// Walks the text without building it. Signatures are those of nlohmann's SAX interface.
class Scan : public nlohmann::json_sax<nlohmann::json> {
 public:
  explicit Scan(std::string_view text) : text_(text) {}

  bool null() override { return value(); }
  bool boolean(bool) override { return value(); }
  bool number_integer(number_integer_t) override { return value(); }
  bool number_unsigned(number_unsigned_t) override { return value(); }
  bool number_float(number_float_t, const string_t&) override { return value(); }
  bool string(string_t&) override { return value(); }
  bool binary(binary_t&) override { return value(); }
  bool start_object(std::size_t) override { return open(true); }
  bool start_array(std::size_t) override { return open(false); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }

  bool key(string_t& name) override {
    Level& level = levels_.back();
    level.key = name;
    if (!level.keys.insert(name).second) {
      problems.push_back({place(), fmt::format("'{}' is given twice", name), "keep one of them"});
    }
    return true;
  }

  bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception&) override {
    const std::string_view before = text_.substr(0, std::min(position > 0 ? position - 1 : 0, text_.size()));
    const auto line = 1 + std::ranges::count(before, '\n');
    const std::size_t column = before.size() - (before.rfind('\n') + 1) + 1;  // npos + 1 is the start of the text
    problems.push_back({fmt::format("line {}, column {}", line, column), "the text is not JSON from here on",
                        "look for a missing comma, quote or bracket, or a number too large to hold"});
    return false;
  }

  Problems problems;

 private:
  struct Level {
    bool object = false;
    std::string key;
    std::size_t items = 0;
    std::set<std::string, std::less<>> keys;
  };

  bool value() {
    if (!levels_.empty()) ++levels_.back().items;
    return true;
  }
  bool open(bool object) {
    if (levels_.size() == kDeepest) {
      problems.push_back({place(), "the text nests deeper than any job does", "see docs/job-file.md for its shape"});
      return false;
    }
    levels_.push_back({object, {}, 0, {}});
    return true;
  }
  bool close() {
    levels_.pop_back();
    return value();
  }
  [[nodiscard]] std::string place() const {
    std::string out;
    for (const Level& level : levels_) {
      if (level.object)
        out += (out.empty() ? "" : ".") + level.key;
      else
        out += fmt::format("[{}]", level.items);
    }
    return out;
  }

  std::string_view text_;
  std::vector<Level> levels_;
};

}  // namespace

Problems check_json_text(std::string_view json) {
  Scan scan(json);
  nlohmann::json::sax_parse(json, &scan);
  return scan.problems;
}

}  // namespace pitchboard
