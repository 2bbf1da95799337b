// The questions before a new part is added, a dialog each; nothing where the person thought better of it.
#pragma once

#include <QtWidgets>
#include <functional>
#include <optional>
#include <string>

#include "modeller/window/new_parts.h"

namespace halfhard {

// The names that there are to choose from, and one that is free.
struct PipeChoices {
  QStringList connections, tubes, benders;
  QString free_name;
  int from = -1, to = -1;  // which of the connections to start with; -1 for none in particular
};
// Names only; where the connections are is for the caller.
std::optional<NewPipe> ask_pipe(QWidget* parent, const PipeChoices& choices);

struct NewBank {
  int count = 2;
  std::string word, step;
};
std::optional<NewBank> ask_bank(QWidget* parent, const QString& of, LengthUnit unit);

struct FixtureAsked {
  NewFixture kind = NewFixture::box;
  std::string name, file;
};
// `folder` is the job's own: a STEP body is named from there.
std::optional<FixtureAsked> ask_fixture(QWidget* parent, const QString& free_name, const QDir& folder);

struct NewValue {
  std::string name, value;
};
std::optional<NewValue> ask_value(QWidget* parent, const QString& free_name);

// The JSON of a new tube or bender, with its name.
struct NewTool {
  std::string name, json;
};
std::optional<NewTool> ask_tube(QWidget* parent, LengthUnit unit);
std::optional<NewTool> ask_bender(QWidget* parent, const QString& free_name, LengthUnit unit);

// One of several, each in a sentence; `on_look` shows one while it is looked at. False where none was taken.
bool ask_which(QWidget* parent, const QString& title, const QStringList& lines, std::function<void(int)> on_look);

}  // namespace halfhard
