#include "modeller/steps/site_words.h"

#include <array>
#include <cmath>

namespace halfhard {
namespace {

struct Axis {
  const char* positive;
  const char* negative;
};
constexpr std::array<Axis, 3> kAxes = {{{"right", "left"}, {"back", "front"}, {"up", "down"}}};
constexpr double kNothing_mm = 1e-9;

}  // namespace

std::optional<Vec3> direction_of_word(std::string_view word) {
  for (int axis = 0; axis < 3; ++axis) {
    if (word == kAxes[axis].positive) return Vec3::Unit(axis);
    if (word == kAxes[axis].negative) return Vec3(-Vec3::Unit(axis));
  }
  return std::nullopt;
}

std::vector<WordShift> words_of(const Vec3& shift) {
  std::vector<WordShift> words;
  for (int axis = 0; axis < 3; ++axis) {
    if (std::abs(shift[axis]) <= kNothing_mm) continue;
    words.push_back({shift[axis] > 0 ? kAxes[axis].positive : kAxes[axis].negative, std::abs(shift[axis])});
  }
  return words;
}

}  // namespace halfhard
