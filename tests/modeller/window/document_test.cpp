#include "modeller/window/document/document.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>
#include <iterator>

#include "modeller/job/json_patch.h"

namespace halfhard {
namespace {

std::string read(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

class DocumentTest : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::temp_directory_path() / ("halfhard-document-" + std::to_string(getpid()));
    std::filesystem::create_directories(folder_);
    file_ = (folder_ / "job.json").string();
    std::filesystem::copy_file(std::string(HALFHARD_SAMPLES) + "/basin-bank.json", file_,
                               std::filesystem::copy_options::overwrite_existing);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  Document open() { return Document::opened(file_, {}); }

  std::filesystem::path folder_;
  std::string file_;
};

TEST_F(DocumentTest, ASavedEditChangesNoOtherByte) {
  Document document = open();
  const std::string before = document.text();
  ASSERT_TRUE(document.plan());
  document.change(*with_value(document.tree(), "/title", "\"Another\""), "change title", "/title");
  EXPECT_TRUE(document.modified());
  ASSERT_EQ(document.save(), "");
  const std::string after = read(file_);
  const std::size_t at = after.find("\"Another\"");
  ASSERT_NE(at, std::string::npos);
  EXPECT_EQ(after.substr(0, at), before.substr(0, at));
  const std::string tail = after.substr(at + 9);
  EXPECT_EQ(tail, before.substr(before.size() - tail.size()));
  EXPECT_FALSE(document.modified());
}

TEST_F(DocumentTest, UndoLeadsBackToTheFirstTextAndRedoToTheLast) {
  Document document = open();
  const std::string first = document.text();
  for (int i = 0; i < 500; ++i)
    document.change(*with_value(document.tree(), "/title", text_json("title " + std::to_string(i))), "change title",
                    "");
  const std::string last = document.text();
  int steps = 0;
  for (; document.can_undo(); ++steps) document.undo();
  EXPECT_EQ(steps, 500);
  EXPECT_EQ(document.text(), first);
  while (document.can_redo()) document.redo();
  EXPECT_EQ(document.text(), last);
}

TEST_F(DocumentTest, TypingInOneFieldIsOneStep) {
  Document document = open();
  const std::string first = document.text();
  for (const char* typed : {"\"A\"", "\"An\"", "\"Ann\""})
    document.change(*with_value(document.tree(), "/title", typed), "change title", "/title");
  document.undo();
  EXPECT_EQ(document.text(), first);
  EXPECT_FALSE(document.can_undo());
}

TEST_F(DocumentTest, ATextThatCannotBeUsedKeepsTheLastGoodPlan) {
  Document document = open();
  const auto plan = document.plan();
  document.change("{ \"format\": 3 }", "spoil", "");
  EXPECT_FALSE(document.problems().empty());
  EXPECT_EQ(document.plan(), plan);
  document.undo();
  EXPECT_TRUE(document.problems().empty());
}

TEST_F(DocumentTest, WhatWasNotSavedIsFoundAgainAfterACrash) {
  std::string unsaved;
  {
    Document document = open();
    document.change(*with_value(document.tree(), "/title", "\"Unsaved\""), "change title", "");
    document.autosave();
    unsaved = document.text();
  }  // ends without saving
  Document again = open();
  ASSERT_TRUE(again.left_by_a_crash());
  EXPECT_EQ(again.left_by_a_crash()->text, unsaved);
  again.take_up(*again.left_by_a_crash());
  EXPECT_EQ(again.text(), unsaved);
  ASSERT_EQ(again.save(), "");
  EXPECT_FALSE(open().left_by_a_crash());
}

TEST_F(DocumentTest, ASecondWindowOnTheSameJobTouchesNotTheFirstOnesCopy) {
  std::string unsaved;
  {
    Document first = open(), second = open();
    first.change(first.text() + "\n", "first", "");
    first.autosave();
    EXPECT_FALSE(second.left_by_a_crash()) << "its window is still there";
    second.change(second.text() + "\n\n", "second", "");
    second.autosave();
    second.undo();
    second.autosave();  // nothing unsaved any more: its own copy goes
    ASSERT_EQ(second.save(), "");
    unsaved = first.text();
  }
  ASSERT_TRUE(open().left_by_a_crash());
  EXPECT_EQ(open().left_by_a_crash()->text, unsaved);
  SafetyCopy::drop(*open().left_by_a_crash());
  EXPECT_FALSE(open().left_by_a_crash());
}

TEST_F(DocumentTest, AFileChangedByAnotherIsNoticed) {
  Document document = open();
  EXPECT_FALSE(document.changed_on_disk());
  std::ofstream(file_, std::ios::app) << "\n";
  EXPECT_TRUE(document.changed_on_disk());
  document.take_from_disk();
  EXPECT_FALSE(document.changed_on_disk());
  EXPECT_EQ(document.text(), read(file_));
}

TEST_F(DocumentTest, AMissingFileIsSaidAndDoesNoHarm) {
  Document document = Document::opened((folder_ / "none.json").string(), {});
  ASSERT_FALSE(document.problems().empty());
  EXPECT_EQ(document.problems().front().exit_status, kFileTrouble);
  EXPECT_FALSE(document.plan());
}

}  // namespace
}  // namespace halfhard
