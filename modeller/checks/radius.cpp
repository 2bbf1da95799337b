#include "modeller/checks/radius.h"

#include <array>
#include <cmath>

#include "geometry/shown.h"
#include "modeller/checks/limits.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

constexpr const char* kEn1057 = "DIN EN 1057 table for R250, IKZ-Praxis 2/2000 p. 8";
constexpr const char* kFromMemory = "least radius for R250, from memory";
constexpr const char* kHandbook = "Copper Tube Handbook, bending guide, drawn tube";
constexpr double kSameSize_mm = 0.3;
constexpr double kInch_mm = 25.4;

struct Row {
  double outside_diameter_mm, radius_mm;
  const char* source;
};

constexpr std::array kRows = {
    Row{6, 30, kEn1057},      Row{8, 35, kEn1057},       Row{10, 40, kEn1057}, Row{12, 45, kEn1057},
    Row{14, 50, kEn1057},     Row{15, 55, kEn1057},      Row{16, 60, kEn1057}, Row{18, 70, kEn1057},
    Row{22, 77, kFromMemory}, Row{28, 114, kFromMemory},
};
constexpr std::array kInchRows = {
    Row{0.500 * kInch_mm, 1.75 * kInch_mm, kHandbook},
    Row{0.625 * kInch_mm, 2.5 * kInch_mm, kHandbook},
    Row{0.875 * kInch_mm, 3 * kInch_mm, kHandbook},
};

template <typename Rows>
std::optional<SmallestRadius> look_up(const Rows& rows, double outside_diameter_mm) {
  for (const Row& row : rows) {
    if (std::abs(row.outside_diameter_mm - outside_diameter_mm) < kSameSize_mm) return {{row.radius_mm, row.source}};
  }
  return std::nullopt;
}

}  // namespace

std::optional<SmallestRadius> published_smallest_radius(const Tube& tube) {
  if (tube.standard == "ASTM B88") return look_up(kInchRows, tube.outside_diameter_mm);
  return look_up(kRows, tube.outside_diameter_mm);
}

void check_radius(const RunContext& context, std::vector<Finding>& findings) {
  const auto& [run, job] = context;
  if (run.bends.empty()) return;
  const Tube& tube = *run.tube;
  const double radius = run.line.radius_mm();
  const double od = tube.outside_diameter_mm;
  const auto has = [&](double beside_mm) {
    return in_quotes(run.name) + " is bent to a radius of " + length_beside(radius, beside_mm, job);
  };

  const LimitInUse kink = limit_in_use(job, "kink_radius");
  if (radius < kink.value * od - kEnough_mm) {
    findings.push_back(say("radius-too-tight", Severity::fail, run,
                           has(kink.value * od) + ", and below " + shown_number(kink.value, 2) + " x OD (" +
                               length(kink.value * od, job) + ") this tube kinks: use a larger former" + kink.remark +
                               ".",
                           {radius, kink.value * od, "mm", kink.source}));
  }

  const LimitInUse own = limit_in_use(job, "smallest_radius");
  std::optional<SmallestRadius> smallest = published_smallest_radius(tube);
  if (own.value > 0) smallest = {{own.value * od, own.source}};
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

  const LimitInUse largest = limit_in_use(job, "largest_cold_bent");
  if (od > largest.value + kEnough_mm) {
    findings.push_back(say("tube-too-large", Severity::warn, run,
                           in_quotes(run.name) + " is tube of " + shown_number(od, 3) +
                               " mm, and half-hard tube above " + shown_number(largest.value, 3) +
                               " mm is not for bending cold by hand" + largest.remark + ".",
                           {od, largest.value, "mm", largest.source}));
  }
}

}  // namespace halfhard
