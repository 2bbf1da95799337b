#include "modeller/window/section_typed.h"

#include <cmath>

#include "geometry/base/tolerances.h"
#include "modeller/job/expression.h"

namespace halfhard {

std::optional<Section> section_typed(const std::string& text, LengthUnit unit) {
  static const std::pair<const char*, Vec3> words[] = {{"right", Vec3::UnitX()}, {"left", -Vec3::UnitX()},
                                                       {"back", Vec3::UnitY()},  {"front", -Vec3::UnitY()},
                                                       {"up", Vec3::UnitZ()},    {"down", -Vec3::UnitZ()}};
  const size_t word_end = text.find_first_of(" =");
  if (word_end == std::string::npos) return std::nullopt;
  const size_t length = text.find_first_not_of(" =", word_end);
  if (length == std::string::npos) return std::nullopt;
  const auto read = Expression::read(text.substr(length), NameTable(), unit);
  const auto* expression = std::get_if<Expression>(&read);
  if (!expression) return std::nullopt;
  const auto number = expression->evaluate({});
  const double* in_unit = std::get_if<double>(&number);
  if (!in_unit || !(std::abs(*in_unit) * mm_per(unit) <= kLargestLength_mm)) return std::nullopt;
  for (const auto& [word, direction] : words)
    if (text.compare(0, word_end, word) == 0) return Section{direction, *in_unit * mm_per(unit)};
  return std::nullopt;
}

}  // namespace halfhard
