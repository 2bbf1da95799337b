#include "modeller/planner/site_checks.h"

#include "geometry/words/shown.h"
#include "modeller/planner/connections.h"

namespace halfhard {
namespace {

struct Place {
  std::string text;
  Vec3 at = Vec3::Zero();
};

std::optional<Place> place_of(const std::variant<Vec3, std::string>& place, const Job& job, Problems& problems) {
  if (const auto* point = std::get_if<Vec3>(&place)) {
    const auto shown = [&](int axis) { return shown_length_bare((*point)[axis], job.unit); };
    return Place{"(" + shown(0) + ", " + shown(1) + ", " + shown(2) + ")", *point};
  }
  const std::string& name = std::get<std::string>(place);
  const auto connection = resolved_connection(connection_of(job, JobEnd(name)), job, 0, problems);
  if (!connection) return std::nullopt;
  return Place{name, connection->at};
}

}  // namespace

std::vector<SiteCheck> site_checks_of(const Job& job, Problems& problems) {
  std::vector<SiteCheck> checks;
  for (const JobSiteCheck& written : job.site_checks) {
    const auto from = place_of(written.from, job, problems);
    const auto to = place_of(written.to, job, problems);
    if (!from || !to) continue;
    checks.push_back({from->text, to->text, from->at, to->at, written.measured_mm, written.within_mm,
                      (to->at - from->at).norm(), written.pointer});
  }
  return checks;
}

}  // namespace halfhard
