#include "modeller/bench/least_squares.h"

#include <unsupported/Eigen/NonLinearOptimization>
#include <unsupported/Eigen/SpecialFunctions>

namespace halfhard {
namespace {

constexpr double kStep = 1e-4;  // mm or degrees: far above rounding, far below any curvature of a bent tube

// As Eigen's solver wants a problem.
struct Problem {
  using Scalar = double;
  using InputType = Eigen::VectorXd;
  using ValueType = Eigen::VectorXd;
  using JacobianType = Eigen::MatrixXd;
  enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };

  const Residuals& function;
  Eigen::Index unknowns, readings;

  int inputs() const { return static_cast<int>(unknowns); }
  int values() const { return static_cast<int>(readings); }
  int operator()(const Eigen::VectorXd& at, Eigen::VectorXd& out) const {
    out = function(at);
    return 0;
  }
  int df(const Eigen::VectorXd& at, Eigen::MatrixXd& out) const {
    out = slope_of(function, at);
    return 0;
  }
};

}  // namespace

Eigen::MatrixXd slope_of(const Residuals& function, const Eigen::VectorXd& at) {
  Eigen::VectorXd place = at;
  Eigen::MatrixXd slope;
  for (Eigen::Index k = 0; k < at.size(); ++k) {
    place[k] = at[k] + kStep;
    const Eigen::VectorXd above = function(place);
    place[k] = at[k] - kStep;
    const Eigen::VectorXd column = (above - function(place)) / (2 * kStep);
    place[k] = at[k];
    if (k == 0) slope.resize(column.size(), at.size());
    slope.col(k) = column;
  }
  return slope;
}

LeastSquares least_squares(const Residuals& residuals, const Eigen::VectorXd& start) {
  Problem problem{residuals, start.size(), residuals(start).size()};
  Eigen::LevenbergMarquardt<Problem> solver(problem);
  solver.parameters.maxfev = 200;
  solver.parameters.xtol = solver.parameters.ftol = 1e-12;
  LeastSquares result;
  result.at = start;
  solver.minimize(result.at);
  result.residuals = residuals(result.at);
  result.slope = slope_of(residuals, result.at);
  const Eigen::MatrixXd normal = result.slope.transpose() * result.slope;
  result.covariance = normal.ldlt().solve(Eigen::MatrixXd::Identity(normal.rows(), normal.cols()));
  return result;
}

double chance_of(double chi_square, double freedom) { return Eigen::numext::igammac(freedom / 2, chi_square / 2); }

}  // namespace halfhard
