#include "exporters/step/step.h"

#include <gtest/gtest.h>
#include <BRepAdaptor_Surface.hxx>
#include <BRepBndLib.hxx>
#include <Bnd_Box.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>

#include "geometry/curve/tube_skin.h"
#include "geometry/occt/kernel_shape.h"
#include "tests/exporters/step/part21_check.h"
#include "tests/exporters/step/step_file.h"
#include "tests/geometry/occt/solids/random_lines.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

using support::plan_of;
using support::run_through;
using support::RunOptions;

std::shared_ptr<Run> multi_plane(const std::string& name) { return run_through(name, support::multi_plane_points()); }

void expect_sound(const std::string& text) {
  const Part21File file = check_part21(text);
  EXPECT_TRUE(file.faults.empty()) << file.faults.front();
}

int count_of(const Solid& solid, GeomAbs_SurfaceType type) {
  int count = 0;
  for (TopExp_Explorer at(solid.shape().shape, TopAbs_FACE); at.More(); at.Next()) {
    count += BRepAdaptor_Surface(TopoDS::Face(at.Current())).GetType() == type;
  }
  return count;
}

void expect_read_back(const Run& run) {
  const Plan plan = plan_of({std::make_shared<Run>(run)});
  const std::string text = step_of_run(plan, run);
  expect_sound(text);
  const ReadFile file = read_back(text);
  ASSERT_EQ(file.parts.size(), 1u);
  const Solid& solid = file.parts[0].solid;
  EXPECT_EQ(solid.shape().shape.ShapeType(), TopAbs_SOLID);
  EXPECT_TRUE(solid.is_valid());
  EXPECT_NEAR(solid.volume_mm3(), run.metal_volume_mm3, 1e-6 * run.metal_volume_mm3);
  const double outer = run.tube->outside_radius_mm();
  const double area = closed_form_area_mm2(run.cut_length_mm, outer, outer - run.tube->wall_mm);
  EXPECT_NEAR(solid.area_mm2(), area, 1e-6 * area);
  EXPECT_EQ(count_of(solid, GeomAbs_Torus), 2 * run.line.bend_count());
  EXPECT_EQ(count_of(solid, GeomAbs_Plane), 2);
  EXPECT_EQ(count_of(solid, GeomAbs_Torus) + count_of(solid, GeomAbs_Plane) + count_of(solid, GeomAbs_Cylinder),
            static_cast<int>(2 + 2 * tube_skin(run.line).pieces.size()));
}

Finding failing(const std::string& where, const std::string& message) {
  Finding finding;
  finding.id = "clearance";
  finding.severity = Severity::fail;
  finding.where = where;
  finding.message = message;
  return finding;
}

// `count` pieces of one shape at a step to the right, as the planner makes a bank.
Plan bank_plan(int count) {
  std::vector<std::shared_ptr<const Run>> runs;
  for (int piece = 0; piece < count; ++piece) {
    auto run = multi_plane("tail " + std::to_string(piece + 1));
    run->family = "tail";
    run->piece = piece + 1;
    run->bank = 0;
    run->slid_mm = Vec3(70.0 * piece, 0, 0);
    run->line = run->line.moved(run->slid_mm);
    runs.push_back(run);
  }
  Plan plan = plan_of(runs);
  for (auto& run : plan.runs) {
    auto copy = std::make_shared<Run>(*run);
    copy->same_as = 0;
    run = copy;
  }
  return plan;
}

TEST(Step, PipeReadsBackWithTheVolumeOfTheReport) { expect_read_back(*multi_plane("hot tail")); }

TEST(Step, RandomPipesReadBackValid) {
  const unsigned start = std::random_device{}();
  SCOPED_TRACE("random start " + std::to_string(start));
  std::mt19937 random(start);
  for (int i = 0; i < 12; ++i) expect_read_back(*run_through("pipe", support::random_points(random, 1 + i)));
}

TEST(Step, BackToBackBendsAndBendsAtTheEndsReadBackValid) {
  std::mt19937 random(8);
  for (const double straight : {0.0, 1e-6, 1e-3}) {
    for (const double rotation : {0.0, 1e-5, 0.01, 35.0, 180.0}) {
      SCOPED_TRACE(std::to_string(straight) + " turned " + std::to_string(rotation));
      RandomLine shape;
      shape.radius_mm = 55;
      shape.bends = 3;
      shape.least_straight_mm = shape.most_straight_mm = straight;
      shape.least_rotation_deg = shape.most_rotation_deg = rotation;
      shape.most_angle_deg = 80;
      RunOptions options;
      options.datum_insertion_mm = 0;
      expect_read_back(*run_through("pipe", shape.made(random).points(), options));
    }
  }
}

TEST(Step, NearlyHalfTurnsReadBackValid) {
  std::mt19937 random(9);
  for (const double angle : {0.011, 90.0, 179.0}) {
    SCOPED_TRACE(angle);
    RandomLine shape;
    shape.radius_mm = 55;
    shape.bends = 2;
    shape.least_angle_deg = shape.most_angle_deg = angle;
    expect_read_back(*run_through("pipe", shape.made(random).points()));
  }
}

TEST(Step, FarFromTheOriginReadsBackValid) {
  std::vector<Vec3> points = support::multi_plane_points();
  for (Vec3& point : points) point += Vec3(1e5, -1e5, 5e4);
  expect_read_back(*run_through("pipe", points));
}

TEST(Step, PipeStandsInTheSiteFrame) {
  const auto run = run_through("pipe", {{100, 200, 300}, {100, 200, 600}, {500, 200, 600}});
  const ReadFile file = read_back(step_of_run(plan_of({run}), *run));
  Bnd_Box box;
  BRepBndLib::AddOptimal(file.parts.at(0).solid.shape().shape, box, false, false);
  double left, front, down, right, back, up;
  box.Get(left, front, down, right, back, up);
  EXPECT_NEAR(left, 92.5, 1e-3);
  EXPECT_NEAR(right, 500, 1e-3);
  EXPECT_NEAR(front, 192.5, 1e-3);
  EXPECT_NEAR(back, 207.5, 1e-3);
  EXPECT_NEAR(down, 285, 1e-3);  // 15 mm stand inside the fitting
  EXPECT_NEAR(up, 607.5, 1e-3);
}

TEST(Step, JobIsOneAssemblyOfNamedParts) {
  const Plan plan = plan_of({multi_plane("hot tail"), run_through("cold tail", support::single_bend_points())});
  const std::string text = step_of_job(plan);
  expect_sound(text);
  const ReadFile file = read_back(text);
  EXPECT_EQ(file.assembly_name, "Basin tails, studio flat");
  ASSERT_EQ(file.parts.size(), 2u);
  EXPECT_EQ(file.parts[0].name, "hot tail");
  EXPECT_EQ(file.parts[1].name, "cold tail");
  for (int i = 0; i < 2; ++i) {
    EXPECT_TRUE(file.parts[i].solid.is_valid());
    EXPECT_NEAR(file.parts[i].solid.volume_mm3(), plan.runs[i]->metal_volume_mm3,
                1e-6 * plan.runs[i]->metal_volume_mm3);
  }
}

TEST(Step, BankedPiecesAreInstancesOfOneShape) {
  const Plan plan = bank_plan(8);
  const std::string text = step_of_job(plan);
  expect_sound(text);
  const Part21File entities = check_part21(text);
  EXPECT_EQ(halfhard::count_of(entities, "MANIFOLD_SOLID_BREP"), 1);
  EXPECT_EQ(halfhard::count_of(entities, "NEXT_ASSEMBLY_USAGE_OCCURRENCE"), 8);
  const ReadFile file = read_back(text);
  ASSERT_EQ(file.parts.size(), 8u);
  for (int piece = 0; piece < 8; ++piece) {
    EXPECT_EQ(file.parts[piece].name, "tail " + std::to_string(piece + 1));
    EXPECT_EQ(file.parts[piece].product_name, "tail");
    EXPECT_EQ(file.parts[piece].shape, file.parts[0].shape);
    Bnd_Box box, first;
    BRepBndLib::Add(file.parts[piece].solid.shape().shape, box);
    BRepBndLib::Add(file.parts[0].solid.shape().shape, first);
    EXPECT_NEAR(box.CornerMin().X() - first.CornerMin().X(), 70.0 * piece, 1e-9);
  }
}

TEST(Step, FailingRunSaysNotToBeMadeInItsPartName) {
  Plan plan = bank_plan(3);
  plan.findings.push_back(failing("tail 2", "hits the trap by 3 mm"));
  const ReadFile file = read_back(step_of_job(plan));
  EXPECT_EQ(file.parts.at(0).name, "tail 1");
  EXPECT_EQ(file.parts.at(1).name, "tail 2 - NOT TO BE MADE: hits the trap by 3 mm");
  EXPECT_EQ(file.parts.at(1).product_name, "tail - NOT TO BE MADE: tail 2: hits the trap by 3 mm");
  const ReadFile single = read_back(step_of_run(plan, *plan.runs[1]));
  EXPECT_EQ(single.parts.at(0).name, "tail 2 - NOT TO BE MADE: hits the trap by 3 mm");
  const ReadFile good = read_back(step_of_run(plan, *plan.runs[0]));
  EXPECT_EQ(good.parts.at(0).name, "tail 1");
}

TEST(Step, NamesInAnyScriptComeBack) {
  const std::vector<std::string> names = {
      "Küche \"warm\" d'eau", "温水 1", "it's \\ odd", "гаряча", "a#1;b=(2)", "ø 15 ½", "tap \xF0\x9F\x9A\xB0"};
  std::vector<std::shared_ptr<const halfhard::Run>> runs;
  for (const std::string& name : names) runs.push_back(multi_plane(name));
  const std::string text = step_of_job(plan_of(runs));
  expect_sound(text);
  const ReadFile file = read_back(text);
  ASSERT_EQ(file.parts.size(), names.size());
  for (std::size_t i = 0; i < names.size(); ++i) EXPECT_EQ(file.parts[i].name, names[i]);
}

TEST(Step, SameJobGivesTheSameBytes) {
  const Plan plan = bank_plan(3);
  EXPECT_EQ(step_of_job(plan), step_of_job(bank_plan(3)));
  EXPECT_EQ(step_of_run(plan, *plan.runs[0]), step_of_run(plan, *plan.runs[0]));
}

TEST(Step, LaggingIsAPartOfItsOwn) {
  auto run = multi_plane("hot tail");
  run->lagging_mm = 13;
  const ReadFile file = read_back(step_of_job(plan_of({run})));
  ASSERT_EQ(file.parts.size(), 2u);
  EXPECT_EQ(file.parts[1].name, "hot tail lagging");
  const double volume = closed_form_volume_mm3(run->line.length_mm(), 20.5, 7.5);
  EXPECT_NEAR(file.parts[1].solid.volume_mm3(), volume, 1e-6 * volume);
}

TEST(Step, LaggingThickerThanTheBendIsLeftOutAndSaid) {
  auto run = multi_plane("hot tail");
  run->lagging_mm = 50;
  const ReadFile file = read_back(step_of_job(plan_of({run})));
  ASSERT_EQ(file.parts.size(), 1u);
  EXPECT_NE(file.parts[0].name.find("lagging left out"), std::string::npos);
}

TEST(Step, ColoursComeBackByService) {
  RunOptions cold;
  cold.service = Service::cold;
  const Plan plan = plan_of({multi_plane("hot"), run_through("cold", support::multi_plane_points(), cold)});
  const ReadFile file = read_back(step_of_job(plan));
  EXPECT_GT(file.parts.at(0).red, file.parts[0].blue);
  EXPECT_GT(file.parts.at(1).blue, file.parts[1].red);
  EXPECT_GE(file.parts[1].red, 0);
}

std::shared_ptr<Fixture> fixture(const std::string& name, FixtureKind kind, Shape shape) {
  auto result = std::make_shared<Fixture>();
  result->name = name;
  result->kind = kind;
  result->body.shape = std::move(shape);
  return result;
}

Box turned_box(const Vec3& centre, const Vec3& half) {
  Box box;
  box.centre = centre;
  box.half = half;
  box.axes = Eigen::AngleAxisd(0.4, Vec3(1, 2, 3).normalized()).toRotationMatrix();
  return box;
}

TEST(Step, FixturesAreSolidsAtRest) {
  Plan plan = plan_of({multi_plane("hot tail")});
  Fixture drawer = *fixture("drawer", FixtureKind::box, turned_box({100, 50, 80}, {50, 40, 30}));
  drawer.body.motion = Slide{Vec3(0, -400, 0)};
  plan.fixtures.push_back(std::make_shared<Fixture>(drawer));
  plan.fixtures.push_back(fixture("trap", FixtureKind::cylinder, Cylinder{{0, 90, 10}, {80, 90, 40}, 37.5}));
  plan.fixtures.push_back(fixture("wall", FixtureKind::plane, HalfSpace{{0, 500, 0}, -Vec3::UnitY()}));
  const std::string text = step_of_job(plan);
  expect_sound(text);
  const ReadFile file = read_back(text);
  ASSERT_EQ(file.parts.size(), 4u);
  EXPECT_EQ(file.parts[1].name, "drawer");
  EXPECT_NEAR(file.parts[1].solid.volume_mm3(), 8.0 * 50 * 40 * 30, 1e-3);
  const double bar = std::numbers::pi * 37.5 * 37.5 * Vec3(80, 0, 30).norm();
  EXPECT_NEAR(file.parts[2].solid.volume_mm3(), bar, 1e-6 * bar);
  Bnd_Box box;
  BRepBndLib::Add(file.parts[3].solid.shape().shape, box);
  EXPECT_NEAR(box.CornerMin().Y(), 500, 1e-5);
  for (const ReadPart& part : file.parts) EXPECT_TRUE(part.solid.is_valid()) << part.name;
}

// A cube as triangles, outward.
TriangleBody cube(const Vec3& at, double side, bool outward = true) {
  TriangleBody body;
  for (int corner = 0; corner < 8; ++corner) {
    body.vertices.push_back(at + side * Vec3(corner & 1, (corner >> 1) & 1, (corner >> 2) & 1));
  }
  body.triangles = {{0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6}, {0, 1, 5}, {0, 5, 4},
                    {2, 6, 7}, {2, 7, 3}, {0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5}};
  if (!outward) {
    for (auto& t : body.triangles) std::swap(t[1], t[2]);
  }
  return body;
}

void append(TriangleBody& to, const TriangleBody& more) {
  const int first = static_cast<int>(to.vertices.size());
  to.vertices.insert(to.vertices.end(), more.vertices.begin(), more.vertices.end());
  for (const auto& t : more.triangles) to.triangles.push_back({t[0] + first, t[1] + first, t[2] + first});
}

TEST(Step, TrianglesBecomeSolidsWithTheirHollows) {
  TriangleBody body = cube({0, 0, 0}, 100);
  append(body, cube({20, 20, 20}, 30, false));
  append(body, cube({300, 0, 0}, 50));
  Plan plan = plan_of({multi_plane("hot tail")});
  plan.fixtures.push_back(fixture("carcass", FixtureKind::solid, std::make_shared<const TriangleBody>(body)));
  const std::string text = step_of_job(plan);
  expect_sound(text);
  const ReadFile file = read_back(text);
  ASSERT_EQ(file.parts.size(), 2u);
  EXPECT_TRUE(file.parts[1].solid.is_valid());
  EXPECT_NEAR(file.parts[1].solid.volume_mm3(), 1e6 - 27e3 + 125e3, 1e-3);
}

// A STEP body goes out as the analytic shape that it came as, standing where its fixture stands.
TEST(Step, StepBodyIsSplicedInAnalyticAndPlaced) {
  const auto pipe = multi_plane("carcass's #1; (pipe)");
  std::string data = step_of_run(plan_of({pipe}), *pipe);
  data = data.substr(data.find("DATA;") + 5);
  data = data.substr(0, data.rfind("ENDSEC;"));
  TriangleBody body = cube({0, 0, 0}, 100);
  body.exact = std::make_shared<const ExactShape>(
      ExactShape{data, {0, 1, 2}, {body.vertices[0], body.vertices[1], body.vertices[2]}});
  const Eigen::AngleAxisd turn(0.7, Vec3(1, 2, 3).normalized());
  for (Vec3& vertex : body.vertices) vertex = turn * vertex + Vec3(500, 40, 7);
  Plan plan = plan_of({multi_plane("hot tail")});
  plan.fixtures.push_back(fixture("carcass", FixtureKind::solid, std::make_shared<const TriangleBody>(body)));
  const std::string text = step_of_job(plan);
  expect_sound(text);
  const ReadFile file = read_back(text);
  ASSERT_EQ(file.parts.size(), 2u);
  EXPECT_EQ(count_of(file.parts[1].solid, GeomAbs_Torus), 2 * pipe->line.bend_count());
  EXPECT_NEAR(file.parts[1].solid.volume_mm3(), pipe->metal_volume_mm3, 1e-6 * pipe->metal_volume_mm3);
  const Vec3 end = turn * pipe->line.points().back() + Vec3(500, 40, 7);
  Bnd_Box box;
  BRepBndLib::Add(file.parts[1].solid.shape().shape, box);
  EXPECT_FALSE(box.IsOut(gp_Pnt(end.x(), end.y(), end.z())));
}

TEST(Step, BrokenEntitiesAreNotSplicedIn) {
  for (const char* data :
       {"", "#1=MANIFOLD_SOLID_BREP('',#2);", "#1=MANIFOLD_SOLID_BREP('',#1);", "#1=MANIFOLD_SOLID_BREP('",
        "#1=MANIFOLD_SOLID_BREP('',#99999999999);", "#=A();", "#1=A();#1=MANIFOLD_SOLID_BREP('');"}) {
    TriangleBody body = cube({0, 0, 0}, 100);
    body.exact = std::make_shared<const ExactShape>(
        ExactShape{data, {0, 1, 2}, {body.vertices[0], body.vertices[1], body.vertices[2]}});
    Plan plan = plan_of({multi_plane("hot tail")});
    plan.fixtures.push_back(fixture("carcass", FixtureKind::solid, std::make_shared<const TriangleBody>(body)));
    const std::string text = step_of_job(plan);
    expect_sound(text);
    EXPECT_NEAR(read_back(text).parts.at(1).solid.volume_mm3(), 1e6, 1e-3) << data;
  }
}

}  // namespace
}  // namespace halfhard
