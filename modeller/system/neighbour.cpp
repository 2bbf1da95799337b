#include "modeller/system/neighbour.h"

#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "geometry/base/trouble.h"

namespace halfhard {

std::filesystem::path neighbour_program(const std::string& name) {
  std::error_code error;
  const auto self = std::filesystem::read_symlink("/proc/self/exe", error);
  return error ? std::filesystem::path(name) : self.parent_path() / name;
}

void become_program(const std::string& name, char** arguments) {
  const std::string path = neighbour_program(name).string();
  execv(path.c_str(), arguments);
  throw Trouble(path + " cannot be started: " + std::strerror(errno) + "; build it with samples/run");
}

}  // namespace halfhard
