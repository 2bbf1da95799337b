// Short jobs for tests, and what is wrong with them.
#pragma once

#include <string>
#include <vector>

#include "modeller/job/read_job.h"

namespace halfhard {

// What a job is made of; every part may be replaced. Sound as it stands.
struct JobText {
  std::string top;  // more members of the job, each ended by a comma
  std::string values = R"({ "pitch": 70, "angle": 45 })";
  std::string tubes = R"({ "15 mm": { "standard": "EN 1057", "size": "15 x 0.7" } })";
  std::string benders = R"({ "bench": { "former_radius": 55 } })";
  std::string fixtures = R"([ { "name": "wall", "plane": { "at": [0, 600, 0], "facing": "front" } } ])";
  std::string connections = R"({ "tap": { "at": [370, 460, 780], "towards": "down" } })";
  std::string site_checks = "[]";
  std::string run;  // more members of the run, each ended by a comma
  std::string from = R"({ "at": [300, 460, 350], "towards": "up" })";
  std::string path = R"([ { "go": "up", "by": 150 } ])";
  std::string banks = "[]";

  std::string text() const {
    return "{ " + top + R"( "format": "halfhard-job/1", "values": )" + values + R"(, "tubes": )" + tubes +
           R"(, "benders": )" + benders + R"(, "fixtures": )" + fixtures + R"(, "connections": )" + connections +
           R"(, "site_checks": )" + site_checks + R"(, "runs": [ { )" + run +
           R"( "name": "tail", "tube": "15 mm", "bender": "bench", "from": )" + from + R"(, "path": )" + path +
           R"( } ], "banks": )" + banks + " }";
  }
};

inline JobReading reading_of(const JobText& text) { return read_job(text.text(), {}); }

// The job, which must be sound.
inline Job sound(const JobText& text) {
  JobReading reading = reading_of(text);
  for (const JobProblem& problem : reading.problems) ADD_FAILURE() << problem.shown() << "\n" << text.text();
  return reading.job.value_or(Job{});
}

// The problems, each as "pointer: message".
inline std::vector<std::string> faults(const JobText& text) {
  std::vector<std::string> lines;
  for (const JobProblem& problem : reading_of(text).problems)
    lines.push_back(problem.pointer + ": " + problem.message());
  return lines;
}

// The only problem, which there must be.
inline std::string fault(const JobText& text) {
  const auto lines = faults(text);
  std::string all;
  for (const std::string& line : lines) all += (all.empty() ? "" : "\n") + line;
  return all.empty() ? "no fault" : all;
}

}  // namespace halfhard
