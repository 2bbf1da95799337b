// What comes out, and what is wrong: the bend table of the chosen pipe with its lengths, and the findings.
#pragma once

#include <QtWidgets>
#include <functional>
#include <string>

#include "geometry/plan/plan.h"
#include "modeller/job/problem.h"

namespace halfhard {

class BendTablePanel : public QWidget {
 public:
  explicit BendTablePanel(QWidget* parent);
  std::function<void(int bend)> on_choose;  // 1-based

  void show(const Plan& plan, const Run* run);  // null: no pipe chosen
  void choose(int bend);
  int chosen() const;
  QString as_text() const;
  QTableWidget* table() const { return table_; }

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  void fit_columns();
  void fill_bend(int bend, const Bend& of, LengthUnit unit);

  QLabel* summary_;
  QTableWidget* table_;
  bool quiet_ = false;
};

class FindingsPanel : public QWidget {
 public:
  explicit FindingsPanel(QWidget* parent);
  std::function<void(int finding)> on_choose;                         // index into the plan's findings
  std::function<void(const std::string& pointer)> on_choose_problem;  // where in the job's text

  void show(const Plan& plan);
  // Why the present text makes no plan; the findings are then those of the last good plan, and the panel says so.
  void show_problems(const std::vector<JobProblem>& problems, bool has_picture);
  QListWidget* list() const { return list_; }

 private:
  QLabel* head_;
  QListWidget* list_;
};

// A sign that is told apart without colour: failing a filled triangle with a stroke, doubtful a diamond, worth knowing a ring.
QIcon severity_sign(Severity severity, const QColor& ink);

}  // namespace halfhard
