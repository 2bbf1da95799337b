#include <cmath>

#include "modeller/job/expression.h"
#include "modeller/window/document/json_patch.h"
#include "modeller/window/main_window.h"
#include "modeller/window/new_part_dialogs.h"

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

// A place as a person would write it down: whole centimetres or half inches, in the job's unit.
std::array<double, 3> round_place(const Vec3& at_mm, LengthUnit unit) {
  const double step = unit == LengthUnit::inch ? 0.5 : 10;
  std::array<double, 3> place{};
  for (int axis = 0; axis < 3; ++axis) place[axis] = step * std::round(at_mm[axis] / mm_per(unit) / step);
  return place;
}

// "new pipe", or "new pipe 2" where there is one already.
QString free_name(const QStringList& taken, const QString& name) {
  if (!taken.contains(name)) return name;
  for (int number = 2;; ++number)
    if (!taken.contains(QString("%1 %2").arg(name).arg(number))) return QString("%1 %2").arg(name).arg(number);
}

}  // namespace

void MainWindow::add_pipe() {
  const JsonTree& tree = document_.tree();
  PipeChoices choices{names_in(tree, "/connections"), names_in(tree, "/tubes"), names_in(tree, "/benders"),
                      free_name(names_in(tree, "/runs"), "new pipe")};
  if (choices.connections.size() < 2 || choices.tubes.isEmpty() || choices.benders.isEmpty() || !document_.plan()) {
    statusBar()->showMessage("A pipe needs two connections, a tube and a bender in the job");
    return;
  }
  auto pipe = ask_pipe(this, choices);
  if (!pipe) return;
  for (const auto& connection : document_.plan()->connections) {
    const Vec3 at = connection->at / mm_per(unit());
    if (connection->name == pipe->from) pipe->from_at = numbers(at), pipe->from_towards = numbers(connection->towards);
    if (connection->name == pipe->to) pipe->to_at = numbers(at), pipe->to_towards = numbers(connection->towards);
  }
  if (unit() == LengthUnit::inch) pipe->first_leg = 6;
  change(with_part(tree, "runs", pipe_json(*pipe)), "add a pipe");
}

void MainWindow::add_bank() {
  const Run* run = chosen_run();
  if (!run) {
    statusBar()->showMessage("Pick the pipe to repeat first");
    return;
  }
  const std::string family = run->family;
  const auto bank = ask_bank(this, QString::fromStdString(family), unit());
  if (!bank) return;
  change(with_part(document_.tree(), "banks", bank_json(family, bank->count, bank->word, bank->step)), "make a bank");
}

void MainWindow::add_fixture() {
  const QString free = free_name(names_in(document_.tree(), "/fixtures"), "new fixture");
  const QDir folder = QFileInfo(QString::fromStdString(document_.file())).dir();
  const auto fixture = ask_fixture(this, free, folder);
  if (!fixture) return;
  change(with_part(document_.tree(), "fixtures",
                   fixture_json(fixture->kind, fixture->name, round_place(view_->frame().centre, unit()), fixture->file,
                                unit())),
         "add a fixture");
}

void MainWindow::add_connection() {
  const std::string name = free_name(names_in(document_.tree(), "/connections"), "new connection").toStdString();
  const std::string json = connection_json(round_place(view_->frame().centre, unit()));
  const JsonTree& tree = document_.tree();
  change(tree.at("/connections") ? with_member(tree, "/connections", name, json)
                                 : with_member(tree, "", "connections", "{ " + text_json(name) + ": " + json + " }"),
         "add a connection");
  choose(joined_pointer("/connections", name));
}

// After the chosen step, or at the end of the chosen pipe; the way the chosen leg runs, or up.
void MainWindow::add_leg() {
  const JsonValue chosen = document_.tree().at(chosen_);
  const JsonValue parent = chosen ? chosen.parent() : JsonValue();
  JsonValue path, step;
  if (parent && parent.key() == "path") {
    path = parent;
    step = chosen;
  } else if (parent && parent.key() == "runs" && chosen.kind() == JsonKind::group) {
    path = chosen.find("path");
  }
  if (!path || path.kind() != JsonKind::list) {
    statusBar()->showMessage("Pick a pipe or one of its steps first");
    return;
  }
  int place = 0;
  for (JsonValue each = path.first(); each; each = each.next()) {
    ++place;
    if (step && each.index() == step.index()) break;
  }
  std::string way = "\"up\"";
  if (step && step.kind() == JsonKind::group)
    if (const JsonValue go = step.find("go")) way = std::string(go.raw());
  const std::string pointer = path.pointer() + "/" + std::to_string(place);
  change(with_element_before(document_.tree(), path.pointer(), place,
                             "{ \"go\": " + way + ", \"by\": " + (unit() == LengthUnit::inch ? "4" : "100") + " }"),
         "add a leg");
  choose(pointer);
}

}  // namespace halfhard
