#include "modeller/commands/neighbour.h"

#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>

#include "modeller/commands/command.h"

namespace halfhard {

std::filesystem::path neighbour_program(const std::string& name) {
  std::error_code error;
  const auto self = std::filesystem::read_symlink("/proc/self/exe", error);
  return error ? std::filesystem::path(name) : self.parent_path() / name;
}

int become_program(const std::string& name, char** arguments) {
  const std::string path = neighbour_program(name).string();
  execv(path.c_str(), arguments);
  std::fprintf(stderr, "halfhard: cannot start %s: %s; build it with samples/run\n", path.c_str(),
               std::strerror(errno));
  return kFileTrouble;
}

}  // namespace halfhard
