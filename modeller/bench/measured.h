// What was measured of a bent or half-bent piece.
//
// A measurement file, "halfhard-measured/1" (lengths in its length_unit; expressions and units as in a job):
//   { "format": "halfhard-measured/1", "length_unit": "mm", "run": "hot tail 1", "bends_made": 2,
//     "bends": [ { "number": 1, "angle": 43, "rotation": 2, "set": 46 } ],
//     "legs": [ { "number": 2, "length": 70.7 } ],
//     "gaps": [ { "legs": [1, 3], "over": "outside", "near": 60, "far": 65 } ],
//     "distances": [ { "from": { "end": "datum" }, "to": { "bend": 2 }, "length": 300 } ],
//     "heights": [ { "plane_of": [1, 2], "of": "free", "height": 4 } ],
//     "ends_apart": 431, "reading_error": { "length": 0.5, "angle": 0.5 }, "spread": { "marks": 0.7, "turns": 1 },
//     "seen": [ "ripple" ] }
// All but the run is optional. `bends_made`: how many, in the order made; all where left out. A bend's `angle` after
// letting go, its `rotation` as in the bend table, the angle `set` that it was pulled to. `legs` centre to centre, 1 from
// the start end's fitting face to the first corner. `gaps` square across from the first leg: `near` where the bend ends
// that begins the second leg, `far` at the second leg's other end, insertion left out. `distances` between middles of
// end faces (insertion on, spare as it stands) and of the backs of bends. `heights`: two legs flat on the bench, how far
// the middle of an end face stands off the plane of their centre lines, positive towards D(a) x D(b). `ends_apart`
// between the middles of the end faces, insertions on and spare cut off. `reading_error` and `spread` are standard
// deviations: of a reading, and of how marks and turns come out against what was planned.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <variant>
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
enum class Over { centre, outside, inside };
struct MeasuredGap {
  std::array<int, 2> legs{};  // 1-based
  Over over = Over::outside;
  std::optional<double> near_mm, far_mm;
};
struct AtBend {
  int number = 0;
};
using TapePlace = std::variant<End, AtBend>;
struct MeasuredDistance {
  TapePlace from, to;
  double mm = 0;
};
struct MeasuredHeight {
  std::array<int, 2> plane_of{};  // legs, 1-based
  End of = End::free;
  double mm = 0;
};

// What the eye sees on the tube.
struct Seen {
  bool ripple = false, flat = false, crack = false, heated = false;
  int squeezed = 0;  // how often a bend was opened or closed off the former
};

struct MeasuredPiece {
  std::string run;
  std::optional<int> bends_made;
  std::vector<MeasuredBend> bends;
  std::vector<MeasuredLeg> legs;
  std::vector<MeasuredGap> gaps;
  std::vector<MeasuredDistance> distances;
  std::vector<MeasuredHeight> heights;
  std::optional<double> ends_apart_mm;
  double length_error_mm = 0.5;             // one standard deviation; common practice, no source
  Angle angle_error = Angle::degrees(0.5);  // the same
  double mark_spread_mm = 0.7;              // the same, of where a mark ends up against the plan
  Angle turn_spread = Angle::degrees(1);    // the same, of a turn
  Seen seen;
};

struct MeasuredReading {
  std::optional<MeasuredPiece> piece;
  std::vector<JobProblem> problems;
};
// The run and its bend and leg numbers must be those of the plan, and of bends that are made.
MeasuredReading read_measured(std::string text, const std::string& file, const Plan& plan);

}  // namespace halfhard
