#include "modeller/suggest/families.h"

#include <cmath>

#include "geometry/base/angle.h"
#include "geometry/base/tolerances.h"

namespace halfhard {
namespace {

// An end this far beside a line still lies on it: well within what a missed connection allows.
constexpr double kOnLine_mm = 0.05;

bool same_direction(const Vec3& a, const Vec3& b) { return angle_between(a, b).degrees() < kSameDirection_deg; }
bool square(const Vec3& a, const Vec3& b) { return std::abs(angle_between(a, b).degrees() - 90) < kSameDirection_deg; }

// Whole millimetres upwards: lengths that a person likes to measure.
double whole(double mm) { return std::ceil(mm - 1e-9); }

// Places for something that may stand anywhere from `low` to `high`: both ends, the middle, and steps between.
std::vector<double> places(double low, double high) {
  std::vector<double> result;
  if (high < low) return result;
  for (const double share : {0.0, 1.0, 0.5, 0.25, 0.75}) {
    // Whole millimetres where one fits.
    const double up = whole(low + share * (high - low)), down = std::floor(high + 1e-9);
    const double at = up <= high ? up : down >= low ? down : high;
    bool known = false;
    for (const double other : result) known = known || std::abs(other - at) < 1;
    if (!known) result.push_back(at);
  }
  return result;
}

}  // namespace

std::vector<Points> straight_candidate(const Surroundings& scene) {
  const Vec3 way = scene.end - scene.start;
  const double along = way.dot(scene.leaves);
  if (!same_direction(scene.leaves, scene.arrives) || along <= 0) return {};
  if ((way - along * scene.leaves).norm() > kOnLine_mm) return {};
  return {{scene.start, scene.end}};
}

std::vector<Points> one_bend_candidate(const Surroundings& scene) {
  const Vec3 normal = scene.leaves.cross(scene.arrives);
  const double size = normal.squaredNorm();
  if (size < 1e-8) return {};
  const Vec3 way = scene.end - scene.start;
  if (std::abs(way.dot(normal)) / std::sqrt(size) > kOnLine_mm) return {};
  const double before = way.cross(scene.arrives).dot(normal) / size;
  const double after = scene.leaves.cross(way).dot(normal) / size;
  if (before <= 0 || after <= 0) return {};
  return {{scene.start, scene.start + before * scene.leaves, scene.end}};
}

namespace {

std::vector<Points> offsets_at(const Surroundings& scene, const std::vector<double>& angles_deg) {
  if (!same_direction(scene.leaves, scene.arrives)) return {};
  const Vec3 way = scene.end - scene.start;
  const double along = way.dot(scene.leaves);
  const Vec3 shift = way - along * scene.leaves;
  const double truth = shift.norm();
  if (truth <= kOnLine_mm) return {};
  std::vector<Points> result;
  for (const double degrees : angles_deg) {
    const Angle angle = Angle::degrees(degrees);
    if (degrees > scene.most_angle_deg) continue;
    const double advance = truth / angle.tan(), setback = scene.bend_radius_mm * angle.tan_of_half();
    for (const double before :
         places(scene.first_straight_mm + setback, along - advance - setback - scene.last_straight_mm)) {
      const Vec3 first = scene.start + before * scene.leaves;
      result.push_back({scene.start, first, first + advance * scene.leaves + shift, scene.end});
    }
  }
  return result;
}

}  // namespace

std::vector<Points> offset_candidates(const Surroundings& scene) { return offsets_at(scene, {45, 30, 60, 22.5}); }

std::vector<Points> whole_degree_offsets(const Surroundings& scene) {
  std::vector<double> angles_deg;
  for (int degrees = 89; degrees >= 2; --degrees) angles_deg.push_back(degrees);
  return offsets_at(scene, angles_deg);
}

std::vector<Points> offset_and_bend_candidates(const Surroundings& scene) {
  if (!square(scene.leaves, scene.arrives)) return {};
  const Vec3 beside = scene.leaves.cross(scene.arrives).normalized();
  const Vec3 way = scene.end - scene.start;
  const Vec3 shift = way.dot(beside) * beside;
  const double truth = shift.norm();
  if (truth <= kOnLine_mm) return {};
  const double before = way.dot(scene.leaves), after = way.dot(scene.arrives);
  const double corner = scene.bend_radius_mm;  // setback of a 90
  std::vector<Points> result;
  for (const double degrees : {45.0, 30.0, 60.0}) {
    const Angle angle = Angle::degrees(degrees);
    const double advance = truth / angle.tan(), setback = scene.bend_radius_mm * angle.tan_of_half();
    const double between = scene.between_mm;
    for (const double at : places(scene.first_straight_mm + setback, before - advance - setback - between - corner)) {
      const Vec3 first = scene.start + at * scene.leaves;
      result.push_back({scene.start, first, first + advance * scene.leaves + shift,
                        scene.start + before * scene.leaves + shift, scene.end});
    }
    for (const double at : places(corner + between + setback, after - advance - setback - scene.last_straight_mm)) {
      const Vec3 turn_at = scene.start + before * scene.leaves;
      const Vec3 first = turn_at + at * scene.arrives;
      result.push_back({scene.start, turn_at, first, first + advance * scene.arrives + shift, scene.end});
    }
  }
  return result;
}

namespace {

// One way of splitting the shift: `jog` by two 90s at `low` along the line, `shift` by an offset of this angle.
void add_dog_legs(const Surroundings& scene, const Vec3& jog, const Vec3& shift, Angle angle,
                  std::vector<Points>& result) {
  const double along = (scene.end - scene.start).dot(scene.leaves), corner = scene.bend_radius_mm;
  const double advance = shift.norm() / angle.tan(), setback = scene.bend_radius_mm * angle.tan_of_half();
  const double apart = setback + scene.between_mm + corner;
  const auto at = [&](double up, const Vec3& beside) -> Vec3 { return scene.start + up * scene.leaves + beside; };
  const Vec3 none = Vec3::Zero(), both = jog + shift;
  // The dog-leg first.
  for (const double low :
       places(scene.first_straight_mm + corner, along - scene.last_straight_mm - setback - advance - apart)) {
    for (const double high : places(low + apart, along - scene.last_straight_mm - setback - advance)) {
      result.push_back({scene.start, at(low, none), at(low, jog), at(high, jog), at(high + advance, both), scene.end});
    }
  }
  // The offset first.
  for (const double low :
       places(scene.first_straight_mm + setback, along - scene.last_straight_mm - corner - advance - apart)) {
    for (const double high : places(low + advance + apart, along - scene.last_straight_mm - corner)) {
      result.push_back(
          {scene.start, at(low, none), at(low + advance, shift), at(high, shift), at(high, both), scene.end});
    }
  }
}

}  // namespace

std::vector<Points> offset_and_dog_leg_candidates(const Surroundings& scene) {
  if (!same_direction(scene.leaves, scene.arrives)) return {};
  const Vec3 way = scene.end - scene.start, shift = way - way.dot(scene.leaves) * scene.leaves;
  std::vector<Points> result;
  for (int axis = 0; axis < 3; ++axis) {
    const Vec3 jog = shift[axis] * Vec3::Unit(axis);
    // Only for parts square to the line, as they are where it runs along a site direction.
    if (std::abs(jog.dot(scene.leaves)) > kOnLine_mm || (shift - jog).norm() <= kOnLine_mm) continue;
    if (jog.norm() < 2 * scene.bend_radius_mm + scene.between_mm) continue;
    for (const double degrees : {45.0, 30.0, 60.0}) {
      add_dog_legs(scene, jog, shift - jog, Angle::degrees(degrees), result);
    }
  }
  return result;
}

}  // namespace halfhard
