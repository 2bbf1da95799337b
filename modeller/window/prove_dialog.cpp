#include "modeller/window/prove_dialog.h"

#include "geometry/words/shown.h"
#include "modeller/bench/correct.h"
#include "modeller/job/json_patch.h"

namespace halfhard {
namespace {

QString text(const std::string& words) { return QString::fromStdString(words); }

// { "number": n, ... } where something of it was measured, with a comma before it where others stand already.
void add_numbered(std::string& list, size_t number, const std::string& members) {
  if (members.empty()) return;
  list += (list.empty() ? "" : ", ") + ("{ \"number\": " + std::to_string(number)) + members + " }";
}

}  // namespace

ProveDialog::ProveDialog(QWidget* parent, std::shared_ptr<const Plan> plan, const Run& run)
    : MeasuredDialog(parent, "Prove a bent piece: " + text(run.name),
                     "Type what you measured; what is left empty is not known, and asked for where it matters. Angles "
                     "after letting go, legs centre to centre from the fitting face, in the job's unit or with their "
                     "own (3 1/2 in).",
                     "Save the measurements..."),
      plan_(std::move(plan)),
      run_(run) {
  add_bends();
  add_legs();
  bends_.front().angle->setFocus();
  work_out();
}

void ProveDialog::add_bends() {
  head({"Bend", "angle", "turn from the bend before", "pulled to"});
  for (const Bend& bend : run_.bends) {
    const QString number = QString::number(bend.number);
    name_row(number);
    BendFields fields;
    fields.angle = field(1, text(shown_angle(bend.angle)), "Angle of bend " + number + " after letting go");
    fields.rotation = field(2, bend.number == 1 ? "first" : text(shown_angle(bend.rotation)),
                            "Turn of bend " + number + " about the tube from the bend before, as in the bend table");
    fields.rotation->setEnabled(bend.number > 1);
    fields.set = field(3, text(shown_angle(bend.set_angle)), "Angle that bend " + number + " was pulled to");
    bends_.push_back(fields);
  }
}

void ProveDialog::add_legs() {
  head({"Leg", "length"});
  const int legs = run_.line.leg_count();
  for (int leg = 0; leg < legs; ++leg) {
    const QString from = leg == 0 ? "start end" : "bend " + QString::number(leg);
    const QString to = leg + 1 == legs ? "far end" : "bend " + QString::number(leg + 1);
    name_row(from + " to " + to);
    legs_.push_back(field(1, text(shown_length(run_.line.leg_length_mm(leg), plan_->unit)),
                          "Length of the leg from " + from + " to " + to + ", centre to centre"));
  }
  name_row("ends apart");
  ends_apart_ = field(1, "", "Straight from the middle of one end to the middle of the other, spare cut off");
}

std::string ProveDialog::measured_json() const {
  std::string bends, legs;
  for (size_t i = 0; i < bends_.size(); ++i)
    add_numbered(bends, i + 1,
                 member_if_typed("angle", typed(bends_[i].angle)) +
                     member_if_typed("rotation", typed(bends_[i].rotation)) +
                     member_if_typed("set", typed(bends_[i].set)));
  for (size_t i = 0; i < legs_.size(); ++i) add_numbered(legs, i + 1, member_if_typed("length", typed(legs_[i])));
  std::string json = "{ \"format\": \"halfhard-measured/1\", \"length_unit\": ";
  json += plan_->unit == LengthUnit::inch ? "\"in\"" : "\"mm\"";
  json += ", \"run\": " + text_json(run_.name);
  if (!bends.empty()) json += ",\n  \"bends\": [ " + bends + " ]";
  if (!legs.empty()) json += ",\n  \"legs\": [ " + legs + " ]";
  return json + member_if_typed("ends_apart", typed(ends_apart_)) + " }\n";
}

void ProveDialog::work_out() {
  if (!anything_typed()) return say("Nothing is typed yet.", false);
  const MeasuredReading reading = read_measured(measured_json(), "measurements", *plan_);
  if (!reading.piece) return say("\u26A0 " + reading.problems.front().message(), false);
  const CorrectionPlan made = plan_correction(run_, plan_->tolerance, *reading.piece);
  say(correction_text(run_, *plan_, *reading.piece, made), true);
}

void ProveDialog::act() {
  const QString name = QFileDialog::getSaveFileName(this, "Save the measurements as", text(run_.name) + ".json",
                                                    "Measurements (*.json)");
  if (name.isEmpty()) return;
  QSaveFile file(name);
  const std::string json = measured_json();
  const bool saved = file.open(QIODevice::WriteOnly) &&
                     file.write(json.data(), static_cast<qint64>(json.size())) == static_cast<qint64>(json.size()) &&
                     file.commit();
  if (!saved) QMessageBox::warning(this, "Not saved", name + " cannot be written: " + file.errorString());
}

}  // namespace halfhard
