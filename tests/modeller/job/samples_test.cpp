#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <random>

#include "tests/modeller/job/contract_example.h"
#include "tests/modeller/job/reading.h"

namespace halfhard {
namespace {

namespace fs = std::filesystem;

// Stands in for the program that reads STEP files.
std::variant<TriangleBody, std::string> tetrahedron(const fs::path&) {
  TriangleBody body;
  body.vertices = {Vec3(0, 0, 0), Vec3(10, 0, 0), Vec3(0, 10, 0), Vec3(0, 0, 10)};
  body.triangles = {{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}};
  return body;
}

std::vector<fs::path> job_files() {
  std::vector<fs::path> files;
  for (const fs::path& folder :
       {fs::path(HALFHARD_SAMPLES), fs::path(HALFHARD_SAMPLES) / ".." / "modeller" / "starters"}) {
    for (const auto& entry : fs::directory_iterator(folder)) {
      if (entry.path().extension() == ".json") files.push_back(entry.path());
    }
  }
  std::ranges::sort(files);
  return files;
}

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

TEST(Samples, EverySampleAndStarterReadsWithoutAFault) {
  ReadOptions options;
  options.read_solid = tetrahedron;
  for (const fs::path& path : job_files()) {
    const JobReading reading = read_job_file(path, options);
    for (const JobProblem& problem : reading.problems) ADD_FAILURE() << problem.shown();
    EXPECT_TRUE(reading.job) << path;
  }
  EXPECT_GE(job_files().size(), 8u);
}

TEST(Samples, WorkingOutAgainGivesWhatReadingAfreshGives) {
  for (const fs::path& path : job_files()) {
    ReadOptions options;
    options.job_folder = path.parent_path();
    options.read_solid = tetrahedron;
    JobSource source(text_of(path), options);
    const auto first = source.read();
    ASSERT_TRUE(first.job) << path;
    for (const auto& [name, value] : first.job->values) {
      const std::map<std::string, std::string> set = {{name, number_text(value + 1)}};
      const auto again = source.read(set);
      ReadOptions fresh = options;
      fresh.set = set;
      const auto afresh = read_job(text_of(path), fresh);
      ASSERT_EQ(again.job.has_value(), afresh.job.has_value()) << path << name;
      EXPECT_EQ(again.problems, afresh.problems);
      if (!again.job) continue;
      EXPECT_EQ(again.job->runs, afresh.job->runs);
      EXPECT_EQ(again.job->connections, afresh.job->connections);
      EXPECT_EQ(again.job->values, afresh.job->values);
    }
  }
}

// Bytes changed, dropped, doubled or moved at random: whatever comes out must be a job or be refused with reasons.
TEST(Samples, NoMutationOfAJobCrashesTheReader) {
  std::vector<std::string> texts = {kContractExample};
  for (const fs::path& path : job_files()) texts.push_back(text_of(path));
  const unsigned start = 1125;
  std::cout << "first random state " << start << "\n";
  std::mt19937 random(start);
  const std::string marks = "{}[]\",:-+*/^().0123456789eE \\\n\x80\xFF'mino";
  ReadOptions options;
  options.read_solid = tetrahedron;
  int refused = 0;
  for (int i = 0; i < 20000; ++i) {
    std::string text = texts[random() % texts.size()];
    for (unsigned changes = 1 + random() % 4; changes > 0 && !text.empty(); --changes) {
      const std::size_t at = random() % text.size(), other = random() % text.size();
      switch (random() % 5) {
        case 0:
          text[at] = marks[random() % marks.size()];
          break;
        case 1:
          text.erase(at, 1 + random() % 12);
          break;
        case 2:
          text.insert(at, 1, marks[random() % marks.size()]);
          break;
        case 3:
          text.insert(at, text.substr(other, random() % 40));
          break;
        default:
          text.resize(at);
          break;
      }
    }
    const JobReading reading = read_job(text, options);
    ASSERT_NE(reading.job.has_value(), !reading.problems.empty());
    refused += reading.job ? 0 : 1;
    for (const JobProblem& problem : reading.problems) {
      ASSERT_FALSE(problem.found.empty());
      ASSERT_FALSE(problem.allowed.empty());
      ASSERT_EQ(problem.shown().find('\n'), std::string::npos);
    }
  }
  EXPECT_GT(refused, 10000);
  EXPECT_LT(refused, 20000);
}

}  // namespace
}  // namespace halfhard
