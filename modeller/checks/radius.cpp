#include "modeller/checks/radius.h"

#include <optional>
#include <string>

#include "geometry/words/shown.h"
#include "modeller/catalogue/tube_sizes.h"
#include "modeller/checks/saying.h"

namespace halfhard {

void check_radius(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  if (run.bends.empty()) return;
  const Tube& tube = *run.tube;
  const double radius = run.line.radius_mm();
  const double od = tube.outside_diameter_mm;
  const auto has = [&](double beside_mm) {
    return in_quotes(run.name) + " is bent to a radius of " + length_beside(radius, beside_mm, job);
  };

  const Rule& kink = job.rules.kink_radius;
  if (radius < kink.value * od - kEnough_mm) {
    findings.push_back(say("radius-too-tight", Severity::fail, run,
                           has(kink.value * od) + ", and below " + shown_number(kink.value, 2) + " x OD (" +
                               length(kink.value * od, job) + ") this tube kinks: use a larger former" + kink.remark +
                               ".",
                           {radius, kink.value * od, "mm", kink.source}));
  }

  const Rule& own = job.rules.smallest_radius;
  struct Smallest {
    double radius_mm = 0;
    std::string source;
  };
  std::optional<Smallest> smallest;
  if (const auto published = least_radius(tube)) smallest = {published->radius_mm, std::string(published->source)};
  if (own.value > 0) smallest = {own.value * od, own.source};
  if (!smallest) {
    findings.push_back(say("radius-not-published", Severity::note, run,
                           "No least bending radius is published here for tube of " + shown_number(od, 3) + " mm, so " +
                               in_quotes(run.name) + " is only held to " + shown_number(kink.value, 2) + " x OD.",
                           {radius, kink.value * od, "mm", kink.source}));
  } else if (radius < smallest->radius_mm - kEnough_mm) {
    findings.push_back(say("radius-below-standard", Severity::warn, run,
                           has(smallest->radius_mm) + " where the least published for this half-hard tube is " +
                               length(smallest->radius_mm, job) +
                               "; published figures differ, so try the former on a scrap first and look for ripples" +
                               own.remark + ".",
                           {radius, smallest->radius_mm, "mm", smallest->source}));
  }

  const Rule& largest = job.rules.largest_cold_bent;
  if (od > largest.value + kEnough_mm) {
    findings.push_back(say("tube-too-large", Severity::warn, run,
                           in_quotes(run.name) + " is tube of " + shown_number(od, 3) +
                               " mm, and half-hard tube above " + shown_number(largest.value, 3) +
                               " mm is not for bending cold by hand" + largest.remark + ".",
                           {od, largest.value, "mm", largest.source}));
  }
}

}  // namespace halfhard
