// Whether there is a display to draw on. This library build ENDS the process where there is none, so ask first.
#pragma once

#include <sys/types.h>
#include <string>

namespace halfhard {

// Whether the X display that the environment names answers.
bool display_reachable();

// A virtual display of our own (the X server Xvfb), started where there is none and ended with this object. It is also
// ended by the kernel where this process is killed. Sets DISPLAY in this process while it lives.
class PrivateDisplay {
 public:
  PrivateDisplay() = default;
  ~PrivateDisplay();
  PrivateDisplay(const PrivateDisplay&) = delete;
  PrivateDisplay& operator=(const PrivateDisplay&) = delete;

  // True where a display can be drawn on afterwards. Otherwise `problem()` says in one line what to install or do.
  bool start();
  const std::string& problem() const { return problem_; }

 private:
  pid_t server_ = 0;
  std::string problem_;
};

}  // namespace halfhard
