// From the window to files: saving under another name, and the papers that the program beside this one makes.
#include "modeller/system/neighbour.h"
#include "modeller/window/main_window.h"

namespace halfhard {

bool MainWindow::save_as() {
  const QString before = document_.file().empty() ? "new-job.json" : QString::fromStdString(document_.file());
  QString file = QFileDialog::getSaveFileName(this, "Save the job as", before, "Jobs (*.json)");
  if (file.isEmpty()) return false;
  if (QFileInfo(file).suffix().isEmpty()) file += ".json";
  const std::string trouble = document_.save_as(file.toStdString());
  if (!trouble.empty()) QMessageBox::warning(this, "Not saved", QString::fromStdString(trouble));
  refresh();
  return trouble.empty();
}

void MainWindow::make_papers() {
  if (document_.modified() || document_.file().empty()) {
    const auto answer = QMessageBox::question(
        this, "Make papers",
        "The papers are made from the job's file, which does not hold your last changes. Save first?",
        QMessageBox::Save | QMessageBox::Cancel);
    if (answer != QMessageBox::Save || !save()) return;
  }
  const QString beside = QFileInfo(QString::fromStdString(document_.file())).absolutePath();
  const QString folder =
      QFileDialog::getExistingDirectory(this, "Where the papers go; the job gets a folder of its own there", beside);
  if (!folder.isEmpty()) make_papers_in(folder);
}

void MainWindow::make_papers_in(const QString& folder) {
  if (making_) return;
  QStringList words{"make", QString::fromStdString(document_.file()), "--out", folder};
  for (const auto& [name, value] : options_.set) words << "--set" << QString::fromStdString(name + "=" + value);
  for (const std::string& allowed : options_.allow) words << "--allow" << QString::fromStdString(allowed);
  making_ = new QProcess(this);
  statusBar()->showMessage("Making the papers ...");
  connect(making_, &QProcess::errorOccurred, this, [this, folder](QProcess::ProcessError error) {
    if (error == QProcess::FailedToStart) papers_made(folder, kFileTrouble, "", "it could not be started");
  });
  connect(making_, QOverload<int, QProcess::ExitStatus>::of(&QProcess::finished), this,
          [this, folder](int status, QProcess::ExitStatus how) {
            const QString out = QString::fromUtf8(making_->readAllStandardOutput()).trimmed();
            QString trouble = QString::fromUtf8(making_->readAllStandardError()).trimmed();
            if (how == QProcess::CrashExit) trouble = "the program that makes them broke off";
            papers_made(folder, how == QProcess::CrashExit ? kFileTrouble : status, out, trouble);
          });
  making_->start(QString::fromStdString(neighbour_program("halfhard-make").string()), words);
}

void MainWindow::papers_made(const QString& folder, int status, const QString& out, const QString& trouble) {
  making_->deleteLater();
  making_ = nullptr;
  const bool made = status == kAllWell || status == kFindingFails;
  const QString where = QDir(folder).filePath(QFileInfo(QString::fromStdString(document_.file())).completeBaseName());
  statusBar()->showMessage(made ? "The papers are in " + where : "No papers were made");
  auto* box = new QMessageBox(made ? QMessageBox::Information : QMessageBox::Warning, "Make papers",
                              made ? "The papers are in\n" + where : "No papers were made.", QMessageBox::Ok, this);
  box->setAttribute(Qt::WA_DeleteOnClose);
  if (status == kFindingFails)
    box->setInformativeText("\u26A0 The job fails its checks: what fails is marked NOT TO BE MADE and says why.");
  else if (!made)
    box->setInformativeText(trouble.isEmpty() ? out : trouble);
  if (made) {
    auto* open = box->addButton("Open the folder", QMessageBox::ActionRole);
    connect(open, &QPushButton::clicked, this, [where] { QDesktopServices::openUrl(QUrl::fromLocalFile(where)); });
  }
  box->open();
}

}  // namespace halfhard
