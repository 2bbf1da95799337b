#include "viewer/section.h"

#include <charconv>
#include <cmath>

#include "geometry/base/tolerances.h"

namespace halfhard {

std::optional<Section> section_from_text(const std::string& text, LengthUnit unit) {
  static const std::pair<const char*, Vec3> words[] = {{"right", Vec3::UnitX()}, {"left", -Vec3::UnitX()},
                                                       {"back", Vec3::UnitY()},  {"front", -Vec3::UnitY()},
                                                       {"up", Vec3::UnitZ()},    {"down", -Vec3::UnitZ()}};
  const size_t word_end = text.find_first_of(" =");
  if (word_end == std::string::npos) return std::nullopt;
  const size_t number = text.find_first_not_of(" =", word_end);
  if (number == std::string::npos) return std::nullopt;
  Section section;
  const char* end = text.data() + text.size();
  const auto parsed = std::from_chars(text.data() + number, end, section.at_mm);
  if (unit == LengthUnit::inch) section.at_mm *= 25.4;
  if (parsed.ec != std::errc() || parsed.ptr != end || !std::isfinite(section.at_mm) ||
      std::abs(section.at_mm) > kLargestLength_mm)
    return std::nullopt;
  for (const auto& [word, direction] : words) {
    if (text.compare(0, word_end, word) != 0) continue;
    section.towards = direction;
    return section;
  }
  return std::nullopt;
}

}  // namespace halfhard
