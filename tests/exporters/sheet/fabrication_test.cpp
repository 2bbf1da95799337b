// Fabrication sheets: readable on every run, every dimension measured again by another reader.
#include "exporters/fabrication/fabrication_sheet.h"

#include <gtest/gtest.h>

#include <fstream>
#include <random>
#include <set>
#include <sstream>

#include "exporters/dxf/dxf.h"
#include "exporters/pdf/pdf.h"
#include "exporters/sheet/clashes.h"
#include "exporters/sheet/dimension.h"
#include "geometry/bending/bend_checks.h"
#include "geometry/bending/check_dimension.h"
#include "tests/exporters/sheet/readers.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

Plan plan_through(const std::vector<Vec3>& points) {
  auto run = support::run_through("tail", points);
  fill_checks(*run, 3);
  return support::plan_of({run});
}

void expect_readable(const std::vector<Sheet>& sheets) {
  for (const Sheet& sheet : sheets)
    for (const Clash& clash : text_clashes(sheet))
      ADD_FAILURE() << sheet.title << ": \"" << clash.first << "\" meets \"" << clash.second << "\" at "
                    << clash.at.transpose();
}

int dimensions_of(const Sheet& sheet) {
  int count = 0;
  for (const Entity& entity : sheet.entities) count += std::holds_alternative<Dimension>(entity);
  return count;
}

TEST(FabricationSheet, NoTextMeetsAnotherOn200RandomRuns) {
  constexpr unsigned kStart = 20260115;
  for (unsigned i = 0; i < 200; ++i) {
    SCOPED_TRACE("engine started at " + std::to_string(kStart + i));
    std::mt19937 engine(kStart + i);
    const Plan plan = plan_through(support::random_points(engine, 1 + static_cast<int>(i % 12)));
    expect_readable(fabrication_sheets(plan, *plan.runs[0]));
    if (HasFailure()) return;
  }
}

TEST(FabricationSheet, AnOffsetIsDimensionedByShiftTravelAnglesAndRadius) {
  const Plan plan = plan_through(support::offset_points(150, 70, Angle::degrees(45), 150));
  const std::vector<Sheet> sheets = fabrication_sheets(plan, *plan.runs[0]);
  support::write_scratch("offset.pdf", pdf({"offset", sheets}));
  ASSERT_EQ(sheets.size(), 1u);
  expect_readable(sheets);
  std::multiset<std::string> said;
  for (const Entity& entity : sheets[0].entities)
    if (const auto* d = std::get_if<Dimension>(&entity)) said.insert(d->text);
  for (const char* wanted : {"70", "150", "99", "370", "R55"}) EXPECT_GE(said.count(wanted), 1u) << wanted;
  EXPECT_EQ(said.count("45°"), 2u);
}

TEST(FabricationSheet, AnotherReaderMeasuresEveryDimensionAsItIs) {
  for (const auto& points : {support::offset_points(150, 70, Angle::degrees(45), 150), support::single_bend_points(),
                             support::multi_plane_points()}) {
    const Plan plan = plan_through(points);
    const Sheet sheet = fabrication_sheets(plan, *plan.runs[0])[0];
    support::write_scratch("measured.pdf", pdf({"measured", {sheet}}));
    const auto said = support::ask(support::python("measure_dxf.py") +
                                   support::write_scratch("fabrication.dxf", dxf(sheet)).string());
    EXPECT_EQ(said.status, 0) << said.text;
    std::vector<double> read;
    std::istringstream lines(said.text);
    for (std::string line; std::getline(lines, line);) {
      std::istringstream fields(line);
      std::string word;
      double kind, value, factor;
      if (fields >> word >> kind >> value >> factor && word == "dimension") read.push_back(value * factor);
    }
    ASSERT_EQ(static_cast<int>(read.size()), dimensions_of(sheet));
    ASSERT_GE(read.size(), 3u);
    std::size_t i = 0;
    for (const Entity& entity : sheet.entities)
      if (const auto* d = std::get_if<Dimension>(&entity)) {
        EXPECT_NEAR(read[i++], measured(*d), 1e-3) << d->text;
      }
  }
}

TEST(FabricationSheet, AShortPipeGoesOnA4AndALongOneOnA3) {
  for (const auto& [leg, paper] : {std::pair(90.0, "A4"), std::pair(600.0, "A3")}) {
    const Plan plan = plan_through(support::offset_points(leg, 40, Angle::degrees(40), leg));
    const std::vector<Sheet> sheets = fabrication_sheets(plan, *plan.runs[0]);
    ASSERT_EQ(sheets.size(), 1u);
    support::write_scratch(std::string("short") + paper + ".pdf", pdf({"short", sheets}));
    EXPECT_EQ(sheets[0].size.name, paper);
    expect_readable(sheets);
  }
}

TEST(FabricationSheet, EveryRunHasItsIsometricSomewhere) {
  for (unsigned start = 1; start <= 40; ++start) {
    std::mt19937 engine(start);
    const Plan plan = plan_through(support::random_points(engine, 1 + static_cast<int>(start % 8)));
    int isometrics = 0;
    for (const Sheet& sheet : fabrication_sheets(plan, *plan.runs[0]))
      for (const Entity& entity : sheet.entities)
        if (const auto* text = std::get_if<Text>(&entity)) isometrics += text->content.starts_with("Isometric");
    EXPECT_EQ(isometrics, 1) << "engine started at " << start;
  }
}

TEST(FabricationSheet, AFailingRunSaysNotToBeMadeAndWhy) {
  Plan plan = plan_through(support::single_bend_points());
  Finding finding;
  finding.id = "clearance";
  finding.severity = Severity::fail;
  finding.where = "tail";
  finding.message = "The tail is 3 mm from the trap, 10 mm are required.";
  plan.findings = {finding};
  const auto page = support::write_scratch("failing.pdf", pdf({"tail", fabrication_sheets(plan, *plan.runs[0])}));
  const auto words = support::ask("pdftotext -layout " + page.string() + " -");
  EXPECT_NE(words.text.find("NOT TO BE MADE"), std::string::npos);
  EXPECT_NE(words.text.find("3 mm from the trap"), std::string::npos);
}

std::string words_of(const Sheet& sheet) {
  std::string words;
  for (const TextBox& box : text_boxes(sheet)) words += box.content + " ";
  return words;
}

TEST(FabricationSheet, EverySheetOfAFailingRunSaysNotToBeMadeAndWhy) {
  for (unsigned start = 1; start <= 3; ++start) {
    std::mt19937 engine(start);
    Plan plan = plan_through(support::random_points(engine, 30));
    plan.findings = {{"clearance", Severity::fail, "tail", "The tail is 3 mm from the trap.", 3, 10, "mm", "", ""}};
    const std::vector<Sheet> sheets = fabrication_sheets(plan, *plan.runs[0]);
    EXPECT_GE(sheets.size(), 2u) << start;
    for (const Sheet& sheet : sheets) {
      EXPECT_NE(words_of(sheet).find("NOT TO BE MADE The tail is 3 mm from the trap."), std::string::npos) << start;
    }
    expect_readable(sheets);
  }
}

TEST(FabricationSheet, SaysThatViewsAndLegsAreFromTheMouthAndMarksFromTheTubesEnd) {
  support::RunOptions options;
  options.datum_insertion_mm = 15;
  options.free_insertion_mm = 12;
  auto run = support::run_through("tail", support::offset_points(150, 70, Angle::degrees(45), 150), options);
  fill_checks(*run, 3);
  const Plan plan = support::plan_of({run});
  const std::string words = words_of(fabrication_sheets(plan, *plan.runs[0])[0]);
  for (const char* wanted : {"mouth at start end + 15 mm in the fitting", "mouth at far end + 12 mm in the fitting",
                             "mouth at start end to bend 1", "bend 2 to mouth at far end",
                             "Marks are from the tube's cut end, 15 mm beyond the mouth."})
    EXPECT_NE(words.find(wanted), std::string::npos) << wanted << " in " << words;
}

TEST(FabricationSheet, APassoverIsDimensionedToItsCrown) {
  // Bends of 30, 60 and 30 with R 55, 60 to the intersection: the crown stands 55 (1 / cos 30 - 1) = 8.5 lower.
  const double run_up = 60 / Angle::degrees(30).tan();
  const Plan plan =
      plan_through({{0, 0, 0}, {300, 0, 0}, {300 + run_up, -60, 0}, {300 + 2 * run_up, 0, 0}, {900, 0, 0}});
  const std::vector<Sheet> sheets = fabrication_sheets(plan, *plan.runs[0]);
  support::write_scratch("passover.pdf", pdf({"passover", sheets}));
  expect_readable(sheets);
  std::multiset<std::string> said;
  for (const Entity& entity : sheets[0].entities)
    if (const auto* d = std::get_if<Dimension>(&entity)) said.insert(d->text);
  for (const char* wanted : {"51.5", "66.5 over", "60°", "R55"}) EXPECT_EQ(said.count(wanted), 1u) << wanted;
  EXPECT_EQ(said.count("60"), 0u);
  EXPECT_NE(words_of(sheets[0]).find("crown's centre line stands 51.5 mm off that of the legs."), std::string::npos);
}

// Dimension lines of one direction in one place would be taken for one.
TEST(FabricationSheet, NoDimensionLineLiesOnAnother) {
  for (unsigned start = 1; start <= 40; ++start) {
    std::mt19937 engine(start);
    const Plan plan = plan_through(support::random_points(engine, 2 + static_cast<int>(start % 9)));
    std::vector<DimensionLine> lines;
    for (const Entity& entity : fabrication_sheets(plan, *plan.runs[0])[0].entities)
      if (const auto* d = std::get_if<Dimension>(&entity); d != nullptr && d->kind == DimensionKind::linear)
        lines.push_back(line_of(*d));
    for (std::size_t i = 0; i < lines.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        const Vec2 along = (lines[i].second - lines[i].first).normalized(), across(-along.y(), along.x());
        if (std::abs(across.dot(lines[j].second - lines[j].first)) > 1e-6 ||
            std::abs(across.dot(lines[j].first - lines[i].first)) > 1)
          continue;
        const auto stretch = [&](const DimensionLine& line) {
          const double from = along.dot(line.first), to = along.dot(line.second);
          return std::pair(std::min(from, to), std::max(from, to));
        };
        const std::pair<double, double> a = stretch(lines[i]), b = stretch(lines[j]);
        EXPECT_LT(std::min(a.second, b.second) - std::max(a.first, b.first), 0.35) << "engine started at " << start;
      }
  }
}

TEST(DevelopmentSheet, IsAsLongAsTheBlankAndHasAMarkABend) {
  const Plan plan = plan_through(support::multi_plane_points());
  const Sheet sheet = development_sheet(plan, *plan.runs[0]);
  EXPECT_TRUE(text_clashes(sheet, false).empty());
  EXPECT_EQ(dimensions_of(sheet), 1);
  int marks = 0;
  for (const Entity& entity : sheet.entities) {
    if (const auto* d = std::get_if<Dimension>(&entity)) {
      EXPECT_NEAR(measured(*d), plan.runs[0]->blank_length_mm, 1e-9);
    }
    if (const auto* line = std::get_if<Polyline>(&entity)) marks += line->pen.layer == Layer::mark;
    if (const auto* text = std::get_if<Text>(&entity); text != nullptr && text->layer == Layer::mark) {
      EXPECT_TRUE(text->content.ends_with(" from the start end")) << text->content;
    }
  }
  EXPECT_EQ(marks, static_cast<int>(plan.runs[0]->bends.size()));
}

}  // namespace
}  // namespace halfhard
