#include "modeller/starters/starters.h"
#include "modeller/window/main_window.h"
#include "modeller/window/section_typed.h"

namespace halfhard {
QAction* MainWindow::add(QMenu* menu, const QString& text, const QKeySequence& key, const QString& help,
                         std::function<void()> does) {
  QAction* action = menu->addAction(text);
  action->setShortcut(key);
  action->setToolTip(help);
  action->setStatusTip(help);
  connect(action, &QAction::triggered, this, [does = std::move(does)] { does(); });
  actions_[QString(text).remove('&').remove("...").toStdString()] = action;
  return action;
}

void MainWindow::build_menus() {
  QMenu* file = menuBar()->addMenu("&File");
  QMenu* fresh = file->addMenu("&New from a starter");
  for (const Starter& starter : starters())
    add(fresh, starter.kind, {}, "A small job to start from",
        [this, &starter] { new_from(std::string(starter.text)); });
  add(file, "&Open...", QKeySequence::Open, "Opens a job file", [this] { open_file(); });
  QMenu* recent = file->addMenu("Open &recent");
  connect(recent, &QMenu::aboutToShow, this, [this, recent] { fill_recent(recent); });
  add(file, "&Save", QKeySequence::Save, "Saves; what was not changed keeps your own layout", [this] { save(); });
  add(file, "Save &as...", QKeySequence("Ctrl+Shift+S"), "Saves under another name", [this] { save_as(); });
  add(file, "Save the &picture...", QKeySequence("Ctrl+Shift+I"), "The view as it is, as a PNG file",
      [this] { save_picture(); });
  add(file, "&Close", QKeySequence::Quit, "Closes the window", [this] { close(); });
  QMenu* edit = menuBar()->addMenu("&Edit");
  undo_ = add(edit, "&Undo", QKeySequence::Undo, "Takes back the last change", [this] { undo(); });
  redo_ = add(edit, "&Redo", QKeySequence("Ctrl+Shift+Z"), "Makes it again", [this] { redo(); });
  add(edit, "Re&name the chosen part", QKeySequence("F2"), "And wherever the job calls it by its name", [this] {
    QLineEdit* name = hand_->field(chosen_ + "#name");
    if (!name) name = hand_->field(chosen_ + "/name");
    if (name) name->setFocus(Qt::ShortcutFocusReason);
  });
  add(edit, "&Take out the chosen part", QKeySequence(Qt::Key_Delete), "Out of the job; undo brings it back",
      [this] { take_out_chosen(); });
  add(edit, "&Edit the chosen part", QKeySequence("Ctrl+Return"), "Brings the keys to its first field",
      [this] { edit_chosen(); });
  add(edit, "&Copy the bend table", QKeySequence::Copy, "As a table that other programs take",
      [this] { copy_bend_table(); });
  build_job_menu();
  build_view_menu();
  build_help_menu();
}

void MainWindow::build_job_menu() {
  QMenu* job = menuBar()->addMenu("&Job");
  add(job, "Add a &pipe between two connections...", QKeySequence("Ctrl+P"), "A pipe along the site's directions",
      [this] { add_pipe(); });
  QMenu* path = job->addMenu("Add to the chosen pipe's p&ath");
  path->setToolTipsVisible(true);
  add(path, "A &leg", QKeySequence("Ctrl+L"), "A straight leg after the chosen step",
      [this] { add_step(NewStep::leg); });
  add(path, "An &offset", QKeySequence("Ctrl+Shift+O"), "Two equal and opposite bends in the middle of the chosen leg",
      [this] { add_step(NewStep::offset); });
  add(path, "A &passover", QKeySequence("Ctrl+Shift+P"), "Over something in the way of the chosen leg, and back",
      [this] { add_step(NewStep::passover); });
  add(path, "A &bend and a leg", QKeySequence("Ctrl+Shift+B"), "After the chosen step, by angle and turn",
      [this] { add_step(NewStep::bend); });
  add(job, "Find &ways for the chosen pipe...", QKeySequence("Ctrl+W"),
      "Paths between its two ends that clear everything, to choose from", [this] { find_ways(); });
  add(job, "Make a &bank of the chosen pipe...", QKeySequence("Ctrl+B"), "By how many and how far apart",
      [this] { add_bank(); });
  job->addSeparator();
  add(job, "Add a &connection", QKeySequence("Ctrl+N"), "The face of a fitting, in the middle of the view",
      [this] { add_connection(); });
  add(job, "Add a &fixture...", QKeySequence("Ctrl+F"), "Something to keep clear of; a STEP body too",
      [this] { add_fixture(); });
  add(job, "Add a &value...", QKeySequence("Ctrl+Shift+V"), "A figure with a name, for use in sums",
      [this] { add_value(); });
  add(job, "Add a &tube...", QKeySequence("Ctrl+Shift+T"), "Of a standard's sizes, or as measured",
      [this] { add_tube(); });
  add(job, "Add a b&ender...", QKeySequence("Ctrl+Shift+E"), "By the radius of its bends", [this] { add_bender(); });
  build_move_menu(job);
  job->addSeparator();
  add(job, "Pro&ve a bent piece...", QKeySequence("Ctrl+E"), "From what you measure of it to what to bend further",
      [this] { prove(); });
  add(job, "Ca&librate the chosen bender...", QKeySequence("Ctrl+Shift+L"), "From trial bends to what it really does",
      [this] { calibrate_bender(); });
  add(job, "Make pape&rs...", QKeySequence("Ctrl+R"), "Sheets, cards, tables, solids and pictures of the job, as files",
      [this] { make_papers(); });
}

void MainWindow::build_view_menu() {
  QMenu* view = menuBar()->addMenu("&View");
  build_go_to_menu(view);
  add(view, "&Plan", QKeySequence("F5"), "From above", [this] { view_->look(NamedView::plan); });
  add(view, "&Elevation", QKeySequence("F6"), "From the front", [this] { view_->look(NamedView::elevation); });
  add(view, "&Side", QKeySequence("F7"), "From the left end", [this] { view_->look(NamedView::side); });
  add(view, "&Isometric", QKeySequence("F8"), "From the front, right and above",
      [this] { view_->look(NamedView::isometric); });
  add(view, "&Fit", QKeySequence("F9"), "All pipes in sight", [this] { view_->fit(); });
  add(view, "&Zoom to the chosen part", QKeySequence("F10"), "It alone fills the view", [this] { zoom_to_chosen(); });
  add(view, "Se&ction...", QKeySequence("Ctrl+K"), "Takes away what is in front of a plane", [this] { ask_section(); });
  QAction* measure = view->addAction("&Measure between two places");
  measure->setCheckable(true);
  measure->setShortcut(QKeySequence("Ctrl+M"));
  measure->setToolTip("Two clicks, from surface to surface");
  connect(measure, &QAction::toggled, this, [this](bool on) { view_->set_measuring(on); });
  QAction* dark = view->addAction("&Dark");
  dark->setCheckable(true);
  dark->setChecked(dark_);
  dark->setShortcut(QKeySequence("Ctrl+D"));
  connect(dark, &QAction::toggled, this, [this](bool on) { set_dark(on); });
}

// Every panel by a key, because Tab steps through things while the view has the keys.
void MainWindow::build_go_to_menu(QMenu* view) {
  QMenu* go = view->addMenu("&Go to");
  go->setToolTipsVisible(true);
  const std::pair<const char*, QWidget*> panels[] = {
      {"&1 What there is", items_},           {"&2 The view", view_},
      {"&3 The value under the hand", hand_}, {"&4 What is wrong", findings_->list()},
      {"&5 The bend table", bends_->table()}, {"&6 Bending, step by step", bending_}};
  int number = 0;
  for (const auto& [words, panel] : panels) {
    QWidget* there = panel;
    add(go, words, QKeySequence(QString("Ctrl+%1").arg(++number)), "Brings the keys there", [this, there] {
      QWidget* to = there == hand_ ? hand_->first_field() : there;
      if (to) to->setFocus(Qt::ShortcutFocusReason);
    });
  }
}

void MainWindow::ask_section() {
  bool ok = false;
  const bool inch = unit() == LengthUnit::inch;
  const QString sample = inch ? "back 12" : "back 300";
  const QString typed =
      QInputDialog::getText(this, "Section",
                            QString("Show only what lies this far and farther from the job's origin, in %1:\n"
                                    "a site word and a figure, as %2 or down %3. Empty for no section.")
                                .arg(inch ? "inches" : "mm", sample, inch ? "-20" : "-500"),
                            QLineEdit::Normal, sample, &ok);
  if (!ok) return;
  const auto section = section_typed(typed.trimmed().toStdString(), unit());
  if (!section && !typed.trimmed().isEmpty()) {
    statusBar()->showMessage("A section is a site word and a figure: " + sample);
    return;
  }
  view_->set_section(section);
}

void MainWindow::open_file() {
  if (!may_leave()) return;
  const QString file = QFileDialog::getOpenFileName(
      this, "Open a job", QFileInfo(QString::fromStdString(document_.file())).path(), "Jobs (*.json)");
  if (!file.isEmpty()) open_job(file);
}

void MainWindow::new_from(const std::string& starter) {
  if (!may_leave()) return;
  set_document(Document(starter, options_));
  choose("");
  // Its title is the starter's: the first thing that asks to be changed.
  if (QLineEdit* title = hand_->field("/title")) {
    title->setFocus();
    title->selectAll();
  }
}

}  // namespace halfhard
