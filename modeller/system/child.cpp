#include "modeller/system/child.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <chrono>

namespace halfhard {
namespace {

constexpr std::size_t kMostOutput = 2'000'000'000;
constexpr std::size_t kMostError = 4096;

struct Pipe {
  int ends[2] = {-1, -1};
  bool open() { return pipe2(ends, O_CLOEXEC) == 0; }
  void close_end(int end) {
    if (ends[end] >= 0) close(ends[end]);
    ends[end] = -1;
  }
  ~Pipe() {
    close_end(0);
    close_end(1);
  }
};

// A file of no folder that holds `text`, at its beginning; below 0 where there is none to be had.
int memory_file(const std::string& text) {
  const int file = memfd_create("input", MFD_CLOEXEC);
  for (std::size_t at = 0; file >= 0 && at < text.size();) {
    const ssize_t count = write(file, text.data() + at, text.size() - at);
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) return close(file), -1;
    at += static_cast<std::size_t>(count);
  }
  if (file >= 0) lseek(file, 0, SEEK_SET);
  return file;
}

// Between fork and exec: async-signal-safe calls only.
[[noreturn]] void become(char* const* arguments, int input, int output, int error, const ChildLimits& limits) {
  prctl(PR_SET_PDEATHSIG, SIGKILL);
  dup2(input, 0);
  dup2(output, 1);
  dup2(error, 2);
#ifndef __SANITIZE_ADDRESS__  // which needs terabytes of addresses
  const rlim_t bytes = static_cast<rlim_t>(limits.megabytes) << 20;
  const rlimit memory = {bytes, bytes};
  if (limits.megabytes > 0) setrlimit(RLIMIT_AS, &memory);
#endif
  const rlimit time = {static_cast<rlim_t>(limits.seconds + 1), static_cast<rlim_t>(limits.seconds + 1)};
  setrlimit(RLIMIT_CPU, &time);
  const rlimit no_core = {0, 0};
  setrlimit(RLIMIT_CORE, &no_core);
  execv(arguments[0], arguments);
  _exit(127);
}

// False at the end of the pipe.
bool read_some(int from, std::string& to, std::size_t most) {
  char buffer[65536];
  const ssize_t count = read(from, buffer, sizeof buffer);
  if (count < 0) return errno == EINTR || errno == EAGAIN;
  to.append(buffer, std::min<std::size_t>(count, most - std::min(most, to.size())));
  return count > 0;
}

// Until both pipes end or time is up; whether they ended.
bool read_until_end(Pipe& output, Pipe& error, int seconds, ChildResult& result) {
  const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(seconds);
  while (output.ends[0] >= 0 || error.ends[0] >= 0) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(end - std::chrono::steady_clock::now());
    if (left.count() <= 0) return false;
    pollfd waiting[2] = {{output.ends[0], POLLIN, 0}, {error.ends[0], POLLIN, 0}};
    if (poll(waiting, 2, static_cast<int>(left.count())) <= 0) continue;
    if (waiting[0].revents && !read_some(output.ends[0], result.output, kMostOutput)) output.close_end(0);
    if (waiting[1].revents && !read_some(error.ends[0], result.error, kMostError)) error.close_end(0);
  }
  return true;
}

}  // namespace

ChildResult run_limited(const std::vector<std::string>& arguments, const ChildLimits& limits,
                        const std::string& input) {
  ChildResult result;
  Pipe output, error;
  const int given = memory_file(input);
  if (given < 0 || !output.open() || !error.open()) return result;
  std::vector<char*> words;
  for (const std::string& argument : arguments) words.push_back(const_cast<char*>(argument.c_str()));
  words.push_back(nullptr);
  const pid_t child = fork();
  if (child == 0) become(words.data(), given, output.ends[1], error.ends[1], limits);
  close(given);
  if (child < 0) return result;
  output.close_end(1);
  error.close_end(1);
  const bool ended = read_until_end(output, error, limits.seconds, result);
  if (!ended) kill(child, SIGKILL);
  int status = 0;
  while (waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  using Ending = ChildResult::Ending;
  if (!ended) {
    result.ending = Ending::out_of_time;
  } else if (WIFSIGNALED(status)) {
    result.code = WTERMSIG(status);
    result.ending = result.code == SIGXCPU || result.code == SIGKILL ? Ending::out_of_time : Ending::signalled;
  } else {
    result.code = WEXITSTATUS(status);
    result.ending = result.code == 127 ? Ending::not_started : Ending::exited;
  }
  return result;
}

}  // namespace halfhard
