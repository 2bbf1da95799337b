// The piece as made, from what was measured of it: least squares over angles, turns and marks, with what is usual at the
// bench for what was not measured (priors). Linear in its uncertainty: right while errors are small against the bends.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "modeller/bench/made_piece.h"
#include "modeller/bench/measured.h"
#include "modeller/bench/readings.h"

namespace halfhard {

inline constexpr double kInterval = 1.96;  // standard deviations to the half-width of a 95 % interval

// A figure with the half-width of its 95 % interval.
struct KnownWithin {
  double value = 0, within = 0;
};

struct PieceFit {
  Eigen::VectorXd at;
  Eigen::MatrixXd covariance;
  std::vector<bool> made;  // one a bend
  // By readings, not only by what is usual at the bench; one a bend, nothing where they do not determine it.
  std::vector<std::optional<KnownWithin>> angles_deg, turns_deg;
  // Readings that cannot all be right, by the chi-square test; the worst is the one that fits the others least.
  bool contradictory = false;
  std::string worst;
  double worst_shown = 0, worst_expected = 0;  // as read, and as the others would have it
  bool worst_is_angle = false;

  bool angles_known() const;  // of every bend made
};

// Requires that `readings` are of this model.
PieceFit fit_piece(const PieceModel& model, const MeasuredPiece& piece, const std::vector<ReadingOfPiece>& readings);

// Of the readings that could be added, the one that would tell most of where the far end is; nothing where none takes
// away a fifth of what is not known of it.
std::optional<std::string> most_helpful_reading(const PieceModel& model, const MeasuredPiece& piece,
                                                const PieceFit& fit);

}  // namespace halfhard
