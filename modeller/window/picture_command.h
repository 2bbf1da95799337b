// `halfhard picture JOB --out FILE.png`: the window's picture with no window.
#pragma once

namespace halfhard {

// Arguments as the program got them, from the word "picture" on. Returns the exit status: that of
// the job where the picture was written.
int run_picture(int argc, char** argv);

}  // namespace halfhard
