// Job files as people write them: TOML, converted at the edge and read by the one reader.

#include "cli/job_file.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <string>
#include <vector>

#include "engine/job/fields.hpp"
#include "engine/job/read_job.hpp"

namespace pitchboard {
namespace {

std::string all_of(const Problems& problems) {
  std::string out;
  for (const Problem& problem : problems) out += problem.place + ": " + problem.wrong + "\n";
  return out;
}

Result<Job> example(const std::string& name) {
  return read_job_file(std::filesystem::path(SOURCE_DIR) / "examples" / (name + ".toml"));
}

TEST(JobFile, EveryExampleReadsAndReadsBackEqualFromItsCanonicalForm) {
  int files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(SOURCE_DIR "/examples")) {
    if (entry.path().extension() != ".toml") continue;
    ++files;
    const Result<Job> job = read_job_file(entry.path());
    ASSERT_TRUE(job) << entry.path() << "\n" << all_of(job.error());
    const Result<Job> again = read_job_json(job_json(*job));
    ASSERT_TRUE(again) << all_of(again.error());
    EXPECT_EQ(job_json(*again), job_json(*job));
  }
  EXPECT_GE(files, 5);
}

TEST(JobFile, TheReadingsArriveAsTheyWereTaken) {
  const Result<Job> job = example("schoolhouse-side-door");
  ASSERT_TRUE(job) << all_of(job.error());
  ASSERT_EQ(job->ground.lines.size(), 2u);
  EXPECT_EQ(job->ground.lines[0].line, Line::left);
  EXPECT_EQ(job->ground.lines[1].line, Line::right);
  ASSERT_EQ(job->ground.lines[1].readings.size(), 3u);
  EXPECT_EQ(job->ground.lines[1].readings[2].down, inches(40.5625));
  EXPECT_EQ(job->ground.method, Method::laser);
  EXPECT_EQ(job->about.date, "2026-05-09");
  ASSERT_EQ(job->yard.ready_cut.size(), 3u);
  EXPECT_EQ(job->yard.ready_cut[2].price.cents, 2750);
  EXPECT_EQ(job->yard.offcuts.at(0).length, inches(80));
  const Result<Job> metric = example("garden-studio");
  ASSERT_TRUE(metric) << all_of(metric.error());
  EXPECT_EQ(metric->stair.going, millimetres(280));
  EXPECT_EQ(metric->about.units, UnitSystem::metric);
}

TEST(JobFile, NoExampleHasPaversBySaltWater) {
  for (const auto& entry : std::filesystem::directory_iterator(SOURCE_DIR "/examples")) {
    const Result<Job> job = read_job_file(entry.path());
    ASSERT_TRUE(job) << entry.path();
    EXPECT_FALSE(job->place.salt_water && job->pad.make == PadMake::pavers) << entry.path();
  }
}

TEST(JobFile, AnErrorOfTomlIsPlacedByLineAndColumn) {
  const Result<std::string> converted = json_of_toml("[about]\nname = porch\n");
  ASSERT_FALSE(converted);
  ASSERT_EQ(converted.error().size(), 1u);
  EXPECT_EQ(converted.error()[0].place.substr(0, 14), "line 2, column");
  EXPECT_FALSE(json_of_toml("[about]\nname = \"a\"\nname = \"b\"\n"));
  EXPECT_FALSE(json_of_toml("[=]"));
  EXPECT_FALSE(json_of_toml(std::string_view("[\0about]", 8)));
  EXPECT_FALSE(json_of_toml("a = " + std::string(100000, '[')));
}

TEST(JobFile, ATimeOfDayOrNoNumberIsRefusedInItsPlace) {
  const Result<std::string> converted = json_of_toml(
      "[about]\nname = \"n\"\ndate = 07:32:00\n[pad]\nfall = nan\n[ground]\nmiddle = [{ out = \"1 ft\", down = \"2 "
      "ft\" }]\n");
  ASSERT_TRUE(converted) << all_of(converted.error());
  const Result<Job> job = read_job_json(*converted);
  ASSERT_FALSE(job);
  EXPECT_EQ(all_of(job.error()), "about.date: this should be text\npad.fall: this should be a number\n");
}

TEST(JobFile, AFileThatCannotBeReadIsNamed) {
  for (const char* path : {"/nowhere/job.toml", "/"}) {
    const Result<Job> job = read_job_file(path);
    ASSERT_FALSE(job);
    EXPECT_EQ(job.error().at(0).place, path);
  }
}

TEST(JobFile, TheJobOnTheReferencePageReads) {
  const std::string page = job_file_reference();
  const std::size_t from = page.find("```toml\n") + 8;
  const Result<std::string> converted =
      json_of_toml(std::string_view(page).substr(from, page.find("```", from) - from));
  ASSERT_TRUE(converted) << all_of(converted.error());
  const Result<Job> job = read_job_json(*converted);
  EXPECT_TRUE(job) << all_of(job.error());
}

}  // namespace
}  // namespace pitchboard
