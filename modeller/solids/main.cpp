// halfhard-solids: what needs the solid kernel, in a process of its own, so that a bad STEP file can only kill it.
//   halfhard-solids triangles FILE.step      its solids on standard output, as triangle_stream.h says
// Exit status: 0 done; 2 the command line; 3 the file cannot be used, with one line on standard error that says why.
#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <new>
#include <string>

#include "geometry/base/tolerances.h"
#include "geometry/occt/solid.h"
#include "geometry/occt/step_body.h"
#include "modeller/solids/triangle_stream.h"
#include "modeller/system/files.h"

namespace halfhard {
namespace {

// The kernel prints as it pleases: what it says goes nowhere, and the way out is kept for the result.
int quiet_standard_output() {
  const int out = dup(1);
  const int nowhere = open("/dev/null", O_WRONLY);
  dup2(nowhere, 1);
  close(nowhere);
  return out;
}

bool write_all(int to, const std::string& bytes) {
  for (std::size_t done = 0; done < bytes.size();) {
    const ssize_t count = write(to, bytes.data() + done, bytes.size() - done);
    if (count < 0 && errno != EINTR) return false;
    done += count > 0 ? count : 0;
  }
  return true;
}

int triangles(const char* file, int out) {
  try {
    if (write_all(out, written_triangles(read_step_body_here(file, kTriangleDeviation_mm)))) return 0;
    std::fputs("the result cannot be written\n", stderr);
  } catch (const Trouble& failure) {
    std::fprintf(stderr, "%s\n", failure.what());
  } catch (const std::bad_alloc&) {
    std::fputs("it needs more memory than a body may\n", stderr);
  }
  return 3;
}

}  // namespace
}  // namespace halfhard

int main(int argc, char** argv) {
  halfhard::secure_standard_streams();
  if (argc != 3 || std::string(argv[1]) != "triangles") {
    std::fputs("halfhard-solids triangles FILE.step\n", stderr);
    return 2;
  }
  return halfhard::triangles(argv[2], halfhard::quiet_standard_output());
}
