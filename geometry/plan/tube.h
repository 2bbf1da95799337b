// A tube as it is bought.
#pragma once

#include <numbers>
#include <string>

namespace halfhard {

inline constexpr double kCopperDensity_g_per_cm3 = 8.94;  // of phosphorus-deoxidised copper, EN 1057 tube; from memory

struct Tube {
  std::string name;  // as the job calls it: "15 mm"
  double outside_diameter_mm = 0;
  double wall_mm = 0;
  std::string standard;  // "EN 1057", "ASTM B88"; empty where the job gives its own size
  std::string size;      // "15 x 0.7", "1/2 L"; empty where the job gives its own size
  std::string temper;    // "R250"; empty where unknown
  std::string pointer;   // JSON pointer into the job

  double outside_radius_mm() const { return outside_diameter_mm / 2; }
  double inside_diameter_mm() const { return outside_diameter_mm - 2 * wall_mm; }
  double metal_area_mm2() const { return std::numbers::pi * wall_mm * (outside_diameter_mm - wall_mm); }
  double bore_area_mm2() const { return std::numbers::pi / 4 * inside_diameter_mm() * inside_diameter_mm(); }

  friend bool operator==(const Tube&, const Tube&) = default;
};

}  // namespace halfhard
