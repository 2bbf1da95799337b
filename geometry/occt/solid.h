// A solid of the general kernel, its headers kept out of sight. Site frame, mm. Copies share; nothing changes it.
// Every function here and in this folder turns the kernel's own exceptions into Trouble.
#pragma once

#include <memory>
#include <string>

#include "geometry/base/trouble.h"
#include "geometry/distance/body.h"

namespace halfhard {

struct KernelShape;  // see kernel_shape.h

class Solid {
 public:
  explicit Solid(std::shared_ptr<const KernelShape> shape) : shape_(std::move(shape)) {}

  double volume_mm3() const;
  double area_mm2() const;
  // The kernel's own check of topology and geometry. It finds no self-crossing.
  bool is_valid() const;
  // The slow check: faces or edges that run through each other.
  bool crosses_itself() const;
  // Nearest points of two solids apart; 0 where they touch or meet.
  double distance_mm(const Solid& other) const;

  const KernelShape& shape() const { return *shape_; }

 private:
  std::shared_ptr<const KernelShape> shape_;
};

}  // namespace halfhard
