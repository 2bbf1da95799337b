// A piece as it was measured, and as it will be when bends are pulled further. Site frame, mm; the datum end, the
// direction of the first leg and the plane of the first bend are where the plan has them.
#pragma once

#include <vector>

#include "geometry/bending/bend_table.h"
#include "modeller/bench/correct.h"

namespace halfhard {

class BentPiece {
 public:
  BentPiece(const Run& run, const MeasuredPiece& measured);

  int bend_count() const { return static_cast<int>(rows_.size()) - 1; }
  Angle angle(int bend) const { return rows_[static_cast<std::size_t>(bend)].angle; }  // 0-based
  // With each bend changed by so much (degrees, one a bend): what a bend takes more it takes from its lever side.
  // Requires changed angles above 0 and below 180.
  EndMiss miss(const Eigen::VectorXd& changes_deg) const;
  bool possible(const Eigen::VectorXd& changes_deg) const;  // angles within 0..180, straights not below 0
  double ends_apart_mm() const;

 private:
  std::vector<ShapeRow> changed(const Eigen::VectorXd& changes_deg) const;
  std::vector<Vec3> points(const std::vector<ShapeRow>& rows) const;

  const Run& run_;
  Vec3 normal_;
  std::vector<ShapeRow> rows_;  // the last holds the straight after the last bend
};

}  // namespace halfhard
