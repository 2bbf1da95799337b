#include "modeller/bench/change_search.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "geometry/base/tolerances.h"
#include "modeller/bench/least_squares.h"

namespace halfhard {
namespace {

constexpr std::size_t kMostTogether = 4;    // bends changed together: more is a new piece, not a correction
constexpr int kMostChoices = 600;           // of as many bends that are tried
constexpr std::size_t kMostLookedInto = 8;  // ways of as many bends whose sureness is worked out
constexpr double kRatherNot = 0.02;         // what a degree of change costs beside a miss of the whole tolerance
// How near a bend is pulled on to what is wanted, a little at a time; one standard deviation; common practice, no source.
constexpr double kPulledNear_deg = 0.25;
constexpr double kTooLittle_deg = 0.3;  // nobody pulls a bend by less
constexpr double kLeastBend_deg = 0.5, kMostBend_deg = 179;

class Chance {
 public:
  double normal() {
    const double u = (engine_() + 1.0) / 4294967297.0, v = engine_() / 4294967296.0;
    return std::sqrt(-2 * std::log(u)) * std::cos(2 * std::numbers::pi * v);
  }

 private:
  std::mt19937 engine_{20260115};  // always the same: the same readings give the same advice
};

// Every choice of `size` out of `count`, ascending.
void each_choice(std::size_t count, std::size_t size,
                 const std::function<void(const std::vector<std::size_t>&)>& call) {
  std::vector<std::size_t> chosen(size);
  const std::function<void(std::size_t, std::size_t)> from = [&](std::size_t place, std::size_t least) {
    if (place == size) return call(chosen);
    for (std::size_t k = least; k < count; ++k) {
      chosen[place] = k;
      from(place + 1, k + 1);
    }
  };
  from(0, 0);
}

std::size_t bends_changed(const Changes& changes) {
  return static_cast<std::size_t>((changes.by_deg.array() != 0).count());
}

bool better(const Changes& a, const Changes& b) {
  if (bends_changed(a) != bends_changed(b)) return bends_changed(a) < bends_changed(b);
  const bool a_opens = a.by_deg.minCoeff() < 0, b_opens = b.by_deg.minCoeff() < 0;
  if (a_opens != b_opens) return b_opens;
  return a.by_deg.cwiseAbs().maxCoeff() < b.by_deg.cwiseAbs().maxCoeff();
}

}  // namespace

std::vector<Eigen::VectorXd> cases_of(const PieceFit& fit) {
  const Eigen::MatrixXd spread = fit.covariance.llt().matrixL();
  Chance chance;
  std::vector<Eigen::VectorXd> cases;
  for (int i = 0; i < kCases; ++i) {
    Eigen::VectorXd draw(fit.at.size());
    for (double& each : draw) each = chance.normal();
    cases.push_back(fit.at + spread * draw);
  }
  return cases;
}

ChangeSearch::ChangeSearch(const PieceModel& model, const PieceFit& fit, const Tolerance& tolerance)
    : model_(model), fit_(fit), judge_{tolerance}, groups_(bends_together(model.run())), cases_(cases_of(fit)) {}

Eigen::VectorXd ChangeSearch::changed(const Eigen::VectorXd& at, const Eigen::VectorXd& by_deg) const {
  Eigen::VectorXd then = at;
  for (int bend = 0; bend < model_.bend_count(); ++bend) {
    double& angle = then[model_.angle_at(bend)];
    if (by_deg[bend] != 0) angle = std::clamp(angle + by_deg[bend], kLeastBend_deg, kMostBend_deg);
  }
  return then;
}

bool ChangeSearch::possible(const Eigen::VectorXd& by_deg) const {
  const MadeShape is = model_.shape(fit_.at), then = model_.shape(changed(fit_.at, by_deg));
  for (std::size_t leg = 0; leg < is.straight_mm.size(); ++leg) {
    const double straight = then.straight_mm[leg];
    if (straight < -kStraightSlack_mm && straight < is.straight_mm[leg] - 1e-9) return false;
  }
  return true;
}

// Gauss-Newton within the limits, place and direction each by what is allowed.
std::optional<Changes> ChangeSearch::solve(const std::vector<int>& bends, const HandLimits& limits) const {
  const Run& run = model_.run();
  const Vec3 direction = run.line.leg_direction(run.line.leg_count() - 1);
  const auto count = static_cast<Eigen::Index>(bends.size());
  Eigen::VectorXd by_deg = Eigen::VectorXd::Zero(model_.bend_count());
  const auto spread_out = [&](const Eigen::VectorXd& chosen) {
    Eigen::VectorXd all = Eigen::VectorXd::Zero(model_.bend_count());
    for (Eigen::Index k = 0; k < count; ++k) all[bends[static_cast<std::size_t>(k)]] = chosen[k];
    return all;
  };
  const Residuals residuals = [&](const Eigen::VectorXd& chosen) {
    const MadeShape shape = model_.shape(changed(fit_.at, spread_out(chosen)));
    Eigen::VectorXd out(6 + count);
    out.head<3>() = end_miss(run, shape).by / judge_.tolerance.length_mm;
    out.segment<3>(3) =
        shape.along.back().cross(direction) * (Angle::radians(1).degrees() / judge_.tolerance.angle.degrees());
    out.tail(count) = chosen * kRatherNot;
    return out;
  };
  Eigen::VectorXd chosen = Eigen::VectorXd::Zero(count);
  for (int round = 0; round < 12; ++round) {
    const Eigen::VectorXd step = slope_of(residuals, chosen).colPivHouseholderQr().solve(-residuals(chosen));
    const Eigen::VectorXd next = (chosen + step).cwiseMax(-limits.most_opening).cwiseMin(limits.most_closing);
    const double moved = (next - chosen).norm();
    chosen = next;
    if (moved < 1e-9) break;
  }
  Changes changes;
  changes.by_deg = spread_out((chosen.array().abs() < kTooLittle_deg).select(0, chosen));
  if (!possible(changes.by_deg)) return std::nullopt;
  changes.left = end_miss(run, model_.shape(changed(fit_.at, changes.by_deg)));
  return changes;
}

std::vector<Changes> ChangeSearch::good_ones(const HandLimits& limits, std::size_t groups_together) const {
  std::vector<Changes> good;
  int tried = 0;
  each_choice(groups_.size(), groups_together, [&](const std::vector<std::size_t>& chosen) {
    if (++tried > kMostChoices) return;
    std::vector<int> bends;
    for (const std::size_t group : chosen) bends.insert(bends.end(), groups_[group].begin(), groups_[group].end());
    if (bends.size() > kMostTogether) return;
    auto changes = solve(bends, limits);
    if (changes && judge_.good(changes->left)) good.push_back(*std::move(changes));
  });
  std::ranges::stable_sort(good, better);
  return good;
}

double ChangeSearch::share_helped(const Eigen::VectorXd& by_deg) const {
  Chance chance;
  int helped = 0;
  for (const Eigen::VectorXd& at : cases_) {
    Eigen::VectorXd made = by_deg;
    for (double& each : made)
      if (each != 0) each += kPulledNear_deg * chance.normal();
    const EndMiss before = end_miss(model_.run(), model_.shape(at));
    const EndMiss after = end_miss(model_.run(), model_.shape(changed(at, made)));
    helped += after.mm() < before.mm();
  }
  return static_cast<double>(helped) / static_cast<double>(cases_.size());
}

std::optional<Changes> ChangeSearch::find(const HandLimits& limits) {
  for (std::size_t together = 1; together <= std::min(kMostTogether, groups_.size()); ++together) {
    std::vector<Changes> good = good_ones(limits, together);
    if (good.size() > kMostLookedInto) good.resize(kMostLookedInto);
    for (Changes& changes : good) {
      changes.helps_in = share_helped(changes.by_deg);
      if (changes.helps_in >= kSurely) return std::move(changes);
    }
  }
  return std::nullopt;
}

bool ChangeSearch::any(const HandLimits& limits) {
  for (std::size_t together = 1; together <= std::min(kMostTogether, groups_.size()); ++together)
    if (!good_ones(limits, together).empty()) return true;
  return false;
}

}  // namespace halfhard
