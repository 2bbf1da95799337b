// What the hand does: dragging, moving by keys, renaming, and going from place to place without a mouse.
#include "tests/modeller/window/driven/driven.h"

#include <set>

#include "viewer/view_frame.h"

namespace halfhard {
namespace {

QPoint seen_at(ViewPanel& view, const Vec3& place) {
  const Projected at = project(view.frame(), view.width(), view.height(), place);
  return QPoint(static_cast<int>(at.x), static_cast<int>(view.height() - at.y));
}

// The middle of what a fixture shows to the eye.
QPoint fixture_at(MainWindow& window, const std::string& name) {
  for (const auto& fixture : window.document().plan()->fixtures)
    if (fixture->name == name) return seen_at(window.view(), std::get<Box>(fixture->body.shape).centre);
  return {};
}

void move_mouse(QWidget* on, const QPoint& to, Qt::MouseButtons held) {
  QMouseEvent move(QEvent::MouseMove, to, on->mapToGlobal(to), Qt::NoButton, held, Qt::NoModifier);
  QApplication::sendEvent(on, &move);
}

void drag(QWidget* on, const QPoint& from, const QPoint& to) {
  QTest::mousePress(on, Qt::LeftButton, {}, from);
  for (int part = 1; part <= 8; ++part) move_mouse(on, from + (to - from) * part / 8, Qt::LeftButton);
  QTest::mouseRelease(on, Qt::LeftButton, {}, to);
}

double number_at(MainWindow& window, const char* pointer) { return window.document().tree().at(pointer).number(); }

TEST_F(Driven, AChosenFixtureIsDraggedAlongOneAxisAndUndoTakesItBackInOneStep) {
  ViewPanel& view = window_->view();
  const std::string before = window_->document().text();
  view.look(NamedView::elevation);
  window_->choose("/fixtures/3");  // the drawer: plain numbers
  const QPoint from = fixture_at(*window_, "drawer");
  drag(&view, from, from + QPoint(3, -60));
  const double gone = number_at(*window_, "/fixtures/3/box/from/2") - 120;
  EXPECT_GT(gone, 5);
  EXPECT_EQ(gone, std::round(gone));
  EXPECT_EQ(number_at(*window_, "/fixtures/3/box/to/2") - 300, gone);
  EXPECT_EQ(number_at(*window_, "/fixtures/3/box/from/0"), 20);
  EXPECT_NEAR(gone, 60 * 2 * view.frame().half_height_mm / view.height(), 1);
  const auto& box = std::get<Box>(window_->document().plan()->fixtures[3]->body.shape);
  EXPECT_NEAR(box.centre.z(), 210 + gone, 1e-9);
  window_->undo();
  EXPECT_EQ(window_->document().text(), before);
  EXPECT_FALSE(window_->document().can_undo());
}

TEST_F(Driven, WhatIsNotChosenIsNotDraggedButTheViewTurns) {
  ViewPanel& view = window_->view();
  view.look(NamedView::elevation);
  window_->choose("/runs/0");
  const std::string before = window_->document().text();
  const QPoint from = fixture_at(*window_, "drawer");
  drag(&view, from, from + QPoint(40, 0));
  EXPECT_EQ(window_->document().text(), before);
  EXPECT_GT((view.frame().looking - Vec3::UnitY()).norm(), 0.01);
}

TEST_F(Driven, AnExpressionIsNotDraggedOverAndTheCursorSaysSo) {
  ViewPanel& view = window_->view();
  view.look(NamedView::elevation);
  window_->choose("/connections/tap");
  const std::string before = window_->document().text();
  const Vec3 mouth = window_->document().plan()->connections[1]->at;
  view.fly_to(mouth, 100);
  const QPoint from = seen_at(view, mouth + Vec3(0, 0, 5));
  drag(&view, from, from + QPoint(0, 80));
  EXPECT_EQ(window_->document().text(), before);
  EXPECT_TRUE(QToolTip::text().contains("tap_height")) << QToolTip::text().toStdString();
}

TEST_F(Driven, KeysMoveTheChosenPartByAMillimetreOrTen) {
  window_->choose("/fixtures/3");
  window_->items().setFocus();
  QTest::keyClick(&window_->items(), Qt::Key_PageUp, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_EQ(number_at(*window_, "/fixtures/3/box/from/2"), 121);
  QTest::keyClick(&window_->items(), Qt::Key_Up, Qt::ControlModifier | Qt::ShiftModifier | Qt::AltModifier);
  EXPECT_EQ(number_at(*window_, "/fixtures/3/box/from/1"), 50);
  window_->undo();
  EXPECT_EQ(number_at(*window_, "/fixtures/3/box/from/1"), 40);
}

TEST_F(Driven, ARunRenamedIsFollowedByItsBankInOneStep) {
  const std::string before = window_->document().text();
  window_->choose("/runs/0");
  ASSERT_TRUE(type("/runs/0/name", "tail"));
  EXPECT_EQ(window_->document().tree().at("/banks/0/of").text(), "tail");
  EXPECT_EQ(window_->document().plan()->runs.back()->name, "tail 8");
  window_->undo();
  EXPECT_EQ(window_->document().text(), before);
}

TEST_F(Driven, AConnectionRenamedIsFollowedByItsPipesAndStaysChosen) {
  const std::string before = window_->document().text();
  window_->choose("/connections/tap");
  ASSERT_TRUE(type("/connections/tap#name", "mixer"));
  QTest::keyClick(window_->hand().field("/connections/tap#name"), Qt::Key_Return);
  QCoreApplication::processEvents();
  EXPECT_EQ(window_->document().tree().at("/runs/0/to").text(), "mixer");
  EXPECT_EQ(window_->document().tree().at("/site_checks/0/to").text(), "mixer");
  EXPECT_EQ(window_->items().chosen(), "/connections/mixer");
  ASSERT_TRUE(window_->hand().field("/connections/mixer#name"));
  window_->undo();
  EXPECT_EQ(window_->document().text(), before);
}

TEST_F(Driven, ANameThatIsTakenIsRefusedBesideTheField) {
  window_->choose("/connections/tap");
  ASSERT_TRUE(type("/connections/tap#name", "manifold outlet"));
  QLineEdit* field = window_->hand().field("/connections/tap#name");
  QTest::keyClick(field, Qt::Key_Return);
  QCoreApplication::processEvents();
  EXPECT_TRUE(field->property("trouble").toBool());
  EXPECT_TRUE(window_->document().tree().at("/connections/tap"));
}

TEST_F(Driven, TwoPlacesAreMeasuredByKeysAlone) {
  ViewPanel& view = window_->view();
  view.setFocus();
  view.set_measuring(true);
  QTest::keyClick(&view, Qt::Key_Tab);  // the first pipe, its start end
  QTest::keyClick(&view, Qt::Key_Return);
  QTest::keyClick(&view, Qt::Key_Tab);  // the next pipe, the same end, one pitch along
  QTest::keyClick(&view, Qt::Key_Return);
  EXPECT_EQ(window_->statusBar()->currentMessage().toStdString(),
            "basin tail 1, start end to basin tail 2, start end: 300 mm straight; right 300, back 0, up 0");
  QTest::keyClick(&view, Qt::Key_Escape);
  QTest::keyClick(&view, Qt::Key_Escape);
  EXPECT_FALSE(view.hasFocus());
}

TEST_F(Driven, ABendIsPickedByKeysAlone) {
  ViewPanel& view = window_->view();
  view.setFocus();
  QTest::keyClick(&view, Qt::Key_Tab);
  QTest::keyClick(&view, Qt::Key_Space);
  QTest::keyClick(&view, Qt::Key_Space);
  QTest::keyClick(&view, Qt::Key_Return);
  EXPECT_EQ(window_->bends().chosen(), 2);
}

TEST_F(Driven, NothingOfTheBendTableIsClippedInASmallWindowAndItIsCopiedAsATable) {
  QTableWidget* table = window_->bends().table();
  ASSERT_GT(table->rowCount(), 0);
  int breadth = 0;
  for (int column = 0; column < table->columnCount(); ++column) {
    EXPECT_GE(table->columnWidth(column),
              QFontMetrics(table->item(0, column)->font()).horizontalAdvance(table->item(0, column)->text()));
    breadth += table->columnWidth(column);
  }
  EXPECT_LE(breadth, table->viewport()->width()) << "at 1280";
  QTest::keyClick(table, Qt::Key_C, Qt::ControlModifier);
  const QStringList lines = QApplication::clipboard()->text().trimmed().split('\n');
  EXPECT_EQ(lines.size(), 1 + static_cast<int>(window_->document().plan()->runs.front()->bends.size()));
  for (const QString& line : lines) EXPECT_EQ(line.count('\t'), table->columnCount());
}

TEST_F(Driven, TheTableKeepsThePipeWhenSomethingElseIsChosen) {
  window_->choose("/runs/0");
  const int rows = window_->bends().table()->rowCount();
  window_->choose("/fixtures/3");
  EXPECT_EQ(window_->bends().table()->rowCount(), rows);
  EXPECT_GT(rows, 0);
}

TEST_F(Driven, ThePartUnderTheHandIsTakenOutByDeleteButNotWhileTyping) {
  window_->choose("/fixtures/3");
  window_->items().setFocus();
  const std::string before = window_->document().text();
  QLineEdit* field = window_->hand().field("/fixtures/3/name");
  field->setFocus();
  field->setCursorPosition(0);
  QTest::keyClick(field, Qt::Key_Delete);
  EXPECT_EQ(window_->document().tree().at("/fixtures/3/name").text(), "rawer") << "a letter, not the part";
  window_->undo();
  window_->items().setFocus();
  QTest::keyClick(&window_->items(), Qt::Key_Delete);
  EXPECT_NE(window_->document().text(), before);
  EXPECT_EQ(window_->document().tree().at("/fixtures").size(), 12);
  window_->undo();
  EXPECT_EQ(window_->document().text(), before);
}

TEST_F(Driven, EnterOnALineBringsTheKeysToItsFirstField) {
  window_->choose("/fixtures/3");
  window_->items().setFocus();
  QTest::keyClick(&window_->items(), Qt::Key_Return);
  EXPECT_EQ(QApplication::focusWidget(), window_->hand().first_field());
}

TEST_F(Driven, ANewConnectionIsChosenAndReadyToType) {
  QTest::keyClick(window_.get(), Qt::Key_N, Qt::ControlModifier);
  EXPECT_EQ(window_->items().chosen(), "/connections/new connection");
  EXPECT_EQ(QApplication::focusWidget(), window_->hand().first_field());
}

// The commonest job: pick one end, pick the other, say so; then the first of the ways that are found.
TEST_F(Driven, APipeBetweenTwoPickedEndsIsAddedAndItsWaysOffered) {
  std::ofstream(file_) << R"({ "format": "halfhard-job/1", "title": "Two tails",
    "tubes": { "15 mm": { "standard": "EN 1057", "size": "15 x 0.7" } },
    "benders": { "bench": { "former_radius": 55, "fits": 15 } },
    "connections": { "stub": { "at": [300, 420, 250], "towards": "up" },
                     "tail": { "at": [340, 420, 700], "towards": "down" } },
    "runs": [ { "name": "first", "tube": "15 mm", "bender": "bench",
                "from": { "at": [900, 420, 250], "towards": "up" }, "path": [ { "go": "up", "by": 300 } ] } ] })";
  open();
  window_->choose("/connections/stub");
  window_->choose("/connections/tail");
  QStringList asked;
  std::function<void()> answer = [&] {
    if (QWidget* dialog = QApplication::activeModalWidget(); dialog && dialog->isVisible()) {
      asked << dialog->windowTitle();
      QTest::keyClick(dialog, Qt::Key_Return);
    }
  };
  QTimer again;
  QObject::connect(&again, &QTimer::timeout, answer);
  again.start(100);
  QTest::keyClick(window_.get(), Qt::Key_P, Qt::ControlModifier);
  EXPECT_EQ(asked, QStringList({"Add a pipe", "Ways between the two ends"}));
  const JsonValue run = window_->document().tree().at("/runs/1");
  ASSERT_TRUE(run);
  EXPECT_EQ(run.find("from").text(), "stub");
  EXPECT_EQ(run.find("to").text(), "tail");
  EXPECT_TRUE(run.find("path"));
}

TEST_F(Driven, EveryEntryOfTheMenusHasAKeyAndALineOfHelp) {
  std::set<QString> keys;
  std::function<void(const QMenu*)> visit = [&](const QMenu* menu) {
    for (const QAction* action : menu->actions()) {
      if (action->menu()) {
        if (!action->text().contains("recent") && !action->text().contains("starter")) visit(action->menu());
        continue;
      }
      if (action->isSeparator()) continue;
      EXPECT_FALSE(action->shortcut().isEmpty()) << action->text().toStdString();
      EXPECT_TRUE(keys.insert(action->shortcut().toString()).second) << action->text().toStdString();
      EXPECT_FALSE(action->toolTip().isEmpty());
    }
  };
  for (const QAction* action : window_->menuBar()->actions()) visit(action->menu());
  EXPECT_GT(keys.size(), 30u);
}

TEST_F(Driven, ItFitsASmallScreenWithItsTitleBarAndEveryControlHasAName) {
  EXPECT_LE(window_->minimumSizeHint().width(), 1280);
  EXPECT_LE(window_->minimumSizeHint().height(), 680);
  for (const char* pointer : {"/runs/0", "/fixtures/3", "/connections/tap", "/benders/bench 15", "/banks/0", ""}) {
    window_->choose(pointer);
    for (QWidget* each : window_->findChildren<QWidget*>()) {
      const bool control = qobject_cast<QLineEdit*>(each) || qobject_cast<QComboBox*>(each) ||
                           qobject_cast<QCheckBox*>(each) || qobject_cast<QSlider*>(each) ||
                           qobject_cast<QTreeWidget*>(each) || qobject_cast<QTableWidget*>(each) ||
                           qobject_cast<QListWidget*>(each);
      if (!control || !each->isVisibleTo(window_.get())) continue;
      EXPECT_FALSE(each->accessibleName().isEmpty()) << each->metaObject()->className() << " at " << pointer;
    }
  }
}

}  // namespace
}  // namespace halfhard
