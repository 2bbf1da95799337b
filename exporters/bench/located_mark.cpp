#include "exporters/bench/located_mark.h"

namespace halfhard {

std::optional<LocatedCheck> located_mark(const Run& run, const Bend& bend) {
  if (run.marking == Marking::all || bend.mark_from_bend == 0) return std::nullopt;
  const FormedPiece piece = before_bend(run, bend.made);
  const int corner = piece.intersection_of(bend.mark_from_bend);
  // Both from the corner: along the marked leg, and into the leg behind it.
  Vec3 along = piece.line.leg_direction(corner), behind = -piece.line.leg_direction(corner - 1);
  if (bend.hook == End::free) std::swap(along, behind);
  const Angle angle = run.bends[bend.mark_from_bend - 1].angle;
  LocatedCheck tape;
  tape.from = piece.line.points()[corner] - run.tube->outside_radius_mm() * angle.tan_of_half() * along;
  tape.to = piece.line.point_at(piece.mark_at_mm);
  tape.aside = -(behind - behind.dot(along) * along).normalized();
  tape.check.mm = (tape.to - tape.from).dot(along);
  return tape;
}

}  // namespace halfhard
