#include "tests/modeller/commands/run_program.h"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace halfhard {
namespace {

std::string temporary_file(const char* what) {
  std::string name = std::filesystem::temp_directory_path() / (std::string("halfhard-") + what + "-XXXXXX");
  const int file = mkstemp(name.data());
  if (file >= 0) close(file);
  return name;
}

[[noreturn]] void become(const std::string& program, const std::vector<std::string>& words, const std::string& folder,
                         const std::string& out, const std::string& err) {
  std::vector<char*> arguments = {const_cast<char*>(program.c_str())};
  for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  if (chdir(folder.c_str()) != 0) _exit(126);
  dup2(open("/dev/null", O_RDONLY), STDIN_FILENO);
  dup2(open(out.c_str(), O_WRONLY | O_TRUNC), STDOUT_FILENO);
  dup2(open(err.c_str(), O_WRONLY | O_TRUNC), STDERR_FILENO);
  execv(program.c_str(), arguments.data());
  _exit(127);
}

}  // namespace

std::string text_of_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

Said run_program(const std::string& program, const std::vector<std::string>& words, const std::string& folder) {
  const std::string out = temporary_file("out");
  const std::string err = temporary_file("err");
  const std::string path = std::string(HALFHARD_PROGRAMS) + "/" + program;
  const pid_t child = fork();
  if (child == 0) become(path, words, folder, out, err);
  Said said;
  int status = 0;
  while (waitpid(child, &status, 0) < 0) {
  }
  if (WIFEXITED(status)) said.status = WEXITSTATUS(status);
  said.out = text_of_file(out);
  said.err = text_of_file(err);
  std::filesystem::remove(out);
  std::filesystem::remove(err);
  return said;
}

}  // namespace halfhard
