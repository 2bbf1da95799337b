// The papers, made from the window by the program beside it.
#include "tests/modeller/window/driven/driven.h"

namespace halfhard {
namespace {

QMessageBox* box_shown() {
  for (int i = 0; i < 1200; ++i) {
    for (QWidget* widget : QApplication::topLevelWidgets())
      if (auto* box = qobject_cast<QMessageBox*>(widget); box && box->isVisible()) return box;
    QTest::qWait(25);
  }
  return nullptr;
}

TEST_F(Driven, ThePapersAreMadeBesideTheJobAndTheBoxSaysWhere) {
  window_->make_papers_in(QString::fromStdString(folder_.string()));
  QMessageBox* box = box_shown();
  ASSERT_TRUE(box);
  const std::filesystem::path made = folder_ / "job";
  EXPECT_TRUE(box->text().contains(QString::fromStdString(made.string()))) << box->text().toStdString();
  int files = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(made)) files += entry.is_regular_file();
  EXPECT_GT(files, 10);
  box->close();
}

TEST_F(Driven, WhyNoPapersCouldBeMadeIsSaid) {
  std::ofstream(folder_ / "no folder") << "a file";
  window_->make_papers_in(QString::fromStdString((folder_ / "no folder").string()));
  QMessageBox* box = box_shown();
  ASSERT_TRUE(box);
  EXPECT_EQ(box->text(), "No papers were made.");
  EXPECT_FALSE(box->informativeText().isEmpty());
  box->close();
}

TEST_F(Driven, SavedAsAnotherFileItIsThatFileFromThenOn) {
  const std::string other = (folder_ / "other.json").string();
  window_->choose("/runs/0");
  ASSERT_TRUE(type("/runs/0/keep_clear", "6"));
  const std::string before = on_disk();
  QTimer::singleShot(300, [&] {
    auto* dialog = qobject_cast<QFileDialog*>(QApplication::activeModalWidget());
    if (!dialog) return;
    dialog->findChild<QLineEdit*>()->setText(QString::fromStdString(other));
    QTest::keyClick(dialog->findChild<QLineEdit*>(), Qt::Key_Return);
  });
  ASSERT_TRUE(window_->save_as());
  EXPECT_EQ(window_->document().file(), other);
  EXPECT_FALSE(window_->document().modified());
  EXPECT_EQ(on_disk(), before);
  file_ = other;
  EXPECT_EQ(on_disk(), window_->document().text());
}

}  // namespace
}  // namespace halfhard
