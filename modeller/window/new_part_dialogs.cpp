#include "modeller/window/new_part_dialogs.h"

#include "modeller/catalogue/tube_sizes.h"
#include "modeller/job/json_patch.h"

namespace halfhard {
namespace {

// A short form with a sentence above it and the two buttons below.
class Form : public QDialog {
 public:
  Form(QWidget* parent, const QString& title, const QString& sentence, const QString& yes) : QDialog(parent) {
    setWindowTitle(title);
    auto* column = new QVBoxLayout(this);
    auto* head = new QLabel(sentence);
    head->setWordWrap(true);
    column->addWidget(head);
    rows_ = new QFormLayout;
    rows_->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    column->addLayout(rows_);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    buttons->button(QDialogButtonBox::Ok)->setText(yes);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    column->addWidget(buttons);
    setMinimumWidth(380);
  }
  template <class Field>
  Field* row(const QString& name, Field* field, const QString& help) {
    auto* label = new QLabel("&" + name);
    label->setBuddy(field);
    label->setToolTip(help);
    field->setToolTip(help);
    field->setAccessibleName(name);
    rows_->addRow(label, field);
    return field;
  }
  QComboBox* choice(const QString& name, const QStringList& words, int first, const QString& help) {
    auto* box = row(name, new QComboBox, help);
    box->addItems(words);
    box->setCurrentIndex(first);
    return box;
  }
  QLineEdit* line(const QString& name, const QString& start, const QString& help) {
    auto* edit = row(name, new QLineEdit(start), help);
    edit->selectAll();
    return edit;
  }

 private:
  QFormLayout* rows_;
};

}  // namespace

std::optional<NewPipe> ask_pipe(QWidget* parent, const PipeChoices& choices) {
  Form form(parent, "Add a pipe",
            "A pipe between two connections, along the site's directions. Its legs can be changed afterwards.", "Add");
  auto* name = form.line("Name", choices.free_name, "What it is called on sheets and cards");
  const int first = choices.from >= 0 ? choices.from : choices.to == 0 ? 1 : 0;
  auto* from =
      form.choice("From", choices.connections, first, "Where it starts: its start end, which marks are measured from");
  auto* to = form.choice("To", choices.connections,
                         choices.to >= 0 && choices.to != first ? choices.to
                         : first == 1                           ? 0
                                                                : 1,
                         "Where it goes");
  auto* tube = form.choice("Tube", choices.tubes, 0, "What it is made from");
  auto* bender = form.choice("Bender", choices.benders, 0, "What bends it");
  name->setFocus();
  if (form.exec() != QDialog::Accepted) return std::nullopt;
  NewPipe pipe;
  pipe.name = name->text().trimmed().toStdString();
  pipe.from = from->currentText().toStdString();
  pipe.to = to->currentText().toStdString();
  pipe.tube = tube->currentText().toStdString();
  pipe.bender = bender->currentText().toStdString();
  return pipe;
}

std::optional<NewBank> ask_bank(QWidget* parent, const QString& of, LengthUnit unit) {
  const bool inch = unit == LengthUnit::inch;
  Form form(parent, "Make a bank", "More pieces like " + of + ", each one step from the one before.", "Make");
  auto* count = form.row("How many pieces", new QSpinBox, "The pipe itself is the first of them");
  count->setRange(2, 1000);
  auto* word = form.choice("Which way", {"right", "left", "back", "front", "up", "down"}, 0, "Along the site");
  auto* step = form.line("How far from one to the next", inch ? "2.5" : "60",
                         QString("Centre line to centre line, in ") + (inch ? "inches" : "mm") +
                             ", with its own unit (3 1/2 in), or a sum with the job's values");
  count->setFocus();
  count->selectAll();
  if (form.exec() != QDialog::Accepted) return std::nullopt;
  return NewBank{count->value(), word->currentText().toStdString(), step->text().toStdString()};
}

std::optional<FixtureAsked> ask_fixture(QWidget* parent, const QString& free_name, const QDir& folder) {
  Form form(
      parent, "Add a fixture",
      "Something that pipes keep clear of. It is put in the middle of the view; its places can be changed afterwards.",
      "Add");
  auto* name = form.line("Name", free_name, "What it is called on drawings and in findings");
  auto* kind = form.choice("What it is", {"box", "round body", "wall, floor or ceiling", "joist", "STEP body"}, 0,
                           "A STEP body is read from a file beneath the job's own folder");
  auto* file = form.line("STEP file", "", "A file beneath the job's own folder");
  auto* look = form.row("Look for it", new QPushButton("Choose..."), "Looks for the file");
  const auto enable = [=](int index) {
    file->setEnabled(index == static_cast<int>(NewFixture::step_body));
    look->setEnabled(file->isEnabled());
  };
  enable(0);
  QObject::connect(kind, QOverload<int>::of(&QComboBox::currentIndexChanged), &form, enable);
  QObject::connect(look, &QPushButton::clicked, &form, [&form, &folder, file] {
    const QString found =
        QFileDialog::getOpenFileName(&form, "A STEP body", folder.path(), "STEP (*.step *.stp *.STEP *.STP)");
    if (!found.isEmpty()) file->setText(folder.relativeFilePath(found));
  });
  name->setFocus();
  if (form.exec() != QDialog::Accepted) return std::nullopt;
  return FixtureAsked{static_cast<NewFixture>(kind->currentIndex()), name->text().trimmed().toStdString(),
                      file->text().trimmed().toStdString()};
}

std::optional<NewValue> ask_value(QWidget* parent, const QString& free_name) {
  Form form(
      parent, "Add a value",
      "A value has a name that any length or angle of the job may use in a sum, so that it is changed in one place.",
      "Add");
  auto* name = form.line("Name", free_name, "Letters, digits and _; as it is written in sums");
  auto* value = form.line("Value", "100", "A number, a length with its unit (3 1/2 in), or a sum with other values");
  name->setFocus();
  if (form.exec() != QDialog::Accepted) return std::nullopt;
  return NewValue{name->text().trimmed().toStdString(), value->text().trimmed().toStdString()};
}

std::optional<NewTool> ask_tube(QWidget* parent, LengthUnit unit) {
  Form form(parent, "Add a tube", "Of a standard's sizes, or as you measure it.", "Add");
  QStringList sizes;
  for (const TubeSize& size : tube_sizes())
    sizes << QString::fromStdString(std::string(size.standard) + ", " + std::string(size.size));
  const int own = sizes.size();
  sizes << "as measured";
  const auto* usual =
      find_tube_size(kTubeStandards[unit == LengthUnit::inch], unit == LengthUnit::inch ? "1/2 L" : "15 x 0.7");
  auto* size = form.choice("Size", sizes, usual ? static_cast<int>(usual - tube_sizes().data()) : 0,
                           "EN 1057 by diameter and wall in mm, ASTM B88 by nominal size and type");
  const bool inch = unit == LengthUnit::inch;
  auto* diameter = form.line("Outside diameter", inch ? "5/8 in" : "15", "Measured across the tube");
  auto* wall = form.line("Wall", inch ? "0.04" : "0.7", "Thickness of the tube's wall");
  auto* name = form.line("Name", "", "What it is called in this job; the size where it is left empty");
  const auto enable = [=](int index) {
    diameter->setEnabled(index == own);
    wall->setEnabled(index == own);
  };
  enable(size->currentIndex());
  QObject::connect(size, QOverload<int>::of(&QComboBox::currentIndexChanged), &form, enable);
  if (form.exec() != QDialog::Accepted) return std::nullopt;
  NewTool tube{name->text().trimmed().toStdString(), ""};
  if (size->currentIndex() == own) {
    tube.json = "{ \"outside_diameter\": " + number_json(diameter->text().toStdString()) +
                ", \"wall\": " + number_json(wall->text().toStdString()) + " }";
    if (tube.name.empty()) tube.name = diameter->text().trimmed().toStdString() + " tube";
    return tube;
  }
  const TubeSize& chosen = tube_sizes()[size->currentIndex()];
  tube.json = "{ \"standard\": " + text_json(std::string(chosen.standard)) +
              ", \"size\": " + text_json(std::string(chosen.size)) + " }";
  if (tube.name.empty()) tube.name = std::string(chosen.size);
  return tube;
}

std::optional<NewTool> ask_bender(QWidget* parent, const QString& free_name, LengthUnit unit) {
  const bool inch = unit == LengthUnit::inch;
  Form form(parent, "Add a bender",
            "By the radius of a finished bend, measured to the middle of the tube. Its other figures can be added "
            "afterwards; what is left out is not checked, and a note says so.",
            "Add");
  auto* name = form.line("Name", free_name, "What it is called in this job");
  auto* radius = form.line("Former radius", inch ? "2 1/4 in" : "55", "Centre-line radius of a finished bend");
  auto* fits = form.line("Fits tube", inch ? "5/8 in" : "15", "Outside diameter of the tube that its groove fits");
  auto* measured = form.row("Radius measured", new QCheckBox, "Tick where it was measured on a trial bend");
  name->setFocus();
  if (form.exec() != QDialog::Accepted) return std::nullopt;
  return NewTool{name->text().trimmed().toStdString(),
                 "{ \"former_radius\": " + number_json(radius->text().toStdString()) +
                     ", \"radius_measured\": " + (measured->isChecked() ? "true" : "false") +
                     ", \"fits\": " + number_json(fits->text().toStdString()) + " }"};
}

bool ask_which(QWidget* parent, const QString& title, const QStringList& lines, std::function<void(int)> on_look) {
  Form form(parent, title, "The picture shows the line that is picked.", "Take it");
  auto* list = form.row("Ways", new QListWidget, "Fewest bends first");
  list->addItems(lines);
  list->setWordWrap(true);
  list->setMinimumSize(420, 140);
  QObject::connect(list, &QListWidget::currentRowChanged, &form, [&](int row) {
    if (row >= 0) on_look(row);
  });
  QObject::connect(list, &QListWidget::itemDoubleClicked, &form, &QDialog::accept);
  list->setCurrentRow(0);
  list->setFocus();
  // Low, so that the picture can be seen above it.
  form.adjustSize();
  form.move(parent->mapToGlobal(QPoint((parent->width() - form.width()) / 2, parent->height() - form.height() - 8)));
  return form.exec() == QDialog::Accepted;
}

}  // namespace halfhard
