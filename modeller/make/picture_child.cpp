#include "modeller/make/picture_child.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

#include "modeller/commands/neighbour.h"

extern char** environ;

namespace halfhard {
namespace {

std::vector<std::string> picture_command(const std::string& job_file, const CommandLine& line,
                                         const std::filesystem::path& png) {
  std::vector<std::string> words = {neighbour_program("halfhard-window").string(), "picture", job_file, "--out",
                                    png.string()};
  for (const auto& [name, value] : line.set) words.insert(words.end(), {"--set", name + "=" + value});
  for (const std::string& folder : line.allow) words.insert(words.end(), {"--allow", folder});
  return words;
}

// Runs it with its chatter thrown away; -1 where it cannot be started.
int run(const std::vector<std::string>& words) {
  std::vector<char*> arguments;
  for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const int failed = posix_spawn(&child, arguments[0], &actions, nullptr, arguments.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  if (failed) return -1;
  int status = 0;
  while (waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace

std::string add_picture(const std::string& job_file, const CommandLine& line, OutFolder& folder) {
  if (!std::filesystem::exists(neighbour_program("halfhard-window"))) return "halfhard-window is not built";
  const std::filesystem::path aside = folder.path() / (".picture." + std::to_string(getpid()) + ".png");
  const int status = run(picture_command(job_file, line, aside));
  std::error_code error;
  std::string png;
  {
    std::ifstream file(aside, std::ios::binary);
    png.assign(std::istreambuf_iterator<char>(file), {});
  }
  std::filesystem::remove(aside, error);
  // 1: a finding fails, and the picture shows where.
  if ((status != kAllWell && status != kFindingFails) || png.empty()) {
    return "halfhard picture " + job_file + " says why";
  }
  folder.write("picture.png", png);
  return {};
}

}  // namespace halfhard
