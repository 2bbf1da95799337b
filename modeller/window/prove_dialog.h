// Proving a bent piece: what was measured of it is typed beside what was planned, and what to bend further is said as it
// is typed. The words and the arithmetic are those of `halfhard correct`.
#pragma once

#include <QtWidgets>
#include <memory>
#include <string>
#include <vector>

#include "geometry/plan.h"

namespace halfhard {

// What was measured, as typed; empty where it was not. Bends and legs by number, from the datum end.
struct TypedPiece {
  struct Bend {
    std::string angle, rotation, set;
  };
  std::string run;
  std::vector<Bend> bends;
  std::vector<std::string> legs;
  std::string ends_apart;
};
// As a file of measurements (see modeller/bench/correct.h).
std::string measured_json(const TypedPiece& piece, LengthUnit unit);

class ProveDialog : public QDialog {
 public:
  // Requires a run of the plan with at least one bend.
  ProveDialog(QWidget* parent, std::shared_ptr<const Plan> plan, const Run& run);

  QLineEdit* angle(int bend) const { return bends_[bend - 1].angle; }
  QString answer() const { return answer_->toPlainText(); }

 private:
  struct BendFields {
    QLineEdit *angle, *rotation, *set;
  };
  void add_bends(QGridLayout& grid);
  void add_legs(QGridLayout& grid);
  QLineEdit* field(QGridLayout& grid, int row, int column, const QString& planned, const QString& help);
  TypedPiece typed() const;
  void work_out();
  void save();

  std::shared_ptr<const Plan> plan_;
  const Run& run_;
  std::vector<BendFields> bends_;
  std::vector<QLineEdit*> legs_;
  QLineEdit* ends_apart_ = nullptr;
  QPlainTextEdit* answer_ = nullptr;
  QPushButton* save_ = nullptr;
};

}  // namespace halfhard
