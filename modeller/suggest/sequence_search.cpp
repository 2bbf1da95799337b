// Standard angles only: every sequence of leg directions that a plumber's angles allow, the lengths solved exactly.
//
// A run of n bends has n + 1 legs in known directions d; their lengths l add up to the way between the ends. As many
// legs as the directions are independent (three at most) follow from the others; those others are tried at
// kStep_mm, the last of them only where all solved legs come out long enough.
#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <optional>

#include "geometry/curve/centreline.h"
#include "modeller/suggest/families.h"

namespace halfhard {
namespace {

constexpr double kStep_mm = 24;
constexpr double kCoarseStep_mm = 70, kCoarseReach_mm = 300;  // with five and six bends
constexpr int kTriesOfLast = 14;
constexpr int kMostLooks = 400000;       // at whole paths, a call
constexpr std::size_t kMostFound = 240;  // paths kept a call
constexpr std::size_t kMostSequences = 12000;
constexpr double kMeets_mm = 1e-3;  // how far the solved legs may end beside the end
constexpr double kSameAngle_deg = 0.01;

struct Standard {
  double degrees;
  int price;
};
constexpr Standard kStandard[] = {{90, 0}, {45, 0}, {30, 1}, {60, 1}, {22.5, 2}, {120, 3}};

// A standard angle's price; nothing for other angles.
std::optional<int> price(const Vec3& a, const Vec3& b) {
  const double degrees = angle_between(a, b).degrees();
  for (const Standard& angle : kStandard) {
    if (std::abs(degrees - angle.degrees) < kSameAngle_deg) return angle.price;
  }
  return std::nullopt;
}

void add(std::vector<Vec3>& all, const Vec3& direction) {
  const bool known =
      std::any_of(all.begin(), all.end(), [&](const Vec3& other) { return (other - direction).norm() < 1e-6; });
  if (!known) all.push_back(direction);
}

// What 90s, 45s and (where asked) 30s and 60s reach from the directions of a frame.
void add_slants(std::vector<Vec3>& all, const Mat3& frame, bool thirties) {
  const auto each_sign = [&](const Vec3& local) {
    for (int signs = 0; signs < 8; ++signs) {
      Vec3 turned = local;
      for (int axis = 0; axis < 3; ++axis) turned[axis] *= signs >> axis & 1 ? -1 : 1;
      add(all, frame * turned);
    }
  };
  const double half = std::sqrt(0.5), long_side = std::sqrt(0.75);
  for (int axis = 0; axis < 3; ++axis) {
    each_sign(Vec3::Unit(axis));
    Vec3 plane = Vec3::Constant(half);
    plane[axis] = 0;
    each_sign(plane);
    Vec3 space = Vec3::Constant(0.5);
    space[axis] = half;
    each_sign(space);
    if (!thirties) continue;
    for (int other = 1; other < 3; ++other) {
      Vec3 slant = Vec3::Zero();
      slant[(axis + other) % 3] = 0.5;
      slant[(axis + 3 - other) % 3] = long_side;
      each_sign(slant);
    }
  }
}

bool parallel(const Vec3& a, const Vec3& b) { return a.cross(b).norm() < 1e-4; }

// How many directions: all that standard angles reach for few bends; for many only square ones, and what an offset takes.
enum class Choice { all, without_thirties, square };

std::vector<Vec3> directions_for(const Surroundings& scene, Choice choice) {
  const bool thirties = choice == Choice::all;
  std::vector<Vec3> all;
  const auto frame_of = [&](const Vec3& along, const Vec3& beside) {
    Mat3 frame;
    frame.col(0) = along;
    frame.col(1) = (beside - beside.dot(along) * along).normalized();
    frame.col(2) = frame.col(0).cross(frame.col(1));
    return frame;
  };
  const Vec3 way = scene.end - scene.start;
  const bool along_site = scene.leaves.cwiseAbs().maxCoeff() > 1 - 1e-9;
  const auto add_frame = [&](std::vector<Vec3>& into, const Mat3& frame, bool with_thirties) {
    if (choice != Choice::square) return add_slants(into, frame, with_thirties);
    for (int axis = 0; axis < 3; ++axis) add(into, frame.col(axis)), add(into, -frame.col(axis));
  };
  if (along_site) add_frame(all, Mat3::Identity(), thirties);
  if (!parallel(scene.leaves, scene.arrives)) {
    const bool reached =
        std::any_of(all.begin(), all.end(), [&](const Vec3& other) { return (other - scene.arrives).norm() < 1e-6; });
    if (!reached) add_frame(all, frame_of(scene.leaves, scene.arrives), thirties);
  } else {
    const Vec3 shift = way - way.dot(scene.leaves) * scene.leaves;
    if (shift.norm() > 1) {
      const Mat3 frame = frame_of(scene.leaves, shift);
      if (!along_site) add_frame(all, frame, thirties);
      for (const Standard& angle : kStandard) {
        const Angle lean = Angle::degrees(angle.degrees);
        add(all, lean.cos() * scene.leaves + lean.sin() * frame.col(1));
      }
    }
  }
  add(all, scene.leaves);
  add(all, scene.arrives);
  return all;
}

struct Sequence {
  std::vector<int> directions;
  int price = 0;
};

class SequenceSearch {
 public:
  SequenceSearch(const Surroundings& scene, int bends)
      : scene_(scene),
        bends_(bends),
        all_(directions_for(scene, bends <= 3   ? Choice::all
                                   : bends == 4 ? Choice::without_thirties
                                                : Choice::square)) {
    prices_.assign(all_.size(), std::vector<int>(all_.size(), -1));
    for (std::size_t i = 0; i < all_.size(); ++i) {
      for (std::size_t j = 0; j < all_.size(); ++j) {
        const auto found = price(all_[i], all_[j]);
        const bool reached = angle_between(all_[i], all_[j]).degrees() <= scene.most_angle_deg + 1e-9;
        if (found && reached) prices_[i][j] = *found;
      }
    }
  }

  std::vector<Points> paths() {
    Sequence first{{index_of(scene_.leaves)}, 0};
    last_ = index_of(scene_.arrives);
    extend(first);
    std::stable_sort(sequences_.begin(), sequences_.end(),
                     [](const Sequence& a, const Sequence& b) { return a.price < b.price; });
    for (const Sequence& sequence : sequences_) {
      if (looks_ > kMostLooks || found_.size() >= kMostFound) break;
      solve(sequence);
    }
    return std::move(found_);
  }

 private:
  int index_of(const Vec3& direction) const {
    for (std::size_t i = 0; i < all_.size(); ++i) {
      if ((all_[i] - direction).norm() < 1e-6) return static_cast<int>(i);
    }
    return 0;
  }

  void extend(Sequence& sequence) {
    if (sequences_.size() >= kMostSequences) return;
    const int here = sequence.directions.back(), laid = static_cast<int>(sequence.directions.size());
    for (int next = 0; next < static_cast<int>(all_.size()); ++next) {
      if (prices_[here][next] < 0 || (laid == bends_ && next != last_)) continue;
      sequence.directions.push_back(next);
      sequence.price += prices_[here][next];
      if (laid == bends_) {
        sequences_.push_back(sequence);
      } else {
        extend(sequence);
      }
      sequence.price -= prices_[here][next];
      sequence.directions.pop_back();
    }
  }

  void solve(const Sequence& sequence) {
    const int legs = bends_ + 1;
    ways_.clear();
    for (const int direction : sequence.directions) ways_.push_back(all_[direction]);
    least_.assign(legs, 0);
    std::vector<double> setback(legs + 1, 0);
    for (int i = 1; i < legs; ++i) {
      setback[i] = scene_.bend_radius_mm * angle_between(ways_[i - 1], ways_[i]).tan_of_half();
    }
    for (int leg = 0; leg < legs; ++leg) {
      const double straight = leg == 0          ? scene_.first_straight_mm
                              : leg + 1 == legs ? scene_.last_straight_mm
                                                : scene_.between_mm;
      least_[leg] = straight + setback[leg] + setback[leg + 1];
    }
    fixed_.assign(legs, std::nullopt);
    solve_free();
    for (int leg = 1; leg + 1 < legs; ++leg) {
      // Two bends of one pull: nothing straight between them.
      const Vec3 before = ways_[leg - 1].cross(ways_[leg]), after = ways_[leg].cross(ways_[leg + 1]);
      const double sum =
          (angle_between(ways_[leg - 1], ways_[leg]) + angle_between(ways_[leg], ways_[leg + 1])).degrees();
      if ((before.normalized() - after.normalized()).norm() > 1e-6 || sum > scene_.one_pull_deg + 1e-9) continue;
      fixed_.assign(legs, std::nullopt);
      fixed_[leg] = setback[leg] + setback[leg + 1];
      solve_free();
    }
  }

  // Which legs follow from the others: the most independent ones, from the middle outwards on equal terms.
  void solve_free() {
    const int legs = static_cast<int>(ways_.size());
    std::vector<bool> solved(legs, false);
    Mat3 seen = Mat3::Zero();
    int rank = 0;
    for (; rank < 3; ++rank) {
      int best = -1;
      double most = 1e-3;
      for (int leg = legs - 1; leg >= 0; --leg) {
        if (solved[leg] || fixed_[leg]) continue;
        Vec3 rest = ways_[leg];
        for (int k = 0; k < rank; ++k) rest -= rest.dot(seen.col(k)) * seen.col(k);
        if (rest.norm() > most + 1e-9) most = rest.norm(), best = leg;
      }
      if (best < 0) break;
      Vec3 rest = ways_[best];
      for (int k = 0; k < rank; ++k) rest -= rest.dot(seen.col(k)) * seen.col(k);
      seen.col(rank) = rest.normalized();
      solved[best] = true;
    }
    basis_.clear();
    frees_.clear();
    for (int leg = 0; leg < legs; ++leg) {
      if (fixed_[leg]) continue;
      (solved[leg] ? basis_ : frees_).push_back(leg);
    }
    Eigen::MatrixXd matrix(3, basis_.size());
    for (std::size_t k = 0; k < basis_.size(); ++k) matrix.col(k) = ways_[basis_[k]];
    inverse_ = matrix.completeOrthogonalDecomposition().pseudoInverse();
    length_ = least_;
    Vec3 rest = scene_.end - scene_.start;
    for (int leg = 0; leg < legs; ++leg) {
      if (fixed_[leg]) length_[leg] = *fixed_[leg], rest -= length_[leg] * ways_[leg];
    }
    lay(0, rest);
  }

  void lay(std::size_t index, const Vec3& rest) {
    if (looks_ > kMostLooks || found_.size() >= kMostFound) return;
    if (index == frees_.size()) return finish(rest);
    const int leg = frees_[index];
    const double low = std::ceil(least_[leg] - 1e-9);
    if (index + 1 == frees_.size()) return lay_last(leg, low, rest);
    const double all_round = (scene_.end - scene_.start).norm() + 6 * scene_.bend_radius_mm;
    const double reach = bends_ > 4 ? std::min(all_round, kCoarseReach_mm) : all_round;
    const double step = bends_ > 4 ? kCoarseStep_mm : kStep_mm;
    for (double at = low; at < low + reach; at += step) {
      length_[leg] = at;
      lay(index + 1, rest - at * ways_[leg]);
    }
  }

  // All solved legs are linear in this one's length: only where they are long enough is it tried.
  void lay_last(int leg, double low, const Vec3& rest) {
    double high = low + 2 * (scene_.end - scene_.start).norm() + 8 * scene_.bend_radius_mm;
    const Eigen::VectorXd base = inverse_ * rest, change = -(inverse_ * ways_[leg]);
    for (std::size_t k = 0; k < basis_.size(); ++k) {
      const double spare = base[k] - least_[basis_[k]];
      if (std::abs(change[k]) < 1e-9) {
        if (spare < -1e-6) return;
      } else if (change[k] > 0) {
        low = std::max(low, -spare / change[k]);
      } else {
        high = std::min(high, -spare / change[k]);
      }
    }
    if (low > high + 1e-9) return;
    const double step = std::max(std::min(kStep_mm, (high - low) / 2), (high - low) / kTriesOfLast);
    double before = -1;
    for (int k = 0; k <= kTriesOfLast; ++k) {
      const double up = std::ceil(low + k * step - 1e-9);
      const double at = up <= high + 1e-9 ? up : k == 0 ? low : high;
      if (at > high + 1e-9 || at == before) break;
      before = length_[leg] = at;
      finish(rest - at * ways_[leg]);
      if (step <= 0) break;
    }
  }

  void finish(const Vec3& rest) {
    const Eigen::VectorXd solved = inverse_ * rest;
    Vec3 left = rest;
    for (std::size_t k = 0; k < basis_.size(); ++k) {
      if (solved[k] < least_[basis_[k]] - 1e-6) return;
      length_[basis_[k]] = solved[k];
      left -= solved[k] * ways_[basis_[k]];
    }
    if (left.norm() > kMeets_mm) return;
    ++looks_;
    Points points{scene_.start};
    for (std::size_t leg = 0; leg < ways_.size(); ++leg) points.push_back(points.back() + length_[leg] * ways_[leg]);
    points.back() = scene_.end;
    if (legs_are_free(scene_, points)) found_.push_back(std::move(points));
  }

  const Surroundings& scene_;
  int bends_ = 0, last_ = 0, looks_ = 0;
  std::vector<Vec3> all_;
  std::vector<std::vector<int>> prices_;  // -1: no standard angle between them, or beyond the bender
  std::vector<Sequence> sequences_;
  std::vector<Points> found_;
  // Of the sequence in hand, a value a leg:
  std::vector<Vec3> ways_;
  std::vector<double> least_, length_;
  std::vector<std::optional<double>> fixed_;
  std::vector<int> basis_, frees_;
  Eigen::MatrixXd inverse_;
};

}  // namespace

std::vector<Points> sequence_candidates(const Surroundings& scene, int bends) {
  return SequenceSearch(scene, bends).paths();
}

}  // namespace halfhard
