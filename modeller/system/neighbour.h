// The other programs of the house stand beside this one.
#pragma once

#include <filesystem>
#include <string>

namespace halfhard {

// Full path of the program `name` beside the running one.
std::filesystem::path neighbour_program(const std::string& name);

// Becomes that program, with the same arguments. Throws Trouble where it cannot be started.
[[noreturn]] void become_program(const std::string& name, char** arguments);

}  // namespace halfhard
