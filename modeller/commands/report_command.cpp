// halfhard report JOB: the report, JSON on standard output.
#include <cstdio>

#include "exporters/report/report.h"
#include "modeller/commands/command.h"
#include "modeller/commands/load_job.h"

namespace halfhard {

int run_report(const CommandLine& line) {
  const LoadedJob loaded = load_job(line.files[0], line);
  if (!loaded.plan) {
    loaded.print_problems();
  } else {
    write_report(*loaded.plan, [](std::string_view piece) { std::fwrite(piece.data(), 1, piece.size(), stdout); });
    if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0) {
      std::fprintf(stderr, "%s: the report could not be written whole\n", line.files[0].c_str());
      return kFileTrouble;
    }
  }
  return loaded.status();
}

}  // namespace halfhard
