// The picture of a job, drawn by the window program: a child, because a graphics library that finds no screen ends the
// whole process.
#pragma once

#include <string>

#include "modeller/commands/command.h"
#include "modeller/make/out_folder.h"

namespace halfhard {

// Adds picture.png. Returns why there is none, or "".
std::string add_picture(const std::string& job_file, const CommandLine& line, OutFolder& folder);

}  // namespace halfhard
