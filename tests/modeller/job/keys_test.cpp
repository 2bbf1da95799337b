// Every key of a job file, and that it lands where it should. What is wrong with keys: tests/modeller/hostile.
#include <gtest/gtest.h>

#include "modeller/catalogue/tube_sizes.h"
#include "tests/modeller/job/reading.h"

namespace halfhard {
namespace {

JobText with(std::string JobText::*part, std::string text) {
  JobText job;
  job.*part = std::move(text);
  return job;
}

Connection from_of(const JobText& text) { return std::get<JobConnection>(sound(text).runs[0].from).base; }
template <typename Step>
Step step(const std::string& path, std::size_t place, bool with_to = true) {
  JobText text = with(&JobText::path, path);
  if (with_to) text.run = R"("to": "tap",)";
  const Job job = sound(text);
  return std::get<Step>(job.runs.at(0).path.at(place));
}
Fixture fixture(const std::string& body) {
  return sound(with(&JobText::fixtures, R"([ { "name": "it", )" + body + " } ]")).fixtures.at(0);
}
Bender bender(const std::string& members) {
  return sound(with(&JobText::benders, R"({ "bench": { "former_radius": 55)" + members + " } }")).benders.at(0);
}
Tube tube(const std::string& text) { return sound(with(&JobText::tubes, R"({ "15 mm": )" + text + " }")).tubes.at(0); }

TEST(Keys, WhatIsLeftOutHasItsDefault) {
  const Job job = sound({});
  EXPECT_EQ(job.title, "");
  EXPECT_EQ(job.unit, LengthUnit::mm);
  EXPECT_EQ(job.tolerance.length_mm, 3);
  EXPECT_EQ(job.tolerance.angle, Angle::degrees(3));
  EXPECT_EQ(job.drill_clearance_mm, 2);
  EXPECT_EQ(job.sets, 1);
  EXPECT_EQ(job.stock.lengths_mm, std::vector<double>{3000});
  EXPECT_FALSE(job.benders[0].radius_measured);
  EXPECT_FALSE(job.benders[0].mark_offset_mm);
  EXPECT_FALSE(job.benders[0].shortest_end_mm);
  EXPECT_EQ(job.tubes[0].temper, "R250");
  EXPECT_EQ(job.runs[0].service, Service::none);
  EXPECT_FALSE(job.runs[0].marking);
  EXPECT_EQ(std::get<End>(job.runs[0].hook), End::datum);
  EXPECT_FALSE(job.fixtures[0].may_drill);
}

TEST(Keys, TopLevelOnes) {
  const Job job = sound(with(
      &JobText::top, R"("title": "T", "origin": "O", "surface": "S", "tolerance": { "length": "1/8 in", "angle": 2 },
    "list_clearances_within": 50, "drill_clearance": 3, "sets": 10, "stock": { "lengths": [3000, "6 m"], "cutter_loss": 2 },
    "limits": { "kink_radius": { "value": 2.5, "reason": "our former" }, "tape_error": { "value": "1/16 in", "reason": "steel tape" } },
    "sheet": { "owner": "o", "identification": "i", "revision": "r", "date": "d", "created_by": "c", "approved_by": "a", "projection": "third angle" },)"));
  EXPECT_EQ(job.title + job.origin + job.surface, "TOS");
  EXPECT_EQ(job.tolerance.length_mm, 0.125 * 25.4);
  EXPECT_EQ(job.tolerance.angle, Angle::degrees(2));
  EXPECT_EQ(job.list_clearances_within_mm, 50);
  EXPECT_EQ(job.drill_clearance_mm, 3);
  EXPECT_EQ(job.sets, 10);
  EXPECT_EQ(job.stock.lengths_mm, (std::vector<double>{3000, 6000}));
  EXPECT_EQ(job.stock.cutter_loss_mm, 2);
  EXPECT_EQ(job.rules.kink_radius.value, 2.5);
  EXPECT_EQ(job.rules.kink_radius.source, "set in this job: our former");
  EXPECT_EQ(job.rules.tape_error.value, 0.0625 * 25.4);
  EXPECT_EQ(job.rules.ovality, Rules().ovality);
  EXPECT_EQ(job.title_block, (TitleBlock{"o", "i", "r", "d", "c", "a", true}));
}

TEST(Keys, InAnInchJobLengthsAreInches) {
  JobText text = with(&JobText::top, R"("length_unit": "in",)");
  text.benders = R"({ "bench": { "former_radius": "2 1/4 in", "fits": 0.625, "mark_offset": "3 mm" } })";
  text.from = R"({ "at": ["pitch / 35", "2 + 12.5 mm", 10], "towards": "up", "insertion": "1/2 in" })";
  text.path = R"([ { "go": "up", "by": "2 ft 3 1/2 in" }, { "bend": "angle", "by": 8 } ])";
  const Job job = sound(text);
  const auto& from = std::get<JobConnection>(job.runs[0].from).base;
  EXPECT_DOUBLE_EQ(job.benders[0].former_radius_mm, 57.15);
  EXPECT_EQ(job.benders[0].mark_offset_mm, 3);
  EXPECT_EQ(from.at.x(), 2 * 25.4);
  EXPECT_DOUBLE_EQ(from.at.y(), 50.8 + 12.5);
  EXPECT_EQ(from.insertion_mm, 12.7);
  EXPECT_DOUBLE_EQ(std::get<double>(std::get<GoStep>(job.runs[0].path[0]).by), 27.5 * 25.4);
  EXPECT_EQ(std::get<BendStep>(job.runs[0].path[1]).angle, Angle::degrees(45));
}

TEST(Keys, Tubes) {
  EXPECT_EQ(tube(R"({ "standard": "EN 1057", "size": "22x0.9", "temper": "R220" })").outside_diameter_mm, 22);
  EXPECT_EQ(tube(R"({ "standard": "EN 1057", "size": "22x0.9", "temper": "R220" })").temper, "R220");
  EXPECT_EQ(tube(R"({ "standard": "EN 1057", "size": "15 x 1" })").size, "15 x 1.0");
  const Tube half_inch = tube(R"({ "standard": "ASTM B88", "size": "1/2L" })");
  EXPECT_DOUBLE_EQ(half_inch.outside_diameter_mm, 0.625 * 25.4);
  EXPECT_DOUBLE_EQ(half_inch.wall_mm, 0.040 * 25.4);
  EXPECT_EQ(tube(R"({ "outside_diameter": 10, "wall": 0.8 })").temper, "");
}

TEST(Keys, Benders) {
  const Bender made =
      bender(R"(, "radius_measured": true, "fits": 15, "shortest_end": 80, "usual_end": 120, "shortest_lever": 60,
    "shortest_between": 20, "most_angle": 120, "mark_offset": -4, "line_up": "zero", "stands": { "hook": "left", "swing": "up" },
    "spring_back": [ { "set": 92, "got": 90 }, { "set": 46, "got": 45 } ], "calibrated_with": "15 mm")");
  EXPECT_TRUE(made.radius_measured);
  EXPECT_EQ(made.fits_mm, 15);
  EXPECT_EQ(made.shortest_end_mm, 80);
  EXPECT_EQ(made.usual_end_mm, 120);
  EXPECT_EQ(made.shortest_lever_mm, 60);
  EXPECT_EQ(made.shortest_between_mm, 20);
  EXPECT_EQ(made.most_angle, Angle::degrees(120));
  EXPECT_EQ(made.mark_offset_mm, -4);
  EXPECT_EQ(made.line_up, "zero");
  EXPECT_EQ(made.stands, (BenderStands{"left", "up"}));
  EXPECT_EQ(made.spring_back[0].got, Angle::degrees(45));  // ascending, whatever the order in the file
  EXPECT_EQ(made.calibrated_with, "15 mm");
}

TEST(Keys, FixtureBodies) {
  EXPECT_EQ(std::get<Box>(fixture(R"("box": { "from": [10, 0, 5], "to": [0, 20, 0] })").body.shape).half,
            Vec3(5, 10, 2.5));
  const auto bar =
      std::get<Cylinder>(fixture(R"("cylinder": { "from": [0,0,0], "to": [0,0,9], "diameter": "2 cm" })").body.shape);
  EXPECT_EQ(bar.radius, 10);
  EXPECT_EQ(bar.to, Vec3(0, 0, 9));
  const auto space = std::get<HalfSpace>(fixture(R"("plane": { "at": [1,2,3], "facing": [0, 0, -5] })").body.shape);
  EXPECT_EQ(space.facing, Vec3(0, 0, -1));
  const Fixture made = fixture(
      R"("plane": { "at": [1,2,3], "facing": "up" }, "keep_clear": 4, "may_drill": true, "drill_clearance": 1, "service": "gas")");
  EXPECT_EQ(made.keep_clear_mm, 4);
  EXPECT_TRUE(made.may_drill);
  EXPECT_EQ(made.drill_clearance_mm, 1);
  EXPECT_EQ(made.service, Service::gas);
}

TEST(Keys, AJoistHasItsDepthUprightOrBackwards) {
  const Fixture level = fixture(R"("joist": { "from": [0,0,0], "to": [0,3000,0], "breadth": 47, "depth": 150 })");
  EXPECT_EQ(level.joist->depth_direction, Vec3(0, 0, 1));
  EXPECT_EQ(std::get<Box>(level.body.shape).half, Vec3(1500, 23.5, 75));
  EXPECT_NEAR(std::get<Box>(level.body.shape).axes.determinant(), 1, 1e-12);
  EXPECT_EQ(std::get<Box>(level.body.shape).centre, Vec3(0, 1500, 0));
  const Fixture post = fixture(R"("joist": { "from": [0,0,0], "to": [0,0,-3000], "breadth": 47, "depth": 150 })");
  EXPECT_EQ(post.joist->depth_direction, Vec3(0, 1, 0));
  const Fixture rafter = fixture(R"("joist": { "from": [0,0,0], "to": [0,3000,3000], "breadth": 47, "depth": 150 })");
  EXPECT_TRUE(rafter.joist->depth_direction.isApprox(Vec3(0, -1, 1).normalized()));
}

TEST(Keys, TurnsGoInOrderAndTakeTheJoistAlong) {
  const Fixture once = fixture(
      R"("joist": { "from": [0,0,0], "to": [0,3000,0], "breadth": 47, "depth": 150 }, "turn": { "about": "up", "by": 90, "at": [0,0,0] })");
  EXPECT_TRUE(once.joist->to.isApprox(Vec3(-3000, 0, 0)));
  EXPECT_TRUE(std::get<Box>(once.body.shape).centre.isApprox(Vec3(-1500, 0, 0)));
  const Fixture twice = fixture(
      R"("plane": { "at": [10,0,0], "facing": "right" }, "turn": [ { "about": "up", "by": 90 }, { "about": "right", "by": 90 } ])");
  const auto space = std::get<HalfSpace>(twice.body.shape);
  EXPECT_TRUE(space.facing.isApprox(Vec3(0, 0, 1)));
  EXPECT_TRUE(space.at.isApprox(Vec3(0, 0, 10)));
}

TEST(Keys, SlidesAndSwings) {
  const Fixture drawer = fixture(R"("box": { "from": [0,0,0], "to": [1,1,1] }, "slides": { "front": 400, "up": 5 })");
  EXPECT_EQ(std::get<Slide>(drawer.body.motion).shift, Vec3(0, -400, 5));
  const Fixture door =
      fixture(R"("box": { "from": [0,0,0], "to": [1,1,1] }, "swing": { "about": "up", "at": [1,2,3], "by": -95 })");
  const Swing swing = std::get<Swing>(door.body.motion);
  EXPECT_EQ(swing.about, Vec3(0, 0, 1));
  EXPECT_EQ(swing.at, Vec3(1, 2, 3));
  EXPECT_EQ(swing.by, Angle::degrees(-95));
}

TEST(Keys, Connections) {
  JobText text;
  text.connections =
      R"({ "tap": { "at": [ { "off": "wall", "by": 9, "until": "near" }, { "off": "wall", "by": 8, "until": "far" }, { "off": "wall", "by": 7 } ],
    "towards": { "from": [0,0,0], "to": [0,0,-7] }, "insertion": 15, "joins": ["wall"], "joins_for": 30, "straight_needed": 40, "loose": 3 } })";
  const Job job = sound(text);
  const JobConnection& tap = job.connections.at(0);
  const auto& tapes = std::get<1>(tap.at);
  EXPECT_EQ(tapes[0].until, TubeFace::near);
  EXPECT_EQ(tapes[1].until, TubeFace::far);
  EXPECT_EQ(tapes[2].until, TubeFace::centre);
  EXPECT_EQ(tapes[2].by_mm, 7);
  EXPECT_EQ(tapes[2].pointer, "/connections/tap/at/2");
  EXPECT_EQ(tap.base.name, "tap");
  EXPECT_EQ(tap.base.towards, Vec3(0, 0, -1));
  EXPECT_EQ(tap.base.insertion_mm, 15);
  EXPECT_EQ(tap.base.joins, std::vector<std::string>{"wall"});
  EXPECT_EQ(tap.base.joins_for_mm, 30);
  EXPECT_EQ(tap.base.straight_needed_mm, 40);
  EXPECT_EQ(tap.base.loose_mm, 3);
}

TEST(Keys, DirectionsOfAnySizeAreMadeUnit) {
  EXPECT_TRUE(from_of(with(&JobText::from, R"({ "at": [0,0,0], "towards": [3e-300, 4e-300, 0] })"))
                  .towards.isApprox(Vec3(0.6, 0.8, 0)));
  EXPECT_TRUE(from_of(with(&JobText::from, R"({ "at": [0,0,0], "towards": [3e300, 4e300, 0] })"))
                  .towards.isApprox(Vec3(0.6, 0.8, 0)));
  EXPECT_EQ(from_of(with(&JobText::from, R"({ "at": [0,0,0], "towards": ["0", "-pitch", 0] })")).towards,
            Vec3(0, -1, 0));
}

TEST(Keys, Runs) {
  JobText text = with(
      &JobText::run,
      R"("to": "tap", "service": "heating return", "lagging": 13, "keep_clear": 5, "spare": { "datum": 1, "free": 2 },
    "marking": "all", "drill_clearance": 4, "hook": ["free", "datum"], "order": [2, 1],)");
  const JobRun run = sound(text).runs.at(0);
  EXPECT_EQ(run.service, Service::heating_return);
  EXPECT_EQ(run.lagging_mm, 13);
  EXPECT_EQ(run.keep_clear_mm, 5);
  EXPECT_EQ(run.spare_datum_mm, 1);
  EXPECT_EQ(run.spare_free_mm, 2);
  EXPECT_EQ(run.marking, Marking::all);
  EXPECT_EQ(run.drill_clearance_mm, 4);
  EXPECT_EQ(std::get<1>(run.hook), (std::vector<End>{End::free, End::datum}));
  EXPECT_EQ(run.order, (std::vector<int>{2, 1}));
  EXPECT_TRUE(run.has_path);
}

TEST(Keys, ARunWithoutAPathIsForSuggest) {
  JobText text = with(&JobText::run, R"("to": { "at": [1,2,3], "towards": "left" },)");
  std::string all = text.text();
  const std::string path = R"(, "path": [ { "go": "up", "by": 150 } ])";
  all.erase(all.find(path), path.size());
  const JobReading reading = read_job(all, {});
  ASSERT_TRUE(reading.job);
  EXPECT_FALSE(reading.job->runs[0].has_path);
  EXPECT_EQ(std::get<JobConnection>(*reading.job->runs[0].to).base.at, Vec3(1, 2, 3));
}

TEST(Keys, Legs) {
  const auto go = step<GoStep>(
      R"([ { "go": [0, 3, 4], "by": "pitch + 1", "measured": { "from": "outside", "until": "inside" } }, { "go": "up", "by": "rest" } ])",
      0);
  EXPECT_TRUE(go.direction.isApprox(Vec3(0, 0.6, 0.8)));
  EXPECT_EQ(std::get<double>(go.by), 71);
  EXPECT_EQ(go.measured, (Measured{TapeTouch::outside, TapeTouch::inside}));
  EXPECT_EQ(std::get<std::string>(step<ToStep>(R"([ { "to": "tap" } ])", 0).to), "tap");
  EXPECT_EQ(std::get<Vec3>(std::get<JobPoint>(step<ToStep>(R"([ { "to": [1, "pitch", 3] } ])", 0).to)), Vec3(1, 70, 3));
  const auto bend = step<BendStep>(
      R"([ { "go": "up", "by": 100 }, { "bend": 22.5, "roll": -90, "by": "rest", "measured": { "until": "outside" } } ])",
      1);
  EXPECT_EQ(bend.angle, Angle::degrees(22.5));
  EXPECT_EQ(bend.roll, Angle::degrees(-90));
  EXPECT_TRUE(std::holds_alternative<Rest>(bend.by));
  EXPECT_EQ(bend.measured.until, TapeTouch::outside);
}

TEST(Keys, Offsets) {
  const auto between = [](const std::string& offset) {
    return step<OffsetStep>(R"([ { "go": "up", "by": 100 }, { )" + offset + R"( }, { "go": "up", "by": "rest" } ])", 1);
  };
  const auto rolling = between(R"("offset": { "right": -12, "back": 16 }, "angle": 22.5, "measured": "outside")");
  EXPECT_EQ(rolling.shift, (std::vector<WordShift>{{"right", -12}, {"back", 16}}));
  EXPECT_EQ(std::get<Angle>(rolling.steepness), Angle::degrees(22.5));
  EXPECT_EQ(rolling.measured, OffsetTape::outside);
  EXPECT_EQ(std::get<Advance>(between(R"("offset": { "right": 50 }, "advance": 60, "measured": "inside")").steepness),
            Advance{60});
  EXPECT_TRUE(std::holds_alternative<RuleSetting>(between(R"("offset": { "right": 50 }, "angle": "rule")").steepness));
  EXPECT_TRUE(between(R"("offset": "to", "angle": 45)").to_connection);
  EXPECT_EQ(std::get<Angle>(between(R"("offset": { "left": 5 }, "angle": 90)").steepness), Angle::degrees(90));
}

TEST(Keys, Passovers) {
  const std::string before = R"([ { "go": "up", "by": 100 }, )", after = R"(, { "go": "up", "by": 50 } ])";
  const auto flat = step<PassoverStep>(
      before + R"({ "passover": { "front": 30 }, "angle": 30, "flat": 60, "height": "crown" })" + after, 1);
  EXPECT_EQ(flat.shift, (WordShift{"front", 30}));
  EXPECT_EQ(flat.angle, Angle::degrees(30));
  EXPECT_EQ(flat.flat_mm, 60);
  EXPECT_TRUE(flat.height_to_crown);
  const auto peaked = step<PassoverStep>(
      before + R"({ "passover": { "front": 30 }, "angle": 30, "height": "intersection" })" + after, 1);
  EXPECT_FALSE(peaked.flat_mm);
  EXPECT_FALSE(peaked.height_to_crown);
}

TEST(Keys, BanksAndSiteChecks) {
  JobText text =
      with(&JobText::banks, R"([ { "of": "tail", "count": 3, "step": { "left": 60, "down": 5 }, "match": "gaps" } ])");
  text.site_checks = R"([ { "from": "tap", "to": [1, 2, 3], "measured": 10, "within": 2 } ])";
  const Job job = sound(text);
  EXPECT_EQ(job.banks[0].count, 3);
  EXPECT_EQ(job.banks[0].step, Vec3(-60, 0, -5));
  EXPECT_TRUE(job.banks[0].equal_gaps);
  EXPECT_EQ(std::get<std::string>(job.site_checks[0].from), "tap");
  EXPECT_EQ(std::get<Vec3>(job.site_checks[0].to), Vec3(1, 2, 3));
  EXPECT_EQ(job.site_checks[0].within_mm, 2);
}

TEST(Catalogue, SizesArePhysicalAndEachStandsOnce) {
  for (const TubeSize& size : tube_sizes()) {
    EXPECT_GT(size.wall_mm, 0);
    EXPECT_LT(size.wall_mm, size.outside_diameter_mm / 4) << size.size;
    EXPECT_EQ(find_tube_size(size.standard, size.size), &size) << size.size;
  }
  EXPECT_EQ(find_tube_size("EN 1057", "15 x 0.9"), nullptr);
  EXPECT_EQ(find_tube_size("ASTM B88", "15 x 0.7"), nullptr);
  EXPECT_EQ(find_tube_size("EN 1057",
                           "28\xC3\x97"
                           "0.9")
                ->outside_diameter_mm,
            28);
}

// Mass from diameter, wall and 8.94 g/cm3 against what a maker prints (SFS-EN 1057 table), kg/m.
TEST(Catalogue, MassesAgreeWithAMakersTable) {
  const auto mass = [](const char* size) {
    const TubeSize* known = find_tube_size("EN 1057", size);
    Tube tube;
    tube.outside_diameter_mm = known->outside_diameter_mm;
    tube.wall_mm = known->wall_mm;
    return tube.metal_area_mm2() * kCopperDensity_g_per_cm3 / 1000;
  };
  EXPECT_NEAR(mass("15 x 1.0"), 0.393, 0.001);
  EXPECT_NEAR(mass("22 x 1.0"), 0.590, 0.001);
  EXPECT_NEAR(mass("28 x 1.2"), 0.903, 0.005);
}

}  // namespace
}  // namespace halfhard
