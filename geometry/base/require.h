// Assertions that stay on in release: a failed one is a bug of ours, never the fault of a job.
#pragma once

#include <cstdio>
#include <cstdlib>

#define HALFHARD_REQUIRE(condition)                                                                       \
  do {                                                                                                    \
    if (!(condition)) {                                                                                   \
      std::fprintf(stderr, "halfhard: bug at %s:%d: %s does not hold\n", __FILE__, __LINE__, #condition); \
      std::abort();                                                                                       \
    }                                                                                                     \
  } while (false)
