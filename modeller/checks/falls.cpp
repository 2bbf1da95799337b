#include "modeller/checks/falls.h"

#include <cmath>

#include "geometry/base/tolerances.h"
#include "geometry/words/shown.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

constexpr const char* kPractice = "common practice, no source";

// +1 rising along travel, -1 falling, 0 level within 0.01 degree.
int slope_sign(const CentreLine& line, int leg) {
  const double z = line.leg_direction(leg).z();
  const double level = std::sin(Angle::degrees(kSameDirection_deg).radians());
  return z > level ? 1 : z < -level ? -1 : 0;
}

// Rise of a leg along its level length, %, in the direction of travel.
double slope_percent(const CentreLine& line, int leg) {
  const Vec3 along = line.leg_direction(leg);
  const double level = std::hypot(along.x(), along.y());
  return level < 1e-9 ? std::copysign(1e9, along.z()) : 100 * along.z() / level;
}

std::string leg_of(const Run& run, int leg) { return in_quotes(run.name) + ": leg " + std::to_string(leg + 1); }

void check_climb(const RunContext& context, bool vent, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  const CentreLine& line = run.line;
  const int up = line.points().back().z() >= line.points().front().z() ? 1 : -1;
  const Rule& least = job.rules.least_fall;
  for (int leg = 0; leg < line.leg_count(); ++leg) {
    const int sign = slope_sign(line, leg) * up;
    const double percent = slope_percent(line, leg) * up;
    if (sign <= 0) {
      const std::string does = sign == 0 ? " lies level" : vent ? " falls" : " rises against the flow";
      const std::string must =
          vent ? ", but a vent must rise all the way." : ", but a discharge must fall all the way.";
      findings.push_back(say(vent ? "vent-does-not-rise" : "discharge-does-not-fall", Severity::fail, run,
                             leg_of(run, leg) + does + must, {percent, 0, "%", kPractice}));
    } else if (!vent && percent < least.value - kEnough_mm) {
      findings.push_back(say("discharge-does-not-fall", Severity::warn, run,
                             leg_of(run, leg) + " falls " + shown_number(percent, 2) + " % where a discharge needs " +
                                 shown_number(least.value, 2) + " %" + least.remark + ".",
                             {percent, least.value, "%", least.source}));
    }
  }
}

// The first leg of each stretch that turns from rising to falling (peak) or the other way.
void check_turning_points(const RunContext& context, bool peaks, Severity severity, const char* id,
                          const std::string& tells, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  int before = 0;
  double most = 0;
  Vec3 at = Vec3::Zero();
  const int first = peaks ? 1 : -1;
  int found = 0;
  for (int leg = 0; leg < run.line.leg_count(); ++leg) {
    const int sign = slope_sign(run.line, leg);
    if (sign == 0) continue;
    if (before == first && sign == -first) {
      ++found;
      const Vec3& point = run.line.points()[leg];
      if (found == 1 || (point.z() - most) * first > 0) at = point, most = point.z();
    }
    before = sign;
  }
  if (found == 0) return;
  findings.push_back(
      say(id, severity, run,
          in_quotes(run.name) + " has a " + (peaks ? "high" : "low") + " point at " + place(at, job) + tells,
          {static_cast<double>(found), 0, "places", kPractice}));
}

}  // namespace

void check_rise_and_fall(const RunContext& context, std::vector<Finding>& findings) {
  if (context.run.service == Service::vent) check_climb(context, true, findings);
  if (context.run.service == Service::discharge) check_climb(context, false, findings);
}

void check_high_and_low_points(const RunContext& context, std::vector<Finding>& findings) {
  switch (context.run.service) {
    case Service::heating_flow:
    case Service::heating_return:
      check_turning_points(context, true, Severity::warn, "high-point",
                           " that traps air: fit an air vent there or keep it rising.", findings);
      check_turning_points(context, false, Severity::note, "low-point",
                           " that does not drain by itself: fit a drain cock or keep it falling.", findings);
      break;
    case Service::cold:
    case Service::hot:
      check_turning_points(context, true, Severity::note, "high-point",
                           " where air can gather: let it out at a tap above or lay it without the hump.", findings);
      check_turning_points(context, false, Severity::note, "low-point",
                           " that does not drain by itself: mind frost and draining down.", findings);
      break;
    case Service::waste:
      check_turning_points(context, false, Severity::warn, "low-point", " that holds water: keep it falling.",
                           findings);
      break;
    default:
      break;
  }
}

}  // namespace halfhard
