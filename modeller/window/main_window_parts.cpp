#include <cmath>

#include "modeller/job/expression.h"
#include "modeller/job/json_patch.h"
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

// From the connection chosen before to the chosen one, where there are such; then straight to the ways.
void MainWindow::add_pipe() {
  const JsonTree& tree = document_.tree();
  PipeChoices choices{names_in(tree, "/connections"), names_in(tree, "/tubes"), names_in(tree, "/benders"),
                      free_name(names_in(tree, "/runs"), "new pipe")};
  if (choices.connections.size() < 2)
    return offer_instead("A pipe goes from one connection to another, and the job has ", choices.connections.size(),
                         "Add a connection");
  if (choices.tubes.isEmpty()) return offer_instead("A pipe is made from a tube, and the job has ", 0, "Add a tube");
  if (choices.benders.isEmpty())
    return offer_instead("A pipe is bent on a bender, and the job has ", 0, "Add a bender");
  if (!document_.plan()) return statusBar()->showMessage("Put right what is wrong with the job's text first");
  const auto place_of = [&](const std::string& pointer) {
    const JsonValue there = pointer.starts_with("/connections/") ? tree.at(pointer) : JsonValue();
    return there ? choices.connections.indexOf(QString::fromStdString(std::string(there.key()))) : -1;
  };
  choices.from = place_of(end_before_);
  choices.to = place_of(chosen_);
  auto pipe = ask_pipe(this, choices);
  if (!pipe) return;
  for (const auto& connection : document_.plan()->connections) {
    const Vec3 at = connection->at / mm_per(unit());
    if (connection->name == pipe->from) pipe->from_at = numbers(at), pipe->from_towards = numbers(connection->towards);
    if (connection->name == pipe->to) pipe->to_at = numbers(at), pipe->to_towards = numbers(connection->towards);
  }
  if (unit() == LengthUnit::inch) pipe->first_leg = 6;
  if (!change(with_part(tree, "runs", pipe_json(*pipe)), "add a pipe")) return;
  choose_last_of("/runs");
  const std::string run = chosen_;
  if (find_ways()) return;
  // Something to go on from by hand, where legs along the site's directions will do.
  document_.change_if_usable(*with_member(document_.tree(), run, "path", legs_json(*pipe)), "lay it by hand", "");
  refresh();
  choose(run);
}

// A refusal with the way out beside it.
void MainWindow::offer_instead(const QString& why, int how_many, const char* instead) {
  QMessageBox box(QMessageBox::Information, "Add a pipe", why + (how_many ? "one" : "none") + ".", QMessageBox::Cancel,
                  this);
  QPushButton* way_out = box.addButton(instead, QMessageBox::AcceptRole);
  box.setDefaultButton(way_out);
  box.exec();
  if (box.clickedButton() == way_out) actions_[instead]->trigger();
}

void MainWindow::choose_to_edit(const std::string& pointer) {
  choose(pointer);
  edit_chosen();
}

void MainWindow::choose_last_of(const std::string& list) {
  const JsonValue parts = document_.tree().at(list);
  if (parts && parts.size() > 0) choose_to_edit(list + "/" + std::to_string(parts.size() - 1));
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
  if (change(with_part(document_.tree(), "banks", bank_json(family, bank->count, bank->word, bank->step)),
             "make a bank"))
    choose_last_of("/banks");
}

void MainWindow::add_fixture() {
  const QString free = free_name(names_in(document_.tree(), "/fixtures"), "new fixture");
  const QDir folder = QFileInfo(QString::fromStdString(document_.file())).dir();
  if (const auto fixture = ask_fixture(this, free, folder)) put_fixture(fixture->kind, fixture->name, fixture->file);
}

void MainWindow::add_body(const QString& name, const QString& file) {
  put_fixture(NewFixture::step_body, free_name(names_in(document_.tree(), "/fixtures"), name).toStdString(),
              file.toStdString());
}

void MainWindow::put_fixture(NewFixture kind, const std::string& name, const std::string& file) {
  const std::string json = fixture_json(kind, name, round_place(view_->frame().centre, unit()), file, unit());
  if (change(with_part(document_.tree(), "fixtures", json), "add a fixture")) choose_last_of("/fixtures");
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
    choose_to_edit(joined_pointer("/" + group, name));
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
