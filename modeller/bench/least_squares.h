// Weighted least squares of a few unknowns, by Eigen's Levenberg-Marquardt, with what it says of their uncertainty.
#pragma once

#include <Eigen/Dense>
#include <functional>

namespace halfhard {

// Each residual divided by its standard deviation.
using Residuals = std::function<Eigen::VectorXd(const Eigen::VectorXd&)>;

struct LeastSquares {
  Eigen::VectorXd at;          // where the sum of squares is least
  Eigen::VectorXd residuals;   // there
  Eigen::MatrixXd slope;       // of the residuals there, one row a residual
  Eigen::MatrixXd covariance;  // of the unknowns: the inverse of slope' * slope
  double chi_square() const { return residuals.squaredNorm(); }
};

// Requires that the residuals hold every unknown (each has a prior or a reading), so that there is one least place near
// `start`. Derivatives are central differences over kStep, in the unknowns' own units (mm and degrees).
LeastSquares least_squares(const Residuals& residuals, const Eigen::VectorXd& start);

// Central differences of any function of the unknowns.
Eigen::MatrixXd slope_of(const Residuals& function, const Eigen::VectorXd& at);

// How likely a sum of squares at least so large is by chance alone, `freedom` > 0 (need not be whole).
double chance_of(double chi_square, double freedom);

}  // namespace halfhard
