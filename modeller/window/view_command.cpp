#include "modeller/window/view_command.h"

#include <CLI/CLI.hpp>
#include <cstdio>

#include "modeller/commands/command.h"
#include "modeller/starters/starters.h"
#include "modeller/window/main_window.h"
#include "viewer/vtk/display.h"

namespace halfhard {
namespace {

// What the toolkit tells about its surroundings is of no use to whoever started the window.
void said_by_the_toolkit(QtMsgType type, const QMessageLogContext&, const QString& words) {
  if (type == QtDebugMsg || type == QtInfoMsg || words.startsWith("QStandardPaths:")) return;
  std::fprintf(stderr, "halfhard: view: %s\n", words.toUtf8().constData());
}

Document first_document(const CommandLine& line) {
  if (!line.files.empty()) return Document::opened(line.files[0], line);
  const Starter* sample = find_starter("bank");
  if (!sample) sample = &starters().front();
  return Document(std::string(sample->text), line);
}

// A file that cannot be read and an override that cannot be used are nothing that could be put right in the window.
const JobProblem* beyond_the_window(const Document& document) {
  for (const JobProblem& problem : document.problems()) {
    const bool of_an_override = problem.file.starts_with("--set ");
    if (problem.exit_status == kFileTrouble && document.text().empty()) return &problem;
    if (of_an_override) return &problem;
  }
  return nullptr;
}

}  // namespace

int run_view(int argc, char** argv) {
  CLI::App app("the window: see the job, change it, prove it", "halfhard view");
  CommandLine line;
  std::vector<std::string> overrides;
  bool dark = false;
  app.add_option("job", line.files, "JOB: the job file; without it a sample is shown")->expected(0, 1);
  app.add_flag("--dark", dark, "starts dark");
  app.add_option("--set", overrides, "NAME=VALUE: overrides a value of the job")->allow_extra_args(false);
  app.add_option("--allow", line.allow, "DIR: the job may use files under it")->allow_extra_args(false);
  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    std::fputs(app.help().c_str(), stdout);
    return kAllWell;
  } catch (const CLI::ParseError& error) {
    std::fprintf(stderr, "halfhard: view: %s\n", error.what());
    return kUnusable;
  }
  if (const auto wrong = take_overrides(overrides, line)) {
    std::fprintf(stderr, "halfhard: view: %s\n", wrong->c_str());
    return kUnusable;
  }
  if (!display_reachable()) {
    std::fputs("halfhard: view: there is no display to open a window on; halfhard picture needs none\n", stderr);
    return kFileTrouble;
  }
  Document document = first_document(line);
  if (const JobProblem* problem = beyond_the_window(document)) {
    std::fprintf(stderr, "%s\n", problem->shown().c_str());
    return problem->exit_status;
  }
  qInstallMessageHandler(said_by_the_toolkit);
  QCoreApplication::setAttribute(Qt::AA_EnableHighDpiScaling);
  QCoreApplication::setAttribute(Qt::AA_UseHighDpiPixmaps);
  int qt_argc = 1;
  QApplication application(qt_argc, argv);
  MainWindow window(std::move(document), line, dark);
  window.show();
  QTimer::singleShot(0, &window, [&window] { window.offer_what_was_left(); });
  return application.exec();
}

}  // namespace halfhard
