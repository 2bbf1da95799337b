#include "viewer/draw_plan.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/viewer/sample_plan.h"
#include "viewer/draw_bending.h"
#include "viewer/pick.h"
#include "viewer/view_frame.h"

namespace halfhard {
namespace {

TEST(DrawPlan, PartsThatDidNotChangeAreTheSameObjectsAgain) {
  Plan plan = support::furnished_plan();
  PlanDrawer drawer;
  const Drawn first = drawer.draw(plan, {});
  auto changed = std::make_shared<halfhard::Run>(*plan.runs[1]);
  plan.runs[1] = changed;
  const Drawn second = drawer.draw(plan, {});
  EXPECT_EQ(first.parts[0], second.parts[0]);
  EXPECT_NE(first.parts[1], second.parts[1]);
}

TEST(DrawPlan, AFailingPairCarriesBandsAndASign) {
  PlanDrawer drawer;
  const Drawn drawn = drawer.draw(support::furnished_plan(), {});
  EXPECT_TRUE(std::any_of(drawn.parts.begin(), drawn.parts.end(),
                          [](const auto& part) { return part->kind == PartKind::failing; }));
  EXPECT_TRUE(std::any_of(drawn.labels.begin(), drawn.labels.end(),
                          [](const Label& label) { return label.kind == LabelKind::failing; }));
  EXPECT_TRUE(drawn.failing);
}

std::vector<std::string> texts(const Drawn& drawn, LabelKind kind) {
  std::vector<std::string> all;
  for (const Label& label : drawn.labels)
    if (label.kind == kind) all.push_back(label.text);
  return all;
}

TEST(DrawPlan, OnlyTheChosenPipeAndTheOneUnderTheMouseCarryBendNumbers) {
  const Plan plan = support::furnished_plan();
  PlanDrawer drawer;
  DrawOptions options;
  options.chosen = plan.runs[0]->name;
  EXPECT_EQ(texts(drawer.draw(plan, options), LabelKind::bend).size(), plan.runs[0]->bends.size());
  options.hovered = plan.runs[1]->name;
  EXPECT_EQ(texts(drawer.draw(plan, options), LabelKind::bend).size(),
            plan.runs[0]->bends.size() + plan.runs[1]->bends.size());
  options.hovered.clear();
  options.chosen = "trap";
  EXPECT_TRUE(texts(drawer.draw(plan, options), LabelKind::bend).empty());
}

Plan bank_of_eight() {
  Plan plan = support::plan_of({});
  for (int piece = 1; piece <= 8; ++piece) {
    const double x = 300.0 * piece;
    auto run = std::make_shared<halfhard::Run>(
        *support::run_through("tail " + std::to_string(piece), {{x, 0, 0}, {x, 0, 300}, {x, 200, 300}, {x, 200, 700}}));
    run->family = "tail";
    plan.runs.push_back(run);
    plan.fixtures.push_back(support::fixture("trap " + std::to_string(piece), FixtureKind::cylinder,
                                             Cylinder{{x + 100, 0, 0}, {x + 100, 0, 100}, 30}));
    Clearance gap;
    gap.first = run->name;
    gap.second = "trap " + std::to_string(piece);
    gap.distance_mm = 62.5;
    plan.clearances.push_back(gap);
  }
  return plan;
}

TEST(DrawPlan, AlikePiecesAndEqualGapsAreSaidOnce) {
  PlanDrawer drawer;
  const Drawn drawn = drawer.draw(bank_of_eight(), {});
  EXPECT_EQ(texts(drawn, LabelKind::run), std::vector<std::string>{"8 \u00D7 tail"});
  EXPECT_EQ(texts(drawn, LabelKind::fixture), std::vector<std::string>{"8 \u00D7 trap"});
  EXPECT_EQ(texts(drawn, LabelKind::clearance).size(), 1u);
  EXPECT_LE(drawn.labels.size(), 13u);
}

TEST(DrawPlan, WhatFailsAtOnePlaceIsOneSignWithACount) {
  Plan plan = support::furnished_plan();
  for (const double off : {0.0, 5.0, 9.0}) {
    Finding finding;
    finding.id = "short-end";
    finding.severity = Severity::fail;
    finding.where = "cold tail";
    finding.message = "too short by " + std::to_string(off);
    finding.at = Vec3(230, 460 + off, 480);
    plan.findings.push_back(finding);
  }
  PlanDrawer drawer;
  const auto signs = texts(drawer.draw(plan, {}), LabelKind::failing);
  EXPECT_EQ(signs.size(), 2u) << "the pair that is too near, and the three at the bend";
  EXPECT_TRUE(std::any_of(signs.begin(), signs.end(),
                          [](const std::string& sign) { return sign.find("+ 2 more here") != std::string::npos; }));
  EXPECT_TRUE(std::any_of(signs.begin(), signs.end(), [](const std::string& sign) {
    return sign.find("hot tail to trap") == 0;
  })) << "both parties are named";
}

TEST(DrawPlan, TheViewIsFittedToThePipesNotToWhatStandsAboutThem) {
  Plan plan = support::furnished_plan();
  plan.fixtures.push_back(
      support::fixture("cupboard", FixtureKind::box, Box{{0, 0, 0}, Mat3::Identity(), {5000, 5000, 5000}}));
  PlanDrawer drawer;
  Bounds framed;
  for (const Vec3& place : drawer.draw(plan, {}).framing) framed.add(place);
  EXPECT_LT((framed.high - framed.low).norm(), 1000);
}

TEST(Pick, AWallBetweenTheEyeAndThePipesIsNotMet) {
  const Plan plan = support::furnished_plan();
  PlanDrawer drawer;
  const Drawn drawn = drawer.draw(plan, {});
  // The trap, from behind the wall and from the room.
  const auto from_behind = pick(drawn, {{300, 5000, 560}, -Vec3::UnitY()}, std::nullopt);
  ASSERT_TRUE(from_behind);
  EXPECT_NE(from_behind->name, "wall");
}

TEST(Pick, ASightAtAPlaceOnAPipeMeetsItThere) {
  const Plan plan = support::furnished_plan();
  PlanDrawer drawer;
  const Drawn drawn = drawer.draw(plan, {});
  const halfhard::Run& run = *plan.runs[1];
  for (const NamedView view : {NamedView::elevation, NamedView::isometric}) {
    const ViewFrame frame = fitted_view(view, drawn.framing, 1280, 720);
    const Vec3 place = run.line.point_at(60);
    const Projected seen = project(frame, 1280, 720, place);
    const auto picked = pick(drawn, sight_through(frame, 1280, 720, seen.x, seen.y, 5000), std::nullopt);
    ASSERT_TRUE(picked);
    EXPECT_EQ(picked->name, run.name);
    EXPECT_NEAR(picked->along_mm, 60, 12);
    EXPECT_LT((picked->at - place).norm(), 15);
  }
}

TEST(DrawBending, EveryMomentOfEveryBendCanBeDrawn) {
  const auto run = support::run_through("pipe", support::multi_plane_points());
  for (int step = 1; step <= static_cast<int>(run->bends.size()); ++step)
    for (const double pulled : {0.0, 0.3, 1.0}) {
      const DrawnBending drawn = draw_bending(*run, {step, pulled}, LengthUnit::mm);
      EXPECT_FALSE(drawn.words.empty());
      EXPECT_GE(drawn.drawn.parts.size(), 3u);
    }
}

TEST(DrawBending, BeforeItIsTurnedTheBendMadeBeforeLiesWhereItWasPulled) {
  const auto run = support::run_through("pipe", support::multi_plane_points());
  int turned = 0;
  for (int step = 2; step <= static_cast<int>(run->bends.size()); ++step) {
    const std::string before = std::to_string(run->bends_as_made()[step - 2]->number);
    for (const double turn : {0.0, 1.0})
      for (const Label& label : draw_bending(*run, {step, 0, turn}, LengthUnit::mm).drawn.labels) {
        if (label.kind != LabelKind::bend || label.text != before) continue;
        if (turn == 0) {
          EXPECT_NEAR(label.at.z(), 0, 1e-9) << step;
          EXPECT_LT(label.at.y(), -1) << step << ": on the side that the lever swings to, towards the person";
        }
        turned += turn == 1 && std::abs(label.at.z()) > 1;
      }
  }
  EXPECT_GT(turned, 0) << "the run has bends in more than one plane";
}

TEST(DrawBending, TheWholePieceIsFramedAtEveryStep) {
  const auto run = support::run_through("pipe", support::multi_plane_points());
  const std::vector<Vec3> framing = draw_bending(*run, {1, 0}, LengthUnit::mm).drawn.framing;
  const ViewFrame frame = fitted_view(NamedView::isometric, framing, 1280, 720);
  for (int step = 1; step <= static_cast<int>(run->bends.size()); ++step) {
    const DrawnBending drawn = draw_bending(*run, {step, 1}, LengthUnit::mm);
    EXPECT_EQ(drawn.drawn.framing, framing) << "the picture stands still";
    for (const Vec3& vertex : drawn.drawn.parts.front()->layers.front().mesh.vertices) {
      const Projected at = project(frame, 1280, 720, vertex);
      EXPECT_TRUE(at.x > 0 && at.x < 1280 && at.y > 0 && at.y < 720);
    }
  }
}

TEST(DrawBending, WhatRunsIntoTheBenchIsSeenThroughItsTop) {
  // A long leg that the last bend swings downwards.
  const auto run = support::run_through(
      "pipe", {{0, 0, 0}, {0, 0, 500}, {0, 200, 500}, {300, 200, 500}, {300, 200, 800}, {300, 360, 800}});
  int met = 0, clear = 0;
  for (int step = 1; step <= static_cast<int>(run->bends.size()); ++step)
    for (const double pulled : {0.2, 1.0}) {
      const DrawnBending drawn = draw_bending(*run, {step, pulled}, LengthUnit::mm);
      const auto bench = std::find_if(drawn.drawn.parts.begin(), drawn.drawn.parts.end(),
                                      [](const auto& part) { return part->name == "bench"; });
      ASSERT_NE(bench, drawn.drawn.parts.end());
      const bool into = drawn.trouble.find("bench") != std::string::npos;
      (into ? met : clear) += 1;
      EXPECT_EQ((*bench)->layers[0].paint, into ? Paint::fixture : Paint::bench) << step << " " << pulled;
    }
  EXPECT_GT(met, 0);
  EXPECT_GT(clear, 0);
}

TEST(DrawBending, AnInchJobIsSteppedThroughInInches) {
  const auto run = support::run_through("pipe", support::multi_plane_points());
  for (const double pulled : {0.0, 1.0}) {
    const DrawnBending drawn = draw_bending(*run, {1, pulled}, LengthUnit::inch);
    std::string all = drawn.words;
    for (const Label& label : drawn.drawn.labels) all += "|" + label.text;
    EXPECT_EQ(all.find(" mm"), std::string::npos) << all;
    EXPECT_NE(all.find(" in"), std::string::npos) << all;
  }
}

TEST(DrawPlan, AnInchJobShowsItsFiguresInInches) {
  Plan plan = support::furnished_plan();
  plan.unit = LengthUnit::inch;
  PlanDrawer drawer;
  const Drawn drawn = drawer.draw(plan, {});
  for (const Label& label : drawn.labels) {
    if (label.kind != LabelKind::clearance) continue;
    EXPECT_NE(label.text.find(" in"), std::string::npos) << label.text;
  }
  EXPECT_EQ(drawn.unit, LengthUnit::inch);
}

}  // namespace
}  // namespace halfhard
