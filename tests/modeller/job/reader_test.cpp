// What the reader answers apart from keys and broken files: overrides, files, names near each other, digests.
#include <gtest/gtest.h>

#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "tests/modeller/job/contract_example.h"
#include "tests/modeller/job/reading.h"

namespace halfhard {
namespace {

namespace fs = std::filesystem;

std::vector<std::string> shown_with(const std::map<std::string, std::string>& set) {
  ReadOptions options;
  options.set = set;
  std::vector<std::string> lines;
  for (const JobProblem& problem : read_job(kContractExample, options).problems) lines.push_back(problem.shown());
  return lines;
}

TEST(Overrides, AnUnknownOneNamesTheNearest) {
  EXPECT_EQ(
      shown_with({{"tap_hieght", "3"}}),
      std::vector<std::string>{"--set tap_hieght=3: found the unknown name \"tap_hieght\", allowed a value of the "
                               "job: \"pitch\", \"tap_height\", \"outlet_height\" (did you mean \"tap_height\"?)"});
}

TEST(Overrides, AFaultyOneIsReportedOnce) {
  EXPECT_EQ(shown_with({{"tap_height", "1,5"}}),
            std::vector<std::string>{"--set tap_height=1,5: found a comma, allowed a decimal point; commas stand only "
                                     "within min( ) and max( )"});
  EXPECT_EQ(shown_with({{"tap_height", "outlet_height"}}).size(), 1u);
  EXPECT_EQ(shown_with({{"tap_height", "1/0"}}).size(), 1u);
}

TEST(Overrides, NameAndValueAreSplitAtTheFirstSign) {
  EXPECT_EQ(split_set("a=1"), std::pair(std::string("a"), std::string("1")));
  EXPECT_EQ(split_set("a=b=c")->second, "b=c");
  EXPECT_EQ(split_set("a=")->second, "");
  EXPECT_FALSE(split_set("a"));
  EXPECT_FALSE(split_set("=1"));
}

TEST(Overrides, AFaultyValueMayBeOverridden) {
  JobText text;
  text.values = R"({ "pitch": "1/0", "angle": 45 })";
  ReadOptions options;
  options.set = {{"pitch", "60"}};
  EXPECT_TRUE(read_job(text.text(), options).job);
}

TEST(Values, ALongChainIsWorkedOut) {
  JobText text;
  text.values = R"({ "angle": 45, "pitch": "v0")";
  constexpr int kLinks = 20000;
  for (int i = 0; i < kLinks; ++i) {
    text.values += ", \"v" + std::to_string(i) + "\": \"v" + std::to_string(i + 1) + " + 1\"";
  }
  text.values += ", \"v" + std::to_string(kLinks) + "\": 1 }";
  EXPECT_EQ(sound(text).values.at("pitch"), kLinks + 1);
}

class Folder : public testing::Test {
 protected:
  void SetUp() override {
    root_ = fs::temp_directory_path() / ("halfhard-reader-" + std::to_string(::getpid()));
    fs::create_directories(root_ / "job" / "parts");
    fs::create_directories(root_ / "shared");
    std::ofstream(root_ / "job" / "parts" / "carcass.step") << "STEP";
    std::ofstream(root_ / "shared" / "carcass.step") << "STEP";
    fs::create_symlink(root_ / "shared" / "carcass.step", root_ / "job" / "link.step");
  }
  void TearDown() override { fs::remove_all(root_); }

  JobReading read(const std::string& file, const std::string& more = "") {
    JobText text;
    text.fixtures = R"([ { "name": "carcass", "solid": { "file": ")" + file + "\"" + more +
                    R"(, "at": [1, 2, 3] }, "turn": { "about": "up", "by": 90 } } ])";
    ReadOptions options;
    options.job_folder = root_ / "job";
    options.allow = allow_;
    options.read_solid = [this](const fs::path& path) -> std::variant<TriangleBody, std::string> {
      ++reads_;
      asked_ = path;
      TriangleBody body;
      body.vertices = {Vec3(10, 0, 0)};
      body.deviation_mm = 0.01;
      return body;
    };
    source_ = std::make_unique<JobSource>(text.text(), options);
    return source_->read();
  }

  fs::path root_, asked_;
  std::vector<fs::path> allow_;
  int reads_ = 0;
  std::unique_ptr<JobSource> source_;
};

TEST_F(Folder, ABodyBeneathTheJobIsReadPlacedAndTurned) {
  const JobReading reading = read("parts/carcass.step");
  ASSERT_TRUE(reading.job);
  const auto body = std::get<3>(reading.job->fixtures[0].body.shape);
  EXPECT_TRUE(body->vertices[0].isApprox(Vec3(-2, 11, 3)));
  EXPECT_EQ(body->deviation_mm, 0.01);
  EXPECT_EQ(asked_.filename(), "carcass.step");
}

TEST_F(Folder, ABodyIsReadOnceAndKeptWhereItDidNotMove) {
  const JobReading first = read("parts/carcass.step");
  const JobReading second = source_->read({{"pitch", "80"}});
  EXPECT_EQ(reads_, 1);
  EXPECT_EQ(std::get<3>(first.job->fixtures[0].body.shape), std::get<3>(second.job->fixtures[0].body.shape));
}

TEST_F(Folder, NothingOutsideIsReadNotEvenByALink) {
  for (const char* file : {"../shared/carcass.step", "link.step", "parts/../../shared/carcass.step", "/etc/passwd"}) {
    const JobReading reading = read(file);
    EXPECT_EQ(reading.exit_status(), 2) << file;
    EXPECT_EQ(reads_, 0) << file;
  }
}

TEST_F(Folder, AnAllowedFolderIsReadFrom) {
  allow_ = {root_ / "shared"};
  EXPECT_TRUE(read("../shared/carcass.step").job);
  EXPECT_TRUE(read("link.step").job);
  EXPECT_EQ(read("/etc/passwd").exit_status(), 2);
}

TEST_F(Folder, AMissingFileHasItsOwnStatus) {
  EXPECT_EQ(read("parts/none.step").exit_status(), 3);
  EXPECT_EQ(read("parts").exit_status(), 3);
  EXPECT_EQ(read_job_file(root_ / "none.json", {}).exit_status(), 3);
  EXPECT_EQ(read_job_file(root_, {}).exit_status(), 3);
}

TEST_F(Folder, ABodyIsNotReadForAFaultyJob) {
  EXPECT_FALSE(read("parts/carcass.step", R"(, "scale": 2)").job);
  EXPECT_EQ(reads_, 0);
}

TEST(Digest, IsFnv1aOf64Bits) {
  EXPECT_EQ(digest_of(""), "cbf29ce484222325");  // published test vectors of FNV-1a 64
  EXPECT_EQ(digest_of("a"), "af63dc4c8601ec8c");
  EXPECT_EQ(digest_of("foobar"), "85944171f73967e8");
}

TEST(Names, TheNearestIsTheOneWithFewestSlips) {
  const std::vector<std::string> names = {"15 mm", "22 mm", "heating flow", "tail", "up"};
  EXPECT_EQ(nearest_name("15mm", names), "15 mm");
  EXPECT_EQ(nearest_name("22 MM", names), "22 mm");
  EXPECT_EQ(nearest_name("heating", names), "heating flow");
  EXPECT_EQ(nearest_name("tale", names), "tail");
  EXPECT_EQ(nearest_name("upwards", names), "up");
  EXPECT_EQ(nearest_name("bucket", names), "");
  EXPECT_EQ(nearest_name(std::string(100000, 'x'), names), "");
}

TEST(Names, OtherLanguagesAndOddSignsAreNames) {
  JobText text;
  std::string all = text.text();
  all.replace(all.find("\"tail\""), 6, "\"\u00e9vier \u6c34 \\\" = + / \\\\ \\u0394\"");
  const JobReading reading = read_job(all, {});
  ASSERT_TRUE(reading.job);
  EXPECT_EQ(reading.job->runs[0].name, "\u00e9vier \u6c34 \" = + / \\ \u0394");
}

TEST(Problems, APlaceThatThePlannerFoundGetsItsLine) {
  JobSource source(kContractExample, {});
  const JobProblem problem = source.problem_at("/runs/0/path/1", "a", "b");
  EXPECT_EQ(problem.shown(), "job.json:28: /runs/0/path/1: found a, allowed b");
}

}  // namespace
}  // namespace halfhard
