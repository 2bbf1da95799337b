// halfhard-make: does the work of `halfhard make`. A program of its own because drawing libraries are slow to load.
#include <CLI/CLI.hpp>
#include <cstdio>
#include <string>
#include <thread>
#include <vector>

#include "modeller/job/read_job.h"
#include "modeller/make/make_jobs.h"
#include "modeller/system/program.h"

namespace halfhard {
namespace {

int run_make(int argc, char** argv) {
  // Handed on by `halfhard` as it stood: the first word is the command's name.
  const bool named = argc > 1 && std::string(argv[1]) == "make";
  CLI::App app("everything for the job: solids, drawings, tables, pictures; one folder a job", "halfhard make");
  MakeOptions options;
  options.workers = static_cast<int>(std::max(1u, std::thread::hardware_concurrency()));
  std::vector<std::string> overrides;
  bool no_pictures = false;
  app.add_option("files", options.line.files, "JOB...")->required();
  app.add_option("--out", options.out, "DIR: a folder a job goes in here")->capture_default_str();
  app.add_option("--set", overrides, "NAME=VALUE: overrides a value of the jobs")->allow_extra_args(false);
  app.add_option("--allow", options.line.allow, "DIR: the jobs may use files under it")->allow_extra_args(false);
  app.add_option("--workers", options.workers, "how many jobs at once")->check(CLI::Range(1, 256));
  app.add_flag("--no-pictures", no_pictures, "leave the pictures out");
  try {
    named ? app.parse(argc - 1, argv + 1) : app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    std::fputs(app.help().c_str(), stdout);
    return kAllWell;
  } catch (const CLI::ParseError& error) {
    std::fprintf(stderr, "halfhard: make: %s\n", error.what());
    return kUnusable;
  }
  if (const auto wrong = take_overrides(overrides, options.line)) {
    std::fprintf(stderr, "halfhard: %s\n", wrong->c_str());
    return kUnusable;
  }
  options.pictures = !no_pictures;
  return make_jobs(options);
}

}  // namespace
}  // namespace halfhard

int main(int argc, char** argv) {
  return halfhard::guarded_main("halfhard: make", [&] { return halfhard::run_make(argc, argv); });
}
