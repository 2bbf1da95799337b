#include "geometry/bending/clock.h"

#include <array>
#include <cctype>
#include <cmath>
#include <numbers>

#include "geometry/words/shown.h"

namespace halfhard {
namespace {

// Clockwise from y towards z: the viewer looks along x.
Angle clockwise_of(const Vec3& direction) {
  double degrees = std::atan2(direction.z(), direction.y()) * 180 / std::numbers::pi;
  if (degrees < 0) degrees += 360;
  return Angle::degrees(degrees >= 360 ? 0 : degrees);
}

ClockReading reading(const FormedPiece& piece, int bend_index, bool towards_free, bool behind_hook) {
  // The leg beyond the bend, pointing away from the one in the bender.
  const Vec3 leg =
      towards_free ? piece.line.leg_direction(bend_index + 1) : Vec3(-piece.line.leg_direction(bend_index));
  return {piece.bends[bend_index], behind_hook, clockwise_of(leg)};
}

std::string lower_words(const std::string& text) {
  std::string words;
  for (char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isspace(byte)) {
      if (!words.empty() && words.back() != ' ') words += ' ';
    } else {
      words += static_cast<char>(std::tolower(byte));
    }
  }
  while (!words.empty() && words.back() == ' ') words.pop_back();
  return words;
}

struct Word {
  const char* text;
  Vec3 direction;  // x right, y away from the person, z up
};

const std::array<Word, 19>& words() {
  static const std::array<Word, 19> kWords = {{{"left", {-1, 0, 0}},
                                               {"to the left", {-1, 0, 0}},
                                               {"right", {1, 0, 0}},
                                               {"to the right", {1, 0, 0}},
                                               {"towards you", {0, -1, 0}},
                                               {"toward you", {0, -1, 0}},
                                               {"near", {0, -1, 0}},
                                               {"near you", {0, -1, 0}},
                                               {"nearest you", {0, -1, 0}},
                                               {"away from you", {0, 1, 0}},
                                               {"away", {0, 1, 0}},
                                               {"far", {0, 1, 0}},
                                               {"far from you", {0, 1, 0}},
                                               {"up", {0, 0, 1}},
                                               {"upwards", {0, 0, 1}},
                                               {"top", {0, 0, 1}},
                                               {"down", {0, 0, -1}},
                                               {"downwards", {0, 0, -1}},
                                               {"bottom", {0, 0, -1}}}};
  return kWords;
}

std::optional<Vec3> direction_of(const std::string& text) {
  const std::string wanted = lower_words(text);
  for (const Word& word : words()) {
    if (wanted == word.text) return word.direction;
  }
  return std::nullopt;
}

const char* word_along(int axis, double sign) {
  static const char* const kPlus[] = {"right", "away from you", "up"};
  static const char* const kMinus[] = {"left", "towards you", "down"};
  return sign > 0 ? kPlus[axis] : kMinus[axis];
}

}  // namespace

std::string ClockReading::hour() const {
  const int half_hours = static_cast<int>(std::lround(clockwise.degrees() / 15)) % 24;
  const int hour = half_hours / 2 == 0 ? 12 : half_hours / 2;
  return (half_hours % 2 == 0 ? "" : "half past ") + std::to_string(hour);
}

std::string ClockReading::text() const { return "at " + hour() + " (" + shown_angle(clockwise) + ")"; }

std::vector<ClockReading> clock_readings(const FormedPiece& before) {
  // The bend in the bender parts the formed ones: lower numbers lie towards the datum end.
  int below = -1, above = -1;
  for (int i = 0; i < static_cast<int>(before.bends.size()); ++i) {
    if (before.bends[i] < before.in_bender) below = i;
    if (before.bends[i] > before.in_bender && above < 0) above = i;
  }
  std::vector<ClockReading> readings;
  const bool datum = before.hook == End::datum;
  const auto add = [&](int index, bool towards_free) {
    if (index >= 0) readings.push_back(reading(before, index, towards_free, towards_free != datum));
  };
  add(datum ? below : above, !datum);
  add(datum ? above : below, datum);
  return readings;
}

std::vector<ClockReading> clock_readings(const Run& run, int made) { return clock_readings(before_bend(run, made)); }

std::optional<Mat3> stands_as_seen(const BenderStands& stands) {
  const std::optional<Vec3> hook = direction_of(stands.hook);
  const std::optional<Vec3> swing = direction_of(stands.swing);
  if (!hook || !swing || std::abs(hook->dot(*swing)) > 0.5) return std::nullopt;
  const Vec3 along = -*hook;  // the tube runs from the hook to the other side
  Mat3 axes;
  axes.col(0) = along;
  axes.col(1) = *swing;
  axes.col(2) = along.cross(*swing);
  return axes;
}

std::optional<std::string> points_in_words(const BenderStands& stands, Angle clockwise) {
  const std::optional<Mat3> axes = stands_as_seen(stands);
  if (!axes) return std::nullopt;
  const int eighth = static_cast<int>(std::lround(clockwise.degrees() / 45)) % 8;
  const Angle nearest = Angle::degrees(45.0 * eighth);
  const Vec3 direction = *axes * Vec3(0, nearest.cos(), nearest.sin());
  // Up or down is said first: it is what the eye catches.
  std::string text;
  for (int axis : {2, 1, 0}) {
    if (std::abs(direction[axis]) < 0.1) continue;
    const char* word = word_along(axis, direction[axis]);
    text = text.empty() ? word : "between " + text + " and " + word;
  }
  return text;
}

}  // namespace halfhard
