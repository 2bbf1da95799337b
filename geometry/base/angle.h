// An angle. Made only by named factories; held in degrees, the bench's unit, so that 45 stays 45.
#pragma once

#include <cmath>
#include <numbers>

namespace halfhard {

class Angle {
 public:
  constexpr Angle() = default;
  static constexpr Angle degrees(double degrees) { return Angle(degrees); }
  static constexpr Angle radians(double radians) { return Angle(radians * 180.0 / std::numbers::pi); }

  constexpr double degrees() const { return degrees_; }
  constexpr double radians() const { return degrees_ * std::numbers::pi / 180.0; }
  double sin() const { return std::sin(radians()); }
  double cos() const { return std::cos(radians()); }
  double tan() const { return std::tan(radians()); }
  // tan of half the angle: the setback of a bend per unit of centre-line radius.
  double tan_of_half() const { return std::tan(radians() / 2); }

  friend constexpr Angle operator+(Angle a, Angle b) { return Angle(a.degrees_ + b.degrees_); }
  friend constexpr Angle operator-(Angle a, Angle b) { return Angle(a.degrees_ - b.degrees_); }
  friend constexpr Angle operator-(Angle a) { return Angle(-a.degrees_); }
  friend constexpr Angle operator*(double k, Angle a) { return Angle(k * a.degrees_); }
  friend constexpr Angle operator/(Angle a, double k) { return Angle(a.degrees_ / k); }
  friend constexpr auto operator<=>(Angle, Angle) = default;

 private:
  explicit constexpr Angle(double degrees) : degrees_(degrees) {}
  double degrees_ = 0;
};

}  // namespace halfhard
