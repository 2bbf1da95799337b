// The world failed: a file, a font, a child process, the memory. The one exception of the programs; every main and every
// worker catches it and says its sentence. A bad job is no such thing (see JobProblem), a bad design neither (Finding).
#pragma once

#include <stdexcept>

namespace halfhard {

class Trouble : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;  // one sentence for a person, without its program's name
};

}  // namespace halfhard
