// The piece as it lies in the bender: some bends made, the others still straight, one perhaps part-way pulled.
//
// Frame of the bender, mm: origin at the hook point (on the centre line, where the curve starts on the hook side), x
// along the tube from the hook, y to where the new bend swings (12 on the clock), z = x cross y (3 on the clock, seen
// from the hook along the tube). What is on the hook side of the origin stays still while the bend is pulled. Spare and
// insertions are tube here: the piece is the blank.
#pragma once

#include <vector>

#include "geometry/plan/run.h"

namespace halfhard {

struct FormedPiece {
  CentreLine line;             // from the datum end to the free end, in the bender's frame
  std::vector<int> bends;      // number of the bend at each of the line's intersections, from the datum end
  int in_bender = 0;           // number of the bend that the frame stands at
  End hook = End::datum;       // which end of the tube lies behind the hook
  Angle pulled;                // the angle that this bend stands at
  double mark_at_mm = 0;       // along `line` from its datum end to the bend's mark
  double hook_at_mm = 0;       // the same to the hook point
  double blank_length_mm = 0;  // before any bend; line.length_mm() where nothing is overbent

  // The index into line.points() of bend `number`'s intersection; 0 where it is not bent.
  int intersection_of(int number) const;
};

// The piece with the first `made - 1` bends of the order made and let go, and bend `made` pulled to `pulled`.
// Requires 1 <= made <= number of bends. A pull below kSameDirection_deg is none; one beyond 179.9 degrees is held
// there. Until the bend's own angle the line keeps the blank's length exactly. Beyond (overbend, held against the
// spring-back) it is a picture: the former's radius is kept, and the line grows by at most radius * overbend.
// `turned`: how far the bend in the bender is turned about the tube from where it belongs (right-handed about travel).
FormedPiece formed_piece(const Run& run, int made, Angle pulled, Angle turned = Angle());

// The three states that a card shows.
FormedPiece before_bend(const Run& run, int made);
FormedPiece while_pulling(const Run& run, int made, double fraction_of_set_angle);
FormedPiece after_bend(const Run& run, int made);

// The run's centre line with its insertions and its spare as tube: the piece when all bends are made, where it stands
// on site. after_bend(run, last) is this up to a rigid move, within 1e-6 mm for angles up to 175 degrees.
CentreLine whole_piece(const Run& run);

}  // namespace halfhard
