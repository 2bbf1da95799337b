// Our hidden lines against the solid kernel's, on random pipes in random views.
#include "tests/geometry/occt/views/hidden_lines.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "tests/support/plans.h"

namespace halfhard {
namespace {

double distance_mm(const Vec2& p, const Vec2& a, const Vec2& b) {
  const Vec2 d = b - a;
  const double t = d.squaredNorm() > 0 ? std::clamp((p - a).dot(d) / d.squaredNorm(), 0.0, 1.0) : 0.0;
  return (p - a - t * d).norm();
}

double distance_mm(const Vec2& p, const std::vector<oracle::Points>& curves) {
  double least = 1e300;
  for (const oracle::Points& points : curves)
    for (size_t i = 1; i < points.size(); ++i) least = std::min(least, distance_mm(p, points[i - 1], points[i]));
  return least;
}

// How much of `curves` lies farther than 0.1 mm from all of `others`.
double unmatched_mm(const std::vector<oracle::Points>& curves, const std::vector<oracle::Points>& others) {
  double sum = 0;
  for (const oracle::Points& points : curves) {
    for (size_t i = 1; i < points.size(); ++i) {
      const double length = (points[i] - points[i - 1]).norm();
      const int steps = std::max(1, static_cast<int>(length / 0.5));
      for (int k = 0; k < steps; ++k) {
        const Vec2 p = points[i - 1] + (points[i] - points[i - 1]) * (k + 0.5) / steps;
        if (distance_mm(p, others) > 0.1) sum += length / steps;
      }
    }
  }
  return sum;
}

// No two parts of the centre line nearer than the tube is wide: the kernel draws no line where walls run into another.
bool keeps_off_itself(const CentreLine& line, double diameter) {
  const int count = static_cast<int>(line.length_mm() / 3);
  for (int i = 0; i < count; ++i)
    for (int j = i + 1; j < count; ++j)
      if ((j - i) * 3 > 4 * diameter && (line.point_at(i * 3.0) - line.point_at(j * 3.0)).norm() < diameter + 2)
        return false;
  return true;
}

class HiddenLines : public testing::TestWithParam<int> {};

TEST_P(HiddenLines, AgreeWithTheSolidKernel) {
  std::mt19937 random(static_cast<unsigned>(GetParam()));
  CentreLine line;
  do {
    line = CentreLine::through(support::random_points(random, 5), 55);
  } while (!keeps_off_itself(line, 15));
  const auto part = [&] { return random() / 2147483648.0 - 1; };
  const View view = View::along(Vec3(part(), part(), part()), Vec3(0.1, 0.2, 1));
  const std::vector<SceneTube> tubes = {{1, line, 7.5}};
  const oracle::HiddenLines theirs = oracle::hidden_lines(tubes, view);
  std::vector<oracle::Points> ours_visible, ours_hidden;
  double visible = 0;
  for (const ViewCurve& curve : project({tubes, {}}, view).curves) {
    if (curve.kind == CurveKind::centre_line) continue;
    (curve.visible ? ours_visible : ours_hidden).push_back(flattened(curve.shape, 0.01));
    if (curve.visible) visible += length_mm(curve.shape);
  }
  // The kernel's own turns are within about half a millimetre; a missed stretch would be longer than these.
  EXPECT_NEAR(visible, oracle::total_mm(theirs.visible), 0.002 * visible + 1);
  EXPECT_LT(unmatched_mm(ours_visible, theirs.visible), 3);
  EXPECT_LT(unmatched_mm(theirs.visible, ours_visible), 3);
  EXPECT_LT(unmatched_mm(theirs.hidden, ours_hidden), 8);
}

INSTANTIATE_TEST_SUITE_P(RandomPipes, HiddenLines, testing::Range(1, 13));

}  // namespace
}  // namespace halfhard
