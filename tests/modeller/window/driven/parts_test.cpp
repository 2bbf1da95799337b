// Adding to a job as a person would: by keys and in the dialogs.
#include <gtest/gtest.h>

#include "modeller/window/calibrate_dialog.h"
#include "modeller/window/prove_dialog.h"
#include "tests/modeller/window/driven/driven.h"

namespace halfhard {
namespace {

// Does something in the next dialog that opens, which otherwise would wait for a person for ever.
template <class Does>
void in_the_next_dialog(Does does) {
  QTimer::singleShot(0, qApp, [does] {
    auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
    if (!dialog)
      in_the_next_dialog(does);
    else
      does(*dialog);
  });
}

void say_yes(QDialog& dialog) {
  QTest::mouseClick(dialog.findChild<QDialogButtonBox*>()->button(QDialogButtonBox::Ok), Qt::LeftButton);
}

TEST_F(Driven, AnOffsetIsPutIntoTheChosenLegByAKeyAndUndone) {
  const std::string before = window_->document().text();
  const size_t bends = window_->document().plan()->runs.front()->bends.size();
  window_->choose("/runs/0/path/0");
  QTest::keyClick(window_.get(), Qt::Key_O, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_EQ(window_->document().plan()->runs.front()->bends.size(), bends + 2);
  EXPECT_EQ(window_->items().chosen(), "/runs/0/path/1");
  ASSERT_TRUE(window_->hand().field("/runs/0/path/1/offset/right"));
  window_->undo();
  EXPECT_EQ(window_->document().text(), before);
}

TEST_F(Driven, AValueIsAddedAndIsAtOnceOfUseInASum) {
  in_the_next_dialog([](QDialog& dialog) {
    const auto fields = dialog.findChildren<QLineEdit*>();
    fields[0]->setText("name");  // a word that fields use too
    fields[1]->setText("2 in");
    say_yes(dialog);
  });
  for (QAction* action : window_->findChildren<QAction*>())
    if (action->text() == "Add a &value...") action->trigger();
  EXPECT_EQ(window_->items().chosen(), "/values/name");
  ASSERT_TRUE(type("/values/name", "8"));
  EXPECT_EQ(window_->document().tree().at("/values/name").raw(), "8")
      << "a number, not the text of a field of that name";
  window_->choose("/runs/0");
  ASSERT_TRUE(type("/runs/0/keep_clear", "2 * name"));
  EXPECT_EQ(window_->document().plan()->runs.front()->keep_clear_mm, 16);
}

TEST_F(Driven, ATubeAndABenderAreAddedFromTheirDialogs) {
  for (const char* words : {"Add a &tube...", "Add a b&ender..."}) {
    in_the_next_dialog(say_yes);
    for (QAction* action : window_->findChildren<QAction*>())
      if (action->text() == words) action->trigger();
  }
  EXPECT_TRUE(window_->document().tree().at("/tubes/15 x 0.7/standard"));
  EXPECT_EQ(window_->document().tree().at("/benders/new bender/former_radius").number(), 55);
  EXPECT_TRUE(window_->document().problems().empty());
}

TEST_F(Driven, ABentPieceIsProvedAsItsMeasurementsAreTyped) {
  window_->choose("/runs/0");
  QString good, wrong, spoilt;
  in_the_next_dialog([&](QDialog& dialog) {
    auto& prove = static_cast<ProveDialog&>(dialog);
    good = prove.answer();
    QTest::keyClicks(prove.angle(2), "86");
    wrong = prove.answer();
    QTest::keyClicks(prove.angle(2), "nonsense");
    spoilt = prove.answer();
    dialog.reject();
  });
  QTest::keyClick(window_.get(), Qt::Key_E, Qt::ControlModifier);
  EXPECT_FALSE(good.isEmpty());
  EXPECT_NE(wrong, good);
  EXPECT_TRUE(wrong.contains("bend 2", Qt::CaseInsensitive)) << wrong.toStdString();
  EXPECT_TRUE(spoilt.startsWith(QChar(0x26A0))) << spoilt.toStdString();
}

TEST_F(Driven, ABenderIsCalibratedFromATrialBendAndTakenUpInOneStep) {
  const std::string before = window_->document().text();
  window_->choose("/runs/0");
  in_the_next_dialog([](QDialog& dialog) {
    auto& calibrate = static_cast<CalibrateDialog&>(dialog);
    // A perfect 90 at a radius of 60: the two legs gain R (2 tan 45 - pi / 2), and half a tube at each back.
    const std::pair<CalibrateDialog::Reading, const char*> readings[] = {
        {CalibrateDialog::set, "93"},           {CalibrateDialog::got, "90"},
        {CalibrateDialog::cut_length, "400"},   {CalibrateDialog::hook_leg, "217.5"},
        {CalibrateDialog::other_leg, "223.25"}, {CalibrateDialog::mark, "150"}};
    for (const auto& [which, typed] : readings) QTest::keyClicks(calibrate.reading(0, which), typed);
    for (QPushButton* button : dialog.findChildren<QPushButton*>())
      if (button->text() == "Take it up") QTest::mouseClick(button, Qt::LeftButton);
  });
  for (QAction* action : window_->findChildren<QAction*>())
    if (action->text() == "Ca&librate the chosen bender...") action->trigger();
  const JsonValue bender = window_->document().tree().at("/benders/bench 15");
  EXPECT_NEAR(bender.find("former_radius").number(), 60, 0.05);
  EXPECT_EQ(bender.find("spring_back").size(), 1);
  EXPECT_TRUE(bender.find("shortest_end")) << "what was not measured stays";
  EXPECT_NEAR(window_->document().plan()->runs.front()->line.radius_mm(), 60, 0.05);
  window_->undo();
  EXPECT_EQ(window_->document().text(), before);
}

TEST_F(Driven, AWayThatIsFoundIsLookedAtTakenAndUndoneInOneStep) {
  const std::string before = window_->document().text();
  const auto path = [&] { return std::string(window_->document().tree().at("/runs/0/path").raw()); };
  const std::string path_before = path();
  window_->choose("/runs/0/path/1");
  in_the_next_dialog([](QDialog& dialog) { dialog.reject(); });
  QTest::keyClick(window_.get(), Qt::Key_W, Qt::ControlModifier);
  EXPECT_EQ(window_->document().text(), before) << "looked at and not taken";
  std::string looked_at;
  in_the_next_dialog([&](QDialog& dialog) {
    auto* list = dialog.findChild<QListWidget*>();
    ASSERT_GE(list->count(), 1);
    list->setCurrentRow(list->count() - 1);
    looked_at = path();
    say_yes(dialog);
  });
  QTest::keyClick(window_.get(), Qt::Key_W, Qt::ControlModifier);
  EXPECT_NE(path(), path_before);
  EXPECT_EQ(path(), looked_at);
  EXPECT_FALSE(window_->document().plan()->fails());
  window_->undo();
  EXPECT_EQ(window_->document().text(), before);
  EXPECT_FALSE(window_->document().can_undo());
}

}  // namespace
}  // namespace halfhard
