#include "modeller/system/program.h"

#include <cstdio>
#include <new>

#include "geometry/base/trouble.h"
#include "modeller/system/files.h"

namespace halfhard {
namespace {

constexpr int kTrouble = 3;

int answered(const char* program, const std::function<int()>& work) {
  try {
    return work();
  } catch (const Trouble& trouble) {
    std::fprintf(stderr, "%s: %s\n", program, trouble.what());
  } catch (const std::bad_alloc&) {
    std::fprintf(stderr, "%s: this needs more memory than there is\n", program);
  } catch (const std::exception& failure) {
    std::fprintf(stderr, "%s: gave up: %s\n", program, failure.what());
  }
  return kTrouble;
}

}  // namespace

int guarded_main(const char* program, const std::function<int()>& work) {
  secure_standard_streams();
  const int status = answered(program, work);
  if (std::fflush(stdout) == 0 && std::ferror(stdout) == 0) return status;
  std::fprintf(stderr, "%s: what it had to say could not be written whole\n", program);
  return kTrouble;
}

}  // namespace halfhard
