// `halfhard view [JOB]`: the window.
#pragma once

namespace halfhard {

// Arguments from the word "view" on. Says in one line why there is no window where no display can be reached.
int run_view(int argc, char** argv);

}  // namespace halfhard
