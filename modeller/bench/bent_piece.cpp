#include "modeller/bench/bent_piece.h"

#include "geometry/base/require.h"
#include "geometry/base/tolerances.h"

namespace halfhard {
namespace {

// The straight on the lever side of a bend: after it where the datum side is on the hook.
std::size_t lever_row(const Run& run, std::size_t bend) { return run.bends[bend].hook == End::datum ? bend + 1 : bend; }

}  // namespace

BentPiece::BentPiece(const Run& run, const MeasuredPiece& measured)
    : run_(run),
      normal_(run.line.leg_direction(0).cross(run.line.leg_direction(1)).normalized()),
      rows_(shape_rows(run.line)) {
  const double radius = run.line.radius_mm();
  for (const MeasuredBend& bend : measured.bends) {
    const auto at = static_cast<std::size_t>(bend.number - 1);
    HALFHARD_REQUIRE(at + 1 < rows_.size());
    if (bend.rotation && at > 0) rows_[at].rotation = *bend.rotation;
    if (!bend.angle) continue;
    rows_[lever_row(run, at)].straight_mm -= radius * (*bend.angle - rows_[at].angle).radians();
    rows_[at].angle = *bend.angle;
  }
  for (const MeasuredLeg& leg : measured.legs) {
    const auto at = static_cast<std::size_t>(leg.number - 1);
    HALFHARD_REQUIRE(at < rows_.size());
    const double before = at > 0 ? radius * rows_[at - 1].angle.tan_of_half() : 0;
    const double after = at + 1 < rows_.size() ? radius * rows_[at].angle.tan_of_half() : 0;
    rows_[at].straight_mm = leg.mm - before - after;
  }
}

std::vector<ShapeRow> BentPiece::changed(const Eigen::VectorXd& changes_deg) const {
  std::vector<ShapeRow> rows = rows_;
  for (std::size_t bend = 0; bend + 1 < rows.size(); ++bend) {
    const Angle change = Angle::degrees(changes_deg[static_cast<Eigen::Index>(bend)]);
    rows[bend].angle = rows[bend].angle + change;
    rows[lever_row(run_, bend)].straight_mm -= run_.line.radius_mm() * change.radians();
  }
  return rows;
}

std::vector<Vec3> BentPiece::points(const std::vector<ShapeRow>& rows) const {
  return points_from_rows(rows, run_.line.radius_mm(), run_.line.points().front(), run_.line.leg_direction(0), normal_);
}

EndMiss BentPiece::miss(const Eigen::VectorXd& changes_deg) const {
  const std::vector<Vec3> made = points(changed(changes_deg));
  const CentreLine& line = run_.line;
  EndMiss miss;
  miss.by = made.back() - line.points().back();
  miss.turned = angle_between(made.back() - made[made.size() - 2], line.leg_direction(line.leg_count() - 1));
  return miss;
}

bool BentPiece::possible(const Eigen::VectorXd& changes_deg) const {
  const std::vector<ShapeRow> rows = changed(changes_deg);
  for (std::size_t row = 0; row < rows.size(); ++row) {
    const double straight = rows[row].straight_mm;
    if (straight < -kStraightSlack_mm && straight < rows_[row].straight_mm) return false;
    const double angle = rows[row].angle.degrees();
    if (row + 1 < rows.size() && !(angle > kSameDirection_deg && angle < 179.9)) return false;
  }
  return true;
}

double BentPiece::ends_apart_mm() const {
  const std::vector<Vec3> made = points(rows_);
  const Vec3 first = (made[1] - made[0]).normalized();
  const Vec3 last = (made.back() - made[made.size() - 2]).normalized();
  return (made.back() + last * run_.free_insertion_mm() - made.front() + first * run_.datum_insertion_mm()).norm();
}

}  // namespace halfhard
