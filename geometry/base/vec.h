// The vector type of the whole house. Site frame: x right, y back, z up; millimetres.
#pragma once

#include <Eigen/Core>
#include <Eigen/Geometry>

namespace halfhard {

using Vec3 = Eigen::Vector3d;
using Mat3 = Eigen::Matrix3d;

// Any unit vector square to `unit`, the same one every time.
inline Vec3 any_square_to(const Vec3& unit) {
  const Vec3 helper = std::abs(unit.z()) < 0.9 ? Vec3::UnitZ() : Vec3::UnitY();
  return helper.cross(unit).normalized();
}

}  // namespace halfhard
