// Fields and menus of the chosen part, as a person's hands find them.
#include <gtest/gtest.h>

#include "tests/modeller/window/driven/driven.h"

namespace halfhard {
namespace {

class Fields : public Driven {
 protected:
  QMenu* add_menu() {
    for (QPushButton* button : window_->hand().findChildren<QPushButton*>())
      if (button->menu()) return button->menu();
    return nullptr;
  }
  std::vector<std::string> parts() {
    std::vector<std::string> all = {""};
    const auto members = [&](const char* pointer) {
      const JsonValue group = window_->document().tree().at(pointer);
      for (JsonValue member = group ? group.first() : JsonValue(); member; member = member.next())
        all.push_back(member.pointer());
    };
    for (const char* list : {"/tubes", "/benders", "/connections", "/fixtures", "/runs", "/runs/0/path", "/banks"})
      members(list);
    return all;
  }
};

TEST_F(Fields, EveryEntryOfEveryAddMenuOfEveryPartIsPressed) {
  int pressed = 0;
  for (const std::string& part : parts()) {
    window_->choose(part);
    QMenu* menu = add_menu();
    if (!menu) continue;
    const int entries = menu->actions().size();
    for (int entry = 0; entry < entries; ++entry) {
      window_->choose(part);
      menu = add_menu();
      ASSERT_TRUE(menu) << part;
      ASSERT_EQ(menu->actions().size(), entries) << part << ": undo brought not all of it back";
      const std::string before = window_->document().text();
      QAction* action = menu->actions()[entry];
      const std::string words = action->text().toStdString();
      menu->popup(window_->mapToGlobal(QPoint(40, 40)));
      QTest::mouseClick(menu, Qt::LeftButton, Qt::NoModifier, menu->actionGeometry(action).center());
      QCoreApplication::processEvents();
      QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
      ++pressed;
      if (window_->document().text() != before) window_->undo();
      EXPECT_EQ(window_->document().text(), before) << part << ": " << words;
    }
  }
  EXPECT_GT(pressed, 30);
}

TEST_F(Fields, UndoInAFieldIsTheJobs) {
  const std::string before = window_->document().text();
  window_->choose("/values/pitch");
  QLineEdit* field = type("/values/pitch", "310");
  ASSERT_TRUE(field);
  ASSERT_NE(window_->document().text(), before);
  QTest::keyClick(field, Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(window_->document().text(), before);
  EXPECT_EQ(window_->hand().field("/values/pitch")->text(), "300");
  QTest::keyClick(window_->hand().field("/values/pitch"), Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_EQ(window_->document().tree().at("/values/pitch").raw(), "310");
}

TEST_F(Fields, EachVisitToAFieldIsAStepOfUndoOfItsOwn) {
  window_->choose("/values/pitch");
  type("/values/pitch", "305");
  window_->items().setFocus();
  type("/values/pitch", "310");
  window_->undo();
  EXPECT_EQ(window_->document().tree().at("/values/pitch").raw(), "305");
  window_->undo();
  EXPECT_EQ(window_->document().tree().at("/values/pitch").raw(), "300");
}

TEST_F(Fields, ARefusedValueLeavesTheJobAsItWas) {
  window_->choose("/values/pitch");
  QLineEdit* field = type("/values/pitch", "31 cubits");
  EXPECT_EQ(window_->document().tree().at("/values/pitch").raw(), "300") << "not 31, which nobody meant";
  EXPECT_EQ(field->text(), "31 cubits") << "what was typed stays to be put right";
  EXPECT_TRUE(field->property("trouble").toBool());
  EXPECT_FALSE(window_->document().can_undo());
}

TEST_F(Fields, EachSaysWhatItsSumComesTo) {
  window_->choose("/runs/0");
  type("/runs/0/keep_clear", "1/2 in");
  bool said = false;
  for (QLabel* label : window_->hand().findChildren<QLabel*>("sum"))
    said = said || (label->isVisible() && label->text() == "= 12.5 mm");
  EXPECT_TRUE(said);
  type("/runs/0/keep_clear", "7");
  for (QLabel* label : window_->hand().findChildren<QLabel*>("sum"))
    EXPECT_FALSE(label->isVisible() && label->text() == "= 7 mm");
}

}  // namespace
}  // namespace halfhard
