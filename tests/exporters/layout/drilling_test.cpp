// Drilling sheets: the figures are those of the plan, from the edges that they name.
#include "exporters/drilling/drilling.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "exporters/arrangement/lists.h"
#include "exporters/drilling/joist_zones.h"
#include "exporters/dxf/dxf.h"
#include "exporters/layout/drilled_face.h"
#include "exporters/sheet/clashes.h"
#include "tests/exporters/layout/site.h"

namespace halfhard {
namespace {

bool says(const Sheet& sheet, const std::string& part) {
  const std::vector<TextBox> boxes = text_boxes(sheet);
  return std::any_of(boxes.begin(), boxes.end(),
                     [&](const TextBox& box) { return box.content.find(part) != std::string::npos; });
}

std::vector<double> dimensions_on(const Sheet& sheet) {
  std::vector<double> all;
  for (const Entity& entity : sheet.entities)
    if (const auto* dimension = std::get_if<Dimension>(&entity)) all.push_back(measured(*dimension));
  std::sort(all.begin(), all.end());
  return all;
}

template <class Shape>
std::vector<Shape> on_layer(const Sheet& sheet, Layer layer) {
  std::vector<Shape> found;
  for (const Entity& entity : sheet.entities)
    if (const auto* shape = std::get_if<Shape>(&entity); shape && shape->pen.layer == layer) found.push_back(*shape);
  return found;
}

Plan joist_plan(double y) {
  Plan plan = support::plan_of({support::run_through("flow", {{0, y, 2400}, {1000, y, 2400}, {1000, y, 2700}})});
  plan.fixtures.push_back(support::joist());
  plan.drillings.push_back({"flow", "joist", {376.5, y, 2400}, Vec3::UnitX(), 19, 47});
  return plan;
}

Plan wall_plan(const Vec3& hole) {
  Plan plan = support::plan_of({support::run_through("waste", {hole - Vec3(0, 300, 0), hole + Vec3(0, 200, 0)})});
  plan.fixtures.push_back(support::fixture("wall", HalfSpace{{0, hole.y(), 0}, -Vec3::UnitY()}, FixtureKind::plane));
  plan.drillings.push_back({"waste", "wall", hole, Vec3::UnitY(), 46, 100});
  plan.drillings.push_back({"waste", "wall", hole + Vec3(120, 0, 60), Vec3::UnitY(), 46, 100});
  return plan;
}

TEST(DrilledFace, HolesAreFromTheLeftAndLowerEdgeAsSeenFromTheFront) {
  const std::vector<DrilledFace> faces = drilled_faces(support::bank_plan(8));
  ASSERT_EQ(faces.size(), 1u);
  EXPECT_EQ(faces[0].seen_from, "the front");
  EXPECT_NEAR((faces[0].size - Vec2(900, 600)).norm(), 0, 1e-9);
  ASSERT_EQ(faces[0].holes.size(), 8u);
  for (int i = 0; i < 8; ++i)  // the panel runs from x -100, z -50
    EXPECT_NEAR((faces[0].holes[static_cast<size_t>(i)].at - Vec2(100 + 100 * i, 300)).norm(), 0, 1e-9);
}

TEST(DrilledFace, AHoleFromBehindStandsWhereItComesOut) {
  Plan plan = support::bank_plan(1);
  // Through the panel at a slant, entered from behind: out 18 mm farther on at 45 degrees.
  plan.drillings = {{"tail 1", "panel", {200, 118, 250}, Vec3(1, -1, 0).normalized(), 19, 18}};
  const std::vector<DrilledFace> faces = drilled_faces(plan);
  ASSERT_EQ(faces.size(), 1u);
  EXPECT_NEAR((faces[0].holes[0].at - Vec2(318, 300)).norm(), 0, 1e-9);
  EXPECT_NEAR(faces[0].holes[0].tilt.degrees(), 45, 1e-9);
}

TEST(DrilledFace, OfTwoSidesTheOneWithMoreRoomBeforeIt) {
  Plan plan = support::bank_plan(2);  // the panel stands 100 before a wall
  plan.fixtures.push_back(support::fixture("wall", HalfSpace{{0, 218, 0}, -Vec3::UnitY()}, FixtureKind::plane));
  for (const Vec3& way : {Vec3(Vec3::UnitY()), Vec3(-Vec3::UnitY())}) {
    plan.drillings = {{"tail 1", "panel", {0, way.y() > 0 ? 100.0 : 118.0, 250}, way, 19, 18}};
    EXPECT_EQ(drilled_faces(plan)[0].seen_from, "the front");
  }
  // A cupboard's back 60 before it: from behind, where there is more.
  plan.fixtures.push_back(support::fixture("cupboard", Box{{0, 30, 250}, Mat3::Identity(), {900, 10, 300}}));
  EXPECT_EQ(drilled_faces(plan)[0].seen_from, "the back");
  EXPECT_EQ(measured_from(drilled_faces(plan)[0], 0), "right edge");
  EXPECT_EQ(zero_of(drilled_faces(plan)[0]), "lower right corner");
}

TEST(DrilledFace, BoardsOverACeilingAreDrilledFromAboveWhicheverWayThePipeGoes) {
  Plan plan = joist_plan(900);
  plan.fixtures.push_back(support::fixture("boards", Box{{500, 1500, 2484}, Mat3::Identity(), {900, 1500, 9}}));
  plan.fixtures.push_back(support::fixture("ceiling", HalfSpace{{0, 0, 2325}, Vec3::UnitZ()}, FixtureKind::plane));
  plan.drillings = {{"flow", "boards", {1000, 900, 2475}, Vec3::UnitZ(), 19, 18}};
  const std::vector<DrilledFace> faces = drilled_faces(plan);
  ASSERT_EQ(faces.size(), 1u);
  EXPECT_EQ(faces[0].seen_from, "above");
  EXPECT_EQ(zero_of(faces[0]), "front left corner");
  EXPECT_NEAR((faces[0].holes[0].at - Vec2(1400, 900)).norm(), 0, 1e-9);
}

TEST(DrilledFace, AJoistIsMeasuredFromASupportThatIsNamed) {
  const Plan plan = joist_plan(900);
  const std::vector<DrilledFace> faces = drilled_faces(plan);
  ASSERT_EQ(faces.size(), 1u);
  EXPECT_EQ(faces[0].seen_from, "the left");
  EXPECT_EQ(measured_from(faces[0], 0), "back support");
  EXPECT_NEAR(faces[0].holes[0].at.x(), 3000 - 900, 1e-9);
  EXPECT_TRUE(says(drilling_papers(plan)[0].sheet, "Centres are from the back support and the lower edge"));
}

TEST(Drilling, TheArrangementsListAndTheSheetSayTheSame) {
  for (const Plan& plan : {support::bank_plan(2), joist_plan(900), wall_plan({700, 50, 900})}) {
    const std::vector<DrilledFace> faces = drilled_faces(plan);
    const Table table = list_of_holes(plan).table;
    const std::vector<DrillingPaper> papers = drilling_papers(plan);
    ASSERT_EQ(table.rows.size(), plan.drillings.size() + 1);
    for (size_t i = 0; i < faces.size(); ++i) {
      EXPECT_TRUE(says(papers[i].sheet, "drilled and seen from " + faces[i].seen_from));
      for (const DrilledHole& hole : faces[i].holes) {
        const auto& row = table.rows[static_cast<size_t>(hole.drilling) + 1];
        EXPECT_EQ(row[3], "from " + faces[i].seen_from);
        for (const int axis : {0, 1}) {
          const std::string figure = row[static_cast<size_t>(4 + axis)];
          EXPECT_TRUE(says(papers[i].sheet, figure.substr(0, figure.find(' ')))) << figure;
          EXPECT_TRUE(says(papers[i].sheet, measured_from(faces[i], axis))) << figure;
          EXPECT_NE(figure.find(measured_from(faces[i], axis)), std::string::npos) << figure;
        }
      }
    }
  }
}

TEST(DrilledFace, AnEndlessWallIsMeasuredFromTheJobsOrigin) {
  const std::vector<DrilledFace> faces = drilled_faces(wall_plan({700, 50, 900}));
  ASSERT_EQ(faces.size(), 1u);
  EXPECT_EQ(faces[0].zero, FaceZero::job_origin);
  EXPECT_NEAR((faces[0].holes[0].at - Vec2(700, 900)).norm(), 0, 1e-9);
}

TEST(DrilledFace, FarFromTheOriginAnotherHoleIsMeasuredFrom) {
  const Plan plan = wall_plan({9000, 50, 900});
  const std::vector<DrilledFace> faces = drilled_faces(plan);
  ASSERT_EQ(faces.size(), 1u);
  EXPECT_EQ(faces[0].zero, FaceZero::hole);
  EXPECT_NEAR(faces[0].holes[0].at.norm(), 0, 1e-9);
  EXPECT_NEAR((faces[0].holes[1].at - Vec2(120, 60)).norm(), 0, 1e-9);
  EXPECT_TRUE(says(drilling_papers(plan)[0].sheet, "centres are from hole H1"));
}

TEST(Drilling, NothingDrilledNoPaper) {
  Plan plan = support::bank_plan(2);
  plan.drillings.clear();
  EXPECT_TRUE(drilling_papers(plan).empty());
}

TEST(Drilling, EverySheetIsHeadedByTheWarning) {
  for (const Plan& plan : {support::bank_plan(8), joist_plan(900), wall_plan({700, 50, 900})})
    for (const DrillingPaper& paper : drilling_papers(plan))
      EXPECT_TRUE(says(paper.sheet, "FIND CABLES AND PIPES FIRST"));
}

TEST(Drilling, DimensionsMeasureWhatTheHolesStandAt) {
  const std::vector<double> measured = dimensions_on(drilling_papers(support::bank_plan(8))[0].sheet);
  ASSERT_EQ(measured.size(), 9u);  // eight places across, one height
  const std::vector<double> wanted = {100, 200, 300, 300, 400, 500, 600, 700, 800};
  for (size_t i = 0; i < 9; ++i) EXPECT_NEAR(measured[i], wanted[i], 1e-9);
}

TEST(Drilling, TheTrueSizeFaceHasItsCornerAtZeroAndItsHolesInPlace) {
  const Sheet sheet = drilling_papers(support::bank_plan(3))[0].true_size;
  EXPECT_EQ(sheet.scale, 1);
  const std::vector<ArcCurve> holes = on_layer<ArcCurve>(sheet, Layer::mark);
  ASSERT_EQ(holes.size(), 3u);
  EXPECT_NEAR((holes[1].centre - Vec2(200, 300)).norm(), 0, 1e-9);
  EXPECT_NEAR(holes[1].radius, 9.5, 1e-9);
  Vec2 low = Vec2::Constant(1e9), high = -low;
  for (const Polyline& line : on_layer<Polyline>(sheet, Layer::outline)) {
    for (const Vec2& p : line.points) {
      low = low.cwiseMin(p);
      high = high.cwiseMax(p);
    }
  }
  EXPECT_NEAR(low.norm(), 0, 1e-9);
  EXPECT_NEAR((high - Vec2(900, 600)).norm(), 0, 1e-9);
  EXPECT_NE(dxf(sheet).find("CIRCLE"), std::string::npos);
}

TEST(Drilling, NoTextStandsOnAnother) {
  Plan tilted = support::bank_plan(4);
  tilted.drillings[1].direction = Vec3(0.3, 1, 0.2).normalized();
  tilted.findings.push_back({"joist", Severity::fail, "tail 1", "tail 1 cannot be bent", 0, 0, "", "", ""});
  for (const Plan& plan : {support::bank_plan(8), joist_plan(900), joist_plan(2900), wall_plan({700, 50, 900}),
                           wall_plan({9000, 50, 900}), tilted}) {
    for (const DrillingPaper& paper : drilling_papers(plan)) {
      for (const Clash& clash : text_clashes(paper.sheet))
        ADD_FAILURE() << paper.name << ": '" << clash.first << "' over '" << clash.second << "'";
      for (const Clash& clash : line_clashes(paper.sheet))
        ADD_FAILURE() << paper.name << ": '" << clash.first << "' on " << clash.second << " " << clash.at.transpose();
    }
  }
}

TEST(Drilling, AFailingRunsHolesAreNotToBeMade) {
  Plan plan = support::bank_plan(2);
  plan.findings.push_back({"clearance", Severity::fail, "tail 2", "tail 2 runs into trap 2", -3, 10, "mm", "", ""});
  EXPECT_TRUE(says(drilling_papers(plan)[0].sheet, "NOT TO BE MADE: tail 2 runs into trap 2"));
}

// LABC, Approved Document A method: span 3.0 m, depth 150: notch 210 to 750, 18.8 deep; hole 750 to 1200, 37.5.
TEST(JoistRules, MetricZonesAreThePublishedOnes) {
  const JoistRules rules = joist_rules(3000, 150, LengthUnit::mm, Rules());
  ASSERT_EQ(rules.zones.size(), 4u);
  EXPECT_NEAR(rules.zones[0].low.x(), 750, 1e-9);
  EXPECT_NEAR(rules.zones[0].high.x(), 1200, 1e-9);
  EXPECT_NEAR(rules.zones[0].high.y() - rules.zones[0].low.y(), 37.5, 1e-9);
  EXPECT_NEAR((rules.zones[0].high.y() + rules.zones[0].low.y()) / 2, 75, 1e-9);
  EXPECT_NEAR(rules.zones[1].low.x(), 1800, 1e-9);  // and from the other support
  EXPECT_TRUE(rules.zones[2].notch);
  EXPECT_NEAR(rules.zones[2].low.x(), 210, 1e-9);
  EXPECT_NEAR(rules.zones[2].high.x(), 750, 1e-9);
  EXPECT_NEAR(150 - rules.zones[2].low.y(), 18.75, 1e-9);
  std::string all;
  for (const std::string& sentence : rules.sentences) all += sentence;
  EXPECT_NE(all.find("LABC"), std::string::npos);
  EXPECT_NE(all.find("NHBC 6.4.18"), std::string::npos);
  EXPECT_NE(all.find("18.5"), std::string::npos);  // a limit is not rounded up
}

TEST(JoistRules, ShadeWhatTheJobAllows) {
  Rules rules;
  set_limit(rules, *find_limit("joist_hole_from"), 0.3, "engineer's note");
  set_limit(rules, *find_limit("joist_least_depth"), 160, "engineer's note");
  EXPECT_TRUE(joist_rules(3000, 150, LengthUnit::mm, rules).zones.empty());
  const JoistRules deep = joist_rules(3000, 200, LengthUnit::mm, rules);
  ASSERT_FALSE(deep.zones.empty());
  EXPECT_NEAR(deep.zones[0].low.x(), 900, 1e-9);
  EXPECT_NE(deep.sentences[0].find("set in this job"), std::string::npos);
}

TEST(JoistRules, AShallowJoistIsLeftWhole) {
  EXPECT_TRUE(joist_rules(2000, 100, LengthUnit::mm, Rules()).zones.empty());
}

// IRC R502.8.1: 2x10 (9.25 in deep): notch 1.54 in, hole 3.08 in, 2 in from edges.
TEST(JoistRules, InchZonesAreThePublishedOnes) {
  const JoistRules rules = joist_rules(3000, 9.25 * 25.4, LengthUnit::inch, Rules());
  ASSERT_EQ(rules.zones.size(), 3u);
  EXPECT_NEAR(rules.zones[0].low.y(), 50.8, 1e-9);
  EXPECT_NEAR(rules.zones[1].high.x(), 1000, 1e-9);
  EXPECT_NEAR((9.25 * 25.4 - rules.zones[1].low.y()) / 25.4, 1.54, 0.005);
}

}  // namespace
}  // namespace halfhard
