// The questions before a new part is added, a dialog each; nothing where the person thought better of it.
#pragma once

#include <QtWidgets>
#include <optional>
#include <string>

#include "modeller/window/new_parts.h"

namespace halfhard {

// The names that there are to choose from, and one that is free.
struct PipeChoices {
  QStringList connections, tubes, benders;
  QString free_name;
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

}  // namespace halfhard
