// The program: picks the command, reads what all commands understand, hands over.
#include <CLI/CLI.hpp>
#include <cstdio>
#include <string>
#include <vector>

#include "modeller/commands/command.h"
#include "modeller/job/read_job.h"
#include "modeller/system/neighbour.h"
#include "modeller/system/program.h"

namespace halfhard {
namespace {

void print_help() {
  std::puts("halfhard COMMAND ...: bent copper tube from a job file\n");
  for (const Command& command : commands()) {
    std::printf("  %-9s %-20s %s\n", command.name, command.arguments, command.does);
  }
  std::puts(
      "\n--set NAME=VALUE overrides a value of the job in any of them; --allow DIR lets a job use files under DIR.\n"
      "Exit status: 0 all well; 1 a finding fails or nothing was found; 2 the job or the command line cannot be used;\n"
      "3 a file is missing or cannot be read or written.");
}

const Command* find_command(const std::string& name) {
  for (const Command& command : commands()) {
    if (name == command.name) return &command;
  }
  return nullptr;
}

int unusable(const std::string& message) {
  std::fprintf(stderr, "halfhard: %s\n", message.c_str());
  return kUnusable;
}

int unknown_command(const std::string& name) {
  std::vector<std::string> names;
  for (const Command& command : commands()) names.push_back(command.name);
  const std::string nearest = nearest_name(name, names);
  return unusable("command " + in_quotes(name) + ", allowed " + names_in_quotes(names) +
                  (nearest.empty() ? "" : " (did you mean " + in_quotes(nearest) + "?)"));
}

int run(const Command& command, int argc, char** argv) {
  CLI::App app(command.does, std::string("halfhard ") + command.name);
  CommandLine line;
  std::vector<std::string> overrides;
  app.add_option("files", line.files, command.arguments);
  app.add_option("--set", overrides, "NAME=VALUE: overrides a value of the job")->allow_extra_args(false);
  app.add_option("--allow", line.allow, "DIR: the job may use files under it")->allow_extra_args(false);
  if (command.prints_json) app.add_flag("--json", line.json, "what it finds as JSON, for programs");
  if (command.takes_paths) {
    app.add_option("--run", line.run, "NAME: this run only");
    app.add_option("--take", line.take, "N: writes the job with the N-th path in it to the --out file")
        ->check(CLI::PositiveNumber);
    app.add_option("--out", line.out, "FILE: where --take writes the job");
    app.footer(
        "complete_to_bends 1: where no path of one bend or none is listed, none exists for ends whose lines meet "
        "within\n"
        "0.05 mm. With more bends, lengths that may vary are tried 24 mm apart at standard angles; none found there\n"
        "proves nothing.");
  }
  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    std::fputs(app.help().c_str(), stdout);
    return kAllWell;
  } catch (const CLI::ParseError& error) {
    return unusable(std::string(command.name) + ": " + error.what());
  }
  if (const auto wrong = take_overrides(overrides, line)) return unusable(*wrong);
  if (line.files.size() < command.least_files || line.files.size() > command.most_files) {
    return unusable(std::string(command.name) + " takes " + command.arguments + ", found " +
                    std::to_string(line.files.size()) + " of them");
  }
  return command.run(line);
}

int run_program(int argc, char** argv) {
  const std::string name = argc > 1 ? argv[1] : "";
  if (name.empty() || name == "help" || name == "--help" || name == "-h") {
    print_help();
    return name.empty() ? kUnusable : kAllWell;
  }
  const Command* command = find_command(name);
  if (!command) return unknown_command(name);
  if (command->program) become_program(command->program, argv);
  return run(*command, argc - 1, argv + 1);
}

}  // namespace
}  // namespace halfhard

int main(int argc, char** argv) {
  return halfhard::guarded_main("halfhard", [&] { return halfhard::run_program(argc, argv); });
}
