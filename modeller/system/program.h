// What every main does the same way.
#pragma once

#include <functional>

namespace halfhard {

// Runs `work`, and answers what nobody else caught with one line on standard error that begins with `program`, and the
// exit status of trouble with files (3). What could not be said on standard output is trouble too.
int guarded_main(const char* program, const std::function<int()>& work);

}  // namespace halfhard
