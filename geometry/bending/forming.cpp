#include "geometry/bending/forming.h"

#include <algorithm>
#include <cmath>

#include "geometry/base/require.h"
#include "geometry/base/tolerances.h"
#include "geometry/bending/bend_table.h"

namespace halfhard {
namespace {

constexpr double kMostPulled_deg = 179.9;  // at 180 the intersection is infinitely far

double arc_mm(double radius_mm, Angle angle) { return radius_mm * angle.radians(); }

// The angle that each bend stands at, 0 where it is still straight.
std::vector<Angle> angles_now(const Run& run, int made, Angle pulled) {
  std::vector<Angle> angles(run.bends.size());
  for (const Bend& bend : run.bends) {
    if (bend.made < made) angles[bend.number - 1] = bend.angle;
    if (bend.made != made) continue;
    const double most = std::max(kMostPulled_deg, bend.angle.degrees());
    if (pulled.degrees() >= kSameDirection_deg)
      angles[bend.number - 1] = Angle::degrees(std::min(pulled.degrees(), most));
  }
  return angles;
}

// Rows of the piece: what is not bent of an arc stays straight on the lever side, because the curve starts at the hook.
std::vector<ShapeRow> rows_now(const Run& run, const std::vector<Angle>& angles) {
  std::vector<ShapeRow> rows = shape_rows(run.line);
  rows.front().straight_mm += run.spare_datum_mm + run.datum_insertion_mm();
  rows.back().straight_mm += run.spare_free_mm + run.free_insertion_mm();
  for (const Bend& bend : run.bends) {
    const int i = bend.number - 1;
    const double still_straight = arc_mm(run.line.radius_mm(), rows[i].angle) - arc_mm(run.line.radius_mm(), angles[i]);
    rows[bend.hook == End::datum ? i + 1 : i].straight_mm += std::max(0.0, still_straight);
    rows[i].angle = angles[i];
  }
  return rows;
}

struct Frame {
  Vec3 origin, x, y;
};

// Rigid move of the piece so that the frame becomes the axes.
std::vector<Vec3> seen_from(const Frame& frame, std::vector<Vec3> points) {
  const Vec3 z = frame.x.cross(frame.y);
  for (Vec3& point : points) {
    const Vec3 offset = point - frame.origin;
    point = {offset.dot(frame.x), offset.dot(frame.y), offset.dot(z)};
  }
  return points;
}

// Place, direction of travel and plane normal at the start (hook on the datum side) or end of bend `number`'s curve.
Frame bender_frame(const std::vector<ShapeRow>& rows, double radius_mm, int number, End hook) {
  Vec3 at = Vec3::Zero(), along = Vec3::UnitX(), normal = Vec3::UnitZ();
  for (int i = 0; i < number; ++i) {
    at += along * rows[i].straight_mm;
    normal = Eigen::AngleAxisd(rows[i].rotation.radians(), along) * normal;
    if (i + 1 == number && hook == End::datum) break;
    const Vec3 next = Eigen::AngleAxisd(rows[i].angle.radians(), normal) * along;
    at += radius_mm * rows[i].angle.tan_of_half() * (along + next);
    along = next;
  }
  // Seen from the free end the tube runs the other way, and the datum side swings to the same side of it.
  const Vec3 from_hook = hook == End::datum ? along : Vec3(-along);
  return {at, from_hook, normal.cross(along).normalized()};
}

}  // namespace

int FormedPiece::intersection_of(int number) const {
  const auto found = std::find(bends.begin(), bends.end(), number);
  return found == bends.end() ? 0 : static_cast<int>(found - bends.begin()) + 1;
}

FormedPiece formed_piece(const Run& run, int made, Angle pulled, Angle turned) {
  HALFHARD_REQUIRE(made >= 1 && made <= static_cast<int>(run.bends.size()));
  const auto working = std::find_if(run.bends.begin(), run.bends.end(), [&](const Bend& b) { return b.made == made; });
  HALFHARD_REQUIRE(working != run.bends.end());
  const std::vector<Angle> angles = angles_now(run, made, pulled);
  std::vector<ShapeRow> rows = rows_now(run, angles);
  // What lies beyond the bend keeps its place to what lies before it: only this bend's plane is turned.
  rows[working->number - 1].rotation = rows[working->number - 1].rotation + turned;
  if (working->number < static_cast<int>(run.bends.size()))
    rows[working->number].rotation = rows[working->number].rotation - turned;
  const double radius = run.line.radius_mm();

  FormedPiece piece;
  piece.in_bender = working->number;
  piece.hook = working->hook;
  piece.pulled = angles[working->number - 1];
  const Frame frame = bender_frame(rows, radius, working->number, working->hook);
  piece.line = CentreLine::through(
      seen_from(frame, points_from_rows(rows, radius, Vec3::Zero(), Vec3::UnitX(), Vec3::UnitZ())), radius);
  for (const Bend& bend : run.bends) {
    if (angles[bend.number - 1].degrees() > 0) piece.bends.push_back(bend.number);
  }
  for (const ShapeRow& row : shape_rows(run.line)) piece.blank_length_mm += row.straight_mm + arc_mm(radius, row.angle);
  piece.blank_length_mm += run.spare_datum_mm + run.datum_insertion_mm() + run.spare_free_mm + run.free_insertion_mm();
  // The hook side keeps its length; what an overbend adds lies beyond.
  const double grown = piece.line.length_mm() - piece.blank_length_mm;
  const bool datum = working->hook == End::datum;
  piece.hook_at_mm = datum ? working->start_of_bend_mm : working->end_of_bend_mm + grown;
  piece.mark_at_mm = datum ? working->mark_mm : working->mark_mm + grown;
  return piece;
}

FormedPiece before_bend(const Run& run, int made) { return formed_piece(run, made, Angle()); }

FormedPiece while_pulling(const Run& run, int made, double fraction_of_set_angle) {
  const double fraction = std::clamp(fraction_of_set_angle, 0.0, 1.0);
  for (const Bend& bend : run.bends) {
    if (bend.made == made) return formed_piece(run, made, fraction * bend.set_angle);
  }
  HALFHARD_REQUIRE(false);
}

FormedPiece after_bend(const Run& run, int made) {
  for (const Bend& bend : run.bends) {
    if (bend.made == made) return formed_piece(run, made, bend.angle);
  }
  HALFHARD_REQUIRE(false);
}

CentreLine whole_piece(const Run& run) {
  std::vector<Vec3> points = run.line.points();
  const Vec3 first = run.line.leg_direction(0);
  const Vec3 last = run.line.leg_direction(run.line.leg_count() - 1);
  points.front() -= (run.spare_datum_mm + run.datum_insertion_mm()) * first;
  points.back() += (run.spare_free_mm + run.free_insertion_mm()) * last;
  return CentreLine::through(std::move(points), run.line.radius_mm());
}

}  // namespace halfhard
