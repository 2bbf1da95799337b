// A command of the program: one file and one line in the table (commands.cpp), from which help is printed.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "modeller/loading/load_job.h"

namespace halfhard {

// What stood on the command line after the command's name.
struct CommandLine : LoadOptions {
  std::vector<std::string> files;  // JOB..., KIND or whatever the command takes
  bool json = false;               // for programs instead of a person
  std::string run;                 // --run: this run only
  int take = 0;                    // --take: which path goes into the job; 0 for none
  std::string out;                 // --out: the file that is written
};

// Each NAME=VALUE of --set into the line, a later one in place of an earlier; what is wrong with the first bad one.
std::optional<std::string> take_overrides(const std::vector<std::string>& written, CommandLine& line);

struct Command {
  const char* name;
  const char* arguments;  // as help shows them
  const char* does;       // one line
  std::size_t least_files, most_files;
  // Prints what it has to say and returns the exit status. Null where another program does the work.
  int (*run)(const CommandLine&);
  // The program beside this one that is handed the whole command line instead.
  const char* program;
  bool prints_json = false;  // takes --json
  bool takes_paths = false;  // takes --run, --take and --out
};

std::span<const Command> commands();

int run_report(const CommandLine&);
int run_check(const CommandLine&);
int run_start(const CommandLine&);
int run_suggest(const CommandLine&);
int run_correct(const CommandLine&);
int run_calibrate(const CommandLine&);
int run_keys(const CommandLine&);
int run_checks_table(const CommandLine&);
int run_limits_table(const CommandLine&);

}  // namespace halfhard
