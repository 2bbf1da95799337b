#include "modeller/bench/piece_fit.h"

#include <algorithm>
#include <cmath>

#include "modeller/bench/least_squares.h"

namespace halfhard {
namespace {

constexpr double kAngleSpread_deg = 15;  // what is known of an angle that nobody measured: next to nothing
constexpr double kReadMark_mm = 20;  // a mark whose leg is read, and a turn that is read, stand on the reading alone
constexpr double kReadTurn_deg = 20;
constexpr double kDetermined_deg = 1.5;  // an angle known no better than twice this is not determined by the readings
constexpr double kByPriorAlone = 0.9;    // of its spread: a turn known no better than this rests on the prior
constexpr double kContradiction = 1e-3;  // readings that chance brings about less often contradict each other
constexpr double kUsedUp = 1e-6;         // of a reading: no other proves it
constexpr double kAsSuspect = 0.9;       // of the worst: readings that one misreading explains as well
constexpr double kWorthReading =
    0.2;  // of what is not known of the far end: a reading that takes less away is not asked for
constexpr double kClearlyBetter =
    0.95;                            // what is left unknown, for a reading that is asked for in place of a simpler one
constexpr double kHardlyFree = 0.3;  // less freedom than this tests nothing

struct Priors {
  Eigen::VectorXd spread;
  std::vector<bool> loose;  // by its reading, or by next to nothing: not counted as a reading in the test
};

Priors priors_for(const PieceModel& model, const MeasuredPiece& piece, const std::vector<ReadingOfPiece>& readings) {
  Priors priors;
  priors.spread.resize(model.unknowns());
  priors.loose.assign(static_cast<std::size_t>(model.unknowns()), false);
  const auto set = [&](int unknown, double spread, bool loose) {
    priors.spread[unknown] = spread;
    priors.loose[static_cast<std::size_t>(unknown)] = loose;
  };
  for (int bend = 0; bend < model.bend_count(); ++bend) {
    if (model.angle_at(bend) < 0) continue;
    set(model.angle_at(bend), kAngleSpread_deg, true);
    set(model.hook_at(bend), piece.mark_spread_mm, false);
    if (model.turn_at(bend) >= 0) set(model.turn_at(bend), piece.turn_spread.degrees(), false);
  }
  for (const ReadingOfPiece& reading : readings) {
    if (reading.is_turn) set(model.turn_at(reading.of_bend), kReadTurn_deg, true);
    if (reading.of_leg < 0) continue;
    for (const int bend : {reading.of_leg - 1, reading.of_leg}) {
      if (bend >= 0 && bend < model.bend_count() && model.hook_at(bend) >= 0)
        set(model.hook_at(bend), kReadMark_mm, true);
    }
  }
  return priors;
}

double spread_of(const PieceFit& fit, int unknown) { return std::sqrt(fit.covariance(unknown, unknown)); }

void find_intervals(const PieceModel& model, const MeasuredPiece& piece, const std::vector<ReadingOfPiece>& readings,
                    PieceFit& fit) {
  for (int bend = 0; bend < model.bend_count(); ++bend) {
    const auto read = [&](bool turn) {
      return std::ranges::any_of(
          readings, [&](const ReadingOfPiece& r) { return r.of_bend == bend && r.is_turn == turn && r.is_angle; });
    };
    const auto known = [&](int unknown) { return KnownWithin{fit.at[unknown], kInterval * spread_of(fit, unknown)}; };
    fit.angles_deg.emplace_back();
    fit.turns_deg.emplace_back();
    if (const int a = model.angle_at(bend); a >= 0 && (read(false) || spread_of(fit, a) < kDetermined_deg))
      fit.angles_deg.back() = known(a);
    const int t = model.turn_at(bend);
    if (t >= 0 && (read(true) || spread_of(fit, t) < kByPriorAlone * piece.turn_spread.degrees()))
      fit.turns_deg.back() = KnownWithin{nearest_turn_deg(fit.at[t], 0), kInterval * spread_of(fit, t)};
  }
}

// The reading whose error, were it wrong alone, would explain the most; of those that explain nearly as much the one
// that is farthest from the plan, since readings that say what was planned are the less suspect.
void find_worst(const PieceModel& model, const std::vector<ReadingOfPiece>& readings, const LeastSquares& solved,
                PieceFit& fit) {
  const MadeShape planned = model.shape(model.planned());
  std::vector<double> sizes, expected;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const auto row = solved.slope.row(static_cast<Eigen::Index>(i));
    const double share = 1 - (row * solved.covariance * row.transpose()).value();  // not used up by the fit
    const double residual = solved.residuals[static_cast<Eigen::Index>(i)];
    sizes.push_back(share < kUsedUp ? 0 : std::abs(residual) / std::sqrt(share));
    expected.push_back(share < kUsedUp ? 0 : readings[i].value + residual / share * readings[i].error);
  }
  const double worst = *std::ranges::max_element(sizes);
  double farthest = -1;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const ReadingOfPiece& reading = readings[i];
    const double from_plan = std::abs(reading.value - reading.shows(planned)) / reading.error;
    if (sizes[i] < kAsSuspect * worst || from_plan <= farthest) continue;
    farthest = from_plan;
    fit.worst = reading.name;
    fit.worst_is_angle = reading.is_angle;
    fit.worst_shown = reading.value;
    fit.worst_expected = expected[i];
  }
}

}  // namespace

bool PieceFit::angles_known() const {
  for (std::size_t i = 0; i < angles_deg.size(); ++i)
    if (made[i] && !angles_deg[i]) return false;
  return true;
}

PieceFit fit_piece(const PieceModel& model, const MeasuredPiece& piece, const std::vector<ReadingOfPiece>& readings) {
  const Priors priors = priors_for(model, piece, readings);
  const auto count = static_cast<Eigen::Index>(readings.size());
  const Residuals residuals = [&](const Eigen::VectorXd& at) {
    Eigen::VectorXd out(count + at.size());
    const MadeShape shape = model.shape(at);
    for (Eigen::Index i = 0; i < count; ++i) {
      const ReadingOfPiece& reading = readings[static_cast<std::size_t>(i)];
      out[i] = (reading.shows(shape) - reading.value) / reading.error;
    }
    out.tail(at.size()) = (at - model.planned()).cwiseQuotient(priors.spread);
    return out;
  };
  // Angles that were read are the place to start from: the planned ones may be far off.
  Eigen::VectorXd start = model.planned();
  for (const ReadingOfPiece& reading : readings) {
    if (reading.is_angle)
      start[reading.is_turn ? model.turn_at(reading.of_bend) : model.angle_at(reading.of_bend)] = reading.value;
  }
  const LeastSquares solved = least_squares(residuals, start);
  PieceFit fit;
  fit.at = solved.at;
  fit.covariance = solved.covariance;
  fit.made = model.made();
  find_intervals(model, piece, readings, fit);
  double freedom = static_cast<double>(readings.size());
  for (Eigen::Index i = 0; i < fit.at.size(); ++i) {
    if (priors.loose[static_cast<std::size_t>(i)])
      freedom -= 1 - fit.covariance(i, i) / (priors.spread[i] * priors.spread[i]);
  }
  if (freedom > kHardlyFree && chance_of(solved.chi_square(), freedom) < kContradiction) {
    fit.contradictory = true;
    find_worst(model, readings, solved, fit);
  }
  return fit;
}

std::optional<std::string> most_helpful_reading(const PieceModel& model, const MeasuredPiece& piece,
                                                const PieceFit& fit) {
  const Residuals far_end = [&](const Eigen::VectorXd& at) -> Eigen::VectorXd { return model.shape(at).free_face; };
  const Eigen::MatrixXd end_slope = slope_of(far_end, fit.at);
  const double unknown = (end_slope * fit.covariance * end_slope.transpose()).trace();
  std::optional<std::string> best;
  double least_left = (1 - kWorthReading) * unknown;
  for (const ReadingOfPiece& reading : readings_to_add(model, piece)) {
    const Residuals shown = [&](const Eigen::VectorXd& at) {
      return Eigen::VectorXd::Constant(1, reading.shows(model.shape(at)));
    };
    const Eigen::VectorXd row = slope_of(shown, fit.at).row(0).transpose(), spread = fit.covariance * row;
    const double gain = (end_slope * spread).squaredNorm() / (reading.error * reading.error + row.dot(spread));
    if (unknown - gain >= kClearlyBetter * least_left) continue;
    least_left = unknown - gain;
    best = reading.name;
  }
  return best;
}

}  // namespace halfhard
