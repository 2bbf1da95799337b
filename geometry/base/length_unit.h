// The unit that a job is written in and that people read; everything is worked out in mm.
#pragma once

namespace halfhard {

enum class LengthUnit { mm, inch };

}  // namespace halfhard
