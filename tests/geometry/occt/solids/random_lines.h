// Random centre lines for the solids' tests: any bend turned any way, straights down to none.
#pragma once

#include <numbers>
#include <random>

#include "geometry/bending/bend_table.h"

namespace halfhard {

inline Vec3 random_unit(std::mt19937& random) {
  std::normal_distribution<double> normal;
  return Vec3(normal(random), normal(random), normal(random)).normalized();
}

struct RandomLine {
  double radius_mm = 50;
  int bends = 10;
  double least_straight_mm = 40, most_straight_mm = 100;
  double least_angle_deg = 10, most_angle_deg = 120;
  double least_rotation_deg = -180, most_rotation_deg = 180;
  Vec3 start = Vec3::Zero();

  CentreLine made(std::mt19937& random) const {
    auto between = [&](double low, double high) {
      return low == high ? low : std::uniform_real_distribution<double>(low, high)(random);
    };
    std::vector<ShapeRow> rows;
    for (int bend = 0; bend <= bends; ++bend) {
      ShapeRow row;
      row.straight_mm = between(least_straight_mm, most_straight_mm);
      row.rotation = Angle::degrees(bend == 0 ? 0 : between(least_rotation_deg, most_rotation_deg));
      row.angle = Angle::degrees(bend == bends ? 0 : between(least_angle_deg, most_angle_deg));
      rows.push_back(row);
    }
    const Vec3 direction = random_unit(random);
    return CentreLine::through(points_from_rows(rows, radius_mm, start, direction, any_square_to(direction)),
                               radius_mm);
  }
};

// The closed form: area of the ring by the length of the centre line (Pappus: bends included).
inline double closed_form_volume_mm3(double length_mm, double outer_mm, double inner_mm) {
  return std::numbers::pi * (outer_mm * outer_mm - inner_mm * inner_mm) * length_mm;
}

// Skins by Pappus, and two flat ends.
inline double closed_form_area_mm2(double length_mm, double outer_mm, double inner_mm) {
  return 2 * std::numbers::pi * ((outer_mm + inner_mm) * length_mm + outer_mm * outer_mm - inner_mm * inner_mm);
}

}  // namespace halfhard
