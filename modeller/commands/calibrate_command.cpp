// halfhard calibrate TRIAL: from trial bends to what the bender really does.
#include <cstdio>

#include "modeller/bench/calibrate.h"
#include "modeller/commands/calibration_json.h"
#include "modeller/commands/command.h"
#include "modeller/job/read_job.h"

namespace halfhard {

int run_calibrate(const CommandLine& line) {
  const std::string& file = line.files[0];
  TrialReading reading;
  if (auto text = read_text_file(file, "a trial file that can be read", reading.problems)) {
    reading = read_trial(*std::move(text), file);
  }
  if (!reading.trial) {
    for (const JobProblem& problem : reading.problems) std::fprintf(stderr, "%s\n", problem.shown().c_str());
    return exit_status_of(reading.problems);
  }
  const Calibration made = calibrate(*reading.trial);
  const std::string said = line.json ? calibration_json(made) : calibration_text(*reading.trial, made);
  std::fputs(said.c_str(), stdout);
  return made.usable ? kAllWell : kFindingFails;
}

}  // namespace halfhard
