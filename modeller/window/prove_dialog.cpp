#include "modeller/window/prove_dialog.h"

#include <algorithm>

#include "geometry/shown.h"
#include "modeller/bench/correct.h"
#include "modeller/window/document/json_patch.h"

namespace halfhard {
namespace {

QString text(const std::string& words) { return QString::fromStdString(words); }

std::string member(const char* key, const std::string& typed) {
  return typed.empty() ? "" : std::string(", \"") + key + "\": " + number_json(typed);
}

void head(QGridLayout& grid, int row, const QStringList& words) {
  for (int column = 0; column < words.size(); ++column)
    grid.addWidget(new QLabel("<b>" + words[column] + "</b>"), row, column);
}

}  // namespace

std::string measured_json(const TypedPiece& piece, LengthUnit unit) {
  std::string bends, legs;
  for (size_t i = 0; i < piece.bends.size(); ++i) {
    const TypedPiece::Bend& bend = piece.bends[i];
    const std::string measured =
        member("angle", bend.angle) + member("rotation", bend.rotation) + member("set", bend.set);
    if (measured.empty()) continue;
    bends += (bends.empty() ? "" : ", ") + ("{ \"number\": " + std::to_string(i + 1)) + measured + " }";
  }
  for (size_t i = 0; i < piece.legs.size(); ++i)
    if (!piece.legs[i].empty())
      legs += (legs.empty() ? "" : ", ") + ("{ \"number\": " + std::to_string(i + 1)) +
              member("length", piece.legs[i]) + " }";
  std::string json = "{ \"format\": \"halfhard-measured/1\", \"length_unit\": ";
  json += unit == LengthUnit::inch ? "\"in\"" : "\"mm\"";
  json += ", \"run\": " + text_json(piece.run);
  if (!bends.empty()) json += ",\n  \"bends\": [ " + bends + " ]";
  if (!legs.empty()) json += ",\n  \"legs\": [ " + legs + " ]";
  return json + member("ends_apart", piece.ends_apart) + " }\n";
}

ProveDialog::ProveDialog(QWidget* parent, std::shared_ptr<const Plan> plan, const Run& run)
    : QDialog(parent), plan_(std::move(plan)), run_(run) {
  setWindowTitle("Prove a bent piece: " + text(run.name));
  auto* column = new QVBoxLayout(this);
  auto* sentence = new QLabel(
      "Type what you measured; what is left empty is taken to be as planned. Angles after letting go, legs centre to "
      "centre from the mouth of the fitting, in the job's unit or with their own (3 1/2 in).");
  sentence->setWordWrap(true);
  column->addWidget(sentence);
  auto* content = new QWidget;
  auto* grid = new QGridLayout(content);
  grid->setContentsMargins(0, 0, 6, 0);
  add_bends(*grid);
  add_legs(*grid);
  auto* area = new QScrollArea;
  area->setWidgetResizable(true);
  area->setFrameShape(QFrame::NoFrame);
  area->setWidget(content);
  column->addWidget(area, 3);
  answer_ = new QPlainTextEdit;
  answer_->setReadOnly(true);
  answer_->setAccessibleName("What to bend further");
  column->addWidget(answer_, 2);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
  save_ = buttons->addButton("Save the measurements...", QDialogButtonBox::ActionRole);
  for (QAbstractButton* button : buttons->buttons())  // Enter in a field is no answer to anything
    static_cast<QPushButton*>(button)->setAutoDefault(false);
  connect(save_, &QPushButton::clicked, this, [this] { save(); });
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  column->addWidget(buttons);
  resize(640, 560);
  bends_.front().angle->setFocus();
  work_out();
}

QLineEdit* ProveDialog::field(QGridLayout& grid, int row, int column, const QString& planned, const QString& help) {
  auto* edit = new QLineEdit;
  edit->setPlaceholderText(planned);
  edit->setToolTip(help);
  edit->setAccessibleName(help);
  connect(edit, &QLineEdit::textEdited, this, [this] { work_out(); });
  grid.addWidget(edit, row, column);
  return edit;
}

void ProveDialog::add_bends(QGridLayout& grid) {
  head(grid, grid.rowCount(), {"Bend", "angle", "turn from the bend before", "pulled to"});
  for (const Bend& bend : run_.bends) {
    const int row = grid.rowCount();
    const QString number = QString::number(bend.number);
    grid.addWidget(new QLabel(number), row, 0);
    BendFields fields;
    fields.angle = field(grid, row, 1, text(shown_angle(bend.angle)), "Angle of bend " + number + " after letting go");
    fields.rotation = field(grid, row, 2, bend.number == 1 ? "first" : text(shown_angle(bend.rotation)),
                            "Turn of bend " + number + " about the tube from the bend before, as in the bend table");
    fields.rotation->setEnabled(bend.number > 1);
    fields.set = field(grid, row, 3, text(shown_angle(bend.set_angle)), "Angle that bend " + number + " was pulled to");
    bends_.push_back(fields);
  }
}

void ProveDialog::add_legs(QGridLayout& grid) {
  head(grid, grid.rowCount(), {"Leg", "length"});
  const int legs = run_.line.leg_count();
  for (int leg = 0; leg < legs; ++leg) {
    const int row = grid.rowCount();
    const QString from = leg == 0 ? "datum end" : "bend " + QString::number(leg);
    const QString to = leg + 1 == legs ? "free end" : "bend " + QString::number(leg + 1);
    grid.addWidget(new QLabel(from + " to " + to), row, 0);
    legs_.push_back(field(grid, row, 1, text(shown_length(run_.line.leg_length_mm(leg), plan_->unit)),
                          "Length of the leg from " + from + " to " + to + ", centre to centre"));
  }
  const int row = grid.rowCount();
  grid.addWidget(new QLabel("ends apart"), row, 0);
  ends_apart_ =
      field(grid, row, 1, "", "Straight from the middle of one end to the middle of the other, spare cut off");
}

TypedPiece ProveDialog::typed() const {
  const auto of = [](const QLineEdit* edit) { return edit->text().trimmed().toStdString(); };
  TypedPiece piece;
  piece.run = run_.name;
  for (const BendFields& fields : bends_)
    piece.bends.push_back({of(fields.angle), of(fields.rotation), of(fields.set)});
  for (const QLineEdit* leg : legs_) piece.legs.push_back(of(leg));
  piece.ends_apart = of(ends_apart_);
  return piece;
}

void ProveDialog::work_out() {
  const auto fields = findChildren<QLineEdit*>();
  if (std::all_of(fields.begin(), fields.end(),
                  [](const QLineEdit* edit) { return edit->text().trimmed().isEmpty(); })) {
    save_->setEnabled(false);
    answer_->setPlainText("Nothing is typed yet.");
    return;
  }
  const MeasuredReading reading = read_measured(measured_json(typed(), plan_->unit), "measurements", *plan_);
  save_->setEnabled(reading.piece.has_value());
  if (!reading.piece) {
    answer_->setPlainText("\u26A0 " + text(reading.problems.front().message()));
    return;
  }
  const CorrectionPlan made = plan_correction(run_, plan_->tolerance, *reading.piece);
  answer_->setPlainText(text(correction_text(run_, *plan_, *reading.piece, made)));
}

void ProveDialog::save() {
  const QString name = QFileDialog::getSaveFileName(this, "Save the measurements as", text(run_.name) + ".json",
                                                    "Measurements (*.json)");
  if (name.isEmpty()) return;
  QSaveFile file(name);
  const std::string json = measured_json(typed(), plan_->unit);
  const bool saved = file.open(QIODevice::WriteOnly) &&
                     file.write(json.data(), static_cast<qint64>(json.size())) == static_cast<qint64>(json.size()) &&
                     file.commit();
  if (!saved) QMessageBox::warning(this, "Not saved", name + " cannot be written: " + file.errorString());
}

}  // namespace halfhard
