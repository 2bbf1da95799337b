// `make` as a person starts it: several jobs at once, odd folders, little memory, closed streams.
#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <map>

#include "tests/modeller/commands/run_program.h"

namespace halfhard {
namespace {

namespace fs = std::filesystem;

const std::string kJobs = std::string(HALFHARD_TESTS_DIR) + "/modeller/commands/jobs";

class Make : public testing::Test {
 protected:
  void SetUp() override {
    root_ = fs::temp_directory_path() / ("halfhard-make-" + std::to_string(getpid()));
    fs::remove_all(root_);
    fs::create_directories(root_);
  }
  void TearDown() override { fs::remove_all(root_); }

  Said make(std::vector<std::string> jobs, const std::string& out) {
    jobs.insert(jobs.begin(), "make");
    jobs.insert(jobs.end(), {"--out", (root_ / out).string(), "--no-pictures"});
    return run_program("halfhard", jobs, kJobs);
  }
  std::map<std::string, std::string> files_in(const fs::path& folder) {
    std::map<std::string, std::string> files;
    for (const auto& entry : fs::directory_iterator(folder))
      files[entry.path().filename()] = text_of_file(entry.path());
    return files;
  }
  // In a shell, for limits and closed streams.
  int shell(const std::string& command) {
    const int status = std::system(command.c_str());
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }

  fs::path root_;
};

TEST_F(Make, TwoJobsInOneCommandGiveTheSameBytesAsEachAlone) {
  const std::vector<std::string> jobs = {"three-differing-runs", "contract-example"};
  ASSERT_LE(make({jobs[0] + ".json", jobs[1] + ".json"}, "together").status, 1);
  for (const std::string& job : jobs) {
    ASSERT_LE(make({job + ".json"}, "alone").status, 1);
    const auto together = files_in(root_ / "together" / job), alone = files_in(root_ / "alone" / job);
    ASSERT_GT(alone.size(), 20u);
    ASSERT_EQ(together.size(), alone.size());
    for (const auto& [name, bytes] : alone) EXPECT_TRUE(together.at(name) == bytes) << job << "/" << name;
  }
  // And once more from the top, in one process with other work before it.
  ASSERT_LE(make({jobs[1] + ".json", jobs[0] + ".json"}, "turned").status, 1);
  for (const std::string& job : jobs)
    EXPECT_TRUE(files_in(root_ / "turned" / job) == files_in(root_ / "together" / job)) << job;
}

TEST_F(Make, NothingIsWrittenThroughALink) {
  fs::create_directories(root_ / "elsewhere");
  fs::create_directories(root_ / "out");
  fs::create_directory_symlink(root_ / "elsewhere", root_ / "out" / "contract-example");
  const Said said = make({"contract-example.json"}, "out");
  EXPECT_EQ(said.status, 3);
  EXPECT_NE(said.err.find("link"), std::string::npos) << said.err;
  EXPECT_TRUE(fs::is_empty(root_ / "elsewhere"));

  fs::remove(root_ / "out" / "contract-example");
  fs::create_directories(root_ / "out" / "contract-example");
  std::ofstream(root_ / "mine.txt") << "keep";
  fs::create_symlink(root_ / "mine.txt", root_ / "out" / "contract-example" / "report.json");
  fs::create_symlink(root_ / "mine.txt", root_ / "out" / "contract-example" / "halfhard-files.txt");
  EXPECT_EQ(make({"contract-example.json"}, "out").status, 0);
  EXPECT_EQ(text_of_file(root_ / "mine.txt"), "keep");
}

TEST_F(Make, AFolderThatCannotBeMadeIsSaidInOneLineAndLeavesWithThree) {
  std::ofstream(root_ / "file") << "in the way";
  const Said said = make({"contract-example.json"}, "file/out");
  EXPECT_EQ(said.status, 3);
  EXPECT_NE(said.err.find("cannot be made"), std::string::npos) << said.err;
}

TEST_F(Make, TooLittleMemoryIsSaidAndLeavesWithThree) {
  std::ofstream big(root_ / "big.json");
  big << "[1";
  for (int i = 0; i < 20'000'000; ++i) big << ",1";
  big << "]";
  big.close();
  const std::string program = std::string(HALFHARD_PROGRAMS) + "/halfhard";
  const std::string err = (root_ / "err").string();
  EXPECT_EQ(shell("ulimit -v 400000; " + program + " check " + (root_ / "big.json").string() + " >/dev/null 2>" + err),
            3);
  EXPECT_EQ(text_of_file(err), "halfhard: this needs more memory than there is\n");
}

TEST_F(Make, WhatHasNoEndIsNotRead) {
  const std::string fifo = (root_ / "fifo").string();
  ASSERT_EQ(shell("mkfifo " + fifo), 0);
  for (const std::string& file : {fifo, std::string("/dev/zero")}) {
    const Said said = run_program("halfhard", {"check", file});
    EXPECT_EQ(said.status, 3) << file;
    EXPECT_NE(said.err.find("no plain file"), std::string::npos) << said.err;
  }
}

TEST_F(Make, ClosedStreamsLeaveThePapersAlone) {
  const std::string program = std::string(HALFHARD_PROGRAMS) + "/halfhard";
  const auto made = [&](const std::string& out, const std::string& streams) {
    shell("cd " + kJobs + "; " + program + " make contract-example.json --no-pictures --out " + (root_ / out).string() +
          streams);
    return files_in(root_ / out / "contract-example");
  };
  const auto usual = made("usual", " >/dev/null 2>&1"), closed = made("closed", " <&- >&- 2>&-");
  EXPECT_TRUE(usual == closed);
}

}  // namespace
}  // namespace halfhard
