// Walks this folder: every NAME.json is a broken job, NAME.expected says in full what the reader answers.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "modeller/job/read_job.h"

namespace halfhard {
namespace {

namespace fs = std::filesystem;

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::vector<fs::path> hostile_files() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(fs::path(HALFHARD_TESTS_DIR) / "modeller/hostile")) {
    if (entry.path().extension() == ".json") files.push_back(entry.path());
  }
  std::ranges::sort(files);
  return files;
}

// The messages, one a line, with the file's name alone; then the exit status.
std::string answer_to(const fs::path& path) {
  ReadOptions options;
  options.read_solid = [](const fs::path&) { return std::string("no STEP file"); };
  std::string answer;
  JobReading reading = read_job_file(path, options);
  for (JobProblem& problem : reading.problems) {
    problem.file = fs::path(problem.file).filename().string();
    answer += problem.shown() + "\n";
  }
  return answer + "exit status " + std::to_string(reading.exit_status()) + "\n";
}

// After a change of wording: HALFHARD_WRITE_EXPECTED=1 writes the answers; look at every line before keeping them.
TEST(Hostile, EveryBrokenJobIsAnsweredAsExpected) {
  const bool write = std::getenv("HALFHARD_WRITE_EXPECTED") != nullptr;
  const auto files = hostile_files();
  EXPECT_GE(files.size(), 40u);
  for (const fs::path& path : files) {
    fs::path expected = path;
    expected.replace_extension(".expected");
    const std::string answer = answer_to(path);
    if (write) std::ofstream(expected, std::ios::binary) << answer;
    EXPECT_EQ(answer, text_of(expected)) << path.filename();
    EXPECT_NE(answer, "exit status 0\n") << path.filename();
  }
}

}  // namespace
}  // namespace halfhard
