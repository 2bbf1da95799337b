// Where the mouth of a connection is, worked out from walls where it was taped from them.
#pragma once

#include <optional>

#include "geometry/plan/fixture.h"
#include "modeller/job/job.h"
#include "modeller/job/plan_problem.h"

namespace halfhard {

// The point that lies as taped from three planes to the near face, centre or far face of a tube of that diameter lying
// along `axis` (unit; nothing where the tube's direction is unknown: then every face counts as seen square on).
// Adds a problem and returns nothing where the planes are not three independent ones.
std::optional<Vec3> resolved_point(const JobPoint& point, const Job& job, double outside_diameter_mm,
                                   const std::optional<Vec3>& axis, const std::string& pointer, Problems& problems);

// The connection with its point worked out for that tube.
std::optional<Connection> resolved_connection(const JobConnection& connection, const Job& job,
                                              double outside_diameter_mm, Problems& problems);

const JobConnection* find_connection(const Job& job, const std::string& name);
// The one named, or the one written in place. Requires that the name exists: the reader sees to it.
const JobConnection& connection_of(const Job& job, const JobEnd& end);

}  // namespace halfhard
