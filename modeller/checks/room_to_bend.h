// Whether each bend can be pulled to its angle without the piece meeting itself, the bender, the bench, the floor or the
// wall.
#pragma once

#include <optional>
#include <vector>

#include "geometry/bending/bender_sweep.h"
#include "modeller/checks/check_table.h"
#include "modeller/checks/other_ways.h"

namespace halfhard {

// What one piece touches, and how else it could be bent; kept with all that it depends on, so that a bank's alike pieces
// are swept once.
struct RoomFound {
  std::vector<double> shape;  // every number of the piece and of how it is bent, to 1e-7
  Bender bender;
  struct Touch {
    BenderContact contact;
    bool turned_over_clear = false;  // the bender turned over, this bend touches nothing
  };
  std::vector<Touch> touches;  // in the order made
  std::optional<WayToBend> way;
};

// A finding for each bend that touches on its way, with where and at which pull, and what would help. The pipe that
// meets itself fails; what meets the bender or what it stands on fails by the job's own figures and warns by usual ones.
void check_room_to_bend(const RunContext& context, std::vector<Finding>& findings);

}  // namespace halfhard
