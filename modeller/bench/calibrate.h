// From trial bends to what the bender really does: the radius of a finished bend, where its curve starts against the
// mark, and how far the tube springs back. One fit of all readings of all trials together. Lengths mm.
//
// A trial file, "halfhard-trial/1" (lengths in its length_unit; expressions and units as in a job):
//   { "format": "halfhard-trial/1", "length_unit": "mm", "title": "", "bender": "bench", "tube": "15 mm",
//     "outside_diameter": 15, "reading_error": { "length": 0.5, "angle": 0.5 },
//     "trials": [ { "set": 92, "got": 90, "cut_length": 400, "legs": [206.1, 230.4], "mark": 150, "curve_starts": 150 },
//                 { "set": 184, "got": 180, "leg_gap": 125 } ] }
// `got` is the angle after letting go, `set` what was pulled to. `cut_length` is the straight tube before bending.
// `legs`: from the tube's end on the hook side, then from the other end, each along its leg to where the outside lines of
// the two legs meet (of a 90: to the back of the other leg). `mark` and `curve_starts` from the end on the hook side.
// `leg_gap` of a 180: over both outsides, close to the bend. Every figure of a trial is optional; what can be worked out
// from those given is. `reading_error` is one standard deviation of each reading.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "geometry/plan/bender.h"
#include "geometry/plan/plan.h"
#include "modeller/job/problem.h"

namespace halfhard {

struct TrialBend {
  std::optional<Angle> set, got;
  std::optional<double> cut_length_mm;
  std::optional<std::array<double, 2>> legs_mm;  // hook side first, to where the outside lines meet
  std::optional<double> mark_mm, curve_starts_mm, leg_gap_mm;
};

struct Trial {
  std::string title, bender, tube;
  double outside_diameter_mm = 0;
  LengthUnit unit = LengthUnit::mm;
  double length_error_mm = 0.5;             // of each reading; common practice, no source
  Angle angle_error = Angle::degrees(0.5);  // the same
  std::vector<TrialBend> bends;
};

struct TrialReading {
  std::optional<Trial> trial;
  std::vector<JobProblem> problems;
};
TrialReading read_trial(std::string text, const std::string& file);

// A figure with the half-width of its 95 % interval.
struct Estimate {
  double mm = 0, within_mm = 0;
};

struct Calibration {
  bool usable = true;  // false: these readings cannot be of this bender's bends
  std::optional<Estimate> radius, mark_offset;
  std::vector<SpringBackPair> spring_back;  // ascending; trials pulled alike are one
  std::vector<std::string> reasons;         // why it cannot be used, what is missing or doubtful
};
Calibration calibrate(const Trial& trial);

// What is printed: the figures, how sure they are, and the bender as it goes into a job.
std::string calibration_text(const Trial& trial, const Calibration& calibration);
// "bench": { "former_radius": ... }, in the trial's unit. Requires a usable calibration with a radius.
std::string bender_snippet(const Trial& trial, const Calibration& calibration);

}  // namespace halfhard
