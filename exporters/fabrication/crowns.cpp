#include "exporters/fabrication/crowns.h"

#include "geometry/base/tolerances.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

bool same_way(const Vec3& a, const Vec3& b) { return angle_between(a, b).degrees() <= kSameDirection_deg; }

bool same_angle(Angle a, Angle b) { return std::abs(a.degrees() - b.degrees()) <= kSameDirection_deg; }

// The passover whose first bend is the leg's end, with its last bend `bends` - 1 further on.
bool passes_over(const CentreLine& line, int first, int bends) {
  const int last = first + bends - 1;
  if (last >= line.bend_count()) return false;
  const auto& points = line.points();
  const Vec3 leg = line.leg_direction(first);
  const Angle angle = line.bend_angle(first);
  return angle.degrees() < 90 - kSameDirection_deg && same_way(leg, line.leg_direction(last + 1)) &&
         same_way(leg, points[last + 1] - points[first + 1]) && same_angle(angle, line.bend_angle(last)) &&
         (bends == 3 || same_way(leg, line.leg_direction(first + 2)));
}

// The middle of a bend's arc.
Vec3 arc_middle(const CentreLine& line, int bend) {
  for (const Piece& piece : line.pieces())
    if (const auto* arc = std::get_if<Arc>(&piece.shape); arc != nullptr && piece.first_leg == bend)
      return arc->point(arc->sweep.radians() / 2);
  return line.points()[bend + 1];
}

}  // namespace

std::vector<Crown> crowns(const Run& run) {
  const CentreLine& line = run.line;
  std::vector<Crown> found;
  for (int first = 0; first < line.bend_count(); ++first) {
    for (const int bends : {3, 4}) {
      if (!passes_over(line, first, bends)) continue;
      Crown crown;
      crown.first_bend = first + 1;
      crown.last_bend = first + bends;
      crown.leg = line.leg_direction(first);
      crown.middle = line.bend_angle(first + 1);
      const auto& points = line.points();
      crown.at = bends == 3 ? arc_middle(line, first + 1) : Vec3((points[first + 2] + points[first + 3]) / 2);
      const Vec3 from_leg = crown.at - points[first + 1];
      const Vec3 up = from_leg - crown.leg * from_leg.dot(crown.leg);
      crown.height_mm = up.norm();
      crown.away = up / crown.height_mm;
      crown.outside_mm = crown.height_mm + run.tube->outside_diameter_mm;
      found.push_back(crown);
      first = crown.last_bend - 1;
      break;
    }
  }
  return found;
}

std::string crown_text(const Run& run, const Crown& crown, LengthUnit unit) {
  const std::string height = shown_length(crown.height_mm, unit);
  return "Passover, bends " + std::to_string(crown.first_bend) + " to " + std::to_string(crown.last_bend) +
         ": the crown's centre line stands " + height +
         " off that of the legs. Lay a straight edge along both legs on the "
         "hollow side: " +
         height + " to the near side of the crown, " + shown_length(crown.outside_mm, unit) +
         " over its outside. Middle " + (crown.flat() ? "bends " : "bend ") + shown_angle(crown.middle) + ", radius " +
         shown_length(run.line.radius_mm(), unit) + ".";
}

std::vector<Vec3> points_to_measure(const Run& run) {
  std::vector<Vec3> points = run.line.points();
  for (const Crown& crown : crowns(run))
    if (!crown.flat()) points[static_cast<std::size_t>(crown.first_bend + 1)] = crown.at;
  return points;
}

}  // namespace halfhard
