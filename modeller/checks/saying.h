// How a check puts what it found into a finding: plain words, figures as a plumber reads them.
#pragma once

#include <string>

#include "geometry/plan/finding.h"
#include "geometry/plan/run.h"
#include "modeller/job/job.h"

namespace halfhard {

// What was found against what is allowed, in `unit`.
struct Figure {
  double value = 0, limit = 0;
  std::string unit;
  std::string source;
};

Finding say(const char* id, Severity severity, const Run& run, std::string message, Figure figure = {});
Finding say_of_job(const char* id, Severity severity, std::string message, Figure figure, std::string pointer);

// The same with its place on site: on the centre line, in the middle of a bend, at an end.
Finding at_place(Finding finding, const Vec3& at);
Vec3 place_of_bend(const Run& run, int number);
Vec3 place_of_end(const Run& run, End end);

std::string in_quotes(const std::string& name);
// "'hot tail': bend 2", to begin a sentence with.
std::string at_bend(const Run& run, int number);
std::string end_in_words(End end);  // "start end", "far end"

// In the job's own unit, to 0.5 mm or 1/32 in.
std::string length(double mm, const Job& job);
// The same; finer where it would read the same as `beside_mm`, so that no sentence says "80 mm where 80 mm is needed".
std::string length_beside(double mm, double beside_mm, const Job& job);
// Rounded up, for what to leave at least; rounded down, for what may be reached.
std::string length_at_least(double mm, const Job& job);
std::string length_at_most(double mm, const Job& job);
std::string angle_beside(Angle angle, Angle beside);
std::string per_cent(double value);
// "(0, 480, 350)", for places.
std::string place(const Vec3& at, const Job& job);

// Rounding in the job's arithmetic never fails a length or an angle that is just enough.
inline constexpr double kEnough_mm = 1e-6;
inline constexpr double kEnough_deg = 1e-9;

}  // namespace halfhard
