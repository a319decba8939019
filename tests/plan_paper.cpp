// The printed set of random jobs: no text on another, none off the paper's margin.

#include <gtest/gtest.h>

#include "engine/draw/canvas.hpp"
#include "engine/draw/text_metrics.hpp"
#include "tests/plan_shards.hpp"

using namespace pitchboard;

namespace {

constexpr std::uint32_t kPapers = kSanitized ? 2 : 24;  ///< jobs tried in a shard: some 200 that fit, all told

/// RETURNS what is wrong with the texts of a sheet, a line for each.
std::string faults_of(const Sheet& sheet) {
  std::string out;
  std::vector<std::array<SheetPoint, 4>> boxes;
  for (const SheetText& text : sheet.texts) boxes.push_back(text_box(text));
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    for (const SheetPoint& p : boxes[i]) {
      const bool inside = p.x >= kMargin - 0.5 && p.x <= sheet.width - kMargin + 0.5 && p.y >= kMargin - 0.5 &&
                          p.y <= sheet.height - kMargin + 0.5;
      if (inside) continue;
      out += "\n" + sheet.name + ": '" + sheet.texts[i].text + "' leaves the margin";
      break;
    }
    for (std::size_t j = i + 1; j < boxes.size(); ++j) {
      if (!boxes_overlap(boxes[i], boxes[j])) continue;
      out += "\n" + sheet.name + ": '" + sheet.texts[i].text + "' on '" + sheet.texts[j].text + "'";
    }
  }
  return out;
}

class Papers : public Shard {};
INSTANTIATE_TEST_SUITE_P(RandomJobs, Papers, ::testing::Range(0u, kShards));

}  // namespace

TEST_P(Papers, EveryTextStandsAloneInsideTheMargins) {
  // Faults are gathered, so that one run shows those of every job in the shard.
  std::string faults;
  plan_shard(
      GetParam(),
      [&](std::uint32_t seed, const Plan& plan) {
        for (const Paper paper : {Paper::letter, Paper::a4}) {
          const std::vector<Sheet> sheets = draw_sheets(plan, paper);
          EXPECT_GE(sheets.size(), 6u);
          for (const Sheet& sheet : sheets) {
            const std::string found = faults_of(sheet);
            if (found.empty()) continue;
            faults += "\nrandom job " + std::to_string(seed) + (paper == Paper::a4 ? ", A4" : ", Letter") + found;
          }
        }
      },
      kPapers);
  EXPECT_EQ(faults, "");
}
