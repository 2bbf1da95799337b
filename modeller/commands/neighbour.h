// The other programs of the house stand beside this one.
#pragma once

#include <filesystem>
#include <string>

namespace halfhard {

// Full path of the program `name` beside the running one.
std::filesystem::path neighbour_program(const std::string& name);

// Becomes that program, with the same arguments. Returns (the exit status to leave with) only where that fails, after
// one line on standard error.
int become_program(const std::string& name, char** arguments);

}  // namespace halfhard
