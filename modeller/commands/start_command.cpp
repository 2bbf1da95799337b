// halfhard start [KIND]: prints a starter job file.
#include <cstdio>
#include <string>
#include <vector>

#include "modeller/commands/command.h"
#include "modeller/job/problem.h"
#include "modeller/starters/starters.h"

namespace halfhard {
namespace {

// Told beside the file, which goes to standard output and has no room for it.
constexpr const char* kCalibrationSheet =
    "What to bend and what to measure:\n"
    "  1. Cut 400 mm of the tube that the job uses, ends square. Measure it: cut_length.\n"
    "  2. Pencil a ring round it 160 mm from the end that goes on the hook: mark. Line it up as you always do.\n"
    "  3. Pull to 92 degrees on the bender's scale (set) and let go. Measure the angle that is left: got.\n"
    "  4. Measure from each end to where the outside lines of the two legs meet: legs, the hook side first.\n"
    "  5. Lay a straight edge along the leg on the hook side; where the tube leaves it the curve starts. Measure from\n"
    "     the end to there: curve_starts.\n"
    "  6. Bend a second piece to 46 and write set and got; more pieces make the figures surer.\n"
    "  Put your figures in place of those in the file; then: halfhard calibrate FILE\n"
    "  Keep fingers out of the pinch points; wear eye protection.\n";
constexpr const char* kMeasuredSheet =
    "Figures of the bent piece of `halfhard start offset`. Put yours in place of them and leave out what you did not\n"
    "measure; then: halfhard correct JOB FILE\n";

void print_beside(std::string_view kind) {
  if (kind == "calibration") std::fputs(kCalibrationSheet, stderr);
  if (kind == "measured") std::fputs(kMeasuredSheet, stderr);
}

}  // namespace

int run_start(const CommandLine& line) {
  if (line.files.empty()) {
    std::puts("halfhard start KIND > JOB.json writes a job to begin from. The kinds:");
    for (const Starter& starter : starters()) std::printf("  %s\n", starter.kind);
    std::puts("and for the bench:");
    for (const Starter& starter : bench_starters()) std::printf("  %s\n", starter.kind);
    return kAllWell;
  }
  if (const Starter* starter = find_starter(line.files[0])) {
    std::fwrite(starter->text.data(), 1, starter->text.size(), stdout);
    print_beside(starter->kind);
    return kAllWell;
  }
  std::vector<std::string> kinds;
  for (const auto& table : {starters(), bench_starters()})
    for (const Starter& starter : table) kinds.push_back(starter.kind);
  JobProblem problem;
  problem.file = "start";
  problem.found = "kind " + in_quotes(line.files[0]);
  problem.allowed = names_in_quotes(kinds);
  problem.nearest = nearest_name(line.files[0], kinds);
  std::fprintf(stderr, "halfhard: %s\n", problem.message().c_str());
  return kUnusable;
}

}  // namespace halfhard
