// Solid bodies that a tube must keep clear of, and how they move. Site frame, mm.
#pragma once

#include <array>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "geometry/base/angle.h"
#include "geometry/base/vec.h"

namespace halfhard {

// A box in any attitude. Columns of `axes` are unit and square to each other.
struct Box {
  Vec3 centre = Vec3::Zero();
  Mat3 axes = Mat3::Identity();
  Vec3 half = Vec3::Zero();  // half the edge along each axis
  friend bool operator==(const Box&, const Box&) = default;
};

// A round bar with flat ends.
struct Cylinder {
  Vec3 from = Vec3::Zero(), to = Vec3::UnitZ();
  double radius = 0;
  friend bool operator==(const Cylinder&, const Cylinder&) = default;
};

// All of space behind a flat face.
struct HalfSpace {
  Vec3 at = Vec3::Zero();
  Vec3 facing = Vec3::UnitZ();  // unit, out of the solid: its free side
  friend bool operator==(const HalfSpace&, const HalfSpace&) = default;
};

// The analytic shape that a TriangleBody was made from: the DATA section of a STEP file of its solids, mm, in the frame of
// the file that it came from. Three corners of its triangles, which span a plane, tell where that frame stands now.
struct ExactShape {
  std::string step_data;
  std::array<int, 3> corners;  // indices of vertices
  std::array<Vec3, 3> at;      // where these stood in the file
};

// A closed surface as triangles, outward by the right hand, within `deviation_mm` of the true surface.
struct TriangleBody {
  std::vector<Vec3> vertices;
  std::vector<std::array<int, 3>> triangles;
  double deviation_mm = 0;
  std::shared_ptr<const ExactShape> exact;  // empty where the triangles are all there is
};

using Shape = std::variant<Box, Cylinder, HalfSpace, std::shared_ptr<const TriangleBody>>;

// A drawer: every position from rest to rest + shift counts.
struct Slide {
  Vec3 shift = Vec3::Zero();
  friend bool operator==(const Slide&, const Slide&) = default;
};

// A door: every position from rest to `by` (right-handed about `about`, unit) counts.
struct Swing {
  Vec3 at = Vec3::Zero(), about = Vec3::UnitZ();
  Angle by;
  friend bool operator==(const Swing&, const Swing&) = default;
};

using Motion = std::variant<std::monostate, Slide, Swing>;

struct Body {
  Shape shape;
  Motion motion;
  friend bool operator==(const Body&, const Body&) = default;
};

}  // namespace halfhard
