// Which bends to change, and by how much, so that the far end comes in: the fewest, and surely.
#pragma once

#include <optional>

#include "modeller/bench/end_miss.h"
#include "modeller/bench/hand_rules.h"
#include "modeller/bench/piece_fit.h"

namespace halfhard {

struct Changes {
  Eigen::VectorXd by_deg;  // one a bend, 0 where it is left alone; above 0 closes
  EndMiss left;            // after them, by the best estimate
  double helps_in = 0;     // share of cases in which the far end comes nearer
};

// The piece in so many cases, drawn from what is known of it; the same every time.
std::vector<Eigen::VectorXd> cases_of(const PieceFit& fit);
inline constexpr int kCases = 400;
inline constexpr double kSurely = 0.95;  // of the cases: 19 in 20

class ChangeSearch {
 public:
  // All bends must be made.
  ChangeSearch(const PieceModel& model, const PieceFit& fit, const Tolerance& tolerance);

  // The fewest bends that bring the far end within tolerance by the best estimate and bring it nearer in 19 of 20 cases;
  // of as many those that open none, then those that change least. Nothing where there are none.
  std::optional<Changes> find(const HandLimits& limits);
  // By the best estimate alone: whether any do, sure or not.
  bool any(const HandLimits& limits);

 private:
  std::optional<Changes> solve(const std::vector<int>& bends, const HandLimits& limits) const;
  std::vector<Changes> good_ones(const HandLimits& limits, std::size_t groups_together) const;
  bool possible(const Eigen::VectorXd& by_deg) const;
  double share_helped(const Eigen::VectorXd& by_deg) const;
  Eigen::VectorXd changed(const Eigen::VectorXd& at, const Eigen::VectorXd& by_deg) const;

  const PieceModel& model_;
  const PieceFit& fit_;
  Judge judge_;
  std::vector<std::vector<int>> groups_;
  std::vector<Eigen::VectorXd> cases_;
};

}  // namespace halfhard
