// The job that edits are measured on: ten runs of ten bends beside fifty boxes, listing within 50 mm. `leg` moves the
// first run only.
#pragma once

#include <string>

namespace halfhard {

inline std::string ten_runs_and_fifty_fixtures() {
  std::string text = R"({"format": "halfhard-job/1", "list_clearances_within": 50, "values": {"leg": 200, "other": 200},
    "tubes": {"t": {"standard": "EN 1057", "size": "15 x 0.7"}}, "benders": {"b": {"former_radius": 55}}, "fixtures": [)";
  for (int i = 0; i < 50; ++i) {
    const std::string x = std::to_string(60 * i);
    text += std::string(i ? "," : "") + R"({"name": "box )" + std::to_string(i) + R"(", "box": {"from": [)" + x +
            ", -90, 0], \"to\": [" + x + ".5, -50, 400]}}";
  }
  text += "], \"runs\": [";
  for (int i = 0; i < 10; ++i) {
    text += std::string(i ? "," : "") + R"({"name": "run )" + std::to_string(i) +
            R"(", "tube": "t", "bender": "b", "from": {"at": [)" + std::to_string(300 * i) +
            R"(, 0, 0], "towards": "up"}, "path": [{"go": "up", "by": ")" + (i == 0 ? "leg" : "other") + R"("})";
    for (int k = 0; k < 5; ++k) {
      text += k % 2 ? R"(, {"go": "left", "by": 130}, {"go": "up", "by": 140})"
                    : R"(, {"go": "right", "by": 130}, {"go": "up", "by": 140})";
    }
    text += "]}";
  }
  return text + "]}";
}

}  // namespace halfhard
