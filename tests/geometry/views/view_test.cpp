// Views with known answers, and what must not change when a scene is moved.
#include "geometry/views/view.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "tests/support/plans.h"

namespace halfhard {
namespace {

Scene scene_of(std::vector<SceneTube> tubes, std::vector<SceneBody> bodies = {}) {
  return {std::move(tubes), std::move(bodies)};
}

SceneTube straight_tube(int object, const Vec3& from, const Vec3& to, double radius = 7.5) {
  return {object, CentreLine::through({from, to}, 55), radius};
}

template <class Shape>
std::vector<Shape> shapes(const Projection& view, int object, bool visible, CurveKind kind = CurveKind::outline) {
  std::vector<Shape> found;
  for (const ViewCurve& curve : view.curves)
    if (curve.object == object && curve.visible == visible && curve.kind == kind)
      if (const auto* shape = std::get_if<Shape>(&curve.shape)) found.push_back(*shape);
  return found;
}

double total_mm(const Projection& view, bool visible, int object = -1) {
  double sum = 0;
  for (const ViewCurve& curve : view.curves)
    if (curve.kind == CurveKind::outline && curve.visible == visible && (object < 0 || curve.object == object))
      sum += length_mm(curve.shape);
  return sum;
}

TEST(View, EachNamedViewStandsAsItsNameSays) {
  const Vec3 p(1, 2, 3);
  EXPECT_TRUE(View::front().flat(p).isApprox(Vec2(1, 3)));
  EXPECT_TRUE(View::back().flat(p).isApprox(Vec2(-1, 3)));
  EXPECT_TRUE(View::top().flat(p).isApprox(Vec2(1, 2)));
  EXPECT_TRUE(View::bottom().flat(p).isApprox(Vec2(1, -2)));
  EXPECT_TRUE(View::from_left().flat(p).isApprox(Vec2(-2, 3)));
  EXPECT_TRUE(View::from_right().flat(p).isApprox(Vec2(2, 3)));
  for (const View& view : {View::front(), View::back(), View::top(), View::bottom(), View::from_left(),
                           View::from_right(), View::isometric(), View::isometric(true)})
    EXPECT_TRUE(view.right.cross(view.up).isApprox(-view.look));
}

TEST(View, IsometricAxesStandAtThirtyDegrees) {  // ISO 5456-3
  for (const bool right : {false, true}) {
    const View view = View::isometric(right);
    for (const Vec3& axis : {Vec3(Vec3::UnitX()), Vec3(Vec3::UnitY()), Vec3(Vec3::UnitZ())})
      EXPECT_NEAR(view.flat(axis).norm(), kIsometricShortening, 1e-12);
    EXPECT_NEAR(std::abs(view.flat(Vec3::UnitX()).y() / view.flat(Vec3::UnitX()).x()), std::tan(M_PI / 6), 1e-12);
    EXPECT_NEAR(view.flat(Vec3::UnitZ()).x(), 0, 1e-12);
    EXPECT_GT(view.flat(Vec3::UnitZ()).y(), 0);
  }
}

TEST(Project, AStraightBehindAnotherIsHiddenByItsWidth) {
  // 15 mm across, in front of 15 mm up, 50 mm apart in depth; seen from the front.
  const Projection view =
      project(scene_of({straight_tube(1, {-100, 0, 0}, {100, 0, 0}), straight_tube(2, {0, 50, -100}, {0, 50, 100})}),
              View::front());
  EXPECT_NEAR(total_mm(view, false, 1), 0, 1e-9);
  EXPECT_NEAR(total_mm(view, true, 1), 2 * 200 + 2 * 15, 1e-6);
  const std::vector<FlatLine> hidden = shapes<FlatLine>(view, 2, false);
  ASSERT_EQ(hidden.size(), 2u);
  for (const FlatLine& line : hidden) {
    EXPECT_NEAR(std::abs(line.from.x()), 7.5, 1e-9);
    EXPECT_NEAR(std::min(line.from.y(), line.to.y()), -7.5, 1e-3);
    EXPECT_NEAR(std::max(line.from.y(), line.to.y()), 7.5, 1e-3);
  }
  EXPECT_NEAR(total_mm(view, true, 2), 2 * 185 + 2 * 15, 4e-3);
}

TEST(Project, AnObliqueCrossingIsHiddenAlongTheSlant) {
  // The tube behind runs at 30 degrees to the one before it: each edge is hidden for 15 / sin 30.
  const Vec3 slant(std::cos(M_PI / 6), 0, std::sin(M_PI / 6));
  const Projection view =
      project(scene_of({straight_tube(1, {-200, 0, 0}, {200, 0, 0}),
                        straight_tube(2, Vec3(0, 50, 0) - 150 * slant, Vec3(0, 50, 0) + 150 * slant)}),
              View::front());
  EXPECT_NEAR(total_mm(view, false, 2), 2 * 30, 4e-3);
}

TEST(Project, AQuarterBendSquareOnIsTwoConcentricArcs) {
  const Scene scene = scene_of({{7, CentreLine::through({{0, 0, 0}, {0, 0, 200}, {200, 0, 200}}, 55), 7.5}});
  const Projection view = project(scene, View::front());
  std::vector<FlatArc> arcs = shapes<FlatArc>(view, 7, true);
  ASSERT_EQ(arcs.size(), 2u);
  std::sort(arcs.begin(), arcs.end(), [](const auto& a, const auto& b) { return a.radius_mm < b.radius_mm; });
  EXPECT_NEAR(arcs[0].radius_mm, 47.5, 1e-9);
  EXPECT_NEAR(arcs[1].radius_mm, 62.5, 1e-9);
  for (const FlatArc& arc : arcs) {
    EXPECT_NEAR((arc.centre - Vec2(55, 145)).norm(), 0, 1e-9);
    EXPECT_NEAR(arc.start.degrees(), 90, 1e-9);
    EXPECT_NEAR(arc.sweep.degrees(), 90, 1e-9);
  }
  // Four straight edges and two end discs, seen edge-on; nothing at the joints, nothing hidden.
  EXPECT_EQ(shapes<FlatLine>(view, 7, true).size(), 6u);
  EXPECT_EQ(total_mm(view, false), 0);
}

TEST(Project, ABendSeenEdgeOnIsOneStadium) {
  // From the left the horizontal leg runs away from the viewer, behind the bend: straight edges and a half circle.
  const Scene scene = scene_of({{7, CentreLine::through({{0, 0, 0}, {0, 0, 200}, {200, 0, 200}}, 55), 7.5}});
  const Projection view = project(scene, View::from_left());
  const std::vector<FlatArc> arcs = shapes<FlatArc>(view, 7, true);
  ASSERT_EQ(arcs.size(), 1u);
  EXPECT_NEAR(arcs[0].radius_mm, 7.5, 1e-9);
  EXPECT_NEAR(arcs[0].sweep.degrees(), 180, 1e-6);
  const std::vector<FlatLine> lines = shapes<FlatLine>(view, 7, true);
  ASSERT_EQ(lines.size(), 3u);
  double sum = 0;
  for (const FlatLine& line : lines) sum += (line.to - line.from).norm();
  EXPECT_NEAR(sum, 200 + 200 + 15, 1e-3);
}

TEST(Project, ALegSeenEndOnIsACircle) {
  const Projection view = project(scene_of({straight_tube(3, {10, 20, 0}, {10, 20, 300})}), View::top());
  const std::vector<FlatArc> arcs = shapes<FlatArc>(view, 3, true);
  ASSERT_EQ(arcs.size(), 1u);
  EXPECT_NEAR(arcs[0].radius_mm, 7.5, 1e-9);
  EXPECT_NEAR((arcs[0].centre - Vec2(10, 20)).norm(), 0, 1e-9);
  EXPECT_NEAR(arcs[0].sweep.degrees(), 360, 1e-9);
}

TEST(Project, AnEndDiscSeenAskewIsAnEllipseOfTheCosine) {
  const View view = View::along(Vec3(0, 1, -1), Vec3::UnitZ());  // 45 degrees down
  const Projection seen = project(scene_of({straight_tube(3, {0, 0, 0}, {0, 0, 300})}), view);
  const std::vector<FlatEllipseArc> ends = shapes<FlatEllipseArc>(seen, 3, true);
  ASSERT_EQ(ends.size(), 2u);
  double sweep = 0;
  for (const FlatEllipseArc& end : ends) {
    EXPECT_NEAR(end.major.norm(), 7.5, 1e-9);
    EXPECT_NEAR(end.minor_ratio, std::sqrt(0.5), 1e-9);
    sweep += end.sweep.degrees();
  }
  EXPECT_NEAR(sweep, 540, 1e-6);  // the near end whole, the far end's near half
}

TEST(Project, ABoxHidesWhatIsBehindItAndNotWhatIsBefore) {
  const Box box{Vec3(0, 50, 0), Mat3::Identity(), Vec3(30, 5, 40)};
  const auto hidden = [&](double y) {
    return total_mm(project(scene_of({straight_tube(1, {-100, y, 0}, {100, y, 0})}, {{2, box}}), View::front()), false,
                    1);
  };
  EXPECT_NEAR(hidden(100), 2 * 60, 5e-3);
  EXPECT_EQ(hidden(0), 0);
}

TEST(Project, ADrilledPanelHidesTheTubeInsideAndBehindIt) {
  const Box panel{Vec3(0, 50, 0), Mat3::Identity(), Vec3(100, 9, 100)};
  const Scene scene = scene_of({straight_tube(1, {0, -100, 0}, {0, 200, 0})}, {{2, panel}});
  const Projection view = project(scene, View::from_left());
  // From the left the panel is 18 mm wide; the tube runs through its middle.
  EXPECT_NEAR(total_mm(view, false, 1), 2 * 18, 5e-3);
}

TEST(Project, AWallHidesOnlyFromItsFreeSide) {
  const HalfSpace wall{Vec3(0, 50, 0), -Vec3::UnitY()};
  const Scene scene = scene_of({straight_tube(1, {-100, 100, 0}, {100, 100, 0})}, {{2, wall}});
  EXPECT_EQ(total_mm(project(scene, View::front()), true, 1), 0);
  EXPECT_EQ(total_mm(project(scene, View::back()), false, 1), 0);
  EXPECT_EQ(shapes<FlatLine>(project(scene, View::top()), 2, true).size(), 1u);
}

TEST(Project, TwoPipesInLineAreDrawnOnce) {
  const Projection view =
      project(scene_of({straight_tube(1, {-100, 0, 0}, {100, 0, 0}), straight_tube(2, {-100, 60, 0}, {100, 60, 0})}),
              View::front());
  EXPECT_NEAR(total_mm(view, true, 1), 430, 1e-6);
  EXPECT_NEAR(total_mm(view, true, 2), 0, 1e-6);
  EXPECT_NEAR(total_mm(view, false, 2), 0, 1e-6);
}

TEST(Project, TwoPipesEndToEndKeepTheLineBetweenThem) {
  const Projection view = project(
      scene_of({straight_tube(1, {-100, 0, 0}, {0, 0, 0}), straight_tube(2, {0, 0, 0}, {100, 0, 0})}), View::front());
  EXPECT_NEAR(total_mm(view, true), 4 * 100 + 4 * 15, 1.5);
}

TEST(Project, AFoldIsNeverVisible) {
  std::mt19937 random(11);
  for (int i = 0; i < 20; ++i) {
    const CentreLine line = CentreLine::through(support::random_points(random, 6, 30), 30);
    for (const ViewCurve& curve : project(scene_of({{1, line, 11}}), View::isometric()).curves)
      EXPECT_FALSE(curve.kind == CurveKind::fold && curve.visible);
  }
}

TEST(Project, MovingTheWholeSceneMovesTheResultAndChangesNothingElse) {
  std::mt19937 random(3);
  for (int i = 0; i < 10; ++i) {
    const CentreLine a = CentreLine::through(support::random_points(random, 5), 55);
    const CentreLine b = CentreLine::through(support::random_points(random, 5), 55);
    const Vec3 shift(12345.5, -9876.25, 4321.125);
    const Box box{Vec3(250, 300, 350), Mat3::Identity(), Vec3(50, 60, 70)};
    const Box moved_box{box.centre + shift, box.axes, box.half};
    const View view = View::along(Vec3(0.3, 1, -0.7), Vec3::UnitZ());
    const Projection here = project(scene_of({{1, a, 7.5}, {2, b, 7.5}}, {{3, box}}), view);
    const Projection there =
        project(scene_of({{1, a.moved(shift), 7.5}, {2, b.moved(shift), 7.5}}, {{3, moved_box}}), view);
    for (const int object : {1, 2, 3})
      for (const bool visible : {true, false})
        EXPECT_NEAR(total_mm(here, visible, object), total_mm(there, visible, object), 0.01);
    EXPECT_NEAR((here.low + view.flat(shift) - there.low).norm(), 0, 1e-6);
    EXPECT_NEAR((here.high + view.flat(shift) - there.high).norm(), 0, 1e-6);
  }
}

TEST(Project, TravellingTheOtherWayChangesNothing) {
  std::mt19937 random(5);
  for (int i = 0; i < 10; ++i) {
    std::vector<Vec3> points = support::random_points(random, 6);
    const double forward =
        total_mm(project(scene_of({{1, CentreLine::through(points, 55), 7.5}}), View::isometric()), true);
    std::reverse(points.begin(), points.end());
    const double back =
        total_mm(project(scene_of({{1, CentreLine::through(points, 55), 7.5}}), View::isometric()), true);
    EXPECT_NEAR(forward, back, 0.01);
  }
}

TEST(Project, SameSceneSameCurves) {
  std::mt19937 random(8);
  const Scene scene = scene_of({{1, CentreLine::through(support::random_points(random, 8), 55), 7.5}});
  const Projection first = project(scene, View::isometric()), second = project(scene, View::isometric());
  ASSERT_EQ(first.curves.size(), second.curves.size());
  for (size_t i = 0; i < first.curves.size(); ++i)
    EXPECT_EQ(flattened(first.curves[i].shape, 0.1), flattened(second.curves[i].shape, 0.1));
}

TEST(Flat, BoxesLengthsAndPlacingAgreeWithDensePoints) {
  const std::vector<FlatShape> all = {
      FlatLine{{1, 2}, {4, 6}},
      FlatArc{{3, -2}, 5, Angle::degrees(200), Angle::degrees(290)},
      FlatEllipseArc{{1, 1}, {4, 3}, 0.3, Angle::degrees(40), Angle::degrees(250)},
      FlatPolyline{{{0, 0}, {3, 1}, {2, 5}}},
  };
  for (const FlatShape& shape : all) {
    double length = 0;
    const std::vector<Vec2> points = flattened(shape, 1e-7);
    Vec2 low = points[0], high = points[0];
    for (size_t i = 1; i < points.size(); ++i) {
      length += (points[i] - points[i - 1]).norm();
      low = low.cwiseMin(points[i]);
      high = high.cwiseMax(points[i]);
    }
    EXPECT_NEAR(length_mm(shape), length, 1e-5);
    const auto [box_low, box_high] = box_around(shape);
    EXPECT_NEAR((box_low - low).norm() + (box_high - high).norm(), 0, 1e-5);
    const std::vector<Vec2> moved = flattened(placed(shape, 2, Angle::degrees(90), {10, 20}), 2e-7);
    ASSERT_EQ(moved.size(), points.size());
    for (size_t i = 0; i < points.size(); ++i)
      EXPECT_NEAR((moved[i] - Vec2(10 - 2 * points[i].y(), 20 + 2 * points[i].x())).norm(), 0, 1e-9);
  }
}

}  // namespace
}  // namespace halfhard
