// The window's program; started by `halfhard view` and `halfhard picture`, with their words.
#include <cstdio>
#include <cstring>

#include "modeller/commands/command.h"
#include "modeller/system/program.h"
#include "modeller/window/picture_command.h"
#include "modeller/window/view_command.h"

namespace {

int run(int argc, char** argv) {
  if (argc > 1 && std::strcmp(argv[1], "picture") == 0) return halfhard::run_picture(argc - 1, argv + 1);
  if (argc > 1 && std::strcmp(argv[1], "view") == 0) return halfhard::run_view(argc - 1, argv + 1);
  std::fputs("halfhard-window: say view [JOB] or picture JOB --out FILE.png\n", stderr);
  return halfhard::kUnusable;
}

}  // namespace

int main(int argc, char** argv) {
  return halfhard::guarded_main("halfhard", [&] { return run(argc, argv); });
}
