// A command of the program: one file and one line in the table (commands.cpp), from which help is printed.
#pragma once

#include <span>
#include <string>
#include <vector>

namespace halfhard {

// What every command understands.
struct CommandLine {
  std::vector<std::string> files;        // JOB..., KIND or whatever stands free
  std::vector<std::string> set;          // --set name=value, in order
  std::vector<std::string> allow;        // --allow DIR
  std::string out;                       // --out
  std::vector<std::string> passed_on;    // what only another program understands, as written
  std::string program;                   // path of this program, to find its neighbours
};

// Exit status of the program (contract, section 5).
inline constexpr int kAllWell = 0;
inline constexpr int kFindingFails = 1;
inline constexpr int kUnusable = 2;
inline constexpr int kFileTrouble = 3;

struct Command {
  const char* name;
  const char* arguments;  // as help shows them: "JOB..."
  const char* does;       // one line
  std::size_t least_files, most_files;
  bool takes_out = false;  // --out
  bool passes_on = false;  // options of its own, read by the program that does the work
  int (*run)(const CommandLine&);
};

std::span<const Command> commands();

int run_report(const CommandLine&);
int run_check(const CommandLine&);
int run_start(const CommandLine&);
int run_make(const CommandLine&);
int run_view(const CommandLine&);
int run_picture(const CommandLine&);
int run_suggest(const CommandLine&);
int run_correct(const CommandLine&);
int run_calibrate(const CommandLine&);

}  // namespace halfhard
