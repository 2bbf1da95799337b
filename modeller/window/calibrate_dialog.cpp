#include "modeller/window/calibrate_dialog.h"

#include "modeller/bench/calibrate.h"
#include "modeller/job/json_patch.h"
#include "modeller/job/problem.h"

namespace halfhard {
namespace {

constexpr int kTrials = 3;

struct Asked {
  const char *head, *help;
};
constexpr Asked kAsked[] = {
    {"pulled to", "The angle that the bend was pulled to, in degrees"},
    {"left", "The angle that was left after letting go, in degrees"},
    {"tube", "Length of the straight tube before bending"},
    {"hook leg", "From the end on the hook side to where the outside lines meet; of a 90 to the back of the other leg"},
    {"other leg", "The same from the other end"},
    {"mark", "From the end on the hook side to the mark, before bending"},
    {"curve", "From the end on the hook side to where the curve starts, on the bent piece"},
};

}  // namespace

CalibrateDialog::CalibrateDialog(QWidget* parent, std::string bender, std::vector<OfTube> tubes, LengthUnit unit)
    : MeasuredDialog(
          parent, "Calibrate bender " + QString::fromStdString(bender),
          "Bend a 90 on a scrap, and a 45 on another, with a mark on the tube. Type what you measured; every "
          "figure may be left out, and what follows from the others is worked out.",
          "Take it up"),
      bender_(std::move(bender)),
      tubes_(std::move(tubes)),
      unit_(unit) {
  name_row("Tube");
  tube_ = new QComboBox;
  for (const OfTube& tube : tubes_) tube_->addItem(QString::fromStdString(tube.name));
  tube_->setToolTip("What the trial was bent from: another wall or temper springs back otherwise");
  grid().addWidget(tube_, grid().rowCount() - 1, 1, 1, 3);
  connect(tube_, QOverload<int>::of(&QComboBox::currentIndexChanged), this, [this] { work_out(); });
  QStringList heads{"Trial"};
  for (const Asked& asked : kAsked) heads << asked.head;
  head(heads);
  for (int trial = 0; trial < kTrials; ++trial) {
    name_row(QString::number(trial + 1));
    std::vector<QLineEdit*> fields;
    for (size_t i = 0; i < std::size(kAsked); ++i)
      fields.push_back(field(static_cast<int>(i) + 1, "", QString(kAsked[i].help)));
    trials_.push_back(std::move(fields));
  }
  trials_[0][set]->setFocus();
  work_out();
}

std::string CalibrateDialog::trial_json() const {
  const bool inch = unit_ == LengthUnit::inch;
  const OfTube& tube = tubes_[tube_->currentIndex()];
  std::string trials;
  for (const auto& fields : trials_) {
    std::string members;
    for (const auto& [key, which] : {std::pair("set", set),
                                     {"got", got},
                                     {"cut_length", cut_length},
                                     {"mark", mark},
                                     {"curve_starts", curve_starts}})
      members += member_if_typed(key, typed(fields[which]));
    if (const std::string first = typed(fields[hook_leg]), second = typed(fields[other_leg]);
        !first.empty() && !second.empty())
      members += ", \"legs\": [" + number_json(first) + ", " + number_json(second) + "]";
    if (!members.empty()) trials += (trials.empty() ? "" : ", ") + ("{ " + members.substr(2)) + " }";
  }
  return std::string("{ \"format\": \"halfhard-trial/1\", \"length_unit\": ") + (inch ? "\"in\"" : "\"mm\"") +
         ", \"bender\": " + text_json(bender_) + ", \"tube\": " + text_json(tube.name) + ", \"outside_diameter\": \"" +
         number_text(tube.outside_diameter_mm) + " mm\", \"trials\": [ " + trials + " ] }\n";
}

void CalibrateDialog::work_out() {
  found_.clear();
  if (!anything_typed()) return say("Nothing is typed yet.", false);
  const TrialReading reading = read_trial(trial_json(), "trial");
  if (!reading.trial) return say("\u26A0 " + reading.problems.front().message(), false);
  const Calibration made = calibrate(*reading.trial);
  if (made.usable && made.radius) {
    const std::string snippet = bender_snippet(*reading.trial, made);
    found_ = snippet.substr(text_json(bender_).size() + 2);
  }
  say(calibration_text(*reading.trial, made), !found_.empty());
}

void CalibrateDialog::act() {
  if (on_take_up) on_take_up(found_);
  accept();
}

}  // namespace halfhard
