#include "exporters/bench/templates.h"

#include <gtest/gtest.h>

#include <set>

#include "exporters/bench/flat_stretch.h"
#include "exporters/bench/template_tiling.h"
#include "exporters/pdf/pdf.h"
#include "geometry/bending/as_cut.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

constexpr unsigned kSeed = 20260119;

TEST(FlatStretch, AFlatRunIsOneStretchAndEveryTurnOfThePlaneBeginsAnother) {
  const auto flat = support::run_through("tail", support::offset_points(200, 70, Angle::degrees(45), 200));
  ASSERT_EQ(flat_stretches(*flat).size(), 1u);
  EXPECT_EQ(flat_stretches(*flat)[0].last_bend, 2);
  // Rotations of the multi-plane run: 90, 123.7, 180: stretches 1, 2, 3 to 4.
  const auto turned = support::run_through("riser", support::multi_plane_points());
  const auto stretches = flat_stretches(*turned);
  ASSERT_EQ(stretches.size(), 3u);
  EXPECT_EQ(stretches[2].first_bend, 3);
  EXPECT_EQ(stretches[2].last_bend, 4);
  EXPECT_TRUE(stretches[0].datum_end);
  EXPECT_FALSE(stretches[0].free_end);
  EXPECT_TRUE(stretches[2].free_end);
}

TEST(FlatStretch, FlatteningKeepsEveryDistanceWithinTheStretch) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed);
  for (int i = 0; i < 100; ++i) {
    const auto run = support::run_through("pipe", support::random_points(engine, 1 + static_cast<int>(engine() % 6)));
    const CentreLine line = line_as_cut(*run);
    for (const FlatStretch& stretch : flat_stretches(*run)) {
      for (int a = stretch.first_bend; a <= stretch.last_bend; ++a)
        for (int b = stretch.first_bend; b <= stretch.last_bend; ++b) {
          const Vec3 p = line.points()[a], q = line.points()[b];
          EXPECT_NEAR((stretch.flat(p) - stretch.flat(q)).norm(), (p - q).norm(), 1e-6);
        }
    }
  }
}

// The distance from a point to the centre line, flat, by its pieces' own points: dense.
double to_centre(const std::vector<std::vector<Vec2>>& centre, const Vec2& at) {
  double best = 1e9;
  for (const auto& points : centre)
    for (size_t i = 0; i + 1 < points.size(); ++i) {
      const Vec2 way = points[i + 1] - points[i];
      const double t = std::clamp((at - points[i]).dot(way) / way.squaredNorm(), 0.0, 1.0);
      best = std::min(best, (at - points[i] - t * way).norm());
    }
  return best;
}

TEST(Templates, EdgesStandHalfTheTubeAndTheBandAToleranceMoreFromTheCentreLine) {
  const Plan plan =
      support::plan_of({support::run_through("tail", support::offset_points(200, 70, Angle::degrees(45), 200))});
  const TemplateDrawing drawing = template_drawing(plan, *plan.runs[0], flat_stretches(*plan.runs[0])[0]);
  std::vector<std::vector<Vec2>> centre;
  std::vector<std::pair<double, std::vector<Vec2>>> lines;
  for (const Entity& entity : drawing.entities) {
    const std::vector<Vec2> points = points_of(entity);
    if (points.empty()) continue;
    const Pen pen =
        std::holds_alternative<ArcCurve>(entity) ? std::get<ArcCurve>(entity).pen : std::get<Polyline>(entity).pen;
    if (pen.layer == Layer::centre) centre.push_back(points);
    if (pen.layer == Layer::hidden) lines.push_back({7.5 + 3, points});
    if (pen.layer == Layer::outline && std::holds_alternative<ArcCurve>(entity)) lines.push_back({7.5, points});
  }
  ASSERT_EQ(centre.size(), 5u);  // three straights and two bends
  ASSERT_EQ(lines.size(), 10u + 4u);
  for (const auto& [apart, points] : lines)
    for (const Vec2& point : points) EXPECT_NEAR(to_centre(centre, point), apart, 0.01);
}

TEST(Templates, AMarkStandsItsDistanceAlongTheTubeFromTheDatumEnd) {
  support::RunOptions options;
  options.datum_spare_mm = 40;
  options.bender.mark_offset_mm = 9;
  const Plan plan = support::plan_of({support::run_through("elbow", support::single_bend_points(), options)});
  const FlatStretch stretch = flat_stretches(*plan.runs[0])[0];
  // The curve starts at 260 from the cut end, the mark is 9 into it.
  const Vec3 expected = line_as_cut(*plan.runs[0]).point_at(269);
  EXPECT_NEAR(plan.runs[0]->bends[0].mark_mm, 309, 1e-9);
  bool found = false;
  for (const Entity& entity : template_drawing(plan, *plan.runs[0], stretch).entities) {
    const Polyline* line = std::get_if<Polyline>(&entity);
    if (line == nullptr || line->pen.layer != Layer::mark || line->pen.style != LineStyle::continuous) continue;
    found = true;
    EXPECT_LT(((line->points[0] + line->points[1]) / 2 - stretch.flat(expected)).norm(), 1e-9);
  }
  EXPECT_TRUE(found);
}

TEST(Templates, AFailingRunHasNoMarksAndSaysWhy) {
  Plan plan = support::plan_of({support::run_through("elbow", support::single_bend_points())});
  plan.findings.push_back({"clearance", Severity::fail, "elbow", "elbow meets the trap.", -2, 0, "mm", "", ""});
  const std::vector<Sheet> sheets = template_sheets(plan, *plan.runs[0]);
  ASSERT_EQ(sheets.size(), 1u);
  bool says = false;
  for (const Entity& entity : sheets[0].entities) {
    if (const Text* text = std::get_if<Text>(&entity)) {
      says = says || text->content == "NOT TO BE MADE: elbow meets the trap.";
      EXPECT_EQ(text->content.find("mark of bend"), std::string::npos);
    }
  }
  EXPECT_TRUE(says);
}

double length_of(const std::vector<Vec2>& points) {
  double length = 0;
  for (size_t i = 0; i + 1 < points.size(); ++i) length += (points[i + 1] - points[i]).norm();
  return length;
}

double centre_length(const std::vector<Sheet>& sheets) {
  double length = 0;
  for (const Sheet& sheet : sheets)
    for (const Entity& entity : sheet.entities) {
      const Polyline* line = std::get_if<Polyline>(&entity);
      const ArcCurve* arc = std::get_if<ArcCurve>(&entity);
      if ((line != nullptr && line->pen.layer == Layer::centre) || (arc != nullptr && arc->pen.layer == Layer::centre))
        length += length_of(points_of(entity));
    }
  return length;
}

TEST(Templates, PagesCoverTheWholeShapeAndRepeatOnlyTheOverlap) {
  // Straight up, 90, straight along: 315 + 400 - gain on A4; one page's window is 190 x 255 at most.
  const Plan plan = support::plan_of({support::run_through("elbow", support::single_bend_points())});
  const double whole = centre_length(template_sheets(plan, *plan.runs[0]));
  EXPECT_NEAR(whole, plan.runs[0]->cut_length_mm, 0.02);
  for (const SheetSize& paper : {kA4Upright, kA4Lying, kA3Lying}) {
    const std::vector<Sheet> pages = template_tiles(plan, *plan.runs[0], paper);
    const double tiled = centre_length(pages);
    EXPECT_GE(tiled, whole - 0.02);
    EXPECT_LE(tiled, whole + 20.0 * static_cast<double>(pages.size()));
    for (const Sheet& page : pages) {
      EXPECT_EQ(page.scale, 1);
      for (const Entity& entity : page.entities)
        for (const Vec2& point : points_of(entity)) {
          EXPECT_GE(point.x(), 10 - 1e-6);
          EXPECT_LE(point.x(), page.size.width_mm - 10 + 1e-6);
          EXPECT_GE(point.y(), 10 - 1e-6);
          EXPECT_LE(point.y(), page.size.height_mm - 10 + 1e-6);
        }
    }
  }
}

TEST(Templates, EveryMarkSaysThatItIsTakenFromTheDatumEnd) {
  auto run = support::run_through("tail", support::offset_points(200, 70, Angle::degrees(45), 200));
  run->marking = Marking::each;  // on the card the second is taped from the first bend
  const Plan plan = support::plan_of({run});
  std::string words;
  for (const Label& label : template_drawing(plan, *plan.runs[0], flat_stretches(*plan.runs[0])[0]).labels)
    words += label.text + "\n";
  EXPECT_NE(words.find("mark of bend 1, 192 mm from the start end"), std::string::npos) << words;
  EXPECT_NE(words.find("mark of bend 2, 289 mm from the start end"), std::string::npos) << words;
}

TEST(Templates, NoPageHoldsASliverOrNoPartOfThePiece) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed);
  for (int i = 0; i < 30; ++i) {
    const auto run = support::run_through("pipe", support::random_points(engine, 3));
    const Plan plan = support::plan_of({run});
    for (const FlatStretch& stretch : flat_stretches(*plan.runs[0])) {
      const TemplateDrawing drawing = template_drawing(plan, *plan.runs[0], stretch);
      const Tiling tiles = tiling(drawing, {190, 252}, 10);
      for (const PageWindow& page : tiles.pages) {
        double length = 0;
        for (const Entity& entity : drawing.entities) {
          const std::vector<Vec2> points = points_of(entity);
          for (size_t k = 0; belongs_to_piece(entity) && k + 1 < points.size(); ++k) {
            Vec2 from = points[k], to = points[k + 1];
            if (clip(page.low, page.high, from, to)) length += (to - from).norm();
          }
        }
        EXPECT_GT(length, 40);  // two edges, two dashed lines and the centre line of 10 mm and more
      }
    }
  }
}

TEST(Templates, ALongStraightIsBrokenOnPagesAndSaysItsTrueLength) {
  const Plan plan = support::plan_of({support::run_through("long", {{0, 0, 0}, {0, 0, 1500}, {300, 0, 1500}})});
  const FlatStretch whole = flat_stretches(*plan.runs[0])[0];
  const FlatStretch broken = cut_short(*plan.runs[0], whole, 420);
  ASSERT_EQ(broken.breaks.size(), 1u);
  EXPECT_NEAR(broken.breaks[0].straight_mm, 1460, 1e-9);  // 1500 and 15 in the fitting, less the setback
  double length = 0;
  for (const Piece& piece : broken.pieces) length += piece.length_mm;
  const double gap = (broken.breaks[0].to - broken.breaks[0].from).norm();
  EXPECT_NEAR(length + gap + broken.breaks[0].cut_out_mm, plan.runs[0]->cut_length_mm, 1e-9);
  std::string words;
  int marks = 0;
  const std::vector<Sheet> pages = template_tiles(plan, *plan.runs[0], kA4Upright);
  for (const Sheet& page : pages)
    for (const Entity& entity : page.entities) {
      if (const auto* text = std::get_if<Text>(&entity)) words += text->content + "\n";
      const auto* line = std::get_if<Polyline>(&entity);
      marks += line != nullptr && line->pen.layer == Layer::mark && line->pen.style == LineStyle::continuous;
    }
  EXPECT_LE(pages.size(), 4u);
  EXPECT_NE(words.find("this straight is 1460 mm long"), std::string::npos) << words;
  EXPECT_GE(marks, 1);
  // A plotter's sheet shows it whole.
  EXPECT_NEAR(centre_length(template_sheets(plan, *plan.runs[0])), plan.runs[0]->cut_length_mm, 0.02);
}

TEST(Templates, TheNextPieceOfABankIsDrawnWhereItLies) {
  auto first = support::run_through("tail 1", support::offset_points(200, 70, Angle::degrees(45), 200));
  first->bank = 0;
  first->piece = 1;
  auto second = std::make_shared<halfhard::Run>(*first);
  second->name = "tail 2";
  second->piece = 2;
  second->line = first->line.moved({-60, 0, 0});
  Plan plan = support::plan_of({first, second});
  plan.banks.push_back({"tail", 2, Vec3(-60, 0, 0), false, {0, 1}, ""});
  const TemplateDrawing drawing = template_drawing(plan, *plan.runs[0], flat_stretches(*plan.runs[0])[0]);
  double spacing = 0;
  for (const Entity& entity : drawing.entities) {
    const Polyline* line = std::get_if<Polyline>(&entity);
    const ArcCurve* arc = std::get_if<ArcCurve>(&entity);
    if ((line != nullptr && line->pen.layer == Layer::fixture) || (arc != nullptr && arc->pen.layer == Layer::fixture))
      spacing += length_of(points_of(entity));
  }
  EXPECT_NEAR(spacing, plan.runs[1]->cut_length_mm, 0.02);
}

TEST(Templates, NoLabelIsLostBetweenTwoPages) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed);
  const auto labels = [](const std::vector<Sheet>& sheets) {
    std::set<std::string> found;
    for (const Sheet& sheet : sheets)
      for (const Entity& entity : sheet.entities) {
        const Text* text = std::get_if<Text>(&entity);
        if (text != nullptr && text->clears_ground) found.insert(text->content);
      }
    return found;
  };
  for (int i = 0; i < 30; ++i) {
    const Plan plan = support::plan_of({support::run_through("pipe", support::random_points(engine, 4))});
    EXPECT_EQ(labels(template_tiles(plan, *plan.runs[0], kA4Upright)), labels(template_sheets(plan, *plan.runs[0])));
  }
}

TEST(Templates, AnEndlessRunIsNotTiled) {
  const Plan plan = support::plan_of({support::run_through("mile", {{0, 0, 0}, {0, 0, 5e7}, {5e7, 0, 5e7}})});
  const TemplateDrawing whole = template_drawing(plan, *plan.runs[0], flat_stretches(*plan.runs[0])[0]);
  EXPECT_TRUE(tiling(whole, {190, 252}, 10).too_many);
  // Broken it is a bend with two short ends.
  EXPECT_LE(template_tiles(plan, *plan.runs[0], kA4Upright).size(), 4u);
}

TEST(Templates, TheBarIsAHundredMillimetres) {
  const std::vector<Entity> bar = hundred_bar({5, 5}, LengthUnit::mm);
  EXPECT_EQ(length_of(points_of(bar[0])), 100);
}

TEST(Templates, TheSamePlanGivesTheSameBytes) {
  const Plan plan = support::plan_of({support::run_through("riser", support::multi_plane_points())});
  EXPECT_EQ(pdf({"t", template_tiles(plan, *plan.runs[0], kA4Upright)}),
            pdf({"t", template_tiles(plan, *plan.runs[0], kA4Upright)}));
}

}  // namespace
}  // namespace halfhard
