// A half-bent piece: the bends still to come, worked out afresh from what was made, so that the far end still lands.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "modeller/bench/end_miss.h"
#include "modeller/bench/piece_fit.h"

namespace halfhard {

// A bend still to be made; lengths mm, the mark from the tube's start end and as in the bend table.
struct NextBend {
  int number = 0;
  End hook = End::datum;
  Angle angle, set_angle, rotation;
  double mark_mm = 0, mark_from_outside_mm = 0, turn_height_mm = 0;
  int mark_from_bend = 0;    // 0: the tube's end on the hook side
  double mark_moved_mm = 0;  // from where the plan had it, towards the far end
};

struct GoOn {
  EndMiss as_planned;           // of the far end, if the rest is bent as the plan has it
  EndMiss lands;                // if it is bent afresh
  double lands_in = 0;          // share of cases in which it lands within tolerance
  std::vector<NextBend> bends;  // in the order made; empty where it cannot be bent so
  std::string cannot;           // why not
};

// Requires that some bends are made and some are not.
GoOn go_on(const PieceModel& made, const PieceFit& fit, const Tolerance& tolerance);

}  // namespace halfhard
