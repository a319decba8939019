// The records drive everything: what they list is read, written, described and documented, and nothing else is.

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <random>
#include <set>
#include <string>

#include "engine/base/catalog.hpp"
#include "engine/job/fields.hpp"
#include "engine/job/read_job.hpp"

namespace pitchboard {
namespace {

using nlohmann::json;

/// RETURNS where a key (`yard.stock[].length`) or place (`yard.stock[0].length`) lies in a job whose every list has one
/// item.
json::json_pointer pointer(std::string_view key) {
  std::string out = "/";
  for (const char c : key) {
    if (c == '.' || c == '[')
      out += '/';
    else if (c != ']')
      out += c;
    else if (out.ends_with('/'))
      out += '0';
  }
  return json::json_pointer(out);
}

bool is_leaf(const Field& field) { return field.type != FieldType::group && field.type != FieldType::list; }

/// RETURNS a value that the field takes and that no other field shares, where its type lets it.
json distinct_value(const Field& field, int number) {
  const double share = 0.2 + 0.005 * number;
  const Range range = field.range.value_or(Range{0, 1000});
  const double within = range.least + (range.most - range.least) * share;
  switch (field.type) {
    case FieldType::length:
      return exact_text(inches(within));
    case FieldType::number:
      return within;
    case FieldType::count:
      return static_cast<int>(range.least + std::min(range.most - range.least, 3.0 + number % 3));
    case FieldType::price:
      return std::round(within) / 4.0 + 0.25;
    case FieldType::yes_no:
      return field.default_value == "false";
    case FieldType::texts:
      if (field.text_form == "searched choice") return json::array({kSearchedChoices[1], kSearchedChoices[0]});
      return json::array({"one", "two"});
    case FieldType::choice:
      return field.words.back().word;
    default:
      break;
  }
  if (field.text_form == "section") return sections()[static_cast<std::size_t>(number) % sections().size()].nominal;
  if (field.text_form == "species") return species().back().key;
  if (field.text_form == "treatment") return treatments().back().key;
  if (field.text_form == "item") return hardware()[static_cast<std::size_t>(number) % hardware().size()].key;
  if (field.text_form == "date") return "2026-05-0" + std::to_string(1 + number % 9);
  if (field.text_form == "currency") return "CHF";
  return "text " + std::to_string(number);
}

/// A job in which every input has a value of its own, away from its default wherever two values exist, and no two
/// contradict.
json full_job() {
  json job;
  int number = 0;
  for (const Field& field : fields()) {
    if (is_leaf(field)) job[pointer(field.key)] = distinct_value(field, ++number);
  }
  job["stair"]["treads"] = "custom";
  job["stringers"]["kind"] = "ready-cut";
  job["stringers"]["count"] = 4;
  job["room"]["obstacles"][0]["out_to"] = "1100 in";
  job["room"]["obstacles"][0]["across_to"] = "590 in";
  job["room"]["overheads"][0]["out_to"] = "1100 in";
  return job;
}

std::string all_of(const Problems& problems) {
  std::string out;
  for (const Problem& problem : problems) out += problem.place + ": " + problem.wrong + "\n";
  return out;
}

TEST(JobRecords, EveryInputSurvivesReadingAndWriting) {
  const json job = full_job();
  const Result<Job> read = read_job_json(job.dump());
  ASSERT_TRUE(read) << all_of(read.error());
  EXPECT_EQ(json::diff(job, json::parse(job_json(*read))), json::array());
}

TEST(JobRecords, EveryInputRefusesAValueOfAnotherType) {
  for (const Field& field : fields()) {
    json job = full_job();
    job[pointer(field.key)] = field.type == FieldType::group ? json("text") : json(json::value_t::object);
    if (field.type == FieldType::list) job[pointer(field.key)] = "text";
    const Result<Job> read = read_job_json(job.dump());
    ASSERT_FALSE(read) << field.key;
    EXPECT_EQ(pointer(read.error()[0].place), pointer(field.key)) << all_of(read.error());
  }
}

TEST(JobRecords, EveryRangeIsHeldAtBothEnds) {
  int ranges = 0;
  for (const Field& field : fields()) {
    if (!field.range) continue;
    ++ranges;
    for (const double beyond : {field.range->least - 1, field.range->most + 1}) {
      if (field.type == FieldType::length && beyond < 0) continue;  // no text says it
      json job = full_job();
      job[pointer(field.key)] = field.type == FieldType::length ? json(exact_text(inches(beyond))) : json(beyond);
      const Result<Job> read = read_job_json(job.dump());
      ASSERT_FALSE(read) << field.key;
      bool placed = false;
      for (const Problem& problem : read.error()) placed |= pointer(problem.place) == pointer(field.key);
      EXPECT_TRUE(placed) << field.key << "\n" << all_of(read.error());
    }
  }
  EXPECT_GT(ranges, 40);
}

TEST(JobRecords, ARequiredInputIsMissedAndAnyOtherIsNot) {
  for (const Field& field : fields()) {
    if (!is_leaf(field)) continue;
    json job = full_job();
    const json::json_pointer at = pointer(field.key);
    job[at.parent_pointer()].erase(at.back());
    const Result<Job> read = read_job_json(job.dump());
    bool missed = false;
    if (!read) {
      for (const Problem& problem : read.error())
        missed |= problem.wrong == "this is missing" && pointer(problem.place) == at;
    }
    EXPECT_EQ(missed, field.required) << field.key;
  }
}

TEST(JobRecords, TheDefaultShownIsTheDefaultUsed) {
  const json plain =
      json::parse(R"({"about": {"name": "n"}, "ground": {"middle": [{"out": "1 ft", "down": "26 in"}]}})");
  const Result<Job> without = read_job_json(plain.dump());
  ASSERT_TRUE(without);
  int defaults = 0;
  for (const Field& field : fields()) {
    if (field.default_value.empty() || field.key.find('[') != std::string::npos) continue;
    json job = plain;
    job[pointer(field.key)] = json::parse(field.default_value);
    const Result<Job> with = read_job_json(job.dump());
    ASSERT_TRUE(with) << field.key << "\n" << all_of(with.error());
    EXPECT_EQ(job_json(*with), job_json(*without)) << field.key;
    ++defaults;
  }
  EXPECT_GT(defaults, 40);
}

TEST(JobRecords, EveryInputHasASentenceAndEveryDefaultASource) {
  std::set<std::string> keys;
  for (const Field& field : fields()) {
    EXPECT_TRUE(keys.insert(field.key).second) << field.key;
    EXPECT_TRUE(field.sentence.ends_with('.')) << field.key;
    EXPECT_EQ(field.default_why.empty(), field.required || field.type == FieldType::group) << field.key;
    EXPECT_EQ(field.words.empty(), field.type != FieldType::choice) << field.key;
    for (const Word& each : field.words) EXPECT_TRUE(each.sentence.ends_with('.')) << field.key;
  }
}

TEST(JobRecords, TheSchemaHasEveryInputAndNoOther) {
  const json schema = json::parse(schema_text());
  std::set<std::string> wanted, found;
  for (const Field& field : fields()) wanted.insert(field.key);
  const auto walk = [&](const auto& self, const json& object, const std::string& place) -> void {
    EXPECT_EQ(object.at("additionalProperties"), false) << place;
    for (const auto& [key, value] : object.at("properties").items()) {
      const std::string here = place.empty() ? key : place + "." + key;
      found.insert(here);
      EXPECT_TRUE(value.contains("description")) << here;
      if (value.contains("properties")) self(self, value, here);
      if (value.contains("items") && value["items"].contains("properties")) self(self, value["items"], here + "[]");
    }
  };
  walk(walk, schema, "");
  EXPECT_EQ(found, wanted);
}

TEST(JobRecords, TheReferencePageIsUpToDate) {
  std::ifstream file(SOURCE_DIR "/docs/job-file.md");
  const std::string page{std::istreambuf_iterator<char>(file), {}};
  EXPECT_TRUE(page == job_file_reference()) << "write it again: pitchboard fields --markdown > docs/job-file.md";
}

TEST(JobRecords, ADamagedJobIsReadWholeOrRefusedAndReadsBackEqual) {
  const std::string good = full_job().dump();
  std::mt19937 random(7);
  const auto pick = [&](std::size_t n) { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random); };
  constexpr std::string_view kDamage = "{}[],:\"0123456789-.eE/' inmft\\\xC2\xE2";
  int read = 0;
  for (int i = 0; i < 4000; ++i) {
    std::string text = good;
    for (std::size_t hits = 1 + pick(3); hits > 0; --hits) {
      const std::size_t at = pick(text.size());
      if (pick(3) == 0)
        text.erase(at, 1 + pick(4));
      else
        text[at] = kDamage[pick(kDamage.size())];
    }
    const Result<Job> job = read_job_json(text);
    if (!job) {
      ASSERT_FALSE(job.error().empty());
      continue;
    }
    ++read;
    const std::string written = job_json(*job);
    const Result<Job> again = read_job_json(written);
    ASSERT_TRUE(again) << all_of(again.error());
    ASSERT_EQ(job_json(*again), written);
  }
  EXPECT_GT(read, 100);
}

}  // namespace
}  // namespace pitchboard
