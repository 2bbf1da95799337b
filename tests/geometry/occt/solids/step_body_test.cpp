#include "geometry/occt/solids_held.h"
#include "modeller/solids/read_step_body.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <random>

#include "exporters/step/step.h"
#include "modeller/solids/triangle_stream.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

const std::filesystem::path kChild = std::filesystem::path(HALFHARD_PROGRAMS) / "halfhard-solids";

// A file that is gone at the end of the test.
class File {
 public:
  explicit File(const std::string& bytes) {
    static int count = 0;
    path_ = std::filesystem::temp_directory_path() /
            ("halfhard-" + std::to_string(getpid()) + "-" + std::to_string(count++) + ".step");
    std::ofstream(path_, std::ios::binary) << bytes;
  }
  ~File() { std::filesystem::remove(path_); }
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

std::variant<TriangleBody, std::string> read(const std::string& bytes, StepBodyLimits limits = {}) {
  return read_step_body(File(bytes).path(), kChild, limits);
}

double volume_of(const TriangleBody& body) {
  double volume = 0;
  for (const auto& t : body.triangles) {
    volume += body.vertices[t[0]].dot(body.vertices[t[1]].cross(body.vertices[t[2]])) / 6;
  }
  return volume;
}

std::string pipe_step() {
  const auto run = support::run_through("pipe", support::multi_plane_points());
  return step_of_run(support::plan_of({run}), *run);
}

std::string replaced(std::string text, const std::string& what, const std::string& with) {
  const std::size_t at = text.find(what);
  return at == std::string::npos ? text : text.replace(at, what.size(), with);
}

TEST(StepBody, PipeComesBackAsTrianglesWithinTheDeviation) {
  const auto run = support::run_through("pipe", support::multi_plane_points());
  const auto result = read(pipe_step());
  ASSERT_TRUE(std::holds_alternative<TriangleBody>(result)) << std::get<std::string>(result);
  const TriangleBody& body = std::get<TriangleBody>(result);
  EXPECT_GT(body.deviation_mm, 0);
  EXPECT_LE(body.deviation_mm, 0.02);
  // Skins off by at most the deviation on both sides of a 0.7 mm wall.
  EXPECT_NEAR(volume_of(body), run->metal_volume_mm3, 0.04 / 0.7 * run->metal_volume_mm3);
  for (const Vec3& vertex : body.vertices) {
    double nearest = 1e9;
    for (double s = -15; s <= run->line.length_mm(); s += 1) {
      nearest = std::min(nearest, (run->line.point_at(s) - vertex).norm());
    }
    EXPECT_LE(nearest, 15 + 7.5 + 0.02);
  }
}

TEST(StepBody, UnitOfTheFileCounts) {
  const auto stub = support::run_through("stub", {{0, 0, 0}, {0, 0, 40}});
  const std::string step = step_of_run(support::plan_of({stub}), *stub);
  const auto in_mm = read(step);
  const auto in_cm = read(replaced(step, "SI_UNIT(.MILLI.,.METRE.)", "SI_UNIT(.CENTI.,.METRE.)"));
  ASSERT_TRUE(std::holds_alternative<TriangleBody>(in_mm));
  ASSERT_TRUE(std::holds_alternative<TriangleBody>(in_cm)) << std::get<std::string>(in_cm);
  const double volume = volume_of(std::get<TriangleBody>(in_mm));
  EXPECT_NEAR(volume_of(std::get<TriangleBody>(in_cm)) / volume, 1000, 60);  // finer by so much, too
}

TEST(StepBody, NoSuchFileIsASentence) {
  const auto result = read_step_body("no-such-file.step", kChild, {});
  EXPECT_EQ(std::get<std::string>(result), "it is no STEP file, or a broken one");
}

TEST(StepBody, MissingChildIsASentence) {
  const auto result = read_step_body("any.step", "no-such-program", {});
  EXPECT_EQ(std::get<std::string>(result),
            "halfhard-solids, which reads STEP files, cannot be started: no-such-program");
}

TEST(StepBody, FileWithoutSolidsSaysSo) {
  std::string text = pipe_step();
  text = replaced(text, "MANIFOLD_SOLID_BREP(", "SHELL_BASED_SURFACE_MODEL(");
  EXPECT_TRUE(std::holds_alternative<std::string>(read(text)));
}

// Each of these once looked like a STEP file to somebody.
TEST(StepBody, HostileFilesEndInASentence) {
  const std::string good = pipe_step();
  const std::string header = good.substr(0, good.find("DATA;"));
  std::vector<std::string> hostile = {
      "",
      "\n",
      "ISO-10303-21;",
      header,
      header + "DATA;\n",
      header + "DATA;\n#1=;\nENDSEC;\nEND-ISO-10303-21;\n",
      header + "DATA;\n#1=#1;\nENDSEC;\nEND-ISO-10303-21;\n",
      header + "DATA;\n#99999999999999999999=CARTESIAN_POINT('',(0.,0.,0.));\nENDSEC;\nEND-ISO-10303-21;\n",
      header + "DATA;\n#1=MANIFOLD_SOLID_BREP('',#1);\nENDSEC;\nEND-ISO-10303-21;\n",
      header + "DATA;\n#1=CARTESIAN_POINT('" + std::string(3'000'000, 'x') + "',(0.,0.,0.));\n",
      header + "DATA;\n#1=A(" + std::string(200'000, '(') + ";\nENDSEC;\n",
      std::string(100'000, '\0'),
      std::string("\x7f"
                  "ELF\x02\x01\x01")};
  for (const double part : {0.1, 0.5, 0.9, 0.99}) hostile.push_back(good.substr(0, good.size() * part));
  for (std::size_t i = 0; i < hostile.size(); ++i) {
    SCOPED_TRACE("file " + std::to_string(i));
    const auto result = read(hostile[i], {20, 2048});
    ASSERT_TRUE(std::holds_alternative<std::string>(result));
    EXPECT_FALSE(std::get<std::string>(result).empty());
    EXPECT_EQ(std::get<std::string>(result).find('\n'), std::string::npos);
  }
}

// Whatever becomes of the child, the parent gets a body or a sentence.
TEST(StepBody, SpoiltFilesGiveABodyOrASentence) {
  const unsigned start = std::random_device{}();
  SCOPED_TRACE("random start " + std::to_string(start));
  std::mt19937 random(start);
  const std::string good = pipe_step();
  for (int i = 0; i < 12; ++i) {
    std::string text = good;
    for (int spot = 0; spot < 1 + i; ++spot) {
      const std::size_t at = random() % text.size();
      text[at] = i % 2 ? static_cast<char>(random()) : static_cast<char>('0' + random() % 10);
    }
    const auto result = read(text, {3, 2048});
    const auto* why = std::get_if<std::string>(&result);
    EXPECT_FALSE(why && why->empty());
  }
}

TEST(StepBody, TimeLimitStopsTheChild) {
  const std::filesystem::path slow = File("#!/bin/sh\nsleep 60\n").path();
  std::ofstream(slow) << "#!/bin/sh\nexec sleep 60\n";
  std::filesystem::permissions(slow, std::filesystem::perms::owner_all);
  const auto result = read_step_body("any.step", slow, {1, 2048});
  std::filesystem::remove(slow);
  EXPECT_EQ(std::get<std::string>(result), "reading it took longer than 1 s");
}

TEST(TriangleStream, ComesBackAsItWent) {
  TriangleBody body;
  body.vertices = {{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1.5}};
  body.triangles = {{0, 2, 1}, {0, 1, 3}, {1, 2, 3}, {2, 0, 3}};
  body.deviation_mm = 0.0125;
  body.exact = std::make_shared<const ExactShape>(
      ExactShape{"#1=A('x');\n", {0, 1, 2}, {body.vertices[0], body.vertices[1], body.vertices[2]}});
  const std::string bytes = written_triangles(body);
  const auto back = read_triangles(bytes);
  ASSERT_TRUE(back);
  EXPECT_EQ(back->triangles, body.triangles);
  EXPECT_EQ(back->vertices, body.vertices);
  EXPECT_EQ(back->deviation_mm, body.deviation_mm);
  EXPECT_EQ(back->exact->step_data, "#1=A('x');\n");
  for (std::size_t size = 0; size < bytes.size(); ++size) EXPECT_FALSE(read_triangles(bytes.substr(0, size)));
  EXPECT_FALSE(read_triangles(bytes + "x"));
}

TEST(StepBody, ABrokenSolidAmongWholeOnesIsRefusedNotLeftOut) {
  std::ifstream file(std::string(HALFHARD_SAMPLES) + "/base-unit.step", std::ios::binary);
  const std::string whole{std::istreambuf_iterator<char>(file), {}};
  ASSERT_TRUE(std::holds_alternative<TriangleBody>(read(whole)));
  const std::size_t solid = whole.find("MANIFOLD_SOLID_BREP('");
  ASSERT_NE(solid, std::string::npos);
  const std::size_t reference = whole.find('#', solid), end = whole.find(')', reference);
  std::string broken = whole;
  broken.replace(reference, end - reference, "#999999");
  const auto result = read(broken);
  ASSERT_TRUE(std::holds_alternative<std::string>(result)) << "a panel vanished without a word";
  EXPECT_NE(std::get<std::string>(result).find("of the"), std::string::npos) << std::get<std::string>(result);
}

TEST(StepBody, SolidsAreCountedByTheFilesOwnText) {
  EXPECT_EQ(solids_held("#1=MANIFOLD_SOLID_BREP('',#2);#3=BREP_WITH_VOIDS('',#2,());"), 2);
  EXPECT_EQ(solids_held("#1=(BREP_WITH_VOIDS(()) MANIFOLD_SOLID_BREP(#2) SOLID_MODEL());"), 1);
  EXPECT_EQ(solids_held("/* MANIFOLD_SOLID_BREP */ #1=PRODUCT('MANIFOLD_SOLID_BREP','it''s FACETED_BREP');"), 0);
  EXPECT_EQ(solids_held("#1=ADVANCED_BREP_SHAPE_REPRESENTATION('',(#2));"), 0);
}

}  // namespace
}  // namespace halfhard
