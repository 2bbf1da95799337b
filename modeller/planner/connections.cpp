#include "modeller/planner/connections.h"

#include <algorithm>
#include <cmath>

#include <Eigen/LU>

#include "geometry/base/require.h"

namespace halfhard {
namespace {

const HalfSpace* find_plane(const Job& job, const std::string& name) {
  for (const Fixture& fixture : job.fixtures) {
    if (fixture.name == name) return std::get_if<HalfSpace>(&fixture.body.shape);
  }
  return nullptr;
}

// Planes nearer to one another than this share a line or are parallel: no point is fixed by them.
constexpr double kIndependent = 1e-6;

}  // namespace

std::optional<Vec3> resolved_point(const JobPoint& point, const Job& job, double outside_diameter_mm,
                                   const std::optional<Vec3>& axis, const std::string& pointer, Problems& problems) {
  if (const auto* at = std::get_if<Vec3>(&point)) return *at;
  Mat3 normals;
  Vec3 offsets;
  const auto& taped = std::get<std::array<TapedOff, 3>>(point);
  for (int i = 0; i < 3; ++i) {
    const HalfSpace* plane = find_plane(job, taped[i].plane);
    HALFHARD_REQUIRE(plane != nullptr);
    const double along = axis ? plane->facing.dot(*axis) : 0.0;
    // Half the tube as seen from the plane: its radius beside it, nothing where the tube points at it.
    const double half = outside_diameter_mm / 2 * std::sqrt(std::max(0.0, 1 - along * along));
    const double to_centre = taped[i].until == TubeFace::near ? half : taped[i].until == TubeFace::far ? -half : 0.0;
    normals.row(i) = plane->facing.transpose();
    offsets[i] = plane->facing.dot(plane->at) + taped[i].by_mm + to_centre;
  }
  if (std::abs(normals.determinant()) < kIndependent) {
    problems.push_back(
        {pointer, "three planes that do not meet in one point", "three planes none parallel to another"});
    return std::nullopt;
  }
  return normals.inverse() * offsets;
}

std::optional<Connection> resolved_connection(const JobConnection& connection, const Job& job,
                                              double outside_diameter_mm, Problems& problems) {
  const auto at = resolved_point(connection.at, job, outside_diameter_mm, connection.base.towards,
                                 connection.base.pointer + "/at", problems);
  if (!at) return std::nullopt;
  Connection resolved = connection.base;
  resolved.at = *at;
  return resolved;
}

const JobConnection* find_connection(const Job& job, const std::string& name) {
  const auto found = std::find_if(job.connections.begin(), job.connections.end(),
                                  [&](const JobConnection& connection) { return connection.base.name == name; });
  return found == job.connections.end() ? nullptr : &*found;
}

const JobConnection& connection_of(const Job& job, const JobEnd& end) {
  if (const auto* inline_end = std::get_if<JobConnection>(&end)) return *inline_end;
  const JobConnection* named = find_connection(job, std::get<std::string>(end));
  HALFHARD_REQUIRE(named != nullptr);
  return *named;
}

}  // namespace halfhard
