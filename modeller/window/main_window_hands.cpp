// What the hands find without the menus: the toolbar, the menu under the right button, keys in the list, files let go over
// the window.
#include "modeller/window/main_window.h"

namespace halfhard {
namespace {

constexpr int kMostRecent = 8;
const char* const kRecent = "recent";

QSettings kept_settings() { return QSettings(QSettings::IniFormat, QSettings::UserScope, "halfhard", "window"); }

bool is_step(const QString& file) {
  const QString ending = QFileInfo(file).suffix().toLower();
  return ending == "step" || ending == "stp";
}

// The only file that is let go, where the window can use it; empty for none.
QString file_of(const QMimeData* data) {
  if (!data->hasUrls() || data->urls().size() != 1) return {};
  const QString file = data->urls().front().toLocalFile();
  return is_step(file) || QFileInfo(file).suffix().toLower() == "json" ? file : QString();
}

}  // namespace

void MainWindow::build_toolbar() {
  QToolBar* bar = addToolBar("Most used");
  bar->setMovable(false);
  bar->setToolButtonStyle(Qt::ToolButtonTextOnly);
  for (const char* name : {"Open", "Save", "Undo", "Redo", "", "Add a pipe between two connections",
                           "Find ways for the chosen pipe", "Prove a bent piece", "Make papers", "", "Fit"}) {
    if (!*name) {
      bar->addSeparator();
      continue;
    }
    QAction* action = actions_.at(name);
    static const std::map<std::string, const char*> kShort = {{"Add a pipe between two connections", "Add a pipe"},
                                                              {"Find ways for the chosen pipe", "Find ways"},
                                                              {"Prove a bent piece", "Prove"}};
    const auto shorter = kShort.find(name);
    if (shorter != kShort.end()) action->setIconText(shorter->second);
    bar->addAction(action);
    const QString key = action->shortcut().toString(QKeySequence::NativeText);
    bar->widgetForAction(action)->setToolTip(action->statusTip() + (key.isEmpty() ? "" : " (" + key + ")"));
    if (action == undo_ || action == redo_) {
      auto* button = qobject_cast<QToolButton*>(bar->widgetForAction(action));
      // What it would undo stands in the menu; here the breadth stays the same.
      connect(action, &QAction::changed, button, [button, name] { button->setText(name); });
      button->setText(name);
    }
  }
}

void MainWindow::build_hands() {
  setAcceptDrops(true);
  items_->on_menu = [this](const std::string& pointer, const QPoint& global) { show_menu_for(pointer, global); };
  items_->on_edit = [this] { edit_chosen(); };
  view_->on_edit = [this] { edit_chosen(); };
  view_->on_menu = [this](const std::optional<Picked>& at, const QPoint& global) {
    if (at) picked(*at);
    show_menu_for(at ? pointer_of(*at) : "", global);
  };
  bends_->table()->setContextMenuPolicy(Qt::ActionsContextMenu);
  bends_->table()->addAction(actions_.at("Copy the bend table"));
  bends_->table()->addAction(actions_.at("Prove a bent piece"));
}

// Only what means something for this part.
void MainWindow::show_menu_for(const std::string& pointer, const QPoint& global) {
  if (pointer != chosen_) choose(pointer);
  QMenu menu(this);
  menu.setToolTipsVisible(true);
  const auto offer = [&](std::initializer_list<const char*> names) {
    for (const char* name : names) menu.addAction(actions_.at(name));
    menu.addSeparator();
  };
  const bool part = chosen_.find('/', 1) != std::string::npos;
  if (part) offer({"Edit the chosen part", "Zoom to the chosen part"});
  if (chosen_.starts_with("/runs/")) {
    offer({"A leg", "An offset", "A passover", "A bend and a leg"});
    offer({"Find ways for the chosen pipe", "Make a bank of the chosen pipe", "Prove a bent piece",
           "Copy the bend table"});
  }
  if (chosen_.starts_with("/benders/")) offer({"Calibrate the chosen bender"});
  if (chosen_.starts_with("/connections")) offer({"Add a pipe between two connections"});
  if (!part) offer({"Add a pipe between two connections", "Add a connection", "Add a fixture", "Fit"});
  if (part) offer({"Rename the chosen part", "Take out the chosen part"});
  menu.exec(global);
}

void MainWindow::edit_chosen() {
  QWidget* field = hand_->first_field();
  if (!field) return;
  field->setFocus(Qt::OtherFocusReason);
  if (auto* line = qobject_cast<QLineEdit*>(field)) line->selectAll();
}

void MainWindow::take_out_chosen() {
  const bool part = chosen_.find('/', 1) != std::string::npos;
  const std::string why = part ? take_out(chosen_) : "pick a part first";
  if (!why.empty()) statusBar()->showMessage(QString::fromStdString("Not taken out: " + why));
}

void MainWindow::zoom_to_chosen() {
  if (!document_.plan()) return;
  const std::string name = chosen_name();
  std::vector<Vec3> places;
  for (const auto& run : document_.plan()->runs)
    if (run->name == name || run->family == name)
      places.insert(places.end(), run->line.points().begin(), run->line.points().end());
  for (const auto& fixture : document_.plan()->fixtures)
    if (const Bounds body = body_bounds(*fixture); fixture->name == name && !body.empty())
      places.insert(places.end(), {body.low, body.high});
  for (const auto& connection : document_.plan()->connections)
    if (connection->name == name)
      places.insert(places.end(), {connection->at, connection->at + 60 * connection->towards});
  if (!places.empty()) view_->fit_to(places);
}

void MainWindow::copy_bend_table() {
  if (bends_->table()->rowCount() == 0) return statusBar()->showMessage("Pick a pipe first");
  QApplication::clipboard()->setText(bends_->as_text());
  statusBar()->showMessage("The bend table is copied");
}

void MainWindow::save_picture() {
  const QString beside = QFileInfo(QString::fromStdString(document_.file())).completeBaseName();
  QString file = QFileDialog::getSaveFileName(this, "Save the picture as", (beside.isEmpty() ? "job" : beside) + ".png",
                                              "Pictures (*.png)");
  if (file.isEmpty()) return;
  if (QFileInfo(file).suffix().isEmpty()) file += ".png";
  QSaveFile out(file);
  if (out.open(QIODevice::WriteOnly) && view_->grabFramebuffer().save(&out, "PNG") && out.commit())
    statusBar()->showMessage("The picture is in " + file);
  else
    QMessageBox::warning(this, "Not saved", file + " cannot be written: " + out.errorString());
}

void MainWindow::open_job(const QString& file) { set_document(Document::opened(file.toStdString(), options_)); }

void MainWindow::remember_file(const QString& file) {
  QSettings settings = kept_settings();
  QStringList recent = settings.value(kRecent).toStringList();
  const QString whole = QFileInfo(file).absoluteFilePath();
  recent.removeAll(whole);
  recent.prepend(whole);
  settings.setValue(kRecent, QStringList(recent.mid(0, kMostRecent)));
}

void MainWindow::fill_recent(QMenu* recent) {
  recent->clear();
  for (const QString& file : kept_settings().value(kRecent).toStringList()) {
    if (!QFileInfo::exists(file)) continue;
    QAction* action = recent->addAction(QFileInfo(file).fileName());
    action->setStatusTip(file);
    connect(action, &QAction::triggered, this, [this, file] {
      if (may_leave()) open_job(file);
    });
  }
  if (recent->isEmpty()) recent->addAction("None yet")->setEnabled(false);
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
  if (!file_of(event->mimeData()).isEmpty()) event->acceptProposedAction();
}

// A job is opened; a STEP body becomes a fixture in the middle of the view.
void MainWindow::dropEvent(QDropEvent* event) {
  const QString file = file_of(event->mimeData());
  if (file.isEmpty()) return;
  event->acceptProposedAction();
  if (!is_step(file)) {
    if (may_leave()) open_job(file);
    return;
  }
  const QDir folder = QFileInfo(QString::fromStdString(document_.file())).dir();
  add_body(QFileInfo(file).completeBaseName(), folder.relativeFilePath(file));
}

}  // namespace halfhard
