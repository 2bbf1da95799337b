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
  add_to_group("connections", name, connection_json(round_place(view_->frame().centre, unit())), "add a connection");
}

void MainWindow::add_to_group(const std::string& group, const std::string& name, const std::string& json,
                              const std::string& what) {
  const JsonTree& tree = document_.tree();
  if (const JsonValue there = tree.at("/" + group); there && there.find(name)) {
    statusBar()->showMessage(QString("Not done: the job has that name already: %1").arg(QString::fromStdString(name)));
    return;
  }
  if (change(tree.at("/" + group) ? with_member(tree, "/" + group, name, json)
                                  : with_member(tree, "", group, "{ " + text_json(name) + ": " + json + " }"),
             what))
    choose(joined_pointer("/" + group, name));
}

void MainWindow::add_value() {
  if (const auto value =
          ask_value(this, free_name(names_in(document_.tree(), "/values"), "new_value").replace(' ', '_')))
    add_to_group("values", value->name, number_json(value->value), "add a value");
}

void MainWindow::add_tube() {
  if (const auto tube = ask_tube(this, unit())) add_to_group("tubes", tube->name, tube->json, "add a tube");
}

void MainWindow::add_bender() {
  const auto bender = ask_bender(this, free_name(names_in(document_.tree(), "/benders"), "new bender"), unit());
  if (bender) add_to_group("benders", bender->name, bender->json, "add a bender");
}

void MainWindow::add_step(NewStep step) {
  const auto place = step_place(document_.tree(), chosen_);
  if (!place) {
    statusBar()->showMessage("Pick a pipe or one of its steps first");
    return;
  }
  const Run* run = chosen_run();
  NewStepFor pipe{unit(), run ? run->line.radius_mm() : 0, true};
  for (const bool gives_up : {true, false}) {
    pipe.gives_up = gives_up;
    const auto added = with_step(document_.tree(), *place, step, pipe);
    if (!added) {
      statusBar()->showMessage("It goes into a leg that runs up, down, right, left, back or front: pick one");
      return;
    }
    if (!change(added->text, "add to the path")) continue;
    statusBar()->clearMessage();
    choose(added->pointer);
    return;
  }
}

}  // namespace halfhard
