// The clock of the bench: where the part already formed lies, seen along the tube from the hook, with the new bend
// swinging to 12; and the same in words, by how the bender stands.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/bending/forming.h"

namespace halfhard {

// Clockwise from 12, as the person at the hook sees it, in [0, 360).
struct ClockReading {
  int bend = 0;              // number of the bend whose leg is read
  bool behind_hook = false;  // the leg is on the hook side and stays still; else it is on the lever side and swings
  Angle clockwise;           // from 12
  // "9" or "half past 4"; to the nearest half hour, which is 15 degrees.
  std::string hour() const;
  // "at 9 (270°)": the degrees are exact to 0.1, the hour is for the eye.
  std::string text() const;
};

// The nearest made bend on each side of the one in the bender, the hook side's first: at most two readings, none for a
// piece that is still straight. The leg read is the one next beyond that bend, square to the tube in the bender.
// A leg within 0.01 degree of the tube's own line cannot occur: no bend turns back on itself.
std::vector<ClockReading> clock_readings(const FormedPiece& before);
std::vector<ClockReading> clock_readings(const Run& run, int made);

// The same direction in words: "up", "towards you", "between up and away from you" (nearest 45 degrees in words).
// Nothing where the job does not say how the bender stands, or says it in other words than: hook left, right,
// near (nearest you), far, top (up), bottom (down); swing towards you, away from you, up, down, left, right.
std::optional<std::string> points_in_words(const BenderStands& stands, Angle clockwise);

// Axes of the bender's frame as the standing person sees them: x right, y away, z up; columns are the frame's x, y, z.
std::optional<Mat3> stands_as_seen(const BenderStands& stands);

}  // namespace halfhard
