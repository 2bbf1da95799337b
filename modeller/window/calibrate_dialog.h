// Calibrating a bender: what trial bends measure is typed, and what the bender really does is said as it is typed and
// taken up into the job. The words and the arithmetic are those of `halfhard calibrate`.
#pragma once

#include <functional>
#include <vector>

#include "geometry/plan/plan.h"
#include "modeller/window/measured_dialog.h"

namespace halfhard {

class CalibrateDialog : public MeasuredDialog {
 public:
  struct OfTube {
    std::string name;
    double outside_diameter_mm = 0;
  };
  // `tubes`: to choose from, not empty; the first is taken to begin with.
  CalibrateDialog(QWidget* parent, std::string bender, std::vector<OfTube> tubes, LengthUnit unit);

  // The bender as JSON, with what was found.
  std::function<void(const std::string& bender_json)> on_take_up;

  enum Reading { set, got, cut_length, hook_leg, other_leg, mark, curve_starts };
  QLineEdit* reading(int trial, Reading which) const { return trials_[trial][which]; }

 private:
  std::string trial_json() const;  // a trial file, see modeller/bench/calibrate.h
  void work_out() override;
  void act() override;

  std::string bender_, found_;
  std::vector<OfTube> tubes_;
  LengthUnit unit_;
  QComboBox* tube_;
  std::vector<std::vector<QLineEdit*>> trials_;
};

}  // namespace halfhard
