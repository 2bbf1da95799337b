#include "modeller/bench/correct.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>

#include "geometry/base/require.h"
#include "modeller/bench/bent_piece.h"

namespace halfhard {
namespace {

constexpr int kMostTogether = 4;        // bends changed together: more is a new piece, not a correction
constexpr int kMostSubsets = 4000;      // of bends that are tried
constexpr double kMostChange_deg = 15;  // beyond, the wall folds or splits; common practice, no source
constexpr double kStep_deg = 1e-4;      // for derivatives: well above rounding, well below curvature

// How far the end is out, each part by what is allowed: at most 1 is good.
struct Judge {
  Tolerance tolerance;
  double place(const EndMiss& miss) const { return miss.by.norm() / tolerance.length_mm; }
  double turn(const EndMiss& miss) const { return miss.turned.degrees() / tolerance.angle.degrees(); }
  bool good(const EndMiss& miss) const { return place(miss) <= 1 && turn(miss) <= 1; }
  double badness(const EndMiss& miss) const { return std::max(place(miss), turn(miss)); }
  double cost(const EndMiss& miss) const { return place(miss) * place(miss) + turn(miss) * turn(miss); }
};

using Changes = Eigen::VectorXd;  // degrees, one a bend

struct Solution {
  Changes changes;
  EndMiss left;
};

// Least squares by Gauss-Newton over the chosen bends: the place of the end by the length tolerance; its direction is
// judged and not steered, since the tape sees the place.
class Solver {
 public:
  Solver(const BentPiece& piece, const Judge& judge) : piece_(piece), judge_(judge) {}

  // Nothing where the bends cannot be changed so.
  std::optional<Solution> solve(const std::vector<int>& bends, bool only_closing) const {
    Changes changes = Changes::Zero(piece_.bend_count());
    for (int round = 0; round < 12; ++round) {
      const Vec3 miss = piece_.miss(changes).by;
      Eigen::MatrixXd slope(3, static_cast<Eigen::Index>(bends.size()));
      for (std::size_t k = 0; k < bends.size(); ++k) {
        Changes nudged = changes;
        nudged[bends[k]] += kStep_deg;
        slope.col(static_cast<Eigen::Index>(k)) = (piece_.miss(nudged).by - miss) / kStep_deg;
      }
      const Eigen::VectorXd step = slope.completeOrthogonalDecomposition().solve(-miss);
      for (std::size_t k = 0; k < bends.size(); ++k) {
        double& change = changes[bends[k]];
        const double least = only_closing ? 0 : -kMostChange_deg;
        change = std::clamp(change + step[static_cast<Eigen::Index>(k)], least, kMostChange_deg);
        const double angle = piece_.angle(bends[k]).degrees();
        change = std::clamp(change, 0.02 - angle, 179.8 - angle);
      }
      if (step.norm() < 1e-9) break;
    }
    if (!piece_.possible(changes)) return std::nullopt;
    return Solution{changes, piece_.miss(changes)};
  }

 private:
  const BentPiece& piece_;
  const Judge& judge_;
};

// The first set of `size` bends, 0-based ascending, or the next one after `bends`; false at the end.
bool next_set(std::vector<int>& bends, int count) {
  const int size = static_cast<int>(bends.size());
  for (int k = size - 1; k >= 0; --k) {
    int& bend = bends[static_cast<std::size_t>(k)];
    if (bend >= count - size + k) continue;
    ++bend;
    for (int j = k + 1; j < size; ++j) {
      bends[static_cast<std::size_t>(j)] = bends[static_cast<std::size_t>(j - 1)] + 1;
    }
    return true;
  }
  return false;
}

// Among as many bends: none opened, then the least change of any, then the least that is left.
bool better(const Solution& a, const Solution& b, const Judge& judge) {
  const bool a_opens = a.changes.minCoeff() < 0, b_opens = b.changes.minCoeff() < 0;
  if (a_opens != b_opens) return b_opens;
  const double a_most = a.changes.cwiseAbs().maxCoeff(), b_most = b.changes.cwiseAbs().maxCoeff();
  if (std::abs(a_most - b_most) > 1e-6) return a_most < b_most;
  return judge.cost(a.left) < judge.cost(b.left);
}

Correction as_correction(const Solution& solution, const BentPiece& piece, const Run& run,
                         const MeasuredPiece& measured) {
  Correction correction;
  correction.left = solution.left;
  for (int bend = 0; bend < piece.bend_count(); ++bend) {
    const double change = solution.changes[bend];
    if (change == 0) continue;
    BendChange each;
    each.number = bend + 1;
    each.from = piece.angle(bend);
    each.to = each.from + Angle::degrees(change);
    each.pull_to = run.bender->set_angle(each.to);
    const auto known = std::ranges::find(measured.bends, each.number, &MeasuredBend::number);
    if (known != measured.bends.end() && known->set && known->angle) {
      each.pull_to = each.pull_to + (*known->set - run.bender->set_angle(*known->angle));
    }
    correction.changes.push_back(each);
  }
  return correction;
}

std::optional<Solution> fewest_bends(const BentPiece& piece, const Judge& judge, bool only_closing, EndMiss& best) {
  const Solver solver(piece, judge);
  int tried = 0;
  for (int size = 1; size <= std::min(kMostTogether, piece.bend_count()); ++size) {
    std::vector<int> bends(static_cast<std::size_t>(size));
    for (int k = 0; k < size; ++k) bends[static_cast<std::size_t>(k)] = k;
    std::optional<Solution> found;
    do {
      if (++tried > kMostSubsets) break;
      auto solution = solver.solve(bends, only_closing);
      if (!solution) continue;
      if (judge.badness(solution->left) < judge.badness(best)) best = solution->left;
      if (judge.good(solution->left) && (!found || better(*solution, *found, judge))) found = std::move(solution);
    } while (next_set(bends, piece.bend_count()));
    if (found) return found;
  }
  return std::nullopt;
}

}  // namespace

CorrectionPlan plan_correction(const Run& run, const Tolerance& tolerance, const MeasuredPiece& measured) {
  HALFHARD_REQUIRE(run.line.bend_count() > 0);
  const BentPiece piece(run, measured);
  const Judge judge{tolerance};
  CorrectionPlan made;
  made.now = piece.miss(Changes::Zero(piece.bend_count()));
  made.best = made.now;
  made.good_as_it_is = judge.good(made.now);
  if (measured.ends_apart_mm) made.ends_apart_mm = piece.ends_apart_mm();
  if (made.good_as_it_is) return made;
  const auto fewest = fewest_bends(piece, judge, false, made.best);
  if (!fewest) return made;
  made.fewest = as_correction(*fewest, piece, run, measured);
  if (fewest->changes.minCoeff() < 0) {
    EndMiss unused = made.now;
    if (const auto closing = fewest_bends(piece, judge, true, unused)) {
      made.closing = as_correction(*closing, piece, run, measured);
    }
  }
  return made;
}

}  // namespace halfhard
