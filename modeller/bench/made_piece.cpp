#include "modeller/bench/made_piece.h"

#include <algorithm>
#include <cmath>

#include "geometry/base/require.h"

namespace halfhard {

double nearest_turn_deg(double degrees, double near_degrees) {
  return degrees - 360 * std::round((degrees - near_degrees) / 360);
}

PieceModel::PieceModel(const Run& run, int bends_made)
    : run_(run), normal_(run.line.leg_direction(0).cross(run.line.leg_direction(1)).normalized()) {
  HALFHARD_REQUIRE(!run.bends.empty());
  std::vector<double> planned;
  const auto add = [&](std::vector<int>& places, double value) {
    places.push_back(static_cast<int>(planned.size()));
    planned.push_back(value);
  };
  double turn = 0;
  bool first = true;
  for (const Bend& bend : run.bends) {
    const bool made = bend.made <= bends_made;
    made_.push_back(made);
    turn += bend.rotation.degrees();  // what bends not yet made turn, the next one made has to turn as well
    if (!made) {
      for (auto* places : {&angle_at_, &hook_at_, &turn_at_}) places->push_back(-1);
      continue;
    }
    add(angle_at_, bend.angle.degrees());
    add(hook_at_, bend.hook == End::datum ? bend.start_of_bend_mm : bend.end_of_bend_mm);
    if (first) {
      normal_ = Eigen::AngleAxisd(Angle::degrees(turn).radians(), run.line.leg_direction(0)) * normal_;
      turn_at_.push_back(-1);
    } else {
      add(turn_at_, nearest_turn_deg(turn, 0));
    }
    first = false;
    turn = 0;
  }
  planned_ = Eigen::Map<Eigen::VectorXd>(planned.data(), static_cast<Eigen::Index>(planned.size()));
}

bool PieceModel::all_made() const {
  return std::ranges::all_of(made_, [](bool made) { return made; });
}

MadeShape PieceModel::shape(const Eigen::VectorXd& unknowns) const {
  MadeShape shape;
  shape.made = made_;
  const double radius = run_.line.radius_mm(), out = radius + run_.tube->outside_radius_mm();
  const double before = run_.spare_datum_mm + run_.datum_insertion_mm();
  Vec3 along = run_.line.leg_direction(0), normal = normal_;
  shape.datum_face = run_.line.points().front();
  shape.datum_end = shape.datum_face - before * along;
  Vec3 at = shape.datum_end;
  double on_blank = 0;
  for (int bend = 0; bend < bend_count(); ++bend) {
    const auto i = static_cast<std::size_t>(bend);
    shape.along.push_back(along);
    Angle angle, turn;
    double straight = 0;
    if (made_[i]) {
      angle = Angle::degrees(unknowns[angle_at_[i]]);
      if (turn_at_[i] >= 0) turn = Angle::degrees(unknowns[turn_at_[i]]);
      const double arc = radius * angle.radians(), hook = unknowns[hook_at_[i]];
      const double start = run_.bends[i].hook == End::datum ? hook : hook - arc;
      straight = start - on_blank;
      on_blank = start + arc;
    }
    shape.straight_mm.push_back(straight);
    at += straight * along;
    shape.starts.push_back(at);
    normal = Eigen::AngleAxisd(turn.radians(), along) * normal;
    const Vec3 inwards = normal.cross(along), centre = at + radius * inwards;
    const auto swung = [&](Angle by, double reach) -> Vec3 {
      return centre + reach * (Eigen::AngleAxisd(by.radians(), normal) * -inwards);
    };
    shape.backs.push_back(swung(angle / 2, out));
    at = swung(angle, radius);
    along = Eigen::AngleAxisd(angle.radians(), normal) * along;
    shape.ends.push_back(at);
    shape.angle.push_back(angle);
    shape.turn.push_back(turn);
  }
  shape.along.push_back(along);
  shape.straight_mm.push_back(run_.blank_length_mm - on_blank);
  shape.free_end = at + shape.straight_mm.back() * along;
  shape.free_face = shape.free_end - (run_.spare_free_mm + run_.free_insertion_mm()) * along;
  return shape;
}

}  // namespace halfhard
