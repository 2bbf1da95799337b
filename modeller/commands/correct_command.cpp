// halfhard correct JOB MEASURED: from measurements of a bent piece to what to bend further.
#include <algorithm>
#include <cstdio>

#include "modeller/bench/correct.h"
#include "modeller/commands/command.h"
#include "modeller/commands/correction_json.h"
#include "modeller/loading/load_job.h"

namespace halfhard {

int run_correct(const CommandLine& line) {
  const LoadedJob loaded = load_job(line.files[0], line);
  if (!loaded.plan) {
    loaded.print_problems();
    return loaded.status();
  }
  const std::string& file = line.files[1];
  MeasuredReading reading;
  if (auto text = read_text_file(file, "a file of measurements that can be read", reading.problems)) {
    reading = read_measured(*std::move(text), file, *loaded.plan);
  }
  if (!reading.piece) {
    for (const JobProblem& problem : reading.problems) std::fprintf(stderr, "%s\n", problem.shown().c_str());
    return exit_status_of(reading.problems);
  }
  const auto named = [&](const auto& run) { return run->name == reading.piece->run; };
  const Run& run = **std::ranges::find_if(loaded.plan->runs, named);
  const CorrectionPlan made = plan_correction(run, loaded.plan->tolerance, *reading.piece);
  const std::string said =
      line.json ? correction_json(run, made) : correction_text(run, *loaded.plan, *reading.piece, made);
  std::fputs(said.c_str(), stdout);
  return made.advice == Advice::leave || made.advice == Advice::bend ? kAllWell : kFindingFails;
}

}  // namespace halfhard
