// New parts of a job as JSON text, in the job file's own words. Lengths are in the job's unit.
#pragma once

#include <array>
#include <string>

#include "geometry/plan/plan.h"

namespace halfhard {

// A pipe between two named connections: straight out of the first, then wherever the two planes of the site's words meet.
struct NewPipe {
  std::string name, tube, bender, from, to;
  std::array<double, 3> from_at{}, to_at{};
  std::array<double, 3> from_towards{}, to_towards{};  // unit
  double first_leg = 150;                              // straight out of each fitting
};
// Without a path: that is for its ways to be found.
std::string pipe_json(const NewPipe& pipe);
// A path by hand, along the site's words only; starts along `from_towards` and arrives against `to_towards` where those are
// words.
std::string legs_json(const NewPipe& pipe);

// `step` as typed: a number, a length with its unit, an expression.
std::string bank_json(const std::string& of, int count, const std::string& word, const std::string& step);

enum class NewFixture { box, cylinder, wall, joist, step_body };
// About a place in the job's unit, at a size that can be seen and picked.
std::string fixture_json(NewFixture kind, const std::string& name, const std::array<double, 3>& about,
                         const std::string& file, LengthUnit unit);

std::string connection_json(const std::array<double, 3>& at);

}  // namespace halfhard
