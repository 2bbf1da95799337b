#include "geometry/bending/bend_table.h"

#include <algorithm>
#include <cmath>

#include "geometry/base/require.h"
#include "geometry/base/tolerances.h"

namespace halfhard {
namespace {

constexpr double kRule_mm = 600;

// Where a bend lies along the blank.
struct Span {
  double start_mm, end_mm;
};

std::vector<Span> spans_along_blank(const CentreLine& line, double before_start_mm) {
  std::vector<Span> spans;
  for (const Piece& piece : line.pieces()) {
    if (std::holds_alternative<Arc>(piece.shape)) {
      const double start = before_start_mm + piece.starts_at_mm;
      spans.push_back({start, start + piece.length_mm});
    }
  }
  return spans;
}

// The bend nearest on the hook side of `number` among those made before it; 0 where there is none.
int bend_on_hook_side(int number, End hook, const std::vector<int>& made_before) {
  int nearest = 0;
  for (int other : made_before) {
    if (hook == End::datum && other < number) nearest = std::max(nearest, other);
    if (hook == End::free && other > number && (nearest == 0 || other < nearest)) nearest = other;
  }
  return nearest;
}

}  // namespace

Angle rotation_between(const Vec3& before, const Vec3& along, const Vec3& after) {
  const Vec3 n0 = before.cross(along);
  const Vec3 n1 = along.cross(after);
  const Angle angle = Angle::radians(std::atan2(n0.cross(n1).dot(along.normalized()), n0.dot(n1)));
  return angle.degrees() <= -180 + kHalfTurnSnap_deg ? Angle::degrees(180) : angle;
}

double rule_points_mm(Angle angle) { return kRule_mm * (angle / 2).cos(); }

Angle rule_angle(double true_mm) { return Angle::radians(2 * std::acos((kRule_mm - true_mm) / kRule_mm)); }

std::vector<ShapeRow> shape_rows(const CentreLine& line) {
  std::vector<ShapeRow> rows;
  for (int leg = 0; leg < line.leg_count(); ++leg) {
    ShapeRow row{line.straight_mm(leg), Angle(), Angle()};
    if (leg < line.bend_count()) {
      row.angle = line.bend_angle(leg);
      if (leg > 0) {
        row.rotation =
            rotation_between(line.leg_direction(leg - 1), line.leg_direction(leg), line.leg_direction(leg + 1));
      }
    }
    rows.push_back(row);
  }
  return rows;
}

std::vector<Vec3> points_from_rows(const std::vector<ShapeRow>& rows, double radius_mm, const Vec3& start,
                                   const Vec3& direction, const Vec3& normal) {
  HALFHARD_REQUIRE(!rows.empty());
  std::vector<Vec3> points = {start};
  Vec3 along = direction;
  Vec3 plane_normal = normal;
  Vec3 at = start;
  double setback_before = 0;
  for (const ShapeRow& row : rows) {
    const double setback = radius_mm * row.angle.tan_of_half();
    at += along * (setback_before + row.straight_mm + setback);
    setback_before = setback;
    plane_normal = Eigen::AngleAxisd(row.rotation.radians(), along) * plane_normal;
    if (row.angle.degrees() > 0) {
      points.push_back(at);
      along = Eigen::AngleAxisd(row.angle.radians(), plane_normal) * along;
    }
  }
  if (rows.back().angle.degrees() == 0) points.push_back(at);
  return points;
}

std::vector<Bend> bend_table(const CentreLine& line, const Tube& tube, const Bender& bender,
                             const BendingOrder& bending) {
  const int count = line.bend_count();
  HALFHARD_REQUIRE(static_cast<int>(bending.hook.size()) == count);
  HALFHARD_REQUIRE(static_cast<int>(bending.order.size()) == count);
  const double before_start = bending.datum_spare_mm + bending.datum_insertion_mm;
  const double blank = before_start + line.length_mm() + bending.free_insertion_mm + bending.free_spare_mm;
  const std::vector<Span> spans = spans_along_blank(line, before_start);
  const double mark_offset = bender.mark_offset_mm.value_or(0);

  std::vector<Bend> bends(count);
  for (int i = 0; i < count; ++i) {
    Bend& bend = bends[i];
    bend.number = i + 1;
    bend.angle = line.bend_angle(i);
    bend.set_angle = bender.set_angle(bend.angle);
    if (i > 0)
      bend.rotation = rotation_between(line.leg_direction(i - 1), line.leg_direction(i), line.leg_direction(i + 1));
    bend.radius_mm = line.radius_mm();
    bend.hook = bending.hook[i];
    bend.straight_before_mm = line.straight_mm(i) + (i == 0 ? bending.datum_insertion_mm : 0);
    bend.start_of_bend_mm = spans[i].start_mm;
    bend.end_of_bend_mm = spans[i].end_mm;
    bend.mark_mm = bend.hook == End::datum ? bend.start_of_bend_mm + mark_offset : bend.end_of_bend_mm - mark_offset;
    bend.rule_points_mm = rule_points_mm(bend.angle);
    bend.rule_points_set_mm = rule_points_mm(bend.set_angle);
  }

  const double outside_radius = line.radius_mm() + tube.outside_radius_mm();
  std::vector<int> made_before;
  for (int number : bending.order) {
    Bend& bend = bends[number - 1];
    bend.made = static_cast<int>(made_before.size()) + 1;
    bend.mark_from_bend = bend_on_hook_side(number, bend.hook, made_before);
    const bool datum = bend.hook == End::datum;
    if (bend.mark_from_bend == 0) {
      bend.mark_from_outside_mm = datum ? bend.mark_mm : blank - bend.mark_mm;
    } else {
      const Bend& other = bends[bend.mark_from_bend - 1];
      const double straight =
          datum ? bend.start_of_bend_mm - other.end_of_bend_mm : other.start_of_bend_mm - bend.end_of_bend_mm;
      bend.mark_from_outside_mm = outside_radius * other.angle.tan_of_half() + straight + mark_offset;
    }
    made_before.push_back(number);
  }
  return bends;
}

}  // namespace halfhard
