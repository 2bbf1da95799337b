// How the window looks: light or dark, in the theme's own colours; what is in trouble has a heavy dashed frame besides.
#pragma once

namespace halfhard {

void dress_application(bool dark);

}  // namespace halfhard
