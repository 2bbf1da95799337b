// The light program, driven as a person drives it: exact standard output, standard error and exit status.
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "tests/modeller/commands/run_program.h"

namespace halfhard {
namespace {

const std::string kJobs = std::string(HALFHARD_TESTS_DIR) + "/modeller/commands/jobs";

Said halfhard(const std::vector<std::string>& words) { return run_program("halfhard", words, kJobs); }

// The whole text stands in tests/modeller/commands/expected; HALFHARD_WRITE_EXPECTED=1 writes it anew, to be read before it is
// committed.
void expect_text(const std::string& text, const std::string& name) {
  const std::string path = std::string(HALFHARD_TESTS_DIR) + "/modeller/commands/expected/" + name;
  if (std::getenv("HALFHARD_WRITE_EXPECTED")) {
    FILE* file = std::fopen(path.c_str(), "wb");
    std::fwrite(text.data(), 1, text.size(), file);
    std::fclose(file);
  }
  EXPECT_EQ(text, text_of_file(path)) << name;
}

TEST(Commands, TheContractsOwnExamplePassesItsChecks) {
  const Said said = halfhard({"check", "contract-example.json"});
  EXPECT_EQ(said.status, 0);
  EXPECT_EQ(said.err, "");
  expect_text(said.out, "check-contract-example.txt");
}

TEST(Commands, TheReportOfTheContractsExampleIsKnownToTheLastDigit) {
  const Said said = halfhard({"report", "contract-example.json"});
  EXPECT_EQ(said.status, 0);
  expect_text(said.out, "report-contract-example.json");
  const auto report = nlohmann::json::parse(said.out);
  EXPECT_EQ(report["format"], "halfhard-report/1");
  ASSERT_EQ(report["runs"].size(), 2u);
  EXPECT_EQ(report["runs"][1]["name"], "hot tail 2");
  EXPECT_EQ(report["runs"][0]["points_mm"][2], nlohmann::json::array({365, 460, 565}));
}

std::string bench_case(const std::string& name) {
  return std::string(HALFHARD_TESTS_DIR) + "/modeller/bench/cases/" + name + ".json";
}

TEST(Commands, WhatCorrectFindsIsReadByPrograms) {
  const Said said = halfhard({"correct", bench_case("correct-job"), bench_case("correct-gaps-refused"), "--json"});
  EXPECT_EQ(said.status, 0);
  const auto found = nlohmann::json::parse(said.out);
  EXPECT_EQ(found["format"], "halfhard-correction/1");
  EXPECT_EQ(found["advice"], "bend");
  EXPECT_TRUE(found["bends"][1]["rotation_deg"].is_null());  // nobody measured it
  EXPECT_NEAR(found["bends"][1]["angle_deg"].get<double>(), 43.8, 0.1);
  EXPECT_LT(found["end_after_mm"].get<double>(), found["end_now_mm"].get<double>());
  EXPECT_TRUE(found["still_to_bend"].empty());
  const Said again = halfhard({"correct", bench_case("correct-job"), bench_case("correct-contradiction-leave")});
  EXPECT_EQ(again.status, 1);
  EXPECT_NE(again.out.find("cannot all be right"), std::string::npos);
}

TEST(Commands, WhatCalibrateFindsIsReadByPrograms) {
  const Said said = halfhard({"calibrate", bench_case("calibrate-180-refused"), "--json"});
  EXPECT_EQ(said.status, 0);
  const auto found = nlohmann::json::parse(said.out);
  EXPECT_EQ(found["format"], "halfhard-calibration/1");
  EXPECT_TRUE(found["usable"].get<bool>());
  EXPECT_NEAR(found["former_radius_mm"].get<double>(), 55, 1e-6);
  EXPECT_TRUE(found["mark_offset_mm"].is_null());
  EXPECT_EQ(halfhard({"calibrate", bench_case("calibrate-radius-198"), "--json"}).status, 1);
  EXPECT_EQ(halfhard({"check", "contract-example.json", "--json"}).status, 2);
}

TEST(Commands, SetOverridesAValue) {
  const Said said = halfhard({"report", "contract-example.json", "--set", "tap_height=2 ft 9 in"});
  ASSERT_EQ(said.status, 0);
  const auto report = nlohmann::json::parse(said.out);
  EXPECT_DOUBLE_EQ(report["runs"][0]["points_mm"][0][2], 33 * 25.4 - 430);
}

TEST(Commands, WhatFailsIsSaidWithItsLineAndLeavesWithOne) {
  const Said said = run_program("halfhard", {"check", "too-tight.json"}, HALFHARD_SAMPLES);
  EXPECT_EQ(said.status, 1);
  EXPECT_NE(said.out.find("NOT TO BE MADE"), std::string::npos);
  EXPECT_NE(said.out.find("[end-too-short;"), std::string::npos);
  EXPECT_NE(said.out.find("[connection;"), std::string::npos);
}

TEST(Commands, UnusableCommandLinesSayWhatIsAllowed) {
  const auto expect_error = [](const std::vector<std::string>& words, int status, const std::string& err) {
    const Said said = halfhard(words);
    EXPECT_EQ(said.status, status) << err;
    EXPECT_EQ(said.out, "");
    EXPECT_EQ(said.err, err + "\n");
  };
  expect_error({"chek", "x.json"}, 2,
               "halfhard: command \"chek\", allowed \"make\", \"check\", \"report\", \"start\", \"view\", \"picture\", "
               "\"suggest\", \"correct\", \"calibrate\", \"keys\", \"checks\", \"limits\" (did you mean \"check\"?)");
  expect_error({"report"}, 2, "halfhard: report takes JOB, found 0 of them");
  expect_error({"report", "a.json", "b.json"}, 2, "halfhard: report takes JOB, found 2 of them");
  expect_error({"check", "contract-example.json", "--set", "pitch"}, 2,
               "halfhard: --set \"pitch\", allowed NAME=VALUE");
  expect_error(
      {"start", "ofset"}, 2,
      "halfhard: found kind \"ofset\", allowed \"bank\", \"blank\", \"multi-plane\", \"ninety\", \"offset\", \"pair\", "
      "\"passover\", \"rolling-offset\", \"calibration\", \"measured\" (did you mean \"offset\"?)");
}

TEST(Commands, FilesThatCannotBeReadLeaveWithThree) {
  EXPECT_EQ(halfhard({"report", "no-such-job.json"}).status, 3);
  EXPECT_EQ(halfhard({"report", "no-such-job.json"}).err,
            "no-such-job.json: found no such file, allowed a job file that can be read\n");
  EXPECT_EQ(halfhard({"check", "."}).status, 3);
}

TEST(Commands, SeveralJobsEachByItselfAndTheHighestStatusCounts) {
  const Said said = halfhard({"check", "no-such-job.json", "contract-example.json"});
  EXPECT_EQ(said.status, 3);
  EXPECT_NE(said.out.find("Basin tails, studio flat"), std::string::npos);
}

TEST(Commands, EveryStarterPassesItsChecks) {
  const Said kinds = halfhard({"start"});
  ASSERT_EQ(kinds.status, 0);
  const auto folder = std::filesystem::temp_directory_path() / "halfhard-starters";
  std::filesystem::create_directories(folder);
  int tried = 0;
  for (const std::string kind :
       {"bank", "blank", "multi-plane", "ninety", "offset", "pair", "passover", "rolling-offset"}) {
    EXPECT_NE(kinds.out.find("  " + kind + "\n"), std::string::npos);
    const Said starter = halfhard({"start", kind});
    const std::string path = folder / (kind + ".json");
    FILE* file = std::fopen(path.c_str(), "wb");
    std::fwrite(starter.out.data(), 1, starter.out.size(), file);
    std::fclose(file);
    const Said checked = halfhard({"check", path});
    EXPECT_EQ(checked.status, 0) << checked.out << checked.err;
    ++tried;
  }
  EXPECT_EQ(tried, 8);
}

TEST(Commands, BenchStartersAreReadByTheirCommands) {
  const auto folder = std::filesystem::temp_directory_path() / "halfhard-bench-starters";
  std::filesystem::create_directories(folder);
  const auto started = [&](const std::string& kind) {
    const Said said = halfhard({"start", kind});
    EXPECT_EQ(said.status, 0);
    const std::string path = folder / (kind + ".json");
    FILE* file = std::fopen(path.c_str(), "wb");
    std::fwrite(said.out.data(), 1, said.out.size(), file);
    std::fclose(file);
    return path;
  };
  const Said calibrated = halfhard({"calibrate", started("calibration"), "--json"});
  EXPECT_EQ(calibrated.status, 0) << calibrated.err;
  const auto found = nlohmann::json::parse(calibrated.out);
  EXPECT_NEAR(found["former_radius_mm"].get<double>(), 55, 1.5);
  EXPECT_NEAR(found["mark_offset_mm"].get<double>(), 4, 1);
  const Said corrected = halfhard({"correct", started("offset"), started("measured")});
  EXPECT_LT(corrected.status, 2) << corrected.err;
  EXPECT_NE(halfhard({"start", "calibration"}).err.find("curve_starts"), std::string::npos);
}

TEST(Commands, TheTablesAreThoseThatTheProgramReads) {
  EXPECT_EQ(halfhard({"keys"}).out, text_of_file(std::string(HALFHARD_TESTS_DIR) + "/../modeller/job/job_keys.md"));
  const Said checks = halfhard({"checks"});
  EXPECT_EQ(checks.status, 0);
  EXPECT_NE(checks.out.find("joist-hole"), std::string::npos);
  const Said limits = halfhard({"limits"});
  EXPECT_EQ(limits.status, 0);
  EXPECT_NE(limits.out.find("kink_radius: 3 x OD"), std::string::npos);
}

TEST(Commands, EverySampleIsReadAndOnlyTheOneMeantToFailFails) {
  int samples = 0;
  for (const auto& entry : std::filesystem::directory_iterator(HALFHARD_SAMPLES)) {
    if (entry.path().extension() != ".json") continue;
    const Said said = halfhard({"check", entry.path()});
    EXPECT_EQ(said.status, entry.path().stem() == "too-tight" ? 1 : 0) << said.out << said.err;
    ++samples;
  }
  EXPECT_GE(samples, 7);
}

TEST(Commands, TheSameJobGivesTheSameReportEveryTime) {
  EXPECT_EQ(halfhard({"report", "contract-example.json"}).out, halfhard({"report", "contract-example.json"}).out);
}

// The light program must stay light: a solid kernel or a graphics library takes longer to load than a report takes.
TEST(Commands, TheLightProgramLoadsNoSolidKernelNoScreenAndNoDrawingLibrary) {
  FILE* pipe = popen(("ldd " HALFHARD_PROGRAMS "/halfhard"), "r");
  ASSERT_NE(pipe, nullptr);
  std::string libraries;
  for (char buffer[4096]; std::fgets(buffer, sizeof buffer, pipe);) libraries += buffer;
  ASSERT_EQ(pclose(pipe), 0);
  ASSERT_NE(libraries.find("libstdc++"), std::string::npos);
  for (const char* heavy : {"libTK", "libvtk", "libQt", "libcairo", "libCbc"}) {
    EXPECT_EQ(libraries.find(heavy), std::string::npos) << heavy;
  }
}

}  // namespace
}  // namespace halfhard
