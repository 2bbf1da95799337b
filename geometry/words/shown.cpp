#include "geometry/words/shown.h"

#include <charconv>
#include <cmath>
#include <numeric>
#include <string_view>

namespace halfhard {
namespace {

constexpr double kMmPerInch = 25.4;
constexpr long kFractions = 32;

// 1/32 counts as "2 15/32", "15/32" or "2".
std::string inches_text(long thirty_seconds) {
  const long whole = thirty_seconds / kFractions;
  const long rest = thirty_seconds % kFractions;
  if (rest == 0) return std::to_string(whole);
  const long common = std::gcd(rest, kFractions);
  const std::string fraction = std::to_string(rest / common) + "/" + std::to_string(kFractions / common);
  return whole == 0 ? fraction : std::to_string(whole) + " " + fraction;
}

constexpr double kLetPass_mm = 0.001;  // as the checks do: kClearanceSlack_mm

double step_mm(LengthUnit unit) { return unit == LengthUnit::mm ? 0.5 : kMmPerInch / kFractions; }

long to_thirty_seconds(double mm) { return std::lround(std::abs(mm) / kMmPerInch * kFractions); }

constexpr double kNoWay = 1e-3;  // of a unit vector: a component that no angle shown would tell

}  // namespace

std::string site_word(int axis, double along) {
  static constexpr const char* kWords[3][2] = {{"right", "left"}, {"back", "front"}, {"up", "down"}};
  return kWords[axis][along < 0 ? 1 : 0];
}

std::string shown_number(double value, int decimals) {
  char buffer[400];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, decimals).ptr;
  std::string_view text(buffer, end - buffer);
  if (text.find('.') != std::string_view::npos) {
    text = text.substr(0, text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.remove_suffix(1);
  }
  return text == "-0" ? "0" : std::string(text);
}

std::string shown_length_bare(double mm, LengthUnit unit) {
  if (unit == LengthUnit::mm) return shown_number(std::round(mm * 2) / 2, 1);
  const long parts = to_thirty_seconds(mm);
  return mm < 0 && parts > 0 ? "-" + inches_text(parts) : inches_text(parts);
}

std::string shown_length(double mm, LengthUnit unit) {
  return shown_length_bare(mm, unit) + (unit == LengthUnit::mm ? " mm" : " in");
}

std::string shown_clearance_bare(double mm, LengthUnit unit) {
  const double step = step_mm(unit);
  return shown_length_bare(std::floor((mm + kLetPass_mm) / step) * step, unit);
}

std::string shown_clearance(double mm, LengthUnit unit) {
  return shown_clearance_bare(mm, unit) + (unit == LengthUnit::mm ? " mm" : " in");
}

std::string shown_least_bare(double mm, LengthUnit unit) {
  const double step = step_mm(unit);
  return shown_length_bare(std::ceil((mm - kLetPass_mm) / step) * step, unit);
}

std::string shown_dimension(double mm, LengthUnit unit) {
  if (unit == LengthUnit::mm) return shown_length_bare(mm, unit);
  const long parts = to_thirty_seconds(mm);
  const long feet = parts / (12 * kFractions);
  std::string text = mm < 0 && parts > 0 ? "-" : "";
  if (feet != 0) text += std::to_string(feet) + "'-";
  return text + inches_text(parts % (12 * kFractions)) + "\"";
}

std::string shown_place(const Vec3& at, LengthUnit unit) {
  std::string text;
  for (const int axis : {0, 2, 1}) {
    const std::string figure = shown_length_bare(std::abs(at[axis]), unit);
    if (figure != "0") text += (text.empty() ? "" : ", ") + figure + " " + site_word(axis, at[axis]);
  }
  return text.empty() ? "at the origin" : text;
}

std::string shown_way(const Vec3& unit) {
  int main = 0;
  unit.cwiseAbs().maxCoeff(&main);
  const std::string along = site_word(main, unit[main]);
  const Angle off = Angle::radians(std::acos(std::min(1.0, std::abs(unit[main]))));
  std::string others;
  for (int axis = 0; axis < 3; ++axis)
    if (axis != main && std::abs(unit[axis]) > kNoWay)
      others += (others.empty() ? "" : " and ") + site_word(axis, unit[axis]);
  return others.empty() ? along : along + ", " + shown_angle(off) + " towards " + others;
}

std::string shown_angle_bare(Angle angle) { return shown_number(std::round(angle.degrees() * 10) / 10, 1); }

std::string shown_angle(Angle angle) { return shown_angle_bare(angle) + "°"; }

}  // namespace halfhard
