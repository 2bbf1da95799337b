// Reads STEP files back with the general kernel: what a program that is not ours finds in them.
#pragma once

#include <string>
#include <vector>

#include "geometry/occt/solid.h"

namespace halfhard {

struct ReadPart {
  std::string name;  // of the instance, or of the part where it is not in an assembly
  std::string product_name;
  Solid solid;                             // placed
  int shape = 0;                           // instances of one shape have the same number
  double red = -1, green = -1, blue = -1;  // linear; -1 where no colour was found
};

struct ReadFile {
  std::string assembly_name;  // empty where there is no assembly
  std::vector<ReadPart> parts;
};

// Throws std::runtime_error where the text is not read without a fault.
ReadFile read_back(const std::string& step_text);

}  // namespace halfhard
