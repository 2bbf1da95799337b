#include "geometry/views/cover.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace halfhard::views {
namespace {

constexpr double kFar = std::numeric_limits<double>::max();

// Squared distance from the ray that rises from `point` to `centre`.
double squared_to_ray(const Vec3& point, const Vec3& centre) {
  const Vec3 d = centre - point;
  const double below = std::min(0.0, d.z());
  return d.x() * d.x() + d.y() * d.y() + below * below;
}

// Does the ray meet the flat-ended cylinder over more than a touch?
bool meets_flat_cylinder(const StraightCover& cover, const Vec3& point, double grown) {
  const double radius = cover.radius + grown;
  const Vec3 d = point - cover.from;
  const double along = d.dot(cover.direction), climb = cover.direction.z();
  const Vec3 across = d - along * cover.direction;
  const Vec3 rise = Vec3::UnitZ() - climb * cover.direction;
  double low = 0, high = kFar;
  const double a = rise.squaredNorm(), b = across.dot(rise), c = across.squaredNorm() - radius * radius;
  if (a < 1e-14) {
    if (c >= 0) return false;
  } else {
    const double inside = b * b - a * c;
    if (inside <= 0) return false;
    low = std::max(low, (-b - std::sqrt(inside)) / a);
    high = std::min(high, (-b + std::sqrt(inside)) / a);
  }
  if (std::abs(climb) < 1e-14) {
    if (along <= -grown || along >= cover.length + grown) return false;
  } else {
    const double t0 = (-grown - along) / climb, t1 = (cover.length + grown - along) / climb;
    low = std::max(low, std::min(t0, t1));
    high = std::min(high, std::max(t0, t1));
  }
  return high - low > 1e-9;
}

struct Nearest {
  double where = 0;  // along the piece
  double distance = kFar;
};

// Least distance from the ray to the straight's centre line: convex in the place along it.
Nearest nearest_on(const StraightCover& cover, const Vec3& point) {
  const Vec3 d = point - cover.from;
  const Vec2 flat = cover.direction.head<2>();
  const double flat_length = flat.squaredNorm();
  double where = flat_length > 1e-18 ? std::clamp(flat.dot(d.head<2>()) / flat_length, 0.0, cover.length)
                                     : (cover.direction.z() > 0 ? cover.length : 0.0);
  if (where * cover.direction.z() < d.z()) where = std::clamp(d.dot(cover.direction), 0.0, cover.length);
  return {where, std::sqrt(squared_to_ray(point, cover.from + where * cover.direction))};
}

// Half the slope of the squared distance from the ray to the arc's centre line at `angle`.
double slope_at(const Arc& arc, const Vec3& point, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  const Vec3 d = arc.centre + arc.radius * (c * arc.outwards + s * arc.along) - point;
  const Vec3 rate = arc.radius * (c * arc.along - s * arc.outwards);
  return d.x() * rate.x() + d.y() * rate.y() + std::min(0.0, d.z()) * rate.z();
}

// The angle of least distance between two angles that bracket one: false position, with halving to keep it moving.
double least_between(const Arc& arc, const Vec3& point, double low, double high) {
  double at_low = slope_at(arc, point, low), at_high = slope_at(arc, point, high);
  if (at_low >= 0) return low;
  if (at_high <= 0) return high;
  double middle = low;
  for (int i = 0; i < 60 && high - low > 1e-10; ++i) {
    middle = high - at_high * (high - low) / (at_high - at_low);
    const double at = slope_at(arc, point, middle);
    if (std::abs(at) < 1e-9 * arc.radius) break;
    if (at < 0) {
      low = middle;
      at_low = at;
      at_high /= 2;
    } else {
      high = middle;
      at_high = at;
      at_low /= 2;
    }
  }
  return middle;
}

// Beyond a flat end the sphere at that end counts for nothing: looks along the ray through that sphere for a point
// within the wall on the inner side of the end.
bool meets_inside_end(const Arc& arc, const Vec3& point, const Vec3& end, const Vec3& inwards, double radius) {
  const Vec3 d = end - point;
  const double room = radius * radius - d.head<2>().squaredNorm();
  if (room <= 0) return false;
  const double low = std::max(0.0, d.z() - std::sqrt(room)), high = d.z() + std::sqrt(room);
  constexpr int kSteps = 24;
  for (int i = 1; i < kSteps && high > low; ++i) {
    const Vec3 at = point + (low + (high - low) * i / kSteps) * Vec3::UnitZ();
    const Vec3 from_centre = at - arc.centre;
    const double off_plane = from_centre.dot(arc.axis());
    const double off_circle = (from_centre - off_plane * arc.axis()).norm() - arc.radius;
    if ((at - end).dot(inwards) > 1e-9 && std::hypot(off_plane, off_circle) < radius) return true;
  }
  return false;
}

}  // namespace

Hiding StraightCover::hiding(const Vec3& point, double grown) const {
  const double r = radius + grown;
  const Nearest nearest = nearest_on(*this, point);
  if (nearest.distance >= r) return {false, nearest.distance - r};
  const double to_start = flat_start ? nearest.where : kFar, to_end = flat_end ? length - nearest.where : kFar;
  const double to_flat = std::min(to_start, to_end);
  if (to_flat > 1e-9) return {true, std::max(0.0, std::min(r, to_flat) - nearest.distance)};
  if (meets_flat_cylinder(*this, point, grown)) return {true, 0};
  const Vec3 other = to_start < to_end ? Vec3(from + length * direction) : from;
  const bool other_round = to_start < to_end ? !flat_end : !flat_start;
  return {other_round && squared_to_ray(point, other) < r * r, 0};
}

Hiding ArcCover::hiding(const Vec3& point, double grown) const {
  const double r = radius + grown;
  const size_t count = samples.size();
  std::array<double, 512> squared;  // more than outline.cpp ever makes
  double least = kFar;
  size_t best = 0;
  for (size_t i = 0; i < count; ++i) {
    squared[i] = squared_to_ray(point, samples[i]);
    if (squared[i] < least) least = squared[best = i];
  }
  const double reach = r + spacing / 2;
  const double nearest = std::sqrt(least);
  if (nearest >= reach) return {false, nearest - reach};
  if (nearest < r) {
    const double to_start = flat_start ? spacing * static_cast<double>(best) : kFar;
    const double to_end = flat_end ? spacing * static_cast<double>(count - 1 - best) : kFar;
    const double to_flat = std::min(to_start, to_end);
    // Along the arc is longer than straight across, by less than a tenth on the way that matters here.
    if (to_flat > 0) return {true, std::max(0.0, std::min(r, 0.9 * to_flat) - nearest)};
  }
  const double sweep = arc.sweep.radians(), step = sweep / static_cast<double>(count - 1);
  double closest = kFar;
  for (size_t i = 0; i < count; ++i) {
    if (squared[i] >= reach * reach) continue;
    if ((i > 0 && squared[i - 1] < squared[i]) || (i + 1 < count && squared[i + 1] < squared[i])) continue;
    const double low = i > 0 ? step * static_cast<double>(i - 1) : 0.0;
    const double high = i + 1 < count ? step * static_cast<double>(i + 1) : sweep;
    const double angle = least_between(arc, point, low, high);
    const double distance = std::sqrt(squared_to_ray(point, arc.point(angle)));
    closest = std::min(closest, distance);
    if (distance >= r) continue;
    const bool at_start = flat_start && angle < 1e-9, at_end = flat_end && angle > sweep - 1e-9;
    if (!at_start && !at_end) return {true, 0};
    const Vec3 inwards = at_start ? arc.direction(0) : Vec3(-arc.direction(sweep));
    if (meets_inside_end(arc, point, at_start ? samples.front() : samples.back(), inwards, r)) return {true, 0};
  }
  return {false, closest < kFar ? std::max(0.0, closest - r) : 0.0};
}

Hiding ShadowCover::hiding(const Vec3& point) const {
  if (planes.empty()) return {false, kFar};
  double farthest_out = -kFar;
  for (const Plane& plane : planes) farthest_out = std::max(farthest_out, plane.normal.dot(point) - plane.offset);
  return {farthest_out < 0, std::abs(farthest_out)};
}

}  // namespace halfhard::views
