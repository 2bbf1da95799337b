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
#include "geometry/check_dimension.h"
#include "tests/sheets/readers.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

Plan plan_through(const std::vector<Vec3>& points) {
  auto run = support::run_through("tail", points);
  fill_check_dimensions(*run, 3);
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
      EXPECT_TRUE(text->content.ends_with(" from the datum end")) << text->content;
    }
  }
  EXPECT_EQ(marks, static_cast<int>(plan.runs[0]->bends.size()));
}

}  // namespace
}  // namespace halfhard
