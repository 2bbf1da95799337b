#include "modeller/suggest/steps_from_points.h"

#include <cmath>

#include "geometry/base/tolerances.h"
#include "geometry/curve/centreline.h"
#include "modeller/steps/site_words.h"

namespace halfhard {
namespace {

Vec3 as_word(const Vec3& direction) {
  for (int axis = 0; axis < 3; ++axis) {
    for (const double side : {1.0, -1.0}) {
      const Vec3 word = side * Vec3::Unit(axis);
      if ((direction - word).norm() < 1e-9) return word;
    }
  }
  return direction;
}

bool is_word(const Vec3& direction) { return direction.cwiseAbs().maxCoeff() == 1; }

// A length or angle that came out of rounding as a whole one.
double tidy(double value) { return std::abs(value - std::round(value)) < 1e-9 ? std::round(value) : value; }

Vec3 square_part(const Vec3& way, const Vec3& along) { return way - way.dot(along) * along; }

// Legs that leave a line along a site direction and come back to it: how many they are, 0 where they do not.
struct Over {
  int legs = 0;
  PassoverStep step;
};
Over passover_at(const std::vector<Vec3>& points, int first, const Vec3& along) {
  const int legs = static_cast<int>(points.size()) - 1;
  const auto way = [&](int leg) -> Vec3 { return points[leg + 1] - points[leg]; };
  const Vec3 rise = way(first);
  for (const int flat : {0, 1}) {
    const int fall = first + 1 + flat;
    if (fall + 1 >= legs) return {};
    if ((square_part(rise, along) + square_part(way(fall), along)).norm() > 1e-9) continue;
    if (std::abs((rise - way(fall)).dot(along)) > 1e-9 || (way(fall + 1).normalized() - along).norm() > 1e-9) continue;
    if (flat && (way(first + 1).normalized() - along).norm() > 1e-9) continue;
    const std::vector<WordShift> words = words_of(square_part(rise, along));
    const double degrees = angle_between(along, rise).degrees();
    if (words.size() != 1 || degrees > 89.99) return {};
    Over over{2 + flat, {}};
    over.step.shift = {words[0].word, tidy(words[0].by_mm)};
    over.step.angle = Angle::degrees(tidy(degrees));
    if (flat) over.step.flat_mm = tidy(way(first + 1).norm());
    return over;
  }
  return {};
}

}  // namespace

std::vector<PathStep> steps_from_points(const std::vector<Vec3>& points) {
  std::vector<PathStep> steps;
  const int legs = static_cast<int>(points.size()) - 1;
  for (int leg = 0; leg < legs; ++leg) {
    const Vec3 way = points[leg + 1] - points[leg];
    GoStep go;
    go.direction = as_word(way.normalized());
    go.by = leg + 1 == legs ? LegLength(Rest{}) : LegLength(tidy(way.norm()));
    steps.push_back(go);
    if (leg + 2 >= legs || !is_word(go.direction)) continue;
    if (const Over over = passover_at(points, leg + 1, go.direction); over.legs > 0) {
      steps.push_back(over.step);
      leg += over.legs;
      continue;
    }
    // The next leg leads aside and the one after it goes on in this direction.
    const Vec3 aside = points[leg + 2] - points[leg + 1], on = (points[leg + 3] - points[leg + 2]).normalized();
    const double degrees = angle_between(go.direction, aside).degrees();
    if ((on - go.direction).norm() > 1e-9 || degrees > 89.99) continue;
    OffsetStep offset;
    offset.shift = words_of(square_part(aside, go.direction));
    for (WordShift& part : offset.shift) part.by_mm = tidy(part.by_mm);
    offset.steepness = Angle::degrees(tidy(degrees));
    steps.push_back(offset);
    ++leg;
  }
  return steps;
}

}  // namespace halfhard
