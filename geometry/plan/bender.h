// A hand bender as it was measured: what it can hold, and how its finished bends differ from what was pulled.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/base/angle.h"

namespace halfhard {

// One trial: pulled to `set`, let go, measured `got`.
struct SpringBackPair {
  Angle set, got;
  friend bool operator==(const SpringBackPair&, const SpringBackPair&) = default;
};

// How the bender stands, in the bench's words; empty where the job does not say.
struct BenderStands {
  std::string hook;   // where the hook is, seen by the person: "left"
  std::string swing;  // where the lever swings to: "towards you"
  friend bool operator==(const BenderStands&, const BenderStands&) = default;
};

// The bender's own body and where it stands, as measured with a tape; what is not set is taken at a usual figure
// (bending/bender_body.h).
struct BenderBody {
  std::optional<double> former_thickness_mm;              // along the former's axis
  std::optional<double> hook_length_mm;                   // along the tube, back from where the curve starts
  std::optional<double> guide_length_mm;                  // of the guide or roller, along the tube
  std::optional<double> lever_length_mm;                  // from the former's axis to the lever's end
  std::optional<double> above_bench_mm;                   // the tube in the bender above the bench's top
  std::optional<double> bench_length_mm, bench_depth_mm;  // to the left and right, and away from the person
  std::optional<double> above_floor_mm;                   // the tube in the bender above the floor
  std::optional<double> wall_behind_mm;  // from the tube in the bender to a wall; no wall where not set
  friend bool operator==(const BenderBody&, const BenderBody&) = default;
};

// A limit that is not set is not checked (a note says so).
struct Bender {
  std::string name;
  double former_radius_mm = 0;  // centre-line radius of a finished bend
  bool radius_measured = false;
  std::optional<double> fits_mm;  // tube outside diameter that the former fits
  std::optional<double> shortest_end_mm, usual_end_mm, shortest_lever_mm, shortest_between_mm;
  std::optional<Angle> most_angle;
  std::optional<double> mark_offset_mm;  // from the start of the curve on the hook side, positive into the bend
  std::string line_up;                   // what the mark is held to, in words
  BenderStands stands;
  BenderBody body;
  std::vector<SpringBackPair> spring_back;  // ascending by `got`; empty: not measured
  std::string calibrated_with;              // name of the tube that the trial bends were made with
  std::string pointer;

  // The angle to pull to, so that `wanted` is left after letting go: straight lines through (0,0) and the pairs by
  // `got`, beyond the last in its proportion; `wanted` itself where there are no pairs.
  Angle set_angle(Angle wanted) const;

  friend bool operator==(const Bender&, const Bender&) = default;
};

}  // namespace halfhard
