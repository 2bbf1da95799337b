// From trial bends to what the bender really does: the radius of a finished bend, where its curve starts against the
// mark, and how far the tube springs back. Lengths mm.
//
// A trial file, "halfhard-trial/1" (lengths in its length_unit; expressions and units as in a job):
//   { "format": "halfhard-trial/1", "length_unit": "mm", "title": "", "bender": "bench", "tube": "15 mm",
//     "outside_diameter": 15, "reading_error": { "length": 0.5, "angle": 0.5 },
//     "trials": [ { "set": 92, "got": 90, "cut_length": 400, "legs": [206.1, 230.4], "mark": 150, "curve_starts": 150 } ] }
// `got` is the angle after letting go, `set` what was pulled to. `cut_length` is the straight tube before bending.
// `legs`: from the tube's end on the hook side, then from the other end, each along its leg to where the outside lines of
// the two legs meet (of a 90: to the back of the other leg). `mark` and `curve_starts` from the end on the hook side.
// Every figure of a trial is optional; what can be worked out from those given is.
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
  std::optional<double> mark_mm, curve_starts_mm;
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

// A figure from several trials.
struct Estimate {
  double mm = 0;
  double likely_error_mm = 0;  // from the reading errors, or from the spread where that is more
  double spread_mm = 0;        // standard deviation over the trials; 0 for one
  int trials = 0;
};

struct Calibration {
  std::optional<Estimate> radius;           // gain = R (2 tan(A/2) - A), least squares over the trials
  std::optional<Estimate> mark_offset;      // mark - start of the curve
  std::vector<SpringBackPair> spring_back;  // ascending; trials with the same set angle averaged
  std::vector<std::string> remarks;         // what is missing, doubtful or does not fit together
  bool usable = true;                       // false: the figures cannot be of one bend
};
Calibration calibrate(const Trial& trial);

// What is printed: the figures, how sure they are, and the bender as it goes into a job.
std::string calibration_text(const Trial& trial, const Calibration& calibration);
// "bench": { "former_radius": ... }, in the trial's unit. Requires a radius.
std::string bender_snippet(const Trial& trial, const Calibration& calibration);

}  // namespace halfhard
