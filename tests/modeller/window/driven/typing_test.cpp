// What becomes of what is typed: one step of undo a visit, nothing left behind by what is refused, the safety copy kept.
#include "tests/modeller/window/driven/driven.h"

namespace halfhard {
namespace {

std::string raw_at(MainWindow& window, const char* pointer) {
  return std::string(window.document().tree().at(pointer).raw());
}

TEST_F(Driven, EachVisitToAValueIsAStepOfUndo) {
  window_->choose("/runs/0");
  ASSERT_TRUE(type("/runs/0/keep_clear", "7"));
  QTest::keyClick(window_->hand().field("/runs/0/keep_clear"), Qt::Key_Tab);
  ASSERT_TRUE(type("/runs/0/keep_clear", "9"));
  QTest::keyClick(window_->hand().field("/runs/0/keep_clear"), Qt::Key_S, Qt::ControlModifier);
  QTest::keyClicks(window_->hand().field("/runs/0/keep_clear"), "0");
  EXPECT_EQ(raw_at(*window_, "/runs/0/keep_clear"), "90");
  for (const char* then : {"9", "7"}) {
    window_->undo();
    EXPECT_EQ(raw_at(*window_, "/runs/0/keep_clear"), then);
  }
}

TEST_F(Driven, EachTickIsAStepOfUndo) {
  window_->choose("/benders/bench 15");
  QCheckBox* tick = window_->hand().findChild<QCheckBox*>();
  ASSERT_TRUE(tick);
  const std::string before = window_->document().text();
  tick->click();
  const std::string once = window_->document().text();
  tick->click();
  window_->undo();
  EXPECT_EQ(window_->document().text(), once);
  window_->undo();
  EXPECT_EQ(window_->document().text(), before);
}

TEST_F(Driven, EscapeGivesBackWhatStoodThere) {
  window_->choose("/runs/0");
  const std::string before = window_->document().text();
  const QString shown = window_->hand().field("/runs/0/keep_clear")->text();
  QLineEdit* field = type("/runs/0/keep_clear", "12");
  QTest::keyClick(field, Qt::Key_Escape);
  EXPECT_EQ(window_->document().text(), before);
  EXPECT_EQ(window_->hand().field("/runs/0/keep_clear")->text(), shown);
}

TEST_F(Driven, EscapeAtTheRecoveryQuestionKeepsTheSafetyCopy) {
  {
    Document earlier = Document::opened(file_, {});
    earlier.change(earlier.text() + "\n", "edit", "");
    earlier.autosave();
  }
  const auto answer = [&](Qt::Key key) {
    QTimer::singleShot(200, [key] {
      if (QWidget* box = QApplication::activeModalWidget()) QTest::keyClick(box, key);
    });
    window_->offer_what_was_left();
  };
  const auto copy = folder_ / ".job.json.unsaved";
  answer(Qt::Key_Escape);
  EXPECT_TRUE(std::filesystem::exists(copy));
  EXPECT_FALSE(window_->document().modified());
  answer(Qt::Key_Return);
  EXPECT_TRUE(window_->document().modified());
  window_->undo();
  EXPECT_FALSE(window_->document().modified());
}

TEST_F(Driven, AStartersTitleAsksToBeChanged) {
  for (QAction* action : window_->findChildren<QAction*>())
    if (action->text() == "offset") action->trigger();
  QLineEdit* title = window_->hand().field("/title");
  ASSERT_TRUE(title);
  EXPECT_TRUE(title->hasFocus());
  EXPECT_EQ(title->selectedText(), title->text());
}

TEST_F(Driven, APlainOffsetIsMadeARollingOneAndBack) {
  const std::string before = window_->document().text();
  window_->choose("/runs/0/path/3");
  ASSERT_EQ(window_->document().tree().at("/runs/0/path/3/offset").size(), 1);
  for (QAction* action : window_->hand().findChildren<QAction*>())
    if (action->text() == "shift back too") action->trigger();
  EXPECT_EQ(window_->document().tree().at("/runs/0/path/3/offset").size(), 2);
  EXPECT_EQ(QApplication::focusWidget(), window_->hand().field("/runs/0/path/3/offset/back"));
  window_->undo();
  EXPECT_EQ(window_->document().text(), before);
}

}  // namespace
}  // namespace halfhard
