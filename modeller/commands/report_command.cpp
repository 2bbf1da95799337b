// halfhard report JOB: the report, JSON on standard output.
#include <cstdio>

#include "exporters/report/report.h"
#include "modeller/commands/command.h"
#include "modeller/loading/load_job.h"

namespace halfhard {

int run_report(const CommandLine& line) {
  const LoadedJob loaded = load_job(line.files[0], line);
  if (!loaded.plan) {
    loaded.print_problems();
  } else {
    write_report(*loaded.plan, [](std::string_view piece) { std::fwrite(piece.data(), 1, piece.size(), stdout); });
  }
  return loaded.status();
}

}  // namespace halfhard
