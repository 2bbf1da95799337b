#include "modeller/bench/go_on.h"

#include <algorithm>
#include <cmath>

#include "geometry/base/tolerances.h"
#include "geometry/bending/forming.h"
#include "modeller/bench/change_search.h"
#include "modeller/bench/least_squares.h"

namespace halfhard {
namespace {

// What a change costs beside a miss: landing comes first, and the plan is changed no more than it needs.
constexpr double kLanding = 100;  // times the miss by what is allowed
constexpr double kAngle_deg = 1, kTurn_deg = 1, kMark_mm = 2;
constexpr double kLeastBend_deg = 1;

class Rest {
 public:
  Rest(const PieceModel& made, const Tolerance& tolerance)
      : made_(made), whole_(made.run(), made.bend_count()), judge_{tolerance} {
    bool any_made = false;
    for (int bend = 0; bend < whole_.bend_count(); ++bend) {
      const bool is_made = made.made()[static_cast<std::size_t>(bend)];
      const int turn = whole_.turn_at(bend);
      if (!is_made) {
        free_.push_back({whole_.angle_at(bend), kAngle_deg});
        free_.push_back({whole_.hook_at(bend), kMark_mm});
      }
      if (turn >= 0 && (!is_made || !any_made)) free_.push_back({turn, kTurn_deg});
      any_made = any_made || is_made;
    }
  }

  const PieceModel& whole() const { return whole_; }
  Eigen::VectorXd planned() const {
    Eigen::VectorXd chosen(static_cast<Eigen::Index>(free_.size()));
    for (std::size_t i = 0; i < free_.size(); ++i) chosen[static_cast<Eigen::Index>(i)] = whole_.planned()[free_[i].at];
    return chosen;
  }

  // The unknowns of the whole piece: what was made as it was made, the rest as chosen.
  Eigen::VectorXd together(const Eigen::VectorXd& as_made, const Eigen::VectorXd& chosen) const {
    Eigen::VectorXd all = whole_.planned();
    for (std::size_t i = 0; i < free_.size(); ++i) all[free_[i].at] = chosen[static_cast<Eigen::Index>(i)];
    double turned = 0;  // by bends still to come since the last one made: the next one made has that less to turn
    for (int bend = 0; bend < whole_.bend_count(); ++bend) {
      const int turn = whole_.turn_at(bend);
      if (made_.angle_at(bend) < 0) {
        if (turn >= 0) turned += all[turn];
        continue;
      }
      all[whole_.angle_at(bend)] = as_made[made_.angle_at(bend)];
      all[whole_.hook_at(bend)] = as_made[made_.hook_at(bend)];
      if (made_.turn_at(bend) >= 0) all[turn] = as_made[made_.turn_at(bend)] - turned;
      turned = 0;
    }
    return all;
  }

  Eigen::VectorXd land(const Eigen::VectorXd& as_made) const {
    const Run& run = whole_.run();
    const Vec3 direction = run.line.leg_direction(run.line.leg_count() - 1);
    const Eigen::VectorXd start = planned();
    const Residuals residuals = [&](const Eigen::VectorXd& chosen) {
      const MadeShape shape = whole_.shape(together(as_made, chosen));
      Eigen::VectorXd out(6 + chosen.size());
      out.head<3>() = end_miss(run, shape).by * (kLanding / judge_.tolerance.length_mm);
      out.segment<3>(3) = shape.along.back().cross(direction) *
                          (kLanding * Angle::radians(1).degrees() / judge_.tolerance.angle.degrees());
      for (std::size_t i = 0; i < free_.size(); ++i) {
        const auto k = static_cast<Eigen::Index>(i);
        out[6 + k] = (chosen[k] - start[k]) / free_[i].cost;
      }
      return out;
    };
    return least_squares(residuals, start).at;
  }

  EndMiss miss(const Eigen::VectorXd& as_made, const Eigen::VectorXd& chosen) const {
    return end_miss(whole_.run(), whole_.shape(together(as_made, chosen)));
  }
  const Judge& judge() const { return judge_; }

 private:
  struct Free {
    int at;
    double cost;
  };
  const PieceModel& made_;
  PieceModel whole_;
  Judge judge_;
  std::vector<Free> free_;
};

// Why the bends cannot be made so; empty where they can.
std::string what_stops(const Run& run, const MadeShape& shape, const std::vector<bool>& made) {
  for (std::size_t i = 0; i < run.bends.size(); ++i) {
    const double most = run.bender->most_angle ? run.bender->most_angle->degrees() : 180;
    if (shape.angle[i].degrees() < kLeastBend_deg || shape.angle[i].degrees() > std::min(most, 179.0))
      return "bend " + std::to_string(i + 1) + " would have to turn further than it can";
  }
  for (std::size_t leg = 0; leg < shape.straight_mm.size(); ++leg) {
    const bool inner = leg > 0 && leg < run.bends.size();
    const bool fixed = (leg == 0 || made[leg - 1]) && (leg == run.bends.size() || made[leg]);
    const double planned = run.line.straight_mm(static_cast<int>(leg));
    const double least = inner ? std::min(run.bender->shortest_between_mm.value_or(0), planned) : 0;
    if (shape.straight_mm[leg] < least - 0.5 && !fixed)
      return "leg " + std::to_string(leg + 1) + " would have too little straight";
    if (shape.straight_mm[leg] < -kStraightSlack_mm) return "bends on leg " + std::to_string(leg + 1) + " run together";
  }
  return "";
}

// The run as it will be: what was made, and the rest afresh.
Run run_as_made(const Run& run, const MadeShape& shape) {
  std::vector<Vec3> points = {shape.datum_face};
  for (std::size_t i = 0; i < run.bends.size(); ++i)
    points.push_back(shape.starts[i] + run.line.radius_mm() * shape.angle[i].tan_of_half() * shape.along[i]);
  points.push_back(shape.free_face);
  Run made = run;
  made.line = CentreLine::through(std::move(points), run.line.radius_mm());
  BendingOrder order{{}, {}, run.datum_insertion_mm(), run.free_insertion_mm(), run.spare_datum_mm, run.spare_free_mm};
  for (const Bend& bend : run.bends) order.hook.push_back(bend.hook);
  for (const Bend* bend : run.bends_as_made()) order.order.push_back(bend->number);
  made.bends = bend_table(made.line, *run.tube, *run.bender, order);
  return made;
}

double turn_height_mm(const Run& run, const Bend& bend) {
  const FormedPiece piece = before_bend(run, bend.made);
  double behind = 0, beyond = 0;  // of the ends on the hook side and on the lever side
  for (const Bend& other : run.bends) {
    if (other.made >= bend.made) continue;
    const bool datum_side = other.number < bend.number;
    const Vec3& end = datum_side ? piece.line.points().front() : piece.line.points().back();
    (datum_side == (bend.hook == End::datum) ? behind : beyond) = end.z();
  }
  return std::abs(behind) > 1e-6 ? behind : std::abs(beyond) > 1e-6 ? beyond : 0;
}

}  // namespace

GoOn go_on(const PieceModel& made, const PieceFit& fit, const Tolerance& tolerance) {
  const Rest rest(made, tolerance);
  const Run& run = made.run();
  GoOn result;
  result.as_planned = rest.miss(fit.at, rest.planned());
  const Eigen::VectorXd chosen = rest.land(fit.at);
  result.lands = rest.miss(fit.at, chosen);
  int good = 0;
  const auto cases = cases_of(fit);
  for (const Eigen::VectorXd& each : cases) good += rest.judge().good(rest.miss(each, chosen));
  result.lands_in = static_cast<double>(good) / static_cast<double>(cases.size());
  const MadeShape shape = rest.whole().shape(rest.together(fit.at, chosen));
  result.cannot = what_stops(run, shape, made.made());
  if (result.cannot.empty() && !rest.judge().good(result.lands)) result.cannot = "the bends still to come cannot reach";
  if (!result.cannot.empty()) return result;
  const Run then = run_as_made(run, shape);
  for (const Bend* bend : then.bends_as_made()) {
    const auto i = static_cast<std::size_t>(bend->number - 1);
    if (made.made()[i]) continue;
    NextBend next{bend->number,
                  bend->hook,
                  bend->angle,
                  bend->set_angle,
                  bend->rotation,
                  bend->mark_mm,
                  bend->mark_from_outside_mm,
                  turn_height_mm(then, *bend),
                  bend->mark_from_bend,
                  bend->mark_mm - run.bends[i].mark_mm};
    result.bends.push_back(next);
  }
  return result;
}

}  // namespace halfhard
