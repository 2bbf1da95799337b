#include "viewer/vtk/display.h"

#include <X11/Xlib.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>

namespace halfhard {
namespace {

constexpr int kStartTimeout_ms = 15000;

// The display number that the server wrote, or nothing where it ended or took too long.
std::string number_from(int pipe_end) {
  std::string number;
  pollfd waiting{pipe_end, POLLIN, 0};
  while (number.find('\n') == std::string::npos) {
    char buffer[16];
    if (poll(&waiting, 1, kStartTimeout_ms) <= 0) return {};
    const ssize_t got = read(pipe_end, buffer, sizeof buffer);
    if (got <= 0) return {};
    number.append(buffer, static_cast<size_t>(got));
  }
  return number.substr(0, number.find('\n'));
}

// Runs in the child; only calls that are safe after a fork.
[[noreturn]] void become_server(int write_end, const char* descriptor) {
  prctl(PR_SET_PDEATHSIG, SIGTERM);
  const int nothing = open("/dev/null", O_RDWR);
  dup2(nothing, STDIN_FILENO);
  dup2(nothing, STDOUT_FILENO);
  dup2(nothing, STDERR_FILENO);
  fcntl(write_end, F_SETFD, 0);
  execlp("Xvfb", "Xvfb", "-displayfd", descriptor, "-screen", "0", "1280x1024x24", "-nolisten", "tcp", "-noreset",
         static_cast<char*>(nullptr));
  _exit(127);
}

}  // namespace

bool display_reachable() {
  const char* name = std::getenv("DISPLAY");
  if (!name || !*name) return false;
  Display* display = XOpenDisplay(nullptr);
  if (!display) return false;
  XCloseDisplay(display);
  return true;
}

bool PrivateDisplay::start() {
  int ends[2];
  if (pipe2(ends, O_CLOEXEC) != 0) {
    problem_ = "no pipe to a virtual display could be made";
    return false;
  }
  const std::string descriptor = std::to_string(ends[1]);
  server_ = fork();
  if (server_ == 0) become_server(ends[1], descriptor.c_str());
  close(ends[1]);
  const std::string number = server_ > 0 ? number_from(ends[0]) : std::string();
  close(ends[0]);
  if (!number.empty()) {
    setenv("DISPLAY", (":" + number).c_str(), 1);
    if (display_reachable()) return true;
  }
  problem_ =
      "there is no display, and no virtual one could be started: install the package xvfb, or run this where a "
      "screen can be reached";
  return false;
}

PrivateDisplay::~PrivateDisplay() {
  if (server_ <= 0) return;
  kill(server_, SIGTERM);
  waitpid(server_, nullptr, 0);
}

}  // namespace halfhard
