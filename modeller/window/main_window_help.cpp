// What a person may want to read while working: the keys, the cautions, what this is made of.
#include "geometry/words/cautions.h"
#include "modeller/window/main_window.h"

namespace halfhard {
namespace {

QString row(const QString& what, const QString& does) {
  return "<tr><td style='padding-right:14px'><b>" + what.toHtmlEscaped() + "</b></td><td>" + does.toHtmlEscaped() +
         "</td></tr>";
}

void collect_keys(const QMenu* menu, QString& rows) {
  for (const QAction* action : menu->actions()) {
    if (action->menu()) collect_keys(action->menu(), rows);
    if (action->shortcut().isEmpty()) continue;
    rows += row(action->shortcut().toString(QKeySequence::NativeText),
                action->text().remove('&').remove("...").section(':', 0, 0));
  }
}

void show_text(QWidget* parent, const QString& title, const QString& html) {
  QDialog box(parent);
  box.setWindowTitle(title);
  auto* column = new QVBoxLayout(&box);
  auto* text = new QTextBrowser;
  text->setHtml(html);
  text->setAccessibleName(title);
  column->addWidget(text);
  auto* close = new QDialogButtonBox(QDialogButtonBox::Close);
  QObject::connect(close, &QDialogButtonBox::rejected, &box, &QDialog::reject);
  column->addWidget(close);
  box.resize(560, 480);
  box.exec();
}

}  // namespace

void MainWindow::build_help_menu() {
  QMenu* help = menuBar()->addMenu("&Help");
  add(help, "&Keys and mouse", QKeySequence::HelpContents, "How to move about", [this] {
    QString rows = row("drag", "turns the view; on the chosen connection or fixture, moves it along one direction");
    rows += row("Shift and drag, right drag", "shifts the view") + row("wheel, + and -", "nearer and farther");
    rows += row("click", "chooses a pipe, a bend, a fixture, a connection");
    rows += row("arrows, in the view", "turn the view");
    rows += row("Tab, Space, Enter, in the view", "to the next thing, to its next place, and take it");
    for (const QAction* action : menuBar()->actions())
      if (action->menu()) collect_keys(action->menu(), rows);
    show_text(this, "Keys and mouse", "<table>" + rows + "</table>");
  });
  add(help, "&Cautions", QKeySequence("Shift+F1"), "What to mind when making and fitting", [this] {
    if (!document_.plan()) return;
    QString list;
    for (const std::string& sentence : cautions(*document_.plan()))
      list += "<li>" + QString::fromStdString(sentence).toHtmlEscaped() + "</li>";
    show_text(this, "Cautions", "<ul>" + list + "</ul>");
  });
  add(help, "&About Halfhard", QKeySequence("Ctrl+F1"), "What it is, and what it is made with", [this] {
    show_text(this, "About Halfhard",
              "<h3>Halfhard</h3><p>From a job file to bent copper tube: lines, clearances, bend tables, sheets. MIT "
              "licence, no warranty: prove every piece, and follow the local codes.</p><p>The window is made with Qt "
              "(LGPL 3), the Visualization Toolkit (BSD), Eigen (MPL 2), nlohmann/json, CLI11 and muParser (each under "
              "its own permissive licence), and the DejaVu fonts.</p>");
  });
}

}  // namespace halfhard
