#include "modeller/make/out_folder.h"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "geometry/base/trouble.h"
#include "modeller/make/file_names.h"

namespace halfhard {
namespace {

TEST(FileNames, AnythingOddBecomesAnUnderscoreAndNamesAreUniqueIgnoringCase) {
  EXPECT_EQ(safe_name("hot tail 1"), "hot_tail_1");
  EXPECT_EQ(safe_name("../../etc/passwd"), "______etc_passwd");
  EXPECT_EQ(safe_name("küche"), "k_che");
  EXPECT_EQ(safe_name(""), "_");
  UniqueNames names;
  EXPECT_EQ(names.name_for("Tail a"), "Tail_a");
  EXPECT_EQ(names.name_for("tail_A"), "tail_A_2");
  EXPECT_EQ(names.name_for("tail?a"), "tail_a_3");
}

class OutFolderTest : public testing::Test {
 protected:
  void SetUp() override {
    root_ = std::filesystem::temp_directory_path() / ("out_folder_test_" + std::to_string(::getpid()));
    std::filesystem::remove_all(root_);
  }
  void TearDown() override { std::filesystem::remove_all(root_); }
  std::string text_of(const std::string& name) const {
    std::ifstream file(root_ / "job" / name);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
  }
  std::filesystem::path root_;
};

TEST_F(OutFolderTest, WhatAnEarlierMakeWroteAndThisOneDidNotIsTakenAway) {
  {
    OutFolder first(root_, "job");
    first.write("old_pipe.step", "old");
    first.write("pipe.step", "one");
    first.finish();
  }
  std::ofstream(root_ / "job" / "my own notes.txt") << "keep";
  OutFolder second(root_, "job");
  second.write("pipe.step", "two");
  second.finish();
  EXPECT_FALSE(std::filesystem::exists(root_ / "job" / "old_pipe.step"));
  EXPECT_EQ(text_of("pipe.step"), "two");
  EXPECT_EQ(text_of("my own notes.txt"), "keep");
  EXPECT_EQ(text_of("halfhard-files.txt"), "pipe.step\n");
}

TEST_F(OutFolderTest, AListThatLeadsOutOfTheFolderIsNotFollowed) {
  std::filesystem::create_directories(root_ / "job");
  std::ofstream(root_ / "outside.txt") << "keep";
  std::ofstream(root_ / "job" / "halfhard-files.txt") << "../outside.txt\n";
  OutFolder folder(root_, "job");
  folder.finish();
  EXPECT_TRUE(std::filesystem::exists(root_ / "outside.txt"));
}

TEST_F(OutFolderTest, AFolderThatCannotBeMadeIsTrouble) {
  std::filesystem::create_directories(root_);
  std::ofstream(root_ / "job") << "a file where the folder should be";
  EXPECT_THROW(OutFolder(root_, "job"), Trouble);
}

}  // namespace
}  // namespace halfhard
