// Every entry of every menu, of every kind of part: none may end the window, and none is offered that is always refused.
#include "tests/modeller/window/driven/driven.h"

namespace halfhard {
namespace {

std::vector<QAction*> entries_of(const QMenu* menu) {
  std::vector<QAction*> entries;
  for (QAction* action : menu->actions())
    if (!action->isSeparator()) entries.push_back(action);
  return entries;
}

QPushButton* button_of(QWidget* panel, const char* words) {
  for (QPushButton* button : panel->findChildren<QPushButton*>())
    if (button->text() == words && button->isVisibleTo(panel)) return button;
  return nullptr;
}

// What the job of every sample holds that has a line of its own, and its kind.
std::vector<std::string> parts_of(ItemList& items) {
  std::vector<std::string> pointers;
  for (QTreeWidgetItemIterator at(&items); *at; ++at)
    pointers.push_back((*at)->data(0, Qt::UserRole).toString().toStdString());
  return pointers;
}

class EverySample : public Driven, public ::testing::WithParamInterface<const char*> {
 protected:
  void SetUp() override {
    sample_ = GetParam();
    Driven::SetUp();
  }
};

TEST_P(EverySample, EveryValueThatIsOfferedForAPartIsAddedAndUndone) {
  const std::string before = window_->document().text();
  int added = 0;
  for (const std::string& pointer : parts_of(window_->items())) {
    window_->choose(pointer);
    QPushButton* more = button_of(&window_->hand(), "Add a value");
    const size_t count = more ? entries_of(more->menu()).size() : 0;
    for (size_t i = 0; i < count; ++i) {
      window_->choose("");
      window_->choose(pointer);
      more = button_of(&window_->hand(), "Add a value");
      ASSERT_TRUE(more) << pointer;
      ASSERT_EQ(entries_of(more->menu()).size(), count) << pointer;
      QAction* entry = entries_of(more->menu())[i];
      const std::string words = entry->text().toStdString();
      EXPECT_FALSE(entry->toolTip().isEmpty()) << words;
      // As by hand: the list is opened, and the entry taken in it.
      QTimer::singleShot(0, [menu = more->menu(), entry] {
        menu->setActiveAction(entry);
        QTest::keyClick(menu, Qt::Key_Return);
      });
      QTest::mouseClick(more, Qt::LeftButton);
      QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
      QCoreApplication::processEvents();
      EXPECT_NE(window_->document().text(), before) << pointer << ": " << words << " is offered and refused";
      EXPECT_TRUE(window_->document().plan());
      added += window_->document().text() != before;
      window_->undo();
      ASSERT_EQ(window_->document().text(), before) << pointer << ": " << words;
    }
  }
  EXPECT_GT(added, 10);
}

TEST_P(EverySample, EveryPartIsTakenOutOrSaysBesideTheButtonWhyNot) {
  const std::string before = window_->document().text();
  for (const std::string& pointer : parts_of(window_->items())) {
    window_->choose(pointer);
    QPushButton* out = button_of(&window_->hand(), "Take out");
    if (!out) continue;
    QTest::mouseClick(out, Qt::LeftButton);
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    if (window_->document().text() == before) {
      bool said = false;
      for (QLabel* label : window_->hand().findChildren<QLabel*>("trouble"))
        said = said || (label->isVisibleTo(&window_->hand()) && label->text().size() > 3);
      EXPECT_TRUE(said) << pointer;
      continue;
    }
    window_->undo();
    ASSERT_EQ(window_->document().text(), before) << pointer;
  }
}

INSTANTIATE_TEST_SUITE_P(Samples, EverySample,
                         ::testing::Values("basin-bank.json", "plant-cupboard.json", "joists.json", "laundry-inch.json",
                                           "passover-22.json", "too-tight.json"));

class InchJob : public Driven {
 protected:
  InchJob() { sample_ = "laundry-inch.json"; }
};

TEST_F(InchJob, AnotherUnitIsTypedAndTheHandStaysInItsField) {
  window_->choose("");
  QLineEdit* field = window_->hand().field("/length_unit");
  ASSERT_TRUE(field);
  field->setFocus();
  field->selectAll();
  QTest::keyClicks(field, "mm");
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  ASSERT_TRUE(window_->hand().field("/length_unit"));
  EXPECT_EQ(window_->hand().field("/length_unit")->text(), "mm");
  EXPECT_TRUE(window_->hand().field("/length_unit")->hasFocus());
}

}  // namespace
}  // namespace halfhard
