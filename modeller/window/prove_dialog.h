// Proving a bent piece: what was measured of it is typed beside what was planned, and what to bend further is said as it
// is typed. The words and the arithmetic are those of `halfhard correct`.
#pragma once

#include <memory>
#include <vector>

#include "geometry/plan/plan.h"
#include "modeller/window/measured_dialog.h"

namespace halfhard {

class ProveDialog : public MeasuredDialog {
 public:
  // Requires a run of the plan with at least one bend.
  ProveDialog(QWidget* parent, std::shared_ptr<const Plan> plan, const Run& run);

  QLineEdit* angle(int bend) const { return bends_[bend - 1].angle; }

 private:
  struct BendFields {
    QLineEdit *angle, *rotation, *set;
  };
  void add_bends();
  void add_legs();
  std::string measured_json() const;  // a file of measurements, see modeller/bench/correct.h
  void work_out() override;
  void act() override;  // saves the measurements

  std::shared_ptr<const Plan> plan_;
  const Run& run_;
  std::vector<BendFields> bends_;
  std::vector<QLineEdit*> legs_;
  QLineEdit* ends_apart_ = nullptr;
};

}  // namespace halfhard
