#include "modeller/commands/starters.h"
#include "modeller/window/document/json_patch.h"
#include "modeller/window/main_window.h"
#include "modeller/window/new_parts.h"

namespace halfhard {
namespace {

QStringList names_in(const JsonTree& tree, const char* pointer) {
  QStringList names;
  const JsonValue parts = tree.at(pointer);
  if (!parts) return names;
  for (JsonValue part = parts.first(); part; part = part.next()) {
    if (parts.kind() == JsonKind::group)
      names << QString::fromStdString(std::string(part.key()));
    else if (const JsonValue name = part.kind() == JsonKind::group ? part.find("name") : JsonValue())
      names << QString::fromStdString(std::string(name.text()));
  }
  return names;
}

std::optional<std::string> with_part(const JsonTree& tree, const std::string& list, const std::string& json) {
  if (tree.at("/" + list)) return with_element(tree, "/" + list, json);
  return with_member(tree, "", list, "[ " + json + " ]");
}

std::array<double, 3> numbers(const Vec3& at) { return {at.x(), at.y(), at.z()}; }

}  // namespace

QAction* MainWindow::add(QMenu* menu, const QString& text, const QKeySequence& key, const QString& help,
                         std::function<void()> does) {
  QAction* action = menu->addAction(text);
  action->setShortcut(key);
  action->setToolTip(help);
  action->setStatusTip(help);
  connect(action, &QAction::triggered, this, [does = std::move(does)] { does(); });
  return action;
}

void MainWindow::build_menus() {
  QMenu* file = menuBar()->addMenu("&File");
  QMenu* fresh = file->addMenu("&New from a starter");
  for (const Starter& starter : starters())
    add(fresh, starter.kind, {}, "A small job to start from",
        [this, &starter] { new_from(std::string(starter.text)); });
  add(file, "&Open...", QKeySequence::Open, "Opens a job file", [this] { open_file(); });
  add(file, "&Save", QKeySequence::Save, "Saves; what was not changed keeps your own layout", [this] { save(); });
  add(file, "&Close", QKeySequence::Quit, "Closes the window", [this] { close(); });
  QMenu* edit = menuBar()->addMenu("&Edit");
  undo_ = add(edit, "&Undo", QKeySequence::Undo, "Takes back the last change", [this] { undo(); });
  redo_ = add(edit, "&Redo", QKeySequence("Ctrl+Shift+Z"), "Makes it again", [this] { redo(); });
  build_job_menu();
  build_view_menu();
}

void MainWindow::build_job_menu() {
  QMenu* job = menuBar()->addMenu("&Job");
  add(job, "Add a &pipe between two connections...", QKeySequence("Ctrl+P"), "A pipe along the site's directions",
      [this] { add_pipe(); });
  add(job, "Make a &bank of the chosen pipe...", QKeySequence("Ctrl+B"), "By how many and how far apart",
      [this] { add_bank(); });
  add(job, "Add a &fixture...", QKeySequence("Ctrl+F"), "Something to keep clear of; a STEP body too",
      [this] { add_fixture(); });
}

void MainWindow::build_view_menu() {
  QMenu* view = menuBar()->addMenu("&View");
  add(view, "&Plan", QKeySequence("F5"), "From above", [this] { view_->look(NamedView::plan); });
  add(view, "&Elevation", QKeySequence("F6"), "From the front", [this] { view_->look(NamedView::elevation); });
  add(view, "&Side", QKeySequence("F7"), "From the left end", [this] { view_->look(NamedView::side); });
  add(view, "&Isometric", QKeySequence("F8"), "From the front, right and above",
      [this] { view_->look(NamedView::isometric); });
  add(view, "&Fit", QKeySequence("F9"), "Everything in sight", [this] { view_->fit(); });
  add(view, "Se&ction...", QKeySequence("Ctrl+K"), "Takes away what is in front of a plane", [this] { ask_section(); });
  QAction* measure = view->addAction("&Measure between two places");
  measure->setCheckable(true);
  measure->setShortcut(QKeySequence("Ctrl+M"));
  connect(measure, &QAction::toggled, this, [this](bool on) { view_->set_measuring(on); });
  QAction* dark = view->addAction("&Dark");
  dark->setCheckable(true);
  dark->setChecked(dark_);
  connect(dark, &QAction::toggled, this, [this](bool on) { set_dark(on); });
}

void MainWindow::ask_section() {
  bool ok = false;
  const QString typed = QInputDialog::getText(this, "Section",
                                              "Show only what lies this far and farther, in mm\n"
                                              "(back 300, down -500, ...); empty for no section",
                                              QLineEdit::Normal, "back 300", &ok);
  if (!ok) return;
  const auto section = section_from_text(typed.trimmed().toStdString());
  if (!section && !typed.trimmed().isEmpty()) {
    statusBar()->showMessage("A section is a site word and millimetres: back 300");
    return;
  }
  view_->set_section(section);
}

void MainWindow::open_file() {
  if (!may_leave()) return;
  const QString file = QFileDialog::getOpenFileName(this, "Open a job", "", "Jobs (*.json)");
  if (!file.isEmpty()) set_document(Document::opened(file.toStdString(), line_));
}

void MainWindow::new_from(const std::string& starter) {
  if (may_leave()) set_document(Document(starter, line_));
}

void MainWindow::add_pipe() {
  const QStringList connections = names_in(document_.tree(), "/connections");
  const QStringList tubes = names_in(document_.tree(), "/tubes"), benders = names_in(document_.tree(), "/benders");
  if (connections.size() < 2 || tubes.isEmpty() || benders.isEmpty() || !document_.plan()) {
    statusBar()->showMessage("A pipe needs two connections, a tube and a bender in the job");
    return;
  }
  bool ok = false;
  const QString from = QInputDialog::getItem(this, "Add a pipe", "From", connections, 0, false, &ok);
  if (!ok) return;
  const QString to = QInputDialog::getItem(this, "Add a pipe", "To", connections, 1, false, &ok);
  const QString name = ok ? QInputDialog::getText(this, "Add a pipe", "Name", QLineEdit::Normal, "new pipe", &ok) : "";
  if (!ok) return;
  NewPipe pipe;
  pipe.name = name.toStdString();
  pipe.tube = tubes[0].toStdString();
  pipe.bender = benders[0].toStdString();
  pipe.from = from.toStdString();
  pipe.to = to.toStdString();
  for (const auto& connection : document_.plan()->connections) {
    if (connection->name == pipe.from)
      pipe.from_at = numbers(connection->at), pipe.from_towards = numbers(connection->towards);
    if (connection->name == pipe.to)
      pipe.to_at = numbers(connection->at), pipe.to_towards = numbers(connection->towards);
  }
  change(with_part(document_.tree(), "runs", pipe_json(pipe)), "add a pipe");
}

void MainWindow::add_bank() {
  const Run* run = chosen_run();
  if (!run) {
    statusBar()->showMessage("Pick the pipe to repeat first");
    return;
  }
  const std::string family = run->family;
  bool ok = false;
  const int count = QInputDialog::getInt(this, "Make a bank", "How many pieces", 2, 2, 1000, 1, &ok);
  if (!ok) return;
  const QString word = QInputDialog::getItem(this, "Make a bank", "Which way",
                                             {"right", "left", "back", "front", "up", "down"}, 0, false, &ok);
  if (!ok) return;
  const QString step =
      QInputDialog::getText(this, "Make a bank", "How far from one to the next", QLineEdit::Normal, "60", &ok);
  if (ok)
    change(with_part(document_.tree(), "banks", bank_json(family, count, word.toStdString(), step.toStdString())),
           "make a bank");
}

void MainWindow::add_fixture() {
  bool ok = false;
  const QStringList kinds{"box", "round body", "wall", "joist", "STEP body"};
  const QString kind = QInputDialog::getItem(this, "Add a fixture", "What it is", kinds, 0, false, &ok);
  if (!ok) return;
  const QString name = QInputDialog::getText(this, "Add a fixture", "Name", QLineEdit::Normal, "new fixture", &ok);
  if (!ok) return;
  QString file;
  if (kind == "STEP body") {
    file = QFileDialog::getOpenFileName(this, "A STEP body beneath the job's folder", "", "STEP (*.step *.stp)");
    if (file.isEmpty()) return;
    const QDir folder = QFileInfo(QString::fromStdString(document_.file())).dir();
    file = folder.relativeFilePath(file);
  }
  change(with_part(document_.tree(), "fixtures",
                   fixture_json(static_cast<NewFixture>(kinds.indexOf(kind)), name.toStdString(),
                                numbers(view_->frame().centre), file.toStdString())),
         "add a fixture");
}

}  // namespace halfhard
