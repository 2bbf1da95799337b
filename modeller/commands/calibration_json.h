// What `calibrate` found, for programs: "halfhard-calibration/1".
#pragma once

#include <string>

#include "modeller/bench/calibrate.h"

namespace halfhard {

// Lengths mm, angles degrees, with the half-widths of 95 % intervals; null where no trial shows a figure.
std::string calibration_json(const Calibration& made);

}  // namespace halfhard
