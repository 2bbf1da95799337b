// From the window to the bench and back: ways between two ends, a bent piece proved, a bender calibrated.
#include <cmath>

#include "geometry/words/shown.h"
#include "modeller/job/json_patch.h"
#include "modeller/window/calibrate_dialog.h"
#include "modeller/window/main_window.h"
#include "modeller/window/new_part_dialogs.h"
#include "modeller/window/prove_dialog.h"

namespace halfhard {
namespace {

// "2 bends, cut 629 mm, 12 mm clear of trap 1, through back panel".
std::string words_of_way(const SuggestedPath& way, LengthUnit unit) {
  std::string words = std::to_string(way.bends) + (way.bends == 1 ? " bend" : " bends") + ", cut " +
                      shown_length(way.cut_length_mm, unit);
  if (std::isfinite(way.least_clearance_mm))
    words += ", " + shown_length(way.least_clearance_mm, unit) + " clear of " + way.nearest;
  for (const std::string& body : way.drills) words += ", drilled through " + body;
  return words;
}

}  // namespace

void MainWindow::prove() {
  const Run* run = chosen_run();
  if (!run || run->bends.empty()) {
    statusBar()->showMessage("Pick a pipe with bends first");
    return;
  }
  ProveDialog(this, document_.plan(), *run).exec();
}

// Shown one by one while they are looked at; the one that is taken is one step of undo.
bool MainWindow::find_ways() {
  std::string pointer = chosen_;
  if (pointer.rfind("/runs/", 0) == 0) pointer = pointer.substr(0, pointer.find('/', 6));
  if (pointer.rfind("/runs/", 0) != 0 || !document_.tree().at(pointer + "/to")) {
    statusBar()->showMessage("Pick a pipe that goes to a connection first");
    return false;
  }
  QApplication::setOverrideCursor(Qt::WaitCursor);
  const auto ways = document_.ways_for(pointer);
  QApplication::restoreOverrideCursor();
  if (ways.empty()) {
    statusBar()->showMessage("No way was found: move an end, clear something away or lay it by hand");
    return false;
  }
  QStringList lines;
  for (const auto& way : ways) lines << QString::fromStdString(words_of_way(way.path, unit()));
  document_.end_step();
  const std::string before = document_.text();
  const bool taken = ask_which(this, "Ways between the two ends", lines, [&](int row) {
    document_.change_if_usable(ways[row].text, "find a way", "way:" + pointer);
    refresh();
  });
  if (!taken && document_.text() != before) undo();
  document_.end_step();
  choose(pointer);
  return taken;
}

// The chosen bender, else the chosen pipe's.
void MainWindow::calibrate_bender() {
  const Run* run = chosen_run();
  std::string pointer = chosen_;
  if (run) pointer = joined_pointer("/benders", run->bender->name);
  const JsonValue bender = pointer.rfind("/benders/", 0) == 0 ? document_.tree().at(pointer) : JsonValue();
  std::vector<CalibrateDialog::OfTube> tubes;
  if (document_.plan())
    for (const auto& each : document_.plan()->runs) {
      const bool known =
          std::any_of(tubes.begin(), tubes.end(), [&](const auto& t) { return t.name == each->tube->name; });
      if (!known) tubes.push_back({each->tube->name, each->tube->outside_diameter_mm});
    }
  if (!bender || bender.kind() != JsonKind::group || tubes.empty()) {
    statusBar()->showMessage("Pick a bender, or a pipe that it bends, first");
    return;
  }
  CalibrateDialog dialog(this, std::string(bender.key()), std::move(tubes), unit());
  dialog.on_take_up = [this, pointer](const std::string& found) {
    std::vector<JobProblem> problems;
    const auto measured = JsonTree::parse(found, "", problems);
    std::string text = document_.text();
    for (JsonValue each = measured->root().first(); each; each = each.next()) {
      const auto tree = JsonTree::parse(text, "", problems);
      if (const auto next = with_member(*tree, pointer, std::string(each.key()), std::string(each.raw()))) text = *next;
    }
    if (change(text, "calibrate the bender")) choose(pointer);
  };
  dialog.exec();
}

}  // namespace halfhard
