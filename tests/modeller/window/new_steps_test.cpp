#include "modeller/window/document/new_steps.h"

#include "modeller/window/document/document.h"
#include "tests/modeller/window/parsed.h"

namespace halfhard {
namespace {

std::string job_with(const std::string& path) {
  return R"({ "format": "halfhard-job/1", "values": { "rise": 800 },
  "tubes": { "15 mm": { "standard": "EN 1057", "size": "15 x 0.7" } },
  "benders": { "bench": { "former_radius": 55 } },
  "runs": [ { "name": "tail", "tube": "15 mm", "bender": "bench", "from": { "at": [0, 0, 0], "towards": "up" },
    "path": )" +
         path + " } ] }";
}

Vec3 end_of(const std::string& text) {
  const Document document(text, {});
  EXPECT_TRUE(document.plan()) << text << (document.problems().empty() ? "" : document.problems().front().message());
  return document.plan() ? document.plan()->runs.front()->line.points().back() : Vec3::Zero();
}

TEST(NewSteps, AnOffsetInALegShiftsTheEndAndKeepsItsHeight) {
  for (const char* by : {"800", "\"rise\"", "\"2 * rise - 800\""}) {
    const std::string job = job_with(std::string("[\n      { \"go\": \"up\", \"by\": ") + by + " }\n    ]");
    const auto tree = parsed(job);
    const auto added = with_step(*tree, *step_place(*tree, "/runs/0"), NewStep::offset, {LengthUnit::mm, 55});
    ASSERT_TRUE(added);
    EXPECT_EQ(added->pointer, "/runs/0/path/1");
    EXPECT_TRUE(parsed(added->text)->at(added->pointer).find("offset"));
    EXPECT_LT((end_of(added->text) - Vec3(50, 0, 800)).norm(), 1e-9) << by;
    EXPECT_NE(added->text.find("},\n      {"), std::string::npos) << "the list keeps its layout";
  }
}

TEST(NewSteps, APassoverInALegMovesNothingElse) {
  const auto tree = parsed(job_with(R"([ { "go": "right", "by": 500 }, { "go": "up", "by": 800 } ])"));
  const auto added = with_step(*tree, *step_place(*tree, "/runs/0/path/1"), NewStep::passover, {LengthUnit::mm, 55});
  ASSERT_TRUE(added);
  EXPECT_EQ(added->pointer, "/runs/0/path/2");
  EXPECT_LT((end_of(added->text) - Vec3(500, 0, 800)).norm(), 1e-9);
}

TEST(NewSteps, AStepIsHighEnoughForTheBendsOfAWideFormer) {
  for (const NewStep step : {NewStep::offset, NewStep::passover}) {
    std::string job = job_with(R"([ { "go": "up", "by": 2000 } ])");
    job.replace(job.find("\"former_radius\": 55"), 19, "\"former_radius\": 140");
    const auto tree = parsed(job);
    const auto added = with_step(*tree, *step_place(*tree, "/runs/0"), step, {LengthUnit::mm, 140});
    ASSERT_TRUE(added);
    EXPECT_NEAR(end_of(added->text).z(), 2000, 1e-9);
  }
}

TEST(NewSteps, ALegThatTakesTheRestStaysTheOneThatDoes) {
  const auto tree = parsed(job_with(R"([ { "go": "up", "by": "rest" } ])"));
  const auto added = with_step(*tree, *step_place(*tree, "/runs/0/path/0"), NewStep::offset, {LengthUnit::inch, 57});
  ASSERT_TRUE(added);
  const auto after = parsed(added->text);
  EXPECT_EQ(after->at("/runs/0/path/0/by").number(), 6);
  EXPECT_EQ(after->at("/runs/0/path/2/by").text(), "rest");
  EXPECT_EQ(after->at("/runs/0/path").size(), 3);
}

TEST(NewSteps, LegsAndBendsStandAfterTheChosenStep) {
  const auto tree = parsed(job_with(R"([ { "go": "up", "by": 300 }, { "go": "right", "by": 300 } ])"));
  const auto leg = with_step(*tree, *step_place(*tree, "/runs/0/path/1"), NewStep::leg, {LengthUnit::mm, 55});
  ASSERT_TRUE(leg);
  EXPECT_LT((end_of(leg->text) - Vec3(400, 0, 300)).norm(), 1e-9) << "the way the chosen leg runs";
  const auto bend = with_step(*tree, *step_place(*tree, "/runs/0"), NewStep::bend, {LengthUnit::mm, 55});
  ASSERT_TRUE(bend);
  EXPECT_EQ(bend->pointer, "/runs/0/path/2");
  EXPECT_LT((end_of(bend->text) - Vec3(300, 0, 200)).norm(), 1e-9) << "turns the same way again";
}

TEST(NewSteps, NothingIsAddedWhereThereIsNoPlaceForIt) {
  const auto tree = parsed(job_with(R"([ { "go": [1, 0, 1], "by": 300 } ])"));
  EXPECT_FALSE(with_step(*tree, *step_place(*tree, "/runs/0"), NewStep::offset, {LengthUnit::mm, 55}));
  EXPECT_FALSE(step_place(*tree, "/tubes/15 mm"));
  EXPECT_FALSE(step_place(*tree, "/nowhere"));
}

}  // namespace
}  // namespace halfhard
