// What `make` writes for every sample: readable, the same every time, no two files of one name.
#include "modeller/make/papers.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include "exporters/arrangement/arrangement.h"
#include "exporters/bench/bench_cards.h"
#include "exporters/bench/marking_sheet.h"
#include "exporters/cutting/cut_list.h"
#include "exporters/drilling/drilling.h"
#include "exporters/fabrication/fabrication_sheet.h"
#include "exporters/sheet/clashes.h"
#include "modeller/loading/load_job.h"
#include "modeller/planner/planner.h"

namespace halfhard {
namespace {

std::vector<std::string> samples() {
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::directory_iterator(HALFHARD_SAMPLES)) {
    if (entry.path().extension() == ".json") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

LoadedJob loaded(const std::string& file) {
  LoadedJob job = load_job(file, {});
  EXPECT_TRUE(job.plan) << file << ": " << (job.problems.empty() ? "" : job.problems[0].shown());
  return job;
}

class EverySample : public testing::TestWithParam<std::string> {};

std::vector<Sheet> all_sheets(const Plan& plan) {
  std::vector<Sheet> sheets = arrangement_sheets(plan);
  const auto add = [&](const std::vector<Sheet>& more) { sheets.insert(sheets.end(), more.begin(), more.end()); };
  for (const auto& run : plan.runs) {
    add(fabrication_sheets(plan, *run));
    add(bench_cards(plan, *run));
  }
  add(marking_sheets(plan));
  for (const DrillingPaper& paper : drilling_papers(plan)) sheets.push_back(paper.sheet);
  add(cut_list_document(cut_list({&plan}), plan).sheets);
  return sheets;
}

TEST_P(EverySample, NoTextOnAnySheetMeetsAnotherOrLeavesTheFrame) {
  const LoadedJob job = loaded(GetParam());
  ASSERT_TRUE(job.plan);
  int looked_at = 0;
  for (const Sheet& sheet : all_sheets(*job.plan)) {
    ++looked_at;
    for (const Clash& clash : text_clashes(sheet)) {
      ADD_FAILURE() << sheet.title << ": \"" << clash.first << "\" meets \"" << clash.second << "\" at "
                    << clash.at.transpose();
    }
  }
  EXPECT_GE(looked_at, 4);
}

TEST_P(EverySample, TheSameJobGivesTheSameBytesAndNoTwoFilesShareAName) {
  const LoadedJob once = loaded(GetParam()), again = loaded(GetParam());
  ASSERT_TRUE(once.plan && again.plan);
  const std::vector<Paper> papers = papers_of(*once.plan), others = papers_of(*again.plan);
  ASSERT_EQ(papers.size(), others.size());
  std::set<std::string> names;
  for (std::size_t i = 0; i < papers.size(); ++i) {
    std::string name = papers[i].name;
    std::transform(name.begin(), name.end(), name.begin(), [](unsigned char c) { return std::tolower(c); });
    EXPECT_TRUE(names.insert(name).second) << name;
    const std::string bytes = papers[i].bytes();
    EXPECT_FALSE(bytes.empty()) << name;
    EXPECT_TRUE(bytes == others[i].bytes()) << name << " differs from one time to the next";
  }
}

INSTANTIATE_TEST_SUITE_P(Samples, EverySample, testing::ValuesIn(samples()), [](const auto& sample) {
  std::string name = std::filesystem::path(sample.param).stem();
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(Papers, TheJobPageOfEightPipesIsSmallEnoughToBeSentToAPhone) {
  const LoadedJob job = loaded(std::string(HALFHARD_SAMPLES) + "/basin-bank.json");
  for (const Paper& paper : papers_of(*job.plan)) {
    if (paper.name != "job.html") continue;
    const std::string page = paper.bytes();
    EXPECT_LT(page.size(), 3'000'000u);
    for (const char* sheet : {"Arrangement", "Cut list", "Drilling: back panel", "Card 1", "Fabrication sheet"})
      EXPECT_NE(page.find(std::string("<summary>") + sheet), std::string::npos) << sheet;
  }
}

TEST(Papers, AFailingRunSaysSoOnEveryKindOfPaper) {
  const LoadedJob job = loaded(std::string(HALFHARD_SAMPLES) + "/too-tight.json");
  ASSERT_TRUE(job.plan);
  int checked = 0;
  for (const Paper& paper : papers_of(*job.plan)) {
    if (!paper.name.ends_with(".dxf") && !paper.name.ends_with(".step") && !paper.name.ends_with(".txt") &&
        !paper.name.ends_with(".csv") && !paper.name.ends_with(".html")) {
      continue;
    }
    if (paper.name.starts_with("hot_tail") || paper.name.starts_with("job")) {
      EXPECT_NE(paper.bytes().find("NOT TO BE MADE"), std::string::npos) << paper.name;
      ++checked;
    }
  }
  EXPECT_GE(checked, 6);
}

TEST(Papers, RunsNamedLikeEachOthersPapersDoNotOverwriteThem) {
  const std::string text = R"({"format": "halfhard-job/1", "tubes": {"t": {"outside_diameter": 15, "wall": 0.7}},
    "benders": {"b": {"former_radius": 55}}, "runs": [
    {"name": "tail", "tube": "t", "bender": "b", "from": {"at": [0, 0, 0], "towards": "up"}, "path": [{"go": "up", "by": 300}]},
    {"name": "tail-blank", "tube": "t", "bender": "b", "from": {"at": [90, 0, 0], "towards": "up"}, "path": [{"go": "up", "by": 300}]},
    {"name": "report", "tube": "t", "bender": "b", "from": {"at": [180, 0, 0], "towards": "up"}, "path": [{"go": "up", "by": 300}]}]})";
  const JobReading reading = read_job(text, {});
  ASSERT_TRUE(reading.job);
  const Planned planned = plan_job(*reading.job);
  ASSERT_TRUE(planned.plan);
  std::set<std::string> names;
  for (const Paper& paper : papers_of(*planned.plan)) EXPECT_TRUE(names.insert(paper.name).second) << paper.name;
  EXPECT_TRUE(names.contains("tail-blank.dxf"));
  EXPECT_TRUE(names.contains("tail-blank_2.dxf"));
}

}  // namespace
}  // namespace halfhard
