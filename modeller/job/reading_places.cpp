// Points, directions and shifts: see reading.h.
#include <array>
#include <cmath>

#include "modeller/job/reading.h"

namespace halfhard {
namespace {

constexpr std::array<std::string_view, 6> kSiteWords = {"right", "left", "back", "front", "up", "down"};
constexpr const char* kPointAllowed = "a point [x, y, z]";
constexpr const char* kDirectionAllowed =
    "a direction: right, left, back, front, up, down, [x, y, z] or { \"from\": point, \"to\": point }";

Vec3 unit_of_word(std::size_t word) {
  return (word % 2 == 0 ? 1.0 : -1.0) * Vec3::Unit(static_cast<Eigen::Index>(word / 2));
}

// Any length of vector, however small or large, without overflow.
std::optional<Vec3> unit_along(const Vec3& vector) {
  const double largest = vector.cwiseAbs().maxCoeff();
  if (largest == 0) return std::nullopt;
  const Vec3 scaled = vector / largest;
  if (!scaled.allFinite()) return std::nullopt;
  return scaled.normalized();
}

}  // namespace

Vec3 sum_of(const std::vector<WordShift>& shift) {
  Vec3 sum = Vec3::Zero();
  for (const WordShift& part : shift) {
    for (std::size_t i = 0; i < kSiteWords.size(); ++i) {
      if (kSiteWords[i] == part.word) sum += part.by_mm * unit_of_word(i);
    }
  }
  return sum;
}

std::optional<Vec3> Reading::three(JsonValue at, bool lengths) {
  const char* allowed = lengths ? kPointAllowed : kDirectionAllowed;
  if (at.kind() != JsonKind::list || at.size() != 3) {
    wrong_kind(at, allowed);
    return std::nullopt;
  }
  Vec3 vector = Vec3::Zero();
  bool good = true;
  int axis = 0;
  for (JsonValue member = at.first(); member; member = member.next()) {
    const auto value = lengths ? length_mm(member, kAnyLength) : number(member, kAnyNumber);
    good &= value.has_value();
    vector[axis++] = value.value_or(0);
  }
  if (!good) return std::nullopt;
  return vector;
}

std::optional<Vec3> Reading::point(JsonValue at) { return three(at, true); }

std::optional<Vec3> Reading::direction(JsonValue at) {
  if (at.kind() == JsonKind::text) {
    const auto place = word(at, kSiteWords);
    if (!place) return std::nullopt;
    return unit_of_word(*place);
  }
  if (at.kind() == JsonKind::list) {
    const auto vector = three(at, false);
    if (!vector) return std::nullopt;
    const auto unit = unit_along(*vector);
    if (!unit) problem(at, "a direction of no length", "a vector that is not 0");
    return unit;
  }
  if (at.kind() != JsonKind::group) {
    wrong_kind(at, kDirectionAllowed);
    return std::nullopt;
  }
  Fields fields(*this, at, keys_of(JobPart::two_points));
  const JsonValue from_at = fields.needed("from"), to_at = fields.needed("to");
  const auto from = from_at ? point(from_at) : std::nullopt;
  const auto to = to_at ? point(to_at) : std::nullopt;
  if (!from || !to) return std::nullopt;
  const auto unit = unit_along(*to - *from);
  if (!unit) problem(at, "a direction between two points in one place", "two different points");
  return unit;
}

std::optional<TapedOff> Reading::taped(JsonValue at) {
  static constexpr std::array<std::string_view, 3> kWords = {"near", "centre", "far"};
  static constexpr std::array<TubeFace, 3> kFaces = {TubeFace::near, TubeFace::centre, TubeFace::far};
  const std::size_t before = problem_count();
  Fields fields(*this, at, keys_of(JobPart::taped));
  TapedOff taped;
  taped.pointer = at.pointer();
  bool good = fields.ok();
  if (const JsonValue off = fields.needed("off")) {
    const auto plane = known_name(off, known.fixtures, "a plane fixture");
    good &= plane.has_value();
    if (plane && std::ranges::find(known.planes, *plane) == known.planes.end()) {
      problem(off, in_quotes(*plane) + ", which is no plane",
              "the name of a plane fixture: " + names_in_quotes(known.planes));
    }
    taped.plane = plane.value_or("");
  }
  if (const JsonValue by = fields.needed("by")) {
    const auto length = length_mm(by, kAnyLength);
    good &= length.has_value();
    taped.by_mm = length.value_or(0);
  }
  fields.word<TubeFace>("until", taped.until, kWords, kFaces);
  if (!good || problem_count() != before) return std::nullopt;
  return taped;
}

std::optional<JobPoint> Reading::job_point(JsonValue at) {
  const bool by_tape = at.kind() == JsonKind::list && at.first() && at.first().kind() == JsonKind::group;
  if (!by_tape) {
    const auto place = point(at);
    if (!place) return std::nullopt;
    return JobPoint(*place);
  }
  if (at.size() != 3) {
    problem(at, std::to_string(at.size()) + " tapes", "three { \"off\": plane, \"by\": length }");
    return std::nullopt;
  }
  std::array<TapedOff, 3> tapes;
  bool good = true;
  std::size_t place = 0;
  for (JsonValue member = at.first(); member; member = member.next()) {
    auto tape = taped(member);
    good &= tape.has_value();
    if (tape) tapes[place] = *std::move(tape);
    ++place;
  }
  if (!good) return std::nullopt;
  return JobPoint(std::move(tapes));
}

std::optional<std::vector<WordShift>> Reading::shift(JsonValue at, std::size_t least, std::size_t most) {
  const std::string allowed = most == 1 ? "one { \"right\": length }" : "a group such as { \"right\": length }";
  if (at.kind() != JsonKind::group) {
    wrong_kind(at, allowed);
    return std::nullopt;
  }
  std::vector<WordShift> parts;
  std::array<bool, 3> taken{};
  bool good = true;
  for (JsonValue member = at.first(); member; member = member.next()) {
    const auto word = std::ranges::find(kSiteWords, member.key());
    if (word == kSiteWords.end()) {
      problem_at_key(member, in_quotes(member.key()), "one of " + names_in_quotes(kSiteWords),
                     nearest_name(member.key(), kSiteWords));
      good = false;
      continue;
    }
    bool& axis = taken[static_cast<std::size_t>(word - kSiteWords.begin()) / 2];
    if (axis) {
      problem_at_key(member, in_quotes(member.key()) + " with its opposite", "one of the two");
      good = false;
    }
    axis = true;
    const auto length = length_mm(member, kAnyLength);
    good &= length.has_value();
    parts.push_back({std::string(member.key()), length.value_or(0)});
  }
  if (good && (parts.size() < least || parts.size() > most)) {
    problem(at, std::to_string(parts.size()) + " components",
            least == most ? std::to_string(least) : std::to_string(least) + " to " + std::to_string(most));
    good = false;
  }
  if (!good) return std::nullopt;
  return parts;
}

}  // namespace halfhard
