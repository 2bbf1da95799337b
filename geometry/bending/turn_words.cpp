#include "geometry/bending/turn_words.h"

#include <cmath>

#include "geometry/bending/clock.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

// What stands along the bender's z axis as the person sees it.
std::string side_words(const BenderStands& stands, bool positive) {
  if (const auto seen = stands_as_seen(stands)) {
    const double up = seen->col(2).z() * (positive ? 1 : -1);
    if (up > 0.9) return "above the bender's plane";
    if (up < -0.9) return "below the bender's plane";
  }
  return positive ? "off the bender's plane, towards 3 on the clock" : "off the bender's plane, towards 9 on the clock";
}

}  // namespace

std::string turn_words(const Run& run, const Bend& bend, LengthUnit unit) {
  if (bend.made == 1) return "";
  const std::string end = bend.turn_of == End::datum ? "start" : "far";
  const std::string begins = "With the tube in the bender, turn it until the middle of the " + end + " end ";
  const double height = bend.turn_height_mm, across = bend.turn_across_mm;
  const std::string side = across < 0 ? " on the far side from where it swings" : " on the side that it swings to";
  if (height == 0) return begins + "lies in the bender's plane" + side + ".";
  std::string words =
      begins + "stands " + shown_length(std::abs(height), unit) + " " + side_words(run.bender->stands, height > 0);
  // Steeper than 45 degrees the distance to the side tells more of the turn than the height.
  if (std::abs(height) > std::abs(across) && across != 0)
    words += ", and " + shown_length(std::abs(across), unit) + " from the tube's line" + side;
  return words + ".";
}

}  // namespace halfhard
