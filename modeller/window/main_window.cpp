#include "modeller/window/main_window.h"

#include <algorithm>
#include <cmath>

#include "geometry/words/shown.h"
#include "modeller/job/json_patch.h"
#include "modeller/window/field_choices.h"
#include "modeller/window/look.h"
#include "viewer/draw_bending.h"

namespace halfhard {
namespace {

QString text(const std::string& words) { return QString::fromStdString(words); }

QWidget* titled(const QString& title, QWidget* inside) {
  auto* box = new QWidget;
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(6, 4, 4, 4);
  column->setSpacing(3);
  column->addWidget(new QLabel("<b>" + title + "</b>"));
  column->addWidget(inside, 1);
  return box;
}

constexpr int kSliderParts = 100;      // of the slider for each bend
constexpr double kTurningShare = 0.3;  // of them for turning the tube, where this bend takes a turn

BendingMoment moment_at(const Run& run, int step, double part) {
  if (!turn_for(run, step)) return {step, part};
  if (part < kTurningShare) return {step, 0, part / kTurningShare};
  return {step, (part - kTurningShare) / (1 - kTurningShare)};
}

}  // namespace

MainWindow::MainWindow(Document document, LoadOptions options, bool dark)
    : document_(std::move(document)), options_(std::move(options)), dark_(dark) {
  constexpr int kTitleBar_px = 40;
  resize(QSize(1280, 720).boundedTo(QGuiApplication::primaryScreen()->availableSize() - QSize(0, kTitleBar_px)));
  build_panels();
  build_menus();
  build_toolbar();
  connect_panels();
  build_hands();
  set_dark(dark);
  autosave_.setSingleShot(true);
  autosave_.setInterval(300);
  connect(&autosave_, &QTimer::timeout, this, [this] { document_.autosave(); });
  disk_.setInterval(1500);
  connect(&disk_, &QTimer::timeout, this, [this] { look_at_disk(); });
  disk_.start();
  refresh();
  if (!document_.tree().at("/runs/0")) return;
  choose("/runs/0");
}

// The panels go while what they speak to still stands: a field that loses the keys has something to say.
MainWindow::~MainWindow() {
  if (making_) making_->disconnect();  // it goes with the window, and has nobody left to tell
  items_->on_choose = nullptr;
  bends_->on_choose = nullptr;
  hand_->on_leave = nullptr;
  hand_->on_rename = nullptr;
  delete takeCentralWidget();
}

void MainWindow::build_panels() {
  items_ = new ItemList(this);
  view_ = new ViewPanel(this);
  hand_ = new HandPanel(this);
  findings_ = new FindingsPanel(this);
  bends_ = new BendTablePanel(this);
  bending_ = new QSlider(Qt::Horizontal);
  bending_->setToolTip("Bends the chosen pipe step by step; the left end shows the job");
  bending_->setAccessibleName("Bending step by step");
  bending_->setTickPosition(QSlider::TicksBelow);  // where each bend begins
  bending_->setTickInterval(kSliderParts);
  bending_->setPageStep(kSliderParts);
  bending_words_ = new QLabel("Bending, step by step: slide to bend the chosen pipe");
  bending_words_->setWordWrap(true);
  bending_words_->setAlignment(Qt::AlignLeft | Qt::AlignBottom);
  // Two lines are kept for it, so that the slider stays under the hand while the words change.
  bending_words_->setMinimumHeight(2 * bending_words_->fontMetrics().lineSpacing());
  auto* middle = new QWidget;
  auto* column = new QVBoxLayout(middle);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(2);
  auto* across = new QSplitter(Qt::Vertical);
  auto* below = new QWidget;
  auto* below_column = new QVBoxLayout(below);
  below_column->setContentsMargins(0, 0, 0, 0);
  below_column->setSpacing(2);
  below_column->addWidget(bending_words_);
  below_column->addWidget(bending_);
  below_column->addWidget(bends_, 1);
  across->addWidget(view_);
  across->addWidget(below);
  across->setStretchFactor(0, 3);
  across->setSizes({385, 255});
  column->addWidget(across);
  auto* right = new QSplitter(Qt::Vertical);
  right->addWidget(titled("The value under the hand", hand_));
  right->addWidget(findings_);
  right->setSizes({360, 240});
  auto* all = new QSplitter;
  all->addWidget(titled("What there is", items_));
  all->addWidget(middle);
  all->addWidget(right);
  all->setSizes({215, 735, 330});
  all->setStretchFactor(1, 1);
  setCentralWidget(all);
  statusBar();
}

void MainWindow::connect_panels() {
  items_->on_choose = [this](const std::string& pointer) { choose(pointer); };
  hand_->on_change = [this](const std::string& pointer, const std::string& json) { return try_change(pointer, json); };
  hand_->on_leave = [this] { document_.end_step(); };
  hand_->comes_to = [this](const std::string& pointer) -> std::string {
    const auto found = document_.figures().find(pointer);
    if (found == document_.figures().end()) return "";
    const auto& [value, length] = found->second;
    return "= " + (length ? shown_length(value, unit()) : shown_number(value, 3));
  };
  hand_->on_give_up = [this](const std::string& pointer) {
    if (document_.take_back(pointer)) refresh();
  };
  hand_->on_add = [this](const std::string& group, const std::string& key, const std::string& json) {
    document_.end_step();
    return why_not(with_member(document_.tree(), group, key, json), "add " + key);
  };
  hand_->on_remove = [this](const std::string& pointer) { return take_out(pointer); };
  hand_->suggestions = [this](const std::string& key) { return words_to_choose(document_.tree(), key); };
  findings_->on_choose = [this](int index) { fly_to_finding(index); };
  findings_->on_choose_problem = [this](const std::string& pointer) { choose(pointer_to_part(pointer)); };
  bends_->on_choose = [this](int bend) {
    bend_ = bend;
    redraw();
  };
  view_->on_pick = [this](const Picked& at) { picked(at); };
  view_->on_hover = [this](const std::string& run) {
    hovered_ = run;
    redraw();
  };
  connect_moves();
  view_->on_measured = [this](const std::string& words) { statusBar()->showMessage(text(words)); };
  view_->words_for = [this](const Picked& at) {
    return at.name + (at.kind == PartKind::run ? ", " + shown_length(at.along_mm, unit()) + " along" : "");
  };
  connect(bending_, &QSlider::valueChanged, this, [this](int value) {
    if (value == 0)
      show_bending(0, 0);
    else
      show_bending(1 + (value - 1) / kSliderParts, ((value - 1) % kSliderParts) / (kSliderParts - 1.0));
  });
}

std::string MainWindow::chosen_name() const {
  const JsonValue part = document_.tree().at(chosen_);
  if (!part) return "";
  for (JsonValue at = part; at; at = at.parent()) {
    const JsonValue parent = at.parent();
    if (!parent) break;
    if (parent.key() == "connections" && parent.kind() == JsonKind::group) return std::string(at.key());
    if ((parent.key() == "runs" || parent.key() == "fixtures") && at.kind() == JsonKind::group)
      if (const JsonValue name = at.find("name"); name && name.kind() == JsonKind::text)
        return std::string(name.text());
  }
  return "";
}

const Run* MainWindow::shown_pipe() {
  if (const Run* chosen = chosen_run()) {
    last_pipe_ = chosen->name;
    return chosen;
  }
  if (!document_.plan()) return nullptr;
  for (const auto& run : document_.plan()->runs)
    if (run->name == last_pipe_) return run.get();
  return nullptr;
}

const Run* MainWindow::chosen_run() const {
  if (!document_.plan()) return nullptr;
  const std::string name = chosen_name();
  for (const auto& run : document_.plan()->runs)
    if (run->name == name || run->family == name) return run.get();
  return nullptr;
}

void MainWindow::choose(const std::string& pointer, int bend) {
  document_.end_step();
  if (pointer != chosen_ && chosen_.starts_with("/connections/")) end_before_ = chosen_;
  chosen_ = pointer;
  bend_ = bend;
  items_->choose(pointer);
  hand_->show(document_.tree(), pointer);
  const Run* run = shown_pipe();
  {
    const QSignalBlocker quiet(bending_);
    bending_->setRange(0, run ? static_cast<int>(run->bends.size()) * kSliderParts : 0);
    bending_->setValue(0);
    bending_->setEnabled(run && !run->bends.empty());
  }
  if (document_.plan()) bends_->show(*document_.plan(), run);
  bends_->choose(bend);
  show_bending(0, 0);
}

void MainWindow::redraw() {
  if (!document_.plan() || step_ > 0) return;
  DrawOptions options;
  options.chosen = chosen_name();
  options.hovered = hovered_;
  options.chosen_bend = bend_;
  options.caption = false;  // the panels say it
  view_->show(drawer_.draw(*document_.plan(), options));
}

void MainWindow::show_bending(int step, double part) {
  const Run* run = shown_pipe();
  const bool entering = step_ == 0 && step > 0, leaving = step_ > 0 && step == 0;
  step_ = run && step <= static_cast<int>(run->bends.size()) ? step : 0;
  if (step_ == 0) {
    bending_words_->setText("Bending, step by step: slide to bend the chosen pipe");
    redraw();
    if (leaving) view_->look(NamedView::isometric);
    return;
  }
  DrawnBending drawn = draw_bending(*run, moment_at(*run, step_, part), unit());
  bending_words_->setText(text(drawn.words + (drawn.trouble.empty() ? "" : ". \u26A0 " + drawn.trouble)));
  bends_->choose(run->bends_as_made()[step_ - 1]->number);
  view_->show(std::move(drawn.drawn));
  if (entering) view_->look(NamedView::isometric);
}

void MainWindow::refresh() {
  setWindowTitle(text(document_.shown_name()) + (document_.modified() ? " (not saved)" : "") + " - Halfhard");
  items_->show(document_.tree());
  if (document_.tree().root()) hand_->show(document_.tree(), chosen_);
  if (document_.plan()) {
    findings_->show(*document_.plan());
    bends_->show(*document_.plan(), shown_pipe());
  }
  findings_->show_problems(document_.problems(), document_.plan() != nullptr);
  undo_->setEnabled(document_.can_undo());
  redo_->setEnabled(document_.can_redo());
  undo_->setText(document_.can_undo() ? "&Undo: " + text(document_.undo_what()) : "&Undo");
  redo_->setText(document_.can_redo() ? "&Redo: " + text(document_.redo_what()) : "&Redo");
  step_ = 0;
  redraw();
  autosave_.start();
}

std::string MainWindow::try_change(const std::string& pointer, const std::string& json) {
  const auto changed = with_value(document_.tree(), pointer, json);
  if (!changed) return "this place is no longer in the job";
  const std::string what = "change " + pointer.substr(pointer.rfind('/') + 1);
  if (document_.problems().empty()) {
    const std::vector<JobProblem> problems = document_.change_if_usable(*changed, what, pointer);
    if (!problems.empty()) {
      if (document_.take_back(pointer)) refresh();  // a shorter number is not left behind
      return problems.front().message();
    }
  } else {
    // A text with faults is put right one by one; what is still wrong stands among the findings.
    document_.change(*changed, what, pointer);
  }
  refresh();
  return "";
}

std::string MainWindow::why_not(const std::optional<std::string>& changed, const std::string& what) {
  if (!changed) return "this place is no longer in the job";
  const std::vector<JobProblem> problems = document_.change_if_usable(*changed, what, "");
  if (!problems.empty()) return problems.front().message();
  statusBar()->clearMessage();  // what was refused before is over
  refresh();
  return "";
}

bool MainWindow::change(const std::optional<std::string>& changed, const std::string& what) {
  const std::string why = why_not(changed, what);
  if (!why.empty()) statusBar()->showMessage(text("Not done: " + why));
  return why.empty();
}

std::string MainWindow::take_out(const std::string& pointer) {
  document_.end_step();
  const std::string why = why_not(without(document_.tree(), pointer), "take out");
  if (why.empty()) choose("");
  return why;
}

void MainWindow::undo() {
  if (hand_->give_back()) return;  // what was refused was never a step
  document_.undo();
  refresh();
}

void MainWindow::redo() {
  document_.redo();
  refresh();
}

bool MainWindow::save() {
  document_.end_step();
  if (document_.file().empty()) return save_as();
  const std::string trouble = document_.save();
  if (!trouble.empty()) QMessageBox::warning(this, "Not saved", text(trouble));
  refresh();
  return trouble.empty();
}

// Escape and the corner's cross keep what was left for the next time: nothing is lost by not answering.
void MainWindow::offer_what_was_left() {
  while (const auto left = document_.left_by_a_crash()) {
    QMessageBox question(QMessageBox::Question, "Not saved last time",
                         "The last time this job was open it ended without saving. What was changed then is kept in a "
                         "safety copy.",
                         QMessageBox::NoButton, this);
    QPushButton* take = question.addButton("&Take it up", QMessageBox::AcceptRole);
    QPushButton* away = question.addButton("Throw it &away", QMessageBox::DestructiveRole);
    QPushButton* later = question.addButton("Ask me &next time", QMessageBox::RejectRole);
    question.setDefaultButton(take);
    question.setEscapeButton(later);
    question.exec();
    if (question.clickedButton() == away) {
      SafetyCopy::drop(*left);
      continue;
    }
    if (question.clickedButton() == take) {
      document_.take_up(*left);
      refresh();
    }
    return;
  }
}

void MainWindow::look_at_disk() {
  if (asking_ || !document_.changed_on_disk()) return;
  asking_ = true;
  const auto answer = QMessageBox::question(this, "The file was changed",
                                            "Another program changed the job's file. Take "
                                            "up what it holds now? Undo brings your own back.");
  if (answer == QMessageBox::Yes)
    document_.take_from_disk();
  else
    document_.keep_own();
  asking_ = false;
  refresh();
}

bool MainWindow::may_leave() {
  if (!document_.modified()) return true;
  const auto answer =
      QMessageBox::question(this, "Not saved", "Save what was changed in " + text(document_.shown_name()) + "?",
                            QMessageBox::Save | QMessageBox::Discard | QMessageBox::Cancel);
  if (answer == QMessageBox::Save) return save();
  if (answer == QMessageBox::Discard) document_.drop_autosave();
  return answer == QMessageBox::Discard;
}

void MainWindow::closeEvent(QCloseEvent* event) {
  autosave_.stop();
  event->setAccepted(may_leave());
}

void MainWindow::changeEvent(QEvent* event) {
  QMainWindow::changeEvent(event);
  if (event->type() == QEvent::ActivationChange && isActiveWindow() && disk_.isActive())
    QTimer::singleShot(0, this, [this] { look_at_disk(); });
}

void MainWindow::set_document(Document document) {
  document_ = std::move(document);
  chosen_.clear();
  refresh();
  if (document_.tree().at("/runs/0")) choose("/runs/0");
  view_->look(NamedView::isometric);
  if (!document_.file().empty()) remember_file(QString::fromStdString(document_.file()));
  QTimer::singleShot(0, this, [this] { offer_what_was_left(); });
}

void MainWindow::set_dark(bool dark) {
  dark_ = dark;
  dress_application(dark);
  view_->set_theme(dark ? dark_theme() : light_theme());
}

}  // namespace halfhard
