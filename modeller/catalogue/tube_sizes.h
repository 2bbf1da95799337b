// Copper tube as the standards list it, and how tightly the standard lets it be bent. Data with its sources.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "geometry/plan/tube.h"

namespace halfhard {

inline constexpr std::array<std::string_view, 2> kTubeStandards = {"EN 1057", "ASTM B88"};

struct TubeSize {
  std::string_view standard;
  std::string_view size;  // "15 x 0.7"; "1/2 L"
  double outside_diameter_mm, wall_mm;
  std::string_view source;
};

// In order of standard, diameter, wall.
std::span<const TubeSize> tube_sizes();

// By standard and size; spaces are optional and x may be written X or ×: "15x0.7" is "15 x 0.7", "15 x 1" is
// "15 x 1.0". nullptr where it is not known here.
const TubeSize* find_tube_size(std::string_view standard, std::string_view size);

// The least centre-line radius published for bending half-hard (R250) or drawn tube cold.
struct LeastRadius {
  std::string_view standard, temper;
  double outside_diameter_mm, radius_mm;
  std::string_view source;
};
std::span<const LeastRadius> least_radii();
// By outside diameter, within 0.3 mm of a size in the table; a tube of no standard is held to EN 1057. Nothing where
// none is published.
std::optional<LeastRadius> least_radius(const Tube& tube);

}  // namespace halfhard
