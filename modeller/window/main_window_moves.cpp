// What the hand does to a part: moving it along the site, by mouse and by keys, and giving it another name.
#include <cmath>

#include "geometry/words/shown.h"
#include "modeller/job/expression.h"
#include "modeller/job/json_patch.h"
#include "modeller/window/document/move_part.h"
#include "modeller/window/document/rename.h"
#include "modeller/window/main_window.h"

namespace halfhard {
void MainWindow::connect_moves() {
  view_->may_move = [this](const Picked& at) {
    if (step_ > 0 || !can_be_moved(document_.tree(), chosen_) || pointer_of(at) != chosen_) return false;
    std::vector<JobProblem> problems;
    held_text_ = JsonTree::parse(document_.text(), "", problems);
    return true;
  };
  view_->on_move = [this](int axis, double by_mm) { return drag_to(axis, by_mm); };
  view_->on_let_go = [this] {
    document_.end_step();
    held_text_.reset();
    redraw();
  };
  view_->things = [this] {
    return document_.plan() && step_ == 0 ? named_things(*document_.plan()) : std::vector<NamedThing>();
  };
  hand_->on_rename = [this](const std::string& part, const std::string& name) { return rename(part, name); };
}

// The smallest step of a hand: 1 mm, or 1/16 of an inch.
double MainWindow::hand_step_mm() const { return unit() == LengthUnit::inch ? 25.4 / 16 : 1; }

// Always from where the part stood when it was taken hold of, so that rounding does not add up.
std::string MainWindow::drag_to(int axis, double by_mm) {
  if (!held_text_) return "";
  const double step = hand_step_mm(), rounded_mm = step * std::round(by_mm / step);
  std::array<double, 3> by{};
  by[axis] = rounded_mm / mm_per(unit());
  const MovedText moved = moved_part(*held_text_, chosen_, by);
  if (!moved.why_not.empty()) return "Not moved: " + moved.why_not;
  const std::vector<JobProblem> problems = document_.change_if_usable(moved.text, "move", "drag:" + chosen_);
  if (!problems.empty()) return "Not moved: " + problems.front().message();
  refresh();
  return site_word(axis, rounded_mm) + " " + shown_length(std::abs(rounded_mm), unit());
}

void MainWindow::move_by_key(int axis, double steps) {
  if (!can_be_moved(document_.tree(), chosen_)) {
    statusBar()->showMessage("Pick a connection or a fixture first, then move it");
    return;
  }
  const double mm = hand_step_mm() * steps;
  std::array<double, 3> by{};
  by[axis] = mm / mm_per(unit());
  const MovedText moved = moved_part(document_.tree(), chosen_, by);
  if (!moved.why_not.empty()) {
    statusBar()->showMessage(QString::fromStdString("Not moved: " + moved.why_not));
    return;
  }
  if (change(moved.text, "move"))
    statusBar()->showMessage(
        QString::fromStdString("Moved " + site_word(axis, mm) + " " + shown_length(std::abs(mm), unit())));
}

std::string MainWindow::rename(const std::string& part, const std::string& name) {
  const auto result = renamed(document_.tree(), part, name);
  if (!result) return "this part has no name to change";
  const std::vector<JobProblem> problems =
      document_.change_if_usable(result->text, "rename", result->pointer + "/name");
  if (!problems.empty()) {
    if (document_.take_back(result->pointer + "/name")) refresh();
    return problems.front().message();
  }
  if (chosen_.compare(0, part.size(), part) == 0) chosen_ = result->pointer;
  refresh();
  items_->choose(chosen_);
  return "";
}

void MainWindow::build_move_menu(QMenu* job) {
  QMenu* move = job->addMenu("Mo&ve the chosen part");
  move->setToolTipsVisible(true);
  struct Way {
    const char* word;
    int axis, sign;
    int key;
  };
  for (const Way& way :
       {Way{"right", 0, 1, Qt::Key_Right}, Way{"left", 0, -1, Qt::Key_Left}, Way{"back", 1, 1, Qt::Key_Up},
        Way{"front", 1, -1, Qt::Key_Down}, Way{"up", 2, 1, Qt::Key_PageUp}, Way{"down", 2, -1, Qt::Key_PageDown}}) {
    const QString help =
        QString("Moves the chosen connection or fixture %1 by 1 mm or 1/16 in; ten times as far with Alt")
            .arg(way.word);
    add(move, QString("%1").arg(way.word), QKeySequence(Qt::CTRL + Qt::SHIFT + way.key), help,
        [this, way] { move_by_key(way.axis, way.sign); });
    auto* far = new QShortcut(QKeySequence(Qt::CTRL + Qt::SHIFT + Qt::ALT + way.key), this);
    connect(far, &QShortcut::activated, this, [this, way] { move_by_key(way.axis, 10 * way.sign); });
  }
}

}  // namespace halfhard
