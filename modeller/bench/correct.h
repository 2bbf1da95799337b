// From measurements of a bent piece to what to bend further: where its free end is, and the fewest bends that bring it
// back within the job's tolerance.
//
// A measurement file, "halfhard-measured/1" (lengths in its length_unit; expressions and units as in a job):
//   { "format": "halfhard-measured/1", "length_unit": "mm", "run": "hot tail 1",
//     "bends": [ { "number": 1, "angle": 43, "rotation": 2, "set": 46 } ],
//     "legs": [ { "number": 2, "length": 70.7 } ], "ends_apart": 431 }
// A bend's `angle` after letting go, its `rotation` as in the bend table, and the angle `set` that it was pulled to. `legs`
// centre to centre, 1 from the datum end (the mouth of the connection) to the first intersection, and so on.
// `ends_apart`: straight from the middle of one end face to that of the other, insertions on and spare cut off; it
// proves the other readings. What is not measured is taken to be as planned, except that marks stay where they were on
// the blank: a bend that is short leaves the tube that it did not use in the leg on its lever side.
//
// The datum end is held where it belongs; a correction turns bends about their own planes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/plan/plan.h"
#include "modeller/job/problem.h"

namespace halfhard {

struct MeasuredBend {
  int number = 0;
  std::optional<Angle> angle, rotation, set;
};
struct MeasuredLeg {
  int number = 0;  // 1-based
  double mm = 0;
};
struct MeasuredPiece {
  std::string run;
  std::vector<MeasuredBend> bends;
  std::vector<MeasuredLeg> legs;
  std::optional<double> ends_apart_mm;
};

struct MeasuredReading {
  std::optional<MeasuredPiece> piece;
  std::vector<JobProblem> problems;
};
// The run and its bend and leg numbers must be those of the plan.
MeasuredReading read_measured(std::string text, const std::string& file, const Plan& plan);

// How the free end stands.
struct EndMiss {
  Vec3 by = Vec3::Zero();  // from where it belongs to where it is
  Angle turned;            // from the direction in which it should run
};

struct BendChange {
  int number = 0;
  Angle from, to;  // after letting go; `to` above `from` closes the bend, below opens it
  Angle pull_to;   // with spring-back, as this piece showed it where `set` was measured
  bool opens() const { return to < from; }
};

struct Correction {
  std::vector<BendChange> changes;  // by number
  EndMiss left;                     // after them
};

struct CorrectionPlan {
  EndMiss now;
  bool good_as_it_is = false;           // within the job's tolerance
  std::optional<Correction> fewest;     // fewest bends; nothing where no change of angles brings the end in
  std::optional<Correction> closing;    // where `fewest` opens a bend: the fewest that only closes bends
  EndMiss best;                         // where nothing brings it in: the least that is left
  std::optional<double> ends_apart_mm;  // as these measurements would have it; set where it was measured
};

// Requires a run of the plan with at least one bend.
CorrectionPlan plan_correction(const Run& run, const Tolerance& tolerance, const MeasuredPiece& piece);

// For a person at the bench.
std::string correction_text(const Run& run, const Plan& plan, const MeasuredPiece& piece, const CorrectionPlan& made);

}  // namespace halfhard
