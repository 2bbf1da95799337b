// A window on a job of its own, driven by the toolkit's test events.
#pragma once

#include <gtest/gtest.h>
#include <unistd.h>

#include <QtTest/QTest>
#include <QtWidgets>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "modeller/window/main_window.h"

namespace halfhard {

class Driven : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::temp_directory_path() / ("halfhard-driven-" + std::to_string(getpid()));
    std::filesystem::create_directories(folder_);
    file_ = (folder_ / "job.json").string();
    std::filesystem::copy_file(std::string(HALFHARD_SAMPLES) + "/" + sample_, file_,
                               std::filesystem::copy_options::overwrite_existing);
    open();
  }
  void TearDown() override {
    window_.reset();
    std::filesystem::remove_all(folder_);
  }
  void open() {
    window_ = std::make_unique<MainWindow>(Document::opened(file_, {}), LoadOptions{}, false);
    window_->show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(window_.get()));
    QApplication::setActiveWindow(window_.get());  // there is no window manager to do it
    QCoreApplication::processEvents();
  }
  std::string on_disk() const {
    std::ifstream stream(file_, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
  }
  QLineEdit* type(const std::string& pointer, const char* typed) {
    QLineEdit* field = window_->hand().field(pointer);
    if (!field) return nullptr;
    field->setFocus();
    field->selectAll();
    QTest::keyClicks(field, typed);
    return field;
  }

  std::string sample_ = "basin-bank.json";
  std::filesystem::path folder_;
  std::string file_;
  std::unique_ptr<MainWindow> window_;
};

}  // namespace halfhard
