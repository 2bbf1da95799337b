#include "modeller/bench/trial_fit.h"

#include <algorithm>
#include <cmath>

#include "modeller/bench/least_squares.h"
#include "modeller/bench/piece_fit.h"

namespace halfhard {
namespace {

constexpr double kAlmost180_deg = 175;   // beyond, outside lines meet too far away to be measured
constexpr double kHardlyKnown_mm = 1e4;  // spread of what no reading need show
constexpr double kHardlyKnown_deg = 60;
constexpr double kShown_mm = 1e3;        // a figure less sure than this is not shown by any reading
constexpr double kContradiction = 1e-3;  // chance of readings so far apart

bool has_legs(const TrialBend& bend) { return bend.legs_mm && (!bend.got || bend.got->degrees() <= kAlmost180_deg); }

// Unknowns: radius, mark offset, and a trial's angle (degrees), tube and start of the curve from the end on the hook
// side.
class Readings {
 public:
  explicit Readings(const Trial& trial) : trial_(trial) {}

  Eigen::VectorXd start() const {
    Eigen::VectorXd start(unknowns());
    start[0] = 4 * trial_.outside_diameter_mm;
    start[1] = 0;
    for (std::size_t i = 0; i < trial_.bends.size(); ++i) {
      const TrialBend& bend = trial_.bends[i];
      const double usual = bend.leg_gap_mm ? 180 : 90;
      const double angle = bend.got ? bend.got->degrees() : bend.set ? bend.set->degrees() : usual;
      const double setback = start[0] * Angle::degrees(std::min(angle, kAlmost180_deg)).tan_of_half();
      const double legs = bend.legs_mm ? (*bend.legs_mm)[0] : bend.mark_mm.value_or(0) + setback;
      start[own(i)] = angle;
      start[own(i) + 1] = bend.cut_length_mm.value_or(2 * legs);
      start[own(i) + 2] = bend.curve_starts_mm.value_or(bend.mark_mm.value_or(legs - setback));
    }
    return start;
  }

  // Readings first, then what hardly holds the unknowns that none shows.
  Eigen::VectorXd residuals(const Eigen::VectorXd& at, const Eigen::VectorXd& start) const {
    std::vector<double> out;
    const double mm = trial_.length_error_mm, deg = trial_.angle_error.degrees();
    const double radius = at[0], outside = trial_.outside_diameter_mm;
    for (std::size_t i = 0; i < trial_.bends.size(); ++i) {
      const TrialBend& bend = trial_.bends[i];
      const Angle angle = Angle::degrees(at[own(i)]);
      const double cut = at[own(i) + 1], starts = at[own(i) + 2];
      const auto read = [&](const std::optional<double>& reading, double shows, double error) {
        if (reading) out.push_back((shows - *reading) / error);
      };
      if (bend.got) out.push_back((angle - *bend.got).degrees() / deg);
      read(bend.cut_length_mm, cut, mm);
      read(bend.mark_mm, starts + at[1], mm);
      read(bend.curve_starts_mm, starts, mm);
      // The second leg starts across from the first by R (1 - cos A).
      read(bend.leg_gap_mm, radius * (1 - angle.cos()) + outside, mm);
      if (!has_legs(bend)) continue;
      const double corner = (radius + outside / 2) * angle.tan_of_half();
      out.push_back((starts + corner - (*bend.legs_mm)[0]) / mm);
      out.push_back((cut - starts - radius * angle.radians() + corner - (*bend.legs_mm)[1]) / mm);
    }
    for (Eigen::Index k = 0; k < at.size(); ++k)
      out.push_back((at[k] - start[k]) / (is_angle(k) ? kHardlyKnown_deg : kHardlyKnown_mm));
    return Eigen::Map<Eigen::VectorXd>(out.data(), static_cast<Eigen::Index>(out.size()));
  }

  // The trial that each reading belongs to.
  std::vector<std::size_t> owners() const {
    std::vector<std::size_t> owners;
    for (std::size_t i = 0; i < trial_.bends.size(); ++i) {
      const TrialBend& bend = trial_.bends[i];
      const int count = bend.got.has_value() + bend.cut_length_mm.has_value() + bend.mark_mm.has_value() +
                        bend.curve_starts_mm.has_value() + bend.leg_gap_mm.has_value() + (has_legs(bend) ? 2 : 0);
      owners.insert(owners.end(), static_cast<std::size_t>(count), i);
    }
    return owners;
  }

  Eigen::Index unknowns() const { return 2 + 3 * static_cast<Eigen::Index>(trial_.bends.size()); }
  static Eigen::Index own(std::size_t trial) { return 2 + 3 * static_cast<Eigen::Index>(trial); }
  static bool is_angle(Eigen::Index unknown) { return unknown >= 2 && (unknown - 2) % 3 == 0; }
  static double hardly_known(Eigen::Index unknown) { return is_angle(unknown) ? kHardlyKnown_deg : kHardlyKnown_mm; }

 private:
  const Trial& trial_;
};

int worst_trial(const LeastSquares& solved, const std::vector<std::size_t>& owners) {
  double worst = -1;
  std::size_t trial = 0;
  for (std::size_t i = 0; i < owners.size(); ++i) {
    const auto row = solved.slope.row(static_cast<Eigen::Index>(i));
    const double share = 1 - (row * solved.covariance * row.transpose()).value();
    if (share < 1e-6) continue;
    const double size = std::abs(solved.residuals[static_cast<Eigen::Index>(i)]) / std::sqrt(share);
    if (size <= worst) continue;
    worst = size;
    trial = owners[i];
  }
  return static_cast<int>(trial) + 1;
}

}  // namespace

TrialFit fit_trials(const Trial& trial) {
  const Readings readings(trial);
  const Eigen::VectorXd start = readings.start();
  const LeastSquares solved =
      least_squares([&](const Eigen::VectorXd& at) { return readings.residuals(at, start); }, start);
  TrialFit fit;
  const auto estimate = [&](Eigen::Index unknown) -> std::optional<Estimate> {
    const double spread = std::sqrt(solved.covariance(unknown, unknown));
    if (spread > kShown_mm) return std::nullopt;
    return Estimate{solved.at[unknown], kInterval * spread};
  };
  fit.radius = estimate(0);
  fit.mark_offset = estimate(1);
  for (std::size_t i = 0; i < trial.bends.size(); ++i) {
    fit.got.emplace_back();
    if (trial.bends[i].got) fit.got.back() = Angle::degrees(solved.at[Readings::own(i)]);
  }
  const std::vector<std::size_t> owners = readings.owners();
  double freedom = static_cast<double>(owners.size());
  for (Eigen::Index k = 0; k < readings.unknowns(); ++k)
    freedom -= 1 - solved.covariance(k, k) / std::pow(Readings::hardly_known(k), 2);
  if (freedom > 0.5 && chance_of(solved.chi_square(), freedom) < kContradiction) {
    fit.contradictory = true;
    fit.worst_trial = worst_trial(solved, owners);
  }
  return fit;
}

}  // namespace halfhard
