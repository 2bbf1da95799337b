// For this folder, the hidden-line views and the tests only: what stands behind a Solid, and the kernel's exceptions.
#pragma once

#include <Standard_Failure.hxx>
#include <TopoDS_Shape.hxx>
#include <gp_Dir.hxx>
#include <gp_Pnt.hxx>
#include <string>

#include "geometry/base/vec.h"
#include "geometry/occt/solid.h"

namespace halfhard {

struct KernelShape {
  TopoDS_Shape shape;
};

inline Solid solid_of(const TopoDS_Shape& shape) {
  return Solid(std::make_shared<const KernelShape>(KernelShape{shape}));
}

inline gp_Pnt kernel_point(const Vec3& point) { return {point.x(), point.y(), point.z()}; }
inline gp_Dir kernel_direction(const Vec3& unit) { return {unit.x(), unit.y(), unit.z()}; }

// Standard_Failure is no std::exception in this version, so nothing else would catch it.
template <typename Verb>
auto translating_failures(const char* what, Verb verb) {
  try {
    return verb();
  } catch (const Standard_Failure& failure) {
    const char* why = failure.GetMessageString();
    throw Trouble(std::string(what) + ": " + (why && *why ? why : "the solid kernel gave up"));
  } catch (const Trouble&) {
    throw;
  } catch (const std::exception& failure) {
    throw Trouble(std::string(what) + ": " + failure.what());
  }
}

}  // namespace halfhard
